"""The options that put a question about a cut, the same for every command that takes them."""

from collections.abc import Iterable
from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from layout.answer.answer import Answer, answer
from layout.answer.question import Question, ask
from layout.answer.senses import rip_falls_past
from layout.cuts import Hand, find
from layout.errors import CutError, QuantityError
from layout.quantity import read_angle, read_length, read_pitch, write_fraction, write_length
from layout.stock import read_stock
from layout.tools.saw import SawKind, SawLimits
from lessons.say.units import System

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
    str, typer.Option("--pitch", help="Own roof: 8 in 12, 8/12, 8, 33.7deg, 667/1000.")
]
OtherPitchOption = Annotated[
    str | None, typer.Option("--other-pitch", help="The roof it meets, where it differs.")
]
CornerOption = Annotated[
    str | None,
    typer.Option(
        "--corner", help="Angle between the walls [90]; 135 for an octagon; 270 turns in."
    ),
]
SidesOption = Annotated[
    int | None, typer.Option("--sides", help="Number of equal sides in plan, in place of --corner.")
]
HandOption = Annotated[HandName, typer.Option("--hand", help="The side the cheek faces.")]
EndOption = Annotated[EndName | None, typer.Option("--end", help="The end, where both are cut.")]
StockOption = Annotated[
    str | None, typer.Option("--stock", help="2x6 by name, or a real size: 38mm x 140mm.")
]
RollOption = Annotated[
    str,
    typer.Option("--roll", help="Degrees the board is tipped, its top to the right face's side."),
]
ToleranceOption = Annotated[str, typer.Option("--tolerance", help="Widest gap that will do.")]
TiltStepOption = Annotated[
    str, typer.Option("--tilt-step", help="Division of the saw's tilt scale [degrees].")
]
MaxTiltOption = Annotated[str, typer.Option("--max-tilt", help="Most that the saw tilts, degrees.")]
BladeDepthOption = Annotated[
    str,
    typer.Option("--blade-depth", help="Saw blade below the shoe (a 7 1/4 in blade, from memory)."),
]
SawOption = Annotated[
    SawKind | None,
    typer.Option(
        "--saw", help="Your circular saw, the blade seen from behind it; both where not said."
    ),
]
JsonOption = Annotated[bool, typer.Option("--json", help="One JSON object in place of words.")]
CsvOption = Annotated[bool, typer.Option("--csv", help="CSV in place of a table.")]
UnitsOption = Annotated[System, typer.Option("--units", help="Inch or metric.")]
OutputOption = Annotated[
    Path | None, typer.Option("--output", "-o", help="A file to write: .pdf or .svg.")
]
PaperOption = Annotated[
    str, typer.Option("--paper", help="Letter, Legal, Tabloid, A4, A3, a roll, or WxH.")
]
TemplatesOption = Annotated[
    bool, typer.Option("--templates/--no-templates", help="Add the cut's full-size template.")
]
CatalogOption = Annotated[
    Path | None,
    typer.Option("--catalog", help="A folder of your own lessons, beside the course's."),
]


def report(paths: Iterable[Path]) -> None:
    """Say which files were written."""
    for path in paths:
        typer.echo(f"wrote {path}")


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
    """Read the options and put the question; every error is a LayoutError of one line."""
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
    if asked.joint.rip and (fall := rip_falls_past(answer(asked))) is not None:
        raise CutError(
            f"this bevel falls {write_length(fall)} on a board"
            f" {write_fraction(asked.stock.depth_in, 64)} in deep: it runs out of the board;"
            " give a deeper board or a thinner one"
        )
    return asked


def answered(
    asked: Question,
    tolerance: str,
    tilt_step: str,
    max_tilt: str,
    blade_depth: str = USUAL_DEPTH,
    saw: SawKind | None = None,
) -> Answer:
    """Answer the question within this tolerance and on a saw with these limits."""
    tolerance_in = read_length(tolerance)
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
    if tolerance_in <= 0:
        raise QuantityError(f"a tolerance of {tolerance} lets nothing pass; give one such as 1/32")
    return answer(
        asked,
        tolerance_in=tolerance_in,
        limits=SawLimits(tilt_deg=limit_deg, step_deg=step_deg, depth_in=depth_in, kind=saw),
    )


def corner_deg(corner: str | None, sides: int | None) -> float | None:
    """Read the corner from an angle or from a number of equal sides; None where neither is said."""
    if sides is None:
        return read_angle(corner) if corner else None
    if corner is not None:
        raise CutError("--corner and --sides say the same thing; give one of them")
    if not 3 <= sides <= 24:
        raise CutError(f"a shape of {sides} sides cannot be framed; give 3 to 24 sides")
    return 180.0 - 360.0 / sides


def _signed_angle(text: str) -> float:
    stripped = text.strip()
    angle = read_angle(stripped.removeprefix("-"))
    if angle >= 180:
        raise QuantityError(f"a roll of {text} deg turns the board right over; give less than 180")
    return -angle if stripped.startswith("-") else angle
