"""Every number drill of the course answered by a reader who knows no formula.

The reader has the words on the sheet, a board to draw on, a square, a rule and a protractor, and
what the lessons have taught so far: each way of answering names words that must stand in this
lesson or an earlier one. No tangent, no sine, no root.
"""

import re
from collections.abc import Callable
from functools import cache

import pytest

from lessons.course.lesson import catalog
from lessons.course.runner import Worked, run
from lessons.say.blocks import Boxed, DrillsBlock, Paragraph, Steps, TableBlock
from lessons.say.units import System
from tests.counts import LONG
from tests.readers.drawing_board import (
    LEVEL,
    ORIGIN,
    PLUMB,
    Line,
    beside,
    laid_off,
    meet,
    protractor,
    rule,
    square,
    squared,
)

N = r"((?:\d+ )?\d+/\d+|\d+\.?\d*)"
FEET = r"(\d+'-[\d /]+\"|\d+ mm)"
PITCH = rf"{N} in {N}"
UNIT = r" (?:in|mm)"
COMMON = rf".* common is {N} long for a run of {N} and a rise of {N} plumb\."

Solver = Callable[..., float]


def mark_across(number: float, along: float, thick: float) -> float:
    """The edge mark laid on an edge: how far it runs along, from face to face."""
    far = Line((0.0, thick), (1.0, thick))
    return meet(Line(ORIGIN, (along, number)), far)[0]


def plumb_run(rise: float, run: float, depth: float) -> float:
    """A mark laid across a face: how far it runs along the board."""
    far = Line((0.0, depth), (1.0, depth))
    return abs(meet(Line(ORIGIN, (rise, run)), far)[0])


def notch(deep: float, length: float, run: float, rise: float) -> tuple[float, float]:
    """The notch drawn full size: its level line and its plumb line, from the inside corner to the
    board's lower edge."""
    edge = square(run, rise)
    corner = meet(beside(edge, deep), PLUMB)
    seat = meet(Line(corner, (corner[0] + 1, corner[1])), edge)
    heel = meet(Line(corner, (corner[0], corner[1] - 1)), edge)
    del length
    return rule(corner, seat), rule(corner, heel)


def gap(thick: float, right: float, wrong: float) -> float:
    """Both tilts drawn over the board as it is seen along the face mark."""
    far = Line((0.0, thick), (1.0, thick))
    fits, leaves = (laid_off(ORIGIN, PLUMB, -tilt) for tilt in (right, wrong))
    out = meet(leaves, far)
    return rule(out, meet(squared(fits, out), fits))


def plumb_apart(rise: float, run: float, level: float) -> float:
    """Two plumb marks on a scrap, this far apart level: how far apart they are along its edge."""
    edge = square(run, rise)
    return rule(ORIGIN, meet(edge, Line((level, 0.0), (level, 1.0))))


def center_to_side(thick: float, plan: float) -> float:
    """The hip from above, crossed by the jack: from its center to its side, along the jack."""
    side = Line((0.0, thick / 2), (1.0, thick / 2))
    return rule(ORIGIN, meet(laid_off(ORIGIN, LEVEL, plan), side))


def legs(long: float, angle: float) -> tuple[float, float]:
    """A right triangle with this long side: its legs beside the angle and across from it."""
    slanted = laid_off(ORIGIN, LEVEL, angle)
    x, y = slanted.way
    end = (x * long, y * long)
    foot = meet(Line(end, (end[0], end[1] - 1)), LEVEL)
    return rule(ORIGIN, foot), rule(foot, end)


def three_triangles(plan: float, slope: float, *, across: bool = False) -> float:
    """The tilt of a board that leans: the purlin's three triangles, the last one measured."""
    first, _ = legs(12.0, plan)
    leg = legs(first, slope)[1 if across else 0]
    # A right triangle with long side 12 and one leg: turn the long side until it comes so high.
    low, high = 0.0, 90.0
    for _ in range(40):
        middle = (low + high) / 2
        low, high = (middle, high) if legs(12.0, middle)[1] < leg else (low, middle)
    return low


def bevel_of(rise: float, run: float) -> float:
    """The roof plane unfolded, square corner and one pitch: the angle of hip and common."""
    common = rule((run, 0.0), (0.0, rise))
    return protractor(Line(ORIGIN, (0.0, common)), Line(ORIGIN, (run, common)))


