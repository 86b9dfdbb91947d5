"""The lists of a framed roof: their rows for data, and all of them as the terminal prints them."""

from layout import usual
from layout.answer.wording import pitch_words
from layout.errors import FrameError
from layout.framing.buying import FASCIA_PARTS, NOTHING_LEFT, boards_to_buy
from layout.framing.cutlist import (
    cut_rows,
    piece_rows,
    stick_rows,
)
from layout.framing.facts import line_rows, side_rows, tops_over_plates
from layout.framing.foot_inside import pieces_inside
from layout.framing.roof import TrainingRoof
from layout.framing.roof_plan import RoofPlan
from layout.framing.summary import rakes_left_open
from layout.framing.trim import trim_rows, usual_courses
from layout.framing.trim_words import COURSES, Say, course_table, trim_means, trim_table
from layout.quantity import (
    write_feet,
    write_long,
)
from layout.tools.saw import SawLimits
from lessons.cli.framing_lists import (
    CODE_HEAD,
    board_table,
    comparison_table,
    cut_table,
    millimeters,
    piece_table,
    side_table,
)
from lessons.cli.tabular import text_table
from lessons.say.units import System

LISTS = ("pieces", "sticks", "cuts", "boards", "sides", "lines", "trim", "courses")


def list_rows(framed: TrainingRoof, which: str, units: System = System.INCH) -> tuple[object, ...]:
    """The rows of one list by its name, boards of the lengths that are sold in these units.

    Raises FrameError for a name that is none.
    """
    match which:
        case "pieces":
            return piece_rows(framed)
        case "sticks":
            return stick_rows(framed)
        case "cuts":
            return tuple(row for each in framed.sticks for row in cut_rows(each))
        case "boards":
            return boards_to_buy(framed, metric=units.is_metric)
        case "sides":
            return side_rows(framed)
        case "lines":
            return line_rows(framed.surface, framed.plan.mouth.height_above_plate_in)
        case "trim":
            return trim_rows(framed)
        case "courses":
            return usual_courses(framed)
        case _:
            raise FrameError(f"there is no list {which!r}; give one of {', '.join(LISTS)}")


DATUM = (
    "Lengths run along the top edge from the plumb line over the outside of the wall; tails extra."
)
STANDING = (
    "Heights are plumb at the outside of the wall, over the plate's top; overhangs are level."
)
NO_COMMAND = (
    "Where no command stands (-), no sheet of one cut shows this cut as it stands in this roof:"
    " lay it out by its row, or by its stick's sheet in the packet."
)


def lists_in_words(framed: TrainingRoof, title: str, units: System, limits: SawLimits) -> str:
    """Every list as a table under its heading; the saw's limits say how each cut is sawn."""
    say = millimeters if units.is_metric else write_feet
    cuts_head, cuts = cut_table(framed.sticks, limits, metric=units.is_metric)
    tops = ", ".join(f"{top.name} {say(top.top_in)}" for top in tops_over_plates(framed))
    parts = [
        title,
        *(["All lengths in millimeters."] if units.is_metric else []),
        *framed.surface.outline.said,
        DATUM,
        "",
        text_table(*piece_table(piece_rows(framed), say), left=True),
        *pieces_inside(framed, metric=units.is_metric),
        "",
        "SIDES",
        STANDING,
        text_table(*side_table(side_rows(framed), say, metric=units.is_metric), left=True),
        *([f"Tops over the eaves' plates: {tops}"] if tops else []),
        "",
        "CUTS",
        text_table(cuts_head, cuts, left=True),
        "",
        *([NO_COMMAND, ""] if any(row[-1] == "-" for row in cuts) else []),
        "BOARDS",
        f"{NOTHING_LEFT} {FASCIA_PARTS}",
        text_table(*board_table(boards_to_buy(framed, metric=units.is_metric), say), left=True),
        "",
        "FASCIAS AND RAKES",
        trim_means(framed, say),
        text_table(*trim_table(trim_rows(framed), say), left=True),
        *(f"LEFT TO THE APPROVED DRAWINGS: {line}" for line in rakes_left_open(framed)),
        "",
        "ROOF BOARDS",
        f"Roof boards {usual.ROOF_BOARD}. {COURSES}",
        text_table(*course_table(usual_courses(framed), say), left=True),
        "",
        CODE_HEAD,
        text_table(*comparison_table(framed.comparisons, *in_units(units)), left=True),
        *(f"LEFT OUT: {line}" for line in framed.left_out),
    ]
    return "\n".join(parts)


def in_units(units: System) -> tuple[Say, ...]:
    """How a table writes lengths, where that is not its own way: in millimeters."""
    return (millimeters,) if units.is_metric else ()


def roof_words(plan: RoofPlan, units: System) -> str:
    """The shape's measures and every pitch, the sides' by name where they differ."""
    metric, wing = units.is_metric, plan.wing

    def say(value_in: float) -> str:
        return write_long(value_in, metric=metric)

    shape = f"{say(plan.length_in)} x {say(plan.width_in)}"
    if plan.walls is not None:
        shape = f"over {len(plan.walls.walls)} walls"
    if wing is not None:
        shape += f" with a wing {say(wing.length_in)} x {say(wing.width_in)}"
    by_pitch: dict[str, list[str]] = {}
    for wall in plan.outline.walls:
        if wall.pitch is not None:
            by_pitch.setdefault(pitch_words(wall.pitch, metric=metric), []).append(wall.name)
    if len(by_pitch) == 1:
        return f"{shape}, {next(iter(by_pitch))}"
    return shape + "".join(f", {', '.join(names)} {said}" for said, names in by_pitch.items())
