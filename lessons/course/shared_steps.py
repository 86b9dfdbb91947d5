"""Steps that many lessons share, written once and called by name: `use = "lay-both-marks"`.

They stand in `catalog/_steps.toml`, a list of tables under each name.
"""

from collections.abc import Mapping
from functools import cache
from importlib import resources

from lessons.course.lesson_data import Step
from lessons.course.lesson_text import LessonText, TextPlace

SHARED = "_steps.toml"


@cache
def shared_steps() -> Mapping[str, tuple[Step, ...]]:
    """Every group of steps, by name."""
    text = resources.files("lessons.course.catalog").joinpath(SHARED).read_text("utf-8")
    file = LessonText(f"lessons/course/catalog/{SHARED}", text)
    return {name: tuple(_step(file, *one) for one in file.tables(name)) for name in file.data}


def _step(file: LessonText, place: TextPlace, table: Mapping[str, str]) -> Step:
    say = file.template(table["say"], place.at("say"), bound="when" not in table)
    return Step(say, table.get("picture"), file.condition(table, place), table.get("table"))
