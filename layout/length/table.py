"""The rows of a framing square's rafter table, for any pitch, corner and unit.

A square prints them for whole inches of rise, one pitch and a square corner; here each row is
read from the roof's own planes and the catalogue's cuts, so halves, metric, two pitches and
other corners follow the same way.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from layout.cuts import find
from layout.errors import LengthError
from layout.length.drop import falls
from layout.length.run_length import common_per_run, jack_per_spacing, line_per_run
from layout.plane.corner import Corner
from layout.quantity import MM_PER_INCH, STEEPEST_DEG, Pitch
from layout.stock import Stock, read_stock
from layout.vector import angle_deg

USUAL_SPACINGS_IN = (16.0, 24.0)
USUAL_THICKNESS_IN = 1.5
USUAL_LEGS_IN = (*((float(leg), float(leg)) for leg in range(24, 61, 3)), (18.0, 24.0))
"""The brace table of a square: equal legs from 24 to 60 by threes, then 18 and 24."""


@dataclass(frozen=True)
class Unit:
    """What a table is written in: lengths over a run of `run`, side cuts over `over`.

    `name` is the unit of every length, `per_inch` how many of them make an inch.
    """

    name: str
    run: float
    over: float
    per_inch: float


FOOT = Unit("in", 12.0, 12.0, 1.0)
METRE = Unit("mm", 1000.0, 100.0, MM_PER_INCH)


@dataclass(frozen=True)
class RafterRow:
    """One pitch's numbers, for the own roof at a corner; lengths in `unit`, angles in degrees.

    `common` and `line` are the lengths of a common and of a hip or valley over `per_run` of the
    common's run; `line_run` is the hip's own level run there. `jack_differences` follow
    `spacings`. The side cuts are numbers over `over` on the square: mark along the arm that
    carries `over`. `line_side_cut` is a hip's or valley's cheek against a ridge level with the
    own eave. Backings are the bevels of a hip from a square edge, under the own and the other
    roof; the drops plumb, of a hip of `thickness`, that bring each arris into its roof (a plain
    hip is lowered by the larger; minus, at a valley: how far the roof stands above the arris).
    """

    pitch: str
    other_pitch: str
    corner_deg: float
    slope_deg: float
    plan_angle_deg: float
    line_slope_deg: float
    unit: str
    per_run: float
    common: float
    line: float
    line_run: float
    spacings: tuple[float, ...]
    jack_differences: tuple[float, ...]
    over: float
    jack_side_cut: float
    line_side_cut: float
    own_backing_deg: float
    other_backing_deg: float
    thickness: float
    own_drop: float
    other_drop: float


@dataclass(frozen=True)
class BraceRow:
    """A brace between a post and a beam: legs and length in `unit`, marks in degrees.

    The beam mark is the level foot's, from square across; the post mark the plumb head's.
    """

    run: float
    rise: float
    unit: str
    length: float
    post_mark_deg: float
    beam_mark_deg: float


@dataclass(frozen=True)
class PolygonRow:
    """A roof over a building of equal sides that rises to one point; lengths in `unit`.

    `mitre` is the number over `over` that miters a plate, marked along the arm that carries it (an
    octagon's 4.97 over 12);
    `half_side_over_run` is half a side over `per_run` of the common's run, so of a building
    twice `per_run` across flats; `half_side` of one `per_run` across; the octagon scale's space
    for each unit of width is that over `per_run`. The rafter numbers stand as in `RafterRow`.
    """

    sides: int
    pitch: str
    corner_deg: float
    mitre_deg: float
    unit: str
    per_run: float
    over: float
    mitre: float
    half_side: float
    half_side_over_run: float
    common: float
    hip: float
    hip_run: float
    spacings: tuple[float, ...]
    jack_differences: tuple[float, ...]
    jack_side_cut: float
    hip_slope_deg: float
    backing_deg: float
    thickness: float
    drop: float


def rafter_row(
    pitch: Pitch,
    other_pitch: Pitch | None = None,
    corner_deg: float = 90.0,
    *,
    spacings_in: Sequence[float] = USUAL_SPACINGS_IN,
    thickness_in: float = USUAL_THICKNESS_IN,
    unit: Unit = FOOT,
) -> RafterRow:
    """The row of one pitch, for the own roof; swap the pitches for the other roof's row.

    `corner_deg` is measured inside the building: above 180 the line is a valley. Raises
    RoofError where both roofs lie in one plane, LengthError for a spacing that is none.

    >>> from layout.quantity import read_pitch
    >>> row = rafter_row(read_pitch("8 in 12"))
    >>> [round(n, 2) for n in (row.common, row.line, *row.jack_differences, row.jack_side_cut)]
    [14.42, 18.76, 19.23, 28.84, 9.98]
    """
    other = other_pitch or pitch
    corner = Corner(pitch.slope_deg, other.slope_deg, corner_deg)
    stock = Stock("edge", thickness_in, thickness_in)  # no number here knows the depth
    _check_spacings(spacings_in)
    valley = corner_deg > 180
    jack = find("valley-jack" if valley else "hip-jack").joint(corner).cuts(stock)[0]
    line = find("valley-ridge" if valley else "hip-ridge-single").joint(corner).cuts(stock)[0]
    half, (own_fall, other_fall) = thickness_in / 2, falls(corner)
    plumb_part = float(np.cos(np.radians(corner.line_slope_deg)))
    return RafterRow(
        pitch=str(pitch),
        other_pitch=str(other),
        corner_deg=corner_deg,
        slope_deg=pitch.slope_deg,
        plan_angle_deg=float(corner.plan_angle_deg),
        line_slope_deg=float(corner.line_slope_deg),
        unit=unit.name,
        per_run=unit.run,
        common=unit.run * float(common_per_run(corner)),
        line=unit.run * float(line_per_run(corner)),
        line_run=unit.run * float(corner.unit_run),
        spacings=tuple(s * unit.per_inch for s in spacings_in),
        jack_differences=_differences(corner, spacings_in, unit),
        over=unit.over,
        jack_side_cut=unit.over / 12.0 * float(jack.edge_number),
        line_side_cut=unit.over / 12.0 * float(line.edge_number),
        own_backing_deg=float(angle_deg(own_fall * plumb_part, 1.0)),
        other_backing_deg=float(angle_deg(other_fall * plumb_part, 1.0)),
        thickness=thickness_in * unit.per_inch,
        own_drop=half * own_fall * unit.per_inch,
        other_drop=half * other_fall * unit.per_inch,
    )


def rafter_rows(
    pitches: Sequence[Pitch],
    other_pitch: Pitch | None = None,
    corner_deg: float = 90.0,
    *,
    spacings_in: Sequence[float] = USUAL_SPACINGS_IN,
    thickness_in: float = USUAL_THICKNESS_IN,
    unit: Unit = FOOT,
) -> tuple[RafterRow, ...]:
    """The rows of a list of pitches; every pitch meets `other_pitch`, or itself."""
    return tuple(
        rafter_row(
            pitch,
            other_pitch,
            corner_deg,
            spacings_in=spacings_in,
            thickness_in=thickness_in,
            unit=unit,
        )
        for pitch in pitches
    )


def brace_row(run_in: float, rise_in: float, unit: Unit = FOOT) -> BraceRow:
    """A brace over a run and a rise, measured along its outer line [inches in, `unit` out].

    Raises LengthError for a leg without length, and for a brace steeper than any cut here.

    >>> round(brace_row(36, 36).length, 2)
    50.91
    """
    if not (run_in > 0 and rise_in > 0):
        raise LengthError(
            f"a brace of {run_in:g} by {rise_in:g} in has a leg without length; give both legs"
        )
    slope = float(np.degrees(np.arctan2(rise_in, run_in)))
    if slope >= STEEPEST_DEG:
        raise LengthError(
            f"a brace of {run_in:g} by {rise_in:g} in stands at {slope:.1f}°;"
            f" give legs that keep it below {STEEPEST_DEG:.0f}°"
        )
    corner = Corner(slope, slope)
    brace = find("brace")
    stock = read_stock(brace.stock)
    head, foot = (brace.joint(corner, end).cuts(stock)[0] for end in ("head", "foot"))
    return BraceRow(
        run_in * unit.per_inch,
        rise_in * unit.per_inch,
        unit.name,
        run_in * unit.per_inch * float(common_per_run(corner)),
        float(head.face_mark_deg),
        float(foot.face_mark_deg),
    )


def brace_rows(
    legs_in: Sequence[tuple[float, float]] = USUAL_LEGS_IN,
    unit: Unit = FOOT,
) -> tuple[BraceRow, ...]:
    """Braces of these runs and rises, as they stand on a square where none are given."""
    return tuple(brace_row(run, rise, unit) for run, rise in legs_in)


def polygon_row(
    sides: int,
    pitch: Pitch,
    *,
    spacings_in: Sequence[float] = USUAL_SPACINGS_IN,
    thickness_in: float = USUAL_THICKNESS_IN,
    unit: Unit = FOOT,
) -> PolygonRow:
    """The row of a roof over equal sides, every side pitched alike.

    Raises LengthError for fewer than three sides.

    >>> from layout.quantity import read_pitch
    >>> row = polygon_row(8, read_pitch("9 in 12"))
    >>> round(row.mitre, 2), round(row.hip_run, 2), round(row.hip, 2)
    (4.97, 12.99, 15.8)
    """
    if sides < 3:
        raise LengthError(f"{sides} sides enclose nothing; give three or more")
    row = rafter_row(
        pitch,
        corner_deg=180.0 - 360.0 / sides,
        spacings_in=spacings_in,
        thickness_in=thickness_in,
        unit=unit,
    )
    turn = 1.0 / float(np.tan(np.radians(row.plan_angle_deg)))
    return PolygonRow(
        sides=sides,
        pitch=row.pitch,
        corner_deg=row.corner_deg,
        mitre_deg=180.0 / sides,
        unit=unit.name,
        per_run=unit.run,
        over=unit.over,
        mitre=unit.over * turn,
        half_side=unit.run / 2 * turn,
        half_side_over_run=unit.run * turn,
        common=row.common,
        hip=row.line,
        hip_run=row.line_run,
        spacings=row.spacings,
        jack_differences=row.jack_differences,
        jack_side_cut=row.jack_side_cut,
        hip_slope_deg=row.line_slope_deg,
        backing_deg=row.own_backing_deg,
        thickness=row.thickness,
        drop=row.own_drop,
    )


def _differences(corner: Corner, spacings_in: Sequence[float], unit: Unit) -> tuple[float, ...]:
    each = float(jack_per_spacing(corner))
    return tuple(spacing * each * unit.per_inch for spacing in spacings_in)


def _check_spacings(spacings_in: Sequence[float]) -> None:
    for spacing in spacings_in:
        if not (np.isfinite(spacing) and spacing > 0):
            raise LengthError(f"a spacing of {spacing:g} in parts no jacks; give one such as 16")
