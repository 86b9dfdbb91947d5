"""What is true of a whole roof: the heights and overhangs of every side, and its lines' lengths.

Rows are plain dataclasses; `layout.records` turns them into a table, CSV or JSON by field name.
"""

from dataclasses import dataclass

import numpy as np

from layout.framing.face import Face
from layout.framing.roof import TrainingRoof
from layout.framing.roof_lines import RoofLines
from layout.vector import Array, angle_deg

_PLATES_IN = 1e-6
"""What is no higher than this stands on the eaves' plates, or is one."""


@dataclass(frozen=True)
class SideRow:
    """One side of a roof: its rafters' common settings [inches, degrees].

    Heights are plumb at the building line over the plate's top: `height_above_plate_in` is the
    rafter above its seat, `heel_in` the heel cut below it. `seat_in` is level. `overhang_in` is
    level, to the outside of the fascia. `rise_in` is from the plates to the side's highest line.
    """

    side: str
    pitch: str
    slope_deg: float
    overhang_in: float
    height_above_plate_in: float
    seat_in: float
    heel_in: float
    rise_in: float


@dataclass(frozen=True)
class LineRow:
    """A line in which two sides meet, end to end [inches, degrees]; `name` is its stick's.

    `run_in` is its level length, `plan_angle_deg` the angle in plan between it and the first
    side's wall, `top_in` its higher end over the plates.
    """

    name: str
    kind: str
    sides: str
    corner_deg: float
    run_in: float
    length_in: float
    slope_deg: float
    plan_angle_deg: float
    top_in: float


@dataclass(frozen=True)
class TopOverPlates:
    """How high a ridge, a ledger or a high wall's plate stands: its top over the eaves' plates
    [inches]."""

    name: str
    top_in: float


def side_rows(roof: TrainingRoof) -> tuple[SideRow, ...]:
    """Every side that carries a roof, once, in the order of its walls."""
    rows = []
    for face, plane in zip(_faces(roof), roof.surface.eave_planes, strict=True):
        mouth = roof.plan.mouth_of(face.pitch)
        points = np.array(roof.surface.areas[plane].convex_hull.exterior.coords)
        rise = float(roof.surface.planes[plane].height_in(points).max())
        rows.append(
            SideRow(
                side=face.name,
                pitch=str(face.pitch),
                slope_deg=face.pitch.slope_deg,
                overhang_in=face.overhang_in,
                height_above_plate_in=mouth.height_above_plate_in,
                seat_in=mouth.seat_in,
                heel_in=mouth.heel_in,
                rise_in=rise + mouth.height_above_plate_in,
            )
        )
    return tuple(rows)


def _faces(roof: TrainingRoof) -> list[Face]:
    names = [roof.surface.planes[k].name for k in roof.surface.eave_planes]
    by_name = {face.name: face for face in roof.faces}
    return [by_name[name] for name in names]


def tops_over_plates(roof: TrainingRoof) -> tuple[TopOverPlates, ...]:
    """Every ridge's, ledger's and high plate's top over the eaves' plates."""
    return tuple(
        TopOverPlates(stick.name, top)
        for stick in roof.sticks
        if stick.role in ("ridge", "ledger", "plate")
        and (top := float(stick.corners[:, 2].max())) > _PLATES_IN
    )


def line_rows(roof: RoofLines, height_above_plate_in: float = 0.0) -> tuple[LineRow, ...]:
    """Every hip, valley, ridge and other line of a roof, framed or not."""
    letters = {"hip": "H", "valley": "V", "ridge": "R"}
    taken = dict.fromkeys(letters, 0)
    rows = []
    for line in roof.lines:
        name = ""
        if line.kind in letters:
            taken[line.kind] += 1
            name = f"{letters[line.kind]}{taken[line.kind]}"
        left, right = roof.planes[line.left], roof.planes[line.right]
        beside = right.inward
        rows.append(
            LineRow(
                name=name,
                kind=line.kind,
                sides=f"{right.name} / {left.name}",
                corner_deg=line.interior_deg,
                run_in=line.run_in,
                length_in=line.length_in,
                slope_deg=line.slope_deg,
                plan_angle_deg=float(angle_deg(line.way @ beside, _across(line.way, beside))),
                top_in=line.head_height_in + height_above_plate_in,
            )
        )
    return tuple(rows)


def _across(way: Array, inward: Array) -> float:
    return float(way[0] * inward[1] - way[1] * inward[0])
