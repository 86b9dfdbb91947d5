"""Run lessons over a sweep of roofs and boards, and see that both methods agree in every case.

The settings are read for each roof from the lesson's own answer, as they are printed; their
planes and their fits are then worked out together, a board at a time. A lesson fails where a
plane with exact settings is not the joint's, where something it states is not so, or where one
of its texts has no value.
"""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, fields, replace
from itertools import product
from math import cos, radians
from typing import Any

import numpy as np

from layout.answer.answer import Answer
from layout.answer.senses import Way, way
from layout.answer.wording import given_line
from layout.errors import CutError, LayoutError, RoofError
from layout.plane.cut import Cut
from layout.stock import read_stock
from layout.tools.fit import SOUND_IN, Fit, fit
from layout.tools.saw import SawLimits, reaches
from layout.tools.setting import Setting
from layout.vector import Array
from lessons.course.agreement import Misfit, misstated
from lessons.course.lesson_data import Lesson
from lessons.course.runner import asked, proved, written_out
from lessons.say.units import System

PITCHES = ("3 in 12", "5 in 12", "8 in 12", "12 in 12", "17 1/2 in 12", "700 in 1000")
OTHER_PITCHES = ("", "4 in 12", "9 in 12", "14 in 12")
"""Of the other roof; the first is the own pitch."""
CORNERS: Mapping[str, tuple[str, ...]] = {
    "nothing": ("",),
    "hip": ("90", "60", "108", "135"),
    "valley": ("270", "240", "225", "315"),
    "either": ("90", "135", "270", "240"),
}
"""By what stands at the corner for the lesson's cut."""
STOCKS = ("1x6", "2x4", "2x10", "4x8", "38mm x 140mm")
HANDS = ("left", "right")
TAUGHT_EVERY = 11
"""One roof in this many is taught with all texts, in both systems of units."""


@dataclass(frozen=True)
class Swept:
    """A lesson over the sweep: how many cuts were tried, and the widest gaps of either method.

    `exact_in` is with exact settings, `read_in` with settings as read on the tools; `beyond` is
    how many cuts leave more than `tolerance_in` as read, `past_saw` how many have a tilt past the
    saw's. `other_way` is how many take two passes or the shoe on an edge, `out_of_reach` how many
    no pass of the saw makes, for its tilt or its blade. `fault` says what is wrong and where, None
    where nothing is.
    """

    lesson: Lesson
    cases: int
    exact_in: float
    read_in: float
    beyond: int
    tolerance_in: float
    fault: str | None
    past_saw: int = 0
    other_way: int = 0
    out_of_reach: int = 0

    @property
    def sound(self) -> bool:
        """True where both methods agree in every case, and with every word of the lesson."""
        return self.fault is None


@dataclass(frozen=True)
class _Method:
    """What one method's cuts come to on one board: the fits, a row for each answer."""

    name: str
    exact: Fit
    read: Fit


@dataclass(frozen=True)
class _CutTried:
    """What came of the answers of one cut, on every board: counts as in `Swept`.

    `unfit` is the first method whose exact plane is not the joint's, with its gaps and where.
    """

    answers: tuple[Answer, ...]
    cases: int
    exact_in: float
    read_in: float
    beyond: int
    past_saw: int
    other_way: int
    out_of_reach: int
    unfit: tuple[str, Fit, Answer] | None


TriedCuts = dict[object, "_CutTried"]
"""What cuts came to in their roofs: lessons that ask for one cut have them in common."""


def sweep(lesson: Lesson, limits: SawLimits | None = None, kept: TriedCuts | None = None) -> Swept:
    """Run a lesson over every pitch, corner, hand and board of the sweep, for this saw.

    Roofs that the lesson's cut has no place in are passed over. Lessons that are given the same
    `kept` try a cut that they have in common once.
    """
    try:
        proved(lesson)
        own = asked(lesson)
        limits = limits or own.limits
        parts = (_tried([replace(own, limits=limits)]), _course(lesson, limits, kept))
        unfit = next((part.unfit for part in parts if part.unfit), None)
        return Swept(
            lesson,
            sum(part.cases for part in parts),
            max(part.exact_in for part in parts),
            max(part.read_in for part in parts),
            sum(part.beyond for part in parts),
            own.tolerance_in,
            (str(Misfit(lesson.path, *unfit)) if unfit else None)
            or _untrue(lesson, [one for part in parts for one in part.answers])
            or _untaught(lesson),
            sum(part.past_saw for part in parts),
            sum(part.other_way for part in parts),
            sum(part.out_of_reach for part in parts),
        )
    except LayoutError as error:
        return Swept(lesson, 0, 0.0, 0.0, 0, 0.0, str(error))


def _course(lesson: Lesson, limits: SawLimits, kept: TriedCuts | None) -> _CutTried:
    """The lesson's cut in all roofs of the sweep, on its own board and on the sweep's."""
    kept = {} if kept is None else kept
    of_case = next(cases(lesson))
    own = {part: said for part, said in lesson.given.items() if part not in of_case}
    cut = lesson.entry.name, lesson.end, tuple(sorted(own.items())), limits
    if cut not in kept:
        kept[cut] = _tried([replace(one, limits=limits) for one in _answers(lesson)])
    return kept[cut]


