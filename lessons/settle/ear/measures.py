"""Numbers that belong together: a rise on a run, a pair on the square, a number on one arm."""

import itertools
from collections.abc import Sequence
from dataclasses import replace

from layout.tools.square import BLADE_IN
from lessons.settle.ear.heard_measure import HeardMeasure, Item, idle, is_cue, is_number, next_said
from lessons.settle.ear.square_pairs import arms, pairs
from lessons.settle.ear.trade_tokens import EXACT_IN, RUNS_IN, Token

PER_FOOT = ("to the foot", "to foot")
"""Beside a number on the square, the foot of 12 inches; `perfoot` is always that."""
HALF_OF = "half of"
SAME = 0.1
METRIC = ("mm", "cm", "mil", "metre", "meter")
SURE = {"think", "yes", "yeah", "yep", "aye", "reckon", "say", "said", "sure"}
FULL_RUNS = (*RUNS_IN, 300.0)
INCH_PARTS = (2.0, 4.0, 8.0, 16.0, 32.0, 64.0)
"""What an inch is parted in: 17/16 with nothing behind it is inches, no rise on a run."""
NEAR_WORDS = 3
"""From *rise* and *run* to their numbers, in words."""


def measured(tokens: Sequence[Token]) -> list[Item]:
    """Join numbers that belong together; every other token stays where it stands."""
    items = _runs(arms(_crossing([*_restated(_halves(_per_foot(list(tokens))))])))
    items = _ratios(_number_on_12(items))
    items = _exact(items)
    items = _rise_and_run(items)
    items = _on_an_arm(pairs(items))
    return [
        HeardMeasure("one", item.value, item.text, unit=item.unit, fine=item.fine)
        if isinstance(item, Token) and item.kind == "number"
        else item
        for item in items
    ]


def _on_an_arm(items: list[Item]) -> list[Item]:
    """`8 on 12, mark along the tongue`: two numbers, and not said which lies on that arm."""
    marked = next(
        (
            at
            for at, item in enumerate(items)
            if is_cue(item, "tongue", "bladearm") and at and is_cue(items[at - 1], "markalong")
        ),
        0,
    )
    return [
        replace(item, kind="pair", joint="and")
        if at < marked and isinstance(item, HeardMeasure) and item.kind == "ratio"
        else item
        for at, item in enumerate(items)
    ]


def _per_foot(tokens: list[Token]) -> list[Token]:
    """`8 1/2 to the foot`, `seven inches rise to the foot`: that number on 12."""
    for at in reversed(range(len(tokens))):
        token = tokens[at]
        if is_number(token) and token.value <= BLADE_IN:
            behind = next_said(tokens, at + 1)
            rises = behind < len(tokens) and is_cue(tokens[behind], "rise")
            if rises:
                behind = next_said(tokens, behind + 1)
            told = behind < len(tokens) and _is_per_foot(tokens[behind])
            sawn = told and _is_saw_s(tokens[:at], tokens[behind])
            if told and not sawn and token.unit in ("", "in", "in?") and token.ratio is None:
                twelve = Token("number", "12", value=12.0)
                number_on = replace(token, unit="")
                joint = Token("cue", "in", "in") if rises else Token("cue", "on", "on")
                tokens = [*tokens[:at], number_on, joint, twelve,
                          *tokens[behind + 1 :]]  # fmt: skip
    return tokens


def _is_saw_s(before: Sequence[Token], word: Token) -> bool:
    """`tilt 10 to the foot` may say which way the blade leans."""
    cues = [token for token in before if token.kind == "cue"]
    lean = not is_cue(word, "perfoot")
    return lean and bool(cues) and is_cue(cues[-1], "saw", "tilt", "bevel", "blade")


