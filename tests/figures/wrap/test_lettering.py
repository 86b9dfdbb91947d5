"""How words stand on a wrap: arrows beside their words, headings over them, each name once."""

import math
from functools import cache
from types import SimpleNamespace

import pytest
import shapely

from figures.ink.drawing import Drawing, Stroke, collisions, label_box
from figures.wrap import wrap_lettering
from figures.wrap.wrap import lay
from figures.wrap.wrap_blocks import WrapNote, notes
from figures.wrap.wrap_lettering import Squeeze, WrapLettering
from figures.wrap.wrap_names import CUT_BY_PT, LEAST_PT, OFF_IN, WrapNames
from figures.wrap.wrap_words import title
from tests.wraps import answered

CASES = [
    ("hip-jack", "head", "2x6", "8"),
    ("common-tail-plumb", "foot", "2x6", "8"),
    ("common-tail-square", "foot", "2x6", "8"),
    ("common-ridge", "head", "2x4", "0.1"),
    ("gable-stud", "head", "2x4", "8"),
    ("hip-seat", "foot", "2x8", "8"),
    ("hip-backing", "foot", "2x6", "8"),
]


@cache
def wrap_of(name, end, stock, pitch):
    return lay(answered(name, end, pitch=pitch, stock=stock))


def lettered(case, squeeze):
    return wrap_of(*case).lettered(squeeze=squeeze)


def boxes(drawing, *gids):
    return [(one, label_box(one)) for one in drawing.labels if one.gid in gids]


@pytest.mark.parametrize("case", CASES)
def test_every_label_is_what_a_label_may_be(case):
    for squeeze in (Squeeze.NONE, Squeeze.FEW_WORDS):
        for one in lettered(case, squeeze).drawing.labels:
            assert isinstance(one.text, str)
            assert one.bold in (True, False)
            assert one.halo in (True, False)
            assert isinstance(one.gid, str) or one.text in ("FOOT", "HEAD")
            assert one.size_pt in (CUT_BY_PT, LEAST_PT, 10.0, 12.0)


@pytest.mark.parametrize("case", CASES)
def test_arrows_point_out_from_their_words_to_foot_and_head(case):
    """x runs toward the head: the foot's arrow points left from its word, the head's right; each
    lies at half the height of its word, 0.05 in off it, and its barb is 0.1 in long."""
    drawing = lettered(case, Squeeze.NONE).drawing
    words = [one for one in drawing.labels if one.text in ("FOOT", "HEAD")]
    shafts = [s.points for s in drawing.strokes if s.gid == "arrow"]
    tips = [area.polygon for area in drawing.areas if area.gid == "arrow"]
    assert len(words) == len(shafts) == len(tips) > 0
    for word in words:
        left, bottom, right, top = label_box(word).bounds
        way = 1 if word.text == "HEAD" else -1
        near = right if way > 0 else left
        middle = (bottom + top) / 2
        ends = [((near + way * 0.27, middle), (near + way * 0.05, middle))]
        assert any(
            shaft == tuple(pytest.approx(end, abs=0.004) for end in ends[0]) for shaft in shafts
        )
        arrow = shapely.Polygon(
            [
                (near + way * 0.27, middle),
                (near + way * 0.17, middle + 0.04),
                (near + way * 0.17, middle - 0.04),
            ]
        )
        assert any(shapely.hausdorff_distance(arrow, tip) < 0.005 for tip in tips)
        assert word.bold
        assert word.size_pt == CUT_BY_PT
    feet, heads = (
        [label_box(w).bounds for w in words if w.text == text] for text in ("FOOT", "HEAD")
    )
    for foot, head in zip(feet, heads, strict=True):
        side_by_side = abs(foot[1] - head[1]) < 1e-9 and 0.1 < head[0] - foot[2] < 0.2
        over = 0.03 < foot[1] - head[3] < 0.1
        assert side_by_side or over