SOLVERS: list[tuple[str, str, Solver]] = [
    (
        rf"board {N}{UNIT} thick\. On the edge, the mark runs {N} along for every {N} across",
        "edge mark",
        lambda t, along, across: mark_across(across, along, t),
    ),
    (
        rf"side-cut number (?:of this jack )?is {N} on {N}\. The board is {N}{UNIT} thick",
        "edge mark",
        mark_across,
    ),
    (
        rf"side-cut number is {N} on {N}\. The hip is {N}{UNIT} thick, and each cheek",
        "edge mark",
        lambda n, r, t: mark_across(n, r, t / 2),
    ),
    (
        rf"pitch is {PITCH}\. The board is {N}{UNIT} deep\. How far along .* plumb mark",
        "lay a pitch",
        plumb_run,
    ),
    (
        rf"pitch is {PITCH}\. How many degrees .* plumb mark",
        "protractor",
        lambda rise, run: protractor(square(run, rise), LEVEL),
    ),
    (
        rf"A plumb mark runs {N}° .* level mark run",
        "square to each other",
        lambda plumb: protractor(LEVEL, squared(laid_off(ORIGIN, LEVEL, -plumb), ORIGIN)),
    ),
    (
        rf"pitch is {PITCH}\. A board {N}{UNIT} deep is cut level",
        "lay a pitch|both cuts",
        lambda rise, run, depth: plumb_run(run, rise, depth),
    ),
    (
        rf"{PITCH}, the saw follows the plumb face mark down a board {N}{UNIT} deep",
        "face mark",
        plumb_run,
    ),
    # Lengths: by the table.
    (
        rf"a common is {N} long for each {N} of run\. The run is {FEET}",
        "By the table",
        lambda row, unit, run: run * row / unit,
    ),
    (
        rf"rule on the square from {N} on the blade to {N} on the tongue",
        "Lay a rule on the square",
        lambda run, rise: rule((run, 0.0), (0.0, rise)),
    ),
    (
        rf"a hip is {N} long for each {N} of the common's run\. The common runs {FEET}",
        "common's run",
        lambda row, unit, run: run * row / unit,
    ),
    (
        rf"the corner is square\. The common runs {FEET}\. How far does the hip run",
        "the hip runs",
        lambda run: rule((run, 0.0), (0.0, run)),
    ),
    # The bird's mouth.
    (
        rf"notch {N}{UNIT} deep, {COMMON} .* seat",
        "draw",
        lambda *sizes: notch(*sizes)[0],
    ),
    (
        rf"notch {N}{UNIT} deep, {COMMON} .* heel",
        "draw",
        lambda *sizes: notch(*sizes)[1],
    ),
    (
        rf"measures {N}{UNIT} plumb\. The heel is {N}",
        "height above plate",
        lambda plumb, heel: plumb - heel,
    ),
    # Runs and slopes of hips and valleys.
    (
        rf"hip rises {N} while it runs {N}\. What is its slope",
        "protractor",
        lambda rise, run: protractor(square(run, rise), LEVEL),
    ),
    (
        rf"valley rises {N} while it runs {N}\. How many degrees",
        "protractor",
        lambda rise, run: protractor(square(run, rise), LEVEL),
    ),
    (
        rf"The hip runs {N} while the common runs {N}; the rise is {N}\. How many",
        "protractor",
        lambda own, _, rise: protractor(square(own, rise), LEVEL),
    ),
    (
        rf"A hip is {N}{UNIT} deep\. It rises {N} on a run of {N}",
        "face mark",
        lambda depth, rise, run: plumb_run(rise, run, depth),
    ),
    # The number on the edge: the roof plane, or the top of the rafter, unfolded on a board.
    (
        rf"eave it is {N} from the corner to .* common is {N} long\. The run is {N}\.",
        "[Uu]nfold",
        lambda eave, common, run: read_at(eave, common, run),
    ),
    (
        rf"unfolded, the valley goes {N} along the ridge while the jack is {N} long\. The run is"
        rf" {N}",
        "[Uu]nfold",
        lambda eave, common, run: read_at(eave, common, run),
    ),
    (
        rf"goes {N} square across the \w+ while the \w+ runs {N}\. The \w+ is {N} long there\."
        rf" .* on {N}\?",
        "top of this rafter",
        lambda across, _, length, twelve: read_at(across, length, twelve),
    ),
    (
        rf"purlin's number is {N} on {N}\. A common is {N} long for a run of {N}",
        "stretches",
        lambda plan, _, length, run: plan * length / run,
    ),
    # Tilts and gaps.
    (
        rf"{N}{UNIT} thick\. The tilt that fits is {N}°\. Someone sets the angle of the edge mark,"
        rf" {N}°",
        "find a gap beforehand",
        gap,
    ),
    (
        rf"\({N} x {N}{UNIT}\): the tilt that fits is {N}°\. Someone sets {N}°",
        "find a gap beforehand",
        lambda t, _, right, wrong: gap(t, right, wrong),
    ),
    (
        rf"corner {N}°\. How much would the saw",
        "half the corner",
        lambda corner: protractor(laid_off(ORIGIN, LEVEL, corner / 2), LEVEL),
    ),
    (
        rf"This roof has a pitch of {PITCH}, the other {PITCH}\. To how many",
        "Draw the plan",
        lambda rise, run, other, other_run: protractor(
            square(rise / run, other / other_run), LEVEL
        ),
    ),
    (rf"plan angle is {N}°, the roof's slope {N}°", "three right triangles", three_triangles),
    (rf"fascia and miter make {N}°\. The rafters slope {N}°", "triangles", three_triangles),
    (
        rf"sides climb at {N}° from level\. Half the corner is {N}°",
        "triangles",
        lambda slope, half: three_triangles(half, slope, across=True),
    ),
    (
        rf"a side {N}{UNIT} deep makes {N}° with",
        "face mark",
        lambda depth, mark: abs(
            meet(laid_off(ORIGIN, PLUMB, mark), Line((0.0, depth), (1.0, depth)))[0]
        ),
    ),
    (
        rf"small roof has a pitch of {PITCH}, the deck {PITCH}\. To how many",
        "slope of the deck",
        lambda rise, run, other, other_run: protractor(square(other_run, other), LEVEL),
    ),
    (
        rf"small roof has a pitch of {PITCH}, the deck {PITCH}\. How many degrees",
        "level cut of a common",
        lambda rise, run, other, other_run: protractor(square(run, rise), PLUMB),
    ),
    (
        rf"side-cut number is {N} on {N}\. What angle",
        "protractor",
        lambda n, run: protractor(square(run, n), LEVEL),
    ),
    (
        rf"For {PITCH}: four angles belong to this cut",
        "[Uu]nfold",
        bevel_of,
    ),
    # Backing, dropping, shortening.
    (
        rf"each falls {N} over {N}\. The hip is {N}{UNIT} thick",
        "drop",
        lambda fall, run, t: t / 2 * fall / run,
    ),
    (
        rf"the hip is {N}{UNIT} thick\. Draw its end full size: .* to a line {N} down the face",
        "protractor",
        lambda t, down: protractor(square(t / 2, down), LEVEL),
    ),
    (
        rf"jack are {N}{UNIT} thick\. From above they make {N}°\. .* common is {N} long for a"
        rf" run of {N}",
        "Cross them",
        lambda t, plan, length, run: center_to_side(t, plan) * length / run,
    ),
    (
        rf"For {PITCH}, on .*: half the hip .* back level by {N}{UNIT}, .* runs {N}{UNIT} along",
        "second one|second plumb",
        lambda rise, run, level, edge: plumb_apart(rise, run, level) + edge / 2,
    ),
    (
        rf"ridge is {N}{UNIT} thick\. From above, hip and ridge make {N}°; .* The hip is {N} long"
        rf" for a run of {N}",
        "Cross them",
        lambda t, plan, length, run: center_to_side(t, plan) * length / run,
    ),
    (
        rf"jacks {N}{UNIT} on center\. A common is {N} long for a run of {N}",
        "common difference",
        lambda spacing, length, run: spacing * length / run,
    ),
    (
        rf"loses {N}{UNIT}, measured level\. A common is {N} long for a run of {N}",
        "both ends",
        lambda level, length, run: 2 * level * length / run,
    ),
    (
        rf"a common is {N} long for {N} of run\. Half the ridge is {N}",
        "By the table",
        lambda length, run, level: level * length / run,
    ),
    (
        rf"a common is {N} long for {N} of run\. The tail hangs out {N}",
        "By the table",
        lambda length, run, level: level * length / run,
    ),
]


