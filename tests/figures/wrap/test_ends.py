"""Both ends of a long mark: two papers whose marks lie in the plane, at the distance they say."""

import re
from itertools import pairwise

import pytest

from figures.ink.paper import read_paper
from figures.page.checkbars import NOTICE
from figures.page.tiling import PrintSetup
from figures.wrap.both_ends import both_ends
from figures.wrap.spread import spread, usual_run
from figures.wrap.template import template_pages
from figures.wrap.wrap import BEFORE_IN, PAST_IN
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


@pytest.mark.parametrize(
    ("name", "end", "pitch"), [("common-seat", "foot", "4"), ("hip-seat", "foot", "9")]
)
def test_each_paper_of_a_notch_shows_all_of_its_end_with_wood_on_either_side(name, end, pitch):
    """The ends of its lines lie in two groups along the board: a paper has all of one."""
    papers = both_ends(answered(name, end, pitch=pitch))
    whole = spread(answered(name, end, pitch=pitch), usual_run(answered(name, end, pitch=pitch)))
    xs = sorted(x for one in whole.surfaces for mark in one.marks for x, _ in mark.line)
    gaps = [after - before for before, after in pairwise(xs)]
    parted = gaps.index(max(gaps)) + 1
    groups = [xs[:parted], xs[parted:]] if papers[0].toward > 0 else [xs[parted:], xs[:parted]]
    for paper, group in zip(papers, groups, strict=True):
        left, _, right, _ = paper.box
        kept, waste = min(group) - left, right - max(group)
        if paper.toward < 0:
            kept, waste = waste, kept
        assert waste == pytest.approx(PAST_IN)
        assert kept >= BEFORE_IN - 1e-9


def test_both_ends_on_one_roomy_sheet_bear_the_notice_about_scale_and_the_square():
    """11x17 holds both papers and every word, so the sheet that is cut from can be measured."""
    setup = PrintSetup(read_paper("11x17"))
    (page,) = template_pages(answered("hip-jack", "head"), setup, marks="ends")
    words = " ".join(" ".join(label.text for label in page.beside.labels).split())
    assert NOTICE.split(" True")[0] in words
    (square,) = (one for one in page.beside.strokes if one.gid == "check-square")
    xs, ys = zip(*square.points, strict=True)
    assert max(xs) - min(xs) == pytest.approx(max(ys) - min(ys))
    assert max(xs) - min(xs) == pytest.approx(round(max(xs) - min(xs)))


def test_a_rip_a_notch_and_a_study_view_have_no_two_ends():
    letter = PrintSetup(read_paper("Letter"))
    for name, end in (("hip-backing", "foot"),):
        with pytest.raises(SheetError, match="leave out --marks ends"):
            template_pages(answered(name, end), letter, marks="ends")
