"""The joint seen so that the cutting plane is edge-on: in plan where the plane stands plumb.

A plumb cheek is seen from above, where its trace makes the plan angle with the stick. A plane
that is not plumb, or runs square through the thickness, is seen level, along its own contour.
A bevel along the board is seen from the foot, along the board.
"""

from collections.abc import Callable
from dataclasses import dataclass
from math import cos, degrees, radians, sin

import numpy as np
import shapely

from figures.ink.drawing import Area, Drawing, Polygon, Stroke
from figures.ink.pens import Point
from figures.pictures.captions import hand_note
from figures.place.dimension import angle_dimension
from figures.place.placing import Words, from_labels, way_of
from figures.place.room import Picture, Room, in_room
from figures.wood.drawn_solid import DrawnSolid
from figures.wood.mate import Mate, in_world, mate_words, mates
from figures.wood.projection import View, looking
from figures.wood.scene import Scene, ScenePart, beyond, lines, part, points_of
from figures.wood.unfolded import UnfoldedStick, is_notch, square_across, stick
from layout.answer.answer import Answer
from layout.quantity import write_degrees
from layout.vector import Array, Z, cross, unit

_LEVEL = 1e-9
ENDS_AT_RIDGE = "end common"
"""The mate in line with which the ridge runs on."""
LEAST_TURN_DEG = 0.5
"""Nearer to 45 degrees than this, plan angle and tilt are one number."""
TILT_IN = 0.75
"""Radius of the tilt's arc in a plan [in on paper]."""


@dataclass(frozen=True)
class Sight:
    """A view in which the plane is edge-on, and the words for where it is seen from."""

    view: View
    heading: str
    says: str
    is_plan: bool


def sight(answer: Answer) -> Sight:
    """The view of the joint in which the answer's plane is edge-on and its joint most telling."""
    pose = answer.question.joint.pose
    normal = pose.to_world(answer.cut.normal)
    if answer.is_rip:
        return Sight(
            looking(-pose.head, Z),
            "Section of the joint, seen from the foot along the board",
            "The bevel is edge-on: the heavy line.",
            False,
        )
    run = pose.head - pose.head[2] * Z
    is_plumb = abs(float(normal[2])) < _LEVEL
    if is_plumb and not square_across(answer.cut.normal):
        return plan_sight(answer)
    contour = cross(Z, normal)
    if float(contour @ contour) < _LEVEL:
        contour = cross(Z, run) if float(run @ run) > _LEVEL else pose.left
    eye = unit(contour)
    along = float(looking(eye).right @ pose.head)
    # The head lies to the right; a board seen along its run is seen from the foot, as hands are.
    if along < -_LEVEL or (abs(along) <= _LEVEL and float(eye @ pose.head) > _LEVEL):
        eye = -eye
    return Sight(
        looking(eye),
        "Elevation of the joint, seen level",
        "Seen along the level lines of the cutting plane, which is edge-on: the heavy line.",
        False,
    )


def plan_sight(answer: Answer) -> Sight:
    """The joint seen straight down, the stick's head to the right: for a plane that is plumb."""
    pose = answer.question.joint.pose
    run = pose.head - pose.head[2] * Z
    along = unit(run) if float(run @ run) > _LEVEL else unit(cross(pose.left, Z))
    return Sight(
        looking(Z, cross(Z, along)),
        "Plan of the joint, seen from above",
        "The cutting plane stands plumb and is edge-on: the heavy line.",
        True,
    )


def plan_of_joint(answer: Answer, room: Room) -> Drawing:
    """The stick, its mate and the trace of the cutting plane, with the angle they make.

    In plan or, where a plan does not tell, in elevation or section; the heading says which. From
    (0, 0) to the room's width and height [in on paper]. Gids: `trace`, `stick`, `mate`, `angle`.
    Raises SheetError for a room that is too small.
    """
    seen = sight(answer)
    notes = [seen.says]
    if not answer.is_rip:
        notes[0] += " The head lies to the right." if _head_right(answer, seen) else ""
    notes.append(hand_note(answer))
    draw = edge_on_at(answer, seen)
    if not (seen.is_plan and _both_angles(answer)):
        return in_room(seen.heading, notes, room, draw)
    return in_room(
        seen.heading, notes, room, lambda factor: draw(factor) + _tilt(answer, seen, factor)
    )


