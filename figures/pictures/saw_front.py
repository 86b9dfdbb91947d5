"""The circular saw seen from the front, along its cut, at its tilt.

A section square to the line on a surface: the shoe lies on that surface, the saw blade leans
about the line, the wood to be kept at the left and the waste at the right. The saw is nobody's: a
shoe, a saw blade of 7 1/4 in, its guard, and a motor over the wide side of the shoe, the side under
which the blade's lower edge swings in.
"""

from dataclasses import dataclass, replace
from math import cos, degrees, radians, sin

import numpy as np
import shapely

from figures.ink.drawing import Area, Drawing, Polygon, Stroke
from figures.ink.pens import Point
from figures.pictures.captions import hand_note
from figures.pictures.shoe import OPPOSITE, Shoe, shoe_on
from figures.place.dimension import angle_dimension
from figures.place.placing import Words, enlarged, from_labels, in_area
from figures.place.room import Picture, Room, in_room
from figures.wood.drawn_solid import DrawnFlat, DrawnSolid
from figures.wood.scene import points_of
from figures.wood.unfolded import UnfoldedStick, Where, broken, mark_ends, stick
from layout.answer.answer import Answer
from layout.answer.sense_words import SURFACE, lean_words, out_of_reach
from layout.answer.senses import faces
from layout.answer.wording import sentence
from layout.errors import SheetError
from layout.quantity import write_degrees
from layout.tools.travel import Side
from layout.vector import Array, unit

RADIUS_IN = 3.625
"""Half of the blade's 7 1/4 in, the common size."""
KERF_IN = 0.09
PAST_IN = 0.25
"""How far the blade reaches through the wood [in]."""
WIDE_IN, NARROW_IN, SHOE_IN, SLOT_IN = 4.2, 1.4, 0.14, 0.3
"""The shoe from the blade on the motor's side and on the other, its thickness, half its slot."""
BESIDE_IN = 4.6
"""How much board is shown on either side of the line [in]."""
_SNAP = 1e-6


@dataclass(frozen=True)
class SawSection:
    """The section in which the saw is seen: `flat` has its origin on the line, v out of the face.

    u runs along the face square to the line, to the waste. `kept` and `whole` are the board
    before and behind the cut there, `reach_in` how deep the cut goes, square to the face [in].
    """

    flat: DrawnFlat
    whole: Polygon
    kept: Polygon
    tilt_deg: float
    lean: float
    reach_in: float

    @property
    def way(self) -> Array:
        """The blade's way into the wood (2,): down, leaning to the waste where `lean` > 0."""
        tilt = radians(self.tilt_deg)
        return np.array([self.lean * sin(tilt), -cos(tilt)])


def saw_section(shown: UnfoldedStick, where: Where = "face") -> SawSection:
    """The section square to the answer's line on a surface, read from the plane itself."""
    cut = shown.cut
    surface = shown.flat(where)
    ends = mark_ends(shown, surface, shown.plane_index)
    assert ends is not None
    start, end = surface.placed(np.array(ends))
    out = surface.normal
    normal = cut.normal
    across = unit(normal - (normal @ out) * out)
    flat = DrawnFlat((start + end) / 2, across, out)
    wood = _endless(shown, where)
    window = shapely.box(-BESIDE_IN, -100.0, BESIDE_IN, 100.0)
    whole = shapely.intersection(wood.whole(flat), window)
    kept = shapely.intersection(wood.slice(flat), window)
    # The blade lies in the plane: square to its normal, which has no part along the line.
    u, v = float(normal @ across), float(normal @ out)
    low, high = cut.span[0 if where == "face" else 1]
    return SawSection(
        flat,
        whole,
        kept,
        degrees(np.arctan2(abs(v), abs(u))),
        float(np.sign(np.round(v * u, 12))),
        float(high - low),
    )


def section_in(shown: UnfoldedStick, section: SawSection, flat: DrawnFlat) -> SawSection:
    """The same section on another flat square to the line: turned over, or seen from its far end.

    Its lean and tilt stay those of the first flat.
    """
    wood = _endless(shown, "face")
    window = shapely.box(-BESIDE_IN, -100.0, BESIDE_IN, 100.0)
    whole, kept = (shapely.intersection(each(flat), window) for each in (wood.whole, wood.slice))
    return replace(section, flat=flat, whole=whole, kept=kept)


def _endless(shown: UnfoldedStick, where: Where) -> DrawnSolid:
    """The board as wide as the section asks for: its depth only bounds a bevel along it."""
    pairs = {"face": ("right", "left"), "edge": ("top", "bottom")}
    names = [*pairs["face"], *pairs["edge"]] if shown.cut.runs_along else pairs[where]
    sides = {name: shown.solid.sides[name] for name in names}
    return DrawnSolid(sides, shown.solid.cuts, shown.removals)


