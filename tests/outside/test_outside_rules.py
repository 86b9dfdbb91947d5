"""Rules that handbooks give in words, at every rise of their tables.

With two numbers on the square, the cut makes atan(held / cut on) with the length of the stock.
"""

import numpy as np
import pytest

from layout.cuts import catalogue
from layout.plane.corner import Corner
from layout.stock import read_stock

RISES = range(2, 19)
"""NAVEDTRA 14044's table runs from 2 to 18 in 12."""


def joint(name, rise, other=None, corner_deg=90.0):
    own, far = (float(np.degrees(np.arctan2(*pitch))) for pitch in (rise, other or rise))
    found = catalogue()[name].joint(Corner(own, far, corner_deg))
    return found, found.cuts(read_stock(catalogue()[name].stock))[0]


def from_length(cut):
    return 90 - float(cut.edge_mark_deg)


def laid(held, cut_on):
    return float(np.degrees(np.arctan2(held, cut_on)))


@pytest.mark.parametrize("r", RISES)
def test_jack_side_cut(r):
    """12 on the tongue, length of common on the blade, cut on the blade: Griffith, section 28."""
    common = np.sqrt(144 + r * r)
    for name in ("hip-jack", "valley-jack", "cripple-jack"):
        _, cut = joint(name, (r, 12), corner_deg=270.0 if name == "valley-jack" else 90.0)
        assert from_length(cut) == pytest.approx(laid(12, common), abs=1e-9)


@pytest.mark.parametrize("r", RISES)
def test_hip_side_cut(r):
    """17 on the tongue, length of hip on the blade, cut on the blade: Griffith, section 22.

    17 stands for 16.97 and the hip's length goes with it: a fortieth of a degree at 18 in 12.
    """
    hip = np.sqrt(289 + r * r)
    for name in ("hip-ridge", "hip-ridge-single"):
        _, cut = joint(name, (r, 12))
        assert from_length(cut) == pytest.approx(laid(17, hip), abs=0.025)


@pytest.mark.parametrize("r", RISES)
def test_octagon_jack_side_cut(r):
    """The polygon's tangent, 4.97, held, length of common cut on: Griffith, section 41."""
    _, cut = joint("hip-jack", (r, 12), corner_deg=135.0)
    assert from_length(cut) == pytest.approx(laid(4.97, np.sqrt(144 + r * r)), abs=0.01)


@pytest.mark.parametrize("r", RISES)
def test_backing_of_a_hip(r):
    """Rise and length of hip, marked on the rise: Hodgson. The bevel lies that off level."""
    _, cut = joint("hip-backing", (r, 12))
    off_level = np.degrees(np.arctan2(abs(cut.normal[1]), abs(cut.normal[2])))
    assert off_level == pytest.approx(laid(r, np.sqrt(288 + r * r)), abs=1e-9)


@pytest.mark.parametrize("r", RISES)
@pytest.mark.parametrize("sides", [3, 4, 5, 6, 8])
def test_backing_of_any_polygon(r, sides):
    """Level setback half the thickness times tan(half central angle): Griffith, section 39.

    The drop is the plumb height of the hip's own pitch over that setback.
    """
    found, cut = joint("hip-backing", (r, 12), corner_deg=180.0 - 360.0 / sides)
    half = np.radians(180.0 / sides)
    setback = 0.75 * np.tan(half)
    drop = setback * r / (12 / np.cos(half))
    assert np.ptp(cut.corners()[:, 2]) / found.pose.up[2] == pytest.approx(drop, abs=1e-9)


def test_backing_of_unequal_pitch():
    """Hodgson, division C: span 24, rise 10, runs 12 and 16, different on the two sides.

    Derived from his rule: level setbacks t/2 x 16/12 and t/2 x 12/16 on the 20 : 10 seat line,
    so plumb drops of 0.6667 and 0.375 times t/2 on a side's and an end's face.
    """
    for own, other, drop in (((10, 12), (10, 16), 2 / 3), ((10, 16), (10, 12), 0.375)):
        found, cut = joint("hip-backing", own, other)
        plumb = np.ptp(cut.corners()[:, 2]) / found.pose.up[2]
        assert plumb == pytest.approx(0.75 * drop, abs=1e-9)


@pytest.mark.parametrize("lean", [5.0, 10.0, 15.0, 30.0, 45.0])
def test_hopper_with_level_edges_mitres_at_45(lean):
    """Building Trades Pocketbook, "Hopper Bevels": measured on the level edge, 45 degrees."""
    slope = 90.0 - lean
    corner = Corner(slope, slope)
    found = catalogue()["splayed-miter"].joint(corner)
    (plane,) = found.planes
    on_level_edge = np.cross(plane.normal, [0.0, 0.0, 1.0])
    cosine = abs(on_level_edge @ corner.eave) / np.linalg.norm(on_level_edge)
    assert np.degrees(np.arccos(cosine)) == pytest.approx(45, abs=1e-9)


@pytest.mark.parametrize("lean", [5.0, 10.0, 15.0, 30.0, 45.0])
def test_hopper_butt_is_square_across_its_level_edge(lean):
    """Noyes, Handwork in Wood: the butt is scored square across the bevelled edge."""
    corner = Corner(90.0 - lean, 90.0 - lean)
    (plane,) = catalogue()["splayed-butt"].joint(corner).planes
    on_level_edge = np.cross(plane.normal, [0.0, 0.0, 1.0])
    assert on_level_edge @ corner.eave == pytest.approx(0, abs=1e-12)


@pytest.mark.parametrize("lean", [5.0, 10.0, 15.0, 30.0, 45.0])
def test_hopper_face_cut(lean):
    """Width of side on the blade, the flare held: Hodgson. From square, flare over width."""
    for name in ("splayed-miter", "splayed-butt"):
        stock = read_stock("1x8")
        cut = catalogue()[name].joint(Corner(90.0 - lean, 90.0 - lean)).cuts(stock)[0]
        flare = 7.25 * np.sin(np.radians(lean))
        assert cut.face_mark_deg == pytest.approx(laid(flare, 7.25), abs=1e-9)


@pytest.mark.parametrize("r", RISES)
def test_roof_boards_are_cut_as_jacks_are(r):
    """The jack's two numbers cut a roof board's face, on the other arm: Radford, volume 3."""
    _, board = joint("roof-board", (r, 12))
    assert board.face_mark_deg == pytest.approx(laid(12, np.sqrt(144 + r * r)), abs=1e-9)
