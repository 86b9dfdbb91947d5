"""The blocks of words on a wrap template, and the corners that its lines go round."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import hypot
from typing import Any

import numpy as np

from figures.ink.pens import Point
from figures.wood.unroll import Traced
from figures.wrap import wrap_words as say
from figures.wrap.spread import Spread, off_paper
from figures.wrap.stations import kind
from figures.wrap.wrap_sawing import saw_heading, saw_kinds, sawing_words
from figures.wrap.wrap_steps import ends_steps, join_steps, steps
from layout.answer.answer import Answer
from layout.cuts import Hand

_ALIKE = 1e-6


@dataclass(frozen=True)
class WrapNote:
    """Words under a bold heading: about one surface, or about the sheet where it is None.

    `spare` lets them stand on the waste, `cut_by` has them lettered as what one cuts by. The
    `number` stands on the surface too, where the note itself stands off the wrap.
    """

    heading: str
    text: str
    surface: str | None = None
    spare: bool = False
    cut_by: bool = True
    number: str = ""


def notes(
    laid: Spread, *, study: bool = False, few: bool = False, shared: bool = False
) -> list[WrapNote]:
    """The notes of a wrap, those about its surfaces first; in `few` words where paper is short.

    One of a set on `shared` sheets leaves out what the first sheet says of all of them. A study
    view has none about how the paper goes on the board.
    """
    answer = laid.answer
    planes = {one.plane_index: one for one in (answer, *answer.others)}
    rip = answer.is_rip
    made = []
    second = laid.stop_short or "left face"
    told = [
        planes[index]
        for one in laid.surfaces
        if "face" in one.panel.name and one.panel.name != second
        for index in sorted({mark.plane_index for mark in one.marks})
    ]
    for one in laid.surfaces:
        name = one.panel.name
        here = [planes[index] for index in sorted({mark.plane_index for mark in one.marks})]
        if laid.part and kind(answer) == "notch" and "face" in name:
            # Both papers show parts of the same faces, and the first speaks for both.
            here = list(planes.values())
        if name == "end":
            continue
        if "edge" in name or "bevel" in name:
            if here or rip:
                made.append(WrapNote(*_edge_words(laid, one, here, few), name, spare=rip))
            continue
        side = Hand.RIGHT if name == "right face" else Hand.LEFT
        if rip:
            words = _rip_face_words(laid, one, here)
        else:
            words = say.face_words(here, side, told=told if name == second else None, few=few)
        stop = off_paper(laid)
        if stop is not None and name == laid.stop_short and laid.start_x is not None:
            arris, x = stop
            way = "head" if x > laid.start_x else "foot"
            off = x - laid.start_x
            words += " " + say.carry_on_words(arris, off, way, metric=answer.metric)
        made.append(WrapNote(name.upper(), words, name, spare=rip))
    if laid.part == 2:
        # The first paper has said what holds for the whole board.
        return [note for note in made if note.surface not in ("right face", "left face")]
    stands = (say.stands_words(answer, laid.start_x), say.backing_words(answer))
    what = " ".join(
        (*filter(None, stands), say.what_it_is(answer, study=study, few=few, shared=shared))
    )
    made.append(WrapNote("THE BOARD", what, cut_by=False))
    if study:
        return made
    if not laid.part:  # two papers have steps of their own
        start, arris = _start_words(laid)
        use = steps(kind(answer), start, arris, laid_by=laid.laid_by, few=few, shared=shared)
        made.append(WrapNote("TO USE", use, spare=True, cut_by=False))
    if sawing := sawing_words(answer):
        made.append(WrapNote(saw_heading("BY SAW", saw_kinds(answer)), sawing, spare=True))
    if answer.is_rip:
        made.append(WrapNote("END GRAIN", say.END_FLAP, "end", spare=True, cut_by=False))
    return made


def ends_notes(first: Spread, second: Spread, *, few: bool = False) -> tuple[WrapNote, WrapNote]:
    """What is to be done with the two papers of a long cut; in `few` words where room is short."""
    assert first.start_x is not None
    assert second.start_x is not None
    apart = second.start_x - first.start_x
    metric = first.answer.metric
    # Each paper has a long point of its own: on paper 1 it is that of the edge it folds over.
    one = ends_steps(*_start_words(first, of_edge=True), few=few)
    way = "head" if apart > 0 else "foot"
    two = join_steps(apart, way, second.datum[1], metric=metric, few=few)
    return (
        WrapNote("PAPER 1", one, cut_by=False),
        WrapNote("PAPER 2", two),
    )


def _start_words(laid: Spread, *, of_edge: bool = False) -> tuple[str, str]:
    """Where the start line stands, and the name of the edge to align.

    A long point is said with its edge where it is one `of_edge`, of two that are named.
    """
    _, arris = laid.datum
    if laid.start_x is None:
        return "", arris
    name = laid.stations[0].name
    point = "long point" if name == "LONG POINT" else name
    if of_edge and name == "LONG POINT":
        point = f"{point} at the {arris.split()[0]} edge"
    if name == "mark":
        point = "mark on the edge"
    far = say.distance(laid.long_from_start_in, metric=laid.answer.metric)
    way = "foot" if laid.toward > 0 else "head"  # the start line stands on the kept wood
    return f"{far} from the {point}, toward the {way}", arris


def _edge_words(laid: Spread, one: Traced, here: list[Answer], few: bool) -> tuple[str, str]:
    name = one.panel.name
    heading = name.upper()
    if laid.as_top:
        return heading, say.AS_ON_TOP
    if laid.answer.is_rip:
        hollow = laid.hollow
        planes = [laid.answer, *laid.answer.others]
        return heading, say.rip_edge_words(planes, hollow[1] if hollow else None)
    if kind(laid.answer) == "notch":
        words = say.edge_words(here, few=few)
        return heading, f"{words} {say.notch_words(laid.answer, few=few)}"
    crown = f" {say.CROWN}" if name == "top edge" else ""
    if "bevel" in name:
        side = Hand.RIGHT if name == "right bevel" else Hand.LEFT
        return heading, say.bevel_words(here, side)
    return heading, say.edge_words(here) + crown


def _rip_face_words(laid: Spread, one: Traced, here: list[Answer]) -> str:
    if not one.marks:
        return "This face keeps its arris."
    side = Hand.LEFT if one.panel.name == "left face" else Hand.RIGHT
    _, low, _, high = one.panel.box
    v = one.marks[0].line[0][1]
    fold = next(
        fold
        for fold in laid.folds
        if abs(fold.line[0][1] - low) < _ALIKE or abs(fold.line[0][1] - high) < _ALIKE
        if fold.line[0][1] == fold.line[1][1]
    )
    return say.gauge_words(here, side, abs(v - fold.line[0][1]), fold.arris)


def letters() -> Iterator[str]:
    """Letters for the corners, without I and O, which are read as figures."""
    letters = "ABCDEFGHJKLMNPQRSTUVWXYZ"
    yield from letters
    yield from (first + second for first in letters for second in letters)


MarkEnd = tuple[str, Point, Point]
"""A panel, the end of a mark on it, and the way from there along the mark (a unit vector)."""


def corners(laid: Spread) -> list[list[MarkEnd]]:
    """The mark ends that meet on the board when the paper is folded, from the start line on."""
    ends: list[tuple[Any, MarkEnd]] = []
    for one in laid.surfaces:
        for mark in one.marks:
            if _lies_on_fold(laid, mark.line):
                continue
            for here, there in (mark.line, mark.line[::-1]):
                length = hypot(there[0] - here[0], there[1] - here[1])
                way = (there[0] - here[0]) / length, (there[1] - here[1]) / length
                ends.append((one.panel.board(here), (one.panel.name, here, way)))
    groups: list[list[MarkEnd]] = []
    used: set[int] = set()
    for i, (place, _) in enumerate(ends):
        if i in used:
            continue
        same = [
            j
            for j in range(i, len(ends))
            if j not in used and float(np.abs(ends[j][0] - place).max()) < 1e-6
        ]
        used.update(same)
        panels = {ends[j][1][0]: ends[j][1] for j in same}
        if len(panels) > 1:
            groups.append(list(panels.values()))
    return groups


def _lies_on_fold(laid: Spread, line: tuple[Point, Point]) -> bool:
    (_, v), (_, w) = line
    return any(
        abs(fold.line[0][1] - v) < _ALIKE and abs(fold.line[1][1] - w) < _ALIKE
        for fold in laid.folds
    )