@pytest.mark.parametrize("case", CASES)
def test_every_surface_bears_its_name_once(case):
    """By itself, or as the heading of the note about it."""
    for squeeze in (Squeeze.NONE, Squeeze.FEW_WORDS):
        made = lettered(case, squeeze)
        for one in wrap_of(*case).laid.surfaces:
            name = "END GRAIN" if one.panel.name == "end" else one.panel.name.upper()
            named = [
                label
                for label in made.drawing.labels
                if label.gid in ("surface", "block") and label.text.replace("\n", " ") == name
            ]
            assert len(named) == 1, name
            assert named[0].bold
            assert named[0].rotation_deg in (0.0, 90.0)
            paper = one.panel.shape()
            assert paper.covers(label_box(named[0])) or one.panel.name == "end"


@pytest.mark.parametrize("case", CASES)
def test_every_note_stands_on_the_wrap_or_is_left_to_stand_beside_it(case):
    for squeeze in (Squeeze.NONE, Squeeze.FEW_WORDS):
        made = lettered(case, squeeze)
        on = [one.text.replace("\n", " ") for one, _ in boxes(made.drawing, "block") if one.bold]
        beside = [note.heading for note in made.notes]
        wanted = [note.heading for note in notes(wrap_of(*case).laid, few=bool(squeeze))]
        others = [*made.said, "FOOT AND HEAD", "WHERE ITS NUMBER POINTS", "NO ROOM THERE"]
        assert sorted(one for one in on + beside if one not in others) == sorted(wanted)
        arrows = any(one.text == "FOOT" for one in made.drawing.labels)
        assert ("FOOT AND HEAD" in beside) == (not arrows)
        assert not collisions(made.drawing)


@pytest.mark.parametrize("case", CASES)
def test_a_heading_stands_over_its_words_and_begins_with_them(case):
    drawing = lettered(case, Squeeze.FEW_WORDS).drawing
    blocks = boxes(drawing, "block")
    heads = [(one, box) for one, box in blocks if one.bold]
    texts = [(one, box) for one, box in blocks if not one.bold]
    assert len(heads) == len(texts)
    for (head, head_box), (text, text_box) in zip(heads, texts, strict=True):
        assert head.size_pt == text.size_pt
        assert head.halo == text.halo
        assert head.x == text.x
        assert head_box.bounds[1] - text_box.bounds[3] == pytest.approx(0.02, abs=0.012)
        assert text_box.bounds[2] - text_box.bounds[0] <= 7.0


@pytest.mark.parametrize("case", CASES)
def test_a_note_s_number_stands_by_the_name_of_its_own_surface(case):
    made = lettered(case, Squeeze.NONE)
    names = {one.text: box for one, box in boxes(made.drawing, "surface")}
    numbers = {one.text: box for one, box in boxes(made.drawing, "note-number")}
    for note in made.notes:
        if note.number and note.surface and len(names) > 1:
            far = {name: box.distance(numbers[note.number]) for name, box in names.items()}
            assert min(far, key=far.get) == note.surface.upper()
    told = [note.number for note in made.notes]
    assert all(number in ("", f"note {at}") for at, number in enumerate(told, start=1))


@pytest.mark.parametrize("case", CASES[:4])
def test_the_name_of_the_sheet_begins_by_the_start_line(case):
    """On the kept wood of a face, nearer to that end of the paper than to the other."""
    made = lettered(case, Squeeze.NONE)
    laid = wrap_of(*case).laid
    named = boxes(made.drawing, "name")
    assert len(named) == (0 if case in CASES[2:] else 1)
    for label, box in named:
        assert label.text.replace("\n", " ") == title(laid.answer)
        x0, _, x1, _ = box.bounds
        near = x0 - laid.start_x if laid.toward > 0 else laid.start_x - x1
        assert near < 0.3 or min(x0 - laid.box[0], laid.box[2] - x1) > 0.3
        assert any(laid.by_name[face].kept.covers(box) for face in ("right face", "left face"))


