"""Hatching, as lines of its own: at the outline of waste, all over a section.

Wood grain is never drawn and waste is hatched only in a band along its outline, since a stray
line on a template is soon taken for a working edge. The hatch lines lie on one grid of the
whole drawing, so hatch before a drawing is cut into pages and they run on across the seams.
"""

from itertools import pairwise
from math import cos, floor, radians, sin
from typing import Any

import numpy as np
import shapely

from figures.ink.drawing import Area, Drawing, Stroke, label_box
from figures.ink.pens import FILLS

BAND_IN = 0.1875
"""Width of the hatched band inside the outline of waste [in]."""
SPACING_IN = 0.125
"""Distance between hatch lines, square to them [in]."""
ANGLES_DEG = (45.0, 135.0, 60.0, 120.0, 30.0, 150.0)
"""Directions that hatch lines may take, the usual one first."""
HALO_IN = 0.04
"""Paper kept clear of hatching round a label with a halo [in]."""


def hatched(drawing: Drawing) -> Drawing:
    """The drawing with its waste and section areas turned into hatch strokes.

    Other areas stay as they are. Labels with a halo keep their paper clear of the hatching.
    """
    clear = shapely.union_all([label_box(label, HALO_IN) for label in drawing.labels if label.halo])
    strokes = tuple(stroke for area in drawing.areas for stroke in _hatching(area, clear))
    solid = tuple(area for area in drawing.areas if FILLS[area.fill] is not None)
    return Drawing(strokes + drawing.strokes, solid, drawing.labels)


def _hatching(area: Area, clear: Any) -> tuple[Stroke, ...]:
    if area.fill == "waste":
        region = shapely.difference(area.polygon, shapely.buffer(area.polygon, -BAND_IN))
    elif area.fill == "section":
        region = area.polygon
    else:
        return ()
    region = shapely.difference(region, clear)
    if region.is_empty:
        return ()
    # Line by line: none meets another, and all at once would be looked through for that.
    shapely.prepare(region)
    parts = shapely.get_parts(shapely.intersection(_grid(region, _direction(area.polygon)), region))
    parts = parts[shapely.length(parts) > BAND_IN / 8]
    spots = [(x, y) for x, y in shapely.get_coordinates(parts).tolist()]
    ends = np.cumsum(shapely.get_num_coordinates(parts)).tolist()
    return tuple(
        Stroke(tuple(spots[first:last]), "hatch", area.gid) for first, last in pairwise([0, *ends])
    )


def _direction(polygon: Any) -> float:
    """The first direction that stands well off every longer edge, so that hatching shows [deg]."""
    edges = [
        np.diff(np.asarray(ring.coords), axis=0)
        for part in shapely.get_parts(polygon)
        for ring in (part.exterior, *part.interiors)
    ]
    dx, dy = np.concatenate(edges).T
    lengths = np.hypot(dx, dy)
    long = lengths > lengths.sum() / 12
    leans = np.degrees(np.arctan2(dy[long], dx[long]))

    def clearance(angle_deg: float) -> float:
        apart = np.abs((leans - angle_deg + 90) % 180 - 90)
        return float(min(apart.min(initial=90.0), 25.0))

    return max(ANGLES_DEG, key=clearance)


def _grid(region: Any, angle_deg: float) -> Any:
    """Hatch lines of the whole plane that can meet a region: line 0 runs through the origin."""
    along = np.array((cos(radians(angle_deg)), sin(radians(angle_deg))))
    across = np.array((-along[1], along[0]))
    left, bottom, right, top = shapely.bounds(region)
    corners = np.array([(left, bottom), (left, top), (right, bottom), (right, top)])
    first = floor((corners @ across).min() / SPACING_IN)
    last = floor((corners @ across).max() / SPACING_IN) + 1
    offsets = np.arange(first, last + 1)[:, None] * SPACING_IN * across
    begin, end = (corners @ along).min() - 1, (corners @ along).max() + 1
    ends = np.stack([offsets + begin * along, offsets + end * along], axis=1)
    return shapely.linestrings(ends)
