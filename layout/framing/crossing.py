"""Where a hip or valley crosses the plates at a corner: on the slant, so each face makes a line."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
import shapely

from layout.framing.running import SLANTED, start_of
from layout.framing.stick import Stick
from layout.vector import Z

PlateEdge = Literal["outside edge", "inside edge", "end"]
_BESIDE = 1e-6
_FAR_IN = 1e4
_DOWN = -1 + _BESIDE
"""A normal's part upward where the plane is level and looks down."""
_ON_THE_RIM, _A_MARK = 1e-5, 1e-4
"""So near the rim of a plate a point lies on it; what is shorter than this is no line [inches]."""


@dataclass(frozen=True)
class CrossingPoint:
    """Where a face's line meets the rim of a plate's top: along it from its foot end, and across
    it from its outside edge [inches]."""

    edge: PlateEdge
    along_in: float
    across_in: float


@dataclass(frozen=True)
class Crossing:
    """The lines that a hip or valley draws on a plate's top, by its face.

    `outline` is the wood that stands there, (k, 2) along and across the plate [inches].
    """

    carrier: str
    stick: str
    lines: tuple[tuple[Literal["right face", "left face"], CrossingPoint, CrossingPoint], ...]
    outline: tuple[tuple[float, float], ...]


def crossings(sticks: Sequence[Stick]) -> tuple[Crossing, ...]:
    """Every hip and valley that stands on a plate, plate by plate, in order along each."""
    found = []
    for plate in sticks:
        if plate.role != "plate" or abs(float(plate.corners[:, 2].max())) > _BESIDE:
            continue
        here = [one for stick in sticks if (one := _crossing(plate, stick)) is not None]
        found += sorted(here, key=lambda one: one.outline)
    return tuple(found)


def _crossing(plate: Stick, stick: Stick) -> Crossing | None:
    if stick.role not in SLANTED or not stick.on_plate:
        return None
    top = _in_plate(plate, plate.corners)
    area = shapely.MultiPoint(top).convex_hull
    level = [p for p in stick.planes if float(p.normal @ Z) < _DOWN]
    seats = [points for p in level for points in stick.surfaces(p)]
    if not seats:
        return None
    stands = shapely.union_all(
        [shapely.MultiPoint(_in_plate(plate, points)).convex_hull for points in seats]
    ).intersection(area)
    if stands.area < _BESIDE:
        return None
    lines = []
    for name, point in (
        ("right face", stick.origin),
        ("left face", stick.origin + stick.stock.thickness_in * stick.pose.left),
    ):
        ends = np.array([point - _FAR_IN * stick.pose.head, point + _FAR_IN * stick.pose.head])
        # Over the whole plate: a seat may end on it, and the line is drawn from rim to rim.
        met = shapely.LineString(_in_plate(plate, ends)).intersection(area.buffer(_BESIDE))
        if met.length > _A_MARK:
            spots = [_point(plate, area, spot) for spot in met.coords]
            low, high = sorted(spots, key=lambda one: (one.across_in, one.along_in))
            lines.append((name, low, high))
    outline = tuple((float(x), float(z)) for x, z in stands.convex_hull.exterior.coords)
    return Crossing(plate.name, stick.name, tuple(lines), outline)  # type: ignore[arg-type]


def _in_plate(plate: Stick, points: np.ndarray) -> np.ndarray:
    """World points in the plate's plan: along it from its foot end, across from its outside."""
    board = plate.in_board(points)
    flat: np.ndarray = np.stack([board[:, 0] - start_of(plate), board[:, 2]], axis=1)
    return flat


def _point(plate: Stick, area: shapely.Geometry, spot: tuple[float, float]) -> CrossingPoint:
    along, across = float(spot[0]), float(spot[1])
    edge: PlateEdge = "end"
    if across < _ON_THE_RIM:
        edge = "outside edge"
    elif across > plate.stock.depth_in - _ON_THE_RIM:
        edge = "inside edge"
    return CrossingPoint(edge, along, across)
