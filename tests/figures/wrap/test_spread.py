"""What of a board is laid out: which surfaces, how much, the edge to align, where a line runs off.

A 2x6's faces are 5 1/2 in and its edges 1 1/2 in wide: over the top edge the paper runs from 0 to
12 1/2, under the bottom edge from -7 to 5 1/2.
"""

from dataclasses import replace

import pytest

from figures.wrap.both_ends import both_ends
from figures.wrap.spread import (
    ALL_ROUND,
    OVER_BACKED,
    OVER_TOP,
    UNDER_BOTTOM,
    all_round_run,
    arris_between,
    notch_in,
    off_paper,
    spread,
    usual_run,
)
from figures.wrap.stations import stations
from figures.wrap.wrap_blocks import ends_notes
from layout.cuts import Hand
from layout.errors import SheetError
from tests.wraps import answered

JACK = answered("hip-jack", "head")


@pytest.mark.parametrize(
    ("cut", "end", "backed", "run"),
    [
        ("hip-jack", "head", False, OVER_TOP),
        ("hip-ridge", "head", True, OVER_BACKED),
        ("common-seat", "foot", False, UNDER_BOTTOM),
        ("hip-seat", "foot", True, UNDER_BOTTOM),
        ("hip-backing", "foot", False, OVER_TOP),
        ("valley-backing", "foot", False, OVER_TOP),
        ("sleeper-edge", "foot", False, UNDER_BOTTOM),
        ("hip-tail", "foot", False, OVER_TOP),
    ],
)
def test_a_joint_is_wrapped_over_the_edge_that_its_marks_cross(cut, end, backed, run):
    """A notch opens at the bottom; a rip of the bottom edge is wrapped under it."""
    assert usual_run(answered(cut, end), backed=backed) == run


def test_all_round_is_every_side_once():
    assert all_round_run() == ALL_ROUND
    assert all_round_run(backed=True) == (*OVER_BACKED, "bottom edge")


@pytest.mark.parametrize(
    ("run", "more", "datum"),
    [
        (OVER_TOP, {}, (0.0, "bottom arris of the right face")),
        (OVER_TOP, {"short": ("left face", 2.0)}, (0.0, "bottom arris of the right face")),
        (OVER_TOP, {"short": ("right face", 2.0)}, (12.5, "bottom arris of the left face")),
        (UNDER_BOTTOM, {}, (5.5, "top arris of the right face")),
        (UNDER_BOTTOM, {"short": ("right face", 2.0)}, (-7.0, "top arris of the left face")),
        (OVER_TOP, {"strip_in": 2.0, "part": 1}, (5.5, "top arris of the right face")),
        (UNDER_BOTTOM, {"strip_in": 2.0, "part": 2}, (0.0, "bottom arris of the right face")),
        (ALL_ROUND, {}, (0.0, "bottom arris of the right face")),
    ],
)
def test_the_edge_to_align_is_a_whole_face_s_free_one_or_a_fold(run, more, datum):
    """The right face's where it is whole; between two papers' strips the fold of the right face."""
    laid = spread(JACK, run, **more)
    assert laid.datum == (pytest.approx(datum[0]), datum[1])
    assert laid.laid_by == ("fold" if "strip_in" in more else "edge")


@pytest.mark.parametrize(
    ("run", "more", "laid_by"),
    [
        (UNDER_BOTTOM, {}, "fold"),
        (UNDER_BOTTOM, {"short": ("right face", 3.0)}, "fold"),
        (UNDER_BOTTOM, {"strip_in": 2.0}, "fold"),
        (ALL_ROUND, {}, "edge"),
    ],
)
def test_a_notch_is_laid_by_the_arris_it_opens_at(run, more, laid_by):
    """It opens at the bottom edge, the right face's arris at v = 0, which is a fold under the
    bottom and the paper's free edge all round."""
    laid = spread(answered("common-seat", "foot"), run, **more)
    assert laid.datum == (pytest.approx(0.0), "bottom arris of the right face")
    assert laid.laid_by == laid_by


@pytest.mark.parametrize(
    ("cut", "arris", "v"),
    [
        ("hip-backing", "top arris of the right face", 5.5),
        ("sleeper-edge", "bottom arris of the right face", 0.0),
    ],
)
def test_a_rip_is_aligned_by_the_right_face_s_fold(cut, arris, v):
    one = answered(cut, "foot")
    assert spread(one, usual_run(one)).datum == (pytest.approx(v), arris)


@pytest.mark.parametrize(
    ("one", "other", "arris"),
    [
        ("right face", "top edge", "top arris of the right face"),
        ("top edge", "left face", "top arris of the left face"),
        ("left face", "bottom edge", "bottom arris of the left face"),
        ("bottom edge", "right face", "bottom arris of the right face"),
        ("right face", "right bevel", "top arris of the right face"),
        ("right bevel", "left bevel", "middle of the top edge"),
        ("left bevel", "left face", "top arris of the left face"),
    ],
)
def test_an_arris_is_named_by_its_face_and_its_edge(one, other, arris):
    assert arris_between(one, other) == arris


