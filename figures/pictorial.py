"""The cut end as it is seen in the roof: a parallel projection with hidden edges dashed.

The eye is put where the cut, a face and an edge all show; the mate is drawn in phantom lines.
"""

from itertools import product

import numpy as np

from figures.drawing import Drawing
from figures.mate import in_world, mates
from figures.placing import Words, in_area
from figures.plan import mate_ends, stick_ends
from figures.projection import View, looking
from figures.room import Picture, Room, in_room
from figures.scene import lines, part
from figures.stick import Stick, stick
from figures.telling import cut_name, hand_note
from figures.views import enlarged
from layout.answer import Answer
from layout.vector import Array, sin_cos, vector

ABOVE_DEG, BELOW_DEG = 30.0, -25.0
TURN_DEG = 15
FROM_BELOW = 0.12
"""What a view from below costs: it is only taken where the cut cannot be seen from above."""


def camera(answer: Answer) -> View:
    """The view from which the answer's cut, a face and an edge show best, world up kept up."""
    pose = answer.question.joint.pose
    best: tuple[float, Array] | None = None
    for height, turn in product((ABOVE_DEG, BELOW_DEG), range(0, 360, TURN_DEG)):
        (sine, cosine), (east, north) = sin_cos(height), sin_cos(float(turn))
        eye = vector(cosine * north, cosine * east, sine)
        score = _shows(answer, pose.to_board(eye)) - FROM_BELOW * (height < 0)
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
    worst = min(seen / 0.7, face / 0.55, edge / 0.4, (1 - end) / 0.25, 1.0)
    return worst + 0.1 * min(min(others), 0.5) + 0.05 * seen


def pictorial(answer: Answer, room: Room) -> Drawing:
    """The cut end seen in space, hidden edges dashed, the mate in phantom lines.

    From (0, 0) to the room's width and height [in on paper]. Gids: `cut-edge` and
    `cut-edge-hidden` round the answer's plane, `stick`, `stick-hidden`, `mate`. Raises
    SheetError for a room that is too small.
    """
    view = camera(answer)
    stock = answer.question.stock
    reach = 1.1 * max(stock.depth_in, 4.0) + 2.0
    shown = stick(answer, kept_in=4 * reach)
    where = "above" if view.toward[2] > 0 else "below"
    notes = [f"Seen from {where}. The heavy lines bound the cut.", hand_note(answer)]
    return in_room(
        f"The cut end in the roof: {cut_name(answer)}",
        notes,
        room,
        lambda factor: _scene(answer, view, shown, reach, factor),
    )


def _scene(answer: Answer, view: View, shown: Stick, reach: float, factor: float) -> Picture:
    solid = in_world(shown, answer.question.joint.pose)
    mine = part(view, solid, stick_ends(answer, solid, reach))
    drawing = lines(
        view, mine, (), "visible", "stick", hidden=True, heavy=f"cut {answer.which}"
    )
    breaks = mine.breaks(factor)
    words: list[Words] = []
    for mate in mates(answer, shown, 3 * reach):
        body = part(view, mate.solid, mate_ends(mate, solid, answer.which, 0.8 * reach))
        drawing += lines(view, body, (solid,), "phantom", "mate")
        free = body.left.difference(mine.left.buffer(0.3))
        words += in_area(mate.name, enlarged(free, factor), ways=(0.0, 180.0))
    words = [*in_area("this stick", enlarged(mine.left, factor), bold=True), *words]
    return Picture(drawing.scaled(factor) + breaks, tuple(words))


def corners_seen(view: View, solid_points: Array) -> Array:
    """World points (..., 3) as they stand on the paper before scale and place, (..., 2) [in]."""
    seen: Array = np.asarray(view.seen(solid_points))
    return seen
