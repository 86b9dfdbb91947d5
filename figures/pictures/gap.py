"""A cut made with other settings, stood against its mate: the gap drawn true and exaggerated.

The view is along the line in which the plane that was cut and the plane of the mate meet. Both
are seen edge-on there and the wedge between them is true, so that the gap on the paper is the
gap that is measured square to the mate.
"""

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
import shapely
import shapely.affinity

from figures.ink.drawing import Area, Box, Drawing, Polygon, Stroke
from figures.pictures.captions import gap_words, right_words, setting_words
from figures.pictures.saw_front import sorted_box
from figures.place.dimension import dimension
from figures.place.placing import Words, enlarged, from_labels, in_area, largest
from figures.place.room import STUDY_SCALES, Picture, Room, in_room
from figures.wood.drawn_solid import DrawnSolid
from figures.wood.mate import mate_words, the_mate
from figures.wood.projection import View, edges
from figures.wood.scene import points_of
from figures.wood.unfolded import broken, half_spaces, square_across, stick
from layout.answer.answer import Answer
from layout.answer.senses import shoe_side
from layout.tools.fit import SOUND_IN, Fit
from layout.tools.setting import Setting
from layout.vector import Array, X, Y, Z, unit

TIMES = (1000, 500, 200, 100, 50, 20, 10, 5, 4, 3, 2)
SHOWN_IN = 0.6
"""An exaggerated gap is about as wide as this [in on paper]."""
PLAIN_IN = 0.45
"""A gap as wide as this is plain to see and is not exaggerated [in on paper]."""
SEEN_IN = 1 / 16
"""A gap narrower than this is hard to see [in on paper]."""
MATE_IN = 0.35
"""How thick the mate is drawn [in on paper]."""
BESIDE_IN = 1.0
BODY_IN = 2.2
"""How much of the stick is shown behind its cut [in of wood]."""
THIN = 0.05
"""A wedge with less area than this share of its width squared is no wedge to look at."""
LEAST_FACE_IN = 0.1
"""Less of the mate's surface than this is not seen: then it is drawn whole [in on paper]."""
SHORTEST_BREAK_IN = 0.02
"""A cut whose ends lie level with each other leaves no end of the board to break off."""
_SNAP = 1e-6
_FAR_IN = 1e3


@dataclass(frozen=True)
class StoodCut:
    """The made cut against its mate, in the view where both planes are seen edge-on.

    On the paper the mate's surface is the line r = 0 and the stick lies to its left. `corners`
    (4, 2) are the corners of the cut there, in the order of `Cut.corners` [in of wood]. `uncut`
    is the stick before this cut was made. `metric` has the gap written in millimeters.
    """

    view: View
    solid: DrawnSolid
    uncut: DrawnSolid
    corners: Array
    fit: Fit
    along: str
    metric: bool = False

    @property
    def widest(self) -> Array:
        """The corner at which the widest gap opens (2,) [in of wood]."""
        corner: Array = self.corners[int(np.argmax(self.fit.gaps_in))]
        return corner

    @property
    def contact(self) -> Array:
        """A corner at which the cut touches its mate (2,) [in of wood]."""
        corner: Array = self.corners[int(np.argmin(self.fit.gaps_in))]
        return corner

    @cached_property
    def wedge(self) -> Polygon:
        """The gap between the cut and its mate, seen edge-on [in of wood].

        A cut made for the other hand runs away from its mate: then the wood that is missing up
        to the mate is the gap.
        """
        feet = self.corners * np.array([0.0, 1.0])
        hull = shapely.MultiPoint(np.concatenate([self.corners, feet])).convex_hull
        widest = float(self.fit.widest_in)
        if shapely.area(hull) > THIN * widest**2 or self.solid.hollow:
            return hull
        before = shapely.box(-_FAR_IN, -_FAR_IN, 0.0, _FAR_IN)
        missing = shapely.intersection(self.view.silhouette(self.uncut), before)
        missing = missing.difference(self.view.silhouette(self.solid))
        thick = missing.buffer(-_SNAP, join_style="mitre").buffer(_SNAP, join_style="mitre")
        return hull if thick.is_empty else largest(thick)


@dataclass(frozen=True)
class Seen:
    """The stick behind its cut, as far as it is shown: its lines, its outline, its window."""

    lines: Drawing
    body: Polygon
    window: Box


