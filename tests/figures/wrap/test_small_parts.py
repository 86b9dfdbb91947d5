"""The small parts of a wrap, one by one: its named points, its title, its notes, its tilt."""

from dataclasses import replace
from types import SimpleNamespace

import pytest

from figures.ink.lettering import fraction_text
from figures.ink.paper import read_paper
from figures.page.tiling import PrintSetup
from figures.pictures.tilt_angle import tilt_angle
from figures.wrap.both_ends import _apart, lay_ends
from figures.wrap.note_blocks import TILT_SIZES_IN, note_blocks, tilt_blocks
from figures.wrap.stations import kind, stations
from figures.wrap.stick_title import title_of_stick
from figures.wrap.template import template_pages
from figures.wrap.wrap import lay
from figures.wrap.wrap_blocks import WrapNote, notes
from figures.wrap.wrap_lettering import Squeeze
from figures.wrap.wrap_names import CUT_BY_PT, LEAST_PT
from layout.answer.answer import answer
from layout.answer.question import ask
from layout.quantity import read_pitch
from layout.tools.saw import SawLimits
from tests.wraps import answered


@pytest.mark.parametrize(
    ("cut", "end", "what"),
    [
        ("hip-jack", "head", "end"),
        ("hip-ridge", "head", "end"),
        ("common-seat", "foot", "end"),
        ("hip-seat", "foot", "end"),
        ("hip-backing", "foot", "rip"),
        ("hip-tail", "foot", "end"),
    ],
)
def test_what_a_joint_does_to_a_board(cut, end, what):
    one = answered(cut, end)
    ways = {part.cut.normal[0] > 0 for part in (one, *one.others) if not part.cut.runs_along}
    assert kind(one) == ("notch" if len(ways) == 2 else what)


@pytest.mark.parametrize(
    ("cut", "end", "toward"), [("hip-jack", "head", 1), ("valley-jack", "foot", -1)]
)
def test_a_cheek_has_its_long_point_farthest_out_and_its_short_point_the_thickness_back(
    cut, end, toward
):
    """At 45 degrees in plan on a stick at 8 in 12: 1 1/2 over cos(33.69) along the board."""
    laid = lay(answered(cut, end)).laid
    found = stations(answered(cut, end), laid.surfaces, toward)
    assert [one.name for one in found] == ["LONG POINT", "short point"]
    along = [toward * one.at[0] for one in found]
    assert abs(along[0] - along[1]) == pytest.approx(1.5 / (12 / (12**2 + 8**2) ** 0.5))
    turned = stations(answered(cut, end), laid.surfaces, -toward)
    assert [one.at[0] for one in turned] == [one.at[0] for one in reversed(found)]


def test_a_square_cut_has_one_mark():
    (one,) = stations(
        answered("common-ridge", "head"), lay(answered("common-ridge", "head")).laid.surfaces, 1
    )
    assert one.name == "mark"


def test_a_notch_s_marks_are_parted_where_they_lie_farthest_apart():
    def surface(*xs):
        return SimpleNamespace(marks=[SimpleNamespace(line=[(x, 0.0) for x in xs])])

    laid = SimpleNamespace(surfaces=[surface(1.0, 2.5), surface(9.0), surface(3.0, 8.0, 10.5)])
    assert _apart(laid) == ((1.0, 3.0), (8.0, 10.5))


@pytest.mark.parametrize("strip", [2.0, 1.5])
def test_both_ends_have_a_strip_of_each_face(strip):
    for wrap in lay_ends(answered("hip-jack", "head", stock="2x12"), strip_in=strip):
        heights = {
            one.panel.name: one.panel.box[3] - one.panel.box[1] for one in wrap.laid.surfaces
        }
        assert heights["right face"] == pytest.approx(strip)
        assert heights["left face"] == pytest.approx(strip)


def stick(name, uses, hand=None, two_hands=False):
    one = answered("hip-jack", "head", **({"hand": hand} if hand else {}))
    entry = SimpleNamespace(name=name, two_hands=two_hands)
    asked = SimpleNamespace(
        stands=SimpleNamespace(uses=[SimpleNamespace(name=use) for use in uses]),
        entry=entry,
        hand=one.hand,
    )
    return SimpleNamespace(question=asked, hand=one.hand, others=(), is_rip=False)


@pytest.mark.parametrize(
    ("name", "uses", "two_hands", "title"),
    [
        ("C:head", ["C"], False, "Head: C:head"),
        ("J-1:head", ["J-1", "J-2"], True, "Head, left hand: J-1, J-2"),
        ("J-1:foot", ["J-1", "J-2", "J-3"], True, "Tail, left hand: J-1 to J-3"),
        ("J-1:seat", ["J-1", "K-1", "J-2", "J-3", "K-2"], False,
         "Bird's mouth: J-1 to J-3, K-1, K-2"),
        ("H:rip", ["H-1"], False, "Backing: H-1"),
    ],
)  # fmt: skip
def test_a_stick_s_title_names_its_place_its_hand_and_its_pieces(name, uses, two_hands, title):
    assert title_of_stick(stick(name, uses, two_hands=two_hands)) == title