def _tried(answers: Sequence[Answer]) -> _CutTried:
    """Every plane of these answers by both methods, on its own board and on each of the sweep."""
    planes = [plane for true_answer in answers for plane in (true_answer, *true_answer.others)]
    unfit: tuple[str, Fit, Answer] | None = None
    cases = beyond = past_saw = other_way = out_of_reach = 0
    exact_in = read_in = 0.0
    past = sum(not reaches(float(one.cut.face_tilt_deg), one.limits.tilt_deg) for one in planes)
    for here in _by_board(planes) if planes else ():
        past_saw += past
        ways = _ways(here)
        other_way += ways["both faces"] + ways["edge"]
        out_of_reach += ways["handsaw"]
        for method in _methods(planes, here):
            exact, read = method.exact.widest_in, method.read.widest_in
            exact_in, read_in = max(exact_in, exact.max()), max(read_in, read.max())
            beyond += int(np.count_nonzero(read > here[0].tolerance_in))
            worst = int(exact.argmax())
            if not exact[worst] < SOUND_IN and unfit is None:
                unfit = method.name, Fit(method.exact.gaps_in[worst]), here[worst]
        cases += len(here)
    return _CutTried(
        tuple(answers),
        cases,
        float(exact_in),
        float(read_in),
        beyond,
        past_saw,
        other_way,
        out_of_reach,
        unfit,
    )


def _ways(here: Sequence[Answer]) -> Counter[Way]:
    """How the saw makes each of these cuts, counted.

    A blade that comes through the whole thickness at its tilt makes the cut in one pass on a face;
    only the others are looked at one by one.
    """
    limits, thick_in = here[0].limits, here[0].question.stock.thickness_in
    found: Counter[Way] = Counter()
    for one in here:
        tilt = float(one.cut.face_tilt_deg)
        through = thick_in / max(cos(radians(tilt)), 1e-12) <= limits.depth_in
        plain = through and reaches(tilt, limits.tilt_deg)
        found["face" if plain else way(one)] += 1
    return found


def cases(lesson: Lesson) -> Iterator[dict[str, str]]:
    """Every roof of the sweep, as it is given to the lesson; the board is the lesson's own."""
    meets = lesson.entry.meets
    others = OTHER_PITCHES if meets != "nothing" else ("",)
    hands = HANDS if lesson.entry.two_hands else HANDS[:1]
    for pitch, other, corner, hand in product(PITCHES, others, CORNERS[meets], hands):
        yield {
            "pitch": pitch,
            "other_pitch": other or pitch,
            **({"corner": corner} if corner else {}),
            "hand": hand,
        }


def _answers(lesson: Lesson) -> Iterator[Answer]:
    for given in cases(lesson):
        try:
            yield asked(lesson, given)
        except (CutError, RoofError):
            continue


def _by_board(answers: Sequence[Answer]) -> Iterator[list[Answer]]:
    """The same answers on their own board and on every board of the sweep."""
    yield list(answers)
    for stock in map(read_stock, STOCKS):
        yield [
            replace(
                true_answer,
                question=true_answer.question.on(stock),
                cuts=true_answer.question.joint.cuts(stock),
            )
            for true_answer in answers
        ]


def _methods(roofs: Sequence[Answer], here: Sequence[Answer]) -> Iterator[_Method]:
    """Both methods on one board; marks and tilt follow from the roof, a rip's gauges do not."""
    cuts = [true_answer.cut for true_answer in here]
    told = here if roofs[0].is_rip else roofs
    for name, setting in (
        ("by hand", Answer.hand_setting),
        ("by saw", Answer.saw_setting),
    ):
        exact, read = (
            _fits(cuts, _normals([setting(true_answer, as_read) for true_answer in told]))
            for as_read in (False, True)
        )
        yield _Method(name, exact, read)


def _fits(cuts: Sequence[Cut], normals: Array) -> Fit:
    """Every cut made with its normal (n, 3), worked out together where all are rectangles."""
    if all(cut.outline is None for cut in cuts):
        parts = ([cut.normal for cut in cuts], [cut.point for cut in cuts], [c.span for c in cuts])
        normal, point, span = (np.stack(part) for part in parts)
        return fit(Cut(normal, point, span), normals)
    every = [
        fit(cut, normal).gaps_in
        for cut, normal in zip(cuts, np.broadcast_to(normals, (len(cuts), 3)), strict=True)
    ]
    most = max(len(gaps) for gaps in every)
    return Fit(np.stack([np.pad(gaps, (0, most - len(gaps))) for gaps in every]))


def _normals(settings: Sequence[Setting]) -> Array:
    """The planes of settings of one kind, worked out together (n, 3)."""
    columns: list[Any] = []
    for field in fields(settings[0]):
        column = np.array([getattr(setting, field.name) for setting in settings], dtype=float)
        columns.append(tuple(column.T) if column.ndim > 1 else column)
    return type(settings[0])(*columns).normal


def _untrue(lesson: Lesson, answers: Sequence[Answer]) -> str | None:
    """The first thing that the lesson states and is not so."""
    misfits = (misfit for true_answer in answers for misfit in misstated(lesson, true_answer))
    return next(map(str, misfits), None)


def _untaught(lesson: Lesson) -> str | None:
    """The first text of the lesson that has no value somewhere in the sweep."""
    for given in list(cases(lesson))[::TAUGHT_EVERY]:
        for system in System:
            try:
                true_answer = asked(lesson, given, system)
            except (CutError, RoofError):
                continue
            try:
                written_out(lesson, true_answer, system)
            except LayoutError as error:
                return f"{error} ({given_line(true_answer)})"
    return None
