"""The packet of a job: what a crew needs to cut and raise one roof, and no page more.

Cover, cut list and boards, a sheet for each piece, each different end full size once, running
measures along the carriers, and what is left to the approved drawings.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from figures.ink.drawing import Drawing
from figures.ink.paper import Paper, read_paper
from figures.packet.pole import PoleMark, landing_marks, pole
from figures.page.card import CardTable, card_pages
from figures.page.flow import Row, paginate, picture, space, stacked, table, words
from figures.page.sheet import Page, clear_field
from figures.page.tiling import PrintSetup
from figures.pictures.roof_views import framed as in_view
from figures.pictures.roof_views import roof_pictorial, roof_plan_picture
from figures.pictures.whole_stick import whole_stick
from figures.wrap.template import template_pages
from layout.answer.answer import Answer, answer
from layout.answer.question import Question
from layout.answer.sense_words import way_name
from layout.errors import SheetError
from layout.framing.cutlist import (
    PieceRow,
    board_rows,
    boards,
    piece_groups,
    piece_rows,
)
from layout.framing.ends import distinct_ends, end_question, places
from layout.framing.roof import TrainingRoof
from layout.framing.running import Landing, landings, start_of
from layout.framing.stick import Stick
from layout.framing.summary import facts, left_to_drawings, length_words
from layout.quantity import write_degrees, write_feet, write_fraction
from layout.tools.saw import SawLimits

USUAL_PAGE = "Letter"
INDEX_HEAD = ("piece", "sticks", "sheet", "templates")


@dataclass(frozen=True)
class Packet:
    """The pages of a packet, bookmarks of its parts, and the page of each piece's sheet.

    `templates` has the first page of each template that a piece needs, by the piece's name.
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
    limits: SawLimits | None = None,
) -> Packet:
    """The whole packet on this paper, for a saw with these limits.

    Raises SheetError where the paper cannot carry it.
    """
    # Templates may lie on a roll; what is read rather than laid on a board needs a page.
    paper = read_paper(USUAL_PAGE) if setup.paper.endless else setup.paper
    wide = paper.turned()
    groups, rows = piece_groups(roof), piece_rows(roof)
    ends = distinct_ends(groups, roof.by_name)
    sheets = [stick_sheet(roof, row, groups[row.mark], paper, limits) for row in rows]
    made = [template_pages(answer(end, limits=limits), setup, version=version) for end in ends]
    lists = card_pages(_lists(roof, rows), wide, title="Cut list and boards", given=given)
    running = _layout_pages(roof, paper, given)
    covers = _cover(roof, wide, title, given)
    index_pages = len(card_pages([_index(rows, {}, {})], paper, title="Pages", given=given))
    at = len(covers) + index_pages + len(lists)
    parts = [("Cover", 1), ("Pages", len(covers) + 1), ("Cut list and boards", at - len(lists) + 1)]
    sheet_at: dict[str, int] = {}
    parts.append(("Stick sheets", at + 1))
    for row, leaves in zip(rows, sheets, strict=True):
        sheet_at[row.mark] = at + 1
        at += len(leaves)
    parts.append(("Templates", at + 1))
    template_at: dict[str, tuple[int, ...]] = {row.mark: () for row in rows}
    for end, tiles in zip(ends, made, strict=True):
        assert end.stands is not None
        for use in end.stands.uses:
            template_at[use.name] = (*template_at[use.name], at + 1)
        at += len(tiles)
    parts.append(("Layout", at + 1))
    index = card_pages([_index(rows, sheet_at, template_at)], paper, title="Pages", given=given)
    pages = (
        *covers,
        *index,
        *lists,
        *(page for leaves in sheets for page in leaves),
        *(page for tiles in made for page in tiles),
        *running,
    )
    numbered = tuple(
        replace(page, number=number, count=len(pages), version=version)
        for number, page in enumerate(pages, start=1)
    )
    return Packet(numbered, tuple(parts), sheet_at, template_at)


