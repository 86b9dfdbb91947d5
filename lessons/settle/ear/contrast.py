"""What is said not to be, beside what is: `45, not 38`; `on the edge, not on the saw`.

The claim is what is said to be so, and the rest says nothing more of it. Any other denial stays,
and the claim is refused for it.
"""

from collections.abc import Sequence
from itertools import dropwhile

from layout.tools.square import BLADE_IN
from lessons.settle.ear.lexicon import lexicon
from lessons.settle.ear.trade_tokens import RUNS_IN, Token

TEXTS = ("not", "never", "instead of", "rather than", "in place of", "nor")
KINDS = {"saw": "saw", "tilt": "saw", "bevel": "saw", "blade": "saw", "shoe": "saw",
         "table": "table", "mitersaw": "table", "edge": "edge", "sidecut": "edge", "top": "edge",
         "face": "face", "plumb": "face", "level": "face", "tongue": "tongue",
         "bladearm": "bladearm"}  # fmt: skip
"""What kind of thing a word names that a number can be set on."""
THINGS = KINDS.keys() - {"plumb", "level"}
OTHER = {"face": "edge", "edge": "face"}
IDLE = ("the", "a", "an", "at", "to", "for", "along", "down", "by", "your", "set", "that", "on",
        "in", "with", "of", "any", "my", "number", "mark", "use", "using")  # fmt: skip


def without_contrast(tokens: Sequence[Token]) -> tuple[list[Token], tuple[str, ...]]:
    """The pieces without what is denied beside what is said, and what that is, in words.

    The rest stands as it was said.
    """
    left, turned_down = _without_denied_first(list(tokens))
    at = 0
    while at < len(left):
        if left[at].text in TEXTS and left[at].kind == "cue":
            end = _denied_until(left, at)
            if end is not None:
                start = at
                while start and _joins(left[start - 1]):
                    start -= 1
                denied = left[at:end]
                turned_down += _words(denied)
                del left[start:end]
                _put_in_place(left, start, denied)
                at = start
                continue
        at += 1
    return left, turned_down


def _words(tokens: Sequence[Token]) -> tuple[str, ...]:
    told = [token for token in tokens if token.kind != "break" and token.text != "but"]
    said = " ".join(token.text for token in told if token.name not in ("denied", "never"))
    said = said.removeprefix("by ").removeprefix("on ").removesuffix(" on")
    return (said,) if said else ()


def _without_denied_first(tokens: list[Token]) -> tuple[list[Token], tuple[str, ...]]:
    """`Not 40, it's 45 on the saw`; `he swears by 40, but I set 45`: the second number is meant.

    What is turned down stands first, in a part of its own, and a number of its kind is put in its
    place in the next. A part that only denies (`no, no, ...`) is left for the claim to be asked
    about without it, where nothing is turned down behind it.
    """
    parts = _parts(tokens)
    turned_down: tuple[str, ...] = ()
    bare: list[Token] = []
    while len(parts) > 1:
        first, rest = parts[0], [token for part in parts[1:] for token in part]
        denied = [token for token in first if _denies(token)]
        own = _but_i(rest)
        if not _numbers(rest) or not (denied or own):
            break
        plain = all(_is_plain(token) for token in first)
        if denied and plain and not _numbers(first) and not _kinds(first):
            bare += denied
            parts = parts[1:]
            continue
        if any(_denies(token) for token in rest):
            break
        own = own and not (len(_numbers(first)) == 1 and len(_numbers(rest)) > 1)
        if not ((own or _denied_whole(first)) and _turned(first, rest)) and not (
            denied and _other_surface(first, rest)
        ):
            break
        told = KINDS if not _numbers(first) else _TIES
        turned_down += _words([t for t in first if t.kind == "number" or t.name in told])
        kept = [t for t in first if t.name in KINDS and _numbers(first) and not _kinds(rest)]
        meant = [*kept, *dropwhile(_leads_over, parts[1])]
        _put_in_place(meant, len(meant), first)
        parts = [meant, *parts[2:]]
    left = [token for part in parts for token in part]
    if bare and not turned_down:
        words = " ".join(token.text for token in bare)
        left = [Token("unknown", words), *left]
    return left, turned_down