@pytest.mark.parametrize("case", CASES[2:4])
def test_an_arrow_without_room_stands_off_the_wrap_beside_it(case):
    """To the right of its paper, level with its top."""
    made, wrap = lettered(case, Squeeze.NONE), wrap_of(*case)
    _, _, right, top = wrap.laid.box
    for one in made.drawing.labels:
        if one.text in ("FOOT", "HEAD"):
            x0, _, _, y1 = label_box(one).bounds
            assert OFF_IN <= x0 - right < OFF_IN + 1.4
            assert 0 <= top - y1 < 0.3


@pytest.mark.parametrize("case", [*CASES[:2], *CASES[4:]])
def test_arrows_stand_on_the_kept_wood_of_a_face(case):
    laid = wrap_of(*case).laid
    faces = [laid.by_name[name].kept for name in ("right face", "left face")]
    drawing = lettered(case, Squeeze.NONE).drawing
    for one in drawing.labels:
        if one.text in ("FOOT", "HEAD"):
            assert any(face.covers(label_box(one)) for face in faces)


def test_the_warning_is_as_large_as_the_notes_beside_it_until_they_are_small():
    for squeeze, size in (
        (Squeeze.ON_WRAP, CUT_BY_PT),
        (Squeeze.SMALL, LEAST_PT),
        (Squeeze.FEW_WORDS, LEAST_PT),
    ):
        made = lettered(("hip-jack", "head", "2x12", "8"), squeeze)
        sizes = {
            one.text: one.size_pt for one in made.drawing.labels if one.bold and one.gid == "block"
        }
        assert made.said
        assert "WARNING" in made.said
        assert sizes["WARNING"] == size
        assert {sizes[said] for said in made.said - {"WARNING"}} <= {LEAST_PT}
    assert not lettered(("hip-jack", "head", "2x12", "8"), Squeeze.NONE).said


@pytest.mark.parametrize("side", range(4))
def test_cautions_keep_to_the_part_of_the_paper_that_the_first_page_shows(side):
    wrap = wrap_of("hip-jack", "head", "2x12", "8")
    x0, y0, x1, y1 = wrap.lines.bounds()
    x, y = (x0 + x1) / 2, (y0 + y1) / 2
    first = shapely.box(*((x0, y0, x, y1), (x, y0, x1, y1), (x0, y0, x1, y), (x0, y, x1, y1))[side])
    made = wrap.lettered(squeeze=Squeeze.FEW_WORDS, first=first)
    said = [one for one in made.drawing.labels if one.gid == "block" and one.text in made.said]
    assert len(said) == len(made.said)
    assert all(first.covers(label_box(one)) for one in said)
    assert made.said or side == 1


def test_how_far_a_place_is_from_the_edge_of_the_paper():
    paper = Drawing((Stroke(((1.0, 2.0), (9.0, 2.0), (9.0, 12.0)), "visible"),))
    stands = SimpleNamespace(drawing=paper)
    for place, far in (((2, 7), 1), ((8.5, 7), 0.5), ((5, 4), 2), ((5, 11), 1), ((5, 7), 4)):
        assert WrapNames._to_edge(stands, place) == far


@pytest.mark.parametrize("case", [CASES[0], ("common-seat", "foot", "2x12", "8")])
def test_only_what_may_be_sawn_off_stands_on_the_waste(case):
    """With no room left on the kept wood: the sheet's directions and cautions may stand on what
    falls off, the numbers of a surface's cut and the board never."""
    wrap = wrap_of(*case)
    kept = [one.kept for one in wrap.laid.surfaces]
    made = wrap.lettered(kept, squeeze=Squeeze.ON_WRAP)
    waste = shapely.union_all([one.waste for one in wrap.laid.surfaces])
    blocks = boxes(made.drawing, "block")
    assert all(one.halo and waste.covers(box) for one, box in blocks)
    on = {one.text for one, _ in blocks if one.bold}
    assert {"BY SAW", "FOR TRAINING"} <= on <= {"TO USE", "BY SAW", *made.said}
    assert {"THE BOARD", "RIGHT FACE"} <= {note.heading for note in made.notes}


