"""Options that a command cannot use in what it is asked to do are refused, not passed over.

A command that does several things takes the options of each. One that is given for another of
them would change nothing, and whoever gave it would not be told.
"""

import typer

from layout.errors import LayoutError


class IdleOptionError(LayoutError):
    """An option or a word that what is asked for has no use for."""


def refuse_idle(context: typer.Context, asked: str, *used: str) -> None:
    """Raise IdleOptionError for what the command line gives besides the parameters `used`.

    `asked` is the command line that has no use for the rest. What a job's file gives stands in
    for options that are not given, and is no fault.
    """
    for one in context.command.params:
        source = context.get_parameter_source(one.name or "")
        if one.name not in used and source is not None and source.name == "COMMANDLINE":
            named = next((way for way in one.opts if way.startswith("--")), "")
            word = named or repr(str(context.params[one.name or ""]))
            raise IdleOptionError(f"`{asked}` has no use for {word}; leave it out")
