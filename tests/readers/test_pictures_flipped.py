"""One sign of a drawing flipped, and the reader of pictures says so: once for each."""

from dataclasses import replace

import pytest
import shapely

import figures.pictures.gap as gap
import figures.pictures.saw_front as saw_front
import figures.pictures.saw_setting as setting
import figures.pictures.square_laid as square_laid
import figures.pictures.views as views
import figures.wood.unfolded as unfolded
from figures.pictures.framing_square import Laid
from figures.pictures.shoe import OPPOSITE, Shoe
from lessons.mistakes.cut_mistakes import made_on
from tests.counts import count
from tests.readers import pictures as reader
from tests.readers.svg import MisreadError
from tests.readers.test_pictures import planes, svg
from tests.views_of import one

SAW, FACES, SQUARE, GAP = "saw", "faces", "square", "gap"


def _wide_side(patch):
    right = Shoe.to_wide.fget
    patch.setattr(Shoe, "to_wide", property(lambda self: -right(self)))


def _blade_below(patch):
    right = saw_front.SawSection.way.fget
    mirrored = property(lambda self: right(self) * [-1, 1])
    patch.setattr(saw_front.SawSection, "way", mirrored)


def _waste_of_section(patch):
    right = saw_front.saw_section

    def swapped(*given):
        section = right(*given)
        return replace(section, kept=shapely.difference(section.whole, section.kept))

    patch.setattr(saw_front, "saw_section", swapped)


def _words_in_section(patch):
    right = saw_front.in_area
    other = {"WASTE": "KEPT", "KEPT": "WASTE"}
    patch.setattr(saw_front, "in_area", lambda text, *a, **k: right(other.get(text, text), *a, **k))


def _hatching(patch):
    right = unfolded.waste_areas

    def swapped(whole, kept, gid):
        return right(whole, shapely.difference(whole, kept), gid)

    patch.setattr(unfolded, "waste_areas", swapped)


def _start(patch):
    right = Shoe.starts

    def other_end(self, kind):
        return self.end if right(self, kind) is self.start else self.start

    patch.setattr(Shoe, "starts", other_end)


def _arrow(patch):
    right = setting._arrow
    patch.setattr(
        setting, "_arrow", lambda start, factor: right(replace(start, way=-start.way), factor)
    )


def _head(patch):
    right = views.way_to_head
    patch.setattr(
        views,
        "way_to_head",
        lambda shown, factor: right(replace(shown, face=OPPOSITE[shown.face]), factor),
    )


def _lean_in_words(patch):
    right = saw_front.lean_words

    def other(sense):
        words = right(sense)
        new = "under the waste" if "kept" in words else "under the kept wood"
        return words.replace("under the kept wood", new).replace("under the waste", new)

    patch.setattr(saw_front, "lean_words", other)


def _sides_named(patch):
    right = Shoe.sides.fget
    patch.setattr(Shoe, "sides", property(lambda self: right(self)[::-1]))


def _marks(patch):
    right = views.unfolded
    patch.setattr(views, "unfolded", lambda *given: right(*given).stretched(-1.0, 1.0))


def _face_named(patch):
    right = views.surface_words

    def other(shown, factor):
        return right(replace(shown, face=OPPOSITE[shown.face]), factor)

    patch.setattr(views, "surface_words", other)


def _numbers(patch):
    right = square_laid._words

    def swapped(shown, where, square, factor, metric):
        other = replace(square, mark_in=square.other_in, other_in=square.mark_in)
        return right(shown, where, other, factor, metric)

    patch.setattr(square_laid, "_words", swapped)


def _arm(patch):
    right = square_laid._words

    def swapped(shown, where, square, factor, metric):
        return right(shown, where, replace(square, mark_arm=square.other_arm), factor, metric)

    patch.setattr(square_laid, "_words", swapped)


def _square_turned(patch):
    right = Laid.mark_spot.fget
    patch.setattr(Laid, "mark_spot", property(lambda self: 2 * self.heel - right(self)))


