"""A stick's sheets are the stick's own: two cheeks in place, the seat asked for, every plane.

Marks are read from the PDF and folded on the board; lengths are worked from the triangle by hand.
"""

from itertools import pairwise

import numpy as np
import pytest

from figures.files.press import write
from layout.answer.answer import answer
from layout.framing.cutlist import stick_row
from layout.framing.ends import end_question
from layout.job.job import Job
from layout.job.job_roof import framed
from tests.counts import part_of
from tests.folded_marks import marks_in_file, printed

NEAR_IN = 1e-3


def marks_of(tmp_path, texts, stick, place):
    """The marks of one end of a stick of a job, on its board, from the file of its template."""
    roof = framed(Job("yard", texts))
    one = answer(end_question(roof.by_name[stick], place, roof.by_name))
    pages = printed(one, words=False)
    (path,) = write(pages, tmp_path / f"{len(list(tmp_path.iterdir()))}.pdf", title="end")
    return roof.by_name[stick], marks_in_file(pages, path, one)


@pytest.mark.parametrize(("main", "end"), part_of([("8", "12"), ("8", "9"), ("4", "9")], 3))
def test_the_point_of_a_hip_between_unequal_pitches_is_the_cut_lists(tmp_path, main, end):
    """From short to long point along the top edge: the paper's marks against the cut list's row."""
    texts = {"size": "24' x 16'", "pitch": f"{main} in 12", "end-pitch": f"{end} in 12"}
    stick, marks = marks_of(tmp_path, texts | {"hip": "2x10", "spacing": "96in"}, "H1", "head")
    lengths = stick_row(stick).lengths
    top = marks[np.abs(marks[:, 2] - stick.stock.depth_in) < NEAR_IN]
    apart = top[:, 0].max() - top[:, 0].min()
    assert apart == pytest.approx(lengths.long_in - lengths.short_in, abs=NEAR_IN)
    if (main, end) == ("8", "12"):
        # In plan the hip's run is the hypotenuse of legs 12 and 8: cheeks of a square corner
        # between two commons, whose point lies where their faces cross.
        assert (lengths.long_in, lengths.short_in) == pytest.approx((130.750, 129.107), abs=5e-4)
        point = top[top[:, 0].argmax()]
        assert abs(point[1] - stick.stock.thickness_in / 2) > 0.2, "not on the middle of the edge"


@pytest.mark.parametrize("seat", part_of(["2", "3.5", "5.5"], 2))
def test_a_commons_template_has_the_seat_that_was_asked_for(tmp_path, seat):
    """On the face the seat's mark is as long as the level seat, the heel's as seat * 8/12."""
    texts = {"size": "16' x 10'", "seat": seat, "spacing": "96in", "plate": "2x6"}
    _, marks = marks_of(tmp_path, texts, "C1", "seat")
    face = marks[np.abs(marks[:, 1]) < 1e-9]
    inside = face[face[:, 2].argmax()]
    low = face[face[:, 2] < 1e-6]
    lengths = sorted({round(float(np.hypot(*(p - inside)[[0, 2]])), 4) for p in low})
    assert lengths == pytest.approx([float(seat) * 8 / 12, float(seat)], abs=NEAR_IN)


def test_a_hips_seat_is_a_notch_and_never_runs_through_the_board(tmp_path):
    """A hip's seat ends at its heel, whose upper end lies well under the top edge.

    By the triangle: its height above plate is a common's, 5 1/2 in of depth plumb less the heel of
    a 3 1/2 in seat; the heels of both faces stand half the thickness nearer the head, level.
    """
    stick, marks = marks_of(tmp_path, {"size": "16' x 10'", "spacing": "96in"}, "H1", "seat")
    slope = 8 / np.hypot(12, 12)
    above = 5.5 * np.hypot(1, 8 / 12) - 3.5 * 8 / 12
    heel = stick.stock.depth_in * np.hypot(1, slope) - above  # plumb, on the middle
    on_face = heel - 0.75 * slope
    assert marks[:, 2].max() == pytest.approx(on_face / np.hypot(1, slope), abs=NEAR_IN)
    assert np.ptp(marks[:, 0]) < 15


def test_every_cut_of_a_hip_has_a_sheet_with_all_its_planes():
    """Two cheeks, a seat with two heels, two tails, two bevels: by the roof's own list of cuts."""
    texts = {"size": "16' x 10'", "spacing": "96in", "end-pitch": "10 in 12", "hip": "2x10"}
    roof = framed(Job("yard", texts))
    for place, count in {"head": 2, "seat": 3, "foot": 2, "rip": 2}.items():
        first = answer(end_question(roof.by_name["H1"], place, roof.by_name))
        assert 1 + len(first.others) == count, place


def test_the_boards_of_a_long_ridge_are_halves():
    """A ridge of 20'-0 3/4" and more: two boards of one length, none of them a splinter."""
    from layout.framing.buying import boards_to_buy

    roof = framed(Job("yard", {"size": "36' x 16'", "spacing": "96in"}))
    ridge = roof.by_name["R1"].blank_in
    assert 240 < ridge < 242
    mine = [row for row in boards_to_buy(roof) if "R1 part" in row.pieces]
    assert [row.length_in for row in mine] == [144.0, 144.0]
    assert all(a.left_in == pytest.approx(b.left_in) for a, b in pairwise(mine))
