"""A reader of a template's words: the text of the PDF alone, in the order in which it is printed.

It takes each face's sentences, the edge's, and those on the saw, and builds from each the plane
that a carpenter would cut, with the reader of `mark`'s words for what a sentence means.
"""

import re

import numpy as np

from tests.readers.words import (
    DEG,
    Pass,
    PlaneRead,
    TwoReadingsError,
    UnreadError,
    edge_line,
    face_line,
    one_reading,
    out_of_kept,
    swept,
    travels,
    unit,
)

HEADINGS = (
    "RIGHT FACE",
    "LEFT FACE",
    "TOP EDGE",
    "TO USE",
    "BY SAW",
    "FOOT HEAD",
    "THE BOARD",
    "FOR TRAINING",
    "WARNING",
    "NOTICE",
)
FACE = re.compile(
    rf"Face mark (?:{DEG} from square across, top toward the (head|foot)|square across)\."
)
EDGE = re.compile(rf"Edge mark {DEG} from square across, left end toward the (head|foot)\.")
EDGES = re.compile(
    rf"Edge marks {DEG} from square across, from the middle back toward the (head|foot)\."
)
SHOE = re.compile(
    rf"Saw, shoe on this face: tilt {DEG}; (?:below the shoe the blade runs in under the"
    r" (kept wood|waste), toward the (head|foot)|the blade stands square to its shoe)\."
)
START = re.compile(
    r"(?:Against ([a-z' ]+): )?Shoe on the (left|right) face"
    r"(?:, wide side of the shoe on the (kept wood|waste)[^.]*)?\."
    r" Start at the (top edge|bottom edge) with a (blade-left|blade-right) saw, at the (top edge|"
    r"bottom edge) with a (blade-left|blade-right) saw\."
)
HAND = re.compile(r"(LEFT|RIGHT)-HAND cut: .*?; the cheek faces (left|right)\.")
TITLE = re.compile(r"[a-z-]+, (?:(?:left|right) hand, )?(head|foot)\b")


def read_template(text: str) -> tuple[str | None, dict[str, np.ndarray]]:
    """The hand, and the plane that each face of the paper asks for, as unit normals."""
    text = " ".join(text.split())
    one_reading(text)
    said = sections(text)
    hand = HAND.search(text)
    if hand is not None and hand[1].lower() != hand[2]:
        raise TwoReadingsError(hand[0])
    end = TITLE.search(text)
    if end is None:
        raise UnreadError("the template does not say which end it is for")
    starts = {match[2]: match for match in START.finditer(said["BY SAW"])}
    planes: dict[str, np.ndarray] = {}
    marked = next((FACE.search(said[f"{side} FACE"]) for side in ("RIGHT", "LEFT")), None)
    for side in ("right", "left"):
        start = starts.get(side)
        mate = start and start[1]
        words = against(said[f"{side.upper()} FACE"], mate)
        line, shoe = FACE.search(words) or marked, SHOE.search(words)
        if line is None or shoe is None:
            continue
        plane = PlaneRead(
            face_deg=float(line[1] or 0.0),
            face_top=line[2],
            waste_end=end[1],
            faces=hand and hand[2],
        )
        one = Pass(f"{side} face", float(shoe[1]), shoe[2], shoe[3])
        if start:
            one.wide, one.starts = start[3], {start[5]: start[4], start[7]: start[6]}
            travels(one, face_line(plane), plane)
        found = swept(one, face_line(plane), plane)
        check_edge(found, plane, against(said["TOP EDGE"], mate), side)
        planes[side] = found
    if not starts and "out of reach" not in text:
        raise UnreadError("nothing says where the saw starts")
    return (hand[2] if hand else None), planes


def check_edge(found: np.ndarray, plane: PlaneRead, words: str, side: str) -> None:
    """The edge's mark and the face's lie in the plane of the saw."""
    if one := EDGE.search(words):
        plane.edge_deg, plane.edge_left = float(one[1]), one[2]
    elif both := EDGES.search(words):
        back = {"head": "foot", "foot": "head"}[both[2]]
        plane.edge_deg, plane.edge_left = float(both[1]), both[2] if side == "left" else back
    else:
        return
    by_hand = out_of_kept(unit(np.cross(face_line(plane), edge_line(plane))), plane)
    if np.abs(by_hand - found).max() > 1e-3:
        raise TwoReadingsError(f"on the {side} face marks and saw give two planes")


def against(words: str, mate: str | None) -> str:
    """What is said of the plane against one mate, where a panel speaks of several."""
    pieces = re.split(r"Against ([a-z' ]+): ", words)
    said = dict(zip(pieces[1::2], pieces[2::2], strict=True))
    return said.get(mate or "", words)


def sections(text: str) -> dict[str, str]:
    """The words under each heading, up to the next one."""
    places = sorted(
        (match.start(), name) for name in HEADINGS for match in [_last(name, text)] if match
    )
    ends = [start for start, _ in places[1:]] + [len(text)]
    found = dict.fromkeys(HEADINGS, "")
    for (start, name), end in zip(places, ends, strict=True):
        found[name] = text[start + len(name) : end]
    return found


def _last(name: str, text: str) -> re.Match[str] | None:
    """Where a heading stands: a sentence begins after it, and not another name on the paper."""
    return next(re.finditer(rf"\b{name} (?=[A-Z][a-z]|LEFT-HAND|RIGHT-HAND)", text), None)
