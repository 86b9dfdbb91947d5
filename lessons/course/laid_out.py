"""A finished layout in words, a line for each thing marked or set: right, or with one fault.

The lines are lettered. A fault is a known mistake made on this cut; the lines that read other
than they should are the faulty ones. Everything is written as it is laid on the tools.
"""

from dataclasses import dataclass, replace
from itertools import permutations
from math import cos, radians
from typing import Literal

from layout.answer.answer import SAME_ANGLE_DEG, Answer, Mark
from layout.answer.sense_words import SURFACE, end_words, lean_words
from layout.answer.senses import shoe_side, through_in
from layout.answer.wording import write_numbers
from layout.quantity import nearest, write_degrees, write_fraction
from layout.tools.saw import reaches
from layout.tools.setting import ByHand, BySaw, BySawOnEdge, RipByHand, RipBySaw, Setting
from layout.tools.square import SMALLEST_IN, Arm, Numbers, fits, numbers
from layout.tools.travel import lean
from lessons.course.wrong_answers import misread
from lessons.mistakes.cut_mistakes import Made
from lessons.say.units import System, written

Shows = Literal["face", "edge", "saw", "mitre saw", "gauge"]


STANDING_IN = 3.5
"""Deeper boards stand and tilt under few miter saws (common practice, no source) [in]."""
ORDERS = tuple(permutations(range(3)))
"""The orders in which three claims can stand."""


@dataclass(frozen=True)
class LaidLine:
    """One thing that was marked or set: its letter, what it is about, and how it was done."""

    letter: str
    shows: Shows
    text: str


@dataclass(frozen=True)
class LaidOut:
    """A layout with one fault: its lines, the letters of the faulty ones, and the mistake."""

    lines: tuple[LaidLine, ...]
    made: Made
    true_lines: tuple[LaidLine, ...]

    @property
    def faulty(self) -> frozenset[str]:
        """The letters of the lines that the fault shows in."""
        pairs = zip(self.lines, self.true_lines, strict=True)
        return frozenset(line.letter for line, true in pairs if line.text != true.text)


def laid_out(
    answer: Answer, made: Made, system: System = System.INCH, *, miter: bool = False
) -> LaidOut:
    """The layout of someone who makes this mistake, in one line, and does all else right.

    `miter` adds the line of a miter saw, for those who have been taught it.
    """
    made = in_one_line(answer, made)
    lines, true = (_lines(answer, fault, system, miter) for fault in (made.setting, None))
    return LaidOut(lines, made, true)


def right_lines(answer: Answer, system: System = System.INCH) -> tuple[LaidLine, ...]:
    """The layout with nothing wrong in it."""
    return _lines(answer, None, system, False)


def in_one_line(answer: Answer, made: Made) -> Made:
    """The mistake made in one line alone, with the gap that leaves: one thing is wrong.

    A mistake that spoils both marks is made in the edge mark, one that spoils the line and the
    tilt in the tilt.
    """
    setting = made.setting
    if isinstance(setting, ByHand):
        marked = answer.hand_setting(as_read=False)
        assert isinstance(marked, ByHand)
        if (setting.edge, setting.left_lean) == (marked.edge, marked.left_lean):
            return made
        one: Setting = replace(setting, face=marked.face, top_lean=marked.top_lean)
    elif isinstance(setting, BySaw):
        sawn = answer.saw_setting(as_read=False)
        assert isinstance(sawn, BySaw)
        if (setting.tilt_deg, setting.toward_waste) == (sawn.tilt_deg, sawn.toward_waste):
            return made
        one = replace(setting, line_deg=sawn.line_deg, top_lean=sawn.top_lean)
    else:
        return made
    return made if one == setting else replace(made, setting=one, fit=answer.fit(one))


