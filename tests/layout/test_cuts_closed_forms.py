"""Closed forms, each derived by hand beside its check, against the catalogue.

a, b: slopes of the own and the other roof; f: plan angle between own eave and line; h: slope of
the hip or valley; s: lean of a box's side from plumb. Board axes: along, left, up the depth.
"""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.cuts import catalogue
from layout.plane.corner import Corner
from layout.plane.cut import mark_deg
from layout.stock import read_stock
from tests.counts import count

SETTINGS = settings(derandomize=True, max_examples=count(300, 25), deadline=None)
rises = st.floats(0.5, 24.0)
SAME = 1e-9


def sin(degrees):
    return np.sin(np.radians(degrees))


def cos(degrees):
    return np.cos(np.radians(degrees))


def tan(degrees):
    return np.tan(np.radians(degrees))


def atan(tangent):
    return np.degrees(np.arctan(tangent))


def asin(sine):
    return np.degrees(np.arcsin(sine))


def cuts(name, a, b=None, w=None, hand=1.0, end=None):
    entry = catalogue()[name]
    w = entry.usual_corner_deg if w is None else w
    joint = entry.joint(Corner(a, a if b is None else b, w, hand), end)
    return joint, joint.cuts(read_stock(entry.stock))


def plan_angle(a, b, w):
    """f from sin f tan a = sin(w - f) tan b, solved: cot f = (tan a / tan b + cos w) / sin w."""
    return np.degrees(np.arctan2(sin(w), tan(a) / tan(b) + cos(w)))


@SETTINGS
@given(rises)
def test_jack_on_a_square_corner(rise):
    """The hip's side runs at 45 in plan; along the jack the run of 12 becomes root(144 + r2).

    So across 12 of the edge the mark runs on by 12 cos a, and cos a = 12 / root(144 + r2).
    """
    a = atan(rise / 12)
    for name in ("hip-jack", "valley-jack", "cripple-jack"):
        _, (cut,) = cuts(name, a)
        assert cut.edge_number == pytest.approx(144 / np.sqrt(144 + rise**2), abs=SAME)
        assert cut.face_mark_deg == pytest.approx(a, abs=SAME)
        assert cut.face_tilt_deg == pytest.approx(45, abs=SAME)
        assert cut.edge_tilt_deg == pytest.approx(asin(sin(a) / np.sqrt(2)), abs=SAME)


@SETTINGS
@given(rises, rises, st.floats(80.0, 110.0))
def test_jack_at_any_corner(rise, other, w):
    """Square to the eave the jack makes 90 - f with the hip: a tilt of f, at every pitch.

    n = (cos f cos a, sin f, -cos f sin a): a left cheek.
    """
    a, b = atan(rise / 12), atan(other / 12)
    f = plan_angle(a, b, w)
    if f > 89:
        return
    _, (cut,) = cuts("hip-jack", a, b, w)
    expected = [cos(f) * cos(a), sin(f), -cos(f) * sin(a)]
    np.testing.assert_allclose(cut.normal, expected, atol=SAME)
    assert cut.edge_number == pytest.approx(12 * cos(a) / tan(f), abs=SAME)
    assert sin(f) * tan(a) == pytest.approx(sin(w - f) * tan(b))


@SETTINGS
@given(rises)
def test_hip_and_valley_on_a_square_corner(rise):
    """The diagonal: a run of root 288, so cos h = root 288 / root(288 + r2), 45 in plan."""
    h = atan(rise / np.sqrt(288))
    number = 12 * np.sqrt(288) / np.sqrt(288 + rise**2)
    a = atan(rise / 12)
    for name in ("hip-ridge", "hip-ridge-single", "hip-to-hip", "hip-tail", "valley-ridge"):
        joint, both = cuts(name, a)
        assert 12 * joint.unit_run == pytest.approx(np.sqrt(288))
        for cut in both:
            assert cut.edge_number == pytest.approx(number, abs=SAME)
            assert cut.face_mark_deg == pytest.approx(h, abs=SAME)
            assert cut.face_tilt_deg == pytest.approx(45, abs=SAME)
    _, (seat, *_) = cuts("hip-seat", a)
    assert seat.face_mark_deg == pytest.approx(90 - h, abs=SAME)


