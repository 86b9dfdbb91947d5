"""A reader of a lesson: the printed steps BY HANDSAW and BY SAW, and nothing else.

It lays the square by the numbers it is given, follows each mark the way it is said to slant, sets
the saw, and so builds the plane of each method, with `words` for what a sentence means.
"""

import re

import numpy as np

from tests.readers.words import (
    DEG,
    LEN,
    LOOSE,
    Pass,
    PlaneRead,
    TwoReadingsError,
    UnreadError,
    edge_line,
    face_line,
    number,
    one_reading,
    out_of_kept,
    swept,
    travels,
    unit,
)

HAIR = r"(?: shy| strong)?"
"""A hair under or over the sixteenth that is named."""
MARK = re.compile(
    rf"{LEN}{HAIR} on the blade(?: and|,) {LEN}{HAIR} on the tongue"
    r"(?:(?! on the tongue).){0,200}?"
    r"[Mm]ark (?:the (?P<known>level|plumb) \w+ )?along the (?P<arm>blade|tongue)"
    r"(?:, which carries the (?P<carries>run|rise))?[;.](?: This is the (?:face|edge) mark:)?"
    r" its (?P<part>top|left end) slants toward the (?P<way>head|foot)"
)
TILT = re.compile(
    rf"(?:[Ss]et the tilt(?: \(the saw's bevel setting\))? to|a tilt of|saw half from each, tilt)"
    rf" {DEG}"
)
PASS = re.compile(
    r"(?:shoe on the|[Ff]rom the|[Oo]n the|[Rr]ide the) (left|right) face"
    r"(?: it is the other way)?[:,] below the shoe the blade runs in under the (kept wood|waste),"
    r" toward the (head|foot)"
)
STEADY = re.compile(r"[Rr]ide the (?:shoe on the )?(left|right) face")
WIDE = re.compile(r"wide side of the shoe on the (kept wood|waste)")
START = re.compile(
    r"start at the (top edge|bottom edge) with a (blade-left|blade-right) saw, at the (top edge|"
    r"bottom edge) with a (blade-left|blade-right) saw"
)
FROM_BOTH = "On the other face start at the same edge."
WASTE = re.compile(r"The waste lies toward the (head|foot)")
BELOW_THE_MARK = re.compile(
    r"Cut along the face mark from the bottom edge\. Stop short of the heel's mark, let the blade"
    r" stop, and finish with a handsaw\."
    r" The waste is the notch below the mark\."
)
IN_A_ROOF = {("level", "run", "foot"), ("plumb", "rise", "head")}
"""The head is a rafter's upper end: so a plumb line's top is nearer the head, a level line's the
foot (common practice, no source)."""
OTHER_ARM = re.compile(r"Along the (blade|tongue) you would mark a (plumb|level) cut\.")
HAND = re.compile(
    r"(LEFT|RIGHT)-HAND (?:cut|rip): stand at the foot, look toward the head; the"
    r" (?:cheek(?: against [a-z' ]+)?|bevel) faces (left|right)\."
)
SHIFT = re.compile(
    rf"mark on the (left|right) face lies nearer the (head|foot) than the one on the"
    rf" (left|right) face, by {LEN} in"
)
BY_HANDSAW_ALONE = "saw along the face mark and the edge mark with a handsaw"
NO_CHEEK = re.compile(r"\b(?:this cut|the seat) has no cheek\b")


def steps_of(text: str) -> str:
    """The steps, on one line, their numbers taken out."""
    if "BY HANDSAW" not in text or "DO THEY FIT?" not in text:
        raise UnreadError("the lesson has no steps")
    part = text[text.index("\nBY HANDSAW") : text.index("\nDO THEY FIT?")]
    return " ".join(re.sub(r"^\s*\d+\. ", "", part, flags=re.MULTILINE).split())