def stick_sheet(
    roof: TrainingRoof,
    row: PieceRow,
    sticks: Sequence[Stick],
    paper: Paper,
    limits: SawLimits | None = None,
) -> tuple[Page, ...]:
    """One piece: the whole stick to scale, its count and pair, and how each end is cut."""
    stick = sticks[0]
    title = f"Piece {row.mark}: {row.role}, {row.count} to cut"
    pair = f"; pairs with {row.pair}, its mirror image" if row.pair else ""
    given = f"{row.stock}; sticks {row.names}"
    blank = Page(paper, Drawing(), title=title, given=_short(given), scale=None)
    left, bottom, right, top = clear_field(blank)
    width = right - left
    said = [
        words(length_words(stick) + pair + ".", width, 9.0),
        *([words(f"Sticks: {row.names}.", width, 9.0)] if len(given) > 90 else []),
        space(0.06),
        *_end_table(roof, stick, width, limits),
    ]
    told = f"{title}. {given}. {length_words(stick)}{pair}."
    high, taken = top - bottom, sum(each.height_in for each in said)
    try:
        leaves = [[picture(whole_stick(stick, (width, high - taken - 0.15))), space(0.1), *said]]
    except SheetError:  # a stick of many cuts: its picture and its table on a page each
        leaves = [[picture(whole_stick(stick, (width, high)))], said]
    return tuple(
        replace(blank, drawing=stacked(rows).moved(left, top), description=told) for rows in leaves
    )


def _end_table(
    roof: TrainingRoof, stick: Stick, width: float, limits: SawLimits | None
) -> list[Row]:
    head = ("end", "against", "face mark", "side-cut number", "tilt", "by saw", "hand")
    lines = [
        (
            place,
            one.plane.mate_name,
            *_marks(one),
            way_name(one),
            one.hand.value if one.hand else "-",
        )
        for place in places(stick)
        for one in _planes(end_question(stick, place, roof.by_name), limits)
    ]
    if not lines:
        return [words("Cut both ends square.", width, 9.0)]
    shares = (0.08, 0.22, 0.14, 0.16, 0.1, 0.22, 0.08)
    return table(head, lines, [share * width for share in shares], 8.5)


def _planes(question: Question, limits: SawLimits | None) -> tuple[Answer, ...]:
    first = answer(question, limits=limits)
    return (first, *first.others)


def _marks(one: Answer) -> tuple[str, str, str]:
    tilt = write_degrees(float(one.cut.face_tilt_deg))
    if one.is_rip:
        return "along the board", "-", tilt
    number = write_fraction(float(one.cut.edge_number)) if one.edge.numbers else "square across"
    return write_degrees(one.face.from_square_deg), number, tilt


def _cover(roof: TrainingRoof, paper: Paper, title: str, given: str) -> list[Page]:
    """The roof in space with its heights and overhangs, then its plan with every name."""
    view = in_view(roof.sticks)
    pages = []
    for draw, name, said in (
        (roof_pictorial, title, [*facts(roof), *left_to_drawings()]),
        (roof_plan_picture, "Plan", []),
    ):
        blank = Page(paper, Drawing(), title=name, given=given, scale=None)
        left, bottom, right, top = clear_field(blank)
        text = [words(line, right - left, 9.0) for line in said]
        taken = sum(row.height_in for row in text)
        drawing = draw(view, (right - left, top - bottom - taken - 0.1))
        rows = [picture(drawing), space(0.1), *text]
        pages.append(
            replace(blank, drawing=stacked(rows).moved(left, top), description=" ".join(said))
        )
    return pages


def _lists(roof: TrainingRoof, rows: Sequence[PieceRow]) -> list[CardTable]:
    datum = (
        "Lengths along the top edge from the plumb line over the outside of the wall; tails are"
        " extra. A piece's name ends in a letter, a stick's in a number."
    )
    head = (
        "piece", "no.", "role", "stock", "hand", "pair", "long", "middle", "short", "tail",
        "board", "sticks",
    )  # fmt: skip
    lines = [
        (
            row.mark, str(row.count), row.role, row.stock.split(" (")[0], row.hand or "-",
            row.pair or "-", write_feet(row.lengths.long_in), write_feet(row.lengths.centre_in),
            write_feet(row.lengths.short_in),
            write_feet(row.lengths.tail_in) if row.lengths.tail_in else "-",
            write_feet(row.lengths.blank_in), row.names,
        )
        for row in rows
    ]  # fmt: skip
    piece_of = {name: row.mark for row in rows for name in row.names.split(", ")}
    bought = board_rows(boards(roof))
    cut = [
        (
            str(number),
            row.stock.split(" (")[0],
            write_feet(row.length_in),
            ", ".join(_with_piece(name, piece_of) for name in row.pieces.split(", ")),
            write_feet(row.left_in),
        )
        for number, row in enumerate(bought, start=1)
    ]
    return [
        CardTable("Cut list", datum, head, lines),
        CardTable(
            "Boards to buy",
            "What is cut from each, in the order of cutting; a saw kerf follows every stick.",
            ("no.", "stock", "length", "cut from it", "left over"),
            cut,
        ),
    ]


