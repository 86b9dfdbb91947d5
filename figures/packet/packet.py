"""The packet of a job: what a crew needs to cut and raise one roof, and no page more.

Cover, cut list and boards, a sheet for each piece, each different end full size once, running
measures along the carriers, and what is left to the approved drawings.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from figures.ink.drawing import Drawing
from figures.ink.paper import read_paper
from figures.packet.layout_sheets import layout_sheets
from figures.packet.making import Making
from figures.packet.stick_sheet import stick_sheet
from figures.page.card import CardTable, card_pages
from figures.page.flow import picture, space, stacked, words
from figures.page.sheet import Page, clear_field
from figures.page.tiling import PrintSetup
from figures.pictures.roof_views import framed as in_view
from figures.pictures.roof_views import roof_pictorial, roof_plan_picture
from figures.wrap.template import Template
from layout import usual
from layout.answer.answer import Answer, answer
from layout.answer.question import Question
from layout.answer.sense_words import KIND, LOOK_AT_YOUR_SAW
from layout.framing.cutlist import PieceRow, board_rows, boards, piece_groups, piece_rows
from layout.framing.ends import distinct_ends
from layout.framing.roof import TrainingRoof
from layout.framing.summary import facts, left_to_drawings
from layout.framing.trim import trim_rows, usual_courses
from layout.framing.trim_words import COURSES, course_table, trim_means, trim_table
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
INDEX_HEAD = ("piece", "sticks", "sheet", "templates")


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
    lists = card_pages(_lists(made, rows), paper.turned(), title="Cut list and boards", given=given)
    done = iter(range(1, len(rows) + len(ends) + 1))

    def drawn() -> None:
        on_sheet(next(done), len(rows) + len(ends))

    sheets = {}
    for row in rows:
        sheets[row.mark] = stick_sheet(made, row, groups[row.mark])
        drawn()
    templates = _templates([told(end) for end in ends], setup, version, drawn)
    layout = layout_sheets(made)
    # Numbers of two digits take the room of those to come: the index's length is known before.
    room = {row.mark: 88 for row in rows}
    to = {mark: 87 + len(leaves) for mark, leaves in sheets.items()}
    none: dict[str, tuple[int, ...]] = {row.mark: () for row in rows}
    tiled = none | _each_page(ends, templates, lambda number: 88)
    draft = _index(rows, room, to, tiled, (88, 87 + len(layout)))
    index_pages = len(card_pages([draft], paper, title="Pages", given=given))
    at = len(covers) + index_pages + len(lists)
    parts = [("Cover", 1), ("Pages", len(covers) + 1), ("Cut list and boards", at - len(lists) + 1)]
    sheet_at: dict[str, int] = {}
    parts.append(("Stick sheets", at + 1))
    for mark, leaves in sheets.items():
        sheet_at[mark] = at + 1
        at += len(leaves)
    parts.append(("Templates", at + 1))
    first_template = at + 1
    template_at = none | _each_page(ends, templates, lambda number: first_template + number)
    at += sum(len(tiles) for tiles in templates)
    parts.append(("Layout", at + 1))
    last = {mark: first + len(sheets[mark]) - 1 for mark, first in sheet_at.items()}
    index = _index(rows, sheet_at, last, template_at, (at + 1, at + len(layout)))
    pages = (
        *covers,
        *card_pages([index], paper, title="Pages", given=given),
        *lists,
        *(page for leaves in sheets.values() for page in leaves),
        *(page for tiles in templates for page in tiles),
        *layout,
    )
    numbered = tuple(
        replace(page, number=number, count=len(pages), version=version)
        for number, page in enumerate(pages, start=1)
    )
    return Packet(numbered, tuple(parts), sheet_at, template_at)


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
    view, paper = in_view(made.roof.sticks), made.paper.turned()
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


def saw_named(kind: SawKind | None) -> list[str]:
    """For which saw a packet's directions hold, and how to tell it; none where they fit either."""
    if kind is None:
        return []
    look = f" {LOOK_AT_YOUR_SAW[0]}" if kind is SawKind.BLADE_LEFT else ""
    return [
        f'Saw: every "By saw" is for a {KIND[kind]}.{look} With another saw, enter its kind in the'
        " job and print again."
    ]


