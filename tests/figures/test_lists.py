"""The roof plan, the layout stick and the card, by geometry: what is drawn and can be read."""

from functools import cache
from itertools import product

import pytest
import shapely

from figures.ink.drawing import collisions
from figures.ink.paper import read_paper
from figures.page.card import CardTable, card_pages
from figures.page.sheet import clear_field
from figures.pictures.layout_stick import APART_IN, WIDE_IN, layout_sticks, marks
from figures.pictures.roofplan import roof_plan_page
from layout.errors import SheetError
from layout.framing.jackplan import JackPlan
from layout.framing.jackset import jack_set
from layout.framing.roof import frame
from layout.framing.roof_plan import RoofPlan, Wing
from layout.quantity import read_pitch
from tests.counts import part_of

ROOFS = {
    "hips": RoofPlan(288, 192),
    "gables": RoofPlan(240, 168, ends=("gable", "gable")),
    "ell": RoofPlan(360, 240, wing=Wing(144, 144)),
}


@cache
def framed(name):
    return frame(ROOFS[name])


@cache
def plan_of(name, paper):
    """A roof's plan on a paper, drawn once for all that read it."""
    return roof_plan_page(framed(name), read_paper(paper), title="Plan", given="8 in 12")


@pytest.mark.parametrize(
    ("paper", "name"), part_of(list(product(("Letter", "A4", "Tabloid"), ROOFS)), 5)
)
def test_a_plan_fits_its_page_and_its_names_overlap_nothing(name, paper):
    roof, page = framed(name), plan_of(name, paper)
    left, bottom, right, top = clear_field(page)
    x0, y0, x1, y1 = page.drawing.bounds()
    assert left - 1e-9 <= x0 <= x1 <= right + 1e-9
    assert bottom - 1e-9 <= y0 <= y1 <= top + 1e-9
    assert not [c for c in collisions(page.drawing, frozenset()) if "'" not in str(c)[:2]]
    assert not collisions(page.drawing, frozenset({"visible"}))
    names = {label.text for label in page.drawing.labels}
    assert {stick.name for stick in roof.sticks} <= names


def test_a_plan_is_the_sticks_shadow_at_scale():
    roof, page = framed("hips"), plan_of("hips", "Letter")
    ridge = next(s for s in page.drawing.strokes if s.gid == "stick-R1")
    left, _, right, _ = shapely.linestrings(ridge.points).bounds
    assert (right - left) / page.scale.factor == pytest.approx(
        roof.by_name["R1"].blank_in, abs=1e-9
    )


def test_a_roof_too_large_for_the_paper_is_refused():
    with pytest.raises(SheetError, match=r"does not fit.*use larger paper"):
        roof_plan_page(
            frame(RoofPlan(480, 480, spacing_in=96.0)),
            read_paper("6in x 6in"),
            title="Plan",
            given="",
        )


def test_the_layout_stick_marks_every_jack_where_it_ends():
    made = jack_set(JackPlan(count=5, other_pitch=read_pitch("10 in 12")))
    drawing = layout_sticks(made.rows, "the plumb line")
    for row in made.rows:
        long = next(
            s for s in drawing.strokes if (s.gid or "").startswith("long-") and row.name in s.gid
        )
        assert long.points[0][0] == pytest.approx(row.lengths.long_in, abs=1e-9)
    assert not collisions(drawing)


def test_roofs_that_differ_have_a_strip_each():
    made = jack_set(JackPlan(count=5, other_pitch=read_pitch("10 in 12")))
    strips = [s for s in layout_sticks(made.rows, "x").strokes if s.gid == "strip"]
    assert sorted(s.points[0][1] for s in strips) == [0, WIDE_IN + APART_IN]


def test_jacks_of_one_length_share_a_mark():
    made = jack_set(JackPlan(count=3))
    assert [mark.names for mark in marks(made.rows)] == ["A1 B1", "A2 B2", "A3 B3"]


def test_a_card_breaks_no_word_and_keeps_to_its_columns():
    lines = [
        [f"row {i}", "a long sentence that has to be broken somewhere in the middle of it"]
        for i in range(60)
    ]
    one = CardTable("Card", "What it means.", ["first", "second"], lines)
    pages = card_pages([one], read_paper("Letter"), title="Card")
    assert len(pages) > 1
    for page in pages:
        assert not collisions(page.drawing)
        _, bottom, right, _ = clear_field(page)
        _, y0, x1, _ = page.drawing.bounds()
        assert x1 <= right + 1e-9
        assert y0 >= bottom - 1e-9


def test_a_card_with_too_many_columns_is_refused():
    head = [f"columnnumber{i}" for i in range(20)]
    with pytest.raises(SheetError, match="20 columns"):
        card_pages([CardTable("Card", "", head, [head])], read_paper("Letter"), title="Card")


@pytest.mark.parametrize("name", part_of(list(ROOFS), 3))
def test_a_rafters_name_stands_at_its_own_stick_on_the_side_that_is_said(name):
    """Left of it, above one that runs across, or off its end; beyond only the last in a row.

    No other rafter is nearer, or a line leads from the name to a dot on its own.
    """
    roof, drawing = framed(name), plan_of(name, "Letter").drawing
    rafters = {stick.name for stick in roof.sticks if stick.role in ("common", "hip jack")}
    rings = {
        stroke.gid.removeprefix("stick-"): shapely.Polygon(stroke.points)
        for stroke in drawing.strokes
        if (stroke.gid or "").removeprefix("stick-") in rafters
    }
    places = {x.text: shapely.Point(x.x, x.y) for x in drawing.labels if x.text in rafters}
    assert set(places) == rafters
    dots = {
        area.gid.removeprefix("dot-"): area.polygon.centroid
        for area in drawing.areas
        if (area.gid or "").startswith("dot-")
    }
    for stick, spot in places.items():
        if stick in dots:
            assert [each for each, ring in rings.items() if ring.covers(dots[stick])] == [stick]
            continue
        assert min(rings, key=lambda each: rings[each].distance(spot)) == stick
        x0, y0, x1, y1 = rings[stick].bounds
        runs_up = y1 - y0 > x1 - x0
        off_the_end = not (y0 < spot.y < y1 if runs_up else x0 < spot.x < x1)
        if runs_up:
            last = not any(
                y0 < ring.centroid.y < y1 and ring.bounds[0] > x1 for ring in rings.values()
            )
        else:
            last = not any(
                x0 < ring.centroid.x < x1 and ring.bounds[3] < y0 for ring in rings.values()
            )
        assert off_the_end or last or (spot.x < x0 if runs_up else spot.y > y1), stick


def test_a_metric_plan_says_millimeters():
    page = roof_plan_page(framed("hips"), read_paper("A4"), title="", given="", metric=True)
    said = {label.text for label in page.drawing.labels}
    assert {"7315 mm", "4877 mm"} <= said  # 24 ft and 16 ft
    assert not any("'" in text for text in said)
    assert page.scale.text.startswith("1 : ")
