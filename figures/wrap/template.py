"""A wrap template on paper: on one sheet if it can be, else on as few as can be.

One sheet is tried with both faces whole, then with only the part of one face that the mark needs
next to the arris: the rest of that line is carried on to a point whose distance is printed. Only
then is the wrap cut into tiles: whole, with one face short, or clipped to a band along the marks,
whichever uses least paper. Words never decide whether there is a sheet: they give way.

    template_pages(answer, PrintSetup(read_paper("Letter")))
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import islice
from math import prod
from typing import Any, Literal

import shapely

from figures.ink.drawing import Drawing, Stroke
from figures.ink.pens import Point
from figures.ink.scale import check_seen
from figures.page.beside import Block
from figures.page.cautions import ALL_SAID, blocks_left
from figures.page.nest import nested
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
from figures.wrap.both_ends import STRIPS_IN, lay_ends
from figures.wrap.note_blocks import note_blocks, tilt_blocks
from figures.wrap.paper_way import PaperWay
from figures.wrap.spread import RIP_LENGTHS_IN, UNDER_BOTTOM, notch_in, usual_run
from figures.wrap.stations import kind
from figures.wrap.wrap import BEFORE_IN, Wrap, lay
from figures.wrap.wrap_blocks import ends_notes
from figures.wrap.wrap_lettering import Lettered, Squeeze
from layout.answer.answer import Answer
from layout.answer.wording import given_line
from layout.errors import SheetError

MarksOnPaper = Literal["auto", "whole", "ends"]
"""Each mark drawn from end to end, or only both its ends; "auto" takes what needs less paper."""
FEW_PAGES = 2
"""Tiles so few are not worth leaving anything out for."""
LIKELY = 5
"""Ways of tiling that are drawn and compared, where the first needs a page for its notes."""
SHORT_FACES_IN = (4.0, 3.0, 2.0, 1.25)
"""How much of a face is shown where it must stop short [in]."""
SEAM_IN = 0.22
"""Paper kept clear of words on either side of a seam between tiles [in]."""
MORE_IN = 1.5
"""More kept wood shown on one sheet, where there is paper for it and words need it [in]."""
SMALLEST = 3
"""Ways tried in few words, where no sheet holds all words of a larger one."""
ENDS_TRIES = (
    (STRIPS_IN[0], Squeeze.NONE),
    *((strip, Squeeze.FEW_WORDS) for strip in STRIPS_IN),
)
"""Strips of the faces on both papers of a long cut, and what their words do, the best first."""
NOWHERE = shapely.Point(1e6, 1e6).buffer(1.0)


def template_pages(
    answer: Answer,
    setup: PrintSetup,
    *,
    surfaces: Sequence[str] | None = None,
    backed: bool = False,
    marks: MarksOnPaper = "auto",
    version: str = "",
) -> tuple[Page, ...]:
    """The sheets that carry the wrap of a joint, with its cautions, bars and title.

    `surfaces` and `backed` as for `lay`. `marks` "ends" draws only both ends of a long mark, to
    be joined with a straightedge. Raises SheetError where the paper cannot carry it.
    """
    return Template(answer, setup, surfaces, backed, version, marks).pages()


@dataclass(frozen=True)
class Template:
    """One joint's template on its way to paper.

    `drawn` keeps the sheets of marks' ends, for a copy that asks for other marks or paper.
    """

    answer: Answer
    setup: PrintSetup
    surfaces: Sequence[str] | None = None
    backed: bool = False
    version: str = ""
    marks: MarksOnPaper = "auto"
    drawn: dict[object, tuple[Page, ...]] = field(default_factory=dict, repr=False, compare=False)

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
            strip_in=way.strip_in,
            length_in=way.length_in,
            factor=self.setup.scale.factor,
            band=way.band,
            before_in=before_in,
        )

    def blocks(self, made: Lettered, squeeze: Squeeze) -> list[Block]:
        """What stands beside the wrap: the notes that it has no room for, and the tilt."""
        noted = note_blocks(made.notes, small=squeeze >= Squeeze.SMALL)
        if not self.setup.scale.full:
            return noted
        return [*noted, *tilt_blocks(self.answer, optional=squeeze >= Squeeze.FEW_WORDS)]

    def pages(self) -> tuple[Page, ...]:
        """The fewest sheets that carry it."""
        return self.chosen()[1]

    def chosen(self) -> tuple[MarksOnPaper, tuple[Page, ...]]:
        """The fewest sheets that carry it, and whether they show whole marks or their ends."""
        stock, factor = self.answer.question.stock, self.setup.scale.factor
        round_it = (2 * stock.depth_in + stock.thickness_in) * factor
        line = Drawing((Stroke(((0.0, 0.0), (0.0, round_it)), "guide"),))
        check_seen(line, self.setup.scale)
        if self.marks == "ends":
            return "ends", self._ends()
        ways = list(self.ways())
        if self.setup.paper.endless:
            return "whole", self._on_roll(ways)
        single = self._single(ways)
        if single is not None:
            return "whole", (single,)
        if self.marks == "whole" or not self.may_be_ends:
            return "whole", self._tiled(ways)
        single = self._ends_single()
        if single is not None:
            return "ends", (single,)
        try:
            tiled = self._tiled(ways)
        except SheetError:
            return "ends", self._ends_apart()
        if len(tiled) <= FEW_PAGES:
            return "whole", tiled
        apart = self._ends_apart()
        return ("ends", apart) if len(apart) < len(tiled) else ("whole", tiled)

    @property
    def may_be_ends(self) -> bool:
        """True where both ends of the marks alone may be drawn."""
        if self.surfaces is not None or not self.setup.scale.full:
            return False
        made = kind(self.answer)
        return made == "end" or (made == "notch" and usual_run(self.answer) == UNDER_BOTTOM)

    def among_others(self) -> tuple[Page, ...]:
        """The sheets of a template that follows others, of which the first bears the cautions."""
        ways = list(self.ways())
        if self.setup.paper.endless:
            return self._on_roll(ways)
        single = self._single(ways, ALL_SAID)
        if single is None and self.marks != "whole" and self.may_be_ends:
            single = self._ends_single(ALL_SAID)
        sheets = self._tiled(ways, ALL_SAID) if single is None else (single,)
        return tuple(replace(page, strips="next") for page in sheets)

    def _single(
        self, ways: Sequence[PaperWay], before: frozenset[str] = frozenset()
    ) -> Page | None:
        within = rooms_on_one_page(self.setup, **self.words)
        # One of many is lettered small at once.
        least = Squeeze.SMALL if before else Squeeze.NONE
        for laid, squeeze in self._tries(ways, within, least):
            made = laid.lettered(squeeze=squeeze, first=NOWHERE if before else None)
            page = one_page(
                made.drawing,
                self.setup,
                blocks=self.blocks(made, squeeze),
                said=before | made.said,
                few=squeeze >= Squeeze.FEW_WORDS,
                large=squeeze < Squeeze.SMALL,
                **self.words,
            )
            if page is not None:
                return page
        return None

    def _tries(
        self, ways: Sequence[PaperWay], within: Sequence[Point], least: Squeeze
    ) -> Iterator[tuple[Wrap, Squeeze]]:
        """Wraps that one sheet may hold and what their words do, laid when they are tried."""
        fits = ((way, laid) for way in ways if (laid := self.lay(way)).keeps_within(within))
        fitting = []
        for way, laid in islice(fits, 2):
            fitting.append((way, laid))
            yield from ((laid, each) for each in Squeeze if each >= least)
        smallest = sorted(fits, key=lambda one: prod(one[1].size))[:SMALLEST]
        yield from ((laid, Squeeze.FEW_WORDS) for _, laid in smallest)
        for way, _ in (*fitting[:1], *smallest[:1]):
            wider = self.lay(way, BEFORE_IN + MORE_IN)
            if wider.keeps_within(within):
                yield wider, Squeeze.FEW_WORDS

    def _tiled(
        self, ways: Sequence[PaperWay], said: frozenset[str] = frozenset()
    ) -> tuple[Page, ...]:
        tiled = self._tiled_ways(ways)
        blank = blank_page(self.setup, **self.words)
        refusal: SheetError | None = None
        planned: list[tuple[int, int, Wrap, TilePlan]] = []
        drawn: dict[int, tuple[Page, ...]] = {}
        for rank, way in enumerate(tiled):
            laid = self.lay(way)
            try:
                plan = plan_tiles(laid.lines, blank, self.setup.overlap_in)
            except SheetError as error:
                refusal = refusal or error
                continue
            if len(plan.kept) <= FEW_PAGES:  # no other way is better, if its words find room
                made = self._on_tiles(laid, plan, said)
                if len(made) <= FEW_PAGES:
                    return made
                drawn[rank] = made
            planned.append((max(FEW_PAGES, len(plan.kept)), rank, laid, plan))
        if not planned:
            raise refusal or SheetError(f"{self.setup.paper.name} carries no template")
        planned.sort(key=lambda one: one[:2])
        fewest: tuple[Page, ...] = ()
        # Notes may need a page of their own, so the likeliest few are drawn.
        for i, (_, rank, laid, plan) in enumerate(planned):
            if fewest and (i >= LIKELY or len(fewest) <= len(plan.kept)):
                break
            made = drawn.get(rank) or self._on_tiles(laid, plan, said)
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
        first = NOWHERE if said else plan.first_cell()
        made = laid.lettered(apart, squeeze=Squeeze.SMALL, first=first)
        return pages(
            made.drawing,
            self.setup,
            blocks=self.blocks(made, Squeeze.SMALL),
            said=made.said | said,
            plan=plan,
            **self.words,
        )

    def _ends(self) -> tuple[Page, ...]:
        """Both ends of a long cut on one sheet, else on a sheet each."""
        if self.surfaces is not None:
            raise SheetError("--marks ends wraps both edges already: leave out --all-round")
        if not self.setup.scale.full:
            raise SheetError("--marks ends is for a sheet to cut from: leave out --scale")
        if self.setup.paper.endless:
            return self._ends_apart()
        single = self._ends_single()
        return (single,) if single is not None else self._ends_apart()

    def _ends_single(self, before: frozenset[str] = frozenset()) -> Page | None:
        """Both ends on one sheet, None where it has no room for them."""
        key = before, id(self.answer), self.setup, self.backed, self.version
        if key not in self.drawn:
            single = self._ends_on_one(before)
            self.drawn[key] = () if single is None else (single,)
        return next(iter(self.drawn[key]), None)

    def _ends_on_one(self, before: frozenset[str]) -> Page | None:
        blank = blank_page(self.setup, **self.words)
        laid = {}
        for strip, squeeze in ENDS_TRIES:
            if strip not in laid:
                laid[strip] = lay_ends(self.answer, backed=self.backed, strip_in=strip)
            two = laid[strip]
            made = [one.lettered(squeeze=squeeze, first=NOWHERE if before else None) for one in two]
            few = squeeze >= Squeeze.FEW_WORDS
            joined = ends_notes(two[0].laid, two[1].laid, few=few)
            notes = (*made[0].notes, *made[1].notes, *joined)
            said = before | made[0].said | made[1].said
            blocks = self.blocks(Lettered(made[0].drawing, notes), squeeze)
            large = squeeze < Squeeze.SMALL
            blocks += blocks_left(said, full=True, few=few, large=large)
            page = nested([one.drawing for one in made], blocks, blank)
            if page is not None:
                return page
        return None

    def _ends_apart(self) -> tuple[Page, ...]:
        """Each paper on a sheet of its own, or cut into tiles where even that is too small."""
        key = "apart", id(self.answer), self.setup, self.backed, self.version
        if key not in self.drawn:
            self.drawn[key] = self._ends_drawn_apart()
        return self.drawn[key]

    def _ends_drawn_apart(self) -> tuple[Page, ...]:
        sheets: list[Page] = []
        two = lay_ends(self.answer, backed=self.backed)
        notes = ends_notes(two[0].laid, two[1].laid)
        for one, note, used in zip(two, notes, (frozenset[str](), ALL_SAID), strict=True):
            alone = one.lettered(squeeze=Squeeze.NONE)
            noted = Lettered(alone.drawing, (*alone.notes, note))
            blocks = (
                note_blocks(noted.notes, small=True) if used else self.blocks(noted, Squeeze.SMALL)
            )
            made = pages(alone.drawing, self.setup, blocks=blocks, said=used, **self.words)
            sheets += [replace(page, strips="next") for page in made] if used else made
        return numbered(tuple(sheets))

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
                made = self.lay(way).lettered()
                blocks = self.blocks(made, Squeeze.NONE)
                large = self.setup.scale.full
                return pages(made.drawing, self.setup, blocks=blocks, large=large, **self.words)
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
        depth = self.answer.question.stock.depth_in
        least = notch_in(self.answer)
        for shown in SHORT_FACES_IN:
            if least < shown < depth:
                for face in ("left face", "right face"):
                    yield PaperWay((face, shown))
        if run == UNDER_BOTTOM and 0 < least < depth:
            yield PaperWay(strip_in=least)
