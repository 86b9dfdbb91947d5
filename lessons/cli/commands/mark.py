"""`squaresaw mark`: a cut's face mark, edge mark and saw settings, to be read aloud."""

import typer

from layout.errors import CutError
from lessons.cli.commands import options
from lessons.cli.commands.cut_options import AnswerOptions, CutOptions
from lessons.say.words import read_aloud


def mark(
    cut: options.CutArgument,
    about: CutOptions,
    within: AnswerOptions,
    cut_as: options.CutAsOption = None,
    as_json: options.JsonOption = False,
) -> None:
    """Marks and saw settings for one cut."""
    if cut_as is not None and not options.is_stick(cut):
        raise CutError(f"--cut-as is asked of a stick's end, such as J6:head; read takes {cut}")
    if cut_as is not None:
        typer.echo(options.cut_already(within.answer(about.question(cut)), cut_as))
        return
    told = [within.answer(one) for one in about.questions(cut)]
    if as_json:
        import json  # only this needs them, and words are asked for most

        from lessons.say.contract import contract

        found = [contract(one) for one in told]
        typer.echo(json.dumps(found[0] if len(found) == 1 else found, indent=1))
    else:
        typer.echo("\n\n".join(read_aloud(one) for one in told))
