"""A framed roof cut through, square to its ridge at a common, to scale.

What the plane meets is hatched, the rafters in it are seen whole. Heights are taken from the top
of the plates. Dimensions as common drafting practice has them (ISO 129: from memory).
"""

from dataclasses import dataclass
from math import atan2, degrees

import numpy as np
import shapely

from figures.ink.drawing import Area, Drawing, Polygon, Stroke
from figures.pictures.roof_views import (
    CARRIERS,
    LEVEL,
    SAME_IN,
    Framed,
    middle_of,
    roof_dimension,
    roof_scales,
)
from figures.place.placing import Words
from figures.place.room import Picture, Room, in_room
from figures.wood.projection import View, Walls, edges_behind, looking
from figures.wood.scene import points_of
from layout.errors import SheetError
from layout.framing.stick import Stick
from layout.plane.solid import convex_corners
from layout.quantity import write_degrees, write_fraction, write_metric
from layout.vector import Array, Z, unit, vector

LEAST_THROUGH = 0.3
"""A stick that runs along the section more than this is seen in it, and not cut through."""
WALL_IN = 14.0
"""How much wall is shown under a plate in the section [in of wood]."""


def roof_section(roof: Framed, room: Room, *, metric: bool = False) -> Drawing:
    """A section square to the ridge at a common, with heights, run, span and overhang.

    From (0, 0) to the room's width and height [in on paper]. Gids: `cut-through` on what the
    section cuts, `stick-NAME` on the rafters in it. Raises SheetError where the roof has no
    rafter to cut at, and for a room that is too small.
    """
    section = _section(roof)
    notes, cut = _section_notes(roof, section, metric), _cut(roof, section)
    return in_room(
        f"Section at {section.main.name}, seen along the ridge",
        notes,
        room,
        lambda factor: _section_picture(roof, section, cut, factor, metric),
        scales=roof_scales(metric),
    )


@dataclass(frozen=True)
class Section:
    """A plumb plane square to the ridge: `along` (3,) is its normal, `level_in` its place.

    `main` is the rafter it is laid at, `rafters` all that stand in it.
    """

    view: View
    along: Array
    level_in: float
    main: Stick
    rafters: tuple[Stick, ...]

    def cut(self, stick: Stick) -> Polygon:
        """What the plane meets of a stick, as it is seen [in]."""
        shapes = []
        for normals, levels in stick.solid.pieces:
            points = convex_corners(
                np.vstack([normals, self.along, -self.along]),
                np.concatenate([levels, [self.level_in, -self.level_in]]),
            )
            if len(points) >= 3:
                shapes.append(shapely.MultiPoint(self.view.seen(points)).convex_hull)
        return shapely.union_all([shape for shape in shapes if shape.geom_type == "Polygon"])


def _section(roof: Framed) -> Section:
    commons = roof.of("common") or [stick for stick in roof.sticks if stick.on_plate]
    if not commons:
        raise SheetError("the roof has no common rafter to cut it at: draw its plan instead")
    ridges = roof.of("ridge")
    if ridges:
        long = max(ridges, key=lambda stick: stick.blank_in)
        square = [s for s in commons if abs(float(s.pose.head @ long.pose.head)) < LEVEL]
        commons = square or commons
        middle = middle_of(long)
    else:
        middle = np.mean([middle_of(stick) for stick in roof.sticks], axis=0)
    main = min(commons, key=lambda stick: (-len(_beside(roof, stick)), *_near(stick, middle)))
    along = unit(main.pose.left - float(main.pose.left[2]) * Z)
    eye = along if float(along @ vector(1.0, 0.5, 0.0)) > 0 else -along
    level = float(middle_of(main) @ eye)
    return Section(looking(eye), eye, level, main, _beside(roof, main))


def _beside(roof: Framed, main: Stick) -> tuple[Stick, ...]:
    """The rafters in one plumb plane with a rafter, itself among them."""
    along = main.pose.left
    level = float(middle_of(main) @ along)
    return tuple(
        stick
        for stick in roof.of("common")
        if stick is main
        or (
            abs(float(stick.pose.left @ along)) > 1 - LEVEL
            and abs(float(middle_of(stick) @ along) - level) < main.stock.thickness_in
        )
    ) or (main,)


def _near(stick: Stick, middle: Array) -> tuple[float, str]:
    """How far a rafter stands from the middle, along the eave; equal ones by their names."""
    return round(abs(float((middle_of(stick) - middle) @ stick.pose.left)), 6), stick.name


@dataclass(frozen=True)
class _CutThrough:
    """What a section shows [in of wood]: its lines, what is cut through, and the plates' shapes."""

    drawing: Drawing
    through: tuple[tuple[str, Polygon], ...]
    plates: tuple[Polygon, ...]