def _crossing(items: list[Item]) -> list[Item]:
    """`12 along the board for 10 across`, `for every 17 square across it runs 8 along`.

    How far a line runs along the board while it crosses it: a pair marked along the first.
    """
    numbers = [at for at, item in enumerate(items) if is_number(item)]
    for one, two in itertools.pairwise(numbers):
        first, second = items[one], items[two]
        assert isinstance(first, Token)
        assert isinstance(second, Token)
        between = items[one + 1 : two]
        rest = items[two + 1 :]
        behind = _way_words(rest)
        if {"deg", "ft"} & {first.unit, second.unit}:
            continue
        if not all(_tells_way(item) for item in between):
            continue
        ways = [{_way(item) for item in words} - {""} for words in (between, behind)]
        if ways == [{"along"}, {"across"}]:
            along, across = first, second
        elif ways == [{"across"}, {"along"}]:
            along, across = second, first
        else:
            continue
        text = f"{along.text} along for {across.text} across"
        pair = HeardMeasure("pair", along.value, text, across.value, along=along.value)
        return [*items[:one], pair, *_crossing(rest[len(behind) :])]
    return items


def _way_words(items: Sequence[Item]) -> list[Item]:
    """The words at the beginning, to the last that says which way a number is measured."""
    breath = itertools.takewhile(lambda item: getattr(item, "kind", "") != "break", items)
    told = [*itertools.takewhile(_tells_way, breath)]
    while told and not _way(told[-1]):
        told.pop()
    return told


def _tells_way(item: Item) -> bool:
    return (
        bool(_way(item))
        or idle(item)
        or is_cue(item, "rafter", "run", "on")
        or getattr(item, "text", "") in (",", "for", "it", "you", "the mark runs")
    )


def _way(item: Item) -> str:
    text = getattr(item, "text", "")
    if text in ("across", "square across", "across the board", "straight across"):
        return "across"
    return "along" if text in ("along", "along the", "along it") else ""


def _is_per_foot(token: Token) -> bool:
    return is_cue(token, "perfoot") or token.text in PER_FOOT


def _halves(tokens: list[Token]) -> list[Token]:
    """`half of 90` is 45."""
    done: list[Token] = []
    for token in tokens:
        halved = _last(done, "passed")
        if is_number(token) and halved is not None and done[halved].text == HALF_OF:
            del done[halved:]
            token = replace(token, value=token.value / 2, text=f"{HALF_OF} {token.text}")
        done.append(token)
    return done


def _last(tokens: Sequence[Token], *passed: str) -> int | None:
    """The place of the last token of none of these kinds; None where there is none."""
    return next((at for at in reversed(range(len(tokens))) if tokens[at].kind not in passed), None)


def _restated(tokens: list[Token]) -> list[Token]:
    """`half of 120 is 60`, `45 = 45`: one number said twice is said once."""
    done: list[Token] = []
    for token in tokens:
        again = _sure_again(done, token)
        if len(done) > 1 and _same_again(done[-2], done[-1], token):
            again = len(done) - 2
        if again is not None:
            del done[again:]
        done.append(token)
    return done


def _sure_again(done: Sequence[Token], token: Token) -> int | None:
    """`at 30, well I think 30`: the place of the number that is said again; None for another."""
    at = _last(done, "passed", "break")
    if at is None or not (is_number(token) and is_number(done[at])):
        return None
    sure = SURE.intersection(one.text for one in done[at:])
    return at if sure and (done[at].value, done[at].unit) == (token.value, token.unit) else None


def _same_again(before: Token, between: Token, token: Token) -> bool:
    numbers = is_number(before) and is_number(token) and before.unit == token.unit
    equals = between.text in ("is", "=", "so", "that's", "makes")
    return numbers and equals and abs(before.value - token.value) < SAME


