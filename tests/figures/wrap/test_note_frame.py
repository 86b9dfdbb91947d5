"""Where the notes of a wrap stand in its frame, and how small a wrap of a set is drawn."""

from dataclasses import replace
from types import SimpleNamespace

import pytest
import shapely

from figures.ink.drawing import Drawing, Stroke
from figures.ink.paper import read_paper
from figures.page.beside import Block
from figures.page.sheet import clear_field
from figures.page.tiling import PrintSetup, blank_page
from figures.wrap import note_frame, template_set
from figures.wrap.note_frame import COLUMNS_IN, GAP_IN, PAD_IN, NoteFrame, NoteStack
from figures.wrap.paper_way import PaperWay
from figures.wrap.template import Template
from figures.wrap.template_set import NoteFrames
from figures.wrap.wrap import BEFORE_IN, lay
from tests.wraps import answered


def sheet(wide, high):
    """A drawing so wide and high, its lower left corner at (7, 3)."""
    corners = ((7.0, 3.0), (7.0 + wide, 3.0), (7.0 + wide, 3.0 + high), (7.0, 3.0 + high))
    return Drawing((Stroke(corners, "visible"),))


NOTE = Block("note", (sheet(1.0, 2.0), sheet(2.0, 1.0), sheet(2.2, 1.5)))
"""A note that may stand 1 in wide and 2 in high, or 2 in wide and 1 in high."""
WIDE = Block("note", (sheet(1.5, 0.5),))


def test_a_note_is_as_low_as_its_width_lets_it_be():
    assert note_frame._least_high(NOTE, 1.0) == 2.0
    assert note_frame._least_high(NOTE, 1.99) == 2.0
    assert note_frame._least_high(NOTE, 2.5) == 1.0
    assert note_frame._high([NOTE, WIDE], 2.0) == pytest.approx(1.5 + GAP_IN)
    assert note_frame._high([NOTE], 1.0) == 2.0
    assert note_frame._high([], 1.0) == 0
    assert note_frame._fit([NOTE, WIDE], 1.5)
    assert not note_frame._fit([NOTE, WIDE], 1.49)


def test_notes_stand_under_one_another_from_the_stack_s_corner():
    stack = NoteStack((NOTE, WIDE, NOTE), 2.1, (10.0, 20.0))
    assert stack.box == pytest.approx((10.0, 20.0 - 2.5 - 2 * GAP_IN, 12.1, 20.0))
    tops = [max(y for _, y in stroke.points) for stroke in stack.drawn().strokes]
    assert tops == pytest.approx([20.0, 19.0 - GAP_IN, 18.5 - 2 * GAP_IN])
    assert {min(x for x, _ in stroke.points) for stroke in stack.drawn().strokes} == {10.0}
    wides = [
        max(x for x, _ in s.points) - min(x for x, _ in s.points) for s in stack.drawn().strokes
    ]
    assert wides == pytest.approx([2.0, 1.5, 2.0])


@pytest.mark.parametrize(
    ("notes", "high", "wide", "beside"),
    [
        (4, 5.0, 1.0, 2),  # two of 2 in and the white between take 4.09 of 5 in
        (4, 2.5, 1.0, 1),
        (4, 1.9, 1.0, 0),
        (4, 5.0, 2.1, 4),
        (4, 4.0 + 3 * GAP_IN, 2.1, 4),
        (4, 3.9 + 3 * GAP_IN, 2.1, 3),
    ],
)
def test_what_finds_no_room_beside_a_wrap_runs_on_under_both(notes, high, wide, beside):
    box = (1.0, 2.0, 4.0, 2.0 + high)
    found = list(note_frame._arranged(box, [NOTE] * notes))
    under = found[0]
    assert [(len(one.notes), one.wide, one.at) for one in under] == [
        (notes, 3.0, (1.0, pytest.approx(2.0 - GAP_IN)))
    ]
    column = [stacks for stacks in found[1:] if stacks[0].wide == wide]
    left = pytest.approx(1.0 - GAP_IN - wide)
    whole = [stacks for stacks in column if len(stacks) == 1]
    assert [(len(one.notes), one.at) for (one,) in whole] == [(notes, (left, 2.0 + high))]
    split = [stacks for stacks in column if len(stacks) == 2]
    assert len(split) == (0 < beside < notes)
    for first, second in split:
        assert (len(first.notes), first.at) == (beside, (left, 2.0 + high))
        assert len(second.notes) == notes - beside
        assert second.at == (left, pytest.approx(2.0 - GAP_IN))
        assert second.wide == pytest.approx(3.0 + GAP_IN + wide)


def test_without_notes_and_where_none_fits():
    assert list(note_frame._arranged((0.0, 0.0, 3.0, 5.0), [])) == [()]
    narrow = list(note_frame._arranged((0.0, 0.0, 0.9, 5.0), [NOTE]))
    assert [stacks[0].wide for stacks in narrow] == list(COLUMNS_IN)
    wide = Block("note", (sheet(2.0, 1.0),))
    found = list(note_frame._arranged((0.0, 0.0, 0.9, 5.0), [wide]))
    assert [stacks[0].wide for stacks in found] == [one for one in COLUMNS_IN if one >= 2.0]