def edge_on_at(
    answer: Answer, seen: Sight, reach_in: float | None = None
) -> Callable[[float], Picture]:
    """The joint as it is seen, for any scale: factor in, picture in inches on paper out.

    Board and mate are broken off `reach_in` past the cut [in of wood].
    """
    stock = answer.question.stock
    reach = reach_in or (3.5 if answer.is_rip else 1.2 * max(stock.depth_in, 4.0) + 2.0)
    shown = stick(answer, kept_in=4 * reach)
    solid = in_world(shown, answer.question.joint.pose)
    scene = _plan(answer, seen, shown, solid, reach)
    return lambda factor: scene.at(factor) + _angle(answer, seen, solid, factor)


def _head_right(answer: Answer, seen: Sight) -> bool:
    return float(seen.view.right @ answer.question.joint.pose.head) > 0.05


def _plan(
    answer: Answer, seen: Sight, shown: UnfoldedStick, solid: DrawnSolid, reach: float
) -> Scene:
    """The stick, its mates and the trace as they are seen [in of wood]."""
    view = seen.view
    mine = part(view, solid, stick_ends(answer, solid, reach))
    found = mates(answer, shown, 10 * reach)
    bodies = [mate.solid for mate in found]
    drawing = lines(view, mine, bodies, "visible", "stick", hidden=True)
    parts = [mine]
    named: list[tuple[str, Polygon, bool]] = [("this board", mine.left, True)]
    for mate in found:
        body = part(view, mate.solid, mate_ends(mate, solid, answer.plane_index, reach, view))
        others = [solid, *(each for each in bodies if each is not mate.solid)]
        drawing += lines(view, body, others, "visible", "mate")
        if not body.ends:
            drawing += Drawing(areas=_section(body, mine))
        parts.append(body)
        named.append((mate_words(mate.name), shapely.difference(body.left, mine.left), False))
    for mate, body in zip(found, parts[1:], strict=True):
        square = abs(answer.question.corner_deg - 90.0) < _LEVEL
        if square and seen.is_plan and mate.name == ENDS_AT_RIDGE:
            beside = [each for each in parts[1:] if each is not body]
            ridge = _ridge(view, mate, body, beside, reach)
            # What was drawn as a miter of both commons is the end of the ridge.
            drawing = drawing.without(ridge.left.buffer(-1e-4)) + ridge.shortened(
                Drawing((Stroke(points_of(ridge.seen.exterior), "visible", "ridge"),))
            )
            parts.append(ridge)
            # Named well away from where all of them meet.
            named = [
                (name, area if bold else area.difference(ridge.left.buffer(0.4 * reach)), bold)
                for name, area, bold in named
            ]
            named.append(("ridge", ridge.left.difference(mine.left.buffer(0.8 * reach)), False))
    trace = Drawing((Stroke(trace_of(view, solid, answer.plane_index), "cut", "trace"),))
    return Scene(drawing + mine.shortened(trace), tuple(parts), tuple(named))


def _ridge(
    view: View, mate: Mate, common: ScenePart, others: list[ScenePart], reach: float
) -> ScenePart:
    """The ridge in plan: in line with the end common and as thick as that is. It begins at the
    face of the side common that looks toward the hip; that common stops at the ridge's side."""
    uphill = mate.along if float(mate.along[2]) > 0 else -mate.along
    way = view.seen(uphill)
    way = way / np.hypot(*way)
    beside = shapely.union_all([each.left for each in others])
    meet = shapely.intersection(common.left.buffer(1e-6), beside)
    spots = shapely.get_coordinates(meet)
    inner = spots[int(np.argmin(spots @ way))]
    swept = shapely.affinity.translate(common.left, *(10 * reach * way))
    strip = shapely.MultiPoint(
        np.concatenate([shapely.get_coordinates(each) for each in (common.left, swept)])
    ).convex_hull
    strip = strip.difference(beyond(inner, -way))
    return ScenePart(mate.solid, strip, ((inner + 1.2 * reach * way, way),))


