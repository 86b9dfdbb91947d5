"""A cut made with other settings, stood against its mate: the gap drawn true, its end enlarged.

The view is along the line in which the plane that was cut and the plane of the mate meet. Both
are seen edge-on there and the wedge between them is true, so that the gap on the paper is the
gap that is measured square to the mate.
"""

from dataclasses import dataclass, replace

import numpy as np
import shapely

from figures.ink.drawing import Area, Box, Drawing, Label, Polygon, Stroke
from figures.pictures.captions import gap_words, right_words, setting_words
from figures.pictures.saw_front import sorted_box
from figures.pictures.stood_cut import StoodCut, standing
from figures.place.dimension import dimension
from figures.place.placing import Words, enlarged, from_labels, in_area, largest
from figures.place.room import STUDY_SCALES, Picture, Room, in_room
from figures.wood.mate import mate_words, the_mate
from figures.wood.projection import edges
from figures.wood.scene import points_of
from figures.wood.unfolded import broken
from layout.answer.answer import Answer
from layout.answer.senses import shoe_side
from layout.tools.fit import SOUND_IN
from layout.tools.setting import Setting
from layout.vector import Array, X

TIMES = (1000, 500, 200, 100, 50, 40, 30, 20, 15, 10, 8, 6, 5, 4, 3, 2)
SHOWN_IN = 0.4
"""An enlarged gap is no wider than this [in on paper]."""
PLAIN_IN = 0.12
"""A gap as wide as this is plain to see and needs no enlarging [in on paper]."""
AROUND_IN = (0.45, 0.12)
"""What is enlarged with a gap: along the cut toward the contact, and past its end [in on paper]."""
BEHIND_IN = 0.5
"""How much wood is enlarged behind the gap [in on paper]."""
CIRCLE_IN = 0.09
"""Least radius of the circle about what is enlarged [in on paper]."""
WIDE_IN, SIDE_IN = 5.0, 1.0
"""In a room wider than this the faces are named, so far behind the cut [in on paper, of wood]."""
SEEN_IN = 1 / 16
"""A gap narrower than this is hard to see [in on paper]."""
MATE_IN = 0.35
"""How thick the mate is drawn [in on paper]."""
BESIDE_IN = 0.8
BODY_IN = 2.2
"""How much of the stick is shown behind its cut [in of wood]."""
LEAST_FACE_IN = 0.1
"""Less of the mate's surface than this is not seen: then it is drawn whole [in on paper]."""
SHORTEST_BREAK_IN = 0.02
"""A cut whose ends lie level with each other leaves no end of the board to break off."""
_SNAP = 1e-6
Breaks = list[tuple[tuple[float, float], tuple[float, float]]]
"""Lines along which a stick is broken off in a picture [in of wood]."""


@dataclass(frozen=True)
class Seen:
    """The stick behind its cut, as far as it is shown: its lines, its outline, and where it runs
    on past the window."""

    lines: Drawing
    body: Polygon
    breaks: Breaks


def gap_against_mate(
    answer: Answer, setting: Setting, room: Room, *, brief: bool = False
) -> Drawing:
    """The cut made with a setting against its mate, the gap dimensioned, drawn true.

    Unless the gap is plain to see, a circle stands about its wide end, and beside the picture
    that end is enlarged, all of it alike: board, gap and mate keep their angles. From (0, 0) to
    the room's width and height [in on paper]. Gids: `made-cut`, `mate-face`, `gap` in the true
    picture, `-enlarged` behind the same names in what is enlarged; `circle`; `gap-value` on the
    dimension, which stands where the gap is largest. `brief` is for a small room: without words
    on what was set, and with nothing enlarged where the gap can be seen at all. Raises
    SheetError for a room that is too small.
    """
    return StoodAgainst(answer, setting, brief).in_room(room)


