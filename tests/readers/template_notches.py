"""A reader of a notch's template: two or three planes on each face, each by its mate's name."""

import re

import numpy as np

from tests.readers.template_text import against, mates, runs
from tests.readers.words import (
    DEG,
    NOTCH_OPENS_AT,
    Pass,
    PlaneRead,
    TwoReadingsError,
    UnreadError,
    edge_line,
    face_line,
    notch_waste,
    out_of_kept,
    swept,
    travels,
    unit,
)

FACE = re.compile(rf"Face mark {DEG} from square across, top toward the (head|foot)\.")
EDGE = re.compile(
    rf"Edge mark (?:{DEG} from square across, left end toward the (head|foot)|square across)\."
)
SHOE = re.compile(
    rf"(?:Saw, shoe on this face: tilt|A saw, shoe on this face, would tilt) {DEG};"
    r" (?:below the shoe the blade runs in under the"
    r" (kept wood|waste), toward the (head|foot)|the blade stands square to its shoe)\."
)
HAND = re.compile(
    r"(LEFT|RIGHT)-HAND cut: stand at the foot, look toward the head; the cheek against"
    r" ([a-z' ]+) faces (left|right)\. The cut against ([a-z' ]+) runs square through the"
    r" thickness\."
)
BY_HANDSAW = "Saw along the face mark and the edge mark with a handsaw."
NO_HAND = "No hand: the cut runs square through the thickness."
SAME = 1e-3
SIDES = ("right", "left")


def read_notch(said: dict[str, str], text: str, end: str) -> tuple[str | None, dict]:
    """The hand, and the planes by their mates."""
    ways = runs(said["BY SAW"])
    faces = {side: said[f"{side.upper()} FACE"] for side in SIDES}
    names = mates(" ".join((faces["right"], faces["left"], said["BY SAW"])))
    planes = {mate: _marked(mate, faces, said["BOTTOM EDGE"]) for mate in names}
    notch_waste(list(planes.values()))
    if end != next(iter(planes.values())).waste_end:
        raise TwoReadingsError(f"a cut at the {end}, whose first plane's waste lies elsewhere")
    normals: dict[str, np.ndarray] = {}
    for mate, plane in planes.items():
        line = face_line(plane)
        normals[mate] = out_of_kept(unit(np.cross(line, edge_line(plane))), plane)
        told = {way.surface: way for name, way in ways if name in (mate, None)}
        ridden = 0
        for side in SIDES:
            shoe = SHOE.search(against(faces[side], mate))
            if shoe is None:
                continue
            one = Pass(f"{side} face", float(shoe[1]), shoe[2], shoe[3])
            if way := told.get(one.surface):
                ridden += 1
                one.wide, one.starts = way.wide, way.starts
                if NOTCH_OPENS_AT not in one.starts.values():
                    raise TwoReadingsError(f"a notch is sawn from its open edge: {one.starts}")
                travels(one, line, plane)
            if np.abs(swept(one, line, plane) - normals[mate]).max() > SAME:
                raise TwoReadingsError(f"against {mate} marks and saw give two planes")
        sawing = said["BY SAW"]
        if not ridden and sawing and not against(sawing, mate).startswith(BY_HANDSAW):
            raise UnreadError(f"against {mate} nothing says where the saw starts")
    return _hand(text, normals), normals


def _marked(mate: str, faces: dict[str, str], edge_words: str) -> PlaneRead:
    lines = {found.groups() for one in SIDES if (found := FACE.search(against(faces[one], mate)))}
    if len(lines) != 1:
        raise TwoReadingsError(f"against {mate} the faces' marks are {lines}")
    degrees, top = lines.pop()
    edge = EDGE.search(against(edge_words, mate))
    if edge is None:
        raise UnreadError(f"against {mate} no mark on the edge")
    return PlaneRead(
        face_deg=float(degrees), face_top=top, edge_deg=float(edge[1] or 0.0), edge_left=edge[2]
    )


def _hand(text: str, normals: dict[str, np.ndarray]) -> str | None:
    hand = HAND.search(text)
    if hand is None:
        if NO_HAND not in text or any(abs(normal[1]) > SAME for normal in normals.values()):
            raise TwoReadingsError("no hand, and yet a cheek")
        return None
    side = "left" if normals[hand[2]][1] > 0 else "right"
    if not hand[1].lower() == hand[3] == side or abs(normals[hand[4]][1]) > SAME:
        raise TwoReadingsError(hand[0])
    return side
