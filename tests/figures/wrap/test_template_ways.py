"""Which ways a template is tried in, in which order, and which of them is kept."""

from types import SimpleNamespace

import pytest

from figures.ink.paper import read_paper
from figures.ink.scale import read_scale
from figures.page.tiling import PrintSetup
from figures.wrap import template
from figures.wrap.paper_way import PaperWay
from figures.wrap.spread import ALL_ROUND, RIP_LENGTHS_IN, UNDER_BOTTOM
from figures.wrap.template import FEW_PAGES, LIKELY, SMALLEST, Template
from figures.wrap.wrap import BEFORE_IN
from figures.wrap.wrap_lettering import Squeeze
from layout.errors import SheetError
from tests.wraps import answered

LETTER = PrintSetup(read_paper("Letter"))
HALF = PrintSetup(read_paper("Letter"), read_scale("half"))
ROLL = PrintSetup(read_paper("roll-24"))
FACES = ("left face", "right face")
RIP = [PaperWay(length_in=length) for length in RIP_LENGTHS_IN]


def short(*shown):
    """A wrap whole, then with less and less of either face."""
    return [PaperWay(), *(PaperWay((face, each)) for each in shown for face in FACES)]


def seat(strip):
    """A notch's wrap whole, with less of either face, and with its strip of both."""
    return [*short(4, 3), PaperWay(strip_in=strip)]


@pytest.mark.parametrize(
    ("cut", "end", "stock", "setup", "surfaces", "ways"),
    [
        ("hip-jack", "head", "2x6", LETTER, None, short(4, 3, 2, 1.25)),
        ("hip-jack", "head", "2x4", LETTER, None, short(3, 2, 1.25)),
        ("hip-jack", "head", "2in x 4in", LETTER, None, short(3, 2, 1.25)),
        ("hip-jack", "head", "2in x 4 1/16in", LETTER, None, short(4, 3, 2, 1.25)),
        ("hip-jack", "head", "2x6", LETTER, UNDER_BOTTOM, short(4, 3, 2, 1.25)),
        ("hip-jack", "head", "2x6", LETTER, ALL_ROUND, short()),
        ("hip-jack", "head", "2x6", HALF, None, short()),
        ("hip-backing", "foot", "2x6", LETTER, None, RIP),
        ("hip-backing", "foot", "2x6", HALF, None, RIP),
        # A seat is drawn a quarter of the depth deep, and 0.4 in beyond it is shown.
        ("common-seat", "foot", "2x8", LETTER, None, seat(7.25 / 4 + 0.4)),
        ("common-seat", "foot", "2in x 6.4in", LETTER, None, seat(2.0)),
        ("common-seat", "foot", "2x8", HALF, None, short()),
    ],
)  # fmt: skip
def test_a_wrap_is_tried_whole_then_with_less_and_less_of_a_face(
    cut, end, stock, setup, surfaces, ways
):
    assert list(Template(answered(cut, end, stock=stock), setup, surfaces).ways()) == ways


@pytest.mark.parametrize(
    ("cut", "end", "setup", "banded"),
    [("hip-jack", "head", LETTER, True), ("hip-jack", "head", HALF, False),
     ("common-seat", "foot", LETTER, False), ("hip-backing", "foot", LETTER, False)],
)  # fmt: skip
def test_tiles_are_tried_in_every_way_and_in_a_band_along_an_end_s_marks(cut, end, setup, banded):
    one = Template(answered(cut, end), setup)
    ways = list(one.ways())
    tiled = [way for way in ways if way.length_in == RIP_LENGTHS_IN[0]]
    found = one._tiled_ways(ways)
    assert found[: len(tiled)] == tiled
    assert [(way.short, way.strip_in) for way in found[len(tiled) :]] == (
        [(way.short, way.strip_in) for way in tiled] if banded else []
    )
    assert all(way.band for way in found[len(tiled) :])
    assert not any(way.band for way in tiled)


class Wraps(Template):
    """A template whose wraps are as large as their way's strip says: its sizes, not lines."""

    def lay(self, way, before_in=BEFORE_IN):
        size = (way.strip_in + before_in - BEFORE_IN, 1.0)
        return SimpleNamespace(
            way=way, more=before_in - BEFORE_IN, size=size,
            keeps_within=lambda within: any(size[0] <= wide for wide, _ in within),
        )  # fmt: skip


def tried(sizes, least=Squeeze.NONE, within=8.0):
    one = Wraps(answered("hip-jack", "head"), LETTER)
    ways = [PaperWay(strip_in=size) for size in sizes]
    return [
        (laid.way.strip_in, laid.more, squeeze)
        for laid, squeeze in one._tries(ways, [(within, 9.0)], least)
    ]