def read_at(across: float, along: float, at: float) -> float:
    """A right triangle drawn with these legs, and read so far from its point."""
    slanted = square(along, across)
    return meet(slanted, Line((at, 0.0), (at, 1.0)))[1]


def number(text: str) -> float:
    feet = re.fullmatch(r"(\d+)'-([\d /]+)\"", text)
    if feet is not None:
        return 12 * int(feet[1]) + number(feet[2])
    text = text.removesuffix(" mm")
    whole, _, fraction = text.rpartition(" ")
    if "/" in fraction:
        top, bottom = fraction.split("/")
        return float(whole or 0) + int(top) / int(bottom)
    return float(text)


def solved(name: str, ask: str) -> tuple[float, str]:
    for pattern, taught, solve in SOLVERS:
        if (match := re.search(pattern, ask)) is not None:
            return solve(*map(number, match.groups())), taught
    return pytest.fail(
        f"lesson {name}: nobody taught how to answer {ask!r}: ask as another lesson asks, or add"
        f" to SOLVERS in {__name__.replace('.', '/')}.py how a learner finds it"
    )


def near_enough(answer: str, system: System) -> float:
    """What a worked answer may miss the printed one by, the numbers on the sheet being rounded."""
    if answer.endswith("°"):
        return 0.3
    if system is System.METRIC:
        return 1.6
    return 1 / 12


