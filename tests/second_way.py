"""Every cut of the catalogue a second time: plain world points, and a solid that is really cut.

Nothing here is read from `layout`. The corner of the walls stands at the origin, the own eave
runs along +X and the own roof rises toward +Y, so its height at (x, y) is `a * y`. The other
wall leaves the origin at the angle `w` from +X, so its distance to (x, y) is
`x sin w - y cos w` and its roof's height `b` times that. A plane is three points on it and a
point in the wood that stays; a board is two directions. To give a new cut its second way, write
one function that returns a `Stick` and enter it under (name, end) with `@way`.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from itertools import product

import manifold3d
import numpy as np

HERE = np.zeros(3)
E, N, Z = np.eye(3)
"""The corner of the walls; along the own eave, into the building, up."""


def direction(v):
    return v / np.sqrt(np.sum(v * v))


@dataclass(frozen=True)
class Roof:
    """Rise on a run of 1 of the own roof `a` and the other `b`; `w_deg` between the walls."""

    a: float
    b: float
    w_deg: float

    @property
    def wall(self):
        """Along the other wall, away from the corner."""
        return np.array([np.cos(np.radians(self.w_deg)), np.sin(np.radians(self.w_deg)), 0.0])

    @property
    def other_in(self):
        """The way in which the distance to the other wall grows by 1 a unit."""
        return np.array([np.sin(np.radians(self.w_deg)), -np.cos(np.radians(self.w_deg)), 0.0])

    @property
    def up(self):
        """Straight up the own roof: 1 in, a up."""
        return N + self.a * Z

    @property
    def other_up(self):
        return self.other_in + self.b * Z

    @property
    def line(self):
        """Up the hip or valley: a y = b (x sin w - y cos w), so x : y = a + b cos w : b sin w."""
        sine, cosine = np.sin(np.radians(self.w_deg)), np.cos(np.radians(self.w_deg))
        x, y = self.a + self.b * cosine, self.b * sine
        sign = 1.0 if y > 0 else -1.0
        return sign * np.array([x, y, self.a * y])


@dataclass(frozen=True)
class Stick:
    """A board's head and top directions, and the planes that end it.

    Each plane is (unit normal out of the wood, section fractions it runs through; None for the
    arris of right face and bottom edge, whatever the hand; a third number is how far before that
    point the plane lies [inches]). `hollow` where the wood behind either plane stays;
    `taken` names the planes of each piece taken out, where there are several. `reaches` is False
    where the board never comes to what it should be cut against.
    """

    head: np.ndarray
    top: np.ndarray
    planes: tuple
    hollow: bool = False
    reaches: bool = True
    taken: tuple = ()

    @property
    def axes(self):
        x = direction(self.head)
        z = direction(self.top - np.sum(self.top * x) * x)
        return np.array([x, np.cross(z, x), z])

    @property
    def normals(self):
        """In board axes: along, left, up."""
        return [self.axes @ normal for normal, _ in self.planes]

    def mirrored(self):
        """The same joint seen in a mirror that swaps left and right."""
        flip = np.array([-1.0, 1.0, 1.0])
        planes = tuple((n * flip, at and (1 - at[0], *at[1:])) for n, at in self.planes)
        return replace(self, head=self.head * flip, top=self.top * flip, planes=planes)

    def for_hand(self, hand):
        """The joint whose first cheek that has a side faces left (+1) or right (-1)."""
        side = next((n[1] for n in self.normals if abs(n[1]) > 1e-12), 1.0)
        faces = -1.0 if side < 0 else 1.0
        return self if faces == hand else self.mirrored()


WAYS: dict[tuple[str, str], Callable[[Roof], Stick]] = {}


def way(*keys):
    def enter(build):
        WAYS.update(dict.fromkeys(keys, build))
        return build

    return enter


def second_way(name: str, end: str, roof: Roof, hand: float) -> Stick:
    build = WAYS.get((name, end))
    assert build is not None, (
        f"{name} ({end}) has no second way: write a function from Roof to Stick in"
        f" tests/second_way.py from plain world points and enter it with @way(({name!r}, {end!r}))"
    )
    return build(roof).for_hand(hand)


# ---- planes from points ------------------------------------------------------------------


def out_of(points, kept):
    """Unit normal of the plane through three points, away from the point `kept`."""
    p, q, r = points
    normal = direction(np.cross(q - p, r - p))
    side = np.sum((kept - p) * normal)
    assert abs(side) > 1e-15, "the kept point lies on the plane"
    return -normal if side > 0 else normal


def plane(points, kept, through=None):
    return out_of(points, kept), through


def meeting_of_faces(face, other_face):
    """Three points on the plane in which two boards 1 thick meet, from their outer faces.

    Outer faces through the origin, inner faces one unit behind: two points where the outer
    faces cross and one where the inner faces do, by solving for each point.
    """
    along = np.cross(face, other_face)
    rows = np.array([face, other_face, along])
    return HERE, along, np.linalg.solve(rows, np.array([-1.0, -1.0, 0.0]))


# ---- commons, brace, gable ---------------------------------------------------------------

QUARTER = (0.0, 0.25)


@way(("common-ridge", "head"), ("brace", "head"))
def plumb_head(r):
    return Stick(r.up, Z, (plane((HERE, E, Z), -N),))


@way(("common-tail-level", "foot"), ("brace", "foot"))
def level_foot(r):
    return Stick(r.up, Z, (plane((HERE, E, N), Z),))


@way(("common-tail-plumb", "foot"))
def plumb_foot(r):
    return Stick(r.up, Z, (plane((HERE, E, Z), N),))


@way(("common-tail-square", "foot"))
def square_foot(r):
    return Stick(r.up, Z, (plane((HERE, E, np.array([0.0, -r.a, 1.0])), r.up),))


@way(("common-seat", "foot"))
def seat(r):
    on_plate, at_wall = plane((HERE, E, N), Z, QUARTER), plane((HERE, E, Z), -N, QUARTER)
    return Stick(r.up, Z, (on_plate, at_wall), hollow=True)


@way(("common-heel", "head"))
def heel(r):
    joint = seat(r)
    return replace(joint, planes=joint.planes[::-1])


@way(("gable-stud", "head"))
def gable_stud(r):
    return Stick(Z, E, (plane((HERE, E, r.up), -Z),))


@way(("collar-tie", "head"))
def collar_tie(r):
    return Stick(-N, Z, (plane((HERE, E, r.up), -Z),))


@way(("rake-board", "head"))
def rake_board(r):
    far_up = np.array([0.0, -1.0, r.b])
    top, far_top = np.array([0.0, -r.a, 1.0]), np.array([0.0, r.b, 1.0])
    rows = np.array([direction(top), direction(far_top), E])
    under = np.linalg.solve(rows, np.array([-1.0, -1.0, 0.0]))
    assert np.isclose(np.sum(far_up * far_top), 0.0)
    return Stick(r.up, Z, (plane((HERE, E, under), -r.up),))


# ---- jacks -------------------------------------------------------------------------------


@way(("hip-jack", "head"), ("cripple-jack", "head"))
def hip_jack(r):
    """A jack that starts on the own eave meets the hip only where the hip leans its way."""
    return Stick(r.up, Z, (plane((HERE, r.line, Z), E),), reaches=r.line[0] > 0)


@way(("valley-jack", "foot"))
def valley_jack(r):
    """A jack that comes down the own roof meets the valley where that runs under it."""
    return Stick(r.up, Z, (plane((HERE, r.line, Z), E),), reaches=r.line[0] < 0)


@way(("cripple-jack", "foot"))
def cripple_foot(r):
    """The valley runs beside the hip, nearer the own eave; the wood lies between both."""
    beside = 5 * E
    points = (beside, beside + r.line, beside + Z)
    return Stick(r.up, Z, (plane(points, HERE),), reaches=r.line[0] > 0)


@way(("deck-valley-jack", "foot"))
def deck_valley_jack(r):
    deck = (HERE, r.wall, r.other_up)
    return Stick(r.up, Z, (plane(deck, Z),), reaches=r.line[0] < 0)


# ---- sleepers ----------------------------------------------------------------------------


def sleeper(r):
    """Head up the valley, flat on the deck, its depth under the own roof; the deck's up side."""
    deck_up = -out_of((HERE, r.wall, r.other_up), Z)
    depth = np.cross(deck_up, r.line)
    own_side = np.cross(r.line, E)[2]
    return r.line, depth * np.sign(np.cross(r.line, depth)[2] * own_side), deck_up


