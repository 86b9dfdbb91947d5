"""From letters to words of the trade and numbers: what is heard before anything is understood."""

import re
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import zip_longest

from layout.errors import QuantityError
from layout.quantity import MM_PER_INCH, NUMBER, plain_text, read_number
from lessons.settle.ear.lexicon import NOISE, Lexicon, lexicon
from lessons.settle.ear.plain_talk import plainly
from lessons.settle.ear.spoken import fraction_after, spoken

OFF_IN = 3 / 128
"""What *shy* and *strong* say: the middle between a 64th and a 32nd."""
BOARD = re.compile(r"\b[1-6] ?[x×] ?\d{1,2}\b")
_RAW = re.compile(
    rf"(?P<number>{NUMBER})|(?P<word>[a-z]+(?:'[a-z]+)*)|(?P<sign>''|[°\"'&]|-(?=\s*\d)|[^\s-]|-)"
)
_PAIR = re.compile(rf"\s+{NUMBER}\s+(and|on|in) +\d")
"""Behind a colon, as in `mark 12: 10 and 12`: there it makes no ratio, as it does in `8: 12`."""
_RATIO = re.compile(r"(\d+(?:\.\d+)?)\s*/\s*(\d+)")
UNITS = ("degrees", "inch", "feet", "foot_in", "millimetres", "centimetres", "shy", "strong")
BREAKS = ",;.!?()[]|\n"
RUNS_IN = (12.0, 17.0)
"""What a rise is laid on: a common's run, and a hip's over a square corner as it is said [in]."""
EXACT_IN = 1 / 24
"""A number to the sixteenth and its own decimals are no farther apart [in]."""
INCH_PARTS = (2, 3, 4, 5, 6, 8, 10, 16, 32, 64, 100, 128)
WHO_SAYS = {
    "says",
    "tells",
    "taught",
    "swears",
    "wants",
    "uses",
    "sets",
    "runs",
    "cuts",
    "said",
    "reckons",
    "figures",
    "claims",
    "thinks",
    "told",
}
OTHER_SAWS = ("handsaw", "hacksaw", "seesaw", "foresaw", "oversaw", "backsaw", "chainsaw")
WORDLESS = "“”`*_#~"


@dataclass(frozen=True)
class Token:
    """A piece of what was said.

    `kind` is number, cue, passed, unknown, break or mark (a sign between numbers). A cue's
    `name` is what the lexicon says it means. A number has its `value`, the `unit` behind it
    ("deg", "in", "ft" or nothing), and `ratio` where it was written as one, like 8/12.
    `fine` is how much shy (-) or strong (+) it was said to be [inches].
    """

    kind: str
    text: str
    name: str = ""
    value: float = 0.0
    unit: str = ""
    ratio: tuple[float, float] | None = None
    fine: float = 0.0


END = Token("break", "")


@dataclass(frozen=True)
class Listened:
    """The pieces of a claim in order, and the slips that were mended: as said, as taken."""

    tokens: tuple[Token, ...]
    mended: tuple[tuple[str, str], ...]


@lru_cache(maxsize=256)
def listen(text: str) -> Listened:
    """Break a claim into words of the trade, numbers and what is passed over.

    Kept for a while: a rule is heard in a hundred roofs.
    """
    known = lexicon()
    folded = BOARD.sub(" board ", plain_text(text.replace("\n", " ; ")))
    raw, mended = _raw(plainly(folded), known)
    return Listened(tuple(_united(_tokens(raw, known))), tuple(mended))


def _raw(folded: str, known: Lexicon) -> tuple[list[str], list[tuple[str, str]]]:
    """Words, figures and signs, each word mended where it is a slip."""
    raw: list[str] = []
    mended: list[tuple[str, str]] = []
    for match in _RAW.finditer(folded):
        piece = match[0]
        if piece in WORDLESS:
            continue
        if match["word"] and not known.knows(piece):
            bare = piece.removesuffix("'s").removesuffix("s'").removesuffix("'ll")
            behind = folded[match.end() :].replace(",", " ").replace(":", " ").split()
            if known.knows(bare):
                piece = bare
            elif not WHO_SAYS.intersection(behind[:1]) and (better := known.slip_of(piece)):
                mended.append((piece, better))
                piece = better
        before, after = folded[: match.start()][-1:], folded[match.end() :][:1]
        if piece == "-":
            if before.isalpha():
                continue  # side-cut, thirty-five
            piece = ";" if after.isspace() and before.isspace() else "-"
        if piece == ":" and before.isdigit() and _PAIR.match(folded, match.end()):
            piece = ";"
        raw.append(piece)
    return raw, mended


def _tokens(raw: list[str], known: Lexicon) -> list[Token]:
    tokens: list[Token] = []
    at = 0
    while at < len(raw):
        token, taken = _token(raw, at, known)
        tokens.append(token)
        at += taken
    return _without_asides(tokens)


def _without_asides(tokens: list[Token]) -> list[Token]:
    """Parentheses that hold nothing but words passed over part nothing: they are left out."""
    done: list[Token] = []
    opens: list[int] = []
    for token in tokens:
        if token.text == "(":
            opens.append(len(done))
        done.append(token)
        if token.text == ")" and opens:
            aside = done[opens.pop() :]
            if all(one.kind == "passed" or one.text in ("(", ")") for one in aside):
                del done[-len(aside) :]
    return done


