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


HOLLOW = [spec for spec in CUTS if spec[0].endswith(("-seat", "-heel")) or spec[0] == "valley-tail"]
"""Notches and hollow ends: the planes bound one removal together, or several."""


@pytest.mark.parametrize("spec", part_of(CUTS, 5, 0), ids=part_of(NAMES, 5, 0))
def test_the_heavy_lines_bound_the_true_plane(spec):
    """Every corner that `layout` gives for the cut stands on the paper where the view puts it."""
    asked = answers(spec)[0]
    if asked.is_rip:
        pytest.skip("a bevel runs on past its breaks; the section shows it")
    bound_by(asked, asked.cut.reached(), hollow=spec in HOLLOW)


@pytest.mark.parametrize("spec", HOLLOW, ids=lambda spec: f"{spec[0]}-{spec[2].value}")
def test_the_heavy_lines_bound_each_plane_of_a_hollow_joint(spec):
    """Where planes hide each other's lines the corner still stands on a line of the stick."""
    every = answers(spec)
    assert not every[0].question.joint.point
    for asked in every:
        bound_by(asked, asked.cut.reached(), hollow=True)
        other = next(one for one in every if one is not asked)
        with pytest.raises(AssertionError):
            bound_by(asked, other.cut.reached(), hollow=True)


def bound_by(asked, corners, *, hollow):
    """The heavy lines lie within the surface with these corners, and a line ends at each."""
    drawing = pictorial(asked, ROOM)
    drawn = cut_points(drawing)
    world = asked.question.joint.pose.to_world(corners)
    wanted = camera(asked).seen(world) * scale_of(drawing)
    # The picture was moved into its room: corners are known but for one step.
    wanted = wanted + drawn.min(axis=0) - wanted.min(axis=0)
    outline = shapely.MultiPoint(wanted).convex_hull
    assert max(shapely.distance(shapely.Point(*point), outline) for point in drawn) < SEEN_IN
    if hollow:
        # Parts of one surface that overlap have corners inside it; its own lie on the hull.
        wanted = shapely.get_coordinates(outline)
        lines = [line for gid in ("stick", "stick-hidden") for line in strokes(drawing, gid)]
        drawn = np.array([*drawn, *(point for line in lines for point in line.points)])
    gaps = np.abs(drawn[:, None, :] - wanted[None]).sum(axis=2).min(axis=0)
    assert gaps.max() < SEEN_IN, "every corner of the cut is drawn"


@pytest.mark.parametrize("spec", part_of(CUTS, 5, 1), ids=part_of(NAMES, 5, 1))
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


@pytest.mark.parametrize("spec", part_of(CUTS, 5, 2), ids=part_of(NAMES, 5, 2))
def test_the_eye_is_where_the_cut_shows(spec):
    asked = answers(spec)[0]
    normal = asked.question.joint.pose.to_world(asked.cut.normal)
    assert normal @ camera(asked).toward > 0.15


def test_where_the_eye_is_stands_below_the_picture():
    for name, where in (("hip-jack", "above"), ("hip-seat", "below")):
        asked = one(name)
        assert (camera(asked).toward[2] > 0) == (where == "above")
        assert words(pictorial(asked, ROOM), "notes").startswith(f"Seen from {where}")
