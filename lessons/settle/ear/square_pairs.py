"""Two numbers laid on the square, and which of them is marked along."""

from collections.abc import Sequence
from dataclasses import replace

from layout.tools.square import BLADE_IN
from lessons.settle.ear.heard_measure import HeardMeasure, Item, idle, is_cue, is_number, next_said
from lessons.settle.ear.trade_tokens import EXACT_IN, RUNS_IN, Token

RUN_NEAR = 0.1
BEFORE_ARM = 3
"""The number laid on an arm stands so many words before it, at most."""
CUTTING = ("cut", "cuts", "draw", "down", "along")
"""Words passed over elsewhere; before a number of a pair they mark along it."""


def arms(items: list[Item]) -> list[Item]:
    """The numbers on the arms of the square put together, for each time that both are named."""
    named = [at for at, item in enumerate(items) if is_cue(item, "tongue")]
    twice = [at for at in named if any(is_number(one) for one in items[:at][-BEFORE_ARM:])]
    for at in range(twice[0], twice[1]) if len(twice) > 1 else ():
        item = items[at]
        if isinstance(item, Token) and (item.text in (".", ";", "\n") or item.name == "then"):
            return [*_pair_of_arms(items[:at]), *arms(items[at:])]
    return _pair_of_arms(items)


def _pair_of_arms(items: list[Item]) -> list[Item]:
    """`12 on the blade, 8 on the tongue; mark along the tongue` as one pair.

    Only where the tongue is named, so that a plain blade stays the saw's.
    """
    if not any(is_cue(item, "tongue") for item in items):
        return items
    arms: dict[str, tuple[int, Token]] = {}
    marked: str | None = None
    spent: set[int] = set()
    for at, item in enumerate(items):
        if not is_cue(item, "tongue", "blade", "bladearm"):
            continue
        assert isinstance(item, Token)
        arm = "tongue" if item.name == "tongue" else "blade"
        said = [p for p in range(at) if not (idle(items[p]) or is_cue(items[p], "on"))]
        before, after = said[-1:], next_said(items, at + 1)
        if before and is_cue(items[before[0]], "markalong"):
            marked = arm
            spent.update(range(before[0], at + 1))
            continue
        laid = [
            place
            for place in (*before, after)
            if place < len(items) and is_number(items[place]) and place not in spent
        ]
        if not laid:
            continue  # the saw's blade, beside the square's
        place = laid[0]
        if arm in arms:
            return items
        number = items[place]
        assert isinstance(number, Token)
        arms[arm] = place, number
        spent.update(range(min(place, at), max(place, at) + 1))
    if len(arms) < 2:
        return items
    (_, blade), (_, tongue) = arms["blade"], arms["tongue"]
    text = f"{blade.text} on the blade, {tongue.text} on the tongue"
    along = None
    if marked is not None:
        number = arms[marked][1]
        along = number.value + number.fine
        text += f", mark along the {marked}"
    pair = HeardMeasure(
        "pair", blade.value + blade.fine, text, tongue.value + tongue.fine, along=along
    )
    start = min(spent)
    return [
        pair if at == start else item
        for at, item in enumerate(items)
        if at == start or at not in spent
    ]


def pairs(items: list[Item]) -> list[Item]:
    """`12 and 8, mark the 8`: two numbers on the square, where the square is spoken of."""
    at = 0
    while at < len(items):
        found = _pair_at(items, at)
        if found is None:
            at += 1
        else:
            items, pair = found
            at = items.index(pair)
    return items


def _pair_at(items: list[Item], first: int) -> tuple[list[Item], HeardMeasure] | None:
    """The items with a pair that begins here put together, and that pair."""
    item = items[first]
    if isinstance(item, HeardMeasure):  # 8 and 12 as a rise on a run, with the arm to mark along
        if item.kind != "ratio":
            return None
        along, (start, end) = _marked(items, first, (item.first, item.second))
        if along is None:
            return None
        pair = replace(item, kind="pair", along=along)
        return _without(items, first, first + 1, pair, start, end)
    if not is_number(item):
        return None
    second = next((at for at, one in enumerate(items) if is_number(one) and at > first), None)
    if second is None:
        return None
    one, two = items[first], items[second]
    assert isinstance(one, Token)
    assert isinstance(two, Token)
    between = items[first + 1 : second]
    joined = all(_joins(each) for each in between)
    anded = any(is_cue(each, "and") for each in between)
    plain = not one.unit.strip("in?") and not two.unit.strip("in?")
    small = max(one.value, two.value) <= BLADE_IN
    numbers = (one.value + one.fine, two.value + two.fine)
    run = any(abs(number - full) < RUN_NEAR for number in numbers for full in RUNS_IN)
    if not anded and plain and small and run:
        return _marked_pair(items, first, second, numbers, apart=joined)
    if not (joined and anded and plain and small) or _comma(between):
        return None
    along, (start, end) = _marked(items, second, numbers, first)
    marks, tools = _near(items, first, second)
    full = run and not _goes_on(items, second)  # ten and seventeen
    if along is None and (tools or not (marks or full)):
        return None
    text = f"{one.text} and {two.text}"
    pair = HeardMeasure("pair", numbers[0], text, numbers[1], "and", along=along)
    return _without(items, first, second + 1, pair, start, end)