class StoodAgainst:
    """The picture of `gap_against_mate`, for any room: what no room changes is asked once."""

    def __init__(self, answer: Answer, setting: Setting, brief: bool = False) -> None:
        self.answer, self.setting, self.brief = answer, setting, brief
        self.stands = standing(answer, setting)
        self._mate = mate_words(answer.plane.mate_name)
        self._seen = _seen(self.stands)
        self._drawn: dict[float, Picture] = {}

    def in_room(self, room: Room) -> Drawing:
        """The picture from (0, 0) to the room's width and height [in on paper]."""
        answer, setting = self.answer, self.setting
        against = the_mate(answer.plane.mate_name)
        heading, notes = f"Against {against}, seen {self.stands.along}", []
        if not self.brief:
            widest = float(self.stands.fit.widest_in)
            heading = f"The cut stood against {against}: {gap_words(widest, metric=answer.metric)}"
            notes = self._notes(widest)
        sides = () if self.brief or room[0] < WIDE_IN else _sides(answer, setting, self.stands)
        scales = STUDY_SCALES[1:] if self.brief else STUDY_SCALES  # nothing to lay a board on
        return in_room(
            heading,
            notes,
            room,
            lambda factor: self._at(factor) + _said(sides, factor),
            scales=scales,
        )

    def _notes(self, widest_in: float) -> list[str]:
        answer, setting = self.answer, self.setting
        made = setting_words(setting, shoe=shoe_side(answer), metric=answer.metric)
        opens = "" if widest_in < SOUND_IN else f" It opens {self.stands.fit.opens_at}."
        return [
            f"{made} Correct: {right_words(answer, setting)}",
            f"Seen {self.stands.along}, the mate turned upright at the right: the gap is true."
            + opens,
        ]

    def _at(self, factor: float) -> Picture:
        """The picture at a scale."""
        if factor not in self._drawn:
            draw = _one if self.brief else _both
            self._drawn[factor] = draw(self.stands, self._seen, self._mate, factor)
        return self._drawn[factor]


def _sides(
    answer: Answer, setting: Setting, stands: StoodCut
) -> tuple[tuple[str, tuple[float, float], float], ...]:
    """Seen along the face mark: both faces and the long point, where each lies on the paper, and
    the way to white paper [in of wood, deg]."""
    if stands.along != "along the face mark" or answer.is_rip or len(answer.cuts) > 1:
        # One cheek of two, or of a notch, reaches one face and not the other.
        return ()
    reached = replace(answer.cut, normal=np.asarray(setting.normal)).reached()
    back = stands.view.seen(X) * (-1.0 if answer.cut.at_head else 1.0)
    at_right = reached[:, 1] < answer.question.stock.thickness_in / 2
    corners = {
        name: stands.corners[int(np.flatnonzero(here)[0])]
        for name, here in (("right face", at_right), ("left face", ~at_right))
    }
    middle = (corners["right face"] + corners["left face"]) / 2
    longest = int(np.argmax(reached[:, 0] * (1.0 if answer.cut.at_head else -1.0)))
    spots = [(name, corner + SIDE_IN * back) for name, corner in corners.items()]
    spots.append(("long point", stands.corners[longest]))
    return tuple(
        (name, (float(at[0]), float(at[1])), 120.0 if at[1] > middle[1] else -120.0)
        for name, at in spots
    )


def _said(sides: tuple[tuple[str, tuple[float, float], float], ...], factor: float) -> Picture:
    words = (
        Words(name, (at[0] * factor, at[1] * factor), 8.5, always=True, ways=(way,))
        for name, at, way in sides
    )
    return Picture(Drawing(), tuple(words))


def _one(stands: StoodCut, seen: Seen, mate: str, factor: float) -> Picture:
    """The true picture with its dimension in it, its end enlarged beside it where it is fine."""
    drawn = float(stands.fit.widest_in) * factor
    if drawn >= SEEN_IN:
        return _measured(stands, seen, mate, factor)
    return _both(stands, seen, mate, factor)