@way(("sleeper-head", "head"))
def sleeper_head(r):
    head, top, _ = sleeper(r)
    return Stick(head, top, (plane((HERE, E, Z), -r.line),))


@way(("sleeper-foot", "foot"))
def sleeper_foot(r):
    head, top, _ = sleeper(r)
    return Stick(head, top, (plane((HERE, E, Z), r.line),))


@way(("sleeper-edge", "foot"))
def sleeper_edge(r):
    head, top, deck_up = sleeper(r)
    left = np.cross(top, head)
    on_deck = 0.0 if np.sum(left * deck_up) > 0 else 1.0
    far_arris = deck_up  # a unit of thickness above the arris on the valley line
    stands_out = far_arris[2] > r.a * far_arris[1]
    start = on_deck if stands_out else 1.0 - on_deck
    return Stick(head, top, (plane((HERE, E, r.up), -Z, (start, 0.0)),))


# ---- hips and valleys --------------------------------------------------------------------

MIDDLE = (0.5, 0.0)
BEFORE = (0.5, 0.0, 0.75)
"""Commons 1 1/2 in thick, fascias 3/4 in: their sides lie 3/4 in before the hip's line."""
CORNER = (0.5, 0.25)


def line_leans(r, sign):
    """Whether the line leans the way (+1) of both walls, or (-1) against both."""
    return bool(sign * r.line[0] > 0 and sign * np.sum(r.line * r.wall) > 0)


