"""Problems dealt at random: sensible roofs and boards, none twice, awkward ones put back.

Every choice is made by `random.Random.random` alone, whose numbers for a seed Python promises
never to change: a seed gives the same problems on any machine.
"""

import re
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import replace
from random import Random
from typing import TypeVar

from layout.answer.answer import Answer
from layout.errors import LayoutError
from layout.quantity import Pitch, read_pitch, write_fraction
from layout.tools.saw import SawLimits
from lessons.course.lesson import Drill, DrillKind, Lesson, LessonError
from lessons.course.runner import asked
from lessons.drill.problem import (
    NEAR_SIXTEENTH_IN,
    AwkwardError,
    Problem,
    measures,
    off_sixteenth_in,
    put,
)
from lessons.say.units import System

Thing = TypeVar("Thing")

RISES = (3.0, 18.0)
"""Lowest and highest rise in 12 that is drawn, unless the lesson's own lies outside."""
WHOLE_RISES = 0.75
"""This part of all rises is whole, the rest lies halfway between."""
OWN_FAULT = 0.5
"""This part of all faulty layouts has the drill's own fault, the rest another that is warned of."""
STEEPEST_TO_LEAST = 2.0
"""Pitches of one roof differ no more than this."""
CORNERS = ("75", "80", "90", "100", "105", "110", "120", "135", "150")
POLYGONS = ("90", "108", "120", "135", "144")
STOCKS = {
    "1x": ("1x4", "1x6", "1x8", "1x10"),
    "2x": ("2x4", "2x6", "2x8", "2x10"),
    "4x": ("4x4", "4x6", "4x8"),
}
TRIES, TRIES_FOR_SIXTEENTH, TRIES_ON_ROOF = 300, 100, 8
"""Draws before a drill is given up, before values far from a sixteenth are let in, and where
the roof and the board are given."""


def pick(rng: Random, things: Sequence[Thing]) -> Thing:
    """One of the things, each as likely as the next."""
    return things[int(rng.random() * len(things))]


def shuffled(rng: Random, things: Sequence[Thing]) -> list[Thing]:
    """The things in random order."""
    left, order = list(things), []
    while left:
        order.append(left.pop(int(rng.random() * len(left))))
    return order


class Deck:
    """Deals problems: from one seed always the same, in the same order, none of them twice."""

    def __init__(
        self, rng: Random, system: System = System.INCH, limits: SawLimits | None = None
    ) -> None:
        self.rng, self.system, self.limits = rng, system, limits
        self.refused: Counter[str] = Counter()
        self._dealt: set[tuple[object, ...]] = set()
        self._spent: set[tuple[str, int]] = set()
        self._put: dict[tuple[object, ...], Problem | LayoutError] = {}
        self._asked: dict[tuple[object, ...], Answer] = {}
        self._lessons: dict[int, Lesson] = {}

    def deal(self, lesson: Lesson, place: int) -> Problem:
        """A problem of the lesson's drill at `place`, one not dealt before if there is any.

        Raises LessonError where no draw makes a fair problem, with the commonest reason.
        """
        reasons: Counter[str] = Counter()
        again: Problem | None = None
        drill = (lesson.name, place)
        for attempt in range(TRIES if lesson.on_roof is None else TRIES_ON_ROOF):
            if attempt == TRIES_FOR_SIXTEENTH or lesson.on_roof is not None:
                self._spent.add(drill)  # all that read well are dealt: let the others in
            try:
                problem = self._draw(lesson, place)
                if drill not in self._spent:
                    _check_sixteenth(problem)
            except LayoutError as error:
                reasons[str(error)] += 1
                continue
            if problem.key not in self._dealt:
                self._dealt.add(problem.key)
                break
            again = problem
        else:
            problem = again or problem_lacking(lesson, place, reasons)
        self.refused += reasons
        return problem

    def _draw(self, lesson: Lesson, place: int) -> Problem:
        """One draw; one that was made before, as in a long series most were, is not put again."""
        drill = lesson.drills[place]
        given = drawn_given(lesson, drill, self.rng)
        self._lessons[id(lesson)] = lesson  # held, so that no other has its id
        drawn = id(lesson), tuple(sorted(given.items()))
        fault, measure = None, None
        if drill.mistake is not None:
            fault = _fault(lesson, drill, self._answer(drawn, lesson, given), self.rng)
        elif drill.kind == "mark":
            measure = pick(self.rng, measures(self._answer(drawn, lesson, given)))
        key = *drawn, place, fault, measure
        if key not in self._put:
            try:
                self._put[key] = put(
                    lesson,
                    place,
                    given,
                    self.system,
                    fault=fault,
                    measure=measure,
                    limits=self.limits,
                )
            except LayoutError as error:
                self._put[key] = error
        found = self._put[key]
        if isinstance(found, LayoutError):
            raise found.with_traceback(None)
        return found

    def _answer(
        self, drawn: tuple[object, ...], lesson: Lesson, given: Mapping[str, str]
    ) -> Answer:
        if drawn not in self._asked:
            self._asked[drawn] = asked(lesson, given)
        return self._asked[drawn]


