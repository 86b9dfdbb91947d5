"""The command line: every command parses, makes one call, and prints.

Whatever goes wrong with what the user gave comes out as one line on standard error and exit
code 2; a traceback is a fault of the program.
"""

import difflib
import importlib
import os
import sys
from collections.abc import Iterable

import typer

from layout.errors import LayoutError

BAD_INPUT = 2
COMMANDS = (
    "mark",
    "template",
    "cuts",
    "settle",
    "lesson",
    "book",
    "bench",
    "drill",
    "worksheet",
    "yard-check",
    "check",
    "table",
    "length",
    "jacks",
    "roof",
)
"""Every command; each lives in the module of `lessons.cli.commands` that bears its name."""


def commands(names: Iterable[str]) -> typer.Typer:
    """The command line with these commands alone.

    A command's module is imported only when it is run: `squaresaw mark` should answer at once,
    and not wait for what only drawing needs.
    """
    app = typer.Typer(
        name="squaresaw",
        help="Lay out compound cuts by hand and by saw, and see that both cut one plane.",
        add_completion=False,
        rich_markup_mode=None,
        pretty_exceptions_enable=False,
        context_settings={"help_option_names": ["-h", "--help"]},
    )
    app.callback()(_group)
    for name in names:
        function = name.replace("-", "_")
        module = importlib.import_module(f"lessons.cli.commands.{function}")
        app.command(name)(getattr(module, function))
    return app


def _group() -> None:
    """Lay out compound cuts by hand and by saw, and see that both cut one plane."""


def main(arguments: list[str] | None = None) -> None:
    """Run one command and end the process with its exit code."""
    sys.exit(run(sys.argv[1:] if arguments is None else arguments))


def run(arguments: list[str]) -> int:
    """Run one command; returns the exit code, 0 for done, 2 for bad input."""
    if not arguments:
        arguments = ["--help"]
    elif not arguments[0].startswith("-") and arguments[0] not in COMMANDS:
        return _fail(_unknown_command(arguments[0]))
    app = commands([arguments[0]] if arguments[0] in COMMANDS else COMMANDS)
    try:
        done = app(args=arguments, standalone_mode=False, prog_name="squaresaw")
    except LayoutError as error:
        return _fail(str(error))
    except typer.TyperException as error:
        return _fail(error.format_message())
    except (typer.Abort, KeyboardInterrupt):
        return _fail("stopped; nothing was written")
    except BrokenPipeError:
        # The reader has gone (a pager, `head`): no error, but Python must not try to flush.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    return done if isinstance(done, int) else 0


def _fail(message: str) -> int:
    one_line = " ".join(message.split())
    print(f"squaresaw: {one_line}", file=sys.stderr)
    return BAD_INPUT


def _unknown_command(name: str) -> str:
    near = difflib.get_close_matches(name, COMMANDS, n=1)
    offer = f"did you mean {near[0]!r}?" if near else f"the commands are {', '.join(COMMANDS)}"
    return f"there is no command {name!r}; {offer}"
