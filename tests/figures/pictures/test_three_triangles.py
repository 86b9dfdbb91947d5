"""The three triangles that find a leaning board's tilt, measured from their drawn sides."""

from math import asin, cos, degrees, radians, sin

import pytest

from figures.pictures.three_triangles import three_triangles
from layout.errors import SheetError
from tests.views_of import length_in, one, stroke, words

ROOM = (7.4, 2.4)


@pytest.mark.parametrize(
    ("name", "pitch", "part"),
    [
        ("purlin-square", "8 in 12", cos),
        ("fascia-square", "4 in 12", cos),
        ("splayed-miter", "60 deg", sin),
    ],
)
def test_each_triangle_takes_a_leg_of_the_one_before(name, pitch, part):
    """Spherical trigonometry: sin tilt = cos (half corner) times cos (slope) for a board whose
    faces stand square to the slope, times sin for one that lies in it (from memory)."""
    drawing = three_triangles(one(name, pitch), ROOM)
    sides = {
        (which, side): length_in(stroke(drawing, f"{which}-{side}"))
        for which in ("first", "second", "third")
        for side in ("long", "beside", "across")
    }
    leg = "across" if part is sin else "beside"
    assert sides["second", "long"] == pytest.approx(sides["first", "beside"], abs=1e-9)
    assert sides["third", "across"] == pytest.approx(sides["second", leg], abs=1e-9)
    assert sides["third", "long"] == pytest.approx(sides["first", "long"], abs=1e-9)
    slope = {"8 in 12": 33.690068, "4 in 12": 18.434949, "60 deg": 60.0}[pitch]
    tilt = degrees(asin(cos(radians(45.0)) * part(radians(slope))))
    drawn = degrees(asin(sides["third", "across"] / sides["third", "long"]))
    assert drawn == pytest.approx(tilt, abs=1e-5)
    assert words(drawing, "third-angle") == f"{tilt:.2f}°"


def test_a_plumb_board_needs_no_triangles():
    with pytest.raises(SheetError, match="leans with its roof"):
        three_triangles(one("hip-jack", "8 in 12"), ROOM)
