"""A bird's mouth measured on the stick, against the sizes that the run and the pitch ask for."""

import re

import pytest

from layout.framing.mouth import stick_mouth
from layout.framing.roof_frame import roof_frame
from layout.framing.roof_lines import roof_lines
from layout.framing.summary import facts, length_words
from layout.job.job import Job
from layout.job.job_roof import framed


def test_every_mouth_is_its_plans() -> None:
    """Commons and jacks by their pitch; hips by the seat over the plates' corner."""
    texts = {"size": "16' x 10'", "spacing": "24in", "end-pitch": "10 in 12", "hip": "2x10"}
    roof = framed(Job("yard", texts))
    pitches = {face.name: face.pitch for face in roof.faces}
    seen = set()
    for stick in roof.sticks:
        mouth = stick_mouth(stick)
        if mouth is None:
            assert not stick.on_plate
            continue
        if stick.role in ("common", "hip jack"):
            plan = roof.plan.mouth_of(pitches[stick.face])
        elif stick.role == "hip":
            seats = roof_frame(roof.plan, roof_lines(roof.plan.outline)).seats
            plan = seats[stick.name].mouth
            assert mouth.seat_in == pytest.approx(seats[stick.name].seat_in, abs=1e-6)
            assert mouth.above_plate_in == pytest.approx(plan.height_above_plate_in, abs=1e-6)
            assert mouth.notch_in == pytest.approx(plan.notch_depth_in, abs=1e-6)
            seen.add(stick.role)
            continue
        seen.add(stick.role)
        assert mouth.seat_in == pytest.approx(plan.seat_in, abs=1e-6)
        assert mouth.heel_in == pytest.approx(plan.heel_in, abs=1e-6)
        assert mouth.above_plate_in == pytest.approx(plan.height_above_plate_in, abs=1e-6)
        assert mouth.notch_in == pytest.approx(plan.notch_depth_in, abs=1e-6)
    assert seen == {"common", "hip jack", "hip"}


def test_a_roof_in_metric_says_no_inch() -> None:
    """Facts and lengths of a job in millimeters: 8 in 12 is 200 in 300 on a metric square."""
    roof = framed(Job("yard", {"size": "16' x 10'", "spacing": "48in", "end-pitch": "9 in 12"}))
    told = [*facts(roof, metric=True), length_words(roof.by_name["H1"], metric=True)]
    for line in told:
        assert "in 12" not in line
        assert not re.search(r"\d\"|\d'|\d in\b(?! 300)", line), line
    assert "front 200 in 300, overhang 305 mm" in " ".join(told)