def saw_front(answer: Answer, room: Room, side: Side | None = None) -> Drawing:
    """The saw seen along its cut: shoe, saw blade, the tilt from square, and which side is waste.

    From (0, 0) to the room's width and height [in on paper], the shoe on the shown face where
    no `side` is named. Gids: `saw-cut` on the line through the wood, `blade` above the shoe and
    `blade-below` under it, `shoe`, `motor`, `tilt`. Raises SheetError for a side without a
    line, and for a room that is too small.
    """
    shoe = _shoe(answer, side)
    return in_room(
        f"Circular saw seen along its cut, shoe on the {shoe.surface}",
        [*saw_notes(answer, shoe), hand_note(answer)],
        room,
        lambda factor: saw_picture(shoe, factor),
    )


def steadier_saw_front(answer: Answer, room: Room) -> Drawing:
    """The saw seen along its cut, on the face where its wide side rides on the kept wood; gids
    and errors as those of `saw_front`."""
    return saw_front(answer, room, faces(answer)[0].side)


def _shoe(answer: Answer, side: Side | None) -> Shoe:
    shown = stick(answer)
    wanted = side or shown.face
    shoe = shoe_on(answer, shown, wanted)
    if shoe is None:
        here, there = SURFACE[wanted], SURFACE[OPPOSITE[wanted]]
        raise SheetError(f"the cut leaves no line on the {here}: show the {there}")
    return shoe


def saw_notes(answer: Answer, shoe: Shoe) -> list[str]:
    """The tilt, the way the saw blade runs, and from where the section is seen."""
    sense = shoe.sense
    line = "gauged line" if answer.is_rip else f"{shoe.where} mark"
    seen = f"Seen along the {line} from the {shoe.eye_side}: kept wood at the left."
    lean = sentence(lean_words(sense))
    tilt = write_degrees(sense.tilt_deg)
    if sense.within_tilt:
        notes = [f"Saw along the {line}, tilt {tilt}. {lean}", seen]
    else:  # nothing that the saw cannot be set to is told to be set
        notes = [f"A saw along the {line} would tilt {tilt}. {lean}", seen]
    beyond = out_of_reach(answer, sense)
    if beyond:
        notes.append(f"{sentence(beyond)} The picture shows the plane alone.")
    return notes


def saw_picture(shoe: Shoe, factor: float) -> Picture:
    """The section with the saw in it [in on paper], the line on the surface at the origin."""
    shown = shoe.shown
    section = saw_section(shown, shoe.where)
    board = board_section(shown, section, shoe.where).scaled(factor)
    left, bottom, right, _ = (side * factor for side in section.whole.bounds)
    for u, edge in ((left, -BESIDE_IN), (right, BESIDE_IN)):
        if abs(u - edge * factor) < _SNAP:
            board += broken((u, bottom), (u, 0.0))
    deep = (section.reach_in + PAST_IN) / cos(radians(section.tilt_deg))
    tool, motor = _tool(section, shoe.to_wide, deep, factor)
    picture = Picture(board + tool)
    picture += tilt_dimension(section, deep, bottom, factor)
    # Beyond this cut alone: another plane may leave waste of its own on the far side.
    up, down, far = -50.0 * section.way, 50.0 * section.way, np.array([100.0, 0.0])
    beyond = shapely.MultiPoint([up, down, up + far, down + far]).convex_hull
    waste = shapely.difference(section.whole, section.kept).intersection(beyond)
    blade = shapely.LineString([(0.0, 0.0), tuple(deep * section.way)]).buffer(KERF_IN * 1.5)
    words: list[Words] = []
    for region, said, bold in ((waste, "WASTE", True), (section.kept, "KEPT", False)):
        clear = shapely.difference(region, blade)
        free = enlarged(region if clear.area < _SNAP else clear, factor)
        words += in_area(said, free, 9.5, bold=bold, off=enlarged(section.whole, factor))
    words += in_area("motor", enlarged(motor, factor), 8.5)
    side = shoe.to_wide
    wide, narrow = (
        (way * reach * factor, SHOE_IN * factor)
        for way, reach in ((side, 0.97 * WIDE_IN), (-side, 0.75 * NARROW_IN))
    )
    ahead, behind = (15.0, 130.0) if side > 0 else (165.0, 50.0)
    words.append(Words("wide side", wide, 9, bold=True, always=True, ways=(ahead,)))
    said = f"shoe on the {shoe.surface}"
    words.append(Words(said, narrow, 9, always=True, gid="shoe-words", ways=(behind,)))
    line = f"line on the {shoe.where}"
    words.append(Words(line, (0.0, 0.0), 8.5, always=True, ways=(90.0 + side * 60,)))
    return picture + Picture(Drawing(), tuple(words))


def board_section(shown: UnfoldedStick, section: SawSection, where: Where = "face") -> Drawing:
    """The board's section: its outline, waste as an area, the cut heavy [in of wood]."""
    left, _, right, _ = section.whole.bounds
    edges = shapely.boundary(section.whole)
    for u in (left, right):
        if abs(abs(u) - BESIDE_IN) < _SNAP:
            edges = edges.difference(shapely.LineString([(u, -100.0), (u, 100.0)]).buffer(1e-7))
    strokes = [
        Stroke(points_of(part), "visible", "section")
        for part in shapely.get_parts(shapely.line_merge(edges))
    ]
    wood = _endless(shown, where)
    for plane_index in range(len(shown.cuts)):
        line = wood.mark(plane_index, section.flat)
        if line is not None:
            gid = "saw-cut" if plane_index == shown.plane_index else "saw-cut-2"
            strokes.append(Stroke(points_of(line), "cut", gid))
    waste = tuple(
        Area(part, "waste", "waste")
        for part in shapely.get_parts(shapely.difference(section.whole, section.kept))
        if part.geom_type == "Polygon" and part.area > _SNAP
    )
    return Drawing(tuple(strokes), waste)


