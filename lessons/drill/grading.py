"""An answer read as a carpenter writes it, judged, and diagnosed.

The value and the form are judged apart: 9.98 for 10 on the square is right, and the square reads
10. A wrong value is held, before any rounding, against what each known mistake gives for this
very problem. Nothing is said of the learner; only of the answer: "this is what you get if ...".
"""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from layout.answer.wording import METRIC_RUN
from layout.errors import QuantityError
from layout.quantity import (
    MM_PER_INCH,
    nearest,
    read_angle,
    read_length,
    read_number,
    write_degrees,
    write_fraction,
)
from lessons.course.wrong_answers import Wrong
from lessons.drill.problem import Measure, Problem, Sought
from lessons.say.units import System, written
from lessons.settle.ear.answers import in_figures

ROUNDING = 1e-9
FINEST = 64
"""A rule is divided into sixty-fourths at most; other fractions cannot be read off one."""
METRIC_MM, METRIC_GAP_MM = 1.5, 0.7
"""What is told in metric for a sixteenth, and for a gap's thirty-second [mm]."""
_ON_RUN = re.compile(r"(.+?)\s+(?:on|over|to)\s+([\d./\s-]+)")
_MARKED_ANGLE = re.compile(r"(?:deg(?:rees?)?|°)\s*$", re.IGNORECASE)
_MARKED_LENGTH = re.compile(r"(?:in\.?|inch(?:es)?|\"|″|'|′|ft\.?|feet|foot|mm|cm|m)\s*$", re.I)
_MARKED_METRIC = re.compile(r"(?:mm|cm|m)\s*$", re.IGNORECASE)
_PART = re.compile(r"\d+\s*/\s*\d+|[½¼¾⅛⅜⅝⅞⅓⅔]")
_FRACTION = re.compile(r"(?:(\d+)(?:\s+|\s*-\s*))?(\d+)\s*/\s*(\d+)(?:\s*[a-z\"].*)?")


_SENSE = re.compile(
    r"(.+?)[,;]?\s*(?:toward(?:s)?(?: the)?\s+)?\b([a-z]+)(?: (?:end|face))?\.?", re.I
)
SENSES: Mapping[Measure, tuple[str, tuple[str, str]]] = {
    "face": ("the end toward which its top slants", ("foot", "head")),
    "edge": ("the end toward which its left end slants", ("foot", "head")),
    "drop": ("the face on which it drops", ("left", "right")),
}
"""What a measured mark is asked for besides its length, and the two answers."""
MIRRORED = "mirrored-mark"
"""What an answer is called that is as long as it should be and slants the other way."""
EXAMPLE: Mapping[System, str] = {System.INCH: "2 1/2", System.METRIC: "64"}
NUMBER_EXAMPLE: Mapping[System, str] = {System.INCH: "8 1/2", System.METRIC: "212"}
"""A number on the square, or a length, as an error shows how one is written."""
FULL_RUN: Mapping[System, int] = {System.INCH: 12, System.METRIC: 12 * METRIC_RUN}
"""What a number on the square stands across from, on the square of each system."""


@dataclass(frozen=True)
class Read:
    """An answer as it was read: the value in inches or degrees, and how it is said back.

    `form` is a remark on how it was written, empty where it was written well; `sense` the end or
    face toward which a mark was said to slant, empty of a mark of 0: a square line leans to no end.
    """

    value: float | str
    said: str
    form: str = ""
    sense: str = ""


@dataclass(frozen=True)
class Grade:
    """The judgement of one answer: right or not, and the mistakes that give what was answered."""

    read: Read
    right: bool
    wrongs: tuple[Wrong, ...] = ()


def told_tolerance(sought: Sought, system: System) -> float:
    """How far off an answer may be, as it is told: in degrees, inches, or in metric millimeters,
    a little less there than is judged by."""
    if sought.kind == "angle" or system is System.INCH:
        return sought.tolerance
    return METRIC_GAP_MM if sought.unit == "gap" else METRIC_MM


def tolerance_words(problem: Problem) -> str:
    """What is told beforehand: the unit an answer is given in, and how near is right."""
    sought = problem.sought
    if sought is None:
        letters = ", ".join(line.letter for line in problem.layout.lines) if problem.layout else ""
        return f"Answer with the letter of the faulty line: {letters}."
    if sought.kind == "word":
        return f"Answer with one of: {'; '.join(choices(sought))}."
    if sought.kind == "angle":
        return "Answer in degrees; half a degree either way is right."
    what = "a number on the square" if sought.kind == "number" else "a length"
    if problem.system is System.METRIC:
        run = ", the run being 300 mm" if sought.kind == "number" else ""
        near = f"{told_tolerance(sought, problem.system):g} mm either way is right"
        return f"Answer with {what} in mm{run}{_sense_told(problem)}; {near}."
    near = write_fraction(sought.tolerance, 64)
    unit = " in inches" if sought.kind == "length" else ""
    return f"Answer with {what}{unit}{_sense_told(problem)}; {near} either way is right."