def _joins(item: Item) -> bool:
    return is_cue(item, "and", "over") or idle(item) or getattr(item, "text", "") == ","


def _comma(between: Sequence[Item]) -> bool:
    return any(getattr(item, "text", "") == "," for item in between)


def _marked_pair(
    items: list[Item], first: int, second: int, numbers: tuple[float, float], *, apart: bool
) -> tuple[list[Item], HeardMeasure] | None:
    """`9 5/8, 12, mark the 12` (two numbers `apart` by a comma) and `9 5/8, cut the 12`."""
    one, two = items[first], items[second]
    assert isinstance(one, Token)
    assert isinstance(two, Token)
    if numbers[0] == numbers[1]:
        return None
    text = f"{one.text} and {two.text}"
    if apart and _comma(items[first + 1 : second]):
        along, (start, end) = _marked(items, second, numbers, first)
        if along is None:
            return None
        pair = HeardMeasure("pair", numbers[0], text, numbers[1], "and", along=along)
        return _without(items, first, second + 1, pair, start, end)
    between = items[first + 1 : second]
    words = [item for item in between if not (idle(item) or getattr(item, "text", "") == ",")]
    if len(words) != 1 or not _is_mark_word(words[0]):
        return None
    pair = HeardMeasure("pair", numbers[0], text, numbers[1], "and", along=numbers[1])
    return [*items[:first], pair, *items[second + 1 :]], pair


def _is_mark_word(item: Item) -> bool:
    cuts = isinstance(item, Token) and item.kind == "passed" and item.text in CUTTING
    return cuts or is_cue(item, "markalong")


def _goes_on(items: Sequence[Item], at: int) -> bool:
    """Whether a number is the first of two itself, or has a word of its own right behind it."""
    behind = next_said(items, at + 1)
    if behind >= len(items):
        return False
    item = items[behind]
    return not (
        isinstance(item, Token)
        and (item.kind in ("break", "passed") or is_cue(item, "and", "then"))
    )


def _near(items: Sequence[Item], first: int, second: int) -> tuple[bool, bool]:
    """Whether the words nearest to a pair, in its breath, are a mark's; whether a saw's."""
    marks = tools = False
    for words, in_front in (([*reversed(items[:first])], True), (items[second:], False)):
        for item in words:
            if isinstance(item, Token) and item.kind == "break":
                break
            if is_cue(item, "plumb", "level", "face", "edge", "sidecut", "tool"):
                marks = True
                break
            if is_cue(item, "saw", "tilt", "bevel", "table", "mitersaw"):
                tools = tools or in_front
                break
    return marks, tools


def _without(
    items: list[Item], first: int, last: int, pair: HeardMeasure, start: int, end: int
) -> tuple[list[Item], HeardMeasure]:
    """The items with the pair in place of first..last, and without what said its arm."""
    if end <= first:
        return [*items[:start], *items[end:first], pair, *items[last:]], pair
    return [*items[:first], pair, *items[last:start], *items[end:]], pair


def _marked(
    items: Sequence[Item], at: int, pair: tuple[float, float], first: int | None = None
) -> tuple[float | None, tuple[int, int]]:
    """The number of the pair that is marked along, and what says so: places from, to.

    Looked for behind the pair up to the next pair or mark, then in front of it.
    """
    nothing = (None, (len(items), len(items)))
    start = at if first is None else first
    behind = _mark_word(items, range(at + 1, len(items)), pair, ahead=True)
    if behind is not None:
        return behind
    before = _mark_word(items, [*reversed(range(start))], pair, ahead=False)
    return nothing if before is None else before


def _mark_word(
    items: Sequence[Item], places: Sequence[int], pair: tuple[float, float], *, ahead: bool
) -> tuple[float, tuple[int, int]] | None:
    for place in places:
        item = items[place]
        if isinstance(item, HeardMeasure) and item.kind in ("ratio", "pair"):
            return None  # what is said beyond another pair is that pair's
        if is_number(item) and ahead:
            if place + 1 < len(items) and is_cue(items[place + 1], "armside"):
                return _of_pair(items, place, place, pair)  # 8 and 12, 12 side
            return None  # the number behind *mark* was seen with its word; this is another's
        if not _is_mark_word(items[place]):
            continue
        behind = next_said(items, place + 1)
        if behind >= len(items) or not is_number(items[behind]):
            continue
        found = _of_pair(items, place, behind, pair)
        if found is None and getattr(items[place], "kind", "") == "passed":
            continue
        return found
    return None


def _of_pair(
    items: Sequence[Item], start: int, at: int, pair: tuple[float, float]
) -> tuple[float, tuple[int, int]] | None:
    """The number of the pair that is named at this place, and what says so: places from, to."""
    number = items[at]
    assert isinstance(number, Token)
    match = min(pair, key=lambda one: abs(one - number.value))
    if abs(match - number.value) > EXACT_IN:
        return None
    return match, (start, at + 1)
