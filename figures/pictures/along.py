"""The board seen along its own face mark, beside the plan: what the eye sees is the tilt.

In the roof the face mark of a plumb cut stands plumb. Sighting along it is looking straight
down, and what is seen there is the plan: the board's two faces as two lines, and the cut between
them as one, at the angle at which the joint runs in plan.
"""

from collections.abc import Callable
from math import cos, radians, sin

import numpy as np
import shapely

from figures.ink.drawing import Area, Drawing, Stroke
from figures.ink.pens import Point
from figures.pictures.captions import hand_note
from figures.pictures.edge_on import edge_on_at, plan_sight
from figures.pictures.saw_front import (
    BESIDE_IN,
    SawSection,
    board_section,
    saw_section,
    section_in,
)
from figures.pictures.views import surface_alone
from figures.place.dimension import angle_dimension
from figures.place.placing import Words, enlarged, from_labels, in_area, way_of
from figures.place.room import Picture, Room, in_room
from figures.wood.drawn_solid import DrawnFlat
from figures.wood.unfolded import UnfoldedStick, broken, mark_ends, stick
from layout.answer.answer import Answer
from layout.errors import SheetError
from layout.quantity import write_degrees
from layout.vector import Array, X, cross, unit

APART_IN = 0.5
REACH_IN = 4.0
"""How far board and mate are shown past the cut in the plan [in of wood]."""
EYE_IN = 0.7
"""Length of the arrow along which one looks [in on paper]."""
_PLUMB = 1e-9
_SNAP = 1e-6


def seen_along(answer: Answer, room: Room) -> Drawing:
    """The board at its slope, the same seen along its face mark, and the plan where that is it.

    From (0, 0) to the room's width and height [in on paper]. Gids: `eye` on the arrow along
    which one looks, then `along.saw-cut` and `along.tilt` in the middle view, `plan.trace` and
    `plan.angle` in the plan. Raises SheetError for a bevel along the board, whose line has no
    far end to look along, and for a room that is too small.
    """
    if answer.is_rip:
        raise SheetError(
            "a bevel along the board has no face mark to look along: show its plan, which is"
            " the end of the board"
        )
    is_plan = looks_down(answer)
    tilt = write_degrees(float(answer.cut.face_tilt_deg))
    notes = [
        f"Look along the face mark: the cut is one line, {tilt} from square. That is the tilt."
    ]
    if is_plan:
        notes.append(
            "In the roof the face mark stands plumb, so this look is straight down:"
            " it shows the plan, at any pitch."
        )
    else:
        notes.append("In the roof this face mark is not plumb: what is seen along it is no plan.")
    notes.append(hand_note(answer))
    heading = "The board seen along its own mark" + (", and the plan" if is_plan else "")
    shown = stick(answer, kept_in=4.0)
    plan = edge_on_at(answer, plan_sight(answer), REACH_IN) if is_plan else None
    return in_room(heading, notes, room, lambda factor: _three(answer, shown, plan, factor))


def looks_down(answer: Answer) -> bool:
    """Whether the face mark stands plumb in the roof: plane and wide faces both do."""
    pose = answer.question.joint.pose
    plane = float(pose.to_world(answer.cut.normal)[2])
    return abs(plane) < _PLUMB and abs(float(pose.left[2])) < _PLUMB


def _three(
    answer: Answer, shown: UnfoldedStick, plan: Callable[[float], Picture] | None, factor: float
) -> Picture:
    parts = [
        _titled(_at_slope(answer, shown, factor), "the board in the roof" if plan else "the board"),
        _titled(_along(answer, shown, factor).under("along."), "seen along\nthe mark"),
    ]
    if plan is not None:
        parts.append(_titled(plan(factor).under("plan."), "the plan"))
    picture = Picture(Drawing())
    x = 0.0
    for part in parts:
        left, low, right, high = part.drawing.bounds(words=False)
        picture += part.moved(x - left, -(low + high) / 2)
        x += right - left + APART_IN
    return picture


def _titled(picture: Picture, said: str) -> Picture:
    left, low, right, _ = picture.drawing.bounds(words=False)
    words = Words(said, ((left + right) / 2, low), 9.0, bold=True, ways=(-90.0,), leader=False)
    return Picture(picture.drawing, (*picture.words, words))


def _at_slope(answer: Answer, shown: UnfoldedStick, factor: float) -> Picture:
    """The shown face with the board at its slope, and the way to look along the mark."""
    flat = shown.face_flat
    whole = shown.solid.whole(flat)
    left, low, right, high = (side * factor for side in whole.bounds)
    paper = surface_alone(shown, "face").scaled(factor)
    for u, kept in zip((left, right), shown.ends_kept, strict=True):
        if kept:
            paper += broken((u, low), (u, high))
    turn = shown.to_head * answer.stick_slope_deg
    ends = mark_ends(shown, flat, shown.plane_index)
    assert ends is not None
    top, foot = sorted(
        (_turned(np.array(end) * factor, turn) for end in ends), key=lambda end: -float(end[1])
    )
    way = (foot - top) / np.hypot(*(foot - top))
    eye = _eye(top, way)
    spot = top - EYE_IN * way
    words = (
        Words("look along here", _pair(spot), 9.0, bold=True, leader=False, gid="eye-words"),
        *in_area("WASTE", _area(shown, False, turn, factor), bold=True),
        *in_area(f"{shown.face} face", _area(shown, True, turn, factor)),
    )
    return Picture(paper.turned(turn) + eye, words)


