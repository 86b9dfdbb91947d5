"""The packet of a job: what a crew needs to cut and raise one roof, and no page more.

Cover, cut list and boards, a sheet for each piece, each different end full size once, running
measures along the carriers, and what is left to the approved drawings.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from figures.ink.drawing import Drawing
from figures.ink.paper import Paper, read_paper
from figures.packet.layout_sheets import layout_sheets
from figures.packet.lists import PageIndex, lists
from figures.packet.making import Making
from figures.packet.plain_sheets import plain, plain_sheets
from figures.packet.stick_sheet import stick_sheet
from figures.page.card import card_pages
from figures.page.flow import picture, space, stacked, words
from figures.page.sheet import Page, clear_field
from figures.page.tiling import PrintSetup
from figures.pictures.roof_views import Framed, roof_pictorial, roof_plan_picture
from figures.pictures.roof_views import framed as in_view
from figures.wrap.template import Template
from layout.answer.answer import Answer, answer
from layout.answer.question import Question
from layout.answer.sense_words import KIND, LOOK_AT_YOUR_SAW
from layout.framing.cutlist import PieceRow, piece_groups, piece_rows
from layout.framing.ends import distinct_ends
from layout.framing.roof import TrainingRoof
from layout.framing.stick import Stick
from layout.framing.summary import facts, left_to_drawings
from layout.tools.saw import SawKind

USUAL_PAGE = "Letter"
HANDS = (
    "Right face, left face, right-hand and left-hand: stand at the foot of the stick and look"
    " toward its head."
)
ROUNDED = (
    "Every figure is rounded by itself to 1/16 in, so sums may differ by that; shy is a hair less"
    " than the figure, strong a hair more."
)
UPRIGHT = 1.1
"""How much larger a plan must get on upright paper to leave the other pages' way of lying."""
ABOUT_IN = (1.2, 1.5)
"""About what heading, notes and dimensions take beside a plan, in width and in height [in]."""
LISTS = "Cut list, pages and boards"


@dataclass(frozen=True)
class Packet:
    """The pages of a packet, bookmarks of its parts, and the page of each piece's sheet.

    `templates` has every page of the templates that a piece needs, by the piece's name.
    """

    pages: tuple[Page, ...]
    parts: tuple[tuple[str, int], ...]
    sheets: dict[str, int]
    templates: dict[str, tuple[int, ...]]


def packet(
    roof: TrainingRoof,
    setup: PrintSetup,
    *,
    title: str,
    given: str,
    version: str = "",
    told: Callable[[Question], Answer] = answer,
    metric: bool = False,
    on_sheet: Callable[[int, int], None] = lambda done, of: None,
) -> Packet:
    """The whole packet on this paper. Raises SheetError where the paper cannot carry it.

    `told` answers a question on the job's own saw; in `metric` all lengths are millimeters.
    `on_sheet` is told after each drawing how many of how many are done.
    """
    # Templates may lie on a roll; what is read rather than laid on a board needs a page.
    paper = read_paper(USUAL_PAGE) if setup.paper.endless else setup.paper
    made = Making(roof, paper, given, told, metric)
    groups, rows = piece_groups(roof), piece_rows(roof)
    ends = distinct_ends(groups, roof.by_name)
    covers = _cover(made, title, told(ends[0]).limits.kind if ends else None)
    drawings = iter(range(1, len(rows) + len(ends) + 1))

    def drawn() -> None:
        on_sheet(next(drawings), len(rows) + len(ends))

    sheets = _sheets(made, rows, groups, drawn)
    templates = _templates([told(end) for end in ends], setup, version, drawn)
    layout = layout_sheets(made)

    def listed(count: int) -> tuple[list[Page], PageIndex]:
        """The lists with their page numbers, where the lists themselves take so many pages."""
        index = _index(rows, sheets, ends, templates, len(layout), len(covers) + count)
        cards = lists(made, rows, index)
        return list(card_pages(cards, paper.turned(), title=LISTS, given=given)), index

    count = 1
    listing, index = listed(count)
    while len(listing) > count:  # more pages move every number up, and may take more room
        count = len(listing)
        listing, index = listed(count)
    pages = (
        *covers,
        *listing,
        *(page for _, page in sheets),
        *(page for tiles in templates for page in tiles),
        *layout,
    )
    first = len(covers) + len(listing) + 1
    parts = (
        ("Cover", 1),
        (LISTS, len(covers) + 1),
        ("Stick sheets", first),
        ("Templates", first + len(sheets)),
        ("Layout", index.layout[0]),
    )
    numbered = tuple(
        replace(page, number=number, count=len(pages), version=version)
        for number, page in enumerate(pages, start=1)
    )
    sheet_at = {mark: those[0] for mark, those in index.sheets.items()}
    return Packet(numbered, parts, sheet_at, index.templates)


