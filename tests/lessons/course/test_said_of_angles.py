"""What lessons say of a corner's angles, of a hip's heel and of the boards that are cut."""

import re
from math import atan2, cos, degrees, radians, sin, tan

import pytest

from layout.quantity import read_pitch
from lessons.cli.main import run


def said(capsys, *asked: str) -> str:
    assert run(list(asked)) == 0
    return " ".join(capsys.readouterr().out.split())


def hip_from_eave_deg(corner_deg: float, own: float, other: float) -> float:
    """Where the hip runs, seen from above, off the own roof's eave [degrees].

    A point that far off both eaves stands at one height in both roofs: with the hip at f off the
    own eave it is sin f away from it and sin (corner - f) from the other, so own sin f =
    other sin (corner - f), and tan f = other sin corner / (own + other cos corner).
    """
    corner = radians(corner_deg)
    return degrees(atan2(other * sin(corner), own + other * cos(corner)))


@pytest.mark.parametrize(
    ("corner", "own", "other"),
    [(110, 8, 8), (135, 8, 8), (60, 9, 9), (75, 5, 5), (110, 8, 11), (90, 6, 12)],
)
def test_the_answer_at_any_corner_names_each_angle_as_it_is(capsys, corner, own, other):
    text = said(
        capsys, "lesson", "skew-corner", "--corner", str(corner), "--pitch", str(own),
        "--other-pitch", str(other),
    )  # fmt: skip
    # The jack runs square to its eave: what the hip leaves of a right angle is between the two.
    off_eave = hip_from_eave_deg(corner, own, other)
    (plan, tilt) = re.search(
        r"the plan angle, between jack and hip, is ([\d.]+)°\. The tilt is measured from square"
        r" across the jack: 90° less the plan angle, ([\d.]+)°\.",
        text,
    ).groups()
    assert float(plan) == pytest.approx(90 - off_eave, abs=0.005)
    assert float(tilt) == pytest.approx(off_eave, abs=0.005)
    assert "half of this corner is the plan angle" not in text


def test_no_corner_but_the_square_one_is_said_to_hold_45(capsys):
    """At 110 the plan angle is 90 - 55 = 35, and the tilt 55: 45 is neither."""
    text = said(capsys, "lesson", "skew-corner")
    assert "45 may be the angle in plan, or the tilt" not in text
    assert (
        "45 belongs to a square corner under equal pitches. There it is the angle in plan, and for"
        " plumb boards the tilt." in text
    )
    # There it is both: the hip halves 90, and what is left of a right angle is 45 again.
    assert hip_from_eave_deg(90, 8, 8) == pytest.approx(45)
    # On an edge that climbs at a, 45 in plan has its length drawn out by 1 / cos a.
    slope = radians(read_pitch("8").slope_deg)
    assert degrees(atan2(1, tan(radians(45)) / cos(slope))) == pytest.approx(39.76, abs=0.005)


def test_plan_angle_and_tilt_part_with_another_corner_or_two_pitches(capsys):
    text = said(capsys, "lesson", "cheek-by-saw")
    assert "with other pitches" not in text
    assert (
        "Change the corner, or give the two roofs two different pitches, and they differ." in text
    )
    # One pitch changed on both roofs parts nothing; two pitches do.
    assert hip_from_eave_deg(90, 5, 5) == pytest.approx(45)
    assert abs(hip_from_eave_deg(90, 8, 11) - 45) > 5
    assert abs(hip_from_eave_deg(110, 8, 8) - 45) > 5


@pytest.mark.parametrize("corner", [70, 90, 110, 135])
def test_the_heel_of_a_hip_is_not_laid_out_like_its_head(capsys, corner):
    """Seen from above, a heel's marks are the walls: off the corner they run up beside the hip,
    half the corner off it, and half of less than 180 is less than square. So they run toward the
    head; the cheeks of the head, against two commons, run back from the point."""
    assert cos(radians(corner / 2)) > 0
    roof = ("--corner", str(corner), "--pitch", "8")
    text = said(capsys, "lesson", "hip-double-cheek", *roof)
    assert "heel of a hip alike" not in text
    assert "The heel is a cut of its own: a notch round the corner of the walls." in text
    assert "At the heel both edge marks run from the center line toward the head." in text
    assert "Those of this cut run from the center line toward the foot." in text
    # What the two cuts say of themselves. Left of the center the heel lies against the wall that
    # runs up on the left, and so faces right; there the head's cheek faces left.
    heel = said(capsys, "mark", "hip-seat", *roof)
    assert re.search(
        r"the other roof's wall, the cheek faces right: face \S+ edge [^;]*? tilt [\d.]+° face"
        r" mark's top toward the head; edge mark's left end toward the head",
        heel,
    )
    head = said(capsys, "mark", "hip-ridge", *roof)
    assert "the cheek faces left" in head
    assert re.search(r"EDGE MARK [^;]*?; side-cut .*? slants its left end toward the foot", head)


def test_where_the_heel_may_run_either_way_no_way_is_said(capsys):
    text = said(capsys, "lesson", "hip-double-cheek", "--pitch", "8", "--other-pitch", "6")
    assert "The heel is a cut of its own" in text
    assert "At the heel both edge marks" not in text


def test_the_jack_s_lesson_cuts_two_boards_throughout(capsys):
    text = said(capsys, "lesson", "hip-jack")
    assert "both on one board" not in text
    assert "Here you do both, each on a board of its own." in text
    assert "Cut one board by handsaw, and one by saw." in text
