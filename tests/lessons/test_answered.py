"""Every number drill of the course answered from its printed question alone.

A solver here knows what the lesson teaches, and of the problem only the words on the sheet:
numbers are read back as they were printed, so what comes out is as good as the sheet allows.
"""

import re
from collections.abc import Callable
from math import acos, asin, atan, cos, degrees, radians, sin, sqrt, tan

import pytest

from lessons.course.lesson import catalog
from lessons.course.runner import run
from lessons.say.blocks import Drills
from lessons.say.units import System

N = r"((?:\d+ )?\d+/\d+|\d+\.?\d*)"
PITCH = rf"{N} in {N}"

Solver = Callable[..., float]


def d(value: float) -> float:
    return degrees(value)


SOLVERS: list[tuple[str, Solver]] = [
    # As it is said in the lesson: along = thickness times 12 over the number.
    (
        rf"a board {N} (?:in|mm) thick\. The edge number is {N} on {N}\. How much longer",
        lambda t, n, r: t * r / n,
    ),
    (
        rf"edge number (?:of this jack )?is {N} on {N}\. The board is {N} (?:in|mm) thick",
        lambda n, r, t: t * r / n,
    ),
    # Reading the square: rise over run.
    (
        rf"pitch is {PITCH}\. The board is {N} (?:in|mm) deep\. How far along .* plumb mark",
        lambda rise, run, depth: depth * rise / run,
    ),
    (rf"pitch is {PITCH}\. How many degrees .* plumb mark", lambda rise, run: d(atan(rise / run))),
    (rf"A plumb mark runs {N}° .* level mark run", lambda plumb: 90 - plumb),
    (
        rf"pitch is {PITCH}\. A board {N} (?:in|mm) deep is cut level",
        lambda rise, run, depth: depth * run / rise,
    ),
    (
        rf"{PITCH}, the saw follows the plumb face mark down a board {N} (?:in|mm) deep",
        lambda rise, run, depth: depth * rise / run,
    ),
    # The bird's mouth.
    (
        rf"pitch is {PITCH}, the notch {N} (?:in|mm) deep.* the seat",
        lambda rise, run, notch: notch * sqrt(rise**2 + run**2) / rise,
    ),
    (
        rf"pitch is {PITCH}, the notch {N} (?:in|mm) deep.* the heel",
        lambda rise, run, notch: notch * sqrt(rise**2 + run**2) / run,
    ),
    # Runs of hips and valleys.
    (r"A common runs " + N + r"\. How far does the hip run", lambda run: sqrt(2) * run),
    (
        rf"hip rises {N} while it runs {N}\. What is its slope",
        lambda rise, run: d(atan(rise / run)),
    ),
    (
        rf"valley rises {N} while it runs {N}\. How many degrees",
        lambda rise, run: d(atan(rise / run)),
    ),
    (
        rf"roof pitches {PITCH}\. The hip runs {N} while the common runs {N}\. How many",
        lambda rise, run, own, common: d(atan(rise / own * common / run)),
    ),
    (
        rf"That hip is {N} (?:in|mm) deep\. It rises {N} on a run of {N}",
        lambda depth, rise, run: depth * rise / run,
    ),
    # Edge numbers shrink with the slope, or stretch across it.
    (
        rf"would be {N} on {N}\. A common (?:of the own roof )?is {N} long for a run of {N}\."
        r" What (?:is the edge number|number stands)",
        lambda plan, _, length, run: plan * run / length,
    ),
    (
        rf"would be {N} on {N}\. It is {N} long while it runs {N}",
        lambda plan, _, length, run: plan * run / length,
    ),
    (
        rf"purlin's number would be {N} on {N}\. A common is {N} long for a run of {N}",
        lambda plan, _, length, run: plan * length / run,
    ),
    # Tilts.
    (rf"(?:inside |re-entrant )?corner {N}°\. (?:To how many|How much)", lambda corner: corner / 2),
    (rf"make an angle of {N}°\. (?:Both stand plumb\. )?To how", lambda plan: 90 - plan),
    (rf"side turns {N}° from square across the jack", lambda turn: turn),
    (
        rf"own roof pitches {PITCH}, the other {PITCH}\. To how many",
        lambda rise, run, other, other_run: d(atan(other / other_run * run / rise)),
    ),
    (
        rf"the plan angle is {N}°, the roof's slope {N}°",
        lambda plan, slope: d(asin(cos(radians(plan)) * cos(radians(slope)))),
    ),
    (
        rf"fascia and mitre make {N}°\. The rafters slope {N}°",
        lambda plan, slope: d(asin(cos(radians(plan)) * cos(radians(slope)))),
    ),
    (
        rf"sides climb at {N}° from level\. Half the corner is {N}°",
        lambda slope, half: d(asin(cos(radians(half)) * sin(radians(slope)))),
    ),
    (
        rf"a side {N} (?:in|mm) deep makes {N}° with",
        lambda depth, mark: depth * tan(radians(mark)),
    ),
    (
        rf"small roof pitches {PITCH}, the deck {PITCH}\. To how many",
        lambda rise, run, other, other_run: d(atan(other / other_run)),
    ),
    (
        rf"small roof pitches {PITCH}, the deck {PITCH}\. How many degrees",
        lambda rise, run, other, other_run: 90 - d(atan(rise / run)),
    ),
    (rf"side-cut number is {N} on {N}\. What angle", lambda n, run: d(atan(n / run))),
    (
        rf"\({N} x {N} (?:in|mm)\): the right tilt is {N}°\. Someone sets {N}°",
        lambda t, _, tilt, wrong: (
            t * abs(tan(radians(tilt)) - tan(radians(wrong))) * cos(radians(tilt))
        ),
    ),
    # Backing, dropping, shortening.
    (
        rf"each falls {N} over {N}\. The hip is {N} (?:in|mm) thick",
        lambda fall, run, t: t / 2 * fall / run,
    ),
    (
        rf"the hip slopes {N}°, the roof {N}°\. The cosine of the backing",
        lambda hip, roof: d(acos(cos(radians(roof)) / cos(radians(hip)))),
    ),
    (
        rf"jack are {N} (?:in|mm) thick\. Seen from above they make {N}°",
        lambda t, plan: t / 2 / sin(radians(plan)),
    ),
    (
        rf"the shortening is {N} (?:in|mm), measured level\. A common is {N} long for a run of {N}",
        lambda level, length, run: level * length / run,
    ),
]