def _section(body: ScenePart, mine: ScenePart) -> tuple[Area, ...]:
    """A mate seen end-on is cut through: its section is hatched."""
    shape = shapely.difference(body.seen, mine.left)
    return tuple(
        Area(piece, "section", "mate-section")
        for piece in shapely.get_parts(shape)
        if piece.geom_type == "Polygon" and piece.area > 1e-6
    )


def stick_ends(answer: Answer, solid: DrawnSolid, reach_in: float) -> list[tuple[Array, Array]]:
    """Where the stick is broken off: `reach_in` past the outermost corner of its cuts."""
    pose = answer.question.joint.pose
    head = pose.head
    if answer.is_rip:
        return [(way * reach_in * head / 2, way * head) for way in (1.0, -1.0)]
    along = [
        float(spot @ head)
        for facet in solid.facets
        if facet.name.startswith("cut")
        for spot in facet.edges().reshape(-1, 3)
    ]
    middle = solid.sides["top"].normal * solid.sides["top"].level / 2
    at_head = bool(answer.cut.normal[0] > 0)
    ends = []
    notched = is_notch(answer)
    if at_head or notched:
        ends.append((middle + (min(along) - reach_in) * head, -head))
    if not at_head or notched:
        ends.append((middle + (max(along) + reach_in) * head, head))
    return ends


def mate_ends(
    mate: Mate, solid: DrawnSolid, plane_index: int, reach_in: float, view: View
) -> list[tuple[Array, Array]]:
    """Where a mate is broken off: `reach_in` to either side of the cut, along its own length.

    A sheet seen edge-on is broken along its line on the paper, another not at all.
    """
    along = mate.along
    if mate.is_sheet:
        across = mate.solid.sides["top"].normal
        if abs(float(across @ view.toward)) > _LEVEL:
            return []
        along = unit(cross(across, view.toward))
    spots = np.concatenate(
        [f.edges().reshape(-1, 3) for f in solid.facets if f.name == f"cut {plane_index}"]
    )
    reach = spots @ along
    middle = spots.mean(axis=0)
    centre = middle - float(middle @ along) * along
    low, high = float(reach.min()) - reach_in, float(reach.max()) + reach_in
    return [(centre + low * along, -along), (centre + high * along, along)]


def trace_of(view: View, solid: DrawnSolid, plane_index: int) -> tuple[tuple[float, float], ...]:
    """Both ends of a cut seen edge-on [in of wood]."""
    facet = next(f for f in solid.facets if f.name == f"cut {plane_index}")
    spots = view.seen(facet.edges().reshape(-1, 3))
    centre = spots.mean(axis=0)
    _, _, ways = np.linalg.svd(spots - centre)
    along = (spots - centre) @ ways[0]
    first, last = spots[int(np.argmin(along))], spots[int(np.argmax(along))]
    return (float(first[0]), float(first[1])), (float(last[0]), float(last[1]))


def _both_angles(answer: Answer) -> bool:
    """Whether the plan shows the tilt too, and another angle than the plan angle: a plumb board
    that is met at any turn but 45 degrees."""
    if abs(float(answer.question.joint.pose.left[2])) > _LEVEL:
        return False
    return abs(float(answer.cut.face_tilt_deg) - 45.0) > LEAST_TURN_DEG