def test_both_hands_in_one_stick_are_both_cheeks():
    one = stick("H:head", ["H-1"], two_hands=True)
    one.others = (SimpleNamespace(hand=one.hand.other),)
    assert title_of_stick(one) == "Head, both cheeks: H-1"
    one.is_rip = True
    assert title_of_stick(one) == "Head, left hand: H-1"


def test_a_note_beside_a_wrap_is_under_its_surface_s_name_and_large_where_it_is_cut_by():
    note = WrapNote("RIGHT FACE", "Mark it.", surface="right face", cut_by=True)
    for given, small, heading, size in (
        (note, False, "ON THE RIGHT FACE", CUT_BY_PT),
        (note, True, "ON THE RIGHT FACE", LEAST_PT),
        (replace(note, cut_by=False), False, "ON THE RIGHT FACE", LEAST_PT),
        (replace(note, surface=None), False, "RIGHT FACE", CUT_BY_PT),
        (replace(note, surface="end"), False, "RIGHT FACE", CUT_BY_PT),
        (replace(note, number="note 3"), False, "Note 3, ON THE RIGHT FACE", CUT_BY_PT),
    ):
        (block,) = note_blocks([given], small=small)
        head, text = block.shapes[0].labels
        assert (" ".join(head.text.split()), text.text) == (heading, "Mark it.")
        assert head.size_pt == text.size_pt == size


def test_a_tilt_is_drawn_full_size_with_its_words_under_it():
    """A jack's cheek at a square corner: 45 degrees, in four sizes; a square blade has none."""
    (block,) = tilt_blocks(answered("hip-jack", "head"))
    assert not block.optional
    assert len(block.shapes) == len(TILT_SIZES_IN)
    for shape, (high, shoe) in zip(block.shapes, TILT_SIZES_IN, strict=True):
        left, bottom, right, _ = tilt_angle(45.0, high, shoe).bounds()
        words = shape.labels[-1]
        assert words.text.replace("\\n", " ").startswith("Tilt 45°")
        assert (words.x, words.y, words.va) == (left, pytest.approx(bottom - 0.05), "top")
        x0, y0, x1, _ = shape.bounds()
        assert x0 == pytest.approx(left, abs=0.01)
        assert x1 <= right + 0.02
        assert y0 < bottom
    (still,) = tilt_blocks(answered("hip-jack", "head"), optional=True)
    assert still.optional
    assert tilt_blocks(answered("common-ridge", "head")) == []


@pytest.mark.parametrize(
    ("pitch", "other", "most_deg", "told"),
    [("7", "11", 50.0, False), ("7", "11", 60.0, True), ("7", "7", 50.0, True)],
)
def test_no_sheet_tells_to_set_a_tilt_past_the_saw_s(pitch, other, most_deg, told):
    """A jack's cheek stands as the valley does in plan: over 7 / 11 of this roof's run, so tilted
    atan(11 / 7) = 57.53 degrees off square; between equal pitches 45."""
    one = answer(
        ask("valley-jack", pitch=read_pitch(pitch), other_pitch=read_pitch(other)),
        limits=SawLimits(tilt_deg=most_deg),
    )
    assert len(tilt_blocks(one)) == told
    (sheet, *more) = template_pages(one, PrintSetup(read_paper("roll-24")))
    drawn = [one for page in (sheet, *more) for one in (page.drawing, page.beside)]
    words = " ".join(label.text for one in drawn for label in one.labels)
    words = " ".join(words.split())
    assert ("set a sliding bevel" in words) == told
    assert ("past the 50° this saw tilts" in words) == (not told)
    assert ("shoe on this face: tilt" in words) == told
    assert ("shoe on this face, would tilt 57.53°" in words) == (not told)


def test_a_hip_s_head_shows_the_one_tilt_that_the_saw_reaches():
    """At 8 and 5 in 12 its cheeks stand at 32.01 and 57.99 degrees; the saw tilts 50."""
    one = answer(ask("hip-ridge", pitch=read_pitch("8"), other_pitch=read_pitch("5")))
    (block,) = tilt_blocks(one)
    assert block.shapes[0].labels[-1].text.startswith("Tilt 32.01°")


@pytest.mark.parametrize("stock", ["2x4", "2x6", "2x8"])
def test_what_is_cut_by_is_small_only_where_paper_is_short(stock):
    """Before that squeeze a note to cut by that has no room goes beside the wrap as it is."""
    wrap = lay(answered("hip-jack", "head", stock=stock))
    by = {
        " ".join(fraction_text(note.text).split())
        for note in notes(wrap.laid, study=False, few=False, shared=False)
        if note.cut_by
    }
    assert by
    for squeeze in (Squeeze.NONE, Squeeze.ON_WRAP, Squeeze.SMALL):
        made = wrap.lettered(squeeze=squeeze)
        sizes = {
            label.size_pt
            for label in made.drawing.labels
            if label.gid == "block" and " ".join(label.text.split()) in by
        }
        assert sizes <= ({CUT_BY_PT} if squeeze < Squeeze.SMALL else {CUT_BY_PT, LEAST_PT})