def words_of(worked: Worked) -> str:
    """What a lesson teaches: its steps, tables and sentences, but no formula and no drill."""
    said = []
    for block in worked.blocks:
        match block:
            case Paragraph(text, _):
                said.append(text)
            case Steps(items):
                for text, shown in items:
                    said.append(text)
                    if isinstance(shown, TableBlock):
                        said.append(shown.shows)
            case _:
                pass
    return "\n".join(said)


ROOFS = {
    "own": {},
    "7 in 12": {"pitch": "7 in 12", "stock": "2x4", "hand": "right"},
    **({"12 in 12": {"pitch": "12 in 12", "stock": "4x8"}} if LONG else {}),
}


@cache
def worked_out(name: str, roof: str, system: System) -> Worked:
    return run(catalog()[name], ROOFS[roof], system)


@cache
def taught_until(name: str, roof: str, system: System) -> str:
    """What is taught up to the end of a lesson, by it and by all before it."""
    names = list(catalog())
    before = names.index(name)
    so_far = taught_until(names[before - 1], roof, system) if before else ""
    return so_far + "\n" + words_of(worked_out(name, roof, system))


@pytest.mark.parametrize("roof", ROOFS)
@pytest.mark.parametrize("system", System)
@pytest.mark.parametrize("name", catalog())
def test_a_reader_with_no_formula_answers_every_number(name, system, roof):
    for ask, answer in asked_for_a_number(name, roof, system):
        value, taught = solved(name, ask)
        assert re.search(taught, taught_until(name, roof, system)), (ask, taught)
        whole = re.match(FEET, answer)
        true = number(whole[0] if whole else re.match(N, answer)[0])
        near = near_enough(answer, system) * (4 if whole else 1)
        assert value == pytest.approx(true, abs=near), ask


def test_the_reader_is_asked_for_numbers_in_every_lesson():
    asked = [len(asked_for_a_number(name, "own", System.INCH)) for name in catalog()]
    assert min(asked) >= 1
    assert sum(asked) > 40


def asked_for_a_number(name: str, roof: str, system: System) -> list[tuple[str, str]]:
    """The questions of a lesson that a number answers, each with the answer that is printed."""
    (drills,) = [
        block for block in worked_out(name, roof, system).blocks if isinstance(block, DrillsBlock)
    ]
    return [
        (one.ask, one.answer)
        for one in drills.problems
        if not one.layout and one.outline is None and re.match(N, one.answer)
    ]


def test_no_step_of_a_lesson_asks_for_a_formula():
    for lesson in catalog().values():
        worked = run(lesson)
        for block in worked.blocks:
            if isinstance(block, Boxed):
                continue  # the aside is for those who want one
            said = words_of(worked)
            assert not re.search(r"\b(tangent|cosine|sine|square root)\b", said), lesson.name
            if isinstance(block, DrillsBlock):
                for one in block.problems:
                    asked = " ".join((one.ask, one.because, *one.hints))
                    assert not re.search(r"\b(tangent|cosine|sine)\b", asked), lesson.name


def test_no_word_of_the_miter_saw_before_its_lesson():
    first = catalog()["number-is-not-the-tilt"].number
    for lesson in catalog().values():
        if lesson.number >= first:
            continue
        worked = run(lesson)
        (drills,) = [b for b in worked.blocks if isinstance(b, DrillsBlock)]
        for problem in drills.problems:
            said = " ".join((problem.ask, *problem.layout, *problem.hints))
            assert "miter saw" not in said.lower()
