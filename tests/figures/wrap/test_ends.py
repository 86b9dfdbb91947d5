"""Both ends of a long mark: two papers whose marks lie in the plane, at the distance they say."""

import re

import pytest

from figures.ink.paper import read_paper
from figures.page.tiling import PrintSetup
from figures.wrap.both_ends import both_ends
from figures.wrap.template import template_pages
from figures.wrap.wrap_blocks import ends_notes
from layout.cuts import Hand
from layout.errors import SheetError
from tests.wraps import answered


@pytest.mark.parametrize("hand", list(Hand))
@pytest.mark.parametrize(
    ("name", "end", "pitch"),
    [("common-tail-level", "foot", "4"), ("hip-jack", "head", "20"), ("collar-tie", "head", "3")],
)
def test_both_papers_lie_in_the_plane_and_stand_where_their_words_say(name, end, pitch, hand):
    one = answered(name, end, hand, pitch)
    papers = both_ends(one)
    for paper in papers:
        for surface in paper.surfaces:
            for mark in surface.marks:
                for place in surface.panel.board(mark.line):
                    off = (place - one.cuts[mark.plane_index].point) @ one.cuts[
                        mark.plane_index
                    ].normal
                    assert abs(off) < 1e-9
    first, second = papers
    said = ends_notes(first, second)[1].text
    apart = second.start_x - first.start_x
    if apart:
        found = re.search(r"\(([\d.]+) mm\) from start line 1 toward the (head|foot)", said)
        assert float(found[1]) == pytest.approx(abs(apart) * 25.4, abs=0.25)
        assert found[2] == ("head" if apart > 0 else "foot")
    else:
        assert "on start line 1" in said


def test_a_rip_a_notch_and_a_study_view_have_no_two_ends():
    letter = PrintSetup(read_paper("Letter"))
    for name, end in (("hip-backing", "foot"),):
        with pytest.raises(SheetError, match="leave out --marks ends"):
            template_pages(answered(name, end), letter, marks="ends")