def number(text: str) -> float:
    whole, _, fraction = text.rpartition(" ")
    if "/" in fraction:
        top, bottom = fraction.split("/")
        return float(whole or 0) + int(top) / int(bottom)
    return float(text)


def solved(ask: str) -> float:
    for pattern, solve in SOLVERS:
        if (match := re.search(pattern, ask)) is not None:
            return solve(*map(number, match.groups()))
    return pytest.fail(f"nobody taught how to answer {ask!r}")


def near_enough(answer: str, system: System) -> float:
    """What a worked answer may miss the printed one by, both being rounded."""
    if answer.endswith("°"):
        return 0.3
    if system is System.METRIC:
        return 1.6
    return 1 / 12


ROOFS = [
    {},
    {"pitch": "7 in 12", "stock": "2x4", "hand": "right"},
    {"pitch": "12 in 12", "stock": "4x8"},
]


@pytest.mark.parametrize("roof", ROOFS, ids=lambda roof: roof.get("pitch", "own"))
@pytest.mark.parametrize("system", System)
@pytest.mark.parametrize("name", catalog())
def test_the_numbers_can_be_worked_out_from_the_sheet(name, system, roof):
    lesson = catalog()[name]
    (drills,) = [b for b in run(lesson, roof, system).blocks if isinstance(b, Drills)]
    asked = [p for p in drills.problems if not p.layout and p.outline is None]
    assert asked
    for problem in asked:
        printed = number(re.match(N, problem.answer)[0])
        assert solved(problem.ask) == pytest.approx(
            printed, abs=near_enough(problem.answer, system)
        ), problem.ask
