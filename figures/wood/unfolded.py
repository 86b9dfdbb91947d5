"""The stick as it is laid out: which face and edge are shown, and both unfolded on one paper.

The face lies on the paper with its depth up; the edge is folded out from the arris they share.
On the right face the head is at the right, on the left face at the left. Coordinates on the
paper: u along the board (x, or -x on the left face), v up the depth from the bottom edge [in].
"""

from dataclasses import dataclass
from functools import cached_property
from typing import Literal, cast

import numpy as np
import shapely

from figures.ink.drawing import Area, Drawing, Polygon, Stroke
from figures.ink.pens import Point
from figures.wood.drawn_solid import DrawnFlat, DrawnSolid, HalfSpace, box, through
from layout.answer.answer import Answer
from layout.plane.cut import ALONG, Cut
from layout.vector import Array, X, Y, Z

FaceName = Literal["right", "left"]
EdgeName = Literal["top", "bottom"]
Where = Literal["face", "edge"]

LONGEST = 3.0
"""A mark that runs farther than this times the depth along the board is not shown whole."""
_SNAP = 1e-6


@dataclass(frozen=True)
class UnfoldedStick:
    """A length of board with the answer's planes marked on it, seen on `face` and `edge`.

    It runs from `foot_in` to `head_in` along its own x [in]. `cuts` are the joint's planes and
    `plane_index` the one that the answer is about.
    """

    cuts: tuple[Cut, ...]
    plane_index: int
    removals: tuple[tuple[int, ...], ...]
    thickness_in: float
    depth_in: float
    face: FaceName
    edge: EdgeName
    foot_in: float
    head_in: float

    @property
    def cut(self) -> Cut:
        """The plane that the answer is about."""
        return self.cuts[self.plane_index]

    @property
    def face_y_in(self) -> float:
        """y of the face that is shown [in]."""
        return 0.0 if self.face == "right" else self.thickness_in

    @property
    def edge_z_in(self) -> float:
        """z of the edge that is shown [in]."""
        return self.depth_in if self.edge == "top" else 0.0

    @cached_property
    def solid(self) -> DrawnSolid:
        """The wood that is kept, in board axes."""
        whole = box(
            np.array([self.foot_in, 0.0, 0.0]),
            np.array([self.head_in, self.thickness_in, self.depth_in]),
        )
        return DrawnSolid(whole.sides, half_spaces(self.cuts), self.removals)

    @property
    def to_head(self) -> float:
        """+1 where the head is at the right of the paper, -1 where it is at the left."""
        return 1.0 if self.face == "right" else -1.0

    @property
    def to_kept(self) -> float:
        """+1 where the kept wood lies at the right of the cut, -1 at the left; 0 for a rip."""
        return -self.to_head * float(np.sign(np.round(self.cut.normal[0], 12)))

    @cached_property
    def face_flat(self) -> DrawnFlat:
        """The shown face, u and v as on the paper."""
        return DrawnFlat(np.array([0.0, self.face_y_in, 0.0]), self.to_head * X, Z)

    @cached_property
    def edge_flat(self) -> DrawnFlat:
        """The shown edge folded on to the paper from the arris it shares with the face.

        v grows away from the face above the top arris and falls away below the bottom one.
        """
        inward = Y if self.face == "right" else -Y
        up = inward if self.edge == "top" else -inward
        arris = np.array([0.0, self.face_y_in, self.edge_z_in])
        return DrawnFlat(arris - self.edge_z_in * up, self.to_head * X, up)

    def flat(self, where: Where) -> DrawnFlat:
        """The shown face or the shown edge."""
        return self.face_flat if where == "face" else self.edge_flat

    def name(self, where: Where) -> str:
        """Which face or edge that is."""
        return f"{self.face} face" if where == "face" else f"{self.edge} edge"

    @property
    def arris_v_in(self) -> float:
        """v of the arris that face and edge share [in]."""
        return self.edge_z_in

    @property
    def out(self) -> float:
        """+1 where the edge is folded up from its arris, -1 where it is folded down."""
        return 1.0 if self.edge == "top" else -1.0

    @cached_property
    def ends_kept(self) -> tuple[bool, bool]:
        """Whether wood is kept at the left and the right end of the paper."""
        kept = []
        for x in (self.foot_in, self.head_in):
            section = self.solid.slice(DrawnFlat(np.array([x, 0.0, 0.0]), Y, Z))
            kept.append(bool(section.area > _SNAP))
        return (kept[0], kept[1]) if self.face == "right" else (kept[1], kept[0])