@pytest.mark.parametrize(
    ("run", "short", "arris", "y", "z"),
    [
        (OVER_TOP, "left face", "bottom arris of the left face", 1.5, 0.0),
        (OVER_TOP, "right face", "bottom arris of the right face", 0.0, 0.0),
        (UNDER_BOTTOM, "left face", "top arris of the left face", 1.5, 5.5),
        (UNDER_BOTTOM, "right face", "top arris of the right face", 0.0, 5.5),
    ],
)
def test_a_line_that_runs_off_the_paper_ends_on_the_far_arris(run, short, arris, y, z):
    """In the jack's plane x = 8/12 z - (y / 1.5) 1.8028 from the right face's bottom arris on."""
    laid = spread(JACK, run, short=(short, 2.0))
    said, x = off_paper(laid)
    assert said == arris
    assert x == pytest.approx(z * 8 / 12 - y * (12**2 + 8**2) ** 0.5 / 12)
    shown = laid.by_name[short].panel.box
    assert shown[3] - shown[1] == pytest.approx(2.0)
    assert off_paper(spread(JACK, run)) is None


def test_a_face_folded_on_both_sides_is_never_cut_short():
    with pytest.raises(SheetError, match="folded on both sides"):
        spread(JACK, ("bottom edge", *OVER_TOP), short=("right face", 2.0))


@pytest.mark.parametrize(
    ("cut", "end", "stock", "deep"),
    [("common-seat", "foot", "2x8", 7.25 / 4), ("hip-jack", "head", "2x8", None)],
)
def test_a_notch_needs_its_depth_and_a_little_of_each_face(cut, end, stock, deep):
    """A seat is drawn a quarter of the depth deep; 0.4 in is shown beyond."""
    assert notch_in(answered(cut, end, stock=stock)) == pytest.approx(deep + 0.4 if deep else 0.0)


def test_only_a_rip_s_line_between_two_bevels_stays():
    backing = answered("hip-backing", "foot")
    laid = spread(backing, OVER_TOP)
    assert [name for name in laid.by_name if laid.stays(name)] == ["top edge"]
    laid = spread(answered("valley-backing", "foot"), OVER_TOP)
    assert sorted(n for n in laid.by_name if laid.stays(n)) == [
        "left face",
        "right face",
        "top edge",
    ]
    laid = spread(JACK, OVER_TOP)
    assert not any(laid.stays(name) for name in laid.by_name)


def test_the_paper_s_ends_on_board_and_the_surfaces_at_them():
    laid = spread(JACK, UNDER_BOTTOM)
    assert laid.box[1::2] == pytest.approx((-7.0, 5.5))
    assert (laid.lowest.name, laid.highest.name) == ("left face", "right face")
    rip = spread(answered("hip-backing", "foot"), OVER_TOP)
    assert (rip.lowest.name, rip.highest.name) == ("right face", "left face")
    assert rip.box[0] == 0.0  # the flap is left out
    assert laid.long_from_start_in == pytest.approx(abs(laid.stations[0].at[0] - laid.start_x))


def test_a_bevel_past_the_board_is_refused():
    with pytest.raises(SheetError, match=r"falls .* past a board 1 in deep: use deeper stock"):
        spread(answered("hip-backing", "foot", pitch="24", stock="8in x 1in"), OVER_TOP)


@pytest.mark.parametrize("hand", list(Hand))
@pytest.mark.parametrize(("cut", "end", "mate"), [("common-seat", "foot", "plate")])
def test_a_notch_s_line_is_measured_at_the_right_face(cut, end, mate, hand):
    one = answered(cut, end, hand)
    laid = spread(one, UNDER_BOTTOM)
    (at,) = stations(one, laid.surfaces, laid.toward)
    assert at.name == f"line against the {mate}"
    assert at.at[1] == pytest.approx(0.0)
    assert at.at[0] == pytest.approx(float(one.cuts[0].x_at(0.0, 0.0)))


@pytest.mark.parametrize("backed", [False, True])
def test_both_papers_of_a_hip_s_point_run_over_its_edges(backed):
    first, second = both_ends(answered("hip-ridge", "head"), backed=backed)
    assert tuple(first.by_name) == (OVER_BACKED if backed else OVER_TOP)
    assert tuple(second.by_name) == UNDER_BOTTOM
    assert (first.part, second.part) == (1, 2)
    assert second.as_top is not backed
    assert not first.as_top
    paper, _ = ends_notes(first, second)
    assert " from the long point at the top edge, toward the foot." in paper.text
    assert second.stations[0].name == "LONG POINT"


@pytest.mark.parametrize(("apart", "said"), [(0.5, "toward the head"), (-0.5, "toward the foot")])
def test_the_second_paper_stands_toward_the_end_that_its_start_line_lies_to(apart, said):
    first, second = both_ends(JACK)
    _, paper = ends_notes(first, replace(second, start_x=first.start_x + apart))
    assert f" from start line 1 {said}" in paper.text