def _sheets(
    made: Making,
    rows: Sequence[PieceRow],
    groups: Mapping[str, Sequence[Stick]],
    drawn: Callable[[], None],
) -> list[tuple[tuple[str, ...], Page]]:
    """Every page of the stick sheets, with the pieces on it: square ones together, last."""
    found: list[tuple[tuple[str, ...], Page]] = []
    square = [row for row in rows if plain(groups[row.mark])]
    for row in rows:
        if row not in square:
            found += [((row.mark,), page) for page in stick_sheet(made, row, groups[row.mark])]
        drawn()
    return [*found, *plain_sheets(made, square, groups)]


def _index(
    rows: Sequence[PieceRow],
    sheets: Sequence[tuple[tuple[str, ...], Page]],
    ends: Sequence[Question],
    templates: Sequence[tuple[Page, ...]],
    layout_pages: int,
    before: int,
) -> PageIndex:
    """Where each piece's pages are, `before` pages of the cover and the lists."""
    sheet_at: dict[str, tuple[int, ...]] = {}
    for number, (marks, _) in enumerate(sheets, start=before + 1):
        for mark in marks:
            sheet_at[mark] = (*sheet_at.get(mark, ()), number)
    at = before + len(sheets) + 1
    template_at: dict[str, tuple[int, ...]] = {row.mark: () for row in rows}
    for end, tiles in zip(ends, templates, strict=True):
        assert end.stands is not None
        for use in end.stands.uses:
            template_at[use.name] += tuple(range(at, at + len(tiles)))
        at += len(tiles)
    return PageIndex(sheet_at, template_at, tuple(range(at, at + layout_pages)))


def _templates(
    answers: Sequence[Answer], setup: PrintSetup, version: str, drawn: Callable[[], None]
) -> list[tuple[Page, ...]]:
    """Every template's sheets; the first template bears the cautions and the notice for all."""
    sheets = []
    for at, one in enumerate(answers):
        template = Template(one, setup, version=version)
        sheets.append(template.among_others() if at else template.pages())
        drawn()
    return sheets


def _cover(made: Making, title: str, kind: SawKind | None) -> list[Page]:
    """The roof in space with its heights and overhangs, then its plan with every name."""
    view = in_view(made.roof.sticks)
    told = [
        *facts(made.roof, metric=made.metric),
        HANDS,
        *(() if made.metric else (ROUNDED,)),
        *saw_named(kind),
        *left_to_drawings(made.roof),
    ]
    pages = []
    for draw, name, said in (
        (roof_pictorial, title, told),
        (roof_plan_picture, "Plan", []),
    ):
        paper = plan_paper(view, made.paper) if name == "Plan" else made.paper.turned()
        blank = Page(paper, Drawing(), title=name, given=made.given, scale=None)
        left, bottom, right, top = clear_field(blank)
        text = [words(line, right - left, 9.0) for line in said]
        taken = sum(row.height_in for row in text)
        drawing = draw(view, (right - left, top - bottom - taken - 0.1), metric=made.metric)
        rows = [picture(drawing), space(0.1), *text]
        pages.append(
            replace(blank, drawing=stacked(rows).moved(left, top), description=" ".join(said))
        )
    return pages


def plan_paper(roof: Framed, paper: Paper) -> Paper:
    """The paper on its side, or upright where the plan of a roof gets clearly larger so: between
    rafters that are drawn close there is no room for names."""
    corners = np.concatenate([stick.corners[:, :2] for stick in roof.sticks])
    wide, high = corners.max(axis=0) - corners.min(axis=0)

    def size(sheet: Paper) -> float:
        left, bottom, right, top = clear_field(Page(sheet, Drawing(), title="", scale=None))
        return float(min((right - left - ABOUT_IN[0]) / wide, (top - bottom - ABOUT_IN[1]) / high))

    return paper if size(paper) > UPRIGHT * size(paper.turned()) else paper.turned()


def saw_named(kind: SawKind | None) -> list[str]:
    """For which saw a packet's directions hold, and how to tell it; none where they fit either."""
    if kind is None:
        return []
    look = f" {LOOK_AT_YOUR_SAW[0]}" if kind is SawKind.BLADE_LEFT else ""
    return [
        f'Saw: every "By saw" is for a {KIND[kind]}.{look} With another saw, enter its kind in the'
        " job and print again."
    ]
