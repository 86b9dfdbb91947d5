"""A whole roof: what its pictures measure is what was asked to be framed."""

from functools import cache

import pytest

from figures.ink.drawing import collisions
from figures.pictures.roof_section import roof_section
from figures.pictures.roof_views import framed, roof_elevation, roof_pictorial, roof_plan_picture
from layout.errors import SheetError
from layout.framing.roof import frame
from layout.framing.roof_plan import RoofPlan, Wing
from tests.counts import LONG

ROOM = (10.0, 6.4)


@cache
def roof(wing=False):
    # Short, so that few rafters are drawn; in the long run a usual one.
    size = (288, 192) if LONG else (160, 96)
    plan = RoofPlan(*size, spacing_in=24.0, wing=Wing(96, 96) if wing else None)
    return framed(frame(plan).sticks)


def said(drawing):
    return [label.text.replace("\xa0", " ") for label in drawing.labels]


def check(drawing):
    assert not collisions(drawing)
    left, bottom, right, top = drawing.bounds()
    assert left > -1e-9
    assert bottom > -1e-9
    assert right < ROOM[0] + 1e-9
    assert top < ROOM[1] + 1e-9


def feet(length_in):
    """A whole number of inches as feet and inches."""
    return f"{length_in // 12:.0f}'-{length_in % 12:.0f}\""


def test_the_section_says_span_run_and_overhang():
    drawing = roof_section(roof(), ROOM)
    check(drawing)
    span = 192 if LONG else 96
    assert {feet(span), feet(span / 2)} <= set(said(drawing))
    # Overhang 12 less the fascia's 3/4: to the rafters' tails.
    assert said(drawing).count("0'-11 ¹⁄₄\"") == 2
    assert any("8 in 12" in words for words in said(drawing))


def test_the_plan_says_walls_and_spacing():
    drawing = roof_plan_picture(roof(), ROOM)
    check(drawing)
    length, width = (288, 192) if LONG else (160, 96)
    assert {feet(length), feet(width), "2'-0\""} <= set(said(drawing))
    names = {stick.name for stick in roof().sticks}
    assert names <= set(said(drawing)), "every stick bears its name"


def test_wood_hides_what_lies_behind_it():
    """Of each stick some edge is seen from above; behind the front slope much is not."""
    whole = roof()
    drawing = roof_pictorial(whole, ROOM)
    check(drawing)
    seen = {line.gid for line in drawing.strokes}
    carriers = {f"stick-{stick.name}" for stick in whole.of("hip", "ridge")}
    assert carriers <= seen
    front = {line.gid for line in roof_elevation(whole, ROOM, "front").strokes}
    behind = [s for s in whole.of("common") if s.pose.head[1] < -0.5]
    assert behind
    assert not any(f"stick-{stick.name}" in front for stick in behind)


def test_an_elevation_says_the_height_over_the_plate():
    whole = roof()
    drawing = roof_elevation(whole, ROOM, "left")
    check(drawing)
    top = max(float(stick.corners[:, 2].max()) for stick in whole.sticks)
    from layout.quantity import write_feet

    wanted = write_feet(top - whole.plate_top_in).replace('"', "").split()[0]
    assert any(words.startswith(wanted) for words in said(drawing))


@pytest.mark.skipif(not LONG, reason="an L takes longer to draw: in the long run")
def test_an_l_is_drawn_too():
    whole = roof(wing=True)
    for view in (roof_section, roof_pictorial):
        check(view(whole, ROOM))


def test_a_roof_without_sticks_is_refused():
    with pytest.raises(SheetError, match="frame a roof first"):
        framed([])