def _tilt(answer: Answer, seen: Sight, factor: float) -> Picture:
    """The tilt, from square across the stick to the trace [in on paper]."""
    pose, view = answer.question.joint.pose, seen.view
    solid = in_world(stick(answer, kept_in=4.0), pose)
    first, last = (np.array(end) for end in trace_of(view, solid, answer.plane_index))
    head = view.seen(pose.head)
    head = head / np.hypot(*head)
    if float(head @ view.seen(pose.to_world(answer.cut.normal))) < 0:
        head = -head
    # From the end of the trace that lies farthest on: there paper is free beside the stick.
    start, end = (first, last) if float((first - last) @ head) > 0 else (last, first)
    along = (end - start) / np.hypot(*(end - start))
    square = along - float(along @ head) * head
    square = square / np.hypot(*square)
    begin, finish = (way_of((0.0, 0.0), (float(way[0]), float(way[1]))) for way in (square, along))
    sweep = (finish - begin + 180.0) % 360.0 - 180.0
    centre = (float(start[0]) * factor, float(start[1]) * factor)
    radius = TILT_IN
    said = f"tilt {write_degrees(float(answer.cut.face_tilt_deg))}"
    arc = angle_dimension(centre, radius, begin, begin + sweep, said, 10.0, "tilt")
    spot = _polar(centre, radius, begin + sweep / 2)
    lines, words = from_labels(arc, spot, ways=(begin + sweep / 2,))
    rays = tuple(
        Stroke((centre, _polar(centre, radius + 0.1, way)), pen, gid)
        for way, pen, gid in (
            (begin, "centre", "square-across"),
            (begin + sweep, "dimension", "tilt-ray"),
        )
    )
    return Picture(lines + Drawing(rays), words)


def _angle(answer: Answer, seen: Sight, solid: DrawnSolid, factor: float) -> Picture:
    """The angle between the trace and the stick, or the trace's slope where the stick is skew."""
    pose, view = answer.question.joint.pose, seen.view
    first, last = trace_of(view, solid, answer.plane_index)
    lean = pose.left if answer.is_rip else pose.head
    normal = view.seen(pose.to_world(answer.cut.normal))
    true = seen.is_plan or abs(float(lean @ view.toward)) < _LEVEL
    axis = view.seen(lean) if true else np.array([1.0, 0.0])
    axis = axis / np.hypot(*axis)
    if float(axis @ normal) > 0:
        axis = -axis
    spots = [(np.array(first), np.array(last)), (np.array(last), np.array(first))]
    start, end = max(spots, key=lambda pair: float((pair[1] - pair[0]) @ axis))
    if not true:
        # A slope is read against level, from the trace's lower end.
        start, end = sorted(spots, key=lambda pair: float(pair[0][1]))[0]
        axis = np.array([1.0 if end[0] > start[0] else -1.0, 0.0])
    along = (end - start) / np.hypot(*(end - start))
    angle = degrees(np.arccos(np.clip(float(along @ axis), -1.0, 1.0)))
    said = write_degrees(angle)
    text = f"plan angle {said}" if seen.is_plan else (said if true else f"slope {said}")
    centre = (float(start[0]) * factor, float(start[1]) * factor)
    if angle < 0.5:
        return Picture(
            Drawing(), (Words("level" if not true else "along", centre, 9.5, gid="angle"),)
        )
    begin = way_of((0.0, 0.0), (float(axis[0]), float(axis[1])))
    sweep = (way_of((0.0, 0.0), (float(along[0]), float(along[1]))) - begin + 180) % 360 - 180
    long = float(np.hypot(*(end - start))) * factor
    radius = min(0.9, max(0.45, 0.6 * long))
    arc = angle_dimension(centre, radius, begin, begin + sweep, text, 10.0, "angle")
    middle = radians(begin + sweep / 2)
    spot = (centre[0] + radius * cos(middle), centre[1] + radius * sin(middle))
    arrows, words = from_labels(arc, spot, ways=(begin + sweep / 2,))
    rays = []
    for way, past in ((begin, 0.04), (begin + sweep, min(long, radius) + 0.03)):
        c, s = cos(radians(way)), sin(radians(way))
        if past < radius:
            ends = tuple((centre[0] + r * c, centre[1] + r * s) for r in (past, radius + 0.1))
            rays.append(Stroke(ends, "dimension", "angle-ray"))
    return Picture(arrows + Drawing(tuple(rays)), words)


def _polar(centre: Point, reach: float, way_deg: float) -> Point:
    way = radians(way_deg)
    return centre[0] + reach * cos(way), centre[1] + reach * sin(way)
