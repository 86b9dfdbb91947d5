"""Which sheets a set of templates takes, and which paper a template: never more than it could."""

from math import prod

import pytest

from figures.ink.drawing import Drawing
from figures.ink.paper import read_paper
from figures.page.packing import together
from figures.page.tiling import PrintSetup, blank_page
from figures.wrap import template_set
from figures.wrap.note_frame import PAD_IN, NoteFrame
from figures.wrap.template import Template
from figures.wrap.template_set import NoteFrames
from tests.wraps import answered

LETTER = PrintSetup(read_paper("Letter"))
FIELDS = [(7.0, 9.0), (9.0, 7.0)]


def blank_pages(count):
    return tuple(blank_page(LETTER, title="Set") for _ in range(count))


class Alone(Template):
    """A template that takes two pages of its own."""

    def pages(self):
        return blank_pages(2)


@pytest.mark.parametrize(("shared", "kept"), [(1, 1), (3, 3), (4, 4), (6, 4)])
def test_a_set_shares_sheets_only_where_that_saves_paper(monkeypatch, shared, kept):
    """Two templates of two pages each take four alone."""
    monkeypatch.setattr(template_set, "_shared", lambda templates: blank_pages(shared))
    jack = answered("hip-jack", "head")
    assert len(template_set.template_set([Alone(jack, LETTER), Alone(jack, LETTER)])) == kept


@pytest.mark.parametrize(("tiled", "apart", "kept"), [(2, 1, 2), (5, 3, 3), (5, 5, 5), (5, 7, 5)])
def test_both_ends_of_the_marks_are_drawn_apart_only_where_that_saves_paper(
    monkeypatch, tiled, apart, kept
):
    """Two pages of the whole marks are few enough."""
    for name, count in (("_tiled", tiled), ("_ends_apart", apart)):
        monkeypatch.setattr(Template, name, lambda self, *ways, n=count: blank_pages(n))
    for name in ("_single", "_ends_single"):
        monkeypatch.setattr(Template, name, lambda self, *ways: None)
    # A name of its own: templates of lessons are kept for the whole run.
    name = f"{tiled} or {apart}"
    said, pages = Template(answered("hip-jack", "head"), LETTER, version=name).chosen()
    assert len(pages) == kept
    assert said == ("ends" if kept < tiled else "whole")


def test_every_frame_lies_on_one_sheet_the_largest_first():
    sizes = [((3.0, 4.0),), ((6.0, 8.0),), ((2.0, 2.0), (1.0, 4.0)), ((7.0, 4.0),), ((3.0, 5.0),)]
    every = [NoteFrames((), each) for each in sizes]
    bins = template_set._binned(every, FIELDS)
    assert sorted(id(one) for held in bins for one in held) == sorted(map(id, every))
    for held in bins:
        assert together([one.sizes for one in held], FIELDS) is not None
    least = [min(map(prod, held[0].sizes)) for held in bins]
    assert least == sorted(least, reverse=True)
    assert least[0] == 48
    assert len(bins) == 2


def test_a_frame_without_notes_is_its_wrap_s_own_box():
    frame = NoteFrame(Drawing(), (1.0, 2.0, 4.0, 9.0), ())
    assert frame.box == (1.0, 2.0, 4.0, 9.0)
    assert frame.size == pytest.approx((3 + 2 * PAD_IN, 7 + 2 * PAD_IN))
