"""Words that find no room on a wrap or beside it become numbered notes; none is left out."""

import pytest
import shapely

from figures.wrap.both_ends import lay_ends
from figures.wrap.note_blocks import note_blocks
from figures.wrap.wrap import lay
from figures.wrap.wrap_sawing import sawing_words
from tests.wraps import answered


def _around(bare, inner_in=0.01):
    """The paper round a wrap, and where the inner margin is below zero the wrap itself too."""
    x0, y0, x1, y1 = bare.lines.bounds(words=False)
    outer = shapely.box(x0 - 9, y0 - 9, x1 + 9, y1 + 9)
    if inner_in < 0:
        return outer
    inner = shapely.box(x0 - inner_in, y0 - inner_in, x1 + inner_in, y1 + inner_in)
    return shapely.difference(outer, inner)


@pytest.mark.parametrize("part", [0, 1])
def test_what_stood_beside_the_wrap_becomes_a_numbered_note(part):
    wrap = lay_ends(answered("fascia-plumb", end="head", pitch="14", stock="2x12"))[part]
    beside = wrap.lettered().drawing
    tips = {
        stroke.points[-1] for stroke in beside.strokes if (stroke.gid or "").startswith("pointer-")
    }
    assert tips, "some words stand beside the wrap"
    made = wrap.lettered([_around(wrap)])
    noted = [note for note in made.notes if note.heading == "WHERE ITS NUMBER POINTS"]
    assert len(noted) == len(tips)
    said = {" ".join(label.text.split()) for label in beside.labels}
    numbers = {label.text for label in made.drawing.labels if label.gid == "note-number"}
    for note in noted:
        assert note.text in said
        assert note.number in numbers
    led = {stroke.points[-1] for stroke in made.drawing.strokes if stroke.gid == "pointer"}
    assert tips <= led, "and its number points where the words did"
    every = [note.number for note in made.notes if note.number]
    assert len(set(every)) == len(every), "no number stands for two notes"


@pytest.mark.parametrize(
    ("cut", "end", "start"), [("hip-jack", "head", "foot"), ("common-tail-plumb", "foot", "head")]
)
def test_where_nothing_has_room_every_name_is_said_in_a_note(cut, end, start):
    wrap = lay(answered(cut, end=end))
    made = wrap.lettered([_around(wrap, -1.0)])
    assert not made.drawing.labels
    said = "\n".join(
        label.text for block in note_blocks(made.notes) for label in block.shapes[0].labels
    )
    said = " ".join(said.split())
    names = ["RIGHT FACE", "TOP EDGE", "LEFT FACE", "CUT THIS LINE", "WASTE", "START LINE"]
    names += ["FOLD: top arris of the left face"]
    names += ["LONG POINT", "short point"] if cut == "hip-jack" else []
    for name in names:
        assert f"{name}. This stands on the " in said, name
    for name, where in (
        ("RIGHT FACE", "right face"),
        ("TOP EDGE", "top edge"),
        ("LEFT FACE", "left face"),
        ("FOLD: top arris of the right face", "right face and the top edge"),
        ("FOLD: top arris of the left face", "top edge and the left face"),
    ):
        assert f" {name}. This stands on the {where}." in said
    assert "ALIGN HERE" in said
    assert f"The end of the paper at the start line lies toward the {start} of the board." in said


def test_on_a_study_view_without_room_the_surfaces_are_said_to_be_where_they_are():
    wrap = lay(answered("hip-jack", end="head"), factor=0.5)
    said = [note.text for note in wrap.lettered([_around(wrap, -1.0)]).notes]
    for name in ("right face", "top edge", "left face"):
        assert f"{name.upper()}. This stands on the {name}." in said


def test_the_end_grain_of_a_rip_is_said_by_its_name():
    wrap = lay(answered("valley-backing", end="foot"))
    said = [note.text for note in wrap.lettered([_around(wrap, -1.0)]).notes]
    assert "END GRAIN. This stands on the end grain." in said
    assert "RIGHT FACE. This stands on the right face." in said


def test_a_sheet_of_a_notch_says_where_the_saw_stops():
    """Past the corner of a notch the rafter is cut into: no saw goes there (common practice)."""
    seat = answered("hip-seat", "foot", pitch="9 in 12")
    assert sawing_words(seat).lower().count("do not overcut") == len([seat, *seat.others])


def test_the_second_cheek_of_a_point_is_sawn_beside_the_first_ones_offcut():
    ridge = answered("hip-ridge", "head", pitch="9 in 12")
    assert "clamp the first one's offcut back" in sawing_words(ridge)
    jack = answered("hip-jack", "head", pitch="9 in 12")
    assert "offcut" not in sawing_words(jack)
