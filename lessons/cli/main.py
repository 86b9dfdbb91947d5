"""The command line: every command parses, makes one call, and prints.

Whatever goes wrong with what the user gave comes out as one line on standard error and exit
code 2; a traceback is a fault of the program.
"""

import contextlib
import gc
import importlib
import os
import re
import sys
from collections.abc import Sequence

import typer

from layout.errors import LayoutError
from lessons.cli import job_option, replacing
from lessons.cli.empty_values import refuse_empty
from lessons.cli.examples import examples_of
from lessons.cli.shared_options import spread
from lessons.cli.usage_words import usage_words

BAD_INPUT = 2
STOPPED = 130
"""By the interrupt key, as shells say it."""
STOPPED_WORDS = "stopped; no file was left half written"
LONGEST_ERROR = 300
"""Letters of an error line; what was given wrong is cut, what would be right is not."""
LONGEST_QUOTE = 60
COMMANDS = (
    "mark",
    "template",
    "picture",
    "cuts",
    "settle",
    "read",
    "lesson",
    "book",
    "bench",
    "live",
    "drill",
    "worksheet",
    "class",
    "yard-check",
    "check",
    "table",
    "length",
    "jacks",
    "roof",
    "job",
    "packet",
)
"""Every command; each lives in the module of `lessons.cli.commands` that bears its name."""
MODULES = {"class": "class_roll"}
"""Commands whose name is a word of Python's own, and the module in which each lives."""


def commands(names: Sequence[str]) -> typer.Typer:
    """The command line with these commands alone.

    A command's module is imported only when it is run: `squaresaw mark` should answer at once,
    and not wait for what only drawing needs.
    """
    app = typer.Typer(
        name="squaresaw",
        help="Lay out compound cuts by hand and by saw, and see that both cut one plane.",
        add_completion=len(names) > 1,
        rich_markup_mode=None,
        pretty_exceptions_enable=False,
        context_settings={"help_option_names": ["-h", "--help"]},
    )
    app.callback()(_group)
    for name in names:
        function = MODULES.get(name, name.replace("-", "_"))
        module = importlib.import_module(f"lessons.cli.commands.{function}")
        command = spread(getattr(module, function))
        command = replacing.with_file(command, getattr(module, "SUBJECT", ""))
        asked = command if name == "job" else job_option.with_job(command)
        app.command(name, epilog=examples_of(name))(asked)
    return app


def _say_version(asked: bool) -> None:
    if asked:
        from lessons.say.version import version

        typer.echo(f"squaresaw {version()}")
        raise typer.Exit


def _group(
    version: bool = typer.Option(
        False, "--version", help="Print the version.", callback=_say_version, is_eager=True
    ),
) -> None:
    """Lay out compound cuts by hand and by saw, and see that both cut one plane."""


def main(arguments: list[str] | None = None) -> None:
    """Run one command and end the process with its exit code."""
    code = run(sys.argv[1:] if arguments is None else arguments)
    # The end frees all, and need not look for cycles first.
    gc.freeze()
    sys.exit(code)


def run(arguments: list[str]) -> int:
    """Run one command; returns the exit code, 0 for done, 2 for bad input, 130 for stopped."""
    _open_closed_streams()
    try:
        code = _run(arguments)
        sys.stdout.flush()
    except BrokenPipeError:
        # The reader has gone (a pager, `head`): no error, but Python must not try to flush.
        _give_up_stdout()
        return 0
    except OSError as error:
        _give_up_stdout()
        return _fail(f"cannot write to standard output: {error.strerror or error}")
    return code


def _run(arguments: list[str]) -> int:
    if not arguments:
        arguments = ["--help"]
    elif not arguments[0].startswith("-") and arguments[0] not in COMMANDS:
        return _fail(_unknown_command(arguments[0]))
    if any("\0" in word for word in arguments):  # no file's name may hold it, and no shell gives it
        return _fail("a word holds the character U+0000; leave it out")
    app = commands([arguments[0]] if arguments[0] in COMMANDS else COMMANDS)
    if not gc.isenabled():
        # The collector rested while the program started, and need not look through that now. A
        # drawing is many small things that live long: to look through them seldom is enough.
        gc.freeze()
        gc.set_threshold(20_000)
        gc.enable()
    try:
        refuse_empty(app, arguments)
        defaults = job_option.read(arguments)
        done = app(
            args=arguments, standalone_mode=False, prog_name="squaresaw", default_map=defaults
        )
    except LayoutError as error:
        return _fail(str(error))
    except typer.TyperException as error:
        return _fail(usage_words(error.format_message()))
    except typer.Abort:
        return _fail(STOPPED_WORDS)
    except KeyboardInterrupt:
        done = STOPPED
    if done == STOPPED:
        _fail(STOPPED_WORDS)
    return done if isinstance(done, int) else 0


def _open_closed_streams() -> None:
    """Put the null device where a stream was closed by whoever started the program."""
    for name, mode in (("stdin", "r"), ("stdout", "w"), ("stderr", "w")):
        if getattr(sys, name) is None:
            setattr(sys, name, open(os.devnull, mode))  # noqa: SIM115


def _give_up_stdout() -> None:
    """Let nothing more be written: what is still held back would fail again at exit."""
    with contextlib.suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _fail(message: str) -> int:
    print(f"squaresaw: {one_line(message)}", file=sys.stderr)
    return BAD_INPUT


def one_line(message: str) -> str:
    """A message as one line of at most 300 letters that can do nothing to a terminal.

    >>> one_line("cannot read '\\x1b[2J': no such file\\nat all")
    "cannot read '\\\\x1b[2J': no such file at all"
    """
    line = " ".join(message.split())
    if not line.isprintable():
        line = "".join(c if c.isprintable() else c.encode("unicode_escape").decode() for c in line)
    line = re.sub(
        rf"(?<!\w)(['\"])((?:(?!\1).){{{LONGEST_QUOTE},}})\1",
        lambda quoted: f"{quoted[1]}{quoted[2][: LONGEST_QUOTE - 20]}…{quoted[1]}",
        line,
    )
    room = LONGEST_ERROR - len("squaresaw: ")
    return line if len(line) <= room else line[: room - 1].rsplit(" ", 1)[0] + "…"


def _unknown_command(name: str) -> str:
    import difflib  # Only a wrong name needs it, and every start would pay for it.

    near = difflib.get_close_matches(name, COMMANDS, n=1)
    offer = f"did you mean {near[0]!r}?" if near else f"the commands are {', '.join(COMMANDS)}"
    return f"there is no command {name!r}; {offer}"
