"""A reader of a template's words: the text of the PDF alone, in the order in which it is printed.

It takes each face's sentences, the edge's, and those on the saw, and builds from each the plane
that a carpenter would cut, with the reader of `mark`'s words for what a sentence means. Rips and
notches have readers of their own.
"""

import re

import numpy as np

from tests.readers.template_notches import SHOE, read_notch
from tests.readers.template_rips import read_rip
from tests.readers.template_text import against, mates, plain, runs, sections
from tests.readers.words import (
    DEG,
    Pass,
    PlaneRead,
    TwoReadingsError,
    UnreadError,
    edge_line,
    face_line,
    out_of_kept,
    swept,
    travels,
    unit,
)

FACE = re.compile(
    rf"Face mark (?:{DEG} from square across, top toward the (head|foot)|square across)\."
)
EDGE = re.compile(
    rf"Edge mark (?:{DEG} from square across, left end toward the (head|foot)|(square across))\."
)
EDGES = re.compile(
    rf"Edge marks {DEG} from square across, from the middle back toward the (head|foot)\."
)
HAND = re.compile(r"(LEFT|RIGHT)-HAND cut: .*?; the cheek faces (left|right)\.")
TITLE = re.compile(r"[a-z-]+, (?:(?:left|right) hand, )?(head|foot|along the board)\b")
REMAINS = re.compile(
    rf"run the shoe on the (top edge|bottom edge), along the edge mark, tilt {DEG}"
)
SAME = 1e-3


def read_template(text: str) -> tuple[str | None, dict[str, np.ndarray]]:
    """The hand, and the planes that the paper asks for, as unit normals.

    A plane goes by its mate's name where the sheet names several, else by the face it is sawn
    from.
    """
    text = plain(text)
    said = sections(text)
    title = TITLE.search(text)
    if title is None:
        raise UnreadError("the template does not say which end it is for")
    if title[1] == "along the board":
        return read_rip(said, text)
    if "The notch is" in text:
        return read_notch(said, text, title[1])
    return read_cheeks(said, text, title[1])


def read_cheeks(
    said: dict[str, str], text: str, end: str
) -> tuple[str | None, dict[str, np.ndarray]]:
    """One plane, or two cheeks, each on its own face."""
    hand = HAND.search(text)
    if hand is not None and hand[1].lower() != hand[2]:
        raise TwoReadingsError(hand[0])
    ways = runs(said["BY SAW"])
    ridden = {way.surface: (mate, way) for mate, way in ways}
    edges = [(mate, way) for mate, way in ways if way.surface.endswith("edge")]
    planes: dict[str, np.ndarray] = {}
    checked = 0
    marked = next((FACE.search(said[f"{side} FACE"]) for side in ("RIGHT", "LEFT")), None)
    for side in ("right", "left"):
        mate, way = ridden.get(f"{side} face", (None, None))
        words = against(said[f"{side.upper()} FACE"], mate)
        line, shoe = FACE.search(words) or marked, SHOE.search(words)
        if line is None or shoe is None:
            continue
        plane = PlaneRead(
            face_deg=float(line[1] or 0.0),
            face_top=line[2],
            waste_end=end,
            faces=hand and hand[2],
        )
        one = Pass(f"{side} face", float(shoe[1]), shoe[2], shoe[3])
        if way:
            one.wide, one.starts = way.wide, way.starts
            travels(one, face_line(plane), plane)
        found = swept(one, face_line(plane), plane)
        if mate is None:
            mate = _mate_of(found, plane, said["TOP EDGE"], side)
        check_edge(found, plane, against(said["TOP EDGE"], mate), side)
        for name, way in edges:
            if name in (mate, None):
                check_pass(way, found, plane, words)
                checked += 1
        planes[mate or side] = found
    if not ways and "out of reach" not in text.lower():
        raise UnreadError("nothing says where the saw starts")
    if checked < len(edges):
        raise UnreadError("a pass on the edge without a plane")
    return (hand[2] if hand else None), planes


def check_pass(way: Pass, found: np.ndarray, plane: PlaneRead, words: str) -> None:
    """A pass with the shoe on the edge, along the edge's mark, cuts the plane of the marks."""
    if plane.edge_deg is None:
        raise UnreadError("a pass along an edge that bears no mark")
    travels(way, edge_line(plane), plane)
    if np.abs(swept(way, edge_line(plane), plane) - found).max() > SAME:
        raise TwoReadingsError(f"the pass on the {way.surface} cuts another plane")
    for surface, tilt in REMAINS.findall(words):
        if (surface, float(tilt)) != (way.surface, way.tilt):
            raise TwoReadingsError(f"two passes on an edge: {surface} and {way.surface}")


def _mate_of(found: np.ndarray, plane: PlaneRead, edge: str, side: str) -> str | None:
    """The mate whose mark on the edge lies in this plane, where the edge's words name mates."""
    fits = []
    for mate in mates(edge):
        try:
            check_edge(found, plane, against(edge, mate), side)
        except TwoReadingsError:
            continue
        fits.append(mate)
    if mates(edge) and len(fits) != 1:
        raise TwoReadingsError(f"the edge's mark of the plane on the {side} face: {fits}")
    return fits[0] if fits else None


def check_edge(found: np.ndarray, plane: PlaneRead, words: str, side: str) -> None:
    """The edge's mark and the face's lie in the plane of the saw."""
    if one := EDGE.search(words):
        plane.edge_deg, plane.edge_left = float(one[1] or 0.0), one[2]
    elif both := EDGES.search(words):
        back = {"head": "foot", "foot": "head"}[both[2]]
        plane.edge_deg, plane.edge_left = float(both[1]), both[2] if side == "left" else back
    else:
        return
    by_hand = out_of_kept(unit(np.cross(face_line(plane), edge_line(plane))), plane)
    if np.abs(by_hand - found).max() > SAME:
        raise TwoReadingsError(f"on the {side} face marks and saw give two planes")
