"""A reader of a rip's template: lines gauged along the board, and what becomes of the edge."""

import re

import numpy as np

from tests.readers.template_text import runs, size_of
from tests.readers.words import (
    DEG,
    OUT,
    Pass,
    PlaneRead,
    TwoReadingsError,
    UnreadError,
    out_of_kept,
    swept,
    travels,
    unit,
)

HAND = re.compile(
    r"(LEFT|RIGHT)-HAND rip: stand at the foot, look toward the head; the bevel faces"
    r" (left|right)\."
)
LINE = re.compile(
    r"(?:Gauge line [\d /]+ in \(([\d.]+)\) from the|The line is the) (top|bottom) arris of the"
    rf" (left|right) face(?: itself)?\. (?:Saw along it, shoe on this face: tilt"
    rf"|A saw along it, shoe on this face, would tilt) {DEG}; below the"
    r" shoe the blade runs in under the (kept wood|waste), toward the (top edge|bottom edge)\."
)
WHOLE = re.compile(
    r"The whole edge is waste: [\d /]+ in \(([\d.]+)\) across, falling [\d /]+ in \(([\d.]+)\)"
    r" toward the (left|right) face\."
)
HOLLOW = re.compile(
    r"The whole edge is waste: hollow it [\d /]+ in \(([\d.]+)\) deep under the thin line\."
)
CROWN = "Both bevels meet in the line that stays; all else of this edge is waste."
GAUGED = 0.003
"""Gauge lines are printed to a thousandth [in]; two of them and an angle leave a little more."""
SAME = 1e-3


def read_rip(said: dict[str, str], text: str) -> tuple[str, dict[str, np.ndarray]]:
    """The hand, and the planes by their mates, or by the faces where the sheet names no mate."""
    hand = HAND.search(text)
    if hand is None or hand[1].lower() != hand[2]:
        raise TwoReadingsError(f"the hand of the rip: {hand and hand[0]!r}")
    thickness, depth = size_of(text)
    edges = [
        name
        for name in ("top edge", "bottom edge")
        if re.search(r"edge is waste", said[name.upper()])
    ]
    if len(edges) != 1:
        raise UnreadError(f"the edge that is ripped: {edges}")
    edge, ways = edges[0], runs(said["BY SAW"])
    words = said[edge.upper()]
    plane = PlaneRead(waste_edge=edge)
    on: dict[str, np.ndarray] = {}
    points: dict[str, np.ndarray] = {}
    for side in ("right", "left"):
        line = LINE.search(said[f"{side.upper()} FACE"])
        if line is None:
            raise UnreadError(f"no line along the {side} face")
        if (f"{line[2]} edge", line[3]) != (edge, side):
            raise TwoReadingsError(line[0])
        down = float(line[1] or 0.0)
        z = depth - down if edge == "top edge" else down
        points[side] = np.array([0.0, thickness if side == "left" else 0.0, z])
        one = Pass(f"{side} face", float(line[4]), line[5], line[6])
        for _, way in ways:
            if way.surface == one.surface:
                one.wide, one.starts = way.wide, way.starts
        travels(one, OUT["head"], plane)
        on[side] = swept(one, OUT["head"], plane)
    _edge_agrees(words, on, points, (thickness, depth), plane)
    for _, way in ways:
        if way.surface.endswith("edge"):
            if way.surface != edge or WHOLE.search(words) is None:
                raise UnreadError(f"a rip with the shoe on the {way.surface}")
            falls = PlaneRead(waste_edge=edge, faces="left" if on["left"][1] > 0 else "right")
            travels(way, OUT["head"], falls)
            if np.abs(swept(way, OUT["head"], falls) - on["left"]).max() > SAME:
                raise TwoReadingsError(f"the pass on the {way.surface} cuts another plane")
    named = {mate: on[way.surface.split()[0]] for mate, way in ways if mate is not None}
    planes = named or on
    first = next(iter(planes.values()))
    if (first[1] > 0) != (hand[2] == "left"):
        raise TwoReadingsError(f"the bevel is said to face {hand[2]}")
    return hand[2], planes


def _edge_agrees(
    words: str,
    on: dict[str, np.ndarray],
    points: dict[str, np.ndarray],
    size: tuple[float, float],
    plane: PlaneRead,
) -> None:
    """The lines on the faces, the saw's planes through them and the edge's words are one rip."""
    thickness, depth = size
    level = depth if plane.waste_edge == "top edge" else 0.0
    if whole := WHOLE.search(words):
        low = points[whole[3]][2]
        high = points["right" if whole[3] == "left" else "left"][2]
        across = points["left"] - points["right"]
        gauged = out_of_kept(unit(np.cross(OUT["head"], across)), plane)
        if (
            abs(float(whole[1]) - thickness) > GAUGED
            or abs(abs(low - level) - float(whole[2])) > GAUGED
            or abs(high - level) > GAUGED
            or any(np.abs(each - gauged).max() > SAME for each in on.values())
        ):
            raise TwoReadingsError(f"the faces' lines are of another rip than {whole[0]!r}")
        return
    hollow = HOLLOW.search(words)
    if hollow is None and CROWN not in words:
        raise UnreadError(f"what becomes of the edge: {words!r}")
    # Two bevels: where their planes meet, seen along the board.
    sides = ("right", "left")
    rows = np.array([on[side][1:] for side in sides])
    _, z = np.linalg.solve(rows, [on[side] @ points[side] for side in sides])
    deep = float(hollow[1]) if hollow else 0.0
    if abs(abs(level - z) - deep) > GAUGED:
        raise TwoReadingsError(f"both bevels meet {abs(level - z):.3f} in from the edge")
