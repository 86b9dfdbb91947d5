"""The planes once more by computer algebra (sympy), from plain words, compared exactly.

Nothing here is taken from the project but the answers. Both roofs are planes through the eaves,
z = m d with d the level distance from the eave and m = rise/12. The own eave runs along X, the
other one leaves the corner at the angle w inside the building, with cos w = c and sin w = q. A
board's axes: x along it, z up its depth, y = z cross x.
"""

import math
from functools import cache

import pytest
import sympy as sp

from layout.cuts import find
from layout.length.table import polygon_row
from layout.plane.corner import Corner
from layout.quantity import read_pitch
from layout.stock import read_stock

m, k = sp.symbols("m k", positive=True)
c, q = sp.symbols("c q", real=True)
UP = sp.Matrix([0, 0, 1])
OWN_IN = sp.Matrix([0, 1, 0])
OTHER_IN = sp.Matrix([q, -c, 0])
EAVE = sp.Matrix([1, 0, 0])
OTHER_EAVE = sp.Matrix([c, q, 0])
OWN_ROOF = sp.Matrix([0, -m, 1])
OTHER_ROOF = sp.Matrix([-k * q, k * c, 1])
LINE = OTHER_ROOF.cross(OWN_ROOF)
"""Both roofs' planes meet in the direction that lies in both."""
SQUARE = {c: 0, q: 1}
RISE = sp.Symbol("r", positive=True)
EQUAL = SQUARE | {m: RISE / 12, k: RISE / 12}


def unit(v):
    return v / sp.sqrt(v.dot(v))


def in_board(normal, along, depth):
    """The plane's unit normal along, across and up the depth of the board."""
    x = unit(along)
    z = unit(depth - depth.dot(x) * x)
    return sp.Matrix([normal.dot(x), normal.dot(z.cross(x)), normal.dot(z)]) / sp.sqrt(
        normal.dot(normal)
    )


# What the boards are and what they end on, in plain words:
PLANES = {
    # A jack stands plumb up the own roof and ends on the plumb side of the hip.
    ("hip-jack", "head"): (LINE.cross(UP), sp.Matrix([0, 1, m]), UP),
    # A hip stands plumb along the line and ends on the side of a ridge along the own eave.
    ("hip-ridge-single", "head"): (OWN_IN, LINE, UP),
    # Backing: the own roof's plane itself, on the hip.
    ("hip-backing", "foot"): (OWN_ROOF, LINE, UP),
    # Purlins lie level along the own eave, square to the roof or plumb, and end on the hip.
    ("purlin-square", "head"): (LINE.cross(UP), EAVE, OWN_ROOF),
    ("purlin-plumb", "head"): (LINE.cross(UP), EAVE, UP),
}
SPLAYED_OWN, SPLAYED_OTHER = -m * OWN_IN - UP, -k * OTHER_IN - UP
"""Outer normals of a box's sides that lean outward, m and k up on 1 out."""
PLANES[("splayed-miter", "head")] = (
    unit(SPLAYED_OWN) - unit(SPLAYED_OTHER),
    EAVE,
    m * UP - OWN_IN,
)


def size(expression):
    return sp.Abs(expression)


@cache
def numeric(name, end):
    """The sizes of a plane's normal in board axes, as a function of m, k, c and q."""
    sizes = list(map(size, in_board(*PLANES[name, end])))
    return sp.lambdify((m, k, c, q), sizes, "mpmath")


@pytest.mark.parametrize(("name", "end"), PLANES)
@pytest.mark.parametrize("rises", [(8, 8), (5, 6), (12, 10), (3, 4)])
@pytest.mark.parametrize("corner_deg", [90, 108, 120, 135])
def test_the_catalogues_plane_is_the_algebras(name, end, rises, corner_deg):
    """Sizes of all three parts of the normal, at thirty digits, on 96 roofs."""
    import mpmath

    mpmath.mp.dps = 30
    own, other = (mpmath.mpf(rise) / 12 for rise in rises)
    w = mpmath.radians(corner_deg)
    expected = numeric(name, end)(own, other, mpmath.cos(w), mpmath.sin(w))
    slopes = [math.degrees(math.atan(rise / 12)) for rise in rises]
    entry = find(name)
    cut = entry.joint(Corner(*slopes, float(corner_deg)), end).cuts(read_stock(entry.stock))[0]
    got = [abs(float(part)) for part in cut.normal]
    assert got == pytest.approx([float(part) for part in expected], abs=1e-12)


def closed(name, end, of):
    """A figure's square as algebra gives it, where both roofs have one pitch, corner square."""
    normal = in_board(*PLANES[name, end]).subs(EQUAL)
    return sp.simplify(of(*normal))


