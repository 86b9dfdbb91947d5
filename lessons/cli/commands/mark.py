"""`squaresaw mark`: a cut's face mark, edge mark and saw settings, to be read aloud."""

import json

import typer

from layout import usual
from layout.errors import CutError
from lessons.cli.commands import options
from lessons.say.contract import contract
from lessons.say.words import read_aloud


def mark(
    cut: options.CutArgument,
    pitch: options.PitchOption = usual.PITCH,
    other_pitch: options.OtherPitchOption = None,
    corner: options.CornerOption = None,
    sides: options.SidesOption = None,
    hand: options.HandOption = options.HandName.left,
    end: options.EndOption = None,
    stock: options.StockOption = None,
    roll: options.RollOption = "0",
    tolerance: options.ToleranceOption = usual.TOLERANCE,
    tilt_step: options.TiltStepOption = usual.TILT_STEP,
    max_tilt: options.MaxTiltOption = options.USUAL_TILT,
    blade_depth: options.BladeDepthOption = options.USUAL_DEPTH,
    saw: options.SawOption = None,
    cut_as: options.CutAsOption = None,
    as_json: options.JsonOption = False,
) -> None:
    """Marks and saw settings for one cut."""
    if cut_as is not None and not options.is_stick(cut):
        raise CutError(f"--cut-as is asked of a stick's end, such as J6:head; read takes {cut}")
    if options.is_stick(cut):
        if cut_as is not None:
            asked = options.question(cut, pitch, None, None, None, hand, end, None)
            answer = options.answered(asked, tolerance, tilt_step, max_tilt, blade_depth, saw)
            typer.echo(options.cut_already(answer, cut_as))
            return
        told = [
            options.answered(one, tolerance, tilt_step, max_tilt, blade_depth, saw)
            for one in options.ends_of(cut, end)
        ]
        if as_json:
            found = [contract(one) for one in told]
            typer.echo(json.dumps(found[0] if len(found) == 1 else found, indent=1))
        else:
            typer.echo("\n\n".join(read_aloud(one) for one in told))
        return
    asked = options.question(cut, pitch, other_pitch, corner, sides, hand, end, stock, roll)
    answer = options.answered(asked, tolerance, tilt_step, max_tilt, blade_depth, saw)
    typer.echo(json.dumps(contract(answer), indent=1) if as_json else read_aloud(answer))