def test_a_frame_is_drawn_round_wrap_and_notes_with_white_inside():
    stack = NoteStack((NOTE,), 1.0, (5.9, 6.0))
    frame = NoteFrame(sheet(4.0, 3.0), (7.0, 3.0, 11.0, 6.0), (stack,))
    assert frame.box == pytest.approx((5.9, 3.0, 11.0, 6.0))
    assert frame.size == pytest.approx((5.1 + 2 * PAD_IN, 3.0 + 2 * PAD_IN))
    drawn = frame.drawn()
    assert drawn.bounds() == pytest.approx((0.0, 0.0, *frame.size))
    sides = [s.points for s in drawn.strokes if s.pen == "frame"]
    assert len(sides) == 4
    wide, high = frame.size
    drawn_round = shapely.union_all([shapely.LineString(side) for side in sides])
    assert drawn_round.equals(shapely.box(0, 0, wide, high).boundary)
    inner = Drawing(tuple(s for s in drawn.strokes if s.pen != "frame"))
    assert inner.bounds() == pytest.approx((PAD_IN, PAD_IN, wide - PAD_IN, high - PAD_IN))


def test_the_frames_of_a_sheet_lie_in_its_field_and_apart():
    blank = blank_page(PrintSetup(read_paper("Letter")), title="Set")
    papers = [blank, replace(blank, paper=blank.paper.turned())]
    fields = [template_set._size(page) for page in papers]
    for wide, high in ((3.0, 2.0), (2.0, 3.0)):
        held = []
        for size in ((wide, high), (high, wide), (1.0, 4.0)):
            frame = NoteFrame(sheet(*size), (7.0, 3.0, 7.0 + size[0], 3.0 + size[1]), ())
            held.append(NoteFrames((frame,), (frame.size,)))
        drawn = template_set._sheet(held, papers, fields)
        field = clear_field(drawn.page)
        boxes = [
            shapely.box(*Drawing((stroke,)).bounds())
            for stroke in drawn.drawing.strokes
            if stroke.pen != "frame"
        ]
        assert sorted(box.area for box in boxes) == pytest.approx([4.0, 6.0, 6.0])
        assert shapely.union_all(boxes).area == pytest.approx(16.0)
        inner = shapely.box(*field).buffer(-PAD_IN + 1e-6, join_style="mitre")
        assert inner.covers(shapely.union_all(boxes))


def test_the_notes_of_a_frame_stand_under_the_template_s_name():
    one = answered("common-ridge", "head", stock="2x4")
    found = note_frame.frames(Template(one, PrintSetup(read_paper("Letter"))), lay(one))
    for frame in found:
        title = frame.stacks[0].notes[0].shapes[0].labels
        assert [(label.text, label.bold) for label in title if label.text] == [
            ("common-ridge, head", True)
        ]


def test_a_frame_that_shares_a_sheet_only_turned_is_turned_square():
    blank = blank_page(PrintSetup(read_paper("Letter")), title="Set")
    left, bottom, right, top = clear_field(blank)
    long = top - bottom - 2 * PAD_IN - 0.01
    sizes = (long, 2.0), (2.0, long)
    held = [
        NoteFrames((frame,), (frame.size,))
        for wide, high in sizes
        for frame in (NoteFrame(sheet(wide, high), (7.0, 3.0, 7.0 + wide, 3.0 + high), ()),)
    ]
    drawn = template_set._sheet(held, [blank], [(right - left, top - bottom)])
    boxes = [Drawing((one,)).bounds() for one in drawn.drawing.strokes if one.pen != "frame"]
    assert [(x1 - x0, y1 - y0) for x0, y0, x1, y1 in boxes] == [pytest.approx((2.0, long))] * 2


class Sized(Template):
    """A template whose wraps are as wide as their way's strip says, and 2 in high."""

    def ways(self):
        return iter([PaperWay(strip_in=size) for size in SIZES])

    def lay(self, way, before_in=BEFORE_IN):
        return SimpleNamespace(size=(way.strip_in, 2.0), more=before_in - BEFORE_IN)


SIZES: list[float] = []


@pytest.mark.parametrize(
    ("cut", "end", "sizes", "kept"),
    [
        ("hip-jack", "head", [6.0, 4.0, 5.0], [(4.0, 0.0)]),
        ("hip-jack", "head", [6.0, 3.0, 5.0], [(3.0, 0.0), (3.0, 0.5), (3.0, 1.25), (3.0, 2.0)]),
        ("hip-jack", "head", [3.1], [(3.1, 0.0)]),
        ("hip-backing", "foot", [12.0, 2.0, 9.0, 7.0], [(2.0, 0.0), (7.0, 0.0), (9.0, 0.0)]),
    ],
)
def test_a_wrap_of_a_set_is_the_smallest_and_a_narrow_one_wider_too(cut, end, sizes, kept):
    """A wrap of 3 in or less may show 1/2, 1 1/4 or 2 in more kept wood; a rip has 3 lengths."""
    SIZES[:] = sizes
    one = Sized(answered(cut, end), PrintSetup(read_paper("Letter")))
    found = template_set._smallest(one)
    assert [(wrap.size[0], wrap.more) for wrap in found] == kept
