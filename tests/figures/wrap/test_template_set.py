"""Which sheets a set of templates takes, and whether marks or only their ends are drawn."""

from dataclasses import replace

import pytest

from figures.ink.drawing import Drawing
from figures.ink.paper import read_paper
from figures.page.tiling import PrintSetup, blank_page
from figures.wrap import template_set as sets
from figures.wrap.note_frame import NoteFrame
from figures.wrap.template import FEW_PAGES, Template
from tests.wraps import answered

LETTER = PrintSetup(read_paper("Letter"))
BLANK = blank_page(LETTER, title="x")
JACK = Template(answered("hip-jack", "head"), LETTER)


def sheets(count):
    return (BLANK,) * count


@pytest.mark.parametrize(
    ("shared", "alone", "taken"),
    [
        # Fewer sheets than templates: no set of sheets of their own can be less.
        (1, 1, 1),
        (2, 3, 2),
        # As many as templates and more, yet fewer than each on its own.
        (3, 2, 3),
        (5, 2, 5),
        # Nothing saved: each has its own, with its own cautions.
        (3, 1, 3),
        (6, 2, 6),
        (7, 2, 6),
    ],
)
def test_three_templates_share_sheets_only_where_that_saves_some(monkeypatch, shared, alone, taken):
    """`shared` is how many sheets they take together, `alone` how many each takes by itself."""
    together = tuple(replace(page, title="together") for page in sheets(shared))
    monkeypatch.setattr(sets, "_shared", lambda templates: together)
    monkeypatch.setattr(Template, "pages", lambda self: sheets(alone))
    made = sets.template_set([JACK] * 3)
    assert len(made) == taken
    assert (made[0].title == "together") == (shared < 3 * alone)


@pytest.mark.parametrize(
    ("whole", "ends", "chosen"),
    [
        (FEW_PAGES, 2, ("whole", FEW_PAGES)),
        (FEW_PAGES + 4, 2, ("ends", 2)),
        (FEW_PAGES + 4, FEW_PAGES + 3, ("ends", FEW_PAGES + 3)),
        (FEW_PAGES + 4, FEW_PAGES + 4, ("whole", FEW_PAGES + 4)),
        (FEW_PAGES + 4, FEW_PAGES + 9, ("whole", FEW_PAGES + 4)),
    ],
)
def test_only_the_ends_of_marks_are_drawn_where_that_takes_fewer_sheets(
    monkeypatch, whole, ends, chosen
):
    monkeypatch.setattr(Template, "_single", lambda self, ways: None)
    monkeypatch.setattr(Template, "_ends_single", lambda self: None)
    monkeypatch.setattr(Template, "_tiled", lambda self, ways: sheets(whole))
    monkeypatch.setattr(Template, "_ends_apart", lambda self: sheets(ends))
    assert JACK.may_be_ends
    marks, made = JACK.chosen()
    assert (marks, len(made)) == chosen


def test_the_largest_goes_first_and_takes_whatever_fits_beside_it():
    """On 7 by 9 in: 7 by 5 with 7 by 4, and 6 by 4 on a sheet of its own."""
    low, high, middle = (
        sets.NoteFrames((), (size,)) for size in ((6.0, 4.0), (7.0, 5.0), (7.0, 4.0))
    )
    assert sets._binned([low, high, middle], [(7.0, 9.0)]) == [[high, middle], [low]]
    assert sets._binned([low], [(7.0, 9.0)]) == [[low]]


def test_a_frame_goes_round_a_wrap_and_its_notes():
    alone = NoteFrame(Drawing(), (1.0, 2.0, 6.0, 5.0), ())
    assert alone.box == (1.0, 2.0, 6.0, 5.0)
    wide, high = alone.size
    assert wide - 5.0 == pytest.approx(high - 3.0)
    assert wide > 5.0
