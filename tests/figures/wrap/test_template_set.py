"""Which sheets a set of templates takes, and which paper a template: never more than it could."""

from math import prod

import pytest

from figures.ink.drawing import Drawing, Stroke
from figures.ink.paper import read_paper
from figures.ink.scale import read_scale
from figures.page.nest import add, empty
from figures.page.packing import together
from figures.page.sheet import clear_field
from figures.page.tiling import PrintSetup, blank_page
from figures.wrap import template_set
from figures.wrap.note_frame import PAD_IN, NoteFrame, frames
from figures.wrap.template import Template
from figures.wrap.template_set import NoteFrames
from figures.wrap.wrap import lay
from layout.errors import SheetError
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


def test_a_frame_holds_its_wrap_upright_or_turned_and_all_notes():
    """A 2x4's faces and an edge are 3 1/2 + 1 1/2 + 3 1/2 = 8 1/2 in: no frame is less."""
    ridge = answered("common-ridge", "head", stock="2x4")
    found = frames(Template(ridge, LETTER), lay(ridge))
    assert found
    for one in found:
        x0, y0, x1, y1 = one.wrap.bounds()
        assert max(x1 - x0, y1 - y0) >= 8.5 - 1e-9
        left, bottom, right, top = one.drawn().bounds()
        assert (left, bottom) == pytest.approx((0, 0))
        assert (right, top) == pytest.approx(one.size)
        assert one.size[0] >= x1 - x0 + 2 * PAD_IN - 1e-9
        assert one.size[1] >= y1 - y0 + 2 * PAD_IN - 1e-9


def words_on(sheet):
    return " ".join(label.text for label in sheet.beside.labels)


def test_the_cautions_stand_on_the_last_sheet_that_has_room_else_on_a_new_one():
    blank = blank_page(LETTER, title="Set")
    sheets = [empty(blank), empty(blank)]
    assert template_set._with_cautions(sheets, blank) is sheets[1]
    assert "WARNING" in words_on(sheets[1])
    assert "TO USE" in [label.text for label in sheets[1].beside.labels if label.bold]
    assert not sheets[0].beside.labels
    left, bottom, right, top = clear_field(blank)
    full = empty(blank)
    corners = ((left, bottom), (right, bottom), (right, top), (left, top), (left, bottom))
    add(full, Drawing((Stroke(corners, "visible"),)))
    room = empty(blank)
    assert template_set._with_cautions([room, full], blank) is room
    own = template_set._with_cautions([full], blank)
    assert own is not full
    assert "WARNING" in words_on(own)
    assert not full.beside.labels


def test_a_wrap_is_measured_over_both_faces_and_an_edge():
    """A 2x6 unfolds to 5 1/2 + 1 1/2 + 5 1/2 = 12 1/2 in: at 1 : 50 that is 1/4 in, and shows
    nothing."""
    small = PrintSetup(read_paper("Letter"), read_scale("1:50"))
    with pytest.raises(SheetError, match=r"the drawing is 0\.25 in long and leaves nothing"):
        Template(answered("hip-jack", "head"), small).pages()