def _denied_whole(first: Sequence[Token]) -> bool:
    """Whether the denial stands before the number, or ends the part: `40 is no good, ...`."""
    if not all(_is_plain(token) for token in first):
        return False
    denials = [at for at, token in enumerate(first) if _denies(token)]
    numbers = [at for at, token in enumerate(first) if token.kind == "number"]
    if not denials or not numbers:
        return False
    bound = any("than" in token.text.split() for token in first)  # no more than 45, not over 45
    if bound or any(token.name == "over" for token in first[: numbers[0]]):
        return False
    last = first[denials[-1] :]
    ends = all(token.kind in ("passed", "break") or _denies(token) for token in last)
    return denials[-1] < numbers[0] or (len(numbers) == 1 and ends and last[0].text in _NO_GOOD)


def _leads_over(token: Token) -> bool:
    """`..., but I mark 7`: what is kept of the edge before it belongs to the 7."""
    return token.kind == "break" or token.text in ("but", "though")


def _is_plain(token: Token) -> bool:
    """Whether a word takes nothing back of what is turned down: *if not 40* does."""
    group = lexicon().group.get(token.name, "")
    told = token.kind in ("passed", "break", "number") or _denies(token)
    return told or token.name in KINDS or group in ("stick", "unit", "reference", "sense")


_NO_GOOD = ("no good", "no use", "won't work", "won't do", "don't work", "doesn't work", "wrong")
_TIES = ("in", "on", "over", "and")
_SELF = ("i", "i'd", "i'll", "i've", "me", "we", "we'd", "mine", "my")


def _parts(tokens: Sequence[Token]) -> list[list[Token]]:
    """Parted at breaks and at *but*, each with its break or *but* at its end or beginning."""
    parts: list[list[Token]] = [[]]
    for token in tokens:
        if token.text in ("but", "though", "whereas") and any(
            t.kind == "number" for t in parts[-1]
        ):
            parts.append([])
        parts[-1].append(token)
        if token.kind == "break":
            parts.append([])
    parts = [part for part in parts if part]
    done: list[list[Token]] = []
    for part in parts:  # a comma and the *but* behind it are one
        if done and all(token.kind in ("break", "passed") for token in part):
            done[-1] += part
        else:
            done.append(part)
    return done


def _denies(token: Token) -> bool:
    return token.kind == "cue" and (token.name == "denied" or token.text == "never")


def _numbers(tokens: Sequence[Token]) -> list[Token]:
    return [token for token in tokens if token.kind == "number"]


def _kinds(tokens: Sequence[Token]) -> set[str]:
    return {KINDS[token.name] for token in tokens if token.name in KINDS}


def _but_i(rest: Sequence[Token]) -> bool:
    """`..., but I mark 9 5/8`: what stood before it is another man's."""
    said = [token.text for token in rest[:4] if token.kind != "break"]
    return any(said[:2] == ["but", one] for one in _SELF) or said[:3] == ["but", "it", "should"]


def _turned(first: Sequence[Token], rest: Sequence[Token]) -> bool:
    """Whether one thing in numbers is turned down, and one of its kind put in its place."""
    old, new = _numbers(first), _numbers(rest)
    units = {one.unit for one in (*old[:1], *new[:1])} - {""}
    same = not (_kinds(first) and _kinds(rest)) or _kinds(first) & _kinds(rest)
    tied = len(old) == 1 or (len(old) == 2 and any(token.name in _TIES for token in first))
    return tied and len(new) <= 2 and len(units) < 2 and bool(same)


def _other_surface(first: Sequence[Token], rest: Sequence[Token]) -> bool:
    """`not on the face, on the edge: ten and twelve`."""
    told, meant = _kinds(first), _kinds(rest)
    return not _numbers(first) and len(told) == 1 and {OTHER.get(one) for one in told} <= meant


