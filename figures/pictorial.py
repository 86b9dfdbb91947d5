"""The cut end as it is seen in the roof: a parallel projection with hidden edges dashed.

The eye is put where the cut, a face and an edge all show; the mate is drawn in phantom lines.
"""

from itertools import product
from math import atan2, degrees

import shapely

from figures.drawing import Drawing, Polygon
from figures.mate import in_world, mates
from figures.plan import mate_ends, stick_ends
from figures.projection import View, looking
from figures.room import Room, in_room
from figures.scene import Scene, lines, part
from figures.stick import Stick, stick
from figures.telling import cut_name, hand_note
from layout.answer import Answer
from layout.vector import Array, sin_cos, vector

HEIGHTS_DEG = (20.0, 30.0, 40.0, -25.0)
TURN_DEG = 15
FROM_BELOW = 0.25
"""What a view from below costs: it is only taken where the cut cannot be seen from above."""

FLATTENED = 0.5
"""What it costs to show a sloping stick level, or a level one upright."""


def camera(answer: Answer) -> View:
    """The view from which the answer's cut, a face and an edge show best, world up kept up."""
    pose = answer.question.joint.pose
    best: tuple[float, Array] | None = None
    for height, turn in product(HEIGHTS_DEG, range(0, 360, TURN_DEG)):
        (sine, cosine), (east, north) = sin_cos(height), sin_cos(float(turn))
        eye = vector(cosine * north, cosine * east, sine)
        score = _shows(answer, pose.to_board(eye)) - FROM_BELOW * (height < 0)
        score -= FLATTENED * _flattened(answer, eye)
        if best is None or score > best[0] + 1e-9:
            best = score, eye
    assert best is not None
    return looking(best[1])


def _shows(answer: Answer, eye: Array) -> float:
    """How well an eye (3,) in board axes sees the cut, a face and an edge: the worst of them.

    Each counts by its share of true size, as far as more of it would be no better.
    """
    seen = float(answer.cut.normal @ eye)
    others = [float(cut.normal @ eye) for cut in answer.cuts]
    face, edge, end = (abs(float(part)) for part in (eye[1], eye[2], eye[0]))
    mate = answer.question.joint.planes[answer.which].mate.head
    mate_end = abs(float(answer.question.joint.pose.to_board(mate) @ eye))
    worst = min(seen / 0.6, face / 0.45, edge / 0.3, (1 - end) / 0.25, (1 - mate_end) / 0.25, 1.0)
    return worst + 0.1 * min(min(others), 0.5) + 0.05 * seen


def _flattened(answer: Answer, eye: Array) -> float:
    """How far the slope of the stick on the paper is from its own, as a share of 90 degrees."""
    right, up = looking(eye).seen(answer.question.joint.pose.head)
    on_paper = degrees(atan2(abs(up), abs(right))) * (1 if up >= 0 else -1)
    return abs(on_paper - abs(answer.stick_slope_deg)) / 90.0


def pictorial(answer: Answer, room: Room) -> Drawing:
    """The cut end seen in space, hidden edges dashed, the mate in phantom lines.

    From (0, 0) to the room's width and height [in on paper]. Gids: `cut-edge` and
    `cut-edge-hidden` round the answer's plane, `stick`, `stick-hidden`, `mate`. Raises
    SheetError for a room that is too small.
    """
    view = camera(answer)
    stock = answer.question.stock
    reach = 1.1 * max(stock.depth_in, 4.0) + 2.0
    shown = stick(answer, kept_in=(0.6 if answer.is_rip else 4.0) * reach)
    where = "above" if view.toward[2] > 0 else "below"
    notes = [f"Seen from {where}. The heavy lines bound the cut.", hand_note(answer)]
    return in_room(
        f"The cut end in the roof: {cut_name(answer)}",
        notes,
        room,
        _scene(answer, view, shown, reach).at,
    )


def _scene(answer: Answer, view: View, shown: Stick, reach: float) -> Scene:
    """The stick and its mates as they are seen [in of wood]."""
    solid = in_world(shown, answer.question.joint.pose)
    mine = part(view, solid, stick_ends(answer, solid, reach))
    drawing = lines(view, mine, (), "visible", "stick", hidden=True, heavy=f"cut {answer.which}")
    named: list[tuple[str, Polygon, bool]] = []
    bodies = shapely.Polygon()
    for mate in mates(answer, shown, 3 * reach, 1.5 if answer.is_rip else 0.5 * reach):
        body = part(view, mate.solid, mate_ends(mate, solid, answer.which, 0.8 * reach, view))
        drawing += lines(view, body, (solid,), "phantom", "mate")
        bodies = bodies.union(body.left)
        named.append((mate.name, body.left.difference(mine.left.buffer(0.3)), False))
    clear = mine.left.difference(bodies)
    named.insert(0, ("this stick", mine.left if clear.area < 1.0 else clear, True))
    return Scene(drawing, (mine,), tuple(named))
