"""One sawn scrap read twice: the square's number and the bevel's tilt, from the drawn lines."""

import numpy as np
import pytest

from figures.pictures.cross_read import cross_read
from layout.errors import SheetError
from tests.views_of import length_in, one, stroke

ROOM = (7.4, 2.6)


@pytest.mark.parametrize("hand", ["left", "right"])
@pytest.mark.parametrize(("pitch", "number"), [("5 in 12", 144 / 13), ("9 in 12", 144 / 15)])
def test_the_two_readings_are_drawn_in_one_cut(pitch, number, hand):
    """Side-cut number of a jack: 12 times 12 over the common's length for 12 of run, 13 and 15
    (the 5-12-13 and 9-12-15 triangles); the tilt is half the square corner at either pitch."""
    drawing = cross_read(one("hip-jack", pitch, hand=hand), ROOM)
    (x0, y0), (x1, y1) = stroke(drawing, "sawn-edge").points
    assert 12 * abs((y1 - y0) / (x1 - x0)) == pytest.approx(number, abs=1e-6)
    (x0, y0), (x1, y1) = stroke(drawing, "sawn-end").points
    assert abs((x1 - x0) / (y1 - y0)) == pytest.approx(1.0, abs=1e-9)
    # The bevel's stock lies along the face, its blade along the sawn end, both at the long point.
    stock = np.array(stroke(drawing, "bevel-stock").points)
    blade = np.array(stroke(drawing, "bevel-blade").points)
    for bar in (stock, blade):
        assert np.hypot(*(bar - (x0, y0)).T).min() == pytest.approx(0.0, abs=1e-9)
    ways = [np.diff(bar, axis=0) for bar in (stock, blade)]
    longest = [way[np.argmax(np.hypot(*way.T))] for way in ways]
    assert abs(longest[0][1]) < 1e-9
    assert abs(longest[1][0]) == pytest.approx(abs(longest[1][1]), abs=1e-9)
    assert length_in(stroke(drawing, "sawn-end")) > 0.5, "large enough to be read"


def test_a_square_cut_has_nothing_to_cross_read():
    with pytest.raises(SheetError, match="no tilt"):
        cross_read(one("common-ridge", "8 in 12"), ROOM)
