"""What is said not to be, beside what is: `45, not 38`; `on the edge, not on the saw`.

The claim is what is said to be so, and the rest says nothing more of it. Any other denial stays,
and the claim is refused for it.
"""

from collections.abc import Sequence

from lessons.settle.ear.lexicon import lexicon
from lessons.settle.ear.trade_tokens import Token

TEXTS = ("not", "never", "instead of", "rather than", "in place of", "nor")
KINDS = {"saw": "saw", "tilt": "saw", "bevel": "saw", "blade": "saw", "shoe": "saw",
         "table": "table", "mitersaw": "table", "edge": "edge", "sidecut": "edge", "top": "edge",
         "face": "face", "plumb": "face", "level": "face", "tongue": "tongue",
         "bladearm": "bladearm"}  # fmt: skip
"""What kind of thing a word names that a number can be set on."""
THINGS = KINDS.keys() - {"plumb", "level"}
OTHER = {"face": "edge", "edge": "face"}
RUNS = {12.0, 17.0}
IDLE = ("the", "a", "an", "at", "to", "for", "along", "down", "by", "your", "set", "that", "on",
        "in", "with", "of", "any", "my", "number", "mark", "use", "using")  # fmt: skip


def without_contrast(tokens: Sequence[Token]) -> list[Token]:
    """The pieces without what is denied beside what is said; the rest as it stands."""
    left = list(tokens)
    at = 0
    while at < len(left):
        if left[at].text in TEXTS and left[at].kind == "cue":
            end = _denied_until(left, at)
            if end is not None:
                start = at
                while start and _joins(left[start - 1]):
                    start -= 1
                denied = left[at:end]
                del left[start:end]
                _put_in_place(left, start, denied)
                at = start
                continue
        at += 1
    return left


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
    joined = at + 2 < len(tokens) and tokens[at + 2].kind == "number"
    between = at + 1 < len(tokens) and (
        tokens[at + 1].name in ("in", "on", "over") or tokens[at + 1].text in (":", "/")
    )
    return at + 3 if joined and between else at + 1


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
    """`17, never 12` is 17 for 12, the one run in place of the other."""
    numbers = [token for token in denied if token.kind == "number"]
    at = max((i for i in range(end) if tokens[i].kind == "number"), default=-1)
    if len(numbers) != 1 or at < 0 or {numbers[0].value, tokens[at].value} != RUNS:
        return
    if at and tokens[at - 1].name in ("in", "on", "over"):
        return  # 10 in 17, not 12: the rise is said
    tokens[at + 1 : at + 1] = [Token("passed", "for"), numbers[0]]
