"""A wrap template on paper: on one sheet if it can be, else on as few as can be.

One sheet is tried with both faces whole, then with only the part of one face that the mark needs
next to the arris: the rest of that line is carried on to a point whose distance is printed. Only
then is the wrap cut into tiles: whole, with one face short, or clipped to a band along the marks,
whichever uses least paper. Words never decide whether there is a sheet: they give way.

    template_pages(answer, PrintSetup(read_paper("Letter")))
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any, Literal

import shapely

from figures.ink.drawing import Drawing, Stroke
from figures.ink.scale import check_seen
from figures.page.beside import Block
from figures.page.cautions import ALL_SAID
from figures.page.sheet import Page
from figures.page.tile_plan import TilePlan, plan_tiles
from figures.page.tiling import (
    PrintSetup,
    blank_page,
    numbered,
    one_page,
    pages,
    rooms_on_one_page,
)
from figures.wrap import wrap_words as say
from figures.wrap.note_blocks import note_blocks, tilt_blocks
from figures.wrap.spread import PAST_GAUGE_IN, RIP_LENGTHS_IN, kind, usual_run
from figures.wrap.wrap import BEFORE_IN, Wrap, lay, lay_ends
from figures.wrap.wrap_blocks import ends_notes
from figures.wrap.wrap_lettering import Lettered
from layout.answer.answer import Answer
from layout.answer.wording import given_line
from layout.errors import SheetError

MarksOnPaper = Literal["whole", "ends"]
"""Each mark drawn from end to end, or only both its ends."""
FEW_PAGES = 2
"""Tiles so few are not worth leaving anything out for."""
LIKELY = 5
"""Ways of tiling that are drawn and compared, where the first needs a page for its notes."""
SHORT_FACES_IN = (4.0, 3.0, 2.0)
"""How much of a face is shown where it must stop short [in]."""
SEAM_IN = 0.22
"""Paper kept clear of words on either side of a seam between tiles [in]."""
MORE_IN = (1.5, 3.0)
"""More kept wood shown on one sheet, where there is paper for it and words need it [in]."""


def template_pages(
    answer: Answer,
    setup: PrintSetup,
    *,
    surfaces: Sequence[str] | None = None,
    backed: bool = False,
    marks: MarksOnPaper = "whole",
    version: str = "",
) -> tuple[Page, ...]:
    """The sheets that carry the wrap of a joint, with its cautions, bars and title.

    `surfaces` and `backed` as for `lay`. `marks` "ends" draws only both ends of a long mark, to
    be joined with a straightedge. Raises SheetError where the paper cannot carry it.
    """
    return Template(answer, setup, surfaces, backed, version, marks).pages()


PAPERS_APART_IN = 0.4
"""White between the two papers of a long cut [in]."""


@dataclass(frozen=True)
class PaperWay:
    """How a wrap may be drawn: how much of one face, how long a rip.

    A `band` leaves out what lies far from the marks.
    """

    short: tuple[str, float] | None = None
    length_in: float = RIP_LENGTHS_IN[0]
    band: bool = False


@dataclass(frozen=True)
class Template:
    """One joint's template on its way to paper."""

    answer: Answer
    setup: PrintSetup
    surfaces: Sequence[str] | None = None
    backed: bool = False
    version: str = ""
    marks: MarksOnPaper = "whole"

    @property
    def words(self) -> dict[str, Any]:
        """What the pages say of themselves."""
        return {
            "title": say.title(self.answer),
            "given": given_line(self.answer),
            "version": self.version,
            "description": say.description(self.answer, full=self.setup.scale.full),
        }

    def lay(self, way: PaperWay, before_in: float = BEFORE_IN) -> Wrap:
        """The lines of the wrap, drawn in one way."""
        return lay(
            self.answer,
            self.surfaces,
            backed=self.backed,
            short=way.short,
            length_in=way.length_in,
            factor=self.setup.scale.factor,
            band=way.band,
            before_in=before_in,
        )

    def blocks(self, made: Lettered, *, small: bool = False) -> list[Block]:
        """What stands beside the wrap: the notes that it has no room for, and the tilt."""
        tilts = tilt_blocks(self.answer) if self.setup.scale.full else []
        return [*note_blocks(made.notes, small=small), *tilts]

    def pages(self) -> tuple[Page, ...]:
        """The fewest sheets that carry it."""
        stock, factor = self.answer.question.stock, self.setup.scale.factor
        round_it = (2 * stock.depth_in + stock.thickness_in) * factor
        line = Drawing((Stroke(((0.0, 0.0), (0.0, round_it)), "guide"),))
        check_seen(line, self.setup.scale)
        if self.marks == "ends":
            return self._ends()
        ways = list(self.ways())
        if self.setup.paper.endless:
            return self._on_roll(ways)
        single = self._single(ways)
        if single is not None:
            return (single,)
        return self._tiled(ways)

    def _lettered(
        self,
        laid: Wrap,
        apart: Sequence[Any] = (),
        *,
        crowded: bool,
        small: bool,
        first: Any = None,
    ) -> Lettered:
        return laid.lettered(
            apart, crowded=crowded, small=small, metric=self.answer.metric, first=first
        )

    def lettered(self, laid: Wrap) -> Lettered:
        """The wrap with its words in a set of templates, whose first page bears the cautions."""
        nowhere = shapely.Point(1e6, 1e6).buffer(1.0)
        return self._lettered(laid, crowded=True, small=True, first=nowhere)

    def tiles(self, said: frozenset[str] = frozenset()) -> tuple[Page, ...]:
        """The tiles of a wrap that no one sheet holds; `said` names cautions said elsewhere."""
        return self._tiled(list(self.ways()), said)

    def _single(self, ways: Sequence[PaperWay]) -> Page | None:
        within = rooms_on_one_page(self.setup, **self.words)
        for way in ways:
            laid = self.lay(way)
            if not laid.keeps_within(within):
                continue
            tries = [(laid, False, False), (laid, True, False), (laid, True, True)]
            wider = [self.lay(way, BEFORE_IN + more) for more in MORE_IN]
            tries += [(one, True, True) for one in wider if one.keeps_within(within)]
            for one, crowded, small in tries:
                page = self._one(self._lettered(one, crowded=crowded, small=small), small=small)
                if page is not None:
                    return page
        return None

    def _one(self, made: Lettered, *, small: bool) -> Page | None:
        return one_page(
            made.drawing,
            self.setup,
            blocks=self.blocks(made, small=small),
            said=made.said,
            **self.words,
        )

    def _tiled(
        self, ways: Sequence[PaperWay], said: frozenset[str] = frozenset()
    ) -> tuple[Page, ...]:
        tiled = self._tiled_ways(ways)
        blank = blank_page(self.setup, **self.words)
        refusal: SheetError | None = None
        planned: list[tuple[int, int, Wrap, TilePlan]] = []
        for rank, way in enumerate(tiled):
            laid = self.lay(way)
            try:
                plan = plan_tiles(laid.lines, blank, self.setup.overlap_in)
            except SheetError as error:
                refusal = refusal or error
                continue
            planned.append((max(FEW_PAGES, len(plan.kept)), rank, laid, plan))
        if not planned:
            raise refusal or SheetError(f"{self.setup.paper.name} carries no template")
        planned.sort(key=lambda one: one[:2])
        fewest: tuple[Page, ...] = ()
        # Notes may need a page of their own, so the likeliest few are drawn.
        for i, (_, _, laid, plan) in enumerate(planned):
            if fewest and (i >= LIKELY or len(fewest) <= len(plan.kept)):
                break
            made = self._on_tiles(laid, plan, said)
            if not fewest or len(made) < len(fewest):
                fewest = made
        return fewest

    def _on_tiles(self, laid: Wrap, plan: TilePlan, said: frozenset[str]) -> tuple[Page, ...]:
        apart = [
            shapely.buffer(shapely.linestrings(seam), SEAM_IN, cap_style="flat")
            for seam in plan.seams()
        ]
        out = plan.left_out()
        if not out.is_empty:
            apart.append(out)
        first = shapely.Point(1e6, 1e6).buffer(1.0) if said else plan.first_cell()
        made = self._lettered(laid, apart, crowded=True, small=True, first=first)
        return pages(
            made.drawing,
            self.setup,
            blocks=self.blocks(made, small=True),
            said=made.said | said,
            plan=plan,
            **self.words,
        )

    def _ends(self) -> tuple[Page, ...]:
        """Both ends of a long cut, one paper over the other, and how they are joined."""
        if self.surfaces is not None:
            raise SheetError("--marks ends wraps both edges already: leave out --all-round")
        if not self.setup.scale.full:
            raise SheetError("--marks ends is for a sheet to cut from: leave out --scale")
        two = lay_ends(self.answer, backed=self.backed)
        for crowded, small in ((False, False), (True, True)):
            made = [self._lettered(one, crowded=crowded, small=small) for one in two]
            first, second = (one.drawing for one in made)
            x0, y0, x1, _ = first.bounds()
            a0, _, a1, b1 = second.bounds()
            drop = y0 - PAPERS_APART_IN - b1
            both = first + second.moved((x0 + x1 - a0 - a1) / 2, drop)
            notes = (*made[0].notes, *made[1].notes, *ends_notes(two[0].laid, two[1].laid))
            said = made[0].said | made[1].said
            blocks = self.blocks(Lettered(both, notes, said), small=small)
            single = one_page(both, self.setup, blocks=blocks, said=said, **self.words)
            if single is not None:
                return (single,)
        # Each paper on a sheet of its own, or cut into tiles where even that is too small.
        sheets: list[Page] = []
        for one, note, used in zip(
            two, ends_notes(two[0].laid, two[1].laid), (frozenset[str](), ALL_SAID), strict=True
        ):
            alone = self._lettered(one, crowded=False, small=True)
            tilt = self.blocks(Lettered(alone.drawing, (*alone.notes, note)), small=True)
            if used:
                tilt = note_blocks((*alone.notes, note), small=True)
            made_here = pages(alone.drawing, self.setup, blocks=tilt, said=used, **self.words)
            if used:
                made_here = tuple(replace(page, strips="next") for page in made_here)
            sheets += made_here
        return numbered(tuple(sheets))

    def least_pages(self) -> int:
        """How many sheets it takes at least, by its lines alone: quick, and seldom one too few.

        Raises SheetError where the paper cannot carry it.
        """
        if self.setup.paper.endless:
            return 1
        if self.marks == "ends":
            return len(self.pages())
        within = rooms_on_one_page(self.setup, **self.words)
        ways = list(self.ways())
        if any(self.lay(way).keeps_within(within) for way in ways):
            return 1
        blank = blank_page(self.setup, **self.words)
        counts = []
        for way in self._tiled_ways(ways):
            try:
                plan = plan_tiles(self.lay(way).lines, blank, self.setup.overlap_in)
            except SheetError:
                continue
            counts.append(len(plan.kept))
        if not counts:
            raise SheetError(f"{self.setup.paper.name} carries no template")
        return min(counts)

    def _tiled_ways(self, ways: Sequence[PaperWay]) -> list[PaperWay]:
        tiled = [way for way in ways if way.length_in == ways[0].length_in]
        if kind(self.answer) == "end" and self.setup.scale.full:
            tiled += [replace(way, band=True) for way in tiled]
        return tiled

    def _on_roll(self, ways: Sequence[PaperWay]) -> tuple[Page, ...]:
        """The first way that a roll is wide enough for; the refusal is the whole wrap's."""
        refusal: SheetError | None = None
        for way in ways:
            try:
                made = self._lettered(self.lay(way), crowded=False, small=False)
                return pages(made.drawing, self.setup, blocks=self.blocks(made), **self.words)
            except SheetError as error:
                refusal = refusal or error
        assert refusal is not None
        raise refusal

    def ways(self) -> Iterator[PaperWay]:
        """How a wrap may be drawn, the best first."""
        if self.answer.is_rip:
            for length in RIP_LENGTHS_IN:
                yield PaperWay(length_in=length)
            return
        yield PaperWay()
        if not self.setup.scale.full:
            return
        run = self.surfaces
        if run is None:
            run = usual_run(self.answer, backed=self.backed)
        if {run[0], run[-1]} != {"right face", "left face"}:
            return
        least = _notch_in(self.answer)
        for shown in SHORT_FACES_IN:
            if least < shown < self.answer.question.stock.depth_in:
                for face in ("left face", "right face"):
                    yield PaperWay((face, shown))


def _notch_in(answer: Answer) -> float:
    """How much of a face a notch needs [in]; nothing for any other cut."""
    if kind(answer) != "notch":
        return 0.0
    return PAST_GAUGE_IN + max(float(cut.span[1, 1]) for cut in answer.cuts)
