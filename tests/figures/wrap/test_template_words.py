"""How a template's words give way step by step, and which of its sheets bear the cautions."""

from types import SimpleNamespace

import pytest
import shapely

from figures.ink.drawing import Drawing
from figures.ink.paper import read_paper
from figures.ink.scale import read_scale
from figures.page.cautions import ALL_SAID
from figures.page.tiling import PrintSetup, blank_page
from figures.wrap import template
from figures.wrap.template import NOWHERE, SEAM_IN, Template
from figures.wrap.wrap_blocks import WrapNote
from figures.wrap.wrap_lettering import Lettered, Squeeze
from figures.wrap.wrap_names import CUT_BY_PT, LEAST_PT
from layout.errors import SheetError
from tests.wraps import answered

LETTER = PrintSetup(read_paper("Letter"))
NONE, ON_WRAP, SMALL, FEW = Squeeze
NEW: frozenset[str] = frozenset()
ON_IT = frozenset({"NOTICE"})
"""What a lettered wrap of these tests bears."""


class Paper:
    """Stands for a wrap: it keeps how it was to be lettered."""

    def __init__(self):
        self.asked = []
        self.laid = "laid"

    def lettered(self, keep_off=(), *, squeeze, first=None):
        self.asked.append((squeeze, first, list(keep_off)))
        return Lettered(Drawing(), (WrapNote("A", "a"),), ON_IT)


class Told(Template):
    """A template whose blocks are what it was asked for them."""

    def blocks(self, made, squeeze):
        return [(squeeze, len(made.notes))]


def told(**more):
    return Told(answered("hip-jack", "head"), LETTER, **more)


@pytest.mark.parametrize("before", [NEW, ALL_SAID])
def test_on_one_sheet_the_words_give_way_before_the_cautions_are_cut_short(monkeypatch, before):
    """The warning is large beside large notes; a sheet that follows bears no caution at all."""
    paper, sheets, least = Paper(), [], []

    def tries(self, ways, within, at_least):
        least.append(at_least)
        return ((paper, each) for each in Squeeze)

    def one_page(drawing, setup, *, blocks, said, few, large, **words):
        sheets.append((blocks, said, few, large))

    monkeypatch.setattr(Template, "_tries", tries)
    monkeypatch.setattr(template, "one_page", one_page)
    assert told()._single([], before) is None
    first = NOWHERE if before else None
    assert paper.asked == [(each, first, []) for each in Squeeze]
    assert least == [SMALL if before else NONE]
    assert sheets == [
        ([(NONE, 1)], before | ON_IT, False, True),
        ([(ON_WRAP, 1)], before | ON_IT, False, True),
        ([(SMALL, 1)], before | ON_IT, False, False),
        ([(FEW, 1)], before | ON_IT, True, False),
    ]


@pytest.mark.parametrize("before", [NEW, ALL_SAID])
def test_both_ends_are_said_in_few_words_on_ever_narrower_strips(monkeypatch, before):
    """All words on 2 in of each face, then few words on 2, 1 1/2, 1 1/4 and 1 1/8 in."""
    strips, papers, cautions, joined = [], [], [], []

    def lay_ends(answer, *, backed, strip_in):
        strips.append((strip_in, backed))
        papers.append(Paper())
        return papers[-1], papers[-1]

    def blocks_left(said, *, full, few, large):
        cautions.append((said, full, few, large))
        return ["caution"]

    def ends_notes(first, second, *, few):
        joined.append(few)
        return "one", "two"

    def nested(drawings, blocks, blank):
        # Of each paper a note, what joins them, and the cautions after all notes.
        assert blocks[0][1:] == (4,)
        assert blocks[1:] == ["caution"]

    for name, made in (("lay_ends", lay_ends), ("blocks_left", blocks_left),
                       ("ends_notes", ends_notes), ("nested", nested)):  # fmt: skip
        monkeypatch.setattr(template, name, made)
    assert told(backed=True)._ends_on_one(before) is None
    assert strips == [(each, True) for each in (2.0, 1.5, 1.25, 1.125)]
    assert joined == [False, True, True, True, True]
    first = NOWHERE if before else None
    asked = [one[:2] for paper in papers for one in paper.asked]
    assert asked == [(NONE, first)] * 2 + [(FEW, first)] * 8
    assert cautions == [(before | ON_IT, True, few, not few) for few in joined]


def test_of_two_papers_on_a_sheet_each_the_first_bears_cautions_and_tilt(monkeypatch):
    papers, drawn = (Paper(), Paper()), []
    blank = blank_page(LETTER, title="T")

    def pages(drawing, setup, *, blocks, said, **words):
        drawn.append((blocks, said))
        return blank, blank

    monkeypatch.setattr(template, "lay_ends", lambda answer, *, backed: papers)
    monkeypatch.setattr(template, "ends_notes", lambda one, two: ("1", "2"))
    monkeypatch.setattr(template, "note_blocks", lambda notes, *, small: [(notes[-1], small)])
    monkeypatch.setattr(template, "pages", pages)
    sheets = told()._ends_drawn_apart()
    assert drawn == [([(SMALL, 2)], NEW), ([("2", True)], ALL_SAID)]
    assert [page.strips for page in sheets] == ["first", "first", "next", "next"]
    assert [paper.asked for paper in papers] == [[(NONE, None, [])]] * 2