@way(("hip-ridge", "head"))
def hip_ridge(r):
    """The hip rises from the corner toward a common of either roof, each standing farther in."""
    own = plane((10 * E, 10 * E + N, 10 * E + Z), HERE, BEFORE)
    far = 10 * r.wall
    other = plane((far, far + r.other_in, far + Z), HERE, BEFORE)
    return Stick(r.line, Z, (own, other), reaches=line_leans(r, 1.0))


@way(("hip-ridge-single", "head"), ("valley-ridge", "head"))
def line_against_ridge(r):
    return Stick(r.line, Z, (plane((10 * N, 10 * N + E, 10 * N + Z), HERE),))


@way(("hip-to-hip", "head"))
def hip_to_hip(r):
    middle = 10 * r.wall
    points = (middle, middle + r.other_in, middle + Z)
    return Stick(r.line, Z, (plane(points, HERE),), reaches=bool(np.sum(r.line * r.wall) > 0))


@way(("hip-seat", "foot"))
def hip_seat(r):
    """One notch round the corner of the plates: under the seat and inside both walls."""
    level = plane((HERE, E, N), Z, CORNER)
    own, other = plane((HERE, E, Z), -N, CORNER), plane((HERE, r.wall, Z), -r.other_in, CORNER)
    return Stick(r.line, Z, (level, own, other), taken=((0, 1, 2),))


@way(("valley-seat", "foot"))
def valley_seat(r):
    """Two notches that meet in the corner of the plates, one inside either wall."""
    return replace(hip_seat(r), taken=((0, 1), (0, 2)))


@way(("hip-tail", "foot"))
def hip_tail(r):
    own, other = plane((HERE, E, Z), N, BEFORE), plane((HERE, r.wall, Z), r.other_in, BEFORE)
    return Stick(r.line, Z, (own, other))


@way(("valley-tail", "foot"))
def valley_tail(r):
    return replace(hip_tail(r), hollow=True)


@way(("hip-backing", "foot"))
def hip_backing(r):
    middle = (0.5, 1.0)
    own, other = plane((HERE, E, r.up), -Z, middle), plane((HERE, r.wall, r.other_up), -Z, middle)
    return Stick(r.line, Z, (own, other), reaches=line_leans(r, 1.0))


