"""Numbers that belong together: a rise on a run, a pair on the square, a number on one arm."""

import itertools
from collections.abc import Sequence
from dataclasses import dataclass, replace

from lessons.settle.ear.trade_tokens import Token

IDLE = ("a", "an", "the", "every", "each", "at", "is", "set", "of", "to", "it", "be")
LONGEST_ARM_IN = 24.0
METRIC = ("mm", "cm", "mil", "metre", "meter")
HIP_RUN_IN = 17.0
FULL_RUNS = (12.0, 17.0, 300.0)


@dataclass(frozen=True)
class HeardMeasure:
    """One thing said in numbers.

    `kind` is angle-or-number ("one"), "ratio" (`first` in or on `second`, the word between as
    `joint`), "mixed" (the same in two units), "pair" (two numbers on the square, `along` the one
    marked along), "range" (two numbers with *to* between them, which say nothing certain).
    """

    kind: str
    first: float
    text: str
    second: float = 0.0
    joint: str = ""
    along: float | None = None
    unit: str = ""
    fine: float = 0.0

    @property
    def value(self) -> float:
        """The number with what *shy* or *strong* take off or add."""
        return self.first + self.fine


Item = Token | HeardMeasure


def measured(tokens: Sequence[Token]) -> list[Item]:
    """Join numbers that belong together; every other token stays where it stands."""
    items: list[Item] = list(tokens)
    items = _runs(_arms(items))
    items = _ratios(_number_on_12(items))
    items = _exact(items)
    items = _rise_and_run(items)
    items = _pairs(items)
    return [
        HeardMeasure("one", item.value, item.text, unit=item.unit, fine=item.fine)
        if isinstance(item, Token) and item.kind == "number"
        else item
        for item in items
    ]


def is_cue(item: Item, *names: str) -> bool:
    """Whether an item is a word of the trade with one of these meanings."""
    return isinstance(item, Token) and item.kind == "cue" and item.name in names


def _number(item: Item) -> bool:
    return isinstance(item, Token) and item.kind == "number"


def _idle(item: Item) -> bool:
    return isinstance(item, Token) and item.kind == "passed" and item.text in IDLE


def _next(items: Sequence[Item], at: int) -> int:
    """The place of the next item that says something."""
    while at < len(items) and _idle(items[at]):
        at += 1
    return at


def _arms(items: list[Item]) -> list[Item]:
    """The numbers on the arms of the square put together, for each time that both are named."""
    named = [at for at, item in enumerate(items) if is_cue(item, "tongue")]
    pairs = [at for at in named if at and any(_number(one) for one in items[max(0, at - 3) : at])]
    for at in range(pairs[0], pairs[1]) if len(pairs) > 1 else ():
        item = items[at]
        if isinstance(item, Token) and (item.text in (".", ";", "\n") or item.name == "then"):
            return [*_pair_of_arms(items[: at + 1]), *_arms(items[at + 1 :])]
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
    last = -1
    for at, item in enumerate(items):
        if not is_cue(item, "tongue", "blade", "bladearm"):
            continue
        assert isinstance(item, Token)
        arm = "tongue" if item.name == "tongue" else "blade"
        before = at - 1
        while before > last and (_idle(items[before]) or is_cue(items[before], "on")):
            before -= 1
        after = _next(items, at + 1)
        place = None
        if before > last and is_cue(items[before], "markalong"):
            marked = arm
            spent.update(range(before, at + 1))
            last = at
            continue
        if before > last and _number(items[before]) and before not in spent:
            place = before
        elif after < len(items) and _number(items[after]):
            place = after
        if place is None:
            continue  # the saw's blade, beside the square's
        if arm in arms:
            return items
        number = items[place]
        assert isinstance(number, Token)
        arms[arm] = place, number
        spent.update(range(min(place, at), max(place, at) + 1))
        last = max(place, at)
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


def _runs(items: list[Item]) -> list[Item]:
    """`17 for 12`: the hip's run in place of the common's, or the other way about."""
    for at in range(len(items) - 2):
        one, word, two = items[at : at + 3]
        if not (_number(one) and _number(two) and getattr(word, "text", "") == "for"):
            continue
        assert isinstance(one, Token)
        assert isinstance(two, Token)
        pair = {round(one.value), round(two.value)}
        if pair == {12, 17}:
            said = HeardMeasure("runs", one.value, f"{one.text} for {two.text}", two.value)
            return [*items[:at], said, *items[at + 3 :]]
    return items