def standing(answer: Answer, setting: Setting) -> StoodCut:
    """The cut that a setting makes, slid along the board until it touches its mate."""
    true_answer = answer.cut
    normal = np.asarray(setting.normal, dtype=float)
    made = replace(true_answer, normal=normal)
    line = np.cross(true_answer.normal, normal)
    if float(np.hypot.reduce(line)) < SOUND_IN:
        line = Y if square_across(true_answer.normal) else np.cross(true_answer.normal, Y)
    line = unit(line)
    up = np.cross(line, true_answer.normal)
    world_up = float(answer.question.joint.pose.to_world(up)[2])
    if world_up < -_SNAP or (abs(world_up) <= _SNAP and up @ (Z + Y) < 0):
        up = -up
    view = View(true_answer.normal, up)
    reach = made.reached() @ true_answer.normal
    if true_answer.runs_along:
        step = -float(reach.max() - true_answer.normal @ true_answer.point) * true_answer.normal
    else:
        step = (
            -float((reach.max() - true_answer.normal @ true_answer.point) / true_answer.normal[0])
            * X
        )
    level = float(true_answer.normal @ true_answer.point)
    shown = stick(answer, kept_in=40.0, waste_in=40.0)
    cuts = tuple(made if i == answer.plane_index else cut for i, cut in enumerate(answer.cuts))
    solid = DrawnSolid(
        {name: side.moved(step) for name, side in shown.solid.sides.items()},
        tuple(space.moved(step) for space in half_spaces(cuts)),
        shown.removals,
    )
    uncut = solid.without(answer.plane_index)
    corners = view.seen(made.reached() + step) - np.array([level, 0.0])
    along = "along the line in which both planes meet"
    for surface, name in ((Y, "face"), (Z, "edge")):
        mark = np.cross(true_answer.normal, surface)
        size = float(np.hypot.reduce(mark))
        if size > _SNAP and abs(abs(float(mark @ line)) / size - 1) < 1e-9:
            along = f"along the {name} mark" if not answer.is_rip else "along the board"
            break
    return StoodCut(
        view,
        _moved_to(solid, view, level),
        _moved_to(uncut, view, level),
        corners,
        answer.fit(setting),
        along,
        answer.metric,
    )


def _moved_to(solid: DrawnSolid, view: View, level: float) -> DrawnSolid:
    """The solid moved so that the mate's plane passes through the origin."""
    step = -level * view.right
    return DrawnSolid(
        {name: side.moved(step) for name, side in solid.sides.items()},
        tuple(cut.moved(step) for cut in solid.cuts),
        solid.removals,
    )


def gap_against_mate(
    answer: Answer, setting: Setting, room: Room, *, brief: bool = False
) -> Drawing:
    """The cut made with a setting against its mate, the gap dimensioned, drawn true.

    Beside it the gap is exaggerated, unless it is plain to see. From (0, 0) to the room's width
    and height [in on paper]. Gids: `made-cut`, `mate-face`, `gap` in the true picture,
    `gap-value` on its dimension; `-exaggerated` behind the same names beside it. `brief` is for
    a small room: the true picture, or where its gap could not be seen the exaggerated one
    alone, without words on what was set. Raises SheetError for a room that is too small.
    """
    stands = standing(answer, setting)
    mate = mate_words(answer.plane.mate_name)
    widest = float(stands.fit.widest_in)
    made = setting_words(setting, shoe=shoe_side(answer), metric=answer.metric)
    notes = [
        f"{made} Correct: {right_words(answer, setting)}",
        f"Seen {stands.along}: cut and mate are edge-on, and the gap is true."
        + ("" if widest < SOUND_IN else f" It opens {stands.fit.opens_at}."),
    ]
    against = the_mate(answer.plane.mate_name)
    heading = f"The cut stood against {against}: {gap_words(widest, metric=answer.metric)}"
    if brief:
        heading, notes = f"Against {against}, seen {stands.along}", []
    seen = _seen(stands)
    draw = _one if brief else _both
    scales = STUDY_SCALES[1:] if brief else STUDY_SCALES  # nothing to lay a board on
    return in_room(
        heading, notes, room, lambda factor: draw(stands, seen, mate, factor), scales=scales
    )