@way(("valley-backing", "foot"))
def valley_backing(r):
    """Each bevel starts at the arris that lies under its own roof; the own roof lies toward E."""
    left = np.cross(Z, r.line)
    own = (1.0, 1.0) if np.sum(left * E) > 0 else (0.0, 1.0)
    other = (1.0 - own[0], 1.0)
    planes = (plane((HERE, E, r.up), -Z, own), plane((HERE, r.wall, r.other_up), -Z, other))
    return Stick(r.line, Z, planes, hollow=True, reaches=line_leans(r, -1.0))


@way(("valley-to-valley", "head"))
def valley_to_valley(r):
    """The wing's far wall runs like its near one, 10 along; both its roofs pitch alike.

    Over the far corner the wing's roof rises toward the near one: b times the distance to the
    far wall, which is 10 + the negative of the near wall's. Both heights: a y = b (-x' sin w +
    y cos w) with x' counted from the far corner.
    """
    sine, cosine = np.sin(np.radians(r.w_deg)), np.cos(np.radians(r.w_deg))
    far = np.array([(r.a - r.b * cosine) / (-r.b * sine), 1.0, r.a])
    height = r.b * (-far[0] * sine + far[1] * cosine)
    assert np.isclose(height, far[2])
    foot = -10 * E
    return Stick(r.line, Z, (plane((foot, foot + far, foot + Z), HERE),))


# ---- level sticks ------------------------------------------------------------------------


def against_line(r, top):
    return Stick(-E, top, (plane((HERE, r.line, Z), E),))


@way(("purlin-square", "head"))
def purlin_square(r):
    return against_line(r, np.array([0.0, -r.a, 1.0]))


@way(("purlin-plumb", "head"))
def purlin_plumb(r):
    return against_line(r, Z)


@way(("roof-board", "head"))
def roof_board(r):
    outer, other_outer = out_of((HERE, E, r.up), -Z), out_of((HERE, r.wall, r.other_up), -Z)
    return Stick(-E, r.up, (plane(meeting_of_faces(outer, other_outer), E),))


@way(("fascia-plumb", "head"))
def fascia_plumb(r):
    outer, other_outer = out_of((HERE, E, Z), N), out_of((HERE, r.wall, Z), r.other_in)
    return Stick(-E, Z, (plane(meeting_of_faces(outer, other_outer), E),))


@way(("fascia-square", "head"))
def fascia_square(r):
    lean, other_lean = Z - r.a * N, Z - r.b * r.other_in
    outer = out_of((HERE, E, lean), r.up)
    other_outer = out_of((HERE, r.wall, other_lean), r.other_up)
    return Stick(-E, lean, (plane(meeting_of_faces(outer, other_outer), E),))


@way(("splayed-miter", "head"))
def splayed_miter(r):
    lean, other_lean = r.a * Z - N, r.b * Z - r.other_in
    outer, other_outer = out_of((HERE, E, lean), Z), out_of((HERE, r.wall, other_lean), Z)
    return Stick(-E, lean, (plane(meeting_of_faces(outer, other_outer), E),))


@way(("splayed-butt", "head"))
def splayed_butt(r):
    lean, other_lean = r.a * Z - N, r.b * Z - r.other_in
    return Stick(-E, lean, (plane((HERE, r.wall, other_lean), E),))


# ---- the solid ---------------------------------------------------------------------------


@dataclass(frozen=True)
class Surface:
    """A flat part of the cut board's skin, in board axes: unit normal, area, its points."""

    normal: np.ndarray
    area: float
    points: np.ndarray

    def on(self, axis, level):
        return self.points[np.abs(self.points[:, axis] - level) < 1e-8]


def on_section(through, size):
    """The point of the section at x = 0 through which a plane runs, in board axes."""
    across, up = (through or (0.0, 0.0))[:2]
    return np.array([0.0, across * size[0], up * size[1]])


def before(through):
    """How far before that point a plane lies [inches]."""
    return through[2] if through and len(through) > 2 else 0.0


def reach(stick, size):
    """Half the length of a board long enough for the whole cut."""
    length = 4.0 * sum(size)
    for normal, (_, through) in zip(stick.normals, stick.planes, strict=True):
        if abs(normal[0]) > 1e-9:
            for y, z in product((0.0, size[0]), (0.0, size[1])):
                away = normal @ (np.array([0.0, y, z]) - on_section(through, size))
                length = max(length, 1.5 * (abs(away) + before(through)) / abs(normal[0]))
    return length


