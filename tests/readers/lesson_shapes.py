"""A reader of the lessons on a whole notch, on two cheeks and on a backed edge, by their steps.

The planes go by the names that the steps give them: seat and heel, or the face of the board.
"""

import re

import numpy as np

from tests.readers.lesson_words import HAIR, HAND, laid, steps_of
from tests.readers.words import (
    DEG,
    LEN,
    LOOSE,
    OUT,
    Pass,
    PlaneRead,
    TwoReadingsError,
    UnreadError,
    edge_line,
    face_line,
    notch_waste,
    number,
    one_reading,
    out_of_kept,
    swept,
    travels,
    unit,
)

Read = tuple[str | None, dict[str, np.ndarray]]
SIDE = r"(left|right)"
KIND = r"(blade-left|blade-right)"
RUNS = (
    r"below the shoe the blade runs in under the (kept wood|waste), toward the"
    r" (head|foot|top edge|bottom edge)\. There start at the (top edge|bottom edge|head|foot) with"
    rf" a {KIND} saw, at the (top edge|bottom edge|head|foot) with a {KIND} saw\."
)
PLUMB = re.compile(
    rf"Lay {LEN} on the blade and {LEN} on the tongue, and mark along the (blade|tongue): that is"
    r" plumb\."
)
CORNER = re.compile(
    rf"On that line measure {LEN} in down from the top edge\. That point is the inside corner of"
    r" the notch\."
)
SEAT = re.compile(
    r"Lay the same numbers through that point\. Mark along the (blade|tongue), toward the"
    r" (head|foot), to the bottom edge: that is the seat\."
)
MEASURES = re.compile(
    rf"Measure both as a check: the seat {LEN} in, the heel {LEN} in\. Square both marks across the"
    r" bottom edge\."
)
SAW_A_NOTCH = (
    "Set the blade square to the shoe, a tilt of 0°. Set the depth so that the blade just comes"
    " through. Cut the heel and the seat from the bottom"
    " edge. Stop short of the inside corner on both."
)
READ_IN = 1 / 16
"""Lengths in the steps are read to a sixteenth [in]."""
FINE_IN = 1 / 32
"""What a sum of two lengths to the thirty-second may be off [in]."""


def read_notch_lesson(text: str, size: tuple[float, float]) -> Read:
    """Seat and heel of a bird's mouth, on a board of this thickness and depth [in].

    The head is a rafter's upper end: so the top of a plumb line is nearer the head.
    """
    said = steps_of(text)
    one_reading(said)
    plumb, corner, seat, measures = (
        _only(pattern, said) for pattern in (PLUMB, CORNER, SEAT, MEASURES)
    )
    if SAW_A_NOTCH not in said or "to the inside corner and no farther" not in said:
        raise UnreadError("how the notch is sawn is not understood")
    blade, tongue = number(plumb[1]), number(plumb[2])
    heel = PlaneRead(face_deg=laid(blade, tongue, plumb[3]), face_top="head", edge_deg=0.0)
    back = "foot" if seat[2] == "head" else "head"
    level = PlaneRead(face_deg=laid(blade, tongue, seat[1]), face_top=back, edge_deg=0.0)
    notch_waste([level, heel])
    up, along = face_line(heel), face_line(level)
    left_in = size[1] - number(corner[1]) * up[2]
    for line, length in ((along, number(measures[1])), (up, number(measures[2]))):
        if abs(left_in / line[2] - length) > 2 * READ_IN / line[2]:
            raise TwoReadingsError(f"from the inside corner {left_in / line[2]:.3f}, not {length}")
    whole_in = number(corner[1]) + number(measures[2])
    if abs(whole_in - size[1] / up[2]) > FINE_IN:
        raise TwoReadingsError(f"height above plate and heel make {whole_in:.3f}")
    return None, {
        name: out_of_kept(unit(np.cross(face_line(plane), edge_line(plane))), plane)
        for name, plane in (("seat", level), ("heel", heel))
    }


POINT = re.compile(
    rf"Mark plumb on the face there: {LEN} on the blade, {LEN} on the tongue, along the"
    r" (blade|tongue)\. Square that mark across to the center line: the point of the hip\."
)
FIRST_EDGE = re.compile(
    rf"Lay {LEN}{HAIR} on the blade and {LEN}{HAIR} on the tongue through the point\. Mark along"
    rf" the (blade|tongue), from the center to the {SIDE} face; its left end slants toward"
    r" the (head|foot)\."
)
SECOND_EDGE = re.compile(
    rf"Lay {LEN}{HAIR} on {LEN} for the {SIDE} cheek, from the center to the {SIDE} face\. From the"
    r" point both marks run back, away from the (head|foot), one to each face\."
)
CHEEK = re.compile(
    rf"The {SIDE} cheek takes a tilt of {DEG}(?:\. With the shoe on the {SIDE} face, |, with the"
    rf" shoe on the {SIDE} face: ){RUNS}"
)


