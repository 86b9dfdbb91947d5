"""The options that put a question about a cut, the same for every command that takes them."""

import re
from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from layout import usual
from layout.answer.answer import Answer, answer
from layout.answer.question import Question, ask
from layout.answer.senses import check_rip
from layout.cuts import Hand, find
from layout.errors import CutError, QuantityError
from layout.quantity import read_angle, read_length, read_pitch
from layout.stock import read_stock
from layout.tools.saw import SawKind, SawLimits
from layout.tools.square import GRADUATION
from lessons.cli import job_option
from lessons.cli.board_order import say_order
from lessons.say.units import System

USUAL_TILT = usual.MAX_TILT
USUAL_DEPTH = "2 1/2"
"""Saw blade below the shoe, of a common 7 1/4 in blade (from memory)."""
SHALLOWEST_IN, DEEPEST_IN = 0.25, 8.0


class EndName(StrEnum):
    """The end of the stick that is cut."""

    head = "head"
    foot = "foot"


class HandName(StrEnum):
    """The side the cheek faces for someone at the foot who looks toward the head."""

    left = "left"
    right = "right"


CutArgument = Annotated[
    str, typer.Argument(metavar="CUT", help="A cut; `squaresaw cuts` lists them.")
]
PitchOption = Annotated[
    str, typer.Option("--pitch", metavar="PITCH", help="Roof pitch: 8 in 12, 8/12, 8, 33.7deg.")
]
OtherPitchOption = Annotated[
    str | None,
    typer.Option(
        "--other-pitch", metavar="PITCH", help="Pitch of the other roof. [default: the same]"
    ),
]
CornerOption = Annotated[
    str | None,
    typer.Option(
        "--corner",
        metavar="ANGLE",
        help="Inside angle between the walls, degrees: 135 an octagon, 270 an inside corner."
        " [default: square]",
    ),
]
SidesOption = Annotated[
    int | None,
    typer.Option("--sides", metavar="NUMBER", help="Equal sides in plan, in place of --corner."),
]
HandOption = Annotated[HandName, typer.Option("--hand", help="The side the cheek faces.")]
EndOption = Annotated[
    EndName | None, typer.Option("--end", help="Which end, for cuts made at both ends.")
]
StockOption = Annotated[
    str | None,
    typer.Option(
        "--stock",
        metavar="BOARD",
        callback=say_order,
        help="2x6 by name, or a real size: 38mm x 140mm. [default: the cut's usual board]",
    ),
]
RollOption = Annotated[
    str,
    typer.Option(
        "--roll",
        metavar="ANGLE",
        help="Degrees the board is rolled on its length, top edge toward the right face.",
    ),
]
ToleranceOption = Annotated[
    str, typer.Option("--tolerance", metavar="LENGTH", help="Largest gap you accept.")
]
TiltStepOption = Annotated[
    str,
    typer.Option(
        "--tilt-step", metavar="ANGLE", help="Smallest step on the saw's tilt scale, degrees."
    ),
]
MaxTiltOption = Annotated[
    str, typer.Option("--max-tilt", metavar="ANGLE", help="Most the saw tilts, degrees.")
]
BladeDepthOption = Annotated[
    str,
    typer.Option(
        "--blade-depth",
        metavar="LENGTH",
        help="Saw blade below the shoe at no tilt (a 7 1/4 in blade, from memory).",
    ),
]
SawOption = Annotated[
    SawKind | None,
    typer.Option(
        "--saw", help="Your circular saw, the blade seen from behind it; both where not said."
    ),
]
CutAsOption = Annotated[
    str | None,
    typer.Option(
        "--cut-as",
        metavar="SAID",
        help="A stick's end cut already: 'tilt 40', 'edge 8 3/8 on 12', 'gap 3/16'.",
    ),
]
SpacingOption = Annotated[
    str, typer.Option("--spacing", metavar="LENGTH", help="On center, along the eaves.")
]
OverhangOption = Annotated[
    str, typer.Option("--overhang", metavar="LENGTH", help="To the outside of the fascia.")
]
FasciaOption = Annotated[
    str, typer.Option("--fascia", metavar="LENGTH", help="Thickness of the fascia.")
]
RidgeOption = Annotated[
    str, typer.Option("--ridge", metavar="BOARD", callback=say_order, help="Stock of the ridge.")
]
JsonOption = Annotated[bool, typer.Option("--json", help="Print JSON.")]
CsvOption = Annotated[bool, typer.Option("--csv", help="Print CSV.")]
UnitsOption = Annotated[System, typer.Option("--units", help="Inch or metric.")]
OutputOption = Annotated[
    Path | None,
    typer.Option("--output", "-o", metavar="FILE", help="A file to write: .pdf or .svg."),
]
PaperOption = Annotated[
    str,
    typer.Option(
        "--paper", metavar="PAPER", help="Letter, Legal, Tabloid, A4, A3, roll-24, roll-36, or WxH."
    ),
]
TemplatesOption = Annotated[
    bool, typer.Option("--templates/--no-templates", help="Add the cut's full-size template.")
]
CatalogOption = Annotated[
    Path | None,
    typer.Option("--catalog", metavar="FOLDER", help="Your own lessons, beside the course's."),
]