# Each closed form's square is compared with the algebra's, and the difference must vanish. The
# forms are in the handbooks' terms: 12 and r, 17 for sqrt(288) made exact.
CLOSED = {
    "jack: side-cut number 144 / sqrt(144 + r^2)": (
        ("hip-jack", "head", lambda x, y, z: (12 * x / y) ** 2),
        (144 / sp.sqrt(144 + RISE**2)) ** 2,
    ),
    "jack: the saw is tilted 45": (
        ("hip-jack", "head", lambda x, y, z: y**2),
        sp.Rational(1, 2),
    ),
    "hip: side-cut number 12 sqrt(288) / sqrt(288 + r^2)": (
        ("hip-ridge-single", "head", lambda x, y, z: (12 * x / y) ** 2),
        144 * 288 / (288 + RISE**2),
    ),
    "hip: the saw is tilted 45": (
        ("hip-ridge-single", "head", lambda x, y, z: y**2),
        sp.Rational(1, 2),
    ),
    "backing: tan = sin of the hip's slope": (
        ("hip-backing", "foot", lambda x, y, z: (y / z) ** 2),
        RISE**2 / (288 + RISE**2),
    ),
    "purlin square to the roof: edge mark tan = cos a": (
        ("purlin-square", "head", lambda x, y, z: (y / x) ** 2),
        144 / (144 + RISE**2),
    ),
    "purlin square to the roof: face mark tan = sin a": (
        ("purlin-square", "head", lambda x, y, z: (z / x) ** 2),
        RISE**2 / (144 + RISE**2),
    ),
    "splayed, four sides: face mark tan = sin s, s from plumb": (
        ("splayed-miter", "head", lambda x, y, z: (z / x) ** 2),
        144 / (144 + RISE**2),
    ),
    "splayed, four sides: tilt sin = cos s / sqrt 2": (
        ("splayed-miter", "head", lambda x, y, z: y**2),
        RISE**2 / (144 + RISE**2) / 2,
    ),
}


@pytest.mark.parametrize("said", CLOSED)
def test_a_handbooks_closed_form_is_exact(said):
    (name, end, of), form = CLOSED[said]
    assert sp.simplify(closed(name, end, of) - form) == 0


def test_the_algebra_can_tell_a_wrong_form():
    got = closed("hip-jack", "head", lambda x, y, z: (12 * x / y) ** 2)
    assert sp.simplify(got - 144 * 288 / (288 + RISE**2)) != 0


@pytest.mark.parametrize("sides", [3, 5, 6, 8, 12])
@pytest.mark.parametrize("rise", [4, 9, 12])
def test_every_column_of_a_polygon_row(sides, rise):
    """The rows of `table --sides`, column by column, from the planes at thirty digits."""
    import mpmath

    mpmath.mp.dps = 30
    w = mpmath.pi - 2 * mpmath.pi / sides
    at = {m: sp.Float(rise, 30) / 12, k: sp.Float(rise, 30) / 12}
    at |= {c: sp.Float(mpmath.cos(w), 30), q: sp.Float(mpmath.sin(w), 30)}
    line = LINE.subs(at)
    plan = sp.Matrix([line[0], line[1], 0])
    run = sp.Abs(plan[1])
    # The common's run is 12 where the hip's plan length is 12 |plan| / run.
    hip_run = 12 * sp.sqrt(plan.dot(plan)) / run
    hip = 12 * sp.sqrt(line.dot(line)) / run
    half_side = 12 * sp.Abs(plan[0]) / run
    jack = in_board(*PLANES["hip-jack", "head"]).subs(at)
    backing = in_board(*PLANES["hip-backing", "foot"]).subs(at)
    # Square to the hip's plan line, the roof falls along the plan vector (plan_y, -plan_x).
    side = sp.Matrix([plan[1], -plan[0], 0]) / sp.sqrt(plan.dot(plan))
    fall = sp.Abs(at[m] * side[1])
    row = polygon_row(sides, read_pitch(f"{rise} in 12"))
    found = {
        "corner_deg": 180 - 360 / sides,
        "mitre_deg": 180 / sides,
        "mitre": half_side,
        "half_side": half_side / 2,
        "half_side_over_run": half_side,
        "common": 12 * sp.sqrt(1 + at[m] ** 2),
        "hip": hip,
        "hip_run": hip_run,
        "jack_side_cut": 12 * sp.Abs(jack[0] / jack[1]),
        "hip_slope_deg": sp.deg(sp.atan(sp.Abs(line[2]) / sp.sqrt(plan.dot(plan)))),
        "backing_deg": sp.deg(sp.atan(sp.Abs(backing[1] / backing[2]))),
        "drop": sp.Rational(3, 4) * fall,
    }
    for column, value in found.items():
        assert getattr(row, column) == pytest.approx(float(value), rel=1e-12), column
    # A jack grows by spacing * tan(plan angle) / cos a: run over half a side, up the slope.
    growth = 12 / half_side * sp.sqrt(1 + at[m] ** 2)
    assert row.jack_differences == pytest.approx([float(s * growth) for s in row.spacings])
