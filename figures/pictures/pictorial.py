"""The cut end as it is seen in the roof: a parallel projection with hidden edges dashed.

The eye is put where the cut, a face and an edge all show; the mate is drawn in phantom lines.
"""

import numpy as np
import shapely

from figures.ink.drawing import Drawing, Polygon
from figures.pictures.captions import cut_name, hand_note
from figures.pictures.edge_on import mate_ends, stick_ends
from figures.place.room import Room, in_room
from figures.wood.mate import in_world, mate_words, mates
from figures.wood.projection import View, looking
from figures.wood.scene import Scene, lines, part
from figures.wood.unfolded import UnfoldedStick, stick
from layout.answer.answer import Answer
from layout.answer.answer import answer as ask_answer
from layout.answer.question import ask
from layout.cuts import Hand
from layout.errors import SheetError
from layout.vector import Array, Z, cross, sin_cos, unit, vector

HEIGHTS_DEG = (20.0, 30.0, 40.0, -25.0)
TURN_DEG = 15
FROM_BELOW = 0.25
"""What a view from below costs: it is only taken where the cut cannot be seen from above."""

BOX = "splayed"
"""The family of cuts that stand in no roof."""
FLATTENED = 0.5
"""What it costs to show a sloping stick level, or a level one upright."""


def camera(answer: Answer) -> View:
    """The view from which the answer's cut, a face and an edge show best, world up kept up."""
    heights, turns = np.meshgrid(HEIGHTS_DEG, np.arange(0.0, 360.0, TURN_DEG), indexing="ij")
    (sine, cosine), (east, north) = sin_cos(heights.ravel()), sin_cos(turns.ravel())
    eyes = vector(cosine * north, cosine * east, sine)
    score = _shows(answer, eyes) - FLATTENED * _flattened(answer, eyes)
    score -= FROM_BELOW * (eyes[:, 2] < 0)
    # Equal to rounding is equal: the first of them, on every machine.
    return looking(eyes[int(np.argmax(score > score.max() - 1e-9))])


def other_end(answer: Answer, room: Room) -> Drawing:
    """The same stick's other end in the roof, as `pictorial` draws it.

    Of both hands it is the one whose cheek lies parallel to this one, as they do on a stick
    between two carriers that run side by side: the cheeks face opposite ways. Raises SheetError
    for a stick that is cut at one end alone.
    """
    return pictorial(at_other_end(answer), room)


def at_other_end(answer: Answer) -> Answer:
    """The answer about the other end of the same stick; errors as for its picture."""
    asked = answer.question
    ends = [end for end in asked.entry.ends if end != asked.end]
    if not ends:
        raise SheetError(f"{asked.entry.name} is cut at its {asked.end} alone")
    both = [
        ask_answer(
            ask(
                asked.entry.name,
                pitch=asked.pitch,
                other_pitch=asked.other_pitch,
                corner_deg=asked.corner_deg,
                hand=hand,
                stock=asked.stock,
                end=ends[0],
            ),
            tolerance_in=answer.tolerance_in,
            limits=answer.limits,
            square_parts=answer.square_parts,
        )
        for hand in Hand
    ]
    return min(both, key=lambda other: float(other.cut.normal @ answer.cut.normal))


def _shows(answer: Answer, eyes: Array) -> Array:
    """How well eyes (n, 3) in the world see the cut, a face and an edge: the worst of them (n,).

    Each counts by its share of true size, as far as more of it would be no better; stick and
    mate must not be seen end-on.
    """
    joint = answer.question.joint
    here = joint.pose.to_board(eyes)
    seen = here @ answer.cut.normal
    others = np.min([here @ cut.normal for cut in answer.cuts], axis=0)
    end, face, edge = np.abs(here).T
    mate_end = np.abs(eyes @ answer.plane.mate.head)
    worst = np.min(
        [
            seen / 0.6,
            face / 0.45,
            edge / 0.3,
            (1 - end) / 0.25,
            (1 - mate_end) / 0.25,
            np.ones_like(seen),
        ],
        axis=0,
    )
    clear: Array = worst + 0.1 * np.minimum(others, 0.5) + 0.05 * seen
    return clear


def _flattened(answer: Answer, eyes: Array) -> Array:
    """How far the stick's slope on the paper is from its own, as a share of 90 degrees (n,)."""
    head = answer.question.joint.pose.head
    up = unit(Z - eyes[:, 2:] * eyes)
    right = cross(up, eyes)
    on_paper = np.degrees(np.arctan2(up @ head, np.abs(right @ head)))
    flattened: Array = np.abs(on_paper - abs(answer.stick_slope_deg)) / 90.0
    return flattened


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
        f"{_where(answer)}: {cut_name(answer)}",
        notes,
        room,
        _scene(answer, view, shown, reach).at,
    )


def _where(answer: Answer) -> str:
    """What of the board is seen, and in what: a bevel runs along it, and a box is no roof."""
    place = "box" if answer.question.entry.family == BOX else "roof"
    return f"The {'bevel along the board' if answer.is_rip else 'cut end'} in the {place}"


def _scene(answer: Answer, view: View, shown: UnfoldedStick, reach: float) -> Scene:
    """The stick and its mates as they are seen [in of wood]."""
    solid = in_world(shown, answer.question.joint.pose)
    mine = part(view, solid, stick_ends(answer, solid, reach))
    drawing = lines(
        view, mine, (), "visible", "stick", hidden=True, heavy=f"cut {answer.plane_index}"
    )
    named: list[tuple[str, Polygon, bool]] = []
    bodies = shapely.Polygon()
    for mate in mates(answer, shown, 3 * reach, 1.5 if answer.is_rip else 0.5 * reach):
        body = part(view, mate.solid, mate_ends(mate, solid, answer.plane_index, 0.8 * reach, view))
        drawing += lines(view, body, (solid,), "phantom", "mate")
        bodies = bodies.union(body.left)
        named.append((mate_words(mate.name), body.left.difference(mine.left.buffer(0.3)), False))
    clear = mine.left.difference(bodies)
    named.insert(0, ("this board", mine.left if clear.area < 1.0 else clear, True))
    return Scene(drawing, (mine,), tuple(named))