def _one(stands: StoodCut, seen: Seen, mate: str, factor: float) -> Picture:
    """The true picture, or the exaggerated one where the true gap is too fine to be seen."""
    widest = float(stands.fit.widest_in)
    drawn = widest * factor
    if widest < SOUND_IN or drawn >= SEEN_IN:
        return _true(stands, seen, mate, factor)
    times = next((times for times in TIMES if drawn * times <= SHOWN_IN), 2)
    return _exaggerated(stands, mate, factor, times)


def _both(stands: StoodCut, seen: Seen, mate: str, factor: float) -> Picture:
    true = _true(stands, seen, mate, factor)
    widest = float(stands.fit.widest_in)
    drawn = widest * factor
    if widest < SOUND_IN or drawn >= PLAIN_IN:
        return true
    times = next((times for times in TIMES if drawn * times <= SHOWN_IN), 2)
    large = _exaggerated(stands, mate, factor, times)
    _, low, right, high = true.drawing.bounds(words=False)
    left, bottom, _, top = large.drawing.bounds(words=False)
    return true + large.moved(right + BESIDE_IN - left, (low + high - bottom - top) / 2)


def _seen(stands: StoodCut) -> Seen:
    """The stick in the view, cut off a little behind and beside its cut [in of wood]."""
    _, low, _, high = stands.wedge.union(shapely.MultiPoint(stands.corners)).bounds
    back = float(stands.corners[:, 0].min())
    window = (back - BODY_IN, low - 0.8, 1.2, high + 0.8)
    body = shapely.intersection(stands.view.silhouette(stands.solid), shapely.box(*window))
    strokes = tuple(
        Stroke(points_of(part), "visible", "stick")
        for each in edges(stands.view, stands.solid)
        for part in shapely.get_parts(each.visible)
    )
    return Seen(Drawing(strokes).clipped(window), body, window)


def _true(stands: StoodCut, seen: Seen, mate: str, factor: float) -> Picture:
    _, low, _, high = stands.wedge.union(shapely.MultiPoint(stands.corners)).bounds
    body = seen.body
    made = _ends(stands.corners)
    drawing = Drawing(
        (*seen.lines.strokes, Stroke(made, "cut", "made-cut")), (Area(stands.wedge, "gap", "gap"),)
    ).scaled(factor)
    for start, end in _window_cuts(body, seen.window):
        drawing += broken(
            (start[0] * factor, start[1] * factor), (end[0] * factor, end[1] * factor), 0.05
        )
    picture = Picture(drawing + _mate(low, high, factor, "mate-face", body))
    picture += _gap_dimension(stands, factor, 1.0, "gap-value")
    return picture + _names(stands, mate, body, factor, "drawn true")


def _exaggerated(stands: StoodCut, mate: str, factor: float, times: int) -> Picture:
    """The same cut with its gap multiplied: only the end of the stick, all else would mislead."""
    stretch = np.array([times, 1.0])
    corners = stands.corners * stretch
    low, high = float(corners[:, 1].min()), float(corners[:, 1].max())
    made = _ends(corners)
    back = float(corners[:, 0].min()) - min(BODY_IN, 0.8 / factor)
    (r0, u0), (r1, u1) = made
    body = shapely.MultiPoint([(back, u0), (r0, u0), (r1, u1), (back, u1)]).convex_hull
    wedge = shapely.affinity.scale(stands.wedge, times, 1.0, origin=(0, 0))
    drawing = Drawing(
        (
            Stroke(made, "cut", "made-cut-exaggerated"),
            Stroke(((r0, u0), (back, u0)), "visible", "stick"),
            Stroke(((r1, u1), (back, u1)), "visible", "stick"),
        ),
        (Area(wedge, "gap", "gap-exaggerated"),),
    ).scaled(factor)
    if abs(u1 - u0) * factor > SHORTEST_BREAK_IN:
        drawing += broken((back * factor, u0 * factor), (back * factor, u1 * factor), 0.05)
    picture = Picture(drawing + _mate(low, high, factor, "mate-face-exaggerated"))
    picture += _gap_dimension(stands, factor, float(times), "gap-value-exaggerated")
    said = f"NOT TO SCALE:\ngap exaggerated {times} times"
    return picture + _names(stands, mate, body, factor, said)


