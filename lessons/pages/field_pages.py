"""Field cards: one page a cut, all its numbers for one roof, to be read at arm's length."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from figures.ink.drawing import Drawing
from figures.ink.paper import Paper
from figures.page.flow import Row, beside, picture, rule, space, words
from figures.page.sheet import Page, clear_field
from layout.answer.answer import Answer, answer
from layout.answer.sense_words import (
    SURFACE,
    lean_words,
    leaning,
    out_of_reach,
    remaining_words,
    start_words,
)
from layout.answer.senses import faces, way
from layout.answer.wording import given_line, number_words, write_numbers
from layout.cuts import Hand
from layout.length.run_length import UNIT_RUN_IN
from layout.quantity import nearest, write_degrees
from layout.tools.setting import RipByHand
from lessons.course.pictures import picture as named_picture
from lessons.course.runner import Worked
from lessons.mistakes.length_mistakes import shortening
from lessons.pages.leaf import Leaf
from lessons.pages.paged import leaves
from lessons.say.units import System, written
from lessons.values import course_values as course
from lessons.values import length_values as lengths

BIG_PT, MEDIUM_PT = 20.0, 14.0
CARRIERS = ("hip", "valley")
SPACINGS_IN = (16.0, 24.0)
NAMES_IN = 1.4


def field_leaves(
    all_worked: Sequence[Worked], paper: Paper, on_part: Callable[[int, int], None]
) -> tuple[list[Leaf], list[str]]:
    """A card for each cut of these lessons, and their titles; `on_part` is told how many of how
    many lessons have been looked through."""
    made: list[Leaf] = []
    titles: list[str] = []
    seen: set[tuple[object, ...]] = set()
    for done, worked in enumerate(all_worked, start=1):
        asked = worked.answer.question
        key = (asked.entry.name, asked.end, asked.pitch.slope_deg, asked.other_pitch.slope_deg,
               asked.corner_deg, asked.stock)  # fmt: skip
        if key not in seen:
            seen.add(key)
            title = f"{asked.entry.name}, {asked.end}"
            made += _card(worked, title, paper)
            titles += [title] * (len(made) - len(titles))
        on_part(done, len(all_worked))
    return made, titles


def _card(worked: Worked, title: str, paper: Paper) -> tuple[Leaf, ...]:
    true_answer = worked.answer
    blank = Page(
        paper,
        Drawing(),
        title=title,
        given=given_line(true_answer),
        scale=None,
        description=f"All numbers of {title} for one roof, in large letters.",
    )
    left, bottom, edge, top = clear_field(blank)
    width = edge - left
    rows = list(_numbers(true_answer, worked.system, width))
    room = top - bottom - sum(row.height_in for row in rows) - 0.2
    if room > 1.9:
        shown = named_picture("faces", true_answer).drawn_in_first(
            [(width, min(room, 3.4)), (width, room)]
        )
        rows.append(picture(shown, width))
    return leaves([replace(row, anchor="") for row in rows], blank)


def _numbers(true_answer: Answer, system: System, width_in: float) -> Iterator[Row]:
    metric = system.is_metric
    if true_answer.is_rip:
        gauges = true_answer.hand_setting(as_read=False)
        assert isinstance(gauges, RipByHand)
        across, drop = (written(v, "gap", system) for v in (gauges.across_in, gauges.drop_in))
        yield from _line("GAUGE", f"{across} across the edge, {drop} down the face", width_in)
        yield from _line("TILT", _tilt(true_answer), width_in)
        for one in _hands(true_answer):
            yield words(_saw(one), width_in, MEDIUM_PT)
            yield space(0.08)
        return
    for name, mark, end in (
        ("FACE", true_answer.face, "top"),
        ("EDGE", true_answer.edge, "left end"),
    ):
        if mark.numbers is None:
            yield from _line(name, "square across", width_in)
            continue
        yield from _line(name, write_numbers(mark.numbers, metric=metric), width_in)
        small = f"{end} toward the {leaning(mark)}"
        if true_answer.hand is not None and name == "EDGE":
            other = "foot" if leaning(mark) == "head" else "head"
            small = f"left-hand: {end} toward the {_of(true_answer, leaning(mark), other)}"
            small += f"; right-hand: toward the {_of(true_answer, other, leaning(mark))}"
        if name == "EDGE":
            twelve = number_words(UNIT_RUN_IN, metric=metric)
            number = number_words(float(true_answer.cut.edge_number), metric=metric)
            bevel = write_degrees(mark.bevel_deg)
            small += f". Side-cut number {number} on {twelve}; sliding bevel {bevel} off the edge"
        yield words(small, width_in, MEDIUM_PT)
    tilt = _tilt(true_answer)
    yield from _line("TILT", tilt if true_answer.hand else f"{tilt}: blade square", width_in)
    for one in _hands(true_answer):
        yield words(_saw(one), width_in, MEDIUM_PT)
        yield space(0.08)
    yield from _lengths(true_answer, system, width_in)


def _lengths(true_answer: Answer, system: System, width_in: float) -> Iterator[Row]:
    """How long the rafter is for a run, how it grows along the eave, and what is taken off.

    For a rafter's head, or the foot of a jack; the lengths of any other stick are its own.
    """
    asked = true_answer.question
    each = "a meter" if system.is_metric else "12"
    if asked.entry.name == "common-ridge" or asked.entry.family == "jack":
        row, of = lengths.common_row(true_answer), "run"
    elif asked.entry.family in CARRIERS and asked.end == "head":
        row, of = lengths.line_row(true_answer), "the common's run"
    else:
        return
    yield from _line("LENGTH", f"{written(row, 'table', system)} for {each} of {of}", width_in)
    said = []
    if asked.entry.family == "jack":
        for spacing in SPACINGS_IN:
            grows = lengths.common_difference(true_answer, spacing)
            apart, longer = (written(length, "in", system) for length in (spacing, grows))
            said.append(f"{apart} on center: {longer} longer each")
    ridge: tuple[float, float] | None
    if asked.entry.name == "common-ridge":
        ridge = course.half_ridge(true_answer), course.half_ridge_along(true_answer)
    else:
        taken = shortening(true_answer)
        ridge = None if taken is None else (taken.level_in, taken.along_in)
    if ridge is not None:
        level, along = (written(length, "in", system) for length in ridge)
        said.append(f"take off {level} level, {along} along the edge")
    if said:
        yield words("; ".join(said) + ".", width_in, MEDIUM_PT)
        yield space(0.08)


def _tilt(true_answer: Answer) -> str:
    return write_degrees(nearest(float(true_answer.cut.face_tilt_deg), 4))


def _of(true_answer: Answer, own: str, other: str) -> str:
    """The word for the left hand: this answer's own where it is a left one."""
    return own if true_answer.hand is Hand.LEFT else other


def _hands(true_answer: Answer) -> Iterator[Answer]:
    """The cut of either hand, or the one there is."""
    if true_answer.hand is None or not true_answer.question.entry.two_hands:
        yield true_answer
        return
    for hand in Hand:
        asked = replace(true_answer.question, hand=hand)
        yield answer(asked, tolerance_in=true_answer.tolerance_in, limits=true_answer.limits)


def _saw(true_answer: Answer) -> str:
    hand = f"{true_answer.hand.value.capitalize()}-hand: " if true_answer.hand else ""
    first = faces(true_answer)[0]
    if way(true_answer) != "face":
        return f"{hand}{out_of_reach(true_answer, first)}; {remaining_words(true_answer)}."
    if true_answer.hand is None:
        return f"{hand}shoe on either face; {start_words(first)}."
    return f"{hand}shoe on the {SURFACE[first.side]}; {lean_words(first)}; {start_words(first)}."


def _line(name: str, text: str, width_in: float) -> Iterator[Row]:
    yield rule(width_in, 0.08)
    yield beside(
        words(name, NAMES_IN - 0.1, BIG_PT, bold=True),
        words(text, width_in - NAMES_IN, BIG_PT, bold=True),
        NAMES_IN,
    )