@SETTINGS
@given(rises, rises, st.floats(80.0, 110.0))
def test_hip_at_any_corner(rise, other, w):
    """A plumb plane at the plan angle g from square across reads (cos g cos h, +-sin g, ...).

    The ridge along the own eave stands 90 - f from square across the hip; the own common,
    square to it, f; the end common w - f; and tan h = tan a sin f.
    """
    a, b = atan(rise / 12), atan(other / 12)
    f = plan_angle(a, b, w)
    if not 1 < f < 89 or w - f > 89:
        return
    h = atan(tan(a) * sin(f))
    for name, turns in (
        ("hip-ridge-single", [90 - f]),
        ("hip-to-hip", [w - f]),
        ("hip-ridge", [f, w - f]),
        ("hip-tail", [90 - f, 90 - (w - f)]),
    ):
        _, planes = cuts(name, a, b, w)
        for cut, g in zip(planes, turns, strict=True):
            read = np.abs(cut.normal)
            expected = np.abs([cos(g) * cos(h), sin(g), cos(g) * sin(h)])
            np.testing.assert_allclose(read, expected, atol=SAME)
            assert cut.face_mark_deg == pytest.approx(h, abs=1e-7)


@SETTINGS
@given(rises)
def test_shortened_valley(rise):
    """Equal pitches: each valley bisects its corner, so both meet square in plan."""
    for w in (225.0, 270.0, 300.0):
        _, (cut,) = cuts("valley-to-valley", atan(rise / 12), w=w)
        assert cut.face_tilt_deg == pytest.approx(0, abs=SAME)


def test_shortened_valley_of_two_pitches():
    """Main roof 12, wing 6 in 12, square: each valley runs 1 out for 2 up the wing's length.

    As high after 1 square to the main wall as after 2 square to the wing's. In plan the short
    valley's direction is (-2, 1), the through one's (2, 1): between them 180 - 2 atan(1/2),
    and square across is 90 off that.
    """
    main, wing = atan(12 / 12), atan(6 / 12)
    _, (cut,) = cuts("valley-to-valley", main, wing)
    assert cut.face_tilt_deg == pytest.approx(90 - 2 * atan(0.5), abs=SAME)


@SETTINGS
@given(rises)
def test_backing_on_a_square_corner(rise):
    """Level across the roof, t/2 out from the hip's middle, the roof has fallen with the eave.

    t/2 square to the hip in plan is (t/2) / root 2 toward the eave: a plumb drop of
    (t/2) (r/12) / root 2. Square to the hip that is times cos h, so
    tan d = (r/12) cos h / root 2 = tan h cos h = sin h.
    """
    h = atan(rise / np.sqrt(288))
    for name in ("hip-backing", "valley-backing"):
        joint, both = cuts(name, atan(rise / 12))
        for cut in both:
            assert cut.face_tilt_deg == pytest.approx(atan(sin(h)), abs=SAME)
            low, high = np.sort(cut.corners()[:, 2])[[0, -1]]
            plumb = (high - low) / joint.pose.up[2]
            assert plumb == pytest.approx(0.75 * rise / 12 / np.sqrt(2), abs=SAME)


@SETTINGS
@given(rises)
def test_marks_on_a_backed_hip(rise):
    """On the bevel the cheek's mark is where the common's side meets the roof plane.

    The own common's side runs straight up its roof, the hip up its edge. Between a step up
    the common (12 in, r up) and one up the hip (12 in, 12 along, r up) the cosine is
    root(144 + r2) / root(288 + r2); the mark is that off the length, 90 less off square.
    """
    joint, both = cuts("hip-ridge", atan(rise / 12))
    off_length = np.degrees(np.arccos(np.sqrt((144 + rise**2) / (288 + rise**2))))
    for cut, bevel in zip(both, joint.bevels, strict=True):
        mark = mark_deg(cut.normal, joint.pose.to_board(bevel))
        assert mark == pytest.approx(90 - off_length, abs=SAME)