def _lists(made: Making, rows: Sequence[PieceRow]) -> list[CardTable]:
    datum = (
        "Lengths along the top edge from the plumb line over the outside of the wall, tails extra;"
        " a ridge's and a plate's from end to end."
        " A piece's name ends in a letter, a stick's in a number."
    )
    head = (
        "piece", "no.", "role", "stock", "hand", "pair", "long", "middle", "short", "tail",
        "board", "sticks",
    )  # fmt: skip
    lines = [
        (
            row.mark, str(row.count), row.role, row.stock.split(" (")[0], row.hand or "-",
            row.pair or "-", made.long(row.lengths.long_in), made.long(row.lengths.centre_in),
            made.long(row.lengths.short_in),
            made.long(row.lengths.tail_in) if row.lengths.tail_in else "-",
            made.long(row.lengths.blank_in), row.names,
        )
        for row in rows
    ]  # fmt: skip
    piece_of = {name: row.mark for row in rows for name in row.names.split(", ")}
    bought = board_rows(boards(made.roof))
    cut = [
        (
            str(number),
            row.stock.split(" (")[0],
            made.long(row.length_in),
            ", ".join(_with_piece(name, piece_of) for name in row.pieces.split(", ")),
            made.long(row.left_in),
        )
        for number, row in enumerate(bought, start=1)
    ]
    shop: dict[tuple[str, float], int] = {}
    for board in bought:
        key = (board.stock.split(" (")[0], board.length_in)
        shop[key] = shop.get(key, 0) + 1
    total = ", ".join(
        f"{number} of {stock} x {made.long(long)}" for (stock, long), number in sorted(shop.items())
    )
    return [
        CardTable("Cut list", datum, head, lines),
        CardTable(
            "Boards to buy",
            f"In all: {total}. What is cut from each, in the order of cutting; a saw kerf follows"
            " every stick. Nothing is allowed for squaring a board's ends: where nothing is left"
            " over, take the next length.",
            ("no.", "stock", "length", "cut from it", "left over"),
            cut,
        ),
        *_boards_over(made),
    ]


def _boards_over(made: Making) -> list[CardTable]:
    """Fascias, rake boards and roof boards, which no stick sheet shows."""
    trim = trim_table(trim_rows(made.roof), made.long)
    courses = course_table(usual_courses(made.roof), made.long)
    return [
        CardTable("Fascias and rake boards", trim_means(made.roof, made.short), *trim),
        CardTable(f"Roof boards {usual.ROOF_BOARD}", COURSES, *courses),
    ]


def _with_piece(name: str, piece_of: dict[str, str]) -> str:
    piece = piece_of.get(name.split(" ")[0])
    return f"{name} ({piece})" if piece else name


def _each_page(
    ends: Sequence[Question],
    templates: Sequence[tuple[Page, ...]],
    page_of: Callable[[int], int],
) -> dict[str, tuple[int, ...]]:
    """Every page of the templates of each piece; `page_of` counts the templates' pages from 0."""
    found: dict[str, tuple[int, ...]] = {}
    at = 0
    for end, tiles in zip(ends, templates, strict=True):
        assert end.stands is not None
        pages = tuple(page_of(at + number) for number in range(len(tiles)))
        for use in end.stands.uses:
            found[use.name] = (*found.get(use.name, ()), *pages)
        at += len(tiles)
    return found


def _index(
    rows: Sequence[PieceRow],
    sheets: dict[str, int],
    last: dict[str, int],
    templates: dict[str, tuple[int, ...]],
    layout: tuple[int, int],
) -> CardTable:
    lines = [
        (
            row.mark,
            row.names,
            _pages(sheets[row.mark], last[row.mark]),
            ", ".join(str(page) for page in templates[row.mark]) or "-",
        )
        for row in rows
    ]
    lines.append(("layout", "where every stick stands; story poles", _pages(*layout), "-"))
    return CardTable("Pages", "Where each piece's sheet and templates are.", INDEX_HEAD, lines)


def _pages(first: int, last: int) -> str:
    return str(first) if first == last else f"{first} to {last}"