def test_two_wraps_that_fit_are_tried_with_all_words_then_the_smallest_in_few():
    """Larger than the sheet comes first and is left out; the wider ones show 1 1/2 in more."""
    few = Squeeze.FEW_WORDS
    assert tried([9.0, 7.0, 6.0, 5.0, 3.0, 4.0, 2.0, 2.5]) == [
        *((7.0, 0.0, each) for each in Squeeze),
        *((6.0, 0.0, each) for each in Squeeze),
        *((size, 0.0, few) for size in (2.0, 2.5, 3.0)),
        (2.0, 1.5, few),
    ]
    assert SMALLEST == 3
    assert tried([6.0], Squeeze.SMALL) == [
        (6.0, 0.0, Squeeze.SMALL), (6.0, 0.0, few), (6.0, 1.5, few)
    ]  # fmt: skip
    assert tried([6.5, 6.75], few) == [(6.5, 0.0, few), (6.75, 0.0, few), (6.5, 1.5, few)]
    assert tried([9.0]) == []


class Plans(Template):
    """A template whose ways take so many tiles, and so many pages once they are drawn."""

    def lay(self, way, before_in=BEFORE_IN):
        return SimpleNamespace(
            lines=way.strip_in, size=(way.strip_in, 1.0), keeps_within=lambda within: False
        )

    def ways(self):
        return iter([PaperWay(strip_in=float(i)) for i in range(len(PLANS))])

    def _on_tiles(self, laid, plan, said):
        DRAWN.append((int(laid.lines), said))
        return tuple(range(PAGES[int(laid.lines)]))


PLANS: list[int | None] = []
PAGES: list[int] = []
DRAWN: list[tuple[int, frozenset[str]]] = []


@pytest.fixture
def plans(monkeypatch):
    def planned(lines, blank, overlap_in):
        count = PLANS[int(lines)]
        if count is None:
            raise SheetError(f"way {lines:.0f} is too large")
        return SimpleNamespace(kept=range(count))

    def put(tiles, pages=None):
        PLANS[:], PAGES[:], DRAWN[:] = tiles, pages or tiles, []
        return Plans(answered("common-seat", "foot"), LETTER)

    monkeypatch.setattr(template, "plan_tiles", planned)
    return put


@pytest.mark.parametrize(
    ("tiles", "pages", "kept", "drawn"),
    [
        ([4, 2, 1], [4, 2, 1], 2, [1]),  # two pages are few enough: nothing more is drawn
        ([3, 4, 5], [3, 4, 5], 3, [0]),
        ([5, 4, 3], [5, 4, 3], 3, [2]),
        ([4, 4, 3], [4, 4, 5], 4, [2, 0]),  # a page for its notes
        ([2, 3, 3], [3, 3, 3], 3, [0]),
        ([2, 3, 3], [5, 4, 3], 3, [0, 1, 2]),
        ([1, 4], [3, 4], 3, [0]),
        ([None, 3], [9, 3], 3, [1]),
        ([3] * 7, [9, 8, 7, 6, 5, 4, 3], 5, [0, 1, 2, 3, 4]),  # the likeliest five are compared
    ],
)
def test_the_fewest_pages_of_the_ways_that_were_tiled_are_kept(plans, tiles, pages, kept, drawn):
    one = plans(tiles, pages)
    assert len(one._tiled(list(one.ways()))) == kept
    assert [rank for rank, _ in DRAWN] == drawn
    assert FEW_PAGES == 2
    assert LIKELY == 5


def test_where_no_way_can_be_tiled_the_first_says_why(plans):
    one = plans([None, None])
    with pytest.raises(SheetError, match="way 0 is too large"):
        one._tiled(list(one.ways()))


@pytest.mark.parametrize("setup", [ROLL, PrintSetup(read_paper("roll-24"), read_scale("half"))])
def test_a_roll_takes_the_first_way_that_is_narrow_enough(monkeypatch, setup):
    """The refusal is the whole wrap's: it says what the roll lacks."""

    class Rolled(Template):
        def ways(self):
            return iter([PaperWay(strip_in=float(i)) for i in (5, 4, 3, 2)])

        def lay(self, way, before_in=BEFORE_IN):
            return SimpleNamespace(lettered=lambda: SimpleNamespace(drawing=way.strip_in))

        def blocks(self, made, squeeze):
            return [squeeze]

    def rolled(drawing, setup, *, blocks, large, **words):
        if drawing > narrow:
            raise SheetError(f"{drawing} is too wide")
        return drawing, blocks, large

    monkeypatch.setattr(template, "pages", rolled)
    one = Rolled(answered("hip-jack", "head"), setup)
    narrow = 4
    assert one.pages() == (4, [Squeeze.NONE], setup.scale.full)
    narrow = 1
    with pytest.raises(SheetError, match=r"5\.0 is too wide"):
        one.pages()


@pytest.mark.parametrize(
    ("cut", "end", "setup", "surfaces", "may"),
    [
        ("hip-jack", "head", LETTER, None, True),
        ("hip-jack", "head", HALF, None, False),
        ("hip-jack", "head", LETTER, ALL_ROUND, False),
        ("common-seat", "foot", LETTER, None, True),
        ("hip-backing", "foot", LETTER, None, False),
    ],
)
def test_only_a_full_size_end_or_notch_may_be_drawn_by_its_ends(cut, end, setup, surfaces, may):
    assert Template(answered(cut, end), setup, surfaces).may_be_ends is may
