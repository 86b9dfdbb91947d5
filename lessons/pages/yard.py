"""The yard check: a day with one handsaw and one circular saw that tries what the sheets promise.

Three cuts, each made twice: once along two lines with a handsaw, once along one line with the
tilted blade. The piece cut one way is then stood against the offcut of the piece cut the other
way: where both cut one plane they close like an uncut stick, whatever was wasted by the kerf.
The jacks are cut once more with the saw tilted to the side-cut number, and the gap that was
to be expected is measured.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property

from layout.answer.answer import Answer, answer
from layout.answer.question import ask
from layout.answer.sense_words import SURFACE, lean_words, leaning, start_words, wide_words
from layout.answer.senses import faces
from layout.answer.wording import board_words, corner_words, pitch_words, write_numbers
from layout.cuts import Hand
from layout.quantity import nearest, read_pitch, write_degrees, write_feet, write_inches
from layout.stock import Stock, read_stock
from layout.tools.fit import fit
from layout.tools.setting import BySaw
from lessons.mistakes.cut_mistakes import Made, mistakes
from lessons.say.blocks import Block, Facts, Heading, Paragraph, Steps
from lessons.say.units import System, write_gap_limit, written
from lessons.say.words import CAUTION

TRIALS: tuple[tuple[str, str, Hand], ...] = (
    ("hip-jack", "8 in 12", Hand.LEFT),
    ("hip-jack", "12 in 12", Hand.RIGHT),
    ("hip-ridge-single", "6 in 12", Hand.LEFT),
)
"""A jack of either hand at two pitches, and a hip, whose run is 17: each reads the square anew."""
WRONG = frozenset({"A", "B"})
"""The cuts that are made once more with the number as the tilt: the jacks, at two pitches."""
SIDE_NUMBER = "side-number-as-tilt"
USUAL_STOCK = "2x4"
PIECE_IN, PIECE_MM = 24.0, 600.0
"""Length of every piece, by the units asked for: enough to hold on both sides of a cut."""
WRITE_HERE = "____________"


@dataclass(frozen=True)
class TrialCut:
    """One cut of the day: its letter and the answer that both ways are marked and set from."""

    letter: str
    answer: Answer

    @cached_property
    def apart_in(self) -> float:
        """The gap to expect between the hand's piece and the saw's offcut, with settings as read
        on the tools [inches]."""
        by_saw = replace(self.answer.cut, normal=self.answer.saw_setting(as_read=True).normal)
        return float(fit(by_saw, self.answer.hand_setting(as_read=True).normal).widest_in)

    @cached_property
    def wrong(self) -> Made | None:
        """The cut with the saw tilted to the side-cut number; None where it is not tried."""
        if self.letter not in WRONG:
            return None
        return mistakes()[SIDE_NUMBER].made_on(self.answer)

    def by_number(self, system: System) -> str:
        """What is set for the wrong cut, and the gap that it should leave."""
        assert self.wrong is not None
        setting = self.wrong.setting
        assert isinstance(setting, BySaw)
        tilt = write_degrees(nearest(setting.tilt_deg, 4))
        gap = written(self.wrong.price_in, "gap", system)
        return f"tilt {tilt}, the number's angle, all else as for the saw; expect {gap} open"

    def name(self, system: System) -> str:
        """The cut in a line: what it is, its roof and its hand."""
        asked = self.answer.question
        pitch = pitch_words(asked.pitch, metric=system.is_metric)
        hand = f"{asked.hand.value}-hand"
        return f"{asked.entry.name}, {pitch}, {corner_words(asked.corner_deg)}, {hand}"

    def by_hand(self, system: System) -> Mapping[str, str]:
        """What is marked for the handsaw."""
        marks = {"face": self.answer.face, "edge": self.answer.edge}
        told = {}
        for name, mark in marks.items():
            assert mark.numbers is not None, "every test cut has both marks"
            if system is System.METRIC:
                blade, tongue = (
                    written(side, "square", system)
                    for side in (mark.numbers.blade, mark.numbers.tongue)
                )
                arm = mark.numbers.mark_arm
                laid = f"{blade} on the blade, {tongue} on the tongue; mark along the {arm}"
            else:
                laid = write_numbers(mark.numbers)
            far = "top" if name == "face" else "left end"
            told[name] = f"{laid}; its {far} slants toward the {leaning(mark)}"
        return told

    def by_saw(self) -> str:
        """What is set on the saw, shoe on the steadier face, after the same face mark."""
        setting = self.answer.saw_setting(as_read=True)
        assert isinstance(setting, BySaw)
        tilt = write_degrees(nearest(setting.tilt_deg, 4))
        steadier = faces(self.answer)[0]
        start = start_words(steadier)
        return (
            f"tilt {tilt}, shoe on the {SURFACE[steadier.side]}; {lean_words(steadier)};"
            f" {wide_words(steadier)}. {start[0].upper()}{start[1:]}"
        )

    def expected(self, system: System) -> tuple[str, str, str]:
        """Gaps to expect with settings as read: hand's cut, saw's cut, one against the other."""
        true_answer = self.answer
        gaps = (
            true_answer.by_hand.read.widest_in,
            true_answer.by_saw.read.widest_in,
            self.apart_in,
        )
        hand, saw, apart = (written(float(gap), "gap", system) for gap in gaps)
        return hand, saw, apart


def cuts_of_the_day(stock: Stock | None = None) -> tuple[TrialCut, ...]:
    """The three cuts of the day on this board, a 2x4 if none is named."""
    board = stock or read_stock(USUAL_STOCK)
    return tuple(
        TrialCut(letter, answer(ask(cut, pitch=read_pitch(pitch), hand=hand, stock=board)))
        for letter, (cut, pitch, hand) in zip("ABC", TRIALS, strict=True)
    )


def opening_blocks(cuts: tuple[TrialCut, ...], system: System) -> list[Block]:
    """What the day is for, the cut list and what to do, before the table to be filled in."""
    board = cuts[0].answer.question.stock
    wrong = [cut for cut in cuts if cut.wrong]
    pieces = 2 * len(cuts) + len(wrong)
    if system is System.METRIC:
        long, total = f"{PIECE_MM:g} mm", f"{PIECE_MM * pieces:g} mm"
    else:
        long, total = write_inches(PIECE_IN), write_feet(PIECE_IN * pieces)
    kinds = [
        (cut, kind) for cut in cuts for kind in ("hand", "saw", *(["number"] * bool(cut.wrong)))
    ]
    listed = ", ".join(f"{cut.letter} {kind}" for cut, kind in kinds)
    return [
        Paragraph(
            "Do the cuts come out as the sheets say? Each cut is made twice, by handsaw and by"
            " saw, and the two are stood against each other. The jacks are cut once more with the"
            " saw tilted to the side-cut number, and the gap is measured."
        ),
        Heading("Cut list"),
        Paragraph(
            f"{pieces} pieces of {board_words(board, metric=system.is_metric)}, each {long}"
            f" long, {total} in all: {listed}. Straight, dry, and as thick as the name says:"
            " measure first."
        ),
        Heading("What to do"),
        Steps(
            tuple(
                (text, None)
                for text in (
                    "Print the templates at 100 %, measure their check bars, and write what they"
                    ' measure below the table, on the line "Check bars".',
                    "Mark the HAND pieces with the square alone: face, then edge, then the other"
                    " face. Mark the SAW pieces and the NUMBER pieces on the face alone.",
                    "Before you saw anything, wrap the template around each piece. Where a mark"
                    " strays from the template's line, write down by how much.",
                    "Saw the HAND pieces along both lines with a handsaw.",
                    "Set the saw's tilt, unplugged. Test the cut on scrap. Then saw the SAW pieces"
                    " along the face mark.",
                    "Set the tilt to the number's angle, unplugged, and saw the NUMBER pieces."
                    " Keep every offcut, and label it.",
                    "Lay the hand's piece and the saw's offcut end to end on a flat bench, a"
                    " straightedge along their bottoms, and push them together. Measure the"
                    " widest gap with feeler gauges or a fine rule. Do the same with the hand's"
                    " piece and the NUMBER offcut.",
                    "Cross-read a SAW piece: lay the square on its edge along the sawn line, and a"
                    " sliding bevel square to its face mark. Number and tilt are both in it.",
                )
            )
        ),
    ]


def settings_blocks(cuts: tuple[TrialCut, ...], system: System) -> list[Block]:
    """What is marked and set for each cut."""
    blocks: list[Block] = [Heading("Settings")]
    for cut in cuts:
        hand = cut.by_hand(system)
        blocks.append(Paragraph(f"{cut.letter}. {cut.name(system)}", strong=True))
        facts = [
            ("Face, all", f"{hand['face']}."),
            ("Edge, hand", f"{hand['edge']}."),
            ("Saw", f"{cut.by_saw()}."),
        ]
        if cut.wrong is not None:
            facts.append(("Number", f"{cut.by_number(system)}."))
        blocks.append(Facts(tuple(facts)))
    return blocks


TABLE_HEAD = (
    "Cut",
    "Hand off the template",
    "Saw off the template",
    "Expected gap",
    "Measured gap",
)


def table_lines(cuts: tuple[TrialCut, ...], system: System) -> list[tuple[str, ...]]:
    """The table to be filled in, a cut a line."""
    lines: list[tuple[str, ...]] = []
    for cut in cuts:
        lines.append((cut.letter, WRITE_HERE, WRITE_HERE, cut.expected(system)[2], WRITE_HERE))
        if cut.wrong is not None:
            gap = written(cut.wrong.price_in, "gap", system)
            lines.append((f"{cut.letter} number", "", WRITE_HERE, gap, WRITE_HERE))
    return lines


def closing_blocks(cuts: tuple[TrialCut, ...], system: System) -> list[Block]:
    """How to read what was measured, and who did it with what."""
    within = write_gap_limit(cuts[0].answer.tolerance_in, system)
    return [
        Paragraph(
            "The expected gap is what the settings cost by being read to the divisions of square"
            f" and saw. Up to {within} more is the hand and the saw. More than that on one cut:"
            " mark it again. On all three: check the saw's tilt scale against a square at 0 and at"
            " 45, and the square itself against a line drawn from both sides."
        ),
        Facts(
            (
                ("Check bars", f"across {WRITE_HERE}  along {WRITE_HERE}"),
                ("Handsaw", f"{WRITE_HERE}{WRITE_HERE}  Circular saw {WRITE_HERE}{WRITE_HERE}"),
                ("Done by", f"{WRITE_HERE}{WRITE_HERE}  Date {WRITE_HERE}"),
            )
        ),
    ]


def in_blocks(cuts: tuple[TrialCut, ...], system: System) -> list[Block]:
    """The whole check for the terminal."""
    lines = [
        (name, f"expected gap {apart}; measured {WRITE_HERE}")
        for name, _, _, apart, _ in table_lines(cuts, system)
    ]
    return [
        Heading("Yard check", 1),
        *opening_blocks(cuts, system),
        *settings_blocks(cuts, system),
        Heading("Measured"),
        Facts(tuple(lines)),
        *closing_blocks(cuts, system),
        *(Paragraph(line) for line in CAUTION),
    ]