def read_two_cheeks(text: str) -> Read:
    """Both cheeks of a point, each by the face on which it is marked and sawn."""
    said = steps_of(text)
    one_reading(said)
    hand = _hand(text)
    point, one, other = (_only(pattern, said) for pattern in (POINT, FIRST_EDGE, SECOND_EDGE))
    face_deg = laid(number(point[1]), number(point[2]), point[3])
    point_end, back = other[5], "foot" if other[5] == "head" else "head"
    # A mark that runs back to the left face has its left end there; one to the right face has its
    # right end there, and its left end in the middle, nearer the other end of the board.
    left_end = {"left": back, "right": point_end}
    if other[3] != other[4] or {one[4], other[3]} != {"left", "right"} or one[4] != hand:
        raise TwoReadingsError(f"{one[0]} {other[0]}")
    if one[5] != left_end[one[4]]:
        raise TwoReadingsError(f"{one[0]} {other[0]}")
    edges = {
        one[4]: (laid(number(one[1]), number(one[2]), one[3]), one[5]),
        other[3]: (laid(number(other[2]), number(other[1]), "blade"), left_end[other[3]]),
    }
    found: dict[str, np.ndarray] = {}
    for cheek in CHEEK.finditer(said):
        side = cheek[1]
        below, toward = cheek[5], cheek[6]
        end = toward if below == "waste" else "foot" if toward == "head" else "head"
        plane = PlaneRead(face_deg=face_deg, face_top="head", waste_end=end)
        plane.edge_deg, plane.edge_left = edges[side]
        saw = Pass(f"{cheek[3] or cheek[4]} face", float(cheek[2]), below, toward)
        saw.starts = _starts(cheek, 7)
        travels(saw, face_line(plane), plane)
        normal = swept(saw, face_line(plane), plane)
        by_hand = out_of_kept(unit(np.cross(face_line(plane), edge_line(plane))), plane)
        if np.abs(normal - by_hand).max() > LOOSE:
            raise TwoReadingsError(f"the {side} cheek by handsaw and by saw: two planes")
        if saw.surface != f"{side} face" or (normal[1] > 0) != (side == "left"):
            raise TwoReadingsError(cheek[0])
        found[side] = normal
    if list(found) != [one[4], other[3]]:
        raise UnreadError(f"the cheeks by saw: {list(found)}")
    return hand, found


CENTER = re.compile(
    rf"Gauge the center line along the (top|bottom) edge, {LEN} in from the arris\."
)
DOWN = re.compile(
    rf"Gauge a line {LEN} in down the {SIDE} face, from the (top|bottom) arris\. On the {SIDE} face"
    rf" the line lies {LEN} in down\."
)
PLANED = re.compile(
    r"Do the same from the center to the line on the (left|right) face\.",
)
RIP = re.compile(
    rf"Gauge the line on the {SIDE} face as before\. Unplug the saw and set the tilt to {DEG}\."
    r" Above the line there is too little wood for the shoe\. Clamp a straight board beside the"
    rf" (?P<beside>top|bottom) edge, its face flush with the (?P<flush>left|right) face and its"
    r" clamps out of the saw's way\. That board carries the wide side of the shoe and the motor\."
    r" Set the depth so that the blade just comes out at the center of the edge, and no deeper\."
    rf" With the shoe on the {SIDE} face, {RUNS} Rip along that line, with a straightedge guide"
    rf" clamped to the {SIDE} face, below the line\. The blade must come out at the center of the"
    rf" edge, above the line\. Turn the hip around, clamp the board beside the edge again,"
    rf" and rip along the line on the {SIDE} face\."
)


def read_rip_lesson(text: str, size: tuple[float, float]) -> Read:
    """Both bevels of a backed edge, each by the face on which its line is gauged."""
    said = steps_of(text)
    one_reading(said)
    hand = _hand(text)
    center, down, planed, rip = (_only(pattern, said) for pattern in (CENTER, DOWN, PLANED, RIP))
    first, second = down[2], down[4]
    edge = f"{center[1]} edge"
    if (
        {first, second} != {"left", "right"}
        or down[3] != center[1]
        or {rip[1], rip["flush"], rip[5], rip[12]} != {first}
        or rip["beside"] != center[1]
        or {rip[13], planed[1]} != {second}
        or hand != first
    ):
        raise TwoReadingsError(f"{center[0]} {down[0]} {rip[0]}")
    if abs(number(center[2]) - size[0] / 2) > READ_IN / 2:
        raise TwoReadingsError(f"{center[0]} on a board {size[0]} in thick")
    fall = {first: number(down[1]), second: number(down[5])}
    found: dict[str, np.ndarray] = {}
    for side, deep in fall.items():
        plane = PlaneRead(waste_edge=edge, faces=side)
        out = OUT[f"{side} face"] * number(center[2]) - OUT[edge] * deep
        found[side] = out_of_kept(unit(np.cross(OUT["head"], out)), plane)
    plane = PlaneRead(waste_edge=edge)
    saw = Pass(f"{rip[5]} face", float(rip[2]), rip[6], rip[7], starts=_starts(rip, 8))
    saw.wide = "waste"  # it rides on the board that is clamped where the waste is
    travels(saw, OUT["head"], plane)
    if np.abs(swept(saw, OUT["head"], plane) - found[first]).max() > LOOSE:
        raise TwoReadingsError("the bevel by plane and by saw: two planes")
    return hand, found


def _only(pattern: re.Pattern[str], said: str) -> re.Match[str]:
    found = list(pattern.finditer(said))
    if len(found) != 1:
        raise UnreadError(f"{len(found)} steps like {pattern.pattern!r}")
    return found[0]


def _hand(text: str) -> str:
    hand = HAND.search(" ".join(text.split()))
    if hand is None or hand[1].lower() != hand[2]:
        raise TwoReadingsError(f"the hand: {hand and hand[0]!r}")
    return hand[2]


def _starts(match: re.Match[str], first: int) -> dict[str, str]:
    starts = {match[first + 1]: match[first], match[first + 3]: match[first + 2]}
    if len(starts) != 2:
        raise TwoReadingsError(match[0])
    return starts