def disputed(answer: Answer, made: Made, system: System = System.INCH) -> LaidOut:
    """Three claims about one cut: what the mistake says of a line, and what is right of that line
    and of another one. The two that are right put one plane there.

    A claim about the face mark is held against the saw's, and that one names the angle of the
    line it follows: a saw that only follows "the face mark" would agree with both.
    No line is faulty where the mistake does not show. The order of the claims is fixed by their
    words, and differs from cut to cut.
    """
    made = in_one_line(answer, made)
    right, wrong = (_lines(answer, fault, system, False) for fault in (None, made.setting))
    shows = [at for at, line in enumerate(right) if wrong[at].text != line.text]
    if not shows:
        return LaidOut((), made, ())
    at = shows[-1]
    other = _held_against(answer, right, at)
    claims = [(right[at], right[at]), (wrong[at], right[at]), (other, other)]
    turn = sum(map(ord, "".join(said.text for said, _ in claims)))
    order = ORDERS[turn % len(ORDERS)]
    said, true = zip(*(claims[i] for i in order), strict=True)
    lettered = (
        tuple(LaidLine("ABC"[i], line.shows, line.text) for i, line in enumerate(lines))
        for lines in (said, true)
    )
    lines, should = lettered
    return LaidOut(lines, made, should)


def _held_against(answer: Answer, right: tuple[LaidLine, ...], at: int) -> LaidLine:
    """The right line that fits the right claim about line `at` and no wrong one."""
    if answer.is_rip:
        return right[1 - at]
    _, edge, saw = right
    match right[at].shows:
        case "face":
            return replace(saw, text=_saw(answer, None, line=_line_words(answer)))
        case "edge":
            return saw
        case _:
            return edge


def _line_words(answer: Answer) -> str:
    """The line on the face by its angle, as it is read off a protractor."""
    if answer.face.lean == 0:
        return "a line square across"
    angle = write_degrees(nearest(answer.face.from_square_deg, 4))
    return f"a line {angle} from square across, its top toward the {end_words(answer.face.lean)}"


def _lines(
    answer: Answer, fault: Setting | None, system: System, miter: bool
) -> tuple[LaidLine, ...]:
    if answer.is_rip:
        told: list[tuple[Shows, str]] = _rip(answer, fault, system)
    else:
        told = [
            ("face", _face(answer, fault, system)),
            ("edge", _edge(answer, fault, system)),
            ("saw", _saw(answer, fault)),
        ]
        on_edge = fault if isinstance(fault, BySawOnEdge) else answer.edge_saw_setting()
        if on_edge is not None and (miter or isinstance(fault, BySawOnEdge)):
            told.append(("mitre saw", _mitre_saw(answer, on_edge)))
    return tuple(LaidLine("ABCDEF"[i], shows, text) for i, (shows, text) in enumerate(told))


def _face(answer: Answer, fault: Setting | None, system: System) -> str:
    setting = answer.hand_setting(as_read=False)
    mark = answer.face
    assert isinstance(setting, ByHand)
    legs, lean, laid = setting.face, setting.top_lean, mark.numbers
    if isinstance(fault, ByHand):
        legs, lean = fault.face, fault.top_lean
        laid = _as_laid(legs, setting.face, mark)
    elif isinstance(fault, BySaw):
        lean, laid = fault.top_lean, _face_of_saw(answer, fault, setting)
    leans = f"; its top slants toward the {_end(lean, mark)}" if _slants(laid) else ""
    return f"Face mark: {_laid(laid, system)}{leans}."


def _face_of_saw(answer: Answer, fault: BySaw, true: ByHand) -> Numbers | None:
    """The numbers of a face line that the saw follows: the layout's own where only its arm or
    nothing is wrong."""
    mark = answer.face
    if abs(fault.line_deg - mark.from_square_deg) < SAME_ANGLE_DEG:
        return mark.numbers
    if abs(fault.line_deg - mark.bevel_deg) < SAME_ANGLE_DEG:
        return _as_laid(true.face[::-1], true.face, mark)
    return misread(answer, fault).face.numbers


def _edge(answer: Answer, fault: Setting | None, system: System) -> str:
    setting = answer.hand_setting(as_read=False)
    assert isinstance(setting, ByHand)
    lean, laid = setting.left_lean, answer.edge.numbers
    if isinstance(fault, ByHand):
        lean = fault.left_lean
        laid = _as_laid(fault.edge, setting.edge, answer.edge)
    leans = f"; its left end slants toward the {_end(lean, answer.edge)}" if _slants(laid) else ""
    return f"Edge mark: {_laid(laid, system)}{leans}."