def _sense_told(problem: Problem) -> str:
    """What else a mark's answer says: which way it slants."""
    if problem.measure is None:
        return ""
    what, words = SENSES[problem.measure]
    return f" and {what}, such as {EXAMPLE[problem.system]} {words[0]}"


def choices(sought: Sought) -> list[str]:
    """The words an answer in words is chosen from, in the order of the alphabet."""
    words = {str(sought.value), *(str(wrong.value) for wrong in sought.wrongs)}
    opposite = {"head": "foot", "foot": "head", "left": "right", "right": "left",
                "blade": "tongue", "tongue": "blade", "left face": "right face",
                "right face": "left face", "top edge": "bottom edge", "bottom edge": "top edge",
                "under the waste": "under the kept wood",
                "under the kept wood": "under the waste"}  # fmt: skip
    return sorted(words | {opposite[word] for word in words if word in opposite})


def read_answer(problem: Problem, text: str) -> Read:
    """Read what was typed. Raises QuantityError that says what would be read.

    A number with the wrong unit is no answer to the question: it is refused, not judged.
    """
    plain = " ".join(text.split())
    if problem.layout is not None:
        return _read_letter(problem, plain)
    assert problem.sought is not None
    if problem.sought.kind == "word":
        return _read_word(problem.sought, plain)
    if problem.measure is not None and not _MARKED_ANGLE.search(plain):
        return _read_mark(problem, plain)
    if problem.sought.kind == "angle" and _PART.fullmatch(plain):
        raise QuantityError(
            f"{plain!r} reads like part of an inch; degrees are asked for, such as 33.7"
            f" (or write {plain} deg)"
        )
    return _heard(plain, lambda text: _read_figures(problem, text))


def _heard(plain: str, read: Callable[[str], Read]) -> Read:
    """What is read from an answer in figures, or in words: thirty-five and a quarter."""
    try:
        return read(plain)
    except QuantityError:
        figures = in_figures(plain)
        if figures is None or figures == plain:
            raise
        return read(figures)


def _read_figures(problem: Problem, plain: str) -> Read:
    assert problem.sought is not None
    kind = problem.sought.kind
    if kind == "angle":
        if _MARKED_LENGTH.search(plain):
            raise QuantityError(f"{plain!r} is a length; degrees are asked for, such as 33.7")
        value = read_angle(plain)
        return Read(value, write_degrees(value))
    if _MARKED_ANGLE.search(plain):
        such = NUMBER_EXAMPLE[problem.system]
        raise QuantityError(f"{plain!r} is an angle; a {kind} is asked for, such as {such}")
    if kind == "number":
        return _read_on_square(problem.sought, problem.system, plain)
    return _read_length(problem.system, plain)


def grade(problem: Problem, text: str) -> Grade:
    """Read an answer, judge it within the tolerance told, and find the mistakes that give it.

    Raises QuantityError for what cannot be read as an answer to this problem.
    """
    read = read_answer(problem, text)
    if problem.layout is not None:
        return Grade(read, str(read.value) in problem.layout.faulty)
    sought = problem.sought
    assert sought is not None
    if isinstance(read.value, str):
        right = read.value == sought.value
        wrongs = tuple(wrong for wrong in sought.wrongs if wrong.value == read.value)
        return Grade(read, right, () if right else wrongs)
    right = _near(read.value, sought.value, sought.tolerance)
    if right and read.sense not in ("", sought.sense):
        return Grade(read, False, (mirrored(sought),))
    return Grade(read, right, () if right else diagnosed(sought, read.value))


def diagnosed(sought: Sought, value: float) -> tuple[Wrong, ...]:
    """The known mistakes that give this value, within the tolerance, nearest first.

    Where no single one does, two made at once. One name is told once.
    """
    for known in (sought.wrongs, sought.pairs):
        matching = [w for w in known if _near(value, w.value, sought.tolerance)]
        if matching:
            nearest_first = sorted(matching, key=lambda wrong: abs(float(wrong.value) - value))
            return tuple({wrong.name: wrong for wrong in reversed(nearest_first)}.values())[::-1]
    return ()


def price_words(wrong: Wrong, problem: Problem) -> str:
    """The gap that the mistake leaves on this board; nothing for a slip of figures."""
    if wrong.made is None:
        return ""
    return wrong.made.says(written(wrong.made.price_in, "gap", problem.system))


def _near(value: float, other: float | str, tolerance: float) -> bool:
    return abs(value - float(other)) <= tolerance + ROUNDING


def mirrored(sought: Sought) -> Wrong:
    """A mark as long as it should be that slants the other way."""
    does = f"The mark slants the other way. It should slant toward the {sought.sense}."
    why = "A mirrored mark makes the other hand's cut: two of one hand in place of a pair."
    return Wrong(MIRRORED, does, why, sought.value)


