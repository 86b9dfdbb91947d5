"""The marking gauge run along an arris: how a bevel along the board is laid out by hand."""

from dataclasses import replace

import shapely

from figures.ink.drawing import Area, Box, Drawing, Stroke
from figures.pictures.framing_square import DOT_IN
from figures.pictures.views import arrow_below, surface_alone
from figures.place.dimension import dimension
from figures.place.placing import Words, enlarged, from_labels, in_area
from figures.place.room import Picture
from figures.wood.unfolded import UnfoldedStick, Where, broken, mark_ends
from layout.answer.answer import Answer
from layout.answer.wording import size_words
from layout.tools.setting import RipByHand

BESIDE_LINE_IN = 2.0
"""How much of a face is drawn past its gauge line [in of wood]."""
_SNAP = 1e-6


def gauged(answer: Answer, shown: UnfoldedStick, where: Where, factor: float) -> Picture:
    """A marking gauge run along the arris, its point on the line; or words where there is none."""
    flat = shown.flat(where)
    gauges = answer.hand_setting(as_read=False)
    assert isinstance(gauges, RipByHand)
    set_in = gauges.drop_in if where == "face" else gauges.across_in
    into = -shown.out if where == "face" else shown.out
    left, low, right, high = shown.solid.whole(flat).bounds
    far = shown.arris_v_in + into * (set_in + BESIDE_LINE_IN)
    if where == "face" and low < far < high:
        # The rest of a wide face would only make the line and its distance small.
        low, high = (far, high) if into < 0 else (low, far)
    window = (left - 1.0, low, right + 1.0, high)
    board = surface_alone(shown, where).clipped(window).scaled(factor)
    left, low, right, high = (side * factor for side in (left, low, right, high))
    for u, kept in zip((left, right), shown.ends_kept, strict=True):
        if kept:
            board += broken((u, low), (u, high))
    if where == "face":
        board += broken((left, far * factor), (right, far * factor))
    arris = shown.arris_v_in * factor
    line = arris + into * set_in * factor
    width = high - low
    picture = Picture(board) + _surface_name_plain(shown, where, factor, window)
    middle = (left + right) / 2
    ends = mark_ends(shown, flat, shown.plane_index)
    on_arris = (
        ends is None or min(abs(ends[0][1] * factor - low), abs(ends[0][1] * factor - high)) < 1e-6
    )
    through = abs(set_in * factor - width) < 1e-6
    if through or (where == "face" and on_arris):
        said = (
            "nothing to gauge here:\nthe bevel runs from arris to arris"
            if through
            else "nothing to gauge here:\nthe bevel starts at the arris"
        )
        none = Words(said, (middle, arris if where == "face" else line), 9, always=True)
        return arrow_below(picture + Picture(Drawing(), (none,)), shown, factor)
    drawing = Drawing()
    if on_arris:
        drawing += Drawing((Stroke(((left, line), (right, line)), "guide", "gauge-line"),))
    fence = shapely.box(
        middle - 0.45, min(arris, arris - into * 0.3), middle + 0.45, max(arris, arris - into * 0.3)
    )
    beam = shapely.box(
        middle - 0.09,
        min(arris - into * 0.55, line + into * 0.15),
        middle + 0.09,
        max(arris - into * 0.55, line + into * 0.15),
    )
    tool = shapely.union(fence, beam)
    outline = Stroke(tuple(tool.exterior.coords), "guide", "gauge-outline")
    marks = tuple(each for each in board.strokes if each.pen == "cut")
    bare = replace(board, strokes=tuple(each for each in board.strokes if each.pen != "cut"))
    picture = Picture(bare.without(tool), picture.words)
    drawing += Drawing(
        (outline, *marks),
        (
            Area(tool, "steel", "gauge"),
            Area(shapely.Point(middle, line).buffer(DOT_IN), "ink", "pin"),
        ),
    )
    set_to = size_words(set_in, metric=answer.metric)
    wide = dimension((right - 0.3, arris), (right - 0.3, line), set_to, 0.0, 9.0)
    lines, words = from_labels(wide)
    picture += Picture(drawing) + Picture(lines, words)
    said = f"gauge set to {set_to}"
    picture += Picture(Drawing(), (Words(said, (middle, line), 10, bold=True, always=True),))
    return arrow_below(picture, shown, factor)


def _surface_name_plain(shown: UnfoldedStick, where: Where, factor: float, window: Box) -> Picture:
    flat = shown.flat(where)
    region = shown.solid.slice(flat)
    if region.area < _SNAP:
        region = shown.solid.whole(flat)
    region = shapely.intersection(region, shapely.box(*window))
    return Picture(Drawing(), in_area(shown.name(where), enlarged(region, factor)))