def _area(shown: UnfoldedStick, kept: bool, turn_deg: float, factor: float) -> shapely.Geometry:
    flat = shown.face_flat
    wood = shown.solid.slice(flat)
    region = wood if kept else shapely.difference(shown.solid.whole(flat), wood)
    return shapely.affinity.rotate(enlarged(region, factor), turn_deg, origin=(0, 0))


def _eye(tip: Array, way: Array) -> Drawing:
    """An arrow that ends at the mark and points along it."""
    across = np.array([-way[1], way[0]])
    tip = tip - 0.05 * way
    neck, tail = tip - 0.17 * way, tip - (EYE_IN - 0.08) * way
    corners = [
        tail + 0.014 * across,
        neck + 0.014 * across,
        neck + 0.07 * across,
        tip,
        neck - 0.07 * across,
        neck - 0.014 * across,
        tail - 0.014 * across,
    ]
    return Drawing(areas=(Area(shapely.Polygon(corners), "ink", "eye"),))


def _along(answer: Answer, shown: UnfoldedStick, factor: float) -> Picture:
    """The section square to the mark, as an eye at its upper end sees it, head to the right."""
    section = seen_from_above(answer, shown)
    board = board_section(shown, section).scaled(factor)
    left, bottom, right, top = (side * factor for side in section.whole.bounds)
    for u, edge in ((left, -BESIDE_IN), (right, BESIDE_IN)):
        if abs(u - edge * factor) < _SNAP:
            board += broken((u, bottom), (u, top))
    waste = shapely.difference(section.whole, section.kept)
    words = (
        *in_area("WASTE", enlarged(waste, factor), bold=True, off=enlarged(section.whole, factor)),
        *in_area("KEPT", enlarged(section.kept, factor), off=enlarged(section.whole, factor)),
    )
    return Picture(board, words) + _tilt(answer, board, factor)


def seen_from_above(answer: Answer, shown: UnfoldedStick) -> SawSection:
    """The section square to the mark, as an eye at its upper end sees it, head to the right."""
    section = saw_section(shown)
    ends = mark_ends(shown, shown.face_flat, shown.plane_index)
    assert ends is not None
    start, end = shown.face_flat.placed(np.array(ends))
    pose = answer.question.joint.pose
    up = unit(end - start)
    rise = float(pose.to_world(up)[2])
    if rise < -_SNAP or (abs(rise) <= _SNAP and up[2] < 0):
        up = -up
    head = unit(X - (X @ up) * up) if abs(float(X @ up)) < 1 - _SNAP else section.flat.u
    flat = DrawnFlat((start + end) / 2, head, cross(up, head))
    return section_in(shown, section, flat)


def _tilt(answer: Answer, board: Drawing, factor: float) -> Picture:
    """The tilt, between a line square to the faces and the cut, and the angle that is left."""
    line = next(stroke for stroke in board.strokes if stroke.gid == "saw-cut")
    tilt = float(answer.cut.face_tilt_deg)
    low, high = sorted((np.array(point) for point in line.points), key=lambda end: float(end[1]))
    if tilt < 0.05:
        words = Words("square to the faces", _pair(low), 9.5, gid="tilt", ways=(-90.0,))
        return Picture(Drawing(), (words,))
    long = float(np.hypot(*(high - low)))
    radius = max(0.6, min(1.0, 1.15 * long))
    mark = way_of(_pair(low), _pair(high))
    sweep = mark - 90.0
    said = f"tilt {write_degrees(tilt)}"
    arc = angle_dimension(_pair(low), radius, 90.0, 90.0 + sweep, said, 10.0, "tilt")
    middle = radians(90.0 + sweep / 2)
    spot = (low[0] + radius * cos(middle), low[1] + radius * sin(middle))
    lines, words_ = from_labels(arc, spot, ways=(90.0 + sweep / 2,))
    square = Stroke((_pair(low), (float(low[0]), float(low[1] + radius + 0.1))), "centre", "square")
    reach = low + (radius + 0.1) * (high - low) / long
    ray = Stroke((_pair(high), _pair(reach)), "dimension", "along-cut")
    extra = (square, ray) if radius + 0.1 > long else (square,)
    return Picture(lines + Drawing(extra), words_)


def _turned(spot: Array, turn_deg: float) -> Array:
    c, s = cos(radians(turn_deg)), sin(radians(turn_deg))
    return np.array([c * spot[0] - s * spot[1], s * spot[0] + c * spot[1]])


def _pair(spot: Array) -> Point:
    return float(spot[0]), float(spot[1])
