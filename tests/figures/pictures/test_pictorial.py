"""The pictorial view: its cut is the true plane, projected."""

import numpy as np
import pytest
import shapely

from figures.pictures.pictorial import camera, pictorial
from figures.wood.mate import in_world
from figures.wood.unfolded import stick
from tests.counts import part_of
from tests.views_of import CUTS, NAMES, answers, one, scale_of, strokes, words

ROOM = (6.0, 4.4)
SEEN_IN = 5e-5
"""Visible and hidden lines are parted this near where they meet [in]."""


def cut_points(drawing):
    found = [*strokes(drawing, "cut-edge"), *strokes(drawing, "cut-edge-hidden")]
    return np.array([point for line in found for point in line.points])


@pytest.mark.parametrize("spec", part_of(CUTS, 3, 0), ids=part_of(NAMES, 3, 0))
def test_the_heavy_lines_bound_the_true_plane(spec):
    """Every corner that `layout` gives for the cut stands on the paper where the view puts it."""
    asked = answers(spec)[0]
    if asked.is_rip:
        pytest.skip("a bevel runs on past its breaks; the section shows it")
    drawing = pictorial(asked, ROOM)
    drawn = cut_points(drawing)
    corners = asked.question.joint.pose.to_world(asked.cut.corners())
    wanted = camera(asked).seen(corners) * scale_of(drawing)
    # The picture was moved into its room: corners are known but for one step.
    step = drawn.min(axis=0) - wanted.min(axis=0)
    outline = shapely.MultiPoint(wanted + step).convex_hull
    reach = [shapely.distance(shapely.Point(*point), outline) for point in drawn]
    if asked.question.joint.point:
        assert max(reach) < SEEN_IN
        gaps = np.abs(drawn[:, None, :] - (wanted + step)[None]).sum(axis=2).min(axis=0)
        assert gaps.max() < SEEN_IN, "every corner of the cut is drawn"


@pytest.mark.parametrize("spec", part_of(CUTS, 3, 1), ids=part_of(NAMES, 3, 1))
def test_the_solid_is_all_behind_its_planes(spec):
    for asked in answers(spec):
        shown = stick(asked)
        world = in_world(shown, asked.question.joint.pose)
        facet = next(f for f in world.facets if f.name == f"cut {asked.plane_index}")
        spots = facet.edges().reshape(-1, 3)
        local = asked.question.joint.pose.to_board(spots)
        off = (local - asked.cut.point) @ asked.cut.normal
        assert np.abs(off).max() < 1e-9


def test_hidden_edges_are_dashed_and_the_mate_is_phantom():
    drawing = pictorial(one("hip-jack"), ROOM)
    assert {line.pen for line in strokes(drawing, "stick-hidden")} == {"hidden"}
    assert {line.pen for line in strokes(drawing, "mate")} == {"phantom"}
    assert {line.pen for line in strokes(drawing, "cut-edge")} == {"cut"}


@pytest.mark.parametrize("spec", part_of(CUTS, 3, 2), ids=part_of(NAMES, 3, 2))
def test_the_eye_is_where_the_cut_shows(spec):
    asked = answers(spec)[0]
    normal = asked.question.joint.pose.to_world(asked.cut.normal)
    assert normal @ camera(asked).toward > 0.15


def test_where_the_eye_is_stands_below_the_picture():
    for name, where in (("hip-jack", "above"), ("hip-seat", "below")):
        asked = one(name)
        assert (camera(asked).toward[2] > 0) == (where == "above")
        assert words(pictorial(asked, ROOM), "notes").startswith(f"Seen from {where}")
