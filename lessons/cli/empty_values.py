"""An option whose value is empty, as where a variable of the shell holds nothing.

No option means anything by it, and to take the default without a word would cut another board
than the one that was meant.
"""

from collections.abc import Sequence

import typer

from layout.errors import QuantityError


def refuse_empty(app: typer.Typer, arguments: Sequence[str]) -> None:
    """Raise QuantityError for the first option of a command that is given an empty value.

    `arguments` begin with the command's name.
    """
    if all(word.strip() and not word.endswith("=") for word in arguments):
        return
    group = typer.main.get_command(app)
    command = getattr(group, "commands", {}).get(arguments[0])
    if command is None:
        return
    named = {
        name: option
        for option in command.params
        if option.param_type_name == "option" and not option.is_flag
        for name in option.opts
    }
    words = iter(arguments[1:])
    for word in words:
        if word == "--":
            return
        name, equals, value = word.partition("=")
        if name not in named:
            continue
        if not (value if equals else next(words, "none")).strip():
            option = named[name]
            kind = option.metavar or "value"
            without = "" if option.required else f", or leave {name} out"
            raise QuantityError(
                f"{name} is given an empty value; write its {kind} after it{without}"
            )
