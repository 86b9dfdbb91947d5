"""Numbers that belong together: a rise on a run, a pair on the square, a number on one arm."""

import itertools
from collections.abc import Sequence
from dataclasses import replace

from lessons.settle.ear.heard_measure import HeardMeasure, Item, idle, is_cue, is_number, next_said
from lessons.settle.ear.square_pairs import arms, pairs
from lessons.settle.ear.trade_tokens import Token

PER_FOOT = ("to the foot", "to foot")
"""Beside a number on the square, the foot of 12 inches; `perfoot` is always that."""
HALF_OF = ("half of",)
LONGEST_ARM_IN = 24.0
SAME = 0.1
METRIC = ("mm", "cm", "mil", "metre", "meter")
SURE = {"think", "yes", "yeah", "yep", "aye", "reckon", "say", "said", "sure"}
FULL_RUNS = (12.0, 17.0, 300.0)


def measured(tokens: Sequence[Token]) -> list[Item]:
    """Join numbers that belong together; every other token stays where it stands."""
    items = _restated(_halves(_per_foot(list(tokens))))
    items = _runs(arms(_crossing(items)))
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


def _per_foot(items: list[Item]) -> list[Item]:
    """`8 1/2 to the foot`, `seven inches rise to the foot`: that number on 12."""
    at = 0
    while at < len(items):
        item = items[at]
        if isinstance(item, Token) and is_number(item) and item.value <= LONGEST_ARM_IN:
            behind = next_said(items, at + 1)
            rises = behind < len(items) and is_cue(items[behind], "rise")
            if rises:
                behind = next_said(items, behind + 1)
            told = behind < len(items) and _is_per_foot(items[behind])
            sawn = told and _is_saw_s(items[:at], items[behind])
            if told and not sawn and item.unit in ("", "in", "in?") and item.ratio is None:
                twelve = Token("number", "12", value=12.0)
                number_on = replace(item, unit="")
                joint = Token("cue", "in", "in") if rises else Token("cue", "on", "on")
                items = [*items[:at], number_on, joint, twelve,
                         *items[behind + 1 :]]  # fmt: skip
        at += 1
    return items


def _is_saw_s(before: Sequence[Item], word: Item) -> bool:
    """`tilt 10 to the foot` may say which way the blade leans."""
    cues = [item for item in before if isinstance(item, Token) and item.kind == "cue"]
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
        end = _measured_until(items, two + 1)
        behind = items[two + 1 : end]
        if first.unit.strip("in?") or second.unit.strip("in?") or not behind:
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
        return [*items[:one], pair, *_crossing(items[end:])]
    return items


def _measured_until(items: Sequence[Item], at: int) -> int:
    """Behind the words that say which way a number is measured."""
    end = at
    while at < len(items) and _tells_way(items[at]) and getattr(items[at], "kind", "") != "break":
        at += 1
        end = at if _way(items[at - 1]) or is_cue(items[at - 1], "rafter") else end
    return end


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


def _is_per_foot(item: Item) -> bool:
    return is_cue(item, "perfoot") or getattr(item, "text", "") in PER_FOOT


def _halves(items: list[Item]) -> list[Item]:
    """`half of 90` is 45."""
    done: list[Item] = []
    for item in items:
        before = [one for one in done[-2:] if isinstance(one, Token)]
        place = next((i for i, one in enumerate(before) if one.text in HALF_OF), None)
        idle_between = place is not None and all(
            one.kind == "passed" for one in before[place + 1 :]
        )
        if isinstance(item, Token) and is_number(item) and place is not None and idle_between:
            del done[len(done) - len(before) + place :]
            item = replace(item, value=item.value / 2, text=f"half of {item.text}")
        done.append(item)
    return done


def _restated(items: list[Item]) -> list[Item]:
    """`half of 120 is 60`, `45 = 45`: one number said twice is said once."""
    done: list[Item] = []
    for item in items:
        if len(done) > 1 and _same_again(done[-2], done[-1], item):
            del done[-2:]
        if (at := _sure_again(done, item)) is not None:
            done = done[: at + 1]
            continue
        done.append(item)
    return done


def _sure_again(done: Sequence[Item], item: Item) -> int | None:
    """`at 30, well I think 30`: the place of the number that is said again; None for another."""
    if not (isinstance(item, Token) and is_number(item)):
        return None
    at = len(done) - 1
    while at >= 0 and getattr(done[at], "kind", "") in ("passed", "break"):
        at -= 1
    between = {getattr(one, "text", "") for one in done[at + 1 :]}
    before = done[at] if at >= 0 else None
    if not (between & SURE and isinstance(before, Token) and is_number(before)):
        return None
    return at if before.value == item.value and before.unit == item.unit else None


def _same_again(before: Item, between: Item, item: Item) -> bool:
    if not (isinstance(before, Token) and isinstance(item, Token)):
        return False
    numbers = is_number(before) and is_number(item) and before.unit == item.unit
    equals = getattr(between, "text", "") in ("is", "=", "so", "that's", "makes")
    return numbers and equals and abs(before.value - item.value) < SAME


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
    if _metric(first) != _metric(second):
        return HeardMeasure("mixed", first.value, text, second.value), behind + 1
    if word == "to" or (isinstance(joint, Token) and joint.text == "-"):
        if second.value not in FULL_RUNS:
            said = f"{first.text}{joint.text if joint.text == '-' else ' to '}{second.text}"
            return HeardMeasure("range", first.value, said, second.value), behind + 1
        word = "in"
    word = "in" if word == "over" else word
    value = first.value + first.fine
    return HeardMeasure("ratio", value, text, second.value + second.fine, word), behind + 1


def _is_run(first: Token, behind: Item) -> bool:
    """Whether a run stands right behind its rise: eight twelve, five seventeen."""
    if not (isinstance(behind, Token) and is_number(behind) and not behind.unit):
        return False
    small = first.value <= LONGEST_ARM_IN and not first.unit
    return behind.value == 12 or (behind.value == 17 and small)


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
                and is_number(items[behind])
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
    numbers = [at for at, item in enumerate(items) if is_number(item)]
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