def _number_on_12(items: list[Item]) -> list[Item]:
    """`number on 12: 9.985`: the number stands behind the 12 that it is laid on."""
    for at in range(len(items) - 4):
        word, on, twelve, colon, number = items[at : at + 5]
        if not (
            getattr(word, "text", "") == "number"
            and is_cue(on, "on")
            and _number(twelve)
            and getattr(colon, "text", "") in (":", "is")
            and _number(number)
        ):
            continue
        assert isinstance(twelve, Token)
        assert isinstance(number, Token)
        text = f"{number.text} on {twelve.text}"
        said = HeardMeasure("ratio", number.value + number.fine, text, twelve.value, "on")
        return [*items[:at], Token("cue", "edge", "edge"), said, *items[at + 5 :]]
    return items


def _ratios(items: list[Item]) -> list[Item]:
    done: list[Item] = []
    at = 0
    while at < len(items):
        item = items[at]
        if _number(item):
            assert isinstance(item, Token)
            found = _ratio(items, at, item)
            if found is not None:
                done.append(found[0])
                at = found[1]
                continue
        done.append(item)
        at += 1
    return done


def _ratio(items: Sequence[Item], at: int, first: Token) -> tuple[HeardMeasure, int] | None:
    joint_at = at + 1
    if first.unit in ("deg", "ft") or joint_at >= len(items):
        return _written(first, at)
    joint = items[joint_at]
    word = ""
    if is_cue(joint, "in", "on", "over"):
        assert isinstance(joint, Token)
        word = "to" if joint.text in ("to", "by") else joint.name
    elif isinstance(joint, Token) and joint.kind == "mark" and joint.text in ":-/":
        word = "in"
    elif first.unit == "in?":
        word, joint_at = "in", at
    elif _number(joint) and isinstance(joint, Token) and joint.value == 12 and not joint.unit:
        word, joint_at = "in", at  # an eight twelve pitch
    if not word:
        return _written(first, at)
    behind = _next(items, joint_at + 1)
    if behind >= len(items) or not _number(items[behind]):
        return _written(first, at)
    second = items[behind]
    assert isinstance(second, Token)
    if second.unit == "deg" or second.ratio is not None:
        return _written(first, at)
    text = f"{first.text} {'in' if word == 'over' else word} {second.text}"
    if _metric(first) != _metric(second):
        return HeardMeasure("mixed", first.value, text, second.value), behind + 1
    kind = "ratio"
    if word == "to" or (isinstance(joint, Token) and joint.text == "-"):
        kind, word = ("ratio", "in") if second.value in FULL_RUNS else ("range", "to")
    word = "in" if word == "over" else word
    value = first.value + first.fine
    return HeardMeasure(kind, value, text, second.value + second.fine, word), behind + 1


def _metric(number: Token) -> bool:
    return any(unit in number.text for unit in METRIC)


def _written(first: Token, at: int) -> tuple[HeardMeasure, int] | None:
    """8/12 with nothing behind it is 8 in 12."""
    if first.ratio is None or first.unit in ("deg", "in"):
        return None
    top, bottom = first.ratio
    if bottom in (2, 4, 8, 16, 32, 64) and top != bottom:
        return None
    return HeardMeasure("ratio", top, first.text, bottom, "in"), at + 1


def _exact(items: list[Item]) -> list[Item]:
    """`10 on 12 (exact 9.985)`: the decimals in place of the sixteenth."""
    done: list[Item] = []
    at = 0
    while at < len(items):
        item = items[at]
        if isinstance(item, HeardMeasure) and item.kind == "ratio" and at + 1 < len(items):
            opens = items[at + 1]
            behind = at + 2
            while behind < len(items) and getattr(items[behind], "kind", "") == "passed":
                behind += 1
            if (
                isinstance(opens, Token)
                and opens.text == "("
                and behind + 1 < len(items)
                and _number(items[behind])
                and getattr(items[behind + 1], "text", "") == ")"
            ):
                inside = items[behind]
                assert isinstance(inside, Token)
                if abs(inside.value - item.first) < 1 / 24:
                    done.append(replace(item, first=inside.value, fine=0.0))
                    at = behind + 2
                    continue
        done.append(item)
        at += 1
    return done


def _rise_and_run(items: list[Item]) -> list[Item]:
    """`rise 8, run 12` and `8 rise 12 run`."""
    rise = next((at for at, item in enumerate(items) if is_cue(item, "rise")), None)
    run = next((at for at, item in enumerate(items) if is_cue(item, "run")), None)
    if rise is None or run is None:
        return items
    numbers = [at for at, item in enumerate(items) if _number(item)]
    low, high = min(rise, run), max(rise, run)
    for first, second in itertools.pairwise(numbers):
        inside = first < low < second < high or low < first < high < second
        near = abs(first - low) <= 3 and abs(second - high) <= 3
        if not (inside and near):
            continue
        one, two = items[first], items[second]
        assert isinstance(one, Token)
        assert isinstance(two, Token)
        up, out = (one, two) if rise < run else (two, one)
        ratio = HeardMeasure("ratio", up.value, f"{up.text} in {out.text}", out.value, "in")
        start, end = min(first, low), max(second, high)
        return [*items[:start], ratio, *items[end + 1 :]]
    return items


