"""A wrap template on paper: on one sheet if it can be, else on as few as can be.

One sheet is tried with both faces whole, then with only the part of one face that the mark needs
next to the arris: the rest of that line is carried on to a point whose distance is printed. Only
then is the wrap cut into tiles: whole, with one face short, or clipped to a band along the marks,
whichever uses least paper. Words never decide whether there is a sheet: they give way.

    template_pages(answer, PrintSetup(read_paper("Letter")))
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

import shapely

from figures.ink.drawing import Drawing, Stroke
from figures.ink.scale import check_seen
from figures.page.beside import Block
from figures.page.sheet import Page
from figures.page.tile_plan import TilePlan, plan_tiles
from figures.page.tiling import PrintSetup, blank_page, one_page, pages, rooms_on_one_page
from figures.wrap import wrap_words as say
from figures.wrap.note_blocks import note_blocks, tilt_blocks
from figures.wrap.spread import PAST_GAUGE_IN, RIP_LENGTHS_IN, kind, usual_run
from figures.wrap.wrap import BEFORE_IN, Wrap, lay
from figures.wrap.wrap_lettering import Lettered
from layout.answer.answer import Answer
from layout.answer.wording import given_line
from layout.errors import SheetError

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
    version: str = "",
) -> tuple[Page, ...]:
    """The sheets that carry the wrap of a joint, with its cautions, bars and title.

    `surfaces` and `backed` as for `lay`. Raises SheetError where the paper cannot carry it.
    """
    return Template(answer, setup, surfaces, backed, version).pages()


@dataclass(frozen=True)
class Way:
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

    @property
    def words(self) -> dict[str, Any]:
        """What the pages say of themselves."""
        return {
            "title": say.title(self.answer),
            "given": given_line(self.answer, metric=self.answer.metric),
            "version": self.version,
            "description": say.description(self.answer, full=self.setup.scale.full),
        }

    def lay(self, way: Way, before_in: float = BEFORE_IN) -> Wrap:
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
        ways = list(self._ways())
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

    def _single(self, ways: Sequence[Way]) -> Page | None:
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

    def _tiled(self, ways: Sequence[Way]) -> tuple[Page, ...]:
        tiled = [way for way in ways if way.length_in == ways[0].length_in]
        if kind(self.answer) == "end" and self.setup.scale.full:
            tiled += [replace(way, band=True) for way in tiled]
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
            made = self._on_tiles(laid, plan)
            if not fewest or len(made) < len(fewest):
                fewest = made
        return fewest

    def _on_tiles(self, laid: Wrap, plan: TilePlan) -> tuple[Page, ...]:
        apart = [
            shapely.buffer(shapely.linestrings(seam), SEAM_IN, cap_style="flat")
            for seam in plan.seams()
        ]
        out = plan.left_out()
        if not out.is_empty:
            apart.append(out)
        first = plan.first_cell()
        made = self._lettered(laid, apart, crowded=True, small=True, first=first)
        return pages(
            made.drawing,
            self.setup,
            blocks=self.blocks(made, small=True),
            said=made.said,
            plan=plan,
            **self.words,
        )

    def _on_roll(self, ways: Sequence[Way]) -> tuple[Page, ...]:
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

    def _ways(self) -> Iterator[Way]:
        """How a wrap may be drawn, the best first."""
        if self.answer.is_rip:
            for length in RIP_LENGTHS_IN:
                yield Way(length_in=length)
            return
        yield Way()
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
                    yield Way((face, shown))


def _notch_in(answer: Answer) -> float:
    """How much of a face a notch needs [in]; nothing for any other cut."""
    if kind(answer) != "notch":
        return 0.0
    return PAST_GAUGE_IN + max(float(cut.span[1, 1]) for cut in answer.cuts)