@SETTINGS
@given(rises, st.sampled_from([60.0, 90.0, 120.0, 135.0]))
def test_purlins(rise, w):
    """Equal pitches, f = w / 2. Plumb faces: a level joint, 90 - f.

    Square to the roof: over the depth (up the normal) the plan moves in by sin a, over the
    thickness (down the slope) by cos a; for 1 in, the hip's side moves 1 / tan f along.
    """
    a, f = atan(rise / 12), w / 2
    _, (plumb,) = cuts("purlin-plumb", a, w=w)
    assert plumb.face_tilt_deg == pytest.approx(90 - f, abs=SAME)
    assert plumb.face_mark_deg == pytest.approx(0, abs=SAME)
    _, (square,) = cuts("purlin-square", a, w=w)
    assert square.face_mark_deg == pytest.approx(atan(sin(a) / tan(f)), abs=SAME)
    assert square.edge_mark_deg == pytest.approx(atan(cos(a) / tan(f)), abs=SAME)
    assert square.face_tilt_deg == pytest.approx(asin(cos(f) * cos(a)), abs=SAME)


@SETTINGS
@given(rises, st.sampled_from([60.0, 90.0, 120.0, 135.0]))
def test_roof_board(rise, w):
    """Seen square to the roof the hip gains 1 / cos a up for 1 / tan f along.

    The joint is plumb over the hip at equal pitch; the board's face leans out of it by
    n.N = cos f sin a.
    """
    a, f = atan(rise / 12), w / 2
    _, (cut,) = cuts("roof-board", a, w=w)
    assert cut.face_mark_deg == pytest.approx(atan(cos(a) / tan(f)), abs=SAME)
    assert cut.face_tilt_deg == pytest.approx(asin(cos(f) * sin(a)), abs=SAME)


@SETTINGS
@given(rises, st.floats(60.0, 300.0))
def test_fascias(rise, w):
    """Plumb: half the corner. Square to the rafters: the face leans by a from plumb.

    The joint is plumb over the corner's bisector, k = 90 - w/2 off square across. Up the
    leaning face the plan moves out by sin a, and the bisector along by tan k times that; its
    level thickness is cos a of the board's, so n.y = sin k cos a.
    """
    a, k = atan(rise / 12), 90 - w / 2
    _, (plumb,) = cuts("fascia-plumb", a, w=w)
    assert plumb.face_tilt_deg == pytest.approx(abs(k), abs=SAME)
    _, (lean,) = cuts("fascia-square", a, w=w)
    assert lean.face_mark_deg == pytest.approx(atan(sin(a) * abs(tan(k))), abs=SAME)
    assert lean.face_tilt_deg == pytest.approx(asin(abs(sin(k)) * cos(a)), abs=SAME)


HOPPERS = [
    # s, then face, mitre and butt for 4 sides, face and mitre for 6 and for 8 [degrees];
    # derived, not printed: two decimals
    (5, 4.98, 44.78, 0.44, 2.88, 29.87, 2.07, 22.41),
    (10, 9.85, 44.14, 1.73, 5.73, 29.50, 4.11, 22.14),
    (15, 14.51, 43.08, 3.84, 8.50, 28.88, 6.12, 21.69),
    (30, 26.57, 37.76, 14.48, 16.10, 25.66, 11.70, 19.35),
    (45, 35.26, 30.00, 30.00, 22.21, 20.70, 16.32, 15.70),
]


@pytest.mark.parametrize("row", HOPPERS)
def test_hoppers_by_table(row):
    s, four_face, four_mitre, butt, six_face, six_mitre, eight_face, eight_mitre = row
    sides = {4: (four_face, four_mitre), 6: (six_face, six_mitre), 8: (eight_face, eight_mitre)}
    for n, (face, mitre) in sides.items():
        _, (cut,) = cuts("splayed-miter", 90 - s, w=180 - 360 / n)
        assert cut.face_mark_deg == pytest.approx(face, abs=0.005)
        assert cut.face_tilt_deg == pytest.approx(mitre, abs=0.005)
    _, (cut,) = cuts("splayed-butt", 90 - s)
    assert cut.face_mark_deg == pytest.approx(four_face, abs=0.005)
    assert cut.face_tilt_deg == pytest.approx(butt, abs=0.005)


