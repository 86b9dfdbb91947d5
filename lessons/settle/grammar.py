"""The grammar of claims about a cut: phrases in any order, parted by commas, `and` or nothing.

    claim   = phrase { [","|";"|"and"|"with"] phrase }
    phrase  = "plumb" NUMBER "in" NUMBER | "plumb" ANGLE "deg" | "level" NUMBER "in" NUMBER
            | "face" mark | "edge" mark | "square"
            | ("saw"|"tilt") ["at"] ANGLE
            | ["saw"] "flat" ANGLE "tilt" ANGLE
            | ["saw"] "on edge" ( ANGLE | NUMBER "on" NUMBER ) "tilt" ANGLE
            | "rip" | "gauge" LENGTH "drop" LENGTH
            | ("left"|"right") ("cheek"|"hand") | "top to" ("head"|"foot") | ("top"|"bottom") "edge"
            | "leans" ("over the waste"|"under") "on the" ("left"|"right") "face"
    mark    = "square" | ANGLE "deg" | NUMBER "on" NUMBER | NUMBER "and" NUMBER ["mark" NUMBER]

`NUMBER on 12` is an edge mark's: it is marked along the 12. Text that is no claim is met with one
line that quotes the word at which it stopped being one.
"""

import re
from typing import Any

from layout.cuts import Hand
from layout.errors import QuantityError
from layout.quantity import MM_PER_INCH, read_number
from lessons.settle.claim import SQUARE, Claim, ClaimError, Line, Shoe

LONGEST = 1500
"""Letters in a claim that says tiny numbers to the last digit; longer text is something else."""
QUOTED = 100
"""Letters of a claim that are quoted in an error."""

_VULGAR = "¼½¾⅓⅔⅛⅜⅝⅞"
_SLASH = "/⁄"
_NUMBER = re.compile(
    rf"""[0-9]+(?:\s+|\s*-\s*)[0-9]+\s*[{_SLASH}]\s*[0-9]+   # 8 1/2, 8-1/2
       | [0-9]+\s*[{_SLASH}]\s*[0-9]+                         # 17/2
       | [0-9]*\s?[{_VULGAR}]                                 # 8½
       | [⁰¹²³⁴⁵⁶⁷⁸⁹]+⁄[₀₁₂₃₄₅₆₇₈₉]+
       | [0-9]+\s*[⁰¹²³⁴⁵⁶⁷⁸⁹]+⁄[₀₁₂₃₄₅₆₇₈₉]+
       | [0-9]+\.?[0-9]* | \.[0-9]+""",
    re.VERBOSE,
)
_RATIO = re.compile(rf"([0-9]+)\s*[{_SLASH}]\s*([0-9]+)")
_WORD = re.compile(r"[^\W\d_]+")
_GAP = re.compile(r"[\s,;+]*")
_STOPPER = re.compile(r"[^\s,;]+|.", re.DOTALL)
_FILLERS = ("and", "with", "then")
_STARTS = "plumb, level, face, edge, saw, tilt, square, rip or gauge"


def read_claim(text: str) -> Claim:
    """Read a claim as it is spoken. Raises ClaimError that quotes the word it stopped at.

    >>> read_claim("plumb 12 in 12, edge 8-1/2 on 12") == read_claim("edge 8½ on 12 plumb 12 in 12")
    True
    """
    if len(text) > LONGEST:
        raise ClaimError(f"a claim of {len(text)} letters is none; say it as plumb 8 in 12, saw 45")
    return _Reader(text).claim()