def cut_board(stick, size):
    """The board posed in the world, cut there by the joint's world planes.

    What is taken out is made of a block that stands out beyond the board on every side: where it
    shared the board's skin the modeller lost whole corners of one board in two hundred.
    """
    length = reach(stick, size)
    box = manifold3d.Manifold.cube((2 * length, *size)).translate((-length, 0, 0))
    board = posed(box, stick.axes)
    levels = [
        (normal, float(normal @ stick.axes.T @ on_section(through, size)) - before(through))
        for normal, through in stick.planes
    ]
    if not (stick.hollow or stick.taken):
        for normal, level in levels:
            board = board.trim_by_plane(tuple(-normal), -level)
        return board
    block = posed(manifold3d.Manifold.cube((6 * length,) * 3, True), stick.axes)
    every, gone = tuple(range(len(levels))), manifold3d.Manifold()
    for removal in stick.taken or (every,):
        waste = block
        for normal, level in (levels[i] for i in removal):
            waste = waste.trim_by_plane(tuple(normal), level)
        gone += waste
    return board - gone


def posed(solid, axes, at=HERE):
    return solid.transform(np.column_stack([axes.T, at]))


def surfaces(solid, axes, size):
    """The surfaces that the cuts left, largest first: all that do not lie on the board's skin."""
    mesh = solid.to_mesh64()
    points = np.asarray(mesh.vert_properties)[:, :3] @ axes.T
    ends = points[:, 0].min(), points[:, 0].max()
    triangles = points[np.asarray(mesh.tri_verts)]
    skin = np.zeros(len(triangles), dtype=bool)
    for axis, level in ((1, 0.0), (1, size[0]), (2, 0.0), (2, size[1])):
        skin |= np.all(np.abs(triangles[:, :, axis] - level) < 1e-8, axis=1)
    whole = np.ptp(points[:, 0])
    for level in ends:
        flat = np.all(np.abs(triangles[:, :, 0] - level) < 1e-8, axis=1)
        # the far, uncut end; a square cut is flat too, but it stands at x = 0
        skin |= flat & (abs(level) > whole / 4)
    left = triangles[~skin]
    areas = np.cross(left[:, 1] - left[:, 0], left[:, 2] - left[:, 0]) / 2
    found = []
    while len(left):
        seed = np.argmax(np.sum(areas**2, axis=1))
        normal = direction(areas[seed])
        together = np.all(np.abs((left - left[seed, 0]) @ normal) < 1e-7, axis=1)
        vector_area = areas[together].sum(axis=0)
        corners = left[together].reshape(-1, 3)
        size_of = np.sqrt(np.sum(vector_area**2))
        found.append(Surface(vector_area / size_of, float(size_of), corners))
        left, areas = left[~together], areas[~together]
    return found


def mark_from_square(surface, axis, level, across):
    """Angle [degrees] between a cut's edge on the board's side at `level` and square across.

    None where the cut does not reach that side.
    """
    on_side = surface.on(axis, level)
    if len(on_side) < 2:
        return None
    spread = on_side - on_side[0]
    run = spread[np.argmax(np.sum(spread**2, axis=1))]
    if np.sum(run**2) < 1e-12:
        return None
    return float(np.degrees(np.arctan2(abs(run[0]), abs(run[across]))))


def tilt_from_square(surface, axis, level):
    """Angle [degrees] between the cut and a line square to the board's side, square to the mark."""
    on_side = surface.on(axis, level)
    if len(on_side) < 2:
        return None
    spread = on_side - on_side[0]
    run = spread[np.argmax(np.sum(spread**2, axis=1))]
    if np.sum(run**2) < 1e-12:
        return None
    run = direction(run)
    into = surface.points - on_side[0]
    into = into - (into @ run)[:, None] * run
    far = into[np.argmax(np.sum(into**2, axis=1))]
    aside = far.copy()
    aside[axis] = 0.0
    return float(np.degrees(np.arctan2(np.sqrt(np.sum(aside**2)), abs(far[axis]))))