def _both(stands: StoodCut, seen: Seen, mate: str, factor: float) -> Picture:
    widest = float(stands.fit.widest_in)
    drawn = widest * factor
    if widest < SOUND_IN or drawn >= PLAIN_IN:
        return _measured(stands, seen, mate, factor)
    true = _true(stands, seen, mate, factor)
    true += _circle(stands, factor)
    large = _enlarged(stands, seen, factor, _times(drawn))
    _, low, right, high = true.drawing.bounds(words=False)
    left, bottom, _, top = large.drawing.bounds(words=False)
    return true + large.moved(right + BESIDE_IN - left, (low + high - bottom - top) / 2)


def _times(drawn_in: float) -> int:
    """How many times a gap is enlarged that is drawn so wide [in on paper]."""
    return next((times for times in TIMES if drawn_in * times <= SHOWN_IN), 2)


def _circle(stands: StoodCut, factor: float) -> Picture:
    """A circle about the wide end of the gap [in on paper]."""
    r, u = (float(value) * factor for value in stands.widest)
    radius = max(CIRCLE_IN, abs(r) / 2 + 0.05)
    rim = points_of(shapely.Point(r / 2, u).buffer(radius, 16).exterior)
    return Picture(Drawing((Stroke(rim, "guide", "circle"),)))


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
    return Seen(Drawing(strokes).clipped(window), body, _window_cuts(body, window))


def _true(stands: StoodCut, seen: Seen, mate: str, factor: float) -> Picture:
    _, low, _, high = stands.wedge.union(shapely.MultiPoint(stands.corners)).bounds
    body = seen.body
    made = _ends(stands.corners)
    drawing = Drawing(
        (*seen.lines.strokes, Stroke(made, "cut", "made-cut")), (Area(stands.wedge, "gap", "gap"),)
    ).scaled(factor)
    for start, end in seen.breaks:
        drawing += broken(
            (start[0] * factor, start[1] * factor), (end[0] * factor, end[1] * factor), 0.05
        )
    picture = Picture(drawing + _mate(low, high, factor, "mate-face", body))
    return picture + _names(stands, mate, body, factor)


def _measured(stands: StoodCut, seen: Seen, mate: str, factor: float) -> Picture:
    """The true picture with the gap's dimension in it."""
    _, low, _, high = (side * factor for side in stands.wedge.bounds)
    dimensioned = _gap_dimension(stands, factor, (low, high))
    return _true(stands, seen, mate, factor) + dimensioned


def _enlarged(stands: StoodCut, seen: Seen, factor: float, times: int) -> Picture:
    """The wide end of the gap some times larger than in the true picture, and as true.

    On paper its scale may be that of no drawing office, so it is said how many times larger it
    is than what stands beside it, which a copy of any size leaves true.
    """
    large = factor * times
    r, u = (float(value) for value in stands.widest)
    _, low, _, high = stands.wedge.bounds
    toward, past = (share / large for share in AROUND_IN)
    below, above = (toward, past) if u - low > high - u else (past, toward)
    window = (r - BEHIND_IN / large, u - below, MATE_IN / large, u + above)
    body = shapely.intersection(seen.body, shapely.box(*window))
    (r0, u0), (r1, u1) = _ends(stands.corners)
    lines = Drawing(
        (*seen.lines.strokes, Stroke(((r0, u0), (r1, u1)), "cut", "made-cut-enlarged")),
        (Area(stands.wedge, "gap", "gap-enlarged"),),
    ).clipped(window)
    drawing = lines.scaled(large)
    for start, end in _window_cuts(body, window):
        drawing += broken(
            (start[0] * large, start[1] * large), (end[0] * large, end[1] * large), 0.05
        )
    drawing += _mate(u - below, u + above, large, "mate-face-enlarged", body, past_in=0.0)
    picture = Picture(drawing)
    # Past the end of the gap, where the window ends and nothing else is drawn.
    picture += _gap_dimension(stands, large, ((u - below) * large, (u + above) * large))
    left, bottom, right, top = drawing.bounds(words=False)
    across, up = (left + right) / 2, (bottom + top) / 2
    text = f"circled end, {times} times larger"
    first = (
        Label(text, across, bottom - 0.05, 8.5, "center", "top", bold=True, gid="times-larger"),
        Label(text, across, top + 0.05, 8.5, "center", "bottom", bold=True, gid="times-larger"),
        Label(text, right + 0.06, up, 8.5, "left", "center", bold=True, gid="times-larger"),
    )
    said = Words(text, (across, bottom), 8.5, True, "times-larger", first, leader=False)
    return picture + Picture(Drawing(), (said,))


