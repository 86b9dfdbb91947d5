"""The blocks of words on a wrap template, and the corners that its lines go round."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import hypot
from typing import Any

import numpy as np

from figures.ink.pens import Point
from figures.wood.unroll import Traced
from figures.wrap import wrap_words as say
from figures.wrap.spread import EDGES, Spread, kind, off_paper
from layout.answer.answer import Answer
from layout.cuts import Hand

_ALIKE = 1e-6


@dataclass(frozen=True)
class Block:
    """Words under a bold heading, and the panels they may stand on, the best first."""

    heading: str
    text: str
    panels: tuple[str, ...]
    spare: bool = False
    """True where the waste will do if the kept wood is full."""


def blocks(laid: Spread, *, study: bool = False) -> list[Block]:
    """The blocks of words of a wrap, those with the least choice first.

    A study view has none about how the paper goes on the board.
    """
    answer = laid.answer
    planes = {one.which: one for one in (answer, *answer.others)}
    rip = answer.is_rip
    made = []
    second = laid.stop_short or "left face"
    planes_alike = len(planes) == 1
    faces = tuple(name for name in ("right face", "left face") if name in laid.by_name)
    for one in laid.surfaces:
        name = one.panel.name
        here = [planes[which] for which in sorted({mark.which for mark in one.marks})]
        if name == "end":
            continue
        if "edge" in name or "bevel" in name:
            made.append(Block(*_edge_words(laid, one, here), (name, *faces), spare=rip))
            continue
        side = Hand.RIGHT if name == "right face" else Hand.LEFT
        if rip:
            words = _rip_face_words(laid, one, here)
        else:
            words = say.face_words(here, side, short=name == second and planes_alike)
        stop = off_paper(laid)
        if stop is not None and name == laid.stop_short and laid.start_x is not None:
            arris, x = stop
            way = "head" if x > laid.start_x else "foot"
            words += " " + say.carry_on_words(arris, x - laid.start_x, way)
        made.append(Block(name.upper(), words, (name, *faces) if rip else (name,), spare=rip))
    panels = (*faces, *(name for name in laid.by_name if name in EDGES))
    stands = (say.stands_words(answer, laid.start_x), say.backing_words(answer))
    what = " ".join((*filter(None, stands), say.what_it_is(answer, study=study)))
    made.append(Block(say.title(answer), what, panels))
    if study:
        return made
    use = say.steps(kind(answer), *_start_words(laid))
    made.append(Block("TO USE", use, panels, spare=True))
    if sawing := say.sawing_words(answer):
        made.append(Block("BY SAW", sawing, panels, spare=True))
    if answer.is_rip:
        made.append(Block("END GRAIN", say.END_FLAP, ("end", *panels), spare=True))
    return made


def _start_words(laid: Spread) -> tuple[str, str]:
    """Where the start line stands, and the name of the edge to align."""
    _, arris = laid.datum
    if laid.start_x is None:
        return "", arris
    name = laid.stations[0].name
    point = "long point" if name == "LONG POINT" else name
    if name == "mark":
        point = "mark on the edge"
    return f"{say.distance(laid.long_from_start_in)} back from the {point}", arris


def _edge_words(laid: Spread, one: Traced, here: list[Answer]) -> tuple[str, str]:
    name = one.panel.name
    heading = name.upper()
    if laid.answer.is_rip:
        hollow = laid.hollow
        planes = [laid.answer, *laid.answer.others]
        return heading, say.rip_edge_words(planes, hollow[1] if hollow else None)
    if kind(laid.answer) == "notch":
        return heading, f"{say.edge_words(here)} {say.notch_words(laid.answer)}"
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


End = tuple[str, Point, Point]
"""A panel, the end of a mark on it, and the way from there along the mark (a unit vector)."""


def corners(laid: Spread) -> list[list[End]]:
    """The mark ends that meet on the board when the paper is folded, from the start line on."""
    ends: list[tuple[Any, End]] = []
    for one in laid.surfaces:
        for mark in one.marks:
            if _lies_on_fold(laid, mark.line):
                continue
            for here, there in (mark.line, mark.line[::-1]):
                length = hypot(there[0] - here[0], there[1] - here[1])
                way = (there[0] - here[0]) / length, (there[1] - here[1]) / length
                ends.append((one.panel.board(here), (one.panel.name, here, way)))
    groups: list[list[End]] = []
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