@pytest.mark.parametrize("said", [NEW, ALL_SAID])
@pytest.mark.parametrize("out", [shapely.Polygon(), shapely.box(3, 0, 4, 5)])
def test_on_tiles_words_keep_off_the_seams_and_what_is_left_out(monkeypatch, said, out):
    paper, drawn = Paper(), []
    plan = SimpleNamespace(
        seams=lambda: [((2.0, 0.0), (2.0, 5.0))], left_out=lambda: out, first_cell=lambda: "cell"
    )
    monkeypatch.setattr(template, "pages", lambda drawing, setup, **more: drawn.append(more))
    told()._on_tiles(paper, plan, said)
    ((squeeze, first, apart),) = paper.asked
    assert squeeze is SMALL
    assert first == (NOWHERE if said else "cell")
    assert apart[0].equals(shapely.box(2 - SEAM_IN, 0, 2 + SEAM_IN, 5))
    assert apart[1:] == ([] if out.is_empty else [out])
    assert drawn[0]["said"] == said | ON_IT
    assert drawn[0]["blocks"] == [(SMALL, 1)]
    assert drawn[0]["plan"] is plan


@pytest.mark.parametrize(
    ("squeeze", "size", "optional"),
    [(NONE, CUT_BY_PT, False), (ON_WRAP, CUT_BY_PT, False), (SMALL, LEAST_PT, False),
     (FEW, LEAST_PT, True)],
)  # fmt: skip
def test_beside_a_wrap_notes_grow_small_and_then_the_tilt_may_go(squeeze, size, optional):
    made = Lettered(Drawing(), (WrapNote("A", "a"),))
    note, tilt = Template(answered("hip-jack", "head"), LETTER).blocks(made, squeeze)
    assert {label.size_pt for label in note.shapes[0].labels} == {size}
    assert not note.optional
    assert (tilt.name, tilt.optional) == ("tilt", optional)
    study = PrintSetup(read_paper("Letter"), read_scale("half"))
    assert len(Template(answered("hip-jack", "head"), study).blocks(made, squeeze)) == 1


BLANK = blank_page(LETTER, title="T")


class Found(Template):
    """A template of which it is known what each way to paper comes to."""

    def _single(self, ways, before=NEW):
        BEFORE.append(before)
        return BLANK if FOUND["single"] else None

    def _ends_single(self, before=NEW):
        BEFORE.append(before)
        return BLANK if FOUND["both"] else None

    def _ends_apart(self):
        return (BLANK,) * 3

    def _tiled(self, ways, said=NEW):
        BEFORE.append(said)
        if not FOUND["tiles"]:
            raise SheetError("too large")
        return (BLANK,) * FOUND["tiles"]


FOUND: dict[str, int] = {}
BEFORE: list[frozenset[str]] = []


@pytest.mark.parametrize(
    ("cut", "marks", "single", "both", "tiles", "said", "count"),
    [
        ("hip-jack", "auto", 1, 1, 4, "whole", 1),
        ("hip-jack", "auto", 0, 1, 4, "ends", 1),
        ("hip-jack", "auto", 0, 0, 4, "ends", 3),
        ("hip-jack", "auto", 0, 0, 3, "whole", 3),
        ("hip-jack", "auto", 0, 0, 2, "whole", 2),
        ("hip-jack", "auto", 0, 0, 0, "ends", 3),
        ("hip-jack", "whole", 1, 1, 4, "whole", 1),
        ("hip-jack", "whole", 0, 1, 4, "whole", 4),
        ("hip-jack", "ends", 1, 1, 4, "ends", 1),
        ("hip-jack", "ends", 1, 0, 4, "ends", 3),
        ("hip-backing", "auto", 0, 1, 4, "whole", 4),
    ],
)
def test_marks_are_drawn_whole_on_one_sheet_else_by_their_ends_else_on_tiles(
    cut, marks, single, both, tiles, said, count
):
    FOUND.update(single=single, both=both, tiles=tiles)
    end = "foot" if cut == "hip-backing" else "head"
    found, sheets = Found(answered(cut, end), LETTER, marks=marks).chosen()
    assert (found, len(sheets)) == (said, count)


@pytest.mark.parametrize(
    ("cut", "marks", "single", "both", "count"),
    [
        ("hip-jack", "auto", 1, 1, 1),
        ("hip-jack", "auto", 0, 1, 1),
        ("hip-jack", "auto", 0, 0, 4),
        ("hip-jack", "whole", 0, 1, 4),
        ("hip-backing", "auto", 0, 1, 4),
    ],
)
def test_a_template_that_follows_others_bears_no_cautions_of_its_own(
    cut, marks, single, both, count
):
    FOUND.update(single=single, both=both, tiles=4)
    BEFORE.clear()
    end = "foot" if cut == "hip-backing" else "head"
    sheets = Found(answered(cut, end), LETTER, marks=marks).among_others()
    assert [page.strips for page in sheets] == ["next"] * count
    assert set(BEFORE) == {ALL_SAID}