def _runs(items: list[Item]) -> list[Item]:
    """`17 for 12`: the hip's run in place of the common's, or the other way about."""
    for at in range(len(items) - 2):
        one, word, two = items[at : at + 3]
        if not (is_number(one) and is_number(two) and getattr(word, "text", "") == "for"):
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
            and is_number(twelve)
            and getattr(colon, "text", "") in (":", "is")
            and is_number(number)
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
        if is_number(item):
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
    elif _is_run(first, joint):
        word, joint_at = "in", at  # an eight twelve pitch
    if not word:
        return _written(first, at)
    behind = next_said(items, joint_at + 1)
    if behind >= len(items) or not is_number(items[behind]):
        return _written(first, at)
    second = items[behind]
    assert isinstance(second, Token)
    if second.unit == "deg" or second.ratio is not None:
        return _written(first, at)
    text = f"{first.text} {'in' if word == 'over' else word} {second.text}"
    kind = "ratio"
    if _metric(first) != _metric(second):
        kind = "mixed"
    elif word == "to" or (isinstance(joint, Token) and joint.text == "-"):
        if second.value not in FULL_RUNS:
            kind = "range"
            text = f"{first.text}{joint.text if joint.text == '-' else ' to '}{second.text}"
        word = "in"
    word = "in" if word == "over" else word
    numbers = first.value + first.fine, second.value + second.fine
    return HeardMeasure(kind, numbers[0], text, numbers[1], word), behind + 1


def _is_run(first: Token, behind: Item) -> bool:
    """Whether a run stands right behind its rise: eight twelve, five seventeen."""
    return first.value <= BLADE_IN and is_number(behind) and behind.value in RUNS_IN


def _metric(number: Token) -> bool:
    return any(unit in number.text for unit in METRIC)


def _written(first: Token, at: int) -> tuple[HeardMeasure, int] | None:
    """8/12 with nothing behind it is 8 in 12."""
    if first.ratio is None or first.unit in ("deg", "in"):
        return None
    top, bottom = first.ratio
    if bottom in INCH_PARTS and top != bottom:
        return None
    return HeardMeasure("ratio", top, first.text, bottom, "in"), at + 1


def _exact(items: list[Item]) -> list[Item]:
    """`10 on 12 (exact 9.985)`: the decimals in place of the sixteenth."""
    said = [at for at, item in enumerate(items) if getattr(item, "kind", "") != "passed"]
    for place, opens, inside, closes in zip(said, said[1:], said[2:], said[3:], strict=False):
        ratio, number = items[place], items[inside]
        signs = getattr(items[opens], "text", ""), getattr(items[closes], "text", "")
        if (
            signs == ("(", ")")
            and isinstance(ratio, HeardMeasure)
            and ratio.kind == "ratio"
            and is_number(number)
            and abs(number.value - ratio.first) < EXACT_IN
        ):
            exact = replace(ratio, first=number.value)
            return [*items[:place], exact, *_exact(items[closes + 1 :])]
    return items


def _rise_and_run(items: list[Item]) -> list[Item]:
    """`rise 8, run 12` and `8 rise 12 run`; of two pairs that could be, the one on a usual run."""
    rise = next((at for at, item in enumerate(items) if is_cue(item, "rise")), None)
    run = next((at for at, item in enumerate(items) if is_cue(item, "run")), None)
    if rise is None or run is None:
        return items
    numbers = [at for at, item in enumerate(items) if is_number(item)]
    low, high = min(rise, run), max(rise, run)
    found: list[tuple[bool, int, list[Item]]] = []
    for first, second in itertools.pairwise(numbers):
        inside = first < low < second < high or low < first < high < second
        far = max(abs(first - low), abs(second - high))
        if not inside or far > NEAR_WORDS:
            continue
        one, two = items[first], items[second]
        assert isinstance(one, Token)
        assert isinstance(two, Token)
        up, out = (one, two) if rise < run else (two, one)
        ratio = HeardMeasure("ratio", up.value, f"{up.text} in {out.text}", out.value, "in")
        start, end = min(first, low), max(second, high)
        taken: list[Item] = [*items[:start], ratio, *items[end + 1 :]]
        found.append((out.value not in RUNS_IN, far, taken))
    return min(found, key=lambda each: each[:-1])[-1] if found else items
