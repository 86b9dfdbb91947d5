"""A framed roof's and a jack set's lists in words: cells for a text table or a printed card."""

from collections.abc import Sequence

from layout.answer.sense_words import way_name
from layout.answer.wording import on_run, pitch_words
from layout.framing.cutlist import BoardRow, CutRow, PieceRow, cut_row
from layout.framing.facts import LineRow, SideRow
from layout.framing.jackset import JackRow
from layout.framing.name_runs import in_runs
from layout.framing.sawn import sawn
from layout.framing.stick import Stick
from layout.framing.trim_words import PrintedTable, Say
from layout.length.code_sections import Comparison
from layout.quantity import (
    MM_PER_INCH,
    nearest,
    read_pitch,
    write_degrees,
    write_feet,
    write_fraction,
    write_sixteenths,
)
from layout.tools.saw import SawLimits
from lessons.say.asked_words import asked_words

CODE_HEAD = (
    "COMPARE WITH YOUR CODE (numbers only; sections of the model residential code, from memory:\n"
    "the code adopted where you build decides)"
)


def millimeters(value_in: float) -> str:
    """A length in whole millimeters."""
    return f"{nearest(value_in * MM_PER_INCH, 1):g}"


def piece_table(rows: Sequence[PieceRow], say: Say = write_feet) -> PrintedTable:
    """The cut list: what to cut, how many, how long, and every stick it is for."""
    head = ["piece", "no.", "stick", "stock", "hand", "pair", "long point", "short point", "tail"]
    head += ["board", "head", "foot", "sticks"]
    lines = [
        [
            row.mark,
            str(row.count),
            row.role,
            row.stock.split(" (")[0],
            row.hand or "-",
            row.pair or "-",
            say(row.lengths.long_in),
            say(row.lengths.short_in),
            say(row.lengths.tail_in) if row.lengths.tail_in else "-",
            say(row.lengths.blank_in),
            row.cuts.head_cuts or "-",
            " + ".join(part for part in (row.cuts.foot_cuts, row.cuts.rips) if part) or "-",
            in_runs(row.names.split(", ")),
        ]
        for row in rows
    ]
    return head, lines


def cut_table(
    sticks: Sequence[Stick], limits: SawLimits | None = None, *, metric: bool = False
) -> PrintedTable:
    """Every different cut of these sticks, each cheek and bevel for itself, with its marks, how a
    saw with these limits reaches it, and the words that print it whole where the catalogue has
    it as it stands on the stick. In `metric` numbers on the square are millimeters on 300."""
    found: dict[tuple[str, ...], list[str]] = {}
    by_saw: dict[tuple[str, ...], str] = {}
    by_name = {stick.name: stick for stick in sticks}
    for stick in sticks:
        told: dict[int, str] = {}
        for plane in stick.planes:
            row = cut_row(stick, plane)
            question = stick.question(plane)
            true = question is not None and stick.drawn_true(question, plane)
            command = asked_words(question) if question and true else "-"
            key = (row.cut, row.place, row.hand or "-", _marks(row, metric), command)
            if key not in found:
                told = told or {id(p): way_name(one) for p, one in sawn(stick, by_name, limits)}
                by_saw[key] = told.get(id(plane), "-")
            names = found.setdefault(key, [])
            if stick.name not in names:
                names.append(stick.name)
    head = ["cut", "at", "faces", "marks", "by saw", "on"]
    head += ["squaresaw mark, or squaresaw template ... -o FILE.pdf"]
    return head, [[*key[:4], by_saw[key], some(names), key[4]] for key, names in found.items()]


def _marks(row: CutRow, metric: bool) -> str:
    marks = row.marks
    tilt = write_degrees(marks.tilt_deg)
    if row.place == "rip":
        return f"rip, tilt {tilt}"
    number = marks.edge_number
    edge = "edge square"
    if number is not None:
        said = on_run(number, metric=True) if metric else f"{write_sixteenths(number)} on 12"
        edge = f"edge {said}"
    return f"face {write_degrees(marks.face_mark_deg)}, {edge}, tilt {tilt}"


def board_table(rows: Sequence[BoardRow], say: Say = write_feet) -> PrintedTable:
    """The boards to buy, what is cut from each, what is left, and what to know when buying."""
    noted = any(row.note for row in rows)
    head = ["board", "length", "left", "pieces", *(["note"] if noted else [])]
    lines = [
        [
            row.stock.split(" (")[0],
            say(row.length_in),
            say(row.left_in),
            row.pieces,
            *([row.note or "-"] if noted else []),
        ]
        for row in rows
    ]
    return head, lines


def side_table(
    rows: Sequence[SideRow], say: Say = write_feet, *, metric: bool = False
) -> PrintedTable:
    """Every side's pitch, overhang, and the heights at its building line."""
    head = ["side", "pitch", "slope", "overhang", "height above plate", "seat", "heel"]
    lines = [
        [
            row.side,
            pitch_words(read_pitch(row.pitch), metric=metric),
            write_degrees(row.slope_deg),
            say(row.overhang_in),
            say(row.height_above_plate_in),
            say(row.seat_in),
            say(row.heel_in),
        ]
        for row in rows
    ]
    return head, lines


def line_table(rows: Sequence[LineRow], say: Say = write_feet) -> PrintedTable:
    """Hips, valleys, ridges and edges: their lengths, slopes and angles."""
    head = ["line", "kind", "between", "corner", "level run", "length", "slope", "plan angle"]
    head += ["upper end over the plates"]
    lines = [
        [
            row.name or "-",
            row.kind,
            row.sides,
            write_degrees(row.corner_deg),
            say(row.run_in),
            say(row.length_in),
            write_degrees(row.slope_deg),
            write_degrees(row.plan_angle_deg),
            say(row.top_in),
        ]
        for row in rows
    ]
    return head, lines


def comparison_table(rows: Sequence[Comparison], say: Say = write_fraction) -> PrintedTable:
    """Numbers beside the code's sections: never a pass or a fail."""
    unit = "mm" if say is millimeters else "in"
    head = ["here", unit, "compare with", "in the edition adopted locally", unit]
    lines = [[row.what, say(row.here_in), row.section, row.says, say(row.code_in)] for row in rows]
    return head, lines


def jack_table(rows: Sequence[JackRow], say: Say = write_feet) -> PrintedTable:
    """A set of jacks from the corner on."""
    head = ["jack", "hand", "pair", "from corner", "theoretical", "long point", "short point"]
    head += ["tail", "board"]
    lines = [
        [
            row.name,
            row.hand,
            row.pair or "-",
            say(row.position_in),
            say(row.lengths.theoretical_in),
            say(row.lengths.long_in),
            say(row.lengths.short_in),
            say(row.lengths.tail_in) if row.lengths.tail_in else "-",
            say(row.lengths.blank_in),
        ]
        for row in rows
    ]
    return head, lines


def some(names: Sequence[str], most: int = 4) -> str:
    """A few names, and how many more there are."""
    if len(names) <= most:
        return " ".join(names)
    return f"{' '.join(names[:most])} and {len(names) - most} more"