def _ends(corners: Array) -> tuple[tuple[float, float], tuple[float, float]]:
    """The lowest and the highest of the corners, which all lie on one line."""
    # The two farthest apart: a cut square to its mate has all corners at one height.
    apart = np.hypot(*(corners[:, None, :] - corners[None, :, :]).transpose(2, 0, 1))
    i, j = np.unravel_index(int(np.argmax(apart)), apart.shape)
    low, high = sorted((corners[i], corners[j]), key=lambda spot: (float(spot[1]), float(spot[0])))
    return (float(low[0]), float(low[1])), (float(high[0]), float(high[1]))


def _mate(
    low: float, high: float, factor: float, gid: str, body: Polygon, past_in: float = 0.25
) -> Drawing:
    """The mate's surface at r = 0, with a strip of the mate behind it [in on paper].

    It runs `past_in` past both ends. Where the other half of a hollow end stands beyond the
    surface, the mate gives way.
    """
    bottom, top = low * factor - past_in, high * factor + past_in
    strip, line = (
        shapely.box(0.0, bottom, MATE_IN, top),
        shapely.LineString([(0, bottom), (0, top)]),
    )
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


def _gap_dimension(stands: StoodCut, factor: float, drawn: tuple[float, float]) -> Picture:
    """How wide the gap is, past the end of what is `drawn` from low to high [in on paper]."""
    widest = float(stands.fit.widest_in)
    r, u = (float(value) for value in stands.widest * factor)
    if widest < SOUND_IN:
        said = Words("no gap", (0.0, u), 10, bold=True, gid="gap-value", always=True)
        return Picture(Drawing(), (said,))
    low, high = drawn
    way = 1.0 if high - u < u - low else -1.0
    off = (high - u if way > 0 else u - low) + 0.24
    said_gap = gap_words(widest, metric=stands.metric).removeprefix("gap ")
    line = dimension((r, u), (0.0, u), said_gap, way * off, 10.0, "gap-value")
    lines, words = from_labels(line, (r / 2, u + way * off), ways=(90.0 * way,))
    return Picture(lines, words)


def _names(stands: StoodCut, mate: str, body: Polygon, factor: float) -> Picture:
    """The names of board and mate, each in its own wood or led to it, and where they touch."""
    low, high = float(stands.corners[:, 1].min()), float(stands.corners[:, 1].max())
    paper = enlarged(body, factor)
    middle = (low + high) / 2 * factor
    touching = (0.0, float(stands.contact[1]) * factor)
    left, bottom, _, top = paper.bounds
    # A notched board runs on past the mate's surface: named there, the mate would be the board.
    before = shapely.box(min(left, 0.0), bottom, 0.0, top)
    # A name that stands in the mate's hatching would name the mate: beside it, an arrow leads.
    hatched = shapely.box(-0.02, low * factor - 0.6, MATE_IN + 0.6, high * factor + 0.6)
    words = [
        *in_area(
            "board",
            largest(shapely.intersection(paper, before)),
            8.5,
            off=hatched,
            ways=(180.0, 200.0, 160.0),
        ),
        Words(mate, (MATE_IN, middle), 9, bold=True, ways=(0.0,)),
    ]
    if float(stands.fit.widest_in) >= SOUND_IN:
        words.append(Words("touches here", touching, 8.5, always=True, ways=(0.0,), optional=True))
    return Picture(Drawing(), tuple(words))


def _window_cuts(body: Polygon, window: Box) -> Breaks:
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