def _ends(corners: Array) -> tuple[tuple[float, float], tuple[float, float]]:
    """The lowest and the highest of the corners, which all lie on one line."""
    # The two farthest apart: a cut square to its mate has all corners at one height.
    apart = np.hypot(*(corners[:, None, :] - corners[None, :, :]).transpose(2, 0, 1))
    i, j = np.unravel_index(int(np.argmax(apart)), apart.shape)
    low, high = sorted((corners[i], corners[j]), key=lambda spot: (float(spot[1]), float(spot[0])))
    return (float(low[0]), float(low[1])), (float(high[0]), float(high[1]))


def _mate(low: float, high: float, factor: float, gid: str, body: Polygon | None = None) -> Drawing:
    """The mate's surface at r = 0, with a strip of the mate behind it [in on paper].

    Where the other half of a hollow end stands beyond the surface, the mate gives way.
    """
    bottom, top = low * factor - 0.25, high * factor + 0.25
    strip, line = (
        shapely.box(0.0, bottom, MATE_IN, top),
        shapely.LineString([(0, bottom), (0, top)]),
    )
    if body is not None:
        beyond = shapely.box(0.01, -1e3, 1e3, 1e3)
        other = shapely.intersection(enlarged(body, factor), beyond).buffer(0.02)
        rest = shapely.difference(line, other)
        if rest.length > LEAST_FACE_IN:
            strip, line = largest(shapely.difference(strip, other)), rest
    return Drawing(
        tuple(
            Stroke(tuple((float(x), float(y)) for x, y in part.coords), "visible", gid)
            for part in shapely.get_parts(line)
            if not part.is_empty
        ),
        (Area(strip, "section", "mate-section"),),
    )


def _gap_dimension(stands: StoodCut, factor: float, times: float, gid: str) -> Picture:
    widest = float(stands.fit.widest_in)
    r, u = (float(value) for value in stands.widest * np.array([times, 1.0]) * factor)
    if widest < SOUND_IN:
        said = Words("no gap", (0.0, u), 10, bold=True, gid=gid, always=True)
        return Picture(Drawing(), (said,))
    _, low, _, high = (side * factor for side in stands.wedge.bounds)
    way = 1.0 if high - u < u - low else -1.0
    off = (high - u if way > 0 else u - low) + 0.32
    said_gap = gap_words(widest, metric=stands.metric).removeprefix("gap ")
    drawn = dimension((r, u), (0.0, u), said_gap, way * off, 10.0, gid)
    lines, words = from_labels(drawn, (r / 2, u + way * off), ways=(90.0 * way,))
    return Picture(lines, words)


def _names(stands: StoodCut, mate: str, body: Polygon, factor: float, said: str) -> Picture:
    """The mate's name, KEPT in the stick, and what kind of picture this is."""
    low, high = float(stands.corners[:, 1].min()), float(stands.corners[:, 1].max())
    paper = enlarged(body, factor)
    middle = (low + high) / 2 * factor
    touching = (0.0, float(stands.contact[1]) * factor)
    left, bottom, right, top = paper.bounds
    # A notched board runs on past the mate's surface: named there, the mate would be the board.
    before = shapely.box(min(left, 0.0), bottom, 0.0, top)
    under = min(bottom, low * factor - 0.25)
    words = [
        *in_area("board", largest(shapely.intersection(paper, before)), 8.5),
        Words(mate, (MATE_IN, middle), 9, bold=True, ways=(0.0,)),
        Words(said, ((left + right) / 2, under), 9, bold=True, ways=(-90.0,), leader=False),
    ]
    if float(stands.fit.widest_in) >= SOUND_IN:
        words.append(Words("touches here", touching, 8.5, always=True, ways=(0.0,), optional=True))
    return Picture(Drawing(), tuple(words))


def _window_cuts(
    body: Polygon, window: Box
) -> list[tuple[tuple[float, float], tuple[float, float]]]:
    """Where the window's sides cut through the stick: there it runs on."""
    left, bottom, right, top = window
    sides = (
        ((left, bottom), (left, top)),
        ((left, bottom), (right, bottom)),
        ((left, top), (right, top)),
        ((right, bottom), (right, top)),
    )
    found = []
    edge = shapely.boundary(body)
    for side in sides:
        strip = shapely.box(*sorted_box(*side[0], *side[1])).buffer(_SNAP)
        cut = shapely.line_merge(shapely.intersection(edge, strip))
        for part in shapely.get_parts(cut):
            if part.geom_type == "LineString" and part.length > 0.05:
                start, end = part.coords[0], part.coords[-1]
                found.append(((start[0], start[1]), (end[0], end[1])))
    return found
