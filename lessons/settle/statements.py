"""A page of statements: each line with its own cut and roof, where it differs from the usual one.

    hip-jack, pitch 8, corner 135: half the corner on the saw
    hip-ridge-single, pitch 9, board 2x8: 12 for 17
    always 45 on jacks

What stands before the colon names a cut of the catalogue, and `pitch`, `against` (the other
roof's), `corner`, `board` and `hand`; what is not named there is as on the command line.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from layout.answer.answer import Answer, answer
from layout.answer.gap_words import gap_and_decimals
from layout.answer.question import Question, ask
from layout.answer.wording import given_line, short_answer
from layout.cuts import Hand, catalogue
from layout.errors import LayoutError
from layout.quantity import read_angle, read_pitch
from layout.stock import read_stock
from lessons.settle.argument import argued
from lessons.settle.findings import ClaimVerdict, Finding
from lessons.settle.lengths import Building
from lessons.settle.rules import ruled
from lessons.settle.settle_notes import claim_words, reach_words
from lessons.settle.settle_words import length_words, verdict_words

_PART = re.compile(r"(pitch|against|corner|board|hand)\s+(.+)")
_BOARD_LIES = re.compile(r"board\s+\D+")


class StatementError(LayoutError):
    """A line of a file of statements whose head cannot be read."""


@dataclass(frozen=True)
class Statement:
    """A statement, the cut that it is about, and what was found; `own` where its line named one."""

    text: str
    answer: Answer
    finding: Finding
    own: bool

    @property
    def about(self) -> str:
        """The cut and its roof in a line."""
        return f"{self.answer.question.entry.name}; {given_line(self.answer)}"

    @property
    def so(self) -> str:
        """What is so: the verdict, and what to set where it is wrong."""
        said = verdict_words(self.answer, self.finding)
        if self.finding.length is not None or not self.finding.tried:
            return said
        instead = self.finding.judged.instead
        if (
            self.finding.verdict is ClaimVerdict.WRONG
            and self.finding.heard.rule is None
            and instead
        ):
            return f"wrong: set {claim_words(self.answer, instead)}"
        if self.finding.rule is not None and self.finding.verdict is ClaimVerdict.WRONG:
            return f"wrong as a rule: {self.finding.rule.instead}"
        reach = reach_words(self.answer, self.finding.judged.whole)
        said = f"{said}; here {short_answer(self.answer)}"
        return f"{said}; but {reach}" if reach else said

    @property
    def holds(self) -> str:
        """Where what is said holds, over many roofs; empty where that is no question."""
        return "" if self.finding.rule is None else self.finding.rule.holds or "nowhere"

    @property
    def cost(self) -> str:
        """What it costs where it was built."""
        if self.finding.length is not None:
            return length_words(self.finding.length, metric=self.answer.metric)
        if not self.finding.tried:
            return ""
        gap = gap_and_decimals(self.finding.judged.gap_in, metric=self.answer.metric)
        rule = self.finding.rule
        worst = ""
        if rule is not None and rule.fitted < rule.tried:
            wide = gap_and_decimals(rule.worst_in, metric=self.answer.metric)
            worst = f"; at worst {wide} at {rule.worst}"
        return f"here {gap}{worst}"

    @property
    def test(self) -> str:
        """How to try it on scrap."""
        if not self.finding.tried or self.finding.length is not None:
            return "measure one that is built" if self.finding.length else ""
        mate = self.answer.plane.mate_name
        return f"saw one scrap as said, one as it is so; stand each against the {mate}"


def statements(
    lines: Sequence[str], usual: Answer, building: Building | None = None
) -> list[Statement]:
    """Judge each line about its own cut. Raises StatementError that names the line."""
    return [_statement(line, usual, building, at) for at, line in enumerate(lines, start=1)]


def has_own_cut(line: str) -> bool:
    """Whether a line names its own cut or roof before a colon."""
    head, colon, _ = line.partition(":")
    first = head.split(",")[0].strip().lower()
    if _BOARD_LIES.fullmatch(first):
        return False  # board flat: table 45
    return bool(colon) and (first in catalogue() or _PART.fullmatch(first) is not None)


def _statement(line: str, usual: Answer, building: Building | None, at: int) -> Statement:
    own = has_own_cut(line)
    head, _, text = line.partition(":") if own else ("", "", line)
    true_answer = usual
    if own:
        try:
            true_answer = _answered(head, usual)
        except LayoutError as error:
            raise StatementError(f"line {at}: {error}") from None
    (finding,) = argued(true_answer, [text.strip()], building).findings
    if finding.tried and finding.length is None and finding.rule is None:
        tried = ruled(finding, "always", true_answer)
        finding = replace(finding, rule=tried if tried is not None and tried.enough else None)
    return Statement(text.strip(), true_answer, finding, own)


def _answered(head: str, usual: Answer) -> Answer:
    asked: Question = usual.question
    name = asked.entry.name
    said: dict[str, str] = {}
    for part in (part.strip().lower() for part in head.split(",")):
        match = _PART.fullmatch(part)
        if match is not None:
            said[match[1]] = match[2]
        elif part in catalogue():
            name = part
        else:
            raise StatementError(
                f"{part!r} names no cut and no part of a roof; write it like"
                " hip-jack, pitch 8, corner 135, board 2x6: half the corner on the saw"
            )
    same = name == asked.entry.name
    pitch = read_pitch(said["pitch"]) if "pitch" in said else asked.pitch
    corner = read_angle(said["corner"]) if "corner" in said else None
    hands = {"left": Hand.LEFT, "right": Hand.RIGHT}
    if said.get("hand", "left") not in hands:
        raise StatementError(f"{said['hand']!r} is no hand; say hand left, or hand right")
    question = ask(
        name,
        pitch=pitch,
        other_pitch=read_pitch(said["against"]) if "against" in said else None,
        corner_deg=corner if corner is not None or not same else asked.corner_deg,
        hand=hands[said["hand"]] if "hand" in said else asked.hand,
        stock=read_stock(said["board"]) if "board" in said else asked.stock if same else None,
        end=asked.end if same else None,
    )
    return answer(question, tolerance_in=usual.tolerance_in, limits=usual.limits)