def problem_lacking(lesson: Lesson, place: int, reasons: Counter[str]) -> Problem:
    """Raise the LessonError of a drill that no draw suits."""
    why = reasons.most_common(1)[0][0]
    kind = lesson.drills[place].kind
    raise LessonError(f"{lesson.path}: no fair problem for drill {place + 1} ({kind}): {why}")


def places(lesson: Lesson, kind: DrillKind | None = None) -> list[int]:
    """The places of the lesson's drills of a kind, of every kind if none is named."""
    return [i for i, drill in enumerate(lesson.drills) if kind in (None, drill.kind)]


def fair_on_roof(lesson: Lesson) -> Lesson:
    """The lesson with the drills alone that make a fair problem on its `on_roof`.

    On a given roof a mistake may come out nearly right; then nobody could tell it.
    """
    deck, fair = Deck(Random(1)), []
    for place, drill in enumerate(lesson.drills):
        try:
            deck.deal(lesson, place)
        except LessonError:
            continue
        fair.append(drill)
    return replace(lesson, drills=tuple(fair))


def drawn_given(lesson: Lesson, drill: Drill, rng: Random) -> dict[str, str]:
    """A roof and a board near the lesson's own: what its cut allows, and what its texts allow.

    The corner turns only where the drill's question names it, since others may call it square.
    """
    own = {**lesson.given}
    if lesson.on_roof is not None:
        hands = {"hand": pick(rng, ("left", "right"))} if lesson.entry.two_hands else {}
        return {**own, **hands, **lesson.on_roof}
    pitch = read_pitch(own.get("pitch", "8 in 12"))
    drawn = {**own, "pitch": _pitch(pitch, rng)}
    if "other_pitch" in own or "{other_pitch}" in drill.ask.text:
        drawn["other_pitch"] = _other_pitch(drawn["pitch"], own.get("other_pitch"), rng)
    if "{corner}" in drill.ask.text:
        corners = POLYGONS if lesson.entry.family == "splayed" else CORNERS
        drawn["corner"] = pick(rng, corners)
    if lesson.entry.two_hands:
        drawn["hand"] = pick(rng, ("left", "right"))
    stocks = _stocks(own.get("stock") or lesson.entry.stock, drill)
    if stocks:
        drawn["stock"] = pick(rng, stocks)
    return drawn


def _pitch(own: Pitch, rng: Random) -> str:
    if own.said.endswith("deg"):
        near = round(own.slope_deg)
        return f"{pick(rng, range(max(10, near - 20), min(80, near + 20) + 1))} deg"
    if own.run != 12.0:  # a metric ratio: the run stays, the rise goes in steps of 25
        steps = [rise for rise in range(200, 1501, 25) if rise / 1000 < 1.6]
        return f"{pick(rng, steps) * own.run / 1000:g} in {own.run:g}"
    low, high = RISES
    if not low <= own.rise <= high:
        low, high = round(own.rise / 2), round(own.rise * 1.5)
    whole = rng.random() < WHOLE_RISES
    rises = [low + i for i in range(int(high - low) + 1)]
    rise = pick(rng, rises) if whole else pick(rng, rises[:-1]) + 0.5
    return f"{write_fraction(rise)} in 12"


def _other_pitch(pitch: str, own: str | None, rng: Random) -> str:
    """A pitch that differs from this one, by a step at least and by twice at most."""
    slope = read_pitch(pitch)
    while True:
        other = read_pitch(_pitch(read_pitch(own) if own else slope, rng))
        ratio = (other.rise / other.run) / (slope.rise / slope.run)
        if 1.08 < max(ratio, 1 / ratio) <= STEEPEST_TO_LEAST:
            return str(other)


def _stocks(own: str, drill: Drill) -> tuple[str, ...]:
    """Usual boards as thick as the lesson's, and thicker ones where the thickness is asked about;
    the narrowest alone where one is drawn full size."""
    if re.fullmatch(r"[124]x\d+", own) is None:
        return ()
    same = STOCKS[own[:2]]
    if drill.kind == "number" and own[:2] == "2x" and "{thickness" in drill.ask.text:
        same += STOCKS["4x"]  # else a thickness that is asked about would always be one
    return same[:1] if drill.kind == "mark" else same


def _fault(lesson: Lesson, drill: Drill, true_answer: Answer, rng: Random) -> str:
    """The drill's own fault, or another the lesson warns of."""
    others = [
        warned.name
        for warned in lesson.warned
        if warned.name != drill.mistake and warned.when.holds(true_answer)
    ]
    if not others or rng.random() < OWN_FAULT:
        return str(drill.mistake)
    return pick(rng, others)


def _check_sixteenth(problem: Problem) -> None:
    if off_sixteenth_in(problem.sought) > NEAR_SIXTEENTH_IN:
        raise AwkwardError("the value lies between two sixteenths")
