"""A wrap template on paper: on one sheet if it can be, else on as few as can be.

One sheet is tried with both faces whole, then with the lettering smaller, then with only the part
of one face that the mark needs next to the arris: the rest of that line is carried on to a point
whose distance is printed. Only then is the wrap cut into tiles: whole, with one face short, or
clipped to a band along the marks, whichever uses least paper.

    template_pages(answer, PrintSetup(read_paper("Letter")))
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import Any

from figures.ink.drawing import Drawing, Stroke
from figures.ink.pens import Point
from figures.ink.scale import check_seen
from figures.page.sheet import Page
from figures.page.tiles import MOST_TILES
from figures.page.tiling import (
    PrintSetup,
    one_page,
    pages,
    rooms_on_one_page,
    seam_lines,
    tile_count,
)
from figures.place.labelling import Line
from figures.wrap import wrap_words as say
from figures.wrap.spread import PAST_GAUGE_IN, RIP_LENGTHS_IN, kind, usual_run
from figures.wrap.wrap import Seams, wrap
from layout.answer.answer import Answer
from layout.answer.wording import given_line
from layout.errors import SheetError

SIZES_PT = (9.0, 7.5)
"""Lettering of the blocks of words, the usual size first [pt]."""
FEW_PAGES = 2
"""Tiles so few are not worth leaving anything out for."""
LIKELY = 2
"""Ways of tiling that are drawn and compared."""
SHORT_FACES_IN = (4.0, 3.0, 2.0)
"""How much of a face is shown where it must stop short [in]."""


def template_pages(
    answer: Answer,
    setup: PrintSetup,
    *,
    surfaces: Sequence[str] | None = None,
    backed: bool = False,
    version: str = "",
) -> tuple[Page, ...]:
    """The sheets that carry the wrap of a joint, with its cautions, bars and title.

    `surfaces` and `backed` as for `wrap`. Raises SheetError where the paper cannot carry it.
    """
    words: dict[str, Any] = {
        "title": say.title(answer),
        "given": given_line(answer),
        "version": version,
        "description": say.description(answer, full=setup.scale.full),
    }
    stock, factor = answer.question.stock, setup.scale.factor
    round_it = (2 * stock.depth_in + stock.thickness_in) * factor
    check_seen(Drawing((Stroke(((0.0, 0.0), (0.0, round_it)), "guide"),)), setup.scale)
    ways = list(_ways(answer, surfaces, backed, full=setup.scale.full))

    def draw(
        way: Way,
        within: Sequence[Point] = (),
        seams: Seams | None = None,
        bare: bool = False,
    ) -> Drawing:
        return wrap(
            answer,
            surfaces,
            backed=backed,
            short=way.short,
            length_in=way.length_in,
            size_pt=way.size_pt,
            factor=factor,
            within=within,
            band=way.band,
            seams=seams,
            bare=bare,
        )

    if setup.paper.endless:
        return _on_roll([partial(draw, way) for way in ways], setup, words)
    within = rooms_on_one_page(setup, **words)
    for way in ways:
        try:
            drawing = draw(way, within=within)
        except SheetError:
            continue
        single = one_page(drawing, setup, **words)
        if single is not None:
            return (single,)
    tiled = [way for way in ways if way.size_pt == SIZES_PT[0]]
    if kind(answer) == "end" and setup.scale.full:
        tiled += [replace(way, band=True) for way in tiled]
    refusal: SheetError | None = None
    fewest: tuple[Page, ...] = ()
    # Words may need more paper than the bare lines, so the likeliest few are drawn.
    likely = sorted(tiled, key=lambda way: _tiles(draw(way, bare=True), setup, words))
    for i, way in enumerate(likely):
        if fewest and (i >= LIKELY or len(fewest) <= FEW_PAGES):
            break
        try:
            bare: list[Drawing] = []

            def seams(lines: Drawing, bare: list[Drawing] = bare) -> tuple[Line, ...]:
                bare[:] = [lines]
                return seam_lines(lines, setup, **words)

            drawing = draw(way, seams=seams)
            made = pages(drawing, setup, tiled_as=bare[0], **words)
        except SheetError as error:
            refusal = refusal or error
            continue
        if not fewest or len(made) < len(fewest):
            fewest = made
    if not fewest and refusal is not None:
        raise refusal
    return fewest


def _tiles(lines: Drawing, setup: PrintSetup, words: dict[str, Any]) -> int:
    try:
        return max(FEW_PAGES, tile_count(lines, setup, **words))
    except SheetError:
        return MOST_TILES + 1


@dataclass(frozen=True)
class Way:
    """How a wrap may be drawn: lettering, how much of one face, how long a rip.

    A `band` leaves out what lies far from the marks.
    """

    size_pt: float
    short: tuple[str, float] | None = None
    length_in: float = RIP_LENGTHS_IN[0]
    band: bool = False


def _ways(
    answer: Answer, surfaces: Sequence[str] | None, backed: bool, *, full: bool
) -> Iterator[Way]:
    """How a wrap may be drawn, the best first."""
    if answer.is_rip:
        for length in RIP_LENGTHS_IN:
            for size in SIZES_PT:
                yield Way(size, length_in=length)
        return
    for size in SIZES_PT:
        yield Way(size)
    if not full:
        return
    run = surfaces if surfaces is not None else usual_run(answer, backed=backed)
    if {run[0], run[-1]} != {"right face", "left face"}:
        return
    least = _notch_in(answer)
    for shown in SHORT_FACES_IN:
        if least < shown < answer.question.stock.depth_in:
            for size in SIZES_PT:
                for face in ("left face", "right face"):
                    yield Way(size, (face, shown))


def _notch_in(answer: Answer) -> float:
    """How much of a face a notch needs [in]; nothing for any other cut."""
    if kind(answer) != "notch":
        return 0.0
    return PAST_GAUGE_IN + max(float(cut.span[1, 1]) for cut in answer.cuts)


def _on_roll(
    drawn: Sequence[Callable[[], Drawing]], setup: PrintSetup, words: dict[str, Any]
) -> tuple[Page, ...]:
    """The first way that a roll is wide enough for; the refusal is the whole wrap's."""
    refusal: SheetError | None = None
    for make in drawn:
        try:
            return pages(make(), setup, **words)
        except SheetError as error:
            refusal = refusal or error
    assert refusal is not None
    raise refusal
