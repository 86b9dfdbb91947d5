"""What the parts of a claim say of each other: which mark an angle beside a setting is, and what
may be told of another line."""

from collections.abc import Sequence

from layout.tools.square import BLADE_IN
from lessons.settle.ear.clauses import Clause
from lessons.settle.ear.draft import Draft
from lessons.settle.ear.footing import Footing
from lessons.settle.ear.heard_measure import HeardMeasure
from lessons.settle.ear.number_sources import SAID_SO_DEG
from lessons.settle.ear.part_meanings import ASIDE

NEAR_DEG = 6.0


def _angle(said: HeardMeasure) -> bool:
    """Whether a number with no word of its own can only be an angle."""
    return said.unit == "deg" or (not said.unit and said.value > BLADE_IN)


def two_angles(parts: Sequence[Clause], said: Sequence[HeardMeasure]) -> bool:
    """Whether all that is said are two angles, as `33.7 and 45`."""
    alone = len(parts) == 2 and all(part.apart and not part.names for part in parts)
    return len(said) == 2 and all(_angle(one) for one in said) and alone


def _says(angle_deg: float, from_square_deg: float) -> bool:
    """Whether an angle is that of a line, from square across or off the board's edge."""
    near = min(abs(angle_deg - one) for one in (from_square_deg, 90.0 - from_square_deg))
    return near < SAID_SO_DEG


def beside_a_setting(parts: Sequence[Clause], choices: list[list[Draft]]) -> None:
    """An angle alone beside a tilt or an edge mark is the face mark's.

    From square across or off the board's edge: both are kept. One near the tilt may be the tilt
    said again, by another man or of another saw.
    """
    for at, part in enumerate(parts):
        said = part.measure if part.lonely else None
        if said is None or not _angle(said):
            continue
        others = [each for place, each in enumerate(choices) if place != at and each]
        lines = [each[0].face for each in others if len(each) == 1 and each[0].face]
        again = any(_says(said.value, line.from_square_deg) for line in lines)
        told = [each for each in others if all(d.tilt_deg is not None or d.edge for d in each)]
        if again and not part.strange:  # twelve and seventeen, so about 35 1/4
            choices[at] = [Draft()] if told else [Draft(), *choices[at]]
            continue
        tilts = {d.tilt_deg for each in told for d in each if d.tilt_deg is not None}
        near = any(abs(said.value - tilt) < NEAR_DEG for tilt in tilts)
        if not told or near or not part.apart:
            continue
        faces = [one for one in choices[at] if one.face and one.tilt_deg is None]
        choices[at] = faces or choices[at]


def leave_said_faces(parts: Sequence[Clause], choices: list[list[Draft]]) -> None:
    """Where another part says the face mark, a number with no word of its own is not that."""
    for at, part in enumerate(parts):
        others = [each for place, each in enumerate(choices) if place != at]
        marked = any(each and all(draft.face for draft in each) for each in others)
        if part.lonely and marked:
            choices[at] = [one for one in choices[at] if not one.face] or choices[at]


def asides(parts: Sequence[Clause], choices: list[list[Draft]], footing: Footing) -> None:
    """A plumb or level line that is not this cut's may be told of another line or board.

    `Saw 39, a fascia that stands plumb takes 45`; `56 1/4, plumb is 33 3/4`: both ways are kept.
    """
    own = {
        name
        for name, is_own in (("plumb", footing.is_plumb), ("level", footing.is_level))
        if is_own
    }
    for at, part in enumerate(parts):
        said = part.measure
        sloped = part.names & {"plumb", "level"}
        others = any(
            other.measure is not None or "square" in other.names
            for place, other in enumerate(parts)
            if place != at
        )
        if said is None or said.kind != "one" or not others or not sloped or sloped & own:
            continue
        if part.names & {"saw", "tilt", "bevel", "table"}:
            continue
        choices[at] = [*choices[at], Draft(notes=(f"{said.text} {ASIDE}",))]
