"""The values a lesson may name, against formulas and tables from outside."""

from math import acos, asin, atan, cos, degrees, radians, sin, sqrt, tan

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from layout.answer.answer import answer
from layout.answer.question import ask
from layout.errors import CutError, LayoutError
from layout.quantity import Pitch, read_pitch
from lessons.course.lesson import catalog
from lessons.course.runner import asked
from lessons.values.all_values import values
from tests.counts import count


def worth(name: str, cut: str, *arguments: str, **question: object) -> float:
    value = values()[name].read(answer(ask(cut, **question)), *arguments)
    assert isinstance(value, float)
    return value


def test_the_tables_of_a_square():
    # NAVEDTRA 14044, ch. 2: 8 in 12; common 14.42, hip 18.76, jacks 16 in on centre 19.23.
    assert worth("common_row", "hip-jack") == pytest.approx(14.42, abs=0.005)
    assert worth("line_row", "hip-jack") == pytest.approx(18.76, abs=0.005)
    assert worth("common_difference", "hip-jack", "16 in") == pytest.approx(19.23, abs=0.005)
    # The same: unit run of the hip 16.97; 15 ft of run, 9 in 12, a valley of 288.15 in.
    assert worth("own_run", "hip-ridge-single") == pytest.approx(16.97, abs=0.005)
    nine = {"pitch": read_pitch("9")}
    assert worth("line_length", "valley-ridge", "15 ft", **nine) == pytest.approx(288.15, abs=0.05)
    # Griffith, Carpentry, 25 ft span, 6 in 12: 12.5 ft of run make 167.75 in from 13.42.
    six = {"pitch": read_pitch("6")}
    assert worth("common_length", "hip-jack", "12ft 6in", **six) == pytest.approx(167.75, abs=0.05)


def test_the_shortening_is_half_the_45_degree_thickness():
    # NAVEDTRA 14044: 1 1/16 in for 1 1/2 in stock, measured level.
    assert worth("shortening", "hip-jack") == pytest.approx(1.0607, abs=5e-5)
    assert worth("shortening_along", "hip-jack") == pytest.approx(1.0607 / cos(atan(8 / 12)), 1e-4)
    with pytest.raises(LayoutError, match="meets no center line"):
        worth("shortening", "fascia-plumb")


def test_backing_and_drop():
    # Rise 8: drop 0.3536, backing 23.09 degrees (tan = sine of the hip's slope).
    assert worth("drop", "hip-backing") == pytest.approx(0.3536, abs=5e-5)
    h = atan(8 / sqrt(288))
    assert worth("backing", "hip-backing") == pytest.approx(degrees(atan(sin(h))))
    assert worth("other_backing", "hip-backing") == worth("backing", "hip-backing")
    assert worth("backing", "valley-backing") == pytest.approx(degrees(atan(sin(h))))
    assert worth("fall", "hip-backing") == pytest.approx(8 / sqrt(2))


@pytest.mark.parametrize("slope", [20.0, 33.69, 60.0])
@pytest.mark.parametrize("corner", [90.0, 120.0])
def test_the_legs_of_the_three_triangles(slope, corner):
    """By hand: of equal roofs the plan angle is half the corner. A is 12 times its cosine; B is A
    times the cosine of the slope on a board square to its roof, times the sine on one that lies
    in it. At 8 in 12 and a square corner: 8.485, and 12 x 8.485 / 14.422 = 7.060."""
    roof = {"pitch": read_pitch(f"{slope} deg"), "corner_deg": corner}
    first = 12 * cos(radians(corner / 2))
    for cut, part in (("fascia-square", cos), ("purlin-square", cos), ("splayed-miter", sin)):
        assert worth("first_leg", cut, **roof) == pytest.approx(first)
        assert worth("second_leg", cut, **roof) == pytest.approx(first * part(radians(slope)))
    assert worth("first_leg", "fascia-square") == pytest.approx(8.485, abs=0.0005)
    assert worth("second_leg", "fascia-square") == pytest.approx(7.060, abs=0.0005)


def test_the_birds_mouth_of_a_lesson():
    # A quarter of 5 1/2, square to the edge: level over the sine, plumb over the cosine.
    a = atan(8 / 12)
    assert worth("notch", "common-seat") == 1.375
    assert worth("seat", "common-seat") == pytest.approx(1.375 / sin(a))
    assert worth("heel", "common-seat") == pytest.approx(1.375 / cos(a))
    assert worth("height_above_plate", "common-seat") == pytest.approx(0.75 * 5.5 / cos(a))


def test_values_of_one_plane_only_are_refused_elsewhere():
    for name in ("second_tilt", "second_edge_number", "second_mate"):
        with pytest.raises(LayoutError, match="only one plane"):
            worth(name, "hip-jack")
    with pytest.raises(LayoutError, match="is no rip"):
        worth("gauge_drop", "hip-jack")
    with pytest.raises(LayoutError, match="square across"):
        worth("edge_blade", "common-ridge")
    with pytest.raises(LayoutError, match="sets no tilt"):
        worth("wrong_tilt", "hip-jack", "wrong-arm-on-edge")


