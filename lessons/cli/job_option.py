"""`--job FILE` on every command: the job's values stand in for options that are not given.

The job is read before the command line is parsed, and becomes the defaults of the command's own
options; an option on the command line wins. `current` is the job of this run, for names of
sticks where a cut's name is asked for.
"""

import functools
import inspect
from collections.abc import Callable, Sequence
from contextvars import ContextVar
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from layout import usual
from layout.errors import CutError
from layout.quantity import read_building_length, read_length, read_pitch, two_sides

if TYPE_CHECKING:
    from layout.job.job import Job

JobOption = Annotated[
    Path | None,
    typer.Option("--job", metavar="FILE", help="A job's file; options given here win over it."),
]
_current: ContextVar["Job | None"] = ContextVar("job", default=None)
_path: ContextVar[str] = ContextVar("job's file", default="")

NAMES: dict[str, dict[str, str]] = {
    "roof": {
        name.replace("-", "_"): name
        for name in (
            "size", "wing", "pitch", "end-pitch", "ends", "wing-end", "spacing", "first",
            "overhang", "rake-overhang", "fascia", "seat", "rafter", "hip", "valley", "ridge",
            "plate", "paper", "units", "wing-at", "wing-pitch", "equal", "hip-way", "hip-head",
            "high-wall", "max-tilt", "blade-depth",
        )
    }
    | {"saw": "kind"},
    "picture": {
        "size": "size", "pitch": "pitch", "other_pitch": "end-pitch", "paper": "paper",
        "units": "units", "max_tilt": "max-tilt", "blade_depth": "blade-depth", "saw": "kind",
    },
    "jacks": {
        "pitch": "pitch", "other_pitch": "end-pitch", "spacing": "spacing", "first": "first",
        "overhang": "overhang", "fascia": "fascia", "seat": "seat", "stock": "rafter",
        "hip": "hip", "ridge": "ridge", "units": "units",
    },
    "lesson": {"units": "units", "paper": "paper"},
    "length": {
        "pitch": "pitch", "other_pitch": "end-pitch", "overhang": "overhang", "fascia": "fascia",
        "seat": "seat", "rafter": "rafter", "ridge": "ridge", "units": "units",
    },
}  # fmt: skip
"""The options of a command that carry another name than the job's, or belong to it alone."""
CUT: dict[str, str] = {
    "pitch": "pitch", "other_pitch": "end-pitch", "tolerance": "tolerance",
    "tilt_step": "tilt-step", "max_tilt": "max-tilt", "blade_depth": "blade-depth",
    "saw": "kind", "paper": "paper", "printer": "printer", "units": "units",
}  # fmt: skip
"""The options of every other command."""


def current() -> "Job | None":
    """The job that this run was given, None where there is none."""
    return _current.get()


def path() -> str:
    """The file of this run's job, as the command line names it; empty where there is none."""
    return _path.get()


def needed() -> "Job":
    """The job that this run was given. Raises CutError where there is none."""
    job = _current.get()
    if job is None:
        raise CutError("a stick's name needs its job; give --job FILE.toml")
    return job


def with_job(command: Callable[..., Any]) -> Callable[..., Any]:
    """The command with the option `--job`, which is read before the command is called."""

    @functools.wraps(command)
    def called(*args: Any, job: Path | None = None, **given: Any) -> Any:
        return command(*args, **given)

    option = inspect.Parameter(
        "job", inspect.Parameter.KEYWORD_ONLY, default=None, annotation=JobOption
    )
    signature = inspect.signature(command, eval_str=True)
    parameters = [p for p in signature.parameters.values() if p.name != "job"]
    called.__signature__ = signature.replace(parameters=[*parameters, option])  # type: ignore[attr-defined]
    del called.__wrapped__
    called.__annotations__ = {p.name: p.annotation for p in (*parameters, option)}
    return called


def read(arguments: Sequence[str]) -> dict[str, dict[str, str]]:
    """Read the job that is named in the arguments, and the defaults that it gives the command.

    Empty where none is named; `current` then is None.
    """
    _current.set(None)
    _path.set("")
    file = _named(arguments)
    if file is None or not arguments or arguments[0] == "job":
        return {}
    from lessons.jobs.job_file import read_job

    job = read_job(Path(file))
    _current.set(job)
    _path.set(file)
    return {arguments[0]: _defaults(job, arguments)}


def _named(arguments: Sequence[str]) -> str | None:
    for at, argument in enumerate(arguments):
        if argument == "--":
            return None
        if argument.startswith("--job="):
            return argument.removeprefix("--job=")
        if argument == "--job" and at + 1 < len(arguments):
            return arguments[at + 1]
    return None


def _defaults(job: "Job", arguments: Sequence[str]) -> dict[str, str]:
    command = arguments[0]
    names = NAMES.get(command, CUT)
    found = {option: text for option, key in names.items() if (text := job.given(key)) is not None}
    if "other_pitch" in found and command not in NAMES and not _turns(arguments):
        del found["other_pitch"]
    if command in ("mark", "template", "settle"):
        stock = job.given(role(arguments[1] if len(arguments) > 1 else ""))
        if stock is not None:
            found["stock"] = stock
    if command == "roof" and job.walls:
        found["walls"] = "; ".join(
            f"{wall['length']}, {wall.get('turn', '90')},"
            f" {wall.get('pitch', job.said('pitch', '8 in 12')) if kind == 'eave' else kind}"
            for wall in job.walls
            for kind in [wall.get("kind", "eave")]
        )
    if command == "roof" and job.given("start") == "corner" and "first" not in found:
        found["first"] = job.said("spacing", usual.SPACING)
    sides = two_sides(job.said("size", "")) if not job.walls else None
    if command in ("length", "jacks") and sides is not None:
        half = read_building_length(sides[1]) / 2
        if command == "length":
            found["run"] = f"{half:.10g}in"
            kind = arguments[1] if len(arguments) > 1 else ""
            own = job.given({"common": "rafter", "hip": "hip", "valley": "valley"}.get(kind, ""))
            found |= {"stock": own} if own else {}
        else:
            main = read_pitch(job.said("pitch", usual.PITCH))
            end = read_pitch(job.said("end-pitch", str(main)))
            eave = half * (main.rise / main.run) / (end.rise / end.run)
            found["eave"] = f"{eave:.10g}in"
            if job.said("start", "end common") == "end common" and "first" not in found:
                spacing = read_length(job.said("spacing", usual.SPACING))
                found["first"] = f"{eave % spacing or spacing:.10g}in"
    return found


def _turns(arguments: Sequence[str]) -> bool:
    """Whether the cut that is asked about stands where two roofs meet."""
    from layout.cuts import catalogue

    entry = catalogue().get(arguments[1] if len(arguments) > 1 else "")
    return entry is None or entry.meets != "nothing"


def role(cut: str) -> str:
    """The stock of a job from which a cut of the catalogue is made, empty where none is named."""
    if cut in ("hip-jack", "valley-jack", "cripple-jack", "deck-valley-jack"):
        return "rafter"
    for role in ("hip", "valley"):
        if cut.startswith(f"{role}-"):
            return role
    return "rafter" if cut.startswith("common-") else ""