def _cut(roof: Framed, section: Section) -> _CutThrough:
    view, inside = section.view, {stick.name for stick in section.rafters}
    shown = [body for body in roof.bodies if body.name in inside]
    walls = Walls(view, shown)
    strokes = [
        Stroke(points_of(line), "visible", f"stick-{body.name}")
        for body in shown
        for each in edges_behind(body, walls, hidden=False)
        for line in shapely.get_parts(each.visible)
    ]
    areas: list[Area] = []
    through: list[tuple[str, Polygon]] = []
    plates: list[Polygon] = []
    for stick in roof.sticks:
        slanting = abs(float(stick.pose.head @ section.along)) < LEAST_THROUGH
        if stick.name in inside or slanting:
            continue
        shape = section.cut(stick)
        if shape.is_empty:
            continue
        if stick.role in (*CARRIERS, "plate"):
            through.append((f"{stick.role} {stick.name}", shape))
        if stick.role == "plate":
            plates.append(shape)
        for part in shapely.get_parts(shape):
            strokes.append(Stroke(points_of(part.exterior), "visible", "cut-through"))
            areas.append(Area(part, "section", "cut-section"))
    for plate in plates:
        x0, y0, x1, _ = plate.bounds
        strokes += [Stroke(((x, y0), (x, y0 - WALL_IN)), "phantom", "wall") for x in (x0, x1)]
    return _CutThrough(Drawing(tuple(strokes), tuple(areas)), tuple(through), tuple(plates))


def _section_picture(
    roof: Framed, section: Section, cut: _CutThrough, factor: float, metric: bool
) -> Picture:
    picture = Picture(cut.drawing.scaled(factor))
    picture += _section_measures(roof, section, cut, factor, metric)
    words = tuple(
        Words(said, (shape.centroid.x * factor, shape.centroid.y * factor), 8.0, always=True)
        for said, shape in cut.through
    )
    return picture + Picture(Drawing(), words)


def _section_measures(
    roof: Framed, section: Section, cut: _CutThrough, factor: float, metric: bool
) -> Picture:
    view, base = section.view, roof.plate_top_in
    tops = np.concatenate([view.seen(stick.corners) for stick in section.rafters])
    left, low = tops.min(axis=0)
    right, high = tops.max(axis=0)
    ridge = max((shape.bounds[3] for said, shape in cut.through if "ridge" in said), default=high)
    plates = cut.plates
    bottom = min([low, *(plate.bounds[1] - WALL_IN for plate in plates)])
    picture = roof_dimension(
        (right, base), (right, max(high, ridge)), -0.55, factor, max(high, ridge) - base, metric
    )
    datum = _datum(section.main)
    spot = view.seen(datum)
    stand = float(spot[1]) - base
    if stand > SAME_IN:
        picture += roof_dimension(
            (spot[0], base),
            (spot[0], spot[1]),
            _outside(spot[0], left, right),
            factor,
            stand,
            metric,
        )
    if plates:
        ends = sorted([plate.bounds[0] for plate in plates] + [plate.bounds[2] for plate in plates])
        first, last = ends[0], ends[-1]
        picture += roof_dimension(
            (first, bottom), (last, bottom), -0.6, factor, last - first, metric
        )
        top = view.seen(_middle_of_ridge(roof, section))
        if first + 1.0 < top[0] < last - 1.0:
            picture += roof_dimension(
                (first, bottom), (top[0], bottom), -0.3, factor, top[0] - first, metric
            )
        for start, stop in ((left, first), (last, right)):
            if stop - start > SAME_IN:
                picture += roof_dimension(
                    (start, bottom), (stop, bottom), -0.3, factor, stop - start, metric
                )
    return picture


def _outside(u: float, left: float, right: float) -> float:
    """A height's dimension line stands on the side of the nearer eave [in on paper]."""
    return 0.3 if u - left < right - u else -0.3


def _middle_of_ridge(roof: Framed, section: Section) -> Array:
    """The middle of the ridge in the section, else the highest point of the rafters (3,)."""
    for stick in roof.of("ridge"):
        if abs(float(stick.pose.head @ section.along)) > 1 - LEVEL:
            return middle_of(stick)
    corners = np.concatenate([stick.corners for stick in section.rafters])
    highest: Array = corners[int(np.argmax(corners[:, 2]))]
    return highest


def _section_notes(roof: Framed, section: Section, metric: bool) -> list[str]:
    head = section.main.pose.head
    slope = degrees(atan2(float(head[2]), float(np.hypot(head[0], head[1]))))
    rise = 12.0 * float(head[2]) / float(np.hypot(head[0], head[1]))
    pitch = f", {write_fraction(rise)} in 12" if not metric else ""
    notes = [f"{section.main.name} slopes {write_degrees(slope)}{pitch}."]
    stand = float(section.view.seen(_datum(section.main))[1]) - roof.plate_top_in
    if stand > SAME_IN:
        said = write_metric(stand) if metric else f"{write_fraction(stand)} in"
        notes.append(
            f"Over the building line the top edge stands {said} above the plate, plumb."
            " Heights are from the top of the plate."
        )
    return notes


def _datum(stick: Stick) -> Array:
    """Where a stick's datum lies: on the middle of its top edge (3,)."""
    datum: Array = (
        stick.origin
        + stick.stock.depth_in * stick.pose.up
        + stick.stock.thickness_in / 2 * stick.pose.left
    )
    return datum