def _token(raw: list[str], at: int, known: Lexicon) -> tuple[Token, int]:
    piece = raw[at]
    if piece[0].isdigit() or (piece[0] == "." and len(piece) > 1):
        return _figures(raw, at)
    reach = tuple(raw[at : at + known.longest])
    for length in range(len(reach), 1, -1):
        phrase = reach[:length]
        if known.group.get(known.phrases.get(phrase, "")) == NOISE:
            return Token("passed", " ".join(phrase)), length
        if phrase in known.phrases:
            return Token("cue", " ".join(phrase), known.phrases[phrase]), length
    number = spoken(raw, at)
    if number is not None and not _idle_one(raw, at, number[1], known):
        value, taken = number
        return Token("number", " ".join(raw[at : at + taken]), value=value), taken
    bare = piece.removesuffix("'s")
    piece = bare if (piece,) not in known.phrases and (bare,) in known.phrases else piece
    if (piece,) in known.phrases:
        return Token("cue", piece, known.phrases[(piece,)]), 1
    if piece in known.passed or _names_who(raw, at, known):
        return Token("passed", piece), 1
    if piece in BREAKS:
        return Token("break", piece), 1
    if piece.endswith("saw") and piece not in OTHER_SAWS and len(piece) > len("saw"):
        return Token("cue", piece, "saw"), 1  # a saw by the name that somebody gives it
    if piece in "-:/=+@":
        return Token("mark", piece), 1
    return Token("unknown", piece), 1


def _names_who(raw: list[str], at: int, known: Lexicon) -> bool:
    """The name of who says it, before *says*, or before a colon at the beginning."""
    after = raw[at + 1] if at + 1 < len(raw) else ""
    told = after in WHO_SAYS or (at == 0 and after == ":")
    return told and raw[at].isalpha() and not known.knows(raw[at])


def _idle_one(raw: list[str], at: int, taken: int, known: Lexicon) -> bool:
    """`the left one` counts nothing."""
    after = raw[at + 1] if at + 1 < len(raw) else ""
    counted = known.group.get(known.phrases.get((after,), ""), "") == "unit"
    return taken == 1 and raw[at] == "one" and not counted


def _figures(raw: list[str], at: int) -> tuple[Token, int]:
    piece = raw[at]
    try:
        value = read_number(piece)
    except QuantityError:
        return Token("unknown", piece), 1
    rest = fraction_after(raw, at + 1) if "/" not in piece and "." not in piece else None
    if rest is not None:
        text = " ".join(raw[at : at + 1 + rest[1]])
        return Token("number", text, value=value + rest[0]), 1 + rest[1]
    written = _RATIO.fullmatch(piece)
    if written and value < 1 and int(written[2]) not in (*INCH_PARTS, 12):
        return Token("unknown", piece), 1
    ratio = None
    if written and (value >= 1 or float(written[2]) == 12):
        ratio = float(written[1]), float(written[2])
    return Token("number", piece.removesuffix("."), value=value, ratio=ratio), 1


def _united(tokens: list[Token]) -> list[Token]:
    """Units, shy and strong taken into their numbers; feet joined with the inches behind them."""
    done: list[Token] = []
    closing: Token | None = None
    for index, (token, after) in enumerate(zip_longest(tokens, tokens[1:], fillvalue=END)):
        if token is closing:
            continue
        last = done[-1] if done else None
        number = last if last is not None and last.kind == "number" else None
        if token.text == "foot" and number is not None and not number.unit:
            token = replace(token, name="foot_in")
        if token.name in UNITS and number is not None:
            done[-1] = _with_unit(number, token)
            continue
        if (
            number is not None
            and token.kind == "passed"
            and token.text in ("and", "a")
            and after.name in ("shy", "strong")
        ):
            continue
        if token.name == "in" and number is not None and not _number_next(tokens, index):
            done[-1] = replace(number, unit=number.unit or "in?", text=f"{number.text} in")
            continue
        if token.kind == "number" and last is not None and last.name in ("shy", "strong"):
            done[-1] = _with_unit(token, last)  # a hair over 45
            continue
        if token.kind == "number" and len(done) >= 2 and done[-1].text == "(":
            exact = _parenthesis(done[-2], token, after)
            if exact is not None:
                done[-2:] = [exact]
                closing = after
                continue
        if token.kind == "number" and number is not None and number.unit == "ft":
            done[-1] = replace(
                number,
                value=number.value + token.value,
                text=f"{number.text} {token.text}",
                fine=token.fine,
            )
            continue
        if (
            token.kind == "mark"
            and token.text == "-"
            and number is not None
            and number.unit == "ft"
        ):
            continue
        done.append(token)
    return done


def _with_unit(number: Token, unit: Token) -> Token:
    text = f"{number.text}{'' if unit.text in '°' else ' '}{unit.text}"
    match unit.name:
        case "degrees":
            return replace(number, unit="deg", text=text)
        case "feet" | "foot_in" if not number.unit:
            return replace(number, unit="ft", value=12 * number.value, text=text)
        case "millimetres":
            return replace(number, unit="in", value=number.value / MM_PER_INCH, text=text)
        case "centimetres":
            return replace(number, unit="in", value=10 * number.value / MM_PER_INCH, text=text)
        case "shy" | "strong":
            fine = OFF_IN if unit.name == "strong" else -OFF_IN
            return replace(number, fine=fine, text=text)
        case _:
            return replace(number, unit=number.unit or "in", text=text)


def _number_next(tokens: list[Token], index: int) -> bool:
    """Whether a number follows behind words that say nothing."""
    for token in tokens[index + 1 :]:
        if token.kind == "number":
            return True
        if token.kind != "passed" or token.text not in ("a", "an", "the", "every", "each"):
            return False
    return False


def _parenthesis(before: Token, inside: Token, closing: Token) -> Token | None:
    """The number before with the decimals that stand behind it in parentheses: 10 in (9.985)."""
    near = before.kind == "number" and abs(before.value - inside.value) < EXACT_IN
    if not near or closing.text != ")":
        return None
    return replace(before, value=inside.value, fine=0.0)