@SETTINGS
@given(st.floats(1.0, 85.0), st.integers(3, 12))
def test_hoppers_by_formula(s, n):
    """A side leans s out. The joint is plumb over the corner's bisector, 180/n off square.

    Up the face the plan moves out by sin s, so the joint along by sin s tan(180/n); its
    normal falls on the face's by cos s sin(180/n). A butt for four lies on the next side's
    inner face: outer normals (cos s, 0, -sin s) and (0, cos s, -sin s) have the product
    sin2 s.
    """
    _, (cut,) = cuts("splayed-miter", 90 - s, w=180 - 360 / n)
    assert cut.face_mark_deg == pytest.approx(atan(sin(s) * tan(180 / n)), abs=SAME)
    assert cut.face_tilt_deg == pytest.approx(asin(cos(s) * sin(180 / n)), abs=SAME)
    _, (butt,) = cuts("splayed-butt", 90 - s)
    assert butt.face_tilt_deg == pytest.approx(asin(sin(s) ** 2), abs=SAME)
    assert butt.face_tilt_deg == pytest.approx(90 - 2 * asin(cos(s) * sin(45)), abs=1e-6)


@SETTINGS
@given(rises, rises)
def test_deck_valley_jack(rise, other):
    """The deck rises sideways, square to the jack's run: its normal is (sin b, cos b) in that.

    n = (-cos b sin a, sin b, -cos b cos a): the level cut's face mark, tilted by the deck's
    own slope.
    """
    a, b = atan(rise / 12), atan(other / 12)
    _, (cut,) = cuts("deck-valley-jack", a, b)
    expected = [-cos(b) * sin(a), sin(b), -cos(b) * cos(a)]
    np.testing.assert_allclose(cut.normal, expected, atol=SAME)
    assert cut.face_mark_deg == pytest.approx(90 - a, abs=1e-7)
    assert cut.face_tilt_deg == pytest.approx(b, abs=1e-7)


@SETTINGS
@given(rises, rises)
def test_sleeper(rise, other):
    """On the deck the valley gains tan a / cos b up the slope for tan b along the deck's eave.

    The ridge runs straight up the deck on a square corner, in a plane square to it: the mark
    is tan = (tan a / cos b) / tan b = tan a / sin b from square across, without tilt. The
    edge is ripped to the angle between both roofs, whose normals have the product
    cos a cos b.
    """
    a, b = atan(rise / 12), atan(other / 12)
    for name in ("sleeper-head", "sleeper-foot"):
        _, (cut,) = cuts(name, a, b)
        assert cut.face_mark_deg == pytest.approx(atan(tan(a) / sin(b)), abs=1e-8)
        assert cut.face_tilt_deg == pytest.approx(0, abs=SAME)
    _, (edge,) = cuts("sleeper-edge", a, b)
    assert edge.face_tilt_deg == pytest.approx(asin(cos(a) * cos(b)), abs=1e-7)


@SETTINGS
@given(rises, rises)
def test_commons_gable_and_brace(rise, other):
    """Square through the thickness: plumb a, level 90 - a, square 0; two rakes share a + b."""
    a, b = atan(rise / 12), atan(other / 12)
    for name, end, mark in (
        ("common-ridge", "head", a),
        ("common-heel", "head", a),
        ("common-tail-plumb", "foot", a),
        ("common-seat", "foot", 90 - a),
        ("common-tail-level", "foot", 90 - a),
        ("common-tail-square", "foot", 0),
        ("brace", "head", a),
        ("brace", "foot", 90 - a),
    ):
        _, planes = cuts(name, a, b, end=end)
        assert planes[0].face_mark_deg == pytest.approx(mark, abs=1e-7)
        assert planes[0].face_tilt_deg == pytest.approx(0, abs=SAME)
    _, (stud,) = cuts("gable-stud", a)
    assert stud.face_mark_deg == pytest.approx(0, abs=SAME)
    assert stud.face_tilt_deg == pytest.approx(a, abs=SAME)
    _, (rake,) = cuts("rake-board", a, b)
    assert rake.face_mark_deg == pytest.approx((a + b) / 2, abs=1e-7)