def _read_mark(problem: Problem, text: str) -> Read:
    """How far a mark runs, and toward which end it slants."""
    assert problem.measure is not None
    what, words = SENSES[problem.measure]
    such = f"such as {EXAMPLE[problem.system]} {words[0]} or {EXAMPLE[problem.system]} {words[1]}"
    if text.casefold().removesuffix(".") in words:
        raise QuantityError(f"{text!r} says one thing of two: give the length as well, {such}")
    match = _SENSE.fullmatch(text)
    sense = match[2].casefold() if match else ""
    length = match[1].strip() if match and sense in words else text
    try:
        read = _heard(length, lambda length: _read_length(problem.system, length))
    except QuantityError:
        if length != text:
            raise
        raise QuantityError(f"{text!r} is no length with {what}; write both, {such}") from None
    if abs(float(read.value)) < ROUNDING:
        return read
    if length == text:
        raise QuantityError(f"{text!r} says one thing of two: give {what} as well, {such}")
    return replace(read, said=f"{read.said}, {sense}", sense=sense)


def _read_letter(problem: Problem, text: str) -> Read:
    assert problem.layout is not None
    letters = [line.letter for line in problem.layout.lines]
    letter = text.upper().removeprefix("LINE ").rstrip(".")
    if letter not in letters:
        raise QuantityError(f"{text!r} is no line; answer with one of {', '.join(letters)}")
    return Read(letter, f"line {letter}")


def _read_word(sought: Sought, text: str) -> Read:
    """One of the words to choose from, whole or as its first words: top for top edge."""
    known = {word.casefold(): word for word in choices(sought)}
    said = text.casefold().rstrip(".")
    begun = [word for key, word in known.items() if said and key.startswith(f"{said} ")]
    word = known.get(said) or (begun[0] if len(begun) == 1 else None)
    if word is None:
        raise QuantityError(f"{text!r} is not one of {', '.join(known.values())}")
    return Read(word, said=word)


def _read_on_square(sought: Sought, system: System, text: str) -> Read:
    """A number on the square, with or without the 12 it stands across from."""
    match = _ON_RUN.fullmatch(text)
    run, form = 1.0, ""
    full, such = FULL_RUN[system], NUMBER_EXAMPLE[system]
    if match is not None and sought.name == "edge_number":
        text, on = match[1], read_number(match[2])
        if on <= 0:
            raise QuantityError(
                f"nothing stands across from {match[2]}; write it like {such} on {full}"
            )
        if on != full:
            run, form = full / on, f"Said on {full}, as the trade does"
    elif match is not None:
        raise QuantityError(f"{text!r} is a pair; one number is asked for, such as {such}")
    if system is System.METRIC:
        value = _metric(text) * run / METRIC_RUN
        return Read(value, f"{value * METRIC_RUN:.4g} mm", form and f"{form}, that is"
                    f" {value * METRIC_RUN:.4g}.")  # fmt: skip
    value = read_length(text) * run
    if form:
        return Read(value, _said(value), f"{form}, that is {write_fraction(value)}.")
    return Read(value, _said(value), _form(text, value))


def _read_length(system: System, text: str) -> Read:
    if system is System.METRIC:
        value = _metric(text) / MM_PER_INCH
        return Read(value, f"{value * MM_PER_INCH:.4g} mm")
    value = read_length(text)
    return Read(value, f"{_said(value)} in", _form(text, value))


def _metric(text: str) -> float:
    """Millimetres; a bare number is millimeters where lessons are metric."""
    if _MARKED_LENGTH.search(text):
        return read_length(text) * MM_PER_INCH
    try:
        return read_number(text)
    except QuantityError:
        such = NUMBER_EXAMPLE[System.METRIC]
        raise QuantityError(
            f"{text!r} is no measure in millimeters; write it like {such}, {such}.5 or {such} mm"
        ) from None


def _said(value: float) -> str:
    """A fraction, or where it is none to the sixty-fourth, the decimals beside the nearest one."""
    if abs(value - nearest(value, FINEST)) < ROUNDING:
        return write_fraction(value, FINEST)
    return f"{value:.4g} (nearest {write_fraction(value)})"


def _form(text: str, value: float) -> str:
    """A remark on how a value in inches was written; empty where a rule reads it so."""
    read = write_fraction(value, FINEST)
    if _MARKED_METRIC.search(text):
        return f"In inches that is {write_fraction(value)}."
    match = _FRACTION.fullmatch(text.lower())
    if match is not None:
        top, bottom = int(match[2]), int(match[3])
        if FINEST % bottom:
            return (
                f"No rule is divided into {bottom} parts; the nearest is {write_fraction(value)}."
            )
        if top >= bottom or Fraction(top, bottom).denominator != bottom:
            return f"A rule reads that as {read}."
        return ""
    if abs(value - nearest(value, 16)) > ROUNDING:
        return f"To the sixteenth that is {write_fraction(value)}."
    return ""