def question(
    cut: str,
    pitch: str,
    other_pitch: str | None,
    corner: str | None,
    sides: int | None,
    hand: HandName,
    end: EndName | None,
    stock: str | None,
    roll: str = "0",
) -> Question:
    """Read the options and put the question; every error is a LayoutError of one line.

    The name of a stick's end (H1:head) stands wherever a cut's name may, with its job.
    """
    if is_stick(cut):
        asked_ends = ends_of(cut, end)
        if len(asked_ends) > 1:
            names = ", ".join(one.entry.name for one in asked_ends)
            raise CutError(f"{cut} has several ends; ask for one of {names}")
        return asked_ends[0]
    find(cut)
    asked = ask(
        cut,
        pitch=read_pitch(pitch),
        other_pitch=read_pitch(other_pitch) if other_pitch else None,
        corner_deg=corner_deg(corner, sides),
        hand=Hand(hand.value),
        stock=read_stock(stock) if stock else None,
        end=end.value if end else None,
        roll_deg=_signed_angle(roll),
    )
    if asked.joint.rip:
        check_rip(answer(asked))
    return asked


def is_stick(name: str) -> bool:
    """Whether a name is a stick's or a piece's: capitals, then a number, or a dash and letters."""
    return re.fullmatch(r"[A-Za-z]{1,3}(\d+|-[A-Za-z]{1,2})(:.*)?", name.strip()) is not None


def cut_already(true_answer: Answer, said: str) -> str:
    """What an end of a stick of this run's job was cut as, and what becomes of the stick."""
    from layout.job.job_roof import find_stick, framed
    from lessons.cli.cut_as import cut_as, told

    roof = framed(job_option.needed())
    stick, _ = find_stick(roof, true_answer.question.entry.name.partition(":")[0])
    return told(roof, stick, cut_as(true_answer, said))


def ends_of(name: str, end: EndName | None = None) -> tuple[Question, ...]:
    """The ends that a stick's name asks for, in the job of this run; `end` picks one."""
    from layout.job.job_roof import find_ends, framed

    if end is not None and ":" not in name:
        name = f"{name}:{end.value}"
    return find_ends(framed(job_option.needed()), name)


def answered(
    asked: Question,
    tolerance: str,
    tilt_step: str,
    max_tilt: str,
    blade_depth: str = USUAL_DEPTH,
    saw: SawKind | None = None,
    square_parts: int = GRADUATION,
) -> Answer:
    """Answer the question within this tolerance and on a saw with these limits.

    `square_parts` says which square is read: in sixteenths, or in millimeters.
    """
    tolerance_in = read_tolerance(tolerance)
    limits = saw_limits(max_tilt, blade_depth, saw, tilt_step)
    return answer(asked, tolerance_in=tolerance_in, limits=limits, square_parts=square_parts)


def read_tolerance(text: str) -> float:
    """Read the widest gap that will do [inches]; QuantityError for one that lets nothing pass."""
    tolerance_in = read_length(text)
    if tolerance_in <= 0:
        raise QuantityError(f"a tolerance of {text} lets nothing pass; give one such as 1/32")
    return tolerance_in


def saw_limits(
    max_tilt: str = USUAL_TILT,
    blade_depth: str = USUAL_DEPTH,
    saw: SawKind | None = None,
    tilt_step: str = "1/2",
) -> SawLimits:
    """Read what the user's own saw can be set to; every error is a LayoutError of one line."""
    step_deg, limit_deg = read_angle(tilt_step), read_angle(max_tilt)
    if not 0 < step_deg <= 5:
        raise QuantityError(f"a tilt scale in steps of {tilt_step} cannot be set; give 1/4 to 5")
    if not 0 < limit_deg < 90:
        raise QuantityError(f"no saw leans to {max_tilt} degrees; give a limit such as 45 or 50")
    depth_in = read_length(blade_depth)
    if not SHALLOWEST_IN <= depth_in <= DEEPEST_IN:
        raise QuantityError(
            f"a saw blade of {blade_depth} below the shoe is no circular saw's; give one from"
            f" {SHALLOWEST_IN:g} to {DEEPEST_IN:g} in, such as 2 1/2"
        )
    return SawLimits(tilt_deg=limit_deg, step_deg=step_deg, depth_in=depth_in, kind=saw)


def corner_deg(corner: str | None, sides: int | None) -> float | None:
    """Read the corner from an angle or from a number of equal sides; None where neither is said."""
    if sides is None:
        return _inside_angle(corner) if corner else None
    if corner is not None:
        raise CutError("--corner and --sides say the same thing; give one of them")
    if not 3 <= sides <= 24:
        raise CutError(f"a shape of {sides} sides cannot be framed; give 3 to 24 sides")
    return 180.0 - 360.0 / sides


def _inside_angle(text: str) -> float:
    try:
        return read_angle(text)
    except QuantityError:
        raise CutError(
            f"{text!r} is no corner; give the inside angle between the walls in degrees: 90 square,"
            " 135 an octagon, 270 an inside corner"
        ) from None


def _signed_angle(text: str) -> float:
    stripped = text.strip()
    angle = read_angle(stripped.removeprefix("-"))
    if angle >= 180:
        raise QuantityError(f"a roll of {text} deg turns the board right over; give less than 180")
    return -angle if stripped.startswith("-") else angle