class _Reader:
    """Walks through the text phrase by phrase; `said` holds a claim's fields as they come."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.at = 0
        self.said: dict[str, Any] = {}

    def claim(self) -> Claim:
        self._skip(_GAP)
        if self._done:
            raise ClaimError("an empty claim says nothing; say it as plumb 8 in 12, saw 45")
        while not self._done:
            self._phrase()
            self._skip(_GAP)
            self._word(*_FILLERS)
            self._skip(_GAP)
        squared = self.said.pop("square", False)
        if squared:
            self.said["face"] = SQUARE
            if not {"edge", "tilt_deg"} & self.said.keys():
                self.said["edge"] = SQUARE
        try:
            return Claim(**self.said, text=" ".join(self.text.split()))
        except ClaimError as error:
            raise ClaimError(f"the claim {self._quoted}: {error}") from None

    # Phrases

    def _phrase(self) -> None:
        start = self.at
        match self._word(
            "plumb", "level", "face", "edge", "square", "saw", "tilt", "flat", "on", "rip",
            "gauge", "left", "right", "top", "bottom", "leans", "leaning",
        ):  # fmt: skip
            case "plumb" | "level" as kind:
                self._keep("face", self._slope(kind), start)
            case "face" | "edge" as where:
                self._keep(where, self._mark(where), start)
            case "square":
                self._not_yet("face", start)
                self._keep("square", True, start)
            case "saw":
                self._saw(start)
            case "tilt":
                self._keep("tilt_deg", self._tilt(), start)
            case "flat":
                self._flat(start)
            case "on":
                self._need("edge", after="on")
                self._on_edge(start)
            case "rip":
                self.said["rip"] = True
            case "gauge":
                self._gauge(start)
            case "left" | "right" as side:
                self._need("cheek", "hand", after=side)
                self._keep("cheek", Hand(side), start)
            case "top" | "bottom" as way:
                self._top(way, start)
            case "leans" | "leaning":
                self._leans(start)
            case _:
                raise self._stopped(f"a claim begins with {_STARTS}")

    def _slope(self, kind: str) -> Line:
        self._word("cut")
        at = self._start()
        first = self._number(f"after {kind!r} comes a rise, as in {kind} 8 in 12")
        ratio = _RATIO.fullmatch(self.text, at, self.at)
        if kind == "plumb" and self._degree_sign():
            return self._line(at, "degrees", first)
        if self._word("in", "on") or self._sign(":"):
            second = self._number(f"after the rise comes the run, as in {kind} 8 in 12")
            return self._line(at, kind, first, second)
        if ratio is not None:  # 8/12 with no run behind it is 8 in 12
            return self._line(at, kind, float(ratio[1]), float(ratio[2]))
        raise self._stopped(f"after the rise comes 'in' and the run, as in {kind} 8 in 12")

    def _mark(self, where: str) -> Line:
        """A mark's words behind `face` or `edge`."""
        self._word("mark")
        if self._word("square"):
            return SQUARE
        at = self._start()
        example = "edge 8 1/2 on 12" if where == "edge" else "plumb 8 in 12"
        self._word("at")
        first = self._number(f"after {where!r} comes {example}, {where} 45deg or {where} square")
        if self._degree_sign():
            return self._line(at, "degrees", first)
        if where == "edge" and self._word("on", "in"):
            second = self._number("after 'on' comes the number marked along, as in 8 1/2 on 12")
            return self._line(at, "numbers", second, first)
        if self._word("and"):
            return self._pair(where, at, first)
        ways = "'on 12' or 'deg'" if where == "edge" else "'deg', or 'and' with a second number"
        raise self._stopped(
            f"after '{where} {self.text[at : self.at].strip()}' comes {ways}"
            + ("" if where == "edge" else "; a rise on a run is said plumb 8 in 12")
        )

    def _pair(self, where: str, at: int, first: float) -> Line:
        """Two numbers on the square, and the one to mark along."""
        example = f"{where} 12 and 8 mark 8"
        second = self._number(f"after 'and' comes the second number, as in {example}")
        if not self._word("mark"):
            if first == second:
                return self._line(at, "numbers", first, second)
            raise self._stopped(f"say which number to mark along, as in {example}")
        self._word("along")
        here = self._start()
        along = self._number(f"after 'mark' comes the number to mark along, as in {example}")
        if along not in (first, second):
            self.at = here
            raise self._stopped(f"the line is marked along one of its own numbers, as in {example}")
        return self._line(at, "numbers", along, first if along == second else second)

    def _saw(self, start: int) -> None:
        if self._word("flat"):
            self._flat(start)
        elif self._word("on"):
            self._need("edge", after="saw on")
            self._on_edge(start)
        else:
            self._word("tilted", "tilt")
            self._keep("tilt_deg", self._tilt(), start)

    def _flat(self, start: int) -> None:
        at = self._start()
        turn = self._angle("after 'flat' comes the table's angle, as in saw flat 33.7 tilt 45")
        line = self._line(at, "degrees", turn) if turn else SQUARE
        self._keep("face", line, start)
        self.said["table"] = bool(turn)
        self._behind_table(start, "face")

    def _on_edge(self, start: int) -> None:
        at = self._start()
        example = "as in on edge 54.7 tilt 30"
        if self._word("square"):
            line = SQUARE
        else:
            first = self._angle(f"after 'on edge' comes the edge mark's angle, {example}")
            if self._word("on"):
                second = self._number("after 'on' comes the number marked along, as in 8 1/2 on 12")
                line = self._line(at, "numbers", second, first)
            else:
                line = self._line(at, "degrees", first) if first else SQUARE
        self._keep("edge", line, start)
        self._behind_table(start, "edge")

    def _behind_table(self, start: int, shoe: Shoe) -> None:
        self._skip(_GAP)
        example = "saw flat 33.7 tilt 45" if shoe == "face" else "on edge 54.7 tilt 30"
        if not self._word("tilt", "tilted", "saw"):
            raise self._stopped(f"the tilt comes next, as in {example}")
        self._keep("tilt_deg", self._tilt(), start)
        self.said["shoe"] = shoe

    def _gauge(self, start: int) -> None:
        example = "as in gauge 3/4 drop 5/16"
        across = self._length(f"after 'gauge' comes the breadth over the edge, {example}")
        self._skip(_GAP)
        if not self._word("drop", "dropping"):
            raise self._stopped(f"the drop comes next, {example}")
        drop = self._length(f"after 'drop' comes how far the bevel falls, {example}")
        self._keep("gauge_in", (across, drop), start)
        self.said["rip"] = True

    def _top(self, way: str, start: int) -> None:
        if self._word("edge"):
            self._keep("arris", way, start)
        elif way == "top" and self._word("to", "toward", "towards"):
            self._word("the")
            self._keep("top", self._need("head", "foot", after="top to"), start)
        else:
            raise self._stopped("say top to head, top to foot, or top edge of a rip")

    def _leans(self, start: int) -> None:
        """Over the waste under a shoe on the left face is a cheek that faces left."""
        example = "as in leans over the waste on the left face"
        over = self._word("over", "toward", "under")
        if over is None:
            raise self._stopped(f"say which way the blade leans, {example}")
        self._word("the")
        self._word("waste", "kept", "wood")
        self._word("wood")
        if not self._word("on"):
            raise self._stopped(f"say on which face the shoe rides, {example}")
        self._word("the")
        side = Hand(self._need("left", "right", after="on the"))
        self._word("face")
        self._keep("cheek", side if over in ("over", "toward") else side.other, start)

    # Words and numbers

    @property
    def _done(self) -> bool:
        return self.at >= len(self.text)

    @property
    def _quoted(self) -> str:
        """The claim on one line, without what a terminal cannot show."""
        shown = "".join(c if c.isprintable() else "?" for c in " ".join(self.text.split()))
        return f'"{shown}"' if len(shown) <= QUOTED else f'"{shown[:QUOTED]}..."'

    def _skip(self, pattern: re.Pattern[str]) -> None:
        match = pattern.match(self.text, self.at)
        if match is not None:
            self.at = match.end()

    def _start(self) -> int:
        while not self._done and self.text[self.at].isspace():
            self.at += 1
        return self.at

    def _word(self, *words: str) -> str | None:
        """Take the next word if it is one of these; whole words, in any case."""
        match = _WORD.match(self.text, self._start())
        if match is None or match[0].lower() not in words:
            return None
        self.at = match.end()
        return match[0].lower()

    def _need(self, *words: str, after: str) -> Any:
        word = self._word(*words)
        if word is None:
            raise self._stopped(f"after {after!r} comes {' or '.join(words)}")
        return word

    def _sign(self, sign: str) -> bool:
        if self.text.startswith(sign, self._start()):
            self.at += len(sign)
            return True
        return False

    def _degree_sign(self) -> bool:
        return self._sign("°") or self._word("deg", "degree", "degrees") is not None

    def _number(self, expected: str) -> float:
        match = _NUMBER.match(self.text, self._start())
        if match is None:
            raise self._stopped(expected)
        try:
            value = read_number(match[0])
        except (QuantityError, OverflowError):
            raise self._stopped("no number is written so; write it like 8 1/2 or 8.5") from None
        self.at = match.end()
        self._sign('"')
        return value

    def _angle(self, expected: str) -> float:
        value = self._number(expected)
        self._degree_sign()
        return value

    def _tilt(self) -> float:
        self._word("at", "to")
        at = self._start()
        value = self._angle("after the saw comes its tilt, as in saw 45")
        if value >= 90:
            self.at = at
            raise self._stopped("a blade tilted that far lies flat; give less than 90")
        return value

    def _length(self, expected: str) -> float:
        value = self._number(expected)
        return value / MM_PER_INCH if self._word("mm") else value

    def _line(self, at: int, kind: Any, first: float, second: float = 0.0) -> Line:
        try:
            return Line(kind, first, second)
        except ClaimError as error:
            self.at = at
            raise self._stopped(str(error)) from None

    # What was said, and what went wrong

    def _keep(self, key: str, value: Any, start: int) -> None:
        self._not_yet(key, start)
        self.said[key] = value

    def _not_yet(self, key: str, start: int) -> None:
        if key in self.said or (key == "face" and "square" in self.said):
            self.at = start
            names = {"face": "the face mark", "square": "square", "edge": "the edge mark"}
            names |= {"tilt_deg": "the tilt", "gauge_in": "the gauge", "cheek": "the cheek"}
            raise self._stopped(f"{names.get(key, key)} is said already; make two claims of it")

    def _stopped(self, expected: str) -> ClaimError:
        """The error for the word at which reading stopped, and what would come there."""
        at = self._start()
        if self._done:
            return ClaimError(f"the claim {self._quoted} ends too soon: {expected}")
        match = _STOPPER.match(self.text, at)
        stopper = match[0] if match else self.text[at]
        return ClaimError(
            f"the claim {self._quoted} stops at {stopper!r}, letter {at + 1}: {expected}"
        )
