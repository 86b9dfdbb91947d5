"""The board unrolled: all four sides on one paper, with every line that the joint leaves on them.

The right face lies lowest, then the top edge, the left face and the bottom edge, each folded up
over the arris it shares with the one below; the head is at the right on all of them.
"""

from dataclasses import replace

import shapely

from figures.ink.drawing import Area, Drawing, Polygon, Stroke
from figures.pictures.captions import hand_note
from figures.pictures.views import way_to_head
from figures.place.placing import in_area
from figures.place.room import Picture, Room, in_room
from figures.wood.unfolded import UnfoldedStick, broken, stick
from figures.wood.unroll import Traced, on_paper, section, traced, unrolled
from layout.answer.answer import Answer

ROUND = ("right face", "top edge", "left face", "bottom edge")


def developed(answer: Answer, room: Room) -> Drawing:
    """All four sides unrolled, marks heavy, waste hatched, folds dashed.

    From (0, 0) to the room's width and height [in on paper]. Gids: `SIDE-mark` for the answer's
    plane (`right-face-mark`), with `-2` for the joint's other one; `SIDE-waste`; `fold`. Raises
    SheetError for a room that is too small.
    """
    shown = stick(answer)
    panels = unrolled(section(answer), ROUND, shown.foot_in, shown.head_in)
    removals = answer.question.joint.removals
    found = [traced(panel, answer.cuts, removals) for panel in panels]
    notes = [
        "Each side is folded up over the dashed arris below it; the bottom edge meets the right"
        " face again at the arris that is drawn at the top and at the bottom.",
        hand_note(answer),
    ]
    return in_room(
        "The board unrolled: all four sides",
        notes,
        room,
        lambda factor: _picture(answer, shown, found, factor),
    )


def _picture(answer: Answer, shown: UnfoldedStick, sides: list[Traced], factor: float) -> Picture:
    picture = Picture(Drawing())
    for side in sides:
        picture += _side(answer, side, factor)
    left, bottom, right, _ = sides[0].panel.box
    top = sides[-1].panel.box[3]
    for u in (left, right):
        start, end = (u * factor, bottom * factor), (u * factor, top * factor)
        if _kept_at(sides, u):
            picture += Picture(broken(start, end))
        else:
            picture += Picture(Drawing((Stroke((start, end), "visible", "board-end"),)))
    lying = replace(shown, face="right")
    arrow = way_to_head(lying, factor)
    low = picture.drawing.bounds()[1]
    return arrow.moved(0.0, low - 0.2 - arrow.drawing.bounds()[3]) + picture


def _kept_at(sides: list[Traced], u: float) -> bool:
    """Whether the board runs on past one end of the paper."""
    strip = shapely.box(u - 1e-3, -1e3, u + 1e-3, 1e3)
    return any(side.kept.intersection(strip).area > 1e-6 for side in sides)


def _side(answer: Answer, side: Traced, factor: float) -> Picture:
    panel, gid = side.panel, side.panel.gid
    left, bottom, right, top = panel.box
    first, last = panel.name == ROUND[0], panel.name == ROUND[-1]
    strokes = [
        Stroke(((left, v), (right, v)), pen, name)
        for v, pen, name in (
            (bottom, "visible" if first else "fold", "outline" if first else "fold"),
            *(((top, "visible", "outline"),) if last else ()),
        )
    ]
    # A line of a rip that bounds no waste on its side, or no kept wood, is left standing.
    stays = answer.is_rip and min(side.kept.area, side.waste.area) < 1e-6
    for mark in side.marks:
        suffix = "" if mark.plane_index == answer.plane_index else "-2"
        strokes.append(Stroke(mark.line, "stays" if stays else "cut", f"{gid}-mark{suffix}"))
    waste = tuple(
        Area(part, "waste", f"{gid}-waste")
        for part in shapely.get_parts(side.waste)
        if part.geom_type == "Polygon"
    )
    drawing = Drawing(tuple(strokes), waste).scaled(factor)
    whole = on_paper(panel.shape(), factor)
    words = (
        *in_area(panel.name, _clear(side.kept, panel.shape(), factor), 9.0, off=whole),
        *in_area("WASTE", on_paper(side.waste, factor), 8.5, bold=True, optional=True),
    )
    return Picture(drawing, words)


def _clear(kept: Polygon, whole: Polygon, factor: float) -> Polygon:
    """Where a side's name may stand: on its kept wood, or anywhere on it where none is kept."""
    return on_paper(kept if kept.area > 1e-3 else whole, factor)
