"""Pictures of a wrong length and of an edge that stands proud, measured in the drawing."""

from math import atan, cos, sin, sqrt
from unicodedata import normalize

import pytest

from figures.ink.drawing import Drawing, Stroke, collisions, label_box
from figures.pictures.misplaced import misplaced_before_mate
from figures.pictures.proud import proud_of_roofs
from layout.answer.answer import answer
from layout.answer.question import ask
from layout.cuts import Hand
from layout.errors import RoofError, SheetError
from layout.quantity import read_pitch
from layout.stock import read_stock
from tests.views_of import one, scale_of

ROOM = (4.2, 3.0)


def strokes(drawing: Drawing, gid: str) -> list[Stroke]:
    found = [stroke for stroke in drawing.strokes if stroke.gid == gid]
    assert found, gid
    return found


def scale(drawing: Drawing) -> float:
    (label,) = [label.text for label in drawing.labels if label.gid == "scale"]
    paper, wood = label.replace(" ", "").split(":")
    return float(paper) / float(wood)


@pytest.mark.parametrize("hand", Hand)
@pytest.mark.parametrize("moved_in", [1.25, 0.5, -0.75])
def test_the_cut_stands_off_its_mate_by_what_it_was_moved(hand, moved_in):
    true_answer = answer(ask("hip-jack", hand=hand))
    drawing = misplaced_before_mate(true_answer, moved_in, ROOM)
    factor = scale(drawing)
    (made,) = strokes(drawing, "made-cut")
    (mate,) = strokes(drawing, "mate-face")
    # Both lines are parallel; at the height of a point of the cut the mate lies `moved_in` back.
    (x0, y0), (x1, y1) = mate.points
    for x, y in made.points:
        at_mate = x0 + (x1 - x0) * (y - y0) / (y1 - y0)
        assert (x - at_mate) / factor == pytest.approx(moved_in, abs=1e-9)
    # On the top edge the cheek runs at the edge number: 12 along for 9.98 across.
    along, across = abs(x1 - x0), abs(y1 - y0)
    assert along / across == pytest.approx(1 / cos(atan(8 / 12)), abs=1e-9)
    assert not collisions(drawing)


def test_a_foot_and_two_cheeks_are_drawn_too():
    for cut in ("valley-jack", "hip-ridge", "common-ridge", "cripple-jack"):
        drawing = misplaced_before_mate(answer(ask(cut)), 1.0, ROOM)
        missed = sum(area.polygon.area for area in drawing.areas if area.gid == "missed")
        # The end is moved by an inch over the whole thickness.
        assert missed / scale(drawing) ** 2 == pytest.approx(1.5, abs=1e-9)


def test_a_square_edge_is_drawn_under_both_roofs():
    true_answer = answer(ask("hip-backing", stock=read_stock("2x8")))
    drawing = proud_of_roofs(true_answer, ROOM)
    factor = scale(drawing)
    (own,), (other,) = strokes(drawing, "own-roof"), strokes(drawing, "other-roof")
    # The section's bevel has the tangent sin h: two triangles of 3/4 by 3/4 sin h stand out.
    h = atan(8 / sqrt(288))
    for stroke in (own, other):
        (x0, y0), (x1, y1) = stroke.points
        assert abs((y1 - y0) / (x1 - x0)) == pytest.approx(sin(h), abs=1e-9)
    proud = sum(area.polygon.area for area in drawing.areas if area.gid == "proud")
    assert proud / factor**2 == pytest.approx(0.75**2 * sin(h), abs=1e-9)
    assert any("23/64" in label.text or "²³⁄₆₄" in label.text for label in drawing.labels)


def test_unlike_roofs_are_drawn_unlike():
    asked = ask("hip-backing", other_pitch=read_pitch("14"), stock=read_stock("2x8"))
    drawing = proud_of_roofs(answer(asked), ROOM)
    slopes = []
    for gid in ("own-roof", "other-roof"):
        ((x0, y0), (x1, y1)) = strokes(drawing, gid)[0].points
        slopes.append(abs((y1 - y0) / (x1 - x0)))
    assert slopes[1] > 1.5 * slopes[0]


def test_each_arris_under_unlike_roofs_stands_out_by_its_own_measure():
    """By hand, 7 in 12 against 9 in 12 and a 1 1/2 in hip that rises 63/12 on sqrt(130): the roofs
    fall 49 and 81 on 12 sqrt(130) square across it; over 3/4 in, times the cosine of its slope,
    that is 0.244 and 0.403 in: 1/4 and 13/32 in. The greater is 0.444 in plumb, 7/16 in."""
    for pitch, other, whose in (("7", "9", "the other roof"), ("9", "7", "this roof")):
        asked = ask("hip-backing", pitch=read_pitch(pitch), other_pitch=read_pitch(other),
                    stock=read_stock("2x8"))  # fmt: skip
        labels = proud_of_roofs(answer(asked), ROOM).labels
        plain = normalize("NFKC", " ".join(label.text for label in labels)).replace("\u2044", "/")
        assert (
            f"the arris toward {whose} stands 13/32 in out, the other arris 1/4 in; measured plumb"
            " the first is 7/16 in, the drop."
        ) in " ".join(plain.split())


def test_what_cannot_be_drawn_is_refused():
    with pytest.raises(SheetError):
        misplaced_before_mate(answer(ask("hip-jack")), 1.0, (0.8, 0.8))
    with pytest.raises(RoofError):
        proud_of_roofs(answer(ask("valley-backing")), ROOM)


@pytest.mark.parametrize("hand", ["left", "right"])
def test_a_board_that_falls_short_is_shown_behind_its_end(hand):
    """3 in too short and no board drawn: then nothing is seen to be too short."""
    for name in ("common-ridge", "hip-jack"):
        drawing = misplaced_before_mate(one(name, "9 in 12", hand), -3.0, (3.3, 2.0))
        (missed,) = (area.polygon for area in drawing.areas if area.gid == "missed")
        sides = [x for line in drawing.strokes if line.gid == "stick" for x, _ in line.points]
        assert (missed.bounds[0] - min(sides)) / scale_of(drawing) > 1.5
        (board,) = (label for label in drawing.labels if label.text == "board")
        assert not missed.intersects(label_box(board))