def test_a_sliver_of_waste_is_named_along_its_line(monkeypatch):
    """Where neither a level nor an upright word has room the word runs with the mark."""
    monkeypatch.setattr(WrapNames, "_waste_word", lambda self, room: False)
    wrap = lay(answered("common-ridge", "head", stock="2x6"))
    (one,) = (one for one in wrap.lettered().drawing.labels if one.text == "WASTE")
    (surface,) = (s for s in wrap.laid.surfaces if s.waste.covers(label_box(one)))
    (mark,) = surface.marks
    (ax, ay), (bx, by) = mark.line
    turned = math.degrees(math.atan2(by - ay, bx - ax)) - one.rotation_deg
    assert math.sin(math.radians(turned)) == pytest.approx(0.0, abs=1e-9)
    assert label_box(one).distance(shapely.LineString(mark.line)) < 0.1
    assert (one.bold, one.halo, one.size_pt) == (True, True, CUT_BY_PT)


@pytest.mark.parametrize("squeeze", [Squeeze.NONE, Squeeze.FEW_WORDS])
def test_no_note_and_no_caution_stands_on_a_study_view(squeeze):
    made = lay(answered("hip-jack", "head"), factor=0.5).lettered(squeeze=squeeze)
    assert not boxes(made.drawing, "block", "note-number")
    assert not made.said
    assert {"RIGHT FACE", "THE BOARD"} <= {note.heading for note in made.notes}


@pytest.mark.parametrize(("short", "whole"), [("right", "left"), ("left", "right")])
def test_the_face_that_is_shown_whole_bears_the_arrow_to_foot_and_head(short, whole):
    wrap = lay(answered("hip-jack", "head", stock="2x6"), short=(f"{short} face", 2.0))
    made = wrap.lettered()
    paper = wrap.laid.by_name[f"{whole} face"].panel.shape()
    arrows = [shapely.LineString(one.points) for one in made.drawing.strokes if one.gid == "arrow"]
    assert paper.covers(arrows[0])


@pytest.mark.parametrize(
    ("toward", "place"), [(1, ((1.0, 9.0), (0.0, 1.0))), (-1, ((5.0, 9.0), (1.0, 1.0)))]
)
def test_words_begin_by_the_upper_corner_toward_the_start_line(toward, place):
    """The start line stands at the left of a paper whose waste lies to the right."""
    room = SimpleNamespace(
        bounds=(1.0, 2.0, 5.0, 9.0), place=lambda size, near, *, corner: (near, corner)
    )
    stands = SimpleNamespace(laid=SimpleNamespace(toward=toward))
    assert WrapLettering._placed(stands, room, (1.0, 1.0)) == place


@pytest.mark.parametrize("few", [False, True])
def test_a_note_is_in_few_words_only_where_paper_is_short(few):
    made = lettered(CASES[2], Squeeze.FEW_WORDS if few else Squeeze.SMALL)
    asked = {note.heading: note.text for note in notes(wrap_of(*CASES[2]).laid, few=few)}
    assert {note.heading: note.text for note in made.notes if note.heading in asked} == asked


@pytest.mark.parametrize(
    ("squeeze", "cut_by", "size"),
    [
        (Squeeze.NONE, True, None),
        (Squeeze.ON_WRAP, True, None),
        (Squeeze.SMALL, True, LEAST_PT),
        (Squeeze.FEW_WORDS, True, LEAST_PT),
        (Squeeze.NONE, False, LEAST_PT),
    ],
)
def test_what_is_cut_by_is_lettered_small_only_where_paper_is_short(squeeze, cut_by, size):
    """In a room that is a little too low for letters to cut by."""
    high = wrap_lettering._block_size("A", "Cut.", CUT_BY_PT)[1] - 0.01
    stands = SimpleNamespace(
        factor=1.0,
        laid=SimpleNamespace(by_name=["top edge"]),
        labels=[],
        open=lambda panels, wheres: [("room", "kept")],
        _placed=lambda room, size: (0.0, 0.0) if size[1] <= high else None,
    )
    note = WrapNote("A", "Cut.", "top edge", cut_by=cut_by)
    assert WrapLettering._on_wrap(stands, note, {}, squeeze) == (size is not None)
    assert {label.size_pt for label in stands.labels} == ({size} if size else set())