def _tool(section: SawSection, side: float, deep: float, factor: float) -> tuple[Drawing, Polygon]:
    """Shoe, blade, guard and motor [in on paper], and the motor as far as it shows [in of wood].

    The wide side and the motor lie to the waste where `side` is +1.
    """
    way = section.way
    kerf = max(KERF_IN, 0.035 / factor)
    to_waste = np.array([-way[1], way[0]])
    radius = max(RADIUS_IN, deep / 0.68)
    top, tip = -way * (2 * radius - deep), way * deep
    blade = shapely.MultiPoint([tip, top, top + kerf * to_waste, tip + kerf * to_waste]).convex_hull
    shoe = shapely.union_all(
        [
            shapely.box(*sorted_box(side * SLOT_IN, 0.0, side * WIDE_IN, SHOE_IN)),
            shapely.box(*sorted_box(-side * SLOT_IN, 0.0, -side * NARROW_IN, SHOE_IN)),
        ]
    )
    # The arbor is the middle of the blade; the motor stands square to the blade from there.
    arbor = (top + tip) / 2 + kerf / 2 * to_waste
    outward = side * to_waste
    motor = _bar(arbor + 0.35 * outward, arbor + 4.0 * outward, 1.35).buffer(-0.3).buffer(0.3)
    above = np.array([0.0, 0.0]) - way * (SHOE_IN + 0.55) / max(abs(way[1]), 0.3)
    guard = _bar(above + kerf / 2 * to_waste, top - way * 0.2 + kerf / 2 * to_waste, 0.34)
    guard = guard.buffer(-0.2).buffer(0.2)
    drawing = Drawing()
    free = shapely.box(-50, SHOE_IN + 0.05, 50, 50)
    body = shapely.intersection(shapely.union(motor, guard), free)
    for shape, gid in ((motor, "motor"), (guard, "guard")):
        visible = shapely.boundary(shapely.intersection(shape, free))
        if gid == "motor":
            visible = visible.difference(guard)
        drawing += Drawing(
            tuple(
                Stroke(points_of(part), "guide", gid)
                for part in shapely.get_parts(shapely.line_merge(visible))
            )
        )
    drawing += Drawing(areas=(Area(body, "steel", "saw"),))
    for part in shapely.get_parts(shoe):
        drawing += Drawing(
            (Stroke(points_of(part.exterior), "guide", "shoe"),), (Area(part, "steel"),)
        )
    bare = shapely.difference(blade, guard)
    under = shapely.box(-50.0, -50.0, 50.0, 0.0)
    for part, gid in ((bare.difference(under), "blade"), (bare & under, "blade-below")):
        for piece in shapely.get_parts(part):
            drawing += Drawing(
                (Stroke(points_of(piece.exterior), "guide", gid),), (Area(piece, "wood"),)
            )
    return drawing.scaled(factor), shapely.intersection(motor.difference(guard), free)


def sorted_box(x0: float, y0: float, x1: float, y1: float) -> tuple[float, float, float, float]:
    """Left, bottom, right, top of two corners."""
    return min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1)


def _bar(start: Array, end: Array, half_in: float) -> Polygon:
    """A bar from one point to another, `half_in` to either side."""
    along = (end - start) / np.hypot(*(end - start))
    across = half_in * np.array([-along[1], along[0]])
    return shapely.MultiPoint(
        [start + across, end + across, end - across, start - across]
    ).convex_hull


def tilt_dimension(section: SawSection, deep: float, bottom: float, factor: float) -> Picture:
    """The tilt, between a line square to the face and the blade, below the board."""
    radius = max(deep * factor, -bottom) + 0.3
    down = Drawing((Stroke(((0.0, 0.0), (0.0, -radius - 0.1)), "centre", "square-to-face"),))
    if section.lean == 0:
        words = Words(
            "blade square to the face: tilt 0°", (0.0, -radius), 10, bold=True, gid="tilt"
        )
        return Picture(down, (words,))
    tip, end = deep * factor * section.way, (radius + 0.1) * section.way
    down += Drawing((Stroke((_spot(tip), _spot(end)), "dimension", "along-blade"),))
    sweep = section.lean * section.tilt_deg
    text = f"tilt {write_degrees(section.tilt_deg)}"
    arc = angle_dimension((0.0, 0.0), radius, -90.0, -90.0 + sweep, text, 10.0, "tilt")
    middle = radians(-90.0 + sweep / 2)
    lines, words_ = from_labels(arc, (radius * cos(middle), radius * sin(middle)), ways=(-90.0,))
    return Picture(down + lines, words_)


def _spot(spot: Array) -> Point:
    return float(spot[0]), float(spot[1])
