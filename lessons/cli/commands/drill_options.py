"""The options that draw problems, the same for every command that puts them.

Apart from the options of a cut, so that `squaresaw mark` does not read how lessons are made.
"""

from enum import StrEnum
from typing import Annotated

import typer

from lessons.course.lesson_data import DrillKind


class KindName(StrEnum):
    """The kind of problem."""

    number = "number"
    find_error = "find-error"
    dispute = "dispute"
    mark = "mark"
    choose = "choose"


SeedOption = Annotated[
    int | None,
    typer.Option(
        "--seed", min=0, metavar="NUMBER", help="The same number draws the same problems."
    ),
]
KindOption = Annotated[
    KindName | None, typer.Option("--kind", help="One kind of problem; all are mixed if not said.")
]


def drill_kind(kind: KindName | None) -> DrillKind | None:
    """The kind of problem as lessons name it."""
    kinds: dict[str, DrillKind] = {
        "number": "number",
        "find-error": "find-error",
        "dispute": "dispute",
        "mark": "mark",
        "choose": "choose",
    }
    return kinds[kind.value] if kind else None