def _pairs(items: list[Item]) -> list[Item]:
    """`12 and 8, mark the 8`: two numbers on the square, where the square is spoken of."""
    at = 0
    while at < len(items):
        found = _pair_at(items, at)
        if found is None:
            at += 1
        else:
            items, at = found
    return items


def _pair_at(items: list[Item], first: int) -> tuple[list[Item], int] | None:
    """The items with a pair that begins here put together, and the place after it."""
    item = items[first]
    if isinstance(item, HeardMeasure):  # 8 and 12 as a rise on a run, with the arm to mark along
        along, (start, end) = _marked(items, first, (item.first, item.second))
        if item.kind != "ratio" or along is None:
            return None
        pair = replace(item, kind="pair", along=along)
        return _without(items, first, first + 1, pair, start, end)
    if not _number(item):
        return None
    second = next((at for at in range(first + 1, len(items)) if _number(items[at])), None)
    if second is None:
        return None
    one, two = items[first], items[second]
    assert isinstance(one, Token)
    assert isinstance(two, Token)
    between = items[first + 1 : second]
    joined = all(is_cue(each, "and", "over") or _idle(each) for each in between)
    anded = any(is_cue(each, "and") for each in between)
    plain = not one.unit.strip("in?") and not two.unit.strip("in?")
    small = max(one.value, two.value) <= LONGEST_ARM_IN
    if not (joined and anded and plain and small):
        return None
    numbers = (one.value + one.fine, two.value + two.fine)
    along, (start, end) = _marked(items, second, numbers, first)
    marks, tools = _near(items, first, second)
    full = abs(numbers[1] - HIP_RUN_IN) < 0.1 and not _goes_on(items, second)  # ten and seventeen
    if along is None and (tools or not (marks or full)):
        return None
    text = f"{one.text} and {two.text}"
    pair = HeardMeasure("pair", numbers[0], text, numbers[1], "and", along=along)
    return _without(items, first, second + 1, pair, start, end)


def _goes_on(items: Sequence[Item], at: int) -> bool:
    """Whether a number is the first of two itself, or has a word of its own right behind it."""
    behind = _next(items, at + 1)
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
    for places in (range(first - 1, -1, -1), range(second + 1, len(items))):
        for at in places:
            item = items[at]
            if isinstance(item, Token) and item.kind == "break":
                break
            if is_cue(item, "plumb", "level", "face", "edge", "sidecut", "tool"):
                marks = True
                break
            if is_cue(item, "saw", "tilt", "bevel", "table", "mitersaw"):
                tools = tools or places.step < 0
                break
    return marks, tools


def _without(
    items: list[Item], first: int, last: int, pair: HeardMeasure, start: int, end: int
) -> tuple[list[Item], int]:
    """The items with the pair in place of first..last, and without what said its arm."""
    if end <= first:
        return [*items[:start], *items[end:first], pair, *items[last:]], first - (end - start) + 1
    return [*items[:first], pair, *items[last:start], *items[end:]], first + 1


def _marked(
    items: Sequence[Item], at: int, pair: tuple[float, float], first: int | None = None
) -> tuple[float | None, tuple[int, int]]:
    """The number of the pair that is marked along, and what says so: places from, to.

    Looked for behind the pair up to the next mark, then in front of it.
    """
    nothing = (None, (len(items), len(items)))
    start = at if first is None else first
    behind = _mark_word(items, range(at + 1, len(items)), pair)
    if behind is not None:
        return behind
    before = _mark_word(items, range(start - 1, -1, -1), pair)
    return nothing if before is None else before


def _mark_word(
    items: Sequence[Item], places: range, pair: tuple[float, float]
) -> tuple[float, tuple[int, int]] | None:
    for place in places:
        if _number(items[place]) and places.step > 0:
            return None  # the number behind *mark* was seen with its word; this is another's
        if not is_cue(items[place], "markalong"):
            continue
        behind = _next(items, place + 1)
        if behind >= len(items) or not _number(items[behind]):
            continue
        number = items[behind]
        assert isinstance(number, Token)
        match = min(pair, key=lambda one: abs(one - number.value))
        if abs(match - number.value) > 1 / 24:
            return None
        end = behind + 1
        while end < len(items) and (_idle(items[end]) or is_cue(items[end], "armside")):
            end += 1
        return match, (place, end)
    return None