def _saw(answer: Answer, fault: Setting | None, *, line: str = "the face mark") -> str:
    setting = fault if isinstance(fault, BySaw) else answer.saw_setting(as_read=False)
    assert isinstance(setting, BySaw)
    side = shoe_side(answer)
    leans = lean_words(lean(setting.normal, side))
    tilt = write_degrees(nearest(setting.tilt_deg, 4))
    saw = _reaching(answer, setting)
    return f"{saw}, shoe on the {SURFACE[side]}, along {line}: tilt {tilt}; {leans}."


def _reaching(answer: Answer, setting: BySaw) -> str:
    """The saw of a line: where the right tilt is past this saw's, a line past it is another saw's.

    A wrong tilt is named as any other, so that its words do not give it away.
    """
    limit_deg, right_deg = answer.limits.tilt_deg, float(answer.cut.face_tilt_deg)
    if not (reaches(right_deg, limit_deg) or reaches(setting.tilt_deg, limit_deg)):
        return "A saw that tilts so far"
    from_each_in = through_in(answer.cut, face=True) / 2 / cos(radians(right_deg))
    return "Saw" if from_each_in <= answer.limits.depth_in else "A saw that cuts so deep"


def _mitre_saw(answer: Answer, setting: BySawOnEdge) -> str:
    table, tilt = (
        write_degrees(nearest(angle, 4)) for angle in (setting.line_deg, setting.tilt_deg)
    )
    saw = "Miter saw"
    if not reaches(setting.line_deg, answer.limits.turn_deg):
        saw = "A miter saw that turns so far"
    elif answer.question.stock.depth_in > STANDING_IN:
        saw = "A miter saw that takes a board so deep"
    return f"{saw}, board standing on its edge: table {table}, tilt {tilt}."


def _rip(answer: Answer, fault: Setting | None, system: System) -> list[tuple[Shows, str]]:
    gauge = fault if isinstance(fault, RipByHand) else answer.hand_setting(as_read=False)
    saw = fault if isinstance(fault, RipBySaw) else answer.saw_setting(as_read=False)
    assert isinstance(gauge, RipByHand)
    assert isinstance(saw, RipBySaw)
    edge = "top" if gauge.top > 0 else "bottom"
    across, drop = (_gauged(size, system) for size in (gauge.across_in, gauge.drop_in))
    tilt = write_degrees(nearest(saw.tilt_deg, 4))
    lines = f"{across} across the {edge} edge, {drop} down the {_low(gauge.right)} face"
    return [
        ("gauge", f"Gauge lines: {lines}."),
        ("saw", f"Saw, along the gauge line: tilt {tilt}, low at the {_low(saw.right)} face."),
    ]


def _low(right: int) -> str:
    return "right" if right > 0 else "left"


def _gauged(size_in: float, system: System) -> str:
    if system is System.METRIC:
        return written(size_in, "in", system)
    return f"{write_fraction(size_in, 32)} in"


def _as_laid(
    legs: tuple[float, float], true_legs: tuple[float, float], mark: Mark
) -> Numbers | None:
    """The numbers that lay these legs, each number on the arm where the layout has it."""
    if mark.numbers is None:
        return numbers(*legs)
    if legs == true_legs:
        return mark.numbers
    arm: Arm = mark.numbers.mark_arm
    if legs == true_legs[::-1]:
        return _exchanged(mark.numbers)
    return numbers(*legs, arm)


def _exchanged(laid: Numbers) -> Numbers:
    """The two numbers in each other's place, the same arm marked along; halved where one does
    not fit its arm."""
    mark, other = laid.other, laid.mark
    while min(mark, other) > SMALLEST_IN and fits(mark, other, laid.mark_arm) != laid.mark_arm:
        mark, other = mark / 2, other / 2
    return Numbers(mark, other, laid.mark_arm)


def _slants(pair: Numbers | None) -> bool:
    """Whether a mark, as it is read off the square, leans at all."""
    return pair is not None and pair.as_read().mark > 0


def _laid(pair: Numbers | None, system: System) -> str:
    if pair is None or not _slants(pair):
        return "square across"
    if system is System.METRIC:
        blade, tongue = (written(side, "square", system) for side in (pair.blade, pair.tongue))
        return f"{blade} on the blade, {tongue} on the tongue, marked along the {pair.mark_arm}"
    return write_numbers(pair).replace("; mark along", ", marked along")


def _end(lean: int, mark: Mark) -> str:
    return end_words(lean or mark.lean)
