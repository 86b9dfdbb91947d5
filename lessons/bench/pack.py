"""Answers packed for the page: at every step of every slider, what `mark` says and more.

The script that draws computes no mark and no setting. Each step carries its planes in board
axes, the marks' angles and numbers, the sentences, the verdict, and for every known mistake the
plane it cuts and the gap it leaves. Lines that many steps share are kept once.

A packed cut is JSON, deflated, in base64: a page of every cut stays small enough to send.
"""

import base64
import json
import zlib
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from typing import Any

from layout.answer.answer import Answer, Mark, answer
from layout.answer.senses import check_rip
from layout.answer.wording import number_words, short_answer
from layout.cuts import End, Entry, Hand
from layout.errors import LayoutError
from layout.quantity import write_degrees
from layout.stock import read_stock
from layout.vector import Array
from lessons.bench.steps import Slider, SliderStep, boards, hands, steps
from lessons.mistakes.cut_mistakes import made_on, mistakes
from lessons.say.contract import JsonObject
from lessons.say.units import System, written
from lessons.say.words import read_aloud

DIGITS = 7
"""Decimals of a packed direction: far finer than a line is drawn, or a gap is read."""


@dataclass
class Lines:
    """Sentences, each kept once, and the place it is kept at."""

    kept: dict[str, int]

    def place(self, line: str) -> int:
        """The place of a line, which is entered if it is new."""
        return self.kept.setdefault(line, len(self.kept))


def packed_cut(entry: Entry, end: End, only: Iterable[Slider] | None = None) -> JsonObject:
    """Everything that the page knows of one cut at one end of its stick.

    `only` names the sliders that are packed, all of them if none is named.
    """
    lines = Lines({})
    sliders = {
        name: [_step(step, entry, end, lines) for step in places]
        for name, places in steps(entry).items()
        if only is None or name in only
    }
    return {
        "boards": [_board_size(board) for board in boards(entry)],
        "hands": [hand.value for hand in hands(entry)],
        "eyes": {hand.value: _eye(entry, end, hand) for hand in hands(entry)},
        "sliders": sliders,
        "lines": list(lines.kept),
    }


def deflated(packed: Any) -> str:
    """Packed data as it stands in the page: JSON, deflated without a header, in base64."""
    text = json.dumps(packed, separators=(",", ":"), ensure_ascii=False)
    squeezed = zlib.compressobj(9, zlib.DEFLATED, -15)
    return base64.b64encode(squeezed.compress(text.encode()) + squeezed.flush()).decode()


def inflated(text: str) -> Any:
    """What `deflated` packed.

    >>> inflated(deflated({"tilt": 45.0}))
    {'tilt': 45.0}
    """
    return json.loads(zlib.decompress(base64.b64decode(text), -15))


@cache
def mistake_places() -> dict[str, int]:
    """Every known mistake by name, with its place in the page's list."""
    return {name: place for place, name in enumerate(mistakes())}


def mistake_list() -> list[JsonObject]:
    """What every known mistake does, and why it is one, in the order of `mistake_places`."""
    return [
        {"name": name, "does": mistakes()[name].does, "why": mistakes()[name].why}
        for name in mistake_places()
    ]


def _board_size(board: str) -> JsonObject:
    stock = read_stock(board)
    return {"name": board, "thick": stock.thickness_in, "deep": stock.depth_in}


def _eye(entry: Entry, end: End, hand: Hand) -> list[float]:
    """Where the pictorial is seen from at first: a direction in the world toward the eye."""
    from figures.pictures.pictorial import camera

    usual = next(step for step in steps(entry)["pitch"] if step.pitch == "8 in 12")
    view = camera(answer(usual.question(entry, end, hand, boards(entry)[0])))
    return rounded(view.toward)


def _step(step: SliderStep, entry: Entry, end: End, lines: Lines) -> JsonObject:
    packed: JsonObject = {"said": step.said}
    for hand in hands(entry):
        names = boards(entry) if step.slider == "pitch" else boards(entry)[:1]
        try:
            answers = [answer(step.question(entry, end, hand, name)) for name in names]
            packed[hand.value] = _hand(answers, lines)
        except LayoutError as error:
            packed[hand.value] = {"refused": str(error)}
    return packed


def _hand(answers: list[Answer], lines: Lines) -> JsonObject:
    """One hand at one step: what is the same on every board, and what is not."""
    packed = packed_joint(answers[0])
    packed["short"] = lines.place(short_answer(answers[0]))
    packed["boards"] = [_on_board(one, lines) for one in answers]
    return packed


def packed_joint(first: Answer) -> JsonObject:
    """What is drawn of a joint on any board: its planes in board axes, and its marks."""
    joint = first.question.joint
    return {
        "axes": [rounded(row) for row in joint.pose.axes],
        "normals": [rounded(cut.normal) for cut in first.cuts],
        "point": joint.point,
        "rip": first.is_rip,
        "mate": first.plane.mate_name,
        "face": packed_mark(first.face),
        "edge": packed_mark(first.edge),
        "tilt": write_degrees(float(first.cut.face_tilt_deg)),
    }


def packed_mark(mark: Mark) -> JsonObject:
    """A mark as the square lays it: the numbers as they are read, and the arm to mark along."""
    packed: JsonObject = {"said": write_degrees(mark.from_square_deg)}
    if mark.numbers is not None:
        pair = mark.numbers.as_read(mark.parts)
        packed |= {"on": pair.mark, "over": pair.other, "arm": pair.mark_arm}
        packed["numbers"] = [number_words(pair.mark), number_words(pair.other)]
    return packed


def _on_board(true_answer: Answer, lines: Lines) -> JsonObject:
    try:
        check_rip(true_answer)
    except LayoutError as error:
        return {"refused": str(error)}
    return {
        **packed_section(true_answer),
        "said": [lines.place(line) for line in read_aloud(true_answer).splitlines()],
        "agree": true_answer.agree,
        "made": [
            {
                "which": mistake_places()[made.mistake.name],
                "normal": rounded(made.setting.normal),
                "gap": written(made.price_in, "gap", System.INCH),
                "says": lines.place(made.says(written(made.price_in, "gap", System.INCH))),
            }
            for made in made_on(true_answer)
        ],
    }


def packed_section(true_answer: Answer) -> JsonObject:
    """Where the planes cross a board's section, and the part of it that each one shapes."""
    return {
        "points": [rounded(cut.point, 5) for cut in true_answer.cuts],
        "spans": [[rounded(side, 5) for side in cut.span] for cut in true_answer.cuts],
    }


def packed_scene(true_answer: Answer) -> JsonObject:
    """One answer as it is drawn by itself, outside the sliders: the joint on its own board."""
    stock = true_answer.question.stock
    return {
        "half": packed_joint(true_answer),
        "board": packed_section(true_answer),
        "thick": stock.thickness_in,
        "deep": stock.depth_in,
    }


def rounded(values: Array, digits: int = DIGITS) -> list[float]:
    """Numbers as they are packed, whole ones without a fraction."""
    found = []
    for value in values:
        short = round(float(value), digits)
        found.append(int(short) if short == int(short) else short)
    return found