def _mate(patch):
    right = gap._mate
    patch.setattr(gap, "_mate", lambda *given: right(*given).stretched(-1.0, 1.0))


def _gap_shaded(patch):
    right = gap.StoodCut.wedge.func

    def mirrored(self):
        return shapely.affinity.scale(right(self), -1.0, 1.0, origin=(0, 0))

    patch.setattr(gap.StoodCut, "wedge", property(mirrored))


FLIPS = [
    (_wide_side, SAW, "wide side"),
    (_blade_below, SAW, "leans off its own cut"),
    (_hatching, FACES, "hatched"),
    (_arm, SQUARE, "other arm"),
    (_gap_shaded, GAP, "shaded where there is none"),
    (_waste_of_section, SAW, "below the shoe runs under"),
    (_words_in_section, SAW, "wrong side of the cut"),
    (_hatching, SAW, "hatched"),
    (_start, SAW, "arrow of a|words of a"),
    (_arrow, SAW, "arrow of a|words of a"),
    (_head, SAW, "HEAD|degrees off|hatched|named on the other side"),
    (_lean_in_words, SAW, "do not say"),
    (_sides_named, SAW, "named on the other side"),
    (_marks, FACES, "degrees off|hatched|folded"),
    (_face_named, FACES, "stands|times"),
    (_hatching, SQUARE, "hatched"),
    (_numbers, SQUARE, "lay|lie|names no spot|one spot|other arm"),
    (_square_turned, SQUARE, "lie|lay|names no spot"),
    (_mate, GAP, "mate"),
]
SHARE = FLIPS[: count(len(FLIPS), 5)]


def _read(view, asked):
    if view == SAW:
        reader.check_setting(svg(asked, SAW), planes(asked))
    elif view == FACES:
        reader.check_faces(svg(asked, FACES), planes(asked))
    elif view == SQUARE:
        reader.check_square(svg(asked, SQUARE), planes(asked))
    else:
        reader.read_gap(svg(asked, GAP, wrong=made_on(asked)[0].setting))


@pytest.mark.parametrize(
    ("flip", "view", "says"), SHARE, ids=lambda each: getattr(each, "__name__", "")
)
def test_a_flipped_sign_is_read(monkeypatch, flip, view, says):
    # 7 in 12, so that no two numbers of the square are alike.
    asked = one("hip-jack")
    with monkeypatch.context() as patch:
        flip(patch)
        with pytest.raises(MisreadError, match=says):
            _read(view, asked)


TWO = [
    (cut, flip, view)
    for cut in ("hip-ridge", "common-seat", "hip-seat", "valley-tail")
    for flip, view in (
        (_hatching, FACES),
        (_hatching, SQUARE),
        (_hatching, SAW),
        (_waste_of_section, SAW),
    )
]


@pytest.mark.parametrize(("cut", "flip", "view"), TWO[:: count(1, 5)])
def test_a_flipped_hatching_of_two_planes_is_read(monkeypatch, cut, flip, view):
    asked = one(cut)
    assert len(asked.cuts) > 1
    with monkeypatch.context() as patch:
        flip(patch)
        with pytest.raises(MisreadError, match=r"hatched|runs under|runs along none|wrong wood"):
            _read(view, asked)


def test_a_board_named_on_its_mate_is_read(monkeypatch):
    """A notched board runs on past the wall: its name must not stand in the wall's hatching."""
    asked = one("hip-seat").others[0]
    (wrong,) = [m for m in made_on(asked) if m.mistake.name == "face-line-only"]
    reader.read_gap(svg(asked, GAP, wrong=wrong.setting))
    monkeypatch.setattr(gap, "largest", lambda region: shapely.box(0.3, 0.3, 2.0, 1.0))
    with pytest.raises(MisreadError, match="'board' does not stand"):
        reader.read_gap(svg(asked, GAP, wrong=wrong.setting))