def half_spaces(cuts: tuple[Cut, ...]) -> tuple[HalfSpace, ...]:
    """The kept side of every cut."""
    return tuple(through(cut.normal, cut.point) for cut in cuts)


def stick(answer: Answer, kept_in: float = 0.0, waste_in: float = 0.0) -> UnfoldedStick:
    """The length of board that shows an answer's marks, with kept wood and waste beside [in].

    The face is the one that this plane marks, the right one where it marks both; the edge is
    the top one unless the plane only marks the bottom.
    """
    cut, stock = answer.cut, answer.question.stock
    (y0, _), (_, z1) = cut.span
    face: FaceName = "right" if y0 <= _SNAP else "left"
    edge: EdgeName = "top" if z1 >= stock.depth_in - _SNAP else "bottom"
    if answer.is_rip:
        edge = "top" if cut.normal[2] > 0 else "bottom"
        face = _rip_face(cut, stock.thickness_in, stock.depth_in)
    removals = answer.question.joint.removals
    face_y = 0.0 if face == "right" else stock.thickness_in
    edge_z = stock.depth_in if edge == "top" else 0.0
    kept = max(kept_in, 0.7 * stock.depth_in, 2.5)
    waste = max(waste_in, 0.4 * stock.depth_in, 1.5)
    if answer.is_rip:
        foot, head = -kept, kept
    else:
        corners = [float(x) for each in answer.cuts for x in each.corners()[:, 0]]
        anchor = float(cut.x_at(face_y, edge_z))
        most = LONGEST * max(stock.depth_in, 4.0)
        low, high = min(corners), max(corners)
        if high - low > most:
            # Keep the arris where face and edge meet, and let the far end run off.
            low, high = max(low, anchor - most), min(high, anchor + most)
            if high - low > most:
                low, high = anchor - most / 2, anchor + most / 2
        at_head = bool(cut.normal[0] > 0)
        notched = is_notch(answer)
        foot = low - (kept if at_head or notched else waste)
        head = high + (waste if at_head and not notched else kept)
    return UnfoldedStick(
        answer.cuts,
        answer.plane_index,
        removals,
        stock.thickness_in,
        stock.depth_in,
        face,
        edge,
        foot,
        head,
    )


def is_notch(answer: Answer) -> bool:
    """True where the planes take a notch out of the board, which runs on to both sides of it."""
    ways = [bool(cut.normal[0] > 0) for cut in answer.cuts if not cut.runs_along]
    return not answer.question.joint.point and any(ways) and not all(ways)


def _rip_face(cut: Cut, thickness_in: float, depth_in: float) -> FaceName:
    """The face on which a bevel is gauged: the one to which it leans, where it gets there."""
    (y0, y1), _ = cut.span
    outer, inner, y = (
        ("right", "left", 0.0) if cut.normal[1] < 0 else ("left", "right", thickness_in)
    )
    reaches = y0 <= _SNAP if outer == "right" else y1 >= thickness_in - _SNAP
    fall = abs(float(cut.normal[1] / cut.normal[2]) * (y - float(cut.point[1])))
    return cast(FaceName, outer if reaches and fall < depth_in - _SNAP else inner)


def unfolded(shown: UnfoldedStick, factor: float) -> Drawing:
    """Face and edge on one paper at a scale, marks heavy, waste as areas [in on paper].

    Gids: `face`, `edge`, `arris`, `face-mark`, `edge-mark` for the answer's plane, `-2` behind
    the latter for the joint's other plane, `face-waste`, `edge-waste`.
    """
    drawing = surface(shown, "face") + surface(shown, "edge", alone=False)
    paper = drawing.scaled(factor)
    left, bottom, right, top = both_bounds(shown)
    for u, is_kept in zip((left, right), shown.ends_kept, strict=True):
        if is_kept:
            paper += broken((u * factor, bottom * factor), (u * factor, top * factor))
    return paper


