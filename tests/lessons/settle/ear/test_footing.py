"""The joint as the ear sees it, at corners where a tilt is small enough to lie on the square.

A jack's tilt is half the corner, its side-cut number 12 cos(33.69) over the tangent of that (8 in
12): 2.675 at a corner of 150 degrees, 16.95 at 61 and 16.90 at 61.15. From the edge it tilts by
the angle whose sine is sin(33.69) cos(half the corner): 8.25 degrees at 150.
"""

import pytest

from layout.answer.answer import answer
from layout.answer.question import ask
from lessons.settle.ear.footing import Footing


def jack(corner_deg: float, name: str = "hip-jack") -> Footing:
    return Footing(answer(ask(name, corner_deg=corner_deg)))


@pytest.mark.parametrize(
    ("corner", "numbers", "others"),
    [
        (150, (1, 2.6875, 4, 14, 15.5, 16.9375), (0.9375, 2.7, 15, 17, 17.0625)),
        (150, (7.6875, 8.8125), (8, 8.5)),  # near the tilt from the edge
        (30, (9, 14.4375, 15.5625), (14.5625, 14.75, 15, 15.25, 15.4375)),  # near the tilt
        (61, (17, 14.5, 15.5), (15, 16, 18)),
        (61.15, (14, 16.875), (17, 16)),
    ],
)
def test_a_number_behind_the_saw_that_could_lie_on_the_square(corner, numbers, others):
    """A sixteenth of 1 to 17 that is no whole number of degrees past 14, nor near a tilt."""
    footing = jack(corner)
    assert [n for n in (*numbers, *others) if footing.could_be_on_square(n)] == list(numbers)


def test_a_cut_with_a_square_edge_has_no_number():
    assert not jack(90, "common-ridge").could_be_on_square(8)


def test_half_the_corner_is_of_the_side_below_180():
    assert jack(135).half_corner_deg == jack(225, "valley-jack").half_corner_deg == 67.5


def test_a_square_mark_s_top_is_at_the_head():
    assert [jack(90, n).top for n in ("common-tail-square", "common-ridge", "common-seat")] == [
        "head", "head", "foot",
    ]  # fmt: skip