def _with_piece(name: str, piece_of: dict[str, str]) -> str:
    piece = piece_of.get(name.split(" ")[0])
    return f"{name} ({piece})" if piece else name


def _layout_pages(roof: TrainingRoof, paper: Paper, given: str) -> tuple[Page, ...]:
    """Each carrier as a reduced stick and a table, and the common's story pole."""
    blank = Page(paper, Drawing(), title="Layout", given=given, scale=None)
    left, bottom, right, top = clear_field(blank)
    width = right - left
    rows: list[Row] = []
    found = landings(roof.sticks)
    for name in dict.fromkeys(one.carrier for one in found):
        carrier, here = roof.by_name[name], [one for one in found if one.carrier == name]
        far = carrier.in_board(carrier.corners)[:, 0].max() - start_of(carrier)
        rows += [
            words(f"Along {name}, {carrier.role}", width, 12.0, bold=True, with_next=True),
            words(_start_words(name), width, 9.0, with_next=True),
            replace(picture(pole(landing_marks(here), float(far), width)), with_next=True),
            space(0.08, with_next=True),
            *_landing_table(here, width),
            space(0.2),
        ]
    rows += _story_pole(roof, width)
    return tuple(
        replace(blank, drawing=stacked(leaf).moved(left, top))
        for leaf in paginate(rows, top - bottom)
    )


def _landing_table(here: Sequence[Landing], width: float) -> list[Row]:
    head = ("stick", "on", "to its near side", "to its middle", "to its far side")
    lines = [
        (one.stick, one.side, *(write_feet(at) for at in (one.near_in, one.middle_in, one.far_in)))
        for one in here
    ]
    return table(head, lines, [share * width for share in (0.14, 0.2, 0.22, 0.22, 0.22)], 8.5)


def _story_pole(roof: TrainingRoof, width: float) -> list[Row]:
    """The longest common's marks along its top edge, from the tail's end."""
    commons = [stick for stick in roof.sticks if stick.role == "common" and stick.on_plate]
    if not commons:
        return []
    common = max(commons, key=lambda stick: stick.measured().long_in)
    tail, head = common.tail_in, common.measured().centre_in
    marks = [
        PoleMark("tail's plumb cut", 0.0),
        PoleMark("outside of the wall", tail),
        PoleMark("ridge's plumb cut", tail + head),
    ]
    said = "Along its top edge, from the tail's end: lay these three on a strip, carry them over."
    return [
        words(f"Story pole of the common {common.name}", width, 12.0, bold=True, with_next=True),
        words(said, width, 9.0, with_next=True),
        picture(pole([mark for mark in marks if mark.at_in or tail], tail + head, width)),
    ]


def _start_words(carrier: str) -> str:
    if carrier.startswith("P"):
        return "Running measures along the plate, from its end toward the start of the wall."
    if carrier.startswith(("H", "V")):
        return "Along the top edge, from the plumb line over the outside corner of the walls."
    return "Along the top edge, from the foot end's long point."


def _index(
    rows: Sequence[PieceRow], sheets: dict[str, int], templates: dict[str, tuple[int, ...]]
) -> CardTable:
    lines = [
        (
            row.mark,
            row.names,
            str(sheets.get(row.mark, 88)),
            ", ".join(str(page) for page in templates.get(row.mark, (88, 88, 88, 88))) or "-",
        )
        for row in rows
    ]
    return CardTable("Pages", "Where each piece's sheet and templates are.", INDEX_HEAD, lines)


def _short(text: str) -> str:
    return text if len(text) <= 90 else f"{text[:86]} ..."