def _joins(token: Token) -> bool:
    return (token.kind == "break" and token.text == ",") or token.text in ("and", "but", "then")


def _denied_until(tokens: Sequence[Token], at: int) -> int | None:
    """The place behind what is denied from here on; None where nothing is put in its place."""
    behind = _skipped(tokens, at + 1)
    if behind >= len(tokens):
        return None
    number = tokens[behind].kind == "number"
    end = behind + 1
    if number:
        end = _number_until(tokens, behind)
        while end < len(tokens) and tokens[end].name in ("armside", "pitch"):
            end += 1
    elif tokens[behind].name not in THINGS:
        return None
    said = [token for token in tokens[:at] if token.kind == "number"]
    if not said and number and end < len(tokens) and tokens[end].text == "but":
        follows = _skipped(tokens, end + 1)  # not 38 but 45
        return end + 1 if follows < len(tokens) and tokens[follows].kind == "number" else None
    own = {token.name for token in tokens[:at] if token.kind == "cue"}
    shared = number and not own & THINGS and _is_thing(tokens, end)  # 45 instead of 38 on the saw
    if not said or not (shared or _ends(tokens, end)):
        return None
    if not number:  # the same word said of the number, or none at all, leaves nothing to put
        told = {KINDS[name] for name in own if name in KINDS}
        kind = KINDS[tokens[behind].name]
        placed = OTHER[kind] in told if kind in OTHER else bool(told)
        return end if placed and kind not in told else None
    if said[-1].value == tokens[behind].value:
        return None
    units = {said[-1].unit, tokens[behind].unit} - {""}
    return end if len(units) < 2 else None


def _skipped(tokens: Sequence[Token], at: int) -> int:
    while at < len(tokens) and tokens[at].kind != "number" and _is_idle(tokens[at]):
        at += 1
    return at


def _is_idle(token: Token) -> bool:
    words = token.text.split()
    return token.kind in ("passed", "cue") and all(word in IDLE for word in words)


def _number_until(tokens: Sequence[Token], at: int) -> int:
    """Behind a number, or behind two with *in* or *on* between them."""
    if at + 2 >= len(tokens):
        return at + 1
    between, behind = tokens[at + 1 : at + 3]
    joins = between.name in ("in", "on", "over") or between.text in (":", "/")
    return at + 3 if joins and behind.kind == "number" else at + 1


def _is_thing(tokens: Sequence[Token], at: int) -> bool:
    behind = _skipped(tokens, at)
    return at < behind < len(tokens) and tokens[behind].name in THINGS and tokens[at].name == "on"


def _ends(tokens: Sequence[Token], at: int) -> bool:
    """Whether what is denied is over: the claim ends, or its next part begins."""
    if at >= len(tokens) or tokens[at].kind in ("break", "passed"):
        return True
    if tokens[at].name == "on":  # 17, not 12, on a hip
        behind = _skipped(tokens, at + 1)
        return behind < len(tokens) and lexicon().group.get(tokens[behind].name) == "stick"
    return tokens[at].name in ("and", "then")


def _put_in_place(tokens: list[Token], end: int, denied: Sequence[Token]) -> None:
    """`17, never 12` is 17 for 12, the one run in place of the other.

    It goes behind the last number before `end`, else behind the first that there is.
    """
    numbers = [token for token in denied if token.kind == "number"]
    places = [at for at, token in enumerate(tokens) if token.kind == "number"]
    if len(numbers) != 1 or not places:
        return
    *others, at = [place for place in places if place < end] or places[:1]
    joint = tokens[at - 1].name if at else ""
    rise = bool(others) and at - others[-1] == 2 and tokens[others[-1]].value <= BLADE_IN
    if joint in ("in", "on", "over") or (joint == "and" and rise):
        return  # 10 in 17, or 10 and 17, not 12: the rise is said
    if {numbers[0].value, tokens[at].value} == set(RUNS_IN):
        tokens[at + 1 : at + 1] = [Token("passed", "for"), numbers[0]]
