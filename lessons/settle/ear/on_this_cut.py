"""Words that mean one thing on this cut and another on the next, in their sense on this one.

*Each side* is each of two cheeks; *across the board* lies on the face of a stick and is a gauge
on a rip; a pitch or a corner that is named is the one that was asked about, or the claim is about
another roof.
"""

from collections.abc import Sequence
from dataclasses import replace

from lessons.settle.ear.footing import Footing
from lessons.settle.ear.heard_measure import HeardMeasure, Item, is_cue
from lessons.settle.ear.trade_tokens import Token

SAME_DEG = 0.5
MOST_RISE = 24.0
"""A number over this is no rise on 12."""
EVERYWHERE = "across the board"
NAMES_LINE = {"seatlength": "level", "heelcut": "plumb"}
"""*Seat is* and *heel is* begin a length; where none is told they name the line."""


def on_this_cut(tokens: Sequence[Token], footing: Footing) -> list[Token]:
    """Each word in its sense on this cut."""
    return [_placed(token, footing) for token in tokens]


def _placed(token: Token, footing: Footing) -> Token:
    two = bool(footing.true_answer.others)
    rip = footing.true_answer.is_rip
    if token.name in ("bothsides", "oneeach") and two:
        alone = rip or token.name == "oneeach"
        return Token("passed", token.text) if alone else replace(token, name="sidecut")
    if token.text == "two passes" and two:
        return Token("passed", token.text)
    if token.text == EVERYWHERE and not rip:
        return replace(token, name="face")
    if token.name in NAMES_LINE and token.text in ("seat is", "heel is"):
        return replace(token, name=NAMES_LINE[token.name])
    if token.name == "tail" and "tail" in footing.true_answer.question.entry.says:
        return Token("passed", token.text)
    return token


def without_premises(items: Sequence[Item], footing: Footing) -> tuple[list[Item], str]:
    """What is left when the roof that was asked about is named again; and the trouble, if another.

    `on a nine pitch, ...`, `8 pitch, ...`, `the corner's 120, so ...`: only at the beginning of a
    part, with nothing else in it, or with *on* or *for* before it.
    """
    done: list[Item] = []
    at = 0
    while at < len(items):
        starts = not done or _is_break(done[-1]) or _leads_to_a_roof(items, at)
        end, trouble = _premise(items, at, footing) if starts else (at, "")
        if trouble:
            return list(items), trouble
        if end == at:
            done.append(items[at])
            end = at + 1
        at = end
    told = any(isinstance(one, HeardMeasure) for one in done)
    return (done, "") if told else (list(items), "")


def _leads_to_a_roof(items: Sequence[Item], at: int) -> bool:
    """`a hip on a twelve roof is ...`: which roof is told inside a part too."""
    if at + 4 > len(items):
        return False
    on, article, number, roof = items[at : at + 4]
    return (
        (is_cue(on, "on") or getattr(on, "text", "") == "for")
        and getattr(article, "text", "") in ("a", "an", "the", "this")
        and isinstance(number, HeardMeasure)
        and number.kind == "one"
        and is_cue(roof, "roof", "pitch")
    )


def _is_break(item: Item) -> bool:
    return (isinstance(item, Token) and item.kind == "break") or is_cue(item, "and", "then")


def _premise(items: Sequence[Item], at: int, footing: Footing) -> tuple[int, str]:
    """The place behind a premise that begins here; the same place where none does."""
    start = at
    led = False
    while at < len(items) and _leads(items[at]):
        led |= is_cue(items[at], "on", "in")
        led |= getattr(items[at], "text", "") in ("for", "with", "at")
        at += 1
    if at >= len(items):
        return start, ""
    first = items[at]
    if isinstance(first, HeardMeasure) and at + 1 < len(items):
        alone = first.kind == "one" and (at + 2 >= len(items) or _is_break(items[at + 2]))
        if not (led or alone) or not is_cue(items[at + 1], "pitch", "roof", "corner"):
            return start, ""
        return _compared(items[at + 1], first, at + 2, start, footing)
    if not is_cue(first, "pitch", "corner") or "angle" in getattr(first, "text", ""):
        return start, ""
    behind = at + 1
    while behind < len(items) and _leads(items[behind]):
        behind += 1
    if behind >= len(items) or not isinstance(items[behind], HeardMeasure):
        return start, ""
    number = items[behind]
    assert isinstance(number, HeardMeasure)
    over = behind + 1
    so = over >= len(items) or _is_break(items[over]) or getattr(items[over], "text", "") == "so"
    return _compared(first, number, over, start, footing) if so else (start, "")


def _leads(item: Item) -> bool:
    return is_cue(item, "on", "in") or (isinstance(item, Token) and item.kind == "passed")


def _compared(
    what: Item, said: HeardMeasure, over: int, start: int, footing: Footing
) -> tuple[int, str]:
    asked = footing.true_answer.question
    if is_cue(what, "corner"):
        if said.kind != "one" or said.unit not in ("", "deg"):
            return start, ""
        if abs(said.value - asked.corner_deg) < SAME_DEG:
            return over, ""
        return start, f"this corner is {asked.corner_deg:g} degrees; give another with --corner"
    run = said.second if said.kind == "ratio" else 12.0
    if said.kind not in ("one", "ratio") or said.unit or not run or said.value > MOST_RISE:
        return start, ""
    if footing.is_own_rise(12 * said.value / run):
        return over, ""
    return start, f"this roof is {asked.pitch}; give another with --pitch"