def surface(shown: UnfoldedStick, name: Where, *, alone: bool = True) -> Drawing:
    """The face or the edge with its marks, open where the board runs on [in of wood].

    An edge that is not `alone` leaves the arris it shares to the face.
    """
    flat = shown.flat(name)
    whole, kept = shown.solid.whole(flat), shown.solid.slice(flat)
    left, bottom, right, top = whole.bounds
    ends = tuple(
        Stroke(((u, bottom), (u, top)), "visible", f"{name}-end")
        for u, is_kept in zip((left, right), shown.ends_kept, strict=True)
        if not is_kept
    )
    return Drawing(
        (*_long_sides(name, shown, whole, alone), *ends, *mark_strokes(shown, name)),
        waste_areas(whole, kept, f"{name}-waste"),
    )


def both_bounds(shown: UnfoldedStick) -> tuple[float, float, float, float]:
    """Left, bottom, right, top of face and edge together on the paper [in of wood]."""
    left, right = sorted((shown.to_head * shown.foot_in, shown.to_head * shown.head_in))
    low = 0.0 if shown.edge == "top" else -shown.thickness_in
    high = shown.depth_in + (shown.thickness_in if shown.edge == "top" else 0.0)
    return left, low, right, high


def mark_strokes(shown: UnfoldedStick, name: Where) -> list[Stroke]:
    """Every line to be cut along on the shown face or edge, heavy [in of wood].

    A line of a rip that bounds no waste there, or no kept wood, is left standing and drawn so.
    """
    flat = shown.flat(name)
    whole, kept = shown.solid.whole(flat).area, shown.solid.slice(flat).area
    stays = shown.to_kept == 0 and min(kept, whole - kept) < _SNAP
    pen = "stays" if stays else "cut"
    strokes = []
    for plane_index in (
        shown.plane_index,
        *(i for i in range(len(shown.cuts)) if i != shown.plane_index),
    ):
        points = mark_ends(shown, flat, plane_index)
        if points is not None:
            suffix = "" if plane_index == shown.plane_index else "-2"
            strokes.append(Stroke(points, pen, f"{name}-mark{suffix}"))
    return strokes


def mark_ends(
    shown: UnfoldedStick, flat: DrawnFlat, plane_index: int
) -> tuple[Point, Point] | None:
    """Both ends of a plane's mark on a surface, the one nearer the shared arris first."""
    line = shown.solid.mark(plane_index, flat)
    if line is None:
        return None
    start, end = ((float(u), float(v)) for u, v in line.coords)
    if abs(start[1] - shown.arris_v_in) > abs(end[1] - shown.arris_v_in):
        start, end = end, start
    return start, end


def waste_areas(whole: Polygon, kept: Polygon, gid: str) -> tuple[Area, ...]:
    """What is cut away of a surface, as areas to be hatched.

    What is kept of no width, as the line on which two bevels meet, parts no waste.
    """
    wide = [part for part in shapely.get_parts(kept) if part.area > _SNAP]
    waste = shapely.difference(whole, shapely.union_all(wide))
    return tuple(
        Area(part, "waste", gid)
        for part in shapely.get_parts(waste)
        if part.geom_type == "Polygon" and part.area > _SNAP
    )


def _long_sides(name: str, shown: UnfoldedStick, whole: Polygon, alone: bool) -> list[Stroke]:
    left, bottom, right, top = whole.bounds
    sides = []
    for v in (bottom, top):
        shared = abs(v - shown.arris_v_in) < _SNAP
        if shared and name == "edge" and not alone:
            continue
        sides.append(
            Stroke(
                ((left, v), (right, v)),
                "fold" if shared else "visible",
                "arris" if shared else name,
            )
        )
    return sides


def broken(start: Point, end: Point, past_in: float = 0.08, jog_in: float = 0.07) -> Drawing:
    """A long break line between two points on paper, with a jog in its middle [in].

    It runs `past_in` past either point and its jog is `jog_in` to either side.
    """
    p, q = np.array(start), np.array(end)
    length = float(np.hypot(*(q - p)))
    along = (q - p) / length
    across = np.array([-along[1], along[0]])
    middle = (p + q) / 2
    jog = min(jog_in, length / 4)
    spots = (
        p - past_in * along,
        middle - jog * along,
        middle - jog / 2 * along + jog * across,
        middle + jog / 2 * along - jog * across,
        middle + jog * along,
        q + past_in * along,
    )
    points = tuple((float(spot[0]), float(spot[1])) for spot in spots)
    return Drawing((Stroke(points, "guide", "break"),))


def square_across(normal: Array) -> bool:
    """True for a plane that runs square through the thickness: its edge mark is square across."""
    return bool(abs(normal[1]) <= ALONG)