pitches = st.floats(2, 20).map(lambda rise: Pitch(rise, 12, f"{rise} in 12"))


@settings(deadline=None, max_examples=count(60, 15), derandomize=True)
@given(own=pitches, other=pitches, corner=st.floats(50, 140))
def test_the_rules_that_the_course_states(own, other, corner):
    """Each is stated in a lesson's text in these words, for the roofs named here."""
    a = radians(own.slope_deg)
    equal = {"pitch": own, "corner_deg": corner}
    unlike = {"pitch": own, "other_pitch": other}
    skew = {**unlike, "corner_deg": corner}
    near = {"rel": 1e-9}
    # Half the corner is the tilt; the plan angle is what is left of 90.
    assert worth("tilt", "hip-jack", **equal) == pytest.approx(corner / 2, **near)
    # On a square corner its tangent is the other rise over the own.
    tangent = tan(radians(worth("tilt", "hip-jack", **unlike)))
    assert tangent == pytest.approx(other.rise / own.rise, **near)
    # The deck's slope is the tilt of a foot on it, the face mark a level cut's.
    assert worth("tilt", "deck-valley-jack", **unlike) == pytest.approx(other.slope_deg, **near)
    foot = worth("face_angle", "deck-valley-jack", **unlike)
    assert foot == pytest.approx(90 - own.slope_deg, **near)
    # A mitre of equal slopes, or a purlin: sine of the tilt = cosine times cosine.
    f = radians(worth("plan_angle", "fascia-square", **equal))
    sine = sin(radians(worth("tilt", "fascia-square", **equal)))
    assert sine == pytest.approx(cos(f) * cos(a), **near)
    assert degrees(f) == pytest.approx(corner / 2, **near)
    sine = sin(radians(worth("tilt", "splayed-miter", **equal)))
    assert sine == pytest.approx(cos(radians(corner / 2)) * sin(a), **near)
    try:
        for cut in ("hip-jack", "hip-ridge-single", "hip-ridge"):
            # The level number, times the run, over the length; and the turn seen from above.
            rule = worth("plan_number", cut, **skew) * worth("own_run", cut, **skew)
            rule /= worth("own_row", cut, **skew)
            assert worth("edge_number", cut, **skew) == pytest.approx(rule, **near)
            turn = worth("plan_turn", cut, **skew)
            assert worth("tilt", cut, **skew) == pytest.approx(turn, abs=1e-9)
    except CutError:
        assume(False)
    f = radians(worth("plan_angle", "purlin-square", **skew))
    stretched = worth("plan_number", "purlin-square", **skew) * worth(
        "common_row", "hip-jack", **equal
    )
    assert worth("edge_number", "purlin-square", **skew) == pytest.approx(stretched / 12, **near)
    sine = sin(radians(worth("tilt", "purlin-square", **skew)))
    assert sine == pytest.approx(cos(f) * cos(a), **near)
    # Half the thickness over the sine of the plan angle.
    rule = 0.75 / sin(radians(worth("plan_angle", "hip-jack", **skew)))
    assert worth("shortening", "hip-jack", **skew) == pytest.approx(rule, **near)
    # The cosine of the backing is the roof's over the hip's; the drop half a thickness's fall.
    h = radians(worth("line_slope", "hip-backing", **equal))
    backing = degrees(acos(cos(a) / cos(h)))
    assert worth("backing", "hip-backing", **equal) == pytest.approx(backing, rel=1e-6)
    fall = worth("fall", "hip-backing", **equal)
    assert worth("drop", "hip-backing", **equal) == pytest.approx(0.75 * fall / 12, **near)
    square_to_edge = 0.75 * fall / 12 * cos(h)
    assert worth("gauge_drop", "hip-backing", **equal) == pytest.approx(square_to_edge, **near)


def test_the_price_of_a_wrong_tilt_as_the_course_teaches_it():
    # Difference of tangents, times thickness, times the cosine of the right tilt.
    lesson = catalog()["number-is-not-the-tilt"]
    for pitch in ("4 in 12", "12 in 12"):
        true_answer = asked(lesson, {"pitch": pitch})
        wrong = radians(float(values()["wrong_tilt"].read(true_answer, "side-number-as-tilt")))
        tilt = radians(float(values()["tilt"].read(true_answer)))
        rule = 1.5 * abs(tan(tilt) - tan(wrong)) * cos(tilt)
        got = values()["price"].read(true_answer, "side-number-as-tilt")
        assert got == pytest.approx(rule, abs=1e-12)


def test_every_value_says_what_it_is():
    for value in values().values():
        assert value.means.endswith("."), value.name
        assert value.form.startswith("{" + value.name)


def test_hopper_angles():
    # Derived from the dihedral: s = 15 degrees from plumb, four sides: face 14.51, tilt 43.08.
    leaning = {"pitch": read_pitch("75deg")}
    assert worth("face_angle", "splayed-miter", **leaning) == pytest.approx(14.51, abs=0.005)
    expected = degrees(asin(cos(radians(15)) * sin(radians(45))))
    assert worth("tilt", "splayed-miter", **leaning) == pytest.approx(expected)