def read_lesson(text: str, thickness: float) -> tuple[str | None, np.ndarray]:
    """The hand and the unit normal that the steps give, by handsaw and by saw alike."""
    said = steps_of(text)
    one_reading(said)
    hand = HAND.search(" ".join(text.split()))
    if hand is not None and hand[1].lower() != hand[2]:
        raise TwoReadingsError(hand[0])
    plane = PlaneRead(faces=hand[2] if hand else None)
    if waste := WASTE.search(said):
        plane.waste_end = waste[1]
    elif BELOW_THE_MARK.search(said):
        plane.waste_edge, plane.faces = "bottom edge", None
    else:
        raise UnreadError("the steps do not say where the waste lies")
    for match in MARK.finditer(said):
        blade, tongue = number(match[1]), number(match[2])
        degrees = laid(blade, tongue, match["arm"])
        if match["known"] and (match["known"], match["carries"], match["way"]) not in IN_A_ROOF:
            raise TwoReadingsError(match[0])
        if (other := OTHER_ARM.search(said)) and (other[1], other[2]) != (
            "blade" if match["arm"] == "tongue" else "tongue",
            "plumb" if match["known"] == "level" else "level",
        ):
            raise TwoReadingsError(other[0])
        if match["part"] == "top":
            plane.face_deg, plane.face_top = degrees, match["way"]
        else:
            plane.edge_deg, plane.edge_left = degrees, match["way"]
    if plane.face_deg is None:
        raise UnreadError("the steps lay no face mark")
    if plane.edge_deg is None and NO_CHEEK.search(said):
        plane.edge_deg = 0.0
    if plane.edge_deg is None:
        raise UnreadError("the steps lay no edge mark")
    by_hand = out_of_kept(unit(np.cross(face_line(plane), edge_line(plane))), plane)
    by_saw = sawn(said, plane)
    for normal in by_saw:
        if np.abs(normal - by_hand).max() > LOOSE:
            raise TwoReadingsError("the steps by handsaw and by saw give two planes")
    side = "left" if by_hand[1] > 1e-3 else "right" if by_hand[1] < -1e-3 else None
    if plane.faces != side:
        raise TwoReadingsError(f"it says the cheek faces {plane.faces}, and marks one to {side}")
    if shift := SHIFT.search(said):
        one, other = (thickness if name == "left" else 0.0 for name in (shift[1], shift[3]))
        nearer = -by_hand[1] / by_hand[0] * (one - other) * (1 if shift[2] == "head" else -1)
        if one == other or abs(nearer - number(shift[4])) > 0.06:
            raise TwoReadingsError(shift[0])
    return (hand[2] if hand else None), by_saw[-1] if by_saw else by_hand


def laid(blade: float, tongue: float, arm: str) -> float:
    """How far from square across the square lays a line along one of its arms [degrees]."""
    along, across = (blade, tongue) if arm == "blade" else (tongue, blade)
    return float(np.degrees(np.arctan2(along, across)))


def sawn(said: str, plane: PlaneRead) -> list[np.ndarray]:
    """The plane of each pass that the steps tell of."""
    tilt = TILT.search(said)
    if tilt is None and BY_HANDSAW_ALONE in said:
        return []
    if tilt is None:
        raise UnreadError("the steps set no tilt")
    passes = [Pass(f"{m[1]} face", float(tilt[1]), m[2], m[3]) for m in PASS.finditer(said)]
    if not passes and NO_CHEEK.search(said):
        passes = [Pass("right face", float(tilt[1]))]
    if not passes and BY_HANDSAW_ALONE not in said:
        raise UnreadError("the steps do not say which way the blade runs")
    start, steady, wide = START.search(said), STEADY.search(said), WIDE.search(said)
    for one in passes:
        if start is not None:
            one.starts = {start[2]: start[1], start[4]: start[3]}
        if steady is not None and one.surface == f"{steady[1]} face":
            one.wide = wide[1] if wide else None
        travels(one, face_line(plane), plane)
    if not passes and BY_HANDSAW_ALONE in said:
        return []
    if start is None and passes and passes[0].below is not None:
        raise UnreadError("the steps do not say where the saw starts")
    return [swept(one, face_line(plane), plane) for one in passes]
