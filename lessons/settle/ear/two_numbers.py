"""What two numbers on the square can mean: a rise on a run, or a pair and which is marked along."""

from math import atan, degrees

from layout.quantity import write_degrees
from layout.tools.square import BLADE_IN
from lessons.settle.ear.draft import Draft
from lessons.settle.ear.footing import SIXTEENTH_IN, Footing
from lessons.settle.ear.heard_measure import HeardMeasure
from lessons.settle.ear.single import (
    LINES,
    MARKS,
    SAWS,
    UnreadError,
    changed,
    numbers_line,
    plumb_line,
    sloped,
)
from lessons.settle.ear.trade_tokens import RUNS_IN

ON_METRIC = 100.0
"""From here on the numbers are millimeters of a metric square."""


def rise_on_run(
    names: set[str], nearest: str, said: HeardMeasure, base: Draft, footing: Footing
) -> list[Draft]:
    rise, run = said.value, said.second
    on_12 = run == RUNS_IN[0] and nearest in ("edge", "sidenumber")  # a number, not an arm's length
    if BLADE_IN < max(rise, run) < ON_METRIC and not on_12:
        raise UnreadError(said.text, "no square is so long; say 12 in 12, or degrees")
    if "offedge" in names:
        if not footing.slopes:  # an angle from the edge, laid by its rise on its run
            return [changed(base, face=numbers_line(run, rise))]
        raise UnreadError(said.text, "which line is that against the edge? say plumb or level")
    if base.edge is not None and nearest not in ("plumb", "level", "face"):
        nearest = "through"
    edge = changed(base, edge=numbers_line(run, rise))
    if nearest == "table":
        return [changed(base, turn=plumb_line("plumb", rise, run))]
    if nearest in ("edge", "sidenumber"):
        return [edge]
    numbers = footing.is_skew or not footing.slopes  # no line of this face goes by rise and run
    named = nearest in ("plumb", "level") and not footing.slopes
    if (named or (numbers and nearest == "face")) and rise != run:
        return _either_arm(rise, run, base)
    if nearest in ("plumb", "level"):
        return [sloped(nearest, base, plumb_line(nearest, rise, run), footing)]
    plumb = sloped("plumb", base, plumb_line("plumb", rise, run), footing)
    if numbers and rise != run and nearest not in (*SAWS, "edge", "sidenumber"):
        marked = _either_arm(rise, run, base)
        return [*marked, edge] if said.joint == "on" and footing.edge_number else marked
    if nearest == "through" and not names & {"edge", *SAWS}:
        return [plumb, *_leveled(said, base, footing)]
    if nearest == "face":
        if said.joint == "in" or rise == run or footing.is_own_rise(rise):
            return [plumb, *_leveled(said, base, footing)]
        return [plumb, changed(base, face=numbers_line(run, rise))]
    if nearest in ("saw", "tilt", "bevel", "blade") and "edge" not in names:
        angle = degrees(atan(rise / run))
        note = f"the saw set to the angle of {said.text}, {write_degrees(angle)}"
        tilted = changed(base, tilt_deg=angle, notes=(note,))
        if nearest == "bevel" and said.joint == "on" and not names & {"saw", "tilt", "blade"}:
            return [edge] if "top" in names else [tilted, edge]  # of the saw, or of the edge
        return [tilted]
    if "edge" in names:
        return [edge]
    number = footing.edge_number
    is_number = number is not None and abs(12 * rise / run - number) <= 1 / 8
    is_pitch = abs(12 * rise / run - footing.rise) <= SIXTEENTH_IN
    if "pitch" in names:
        return [plumb, *_leveled(said, base, footing)]
    if said.joint != "in" and _on_own_run(run, footing):
        return [plumb, *_leveled(said, base, footing)]
    if said.joint == "on" and number is None:  # an edge that is marked square has no number
        return [plumb, *_leveled(said, base, footing), edge]
    if said.joint == "in" and (is_pitch or not is_number):
        return [plumb, *_leveled(said, base, footing)]
    if said.joint == "on" and (is_number or not is_pitch) and not (is_number and is_pitch):
        return [edge]
    return [plumb, edge]


def _either_arm(rise: float, run: float, base: Draft) -> list[Draft]:
    """On a level stick no line is plumb by a rise on a run: either number may be marked along."""
    return [changed(base, face=numbers_line(one, two)) for one, two in ((rise, run), (run, rise))]


def _on_own_run(run: float, footing: Footing) -> bool:
    """Whether these are numbers of a hip's or valley's: its rise on 17, or 16.97."""
    return abs(footing.run - RUNS_IN[1]) < 0.1 and abs(run - RUNS_IN[1]) < 0.1


def _leveled(said: HeardMeasure, base: Draft, footing: Footing) -> list[Draft]:
    """The level line by these numbers, where this cut's own mark is the level one."""
    if not footing.is_level:
        return []
    line = plumb_line("level", said.value, said.second)
    return [sloped("level", base, line, footing)]


def two_on_the_square(
    names: set[str], said: HeardMeasure, base: Draft, footing: Footing
) -> list[Draft]:
    """Two numbers on the square; where none is named to mark along, both may be meant."""
    one, two = said.value, said.second
    own = said.joint == "and" and not names & MARKS and _on_own_run(two, footing)
    if own and said.along is not None and said.along == two:
        return [*_leveled(said, base, footing), changed(base, face=numbers_line(two, one))][:1]
    if own:
        plumb = sloped("plumb", base, plumb_line("plumb", one, two), footing)
        return [plumb, *_leveled(said, base, footing)]
    if names & LINES and said.along is None and (two in RUNS_IN or one in RUNS_IN):
        kind = "plumb" if "plumb" in names else "level"
        rise, run = (one, two) if two in RUNS_IN else (two, one)
        return [sloped(kind, base, plumb_line(kind, rise, run), footing)]
    along = [said.along] if said.along is not None else [one] if one == two else [one, two]
    lines = [numbers_line(mark, two if mark == one else one) for mark in along]
    where = ["edge"] if names & {"edge", "sidenumber"} else []
    where = ["face"] if names & {"plumb", "level", "face"} else where
    if "plumb" in names or "level" in names:
        kind = "plumb" if "plumb" in names else "level"
        return [sloped(kind, base, line, footing) for line in lines]
    if where:
        return [changed(base, **{where[0]: line}) for line in lines]
    places = ("face",) if footing.edge_number is None else ("face", "edge")
    return [changed(base, **{place: line}) for place in places for line in lines]
