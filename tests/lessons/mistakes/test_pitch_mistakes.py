"""Mistakes with a pitch: each price worked out from the cut's own triangle."""

from math import atan, cos, degrees, radians, sin, sqrt, tan

import pytest

from layout.answer.answer import answer
from layout.answer.question import ask
from layout.quantity import read_pitch
from lessons.mistakes.cut_mistakes import mistakes
from lessons.settle.settle import settle


def hip_jack(pitch, other=None):
    pitches = {"pitch": read_pitch(pitch), "other_pitch": read_pitch(other or pitch)}
    return answer(ask("hip-jack", **pitches))


def tilt_price(right_deg, made_deg):
    """A tilt moves the far face by t tan(tilt) square to the face mark; square to the joint's
    plane, which stands tilted by the right one, cos(right) of the difference is left."""
    return 1.5 * abs(tan(radians(right_deg)) - tan(radians(made_deg))) * cos(radians(right_deg))


def test_the_pitch_set_as_the_tilt():
    made = mistakes()["pitch-as-tilt"].made_on(hip_jack("8"))
    assert made.price_in == pytest.approx(tilt_price(45, degrees(atan(8 / 12))), abs=1e-12)
    # At 12 in 12 the pitch happens to be the tilt, and there is no mistake.
    assert mistakes()["pitch-as-tilt"].made_on(hip_jack("12")) is None


def test_the_pitch_set_as_the_tilt_where_there_is_no_cheek():
    """A plumb cut square through the thickness: tilted to the slope, the far face falls short
    by t tan(slope), square to the plumb mark and to the ridge: t times the rise over 12."""
    for rise in (6, 9, 12):
        ridge = answer(ask("common-ridge", pitch=read_pitch(str(rise))))
        made = mistakes()["pitch-as-tilt"].made_on(ridge)
        assert made.price_in == pytest.approx(1.5 * rise / 12, abs=1e-12)
    # A tilt of 45 out of habit is the same mistake at every pitch.
    made = mistakes()["forty-five-as-tilt"].made_on(answer(ask("common-ridge")))
    assert made.price_in == pytest.approx(1.5, abs=1e-12)


def test_seventeen_for_twelve_on_a_jack():
    made = mistakes()["seventeen-for-twelve"].made_on(hip_jack("8"))
    # The lines part by the difference of their slopes over the depth; the cheek, at 45 in plan,
    # and the slope of the face mark take their cosines.
    slope = atan(8 / 12)
    along = 5.5 * (8 / 12 - 8 / (12 * sqrt(2)))
    shift = 1.5 * (1 / cos(atan(8 / (12 * sqrt(2)))) - 1 / cos(slope))
    corners = [0.0, along, shift, along + shift]
    price = (max(corners) - min(corners)) * sin(radians(45)) * cos(slope)
    assert made.price_in == pytest.approx(price, abs=1e-9)
    hip = answer(ask("hip-ridge-single", pitch=read_pitch("8")))
    assert mistakes()["seventeen-for-twelve"].made_on(hip) is None


def test_the_other_roofs_tilt():
    true_answer = hip_jack("8", "12")
    # In plan the hip leans by the ratio of the pitches: its cheek is atan(8/12) from square to
    # the one roof's jacks and the rest of a right angle from the other's.
    one = degrees(atan(12 / 8))
    made = mistakes()["other-roofs-tilt"].made_on(true_answer)
    tilts = sorted((float(true_answer.cut.face_tilt_deg), made.setting.tilt_deg))
    assert tilts == pytest.approx([90 - one, one], abs=1e-9)
    assert mistakes()["other-roofs-tilt"].made_on(hip_jack("8")) is None


def test_the_other_roofs_pitch_on_the_face():
    made = mistakes()["other-roofs-pitch-on-face"].made_on(hip_jack("8", "10"))
    assert made.setting.line_deg == pytest.approx(degrees(atan(10 / 12)), abs=1e-9)


@pytest.mark.parametrize(
    ("pitch", "claim", "name"),
    [
        ("8", "tilt 33.69", "pitch-as-tilt"),
        ("8", "plumb 8 in 17, saw 45", "seventeen-for-twelve"),
        ("8", "saw 45, right-hand cut, plumb 8", "wrong-hand"),
        ("8", "tilt the saw to the pitch", "pitch-as-tilt"),
    ],
)
def test_they_are_named_when_they_are_claimed(pitch, claim, name):
    (found,) = settle(hip_jack(pitch), [claim]).findings
    assert found.judged.mistakes[0].mistake.name == name
