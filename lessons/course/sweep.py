"""Run lessons over a sweep of roofs and boards, and see that both methods agree in every case.

The cut itself is tried in `cut_tried`, in all roofs and on all boards. A lesson fails where a
plane with exact settings is not the joint's, where something it states is not so, or where one of
its texts has no value.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import product

from layout.answer.answer import Answer
from layout.answer.wording import given_line
from layout.errors import LayoutError
from layout.stock import Stock, read_stock
from layout.tools.saw import SawLimits
from lessons.course.agreement import Misfit, misstated
from lessons.course.condition import all_held, within_tolerance
from lessons.course.cut_tried import CutTried, try_cut
from lessons.course.lesson_data import Lesson
from lessons.course.runner import asked, blocks_said, proved, question
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


TriedCuts = dict[object, CutTried]
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
        kept = {} if kept is None else kept
        course = _course(lesson, limits, kept)
        parts = (_own_roof(own, limits, kept), course)
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
            or _untaught(lesson, course.answers),
            sum(part.past_saw for part in parts),
            sum(part.other_way for part in parts),
            sum(part.out_of_reach for part in parts),
        )
    except LayoutError as error:
        return Swept(lesson, 0, 0.0, 0.0, 0, 0.0, str(error))


def _own_roof(own: Answer, limits: SawLimits, kept: TriedCuts) -> CutTried:
    """The lesson's cut in its own roof, on its own board and on the sweep's."""
    said = own.question
    cut = said.entry.name, said.end, said.pitch, said.other_pitch, said.corner_deg, said.hand
    key = *cut, said.stock, said.roll_deg, limits
    if key not in kept:
        kept[key] = try_cut([said], _boards(), limits)
    return kept[key]


def _course(lesson: Lesson, limits: SawLimits, kept: TriedCuts) -> CutTried:
    """The lesson's cut in all roofs of the sweep, on its own board and on the sweep's."""
    of_case = next(cases(lesson))
    own = {part: said for part, said in lesson.given.items() if part not in of_case}
    cut = lesson.entry.name, lesson.end, tuple(sorted(own.items())), limits
    if cut not in kept:
        roofs = [question(lesson, given, placed=False) for given in cases(lesson)]
        kept[cut] = try_cut(roofs, _boards(), limits)
    return kept[cut]


def _boards() -> list[Stock]:
    return [read_stock(name) for name in STOCKS]


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


def _untrue(lesson: Lesson, answers: Sequence[Answer | None]) -> str | None:
    """The first thing that the lesson states and is not so."""
    placed = (one for one in answers if one is not None)
    misfits = (misfit for true_answer in placed for misfit in misstated(lesson, true_answer))
    return next(map(str, misfits), None)


def _untaught(lesson: Lesson, answers: Sequence[Answer | None]) -> str | None:
    """The first text of the lesson that has no value somewhere in the sweep.

    Where the same conditions hold the lesson says the same with other numbers: of such roofs the
    first alone is written out.
    """
    said: set[object] = set()
    roofs = (one for one in answers[::TAUGHT_EVERY] if one is not None)
    for roof in roofs:
        in_inches, in_metric = (_usual(roof, system) for system in System)
        # Only how fine the square is read can differ between the two.
        holds = (*all_held(in_inches), within_tolerance(in_metric))
        if holds in said:
            continue
        said.add(holds)
        for system, true_answer in zip(System, (in_inches, in_metric), strict=True):
            try:
                blocks_said(lesson, true_answer, system)
            except LayoutError as error:
                return f"{error} ({given_line(true_answer)})"
    return None


def _usual(tried: Answer, system: System) -> Answer:
    """The same answer for a common saw, with the square read in these units.

    It is kept with the first, so that lessons with one cut work its values out once.
    """
    saw, parts = SawLimits(), system.square_parts
    return tried.once(system, lambda: replace(tried, limits=saw, square_parts=parts))
