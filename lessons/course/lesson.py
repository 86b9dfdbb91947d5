"""The lessons: everything a lesson says is data in a TOML file, nothing in it is code.

Every key is known, every text's named values exist, every cut, mistake and picture it names is
there; whatever is wrong is told with file and line.
"""

import difflib
import re
from collections.abc import Mapping
from functools import cache
from importlib import resources
from pathlib import Path

from lessons.course.glossary import GLOSSARY
from lessons.course.lesson_data import (
    PICTURES,
    Drill,
    DrillKind,
    Lesson,
    Stated,
    Step,
    Warned,
)
from lessons.course.lesson_file import parse_lesson
from lessons.course.lesson_text import LessonError
from lessons.course.shared_steps import SHARED
from lessons.say.reading import read_text

__all__ = [
    "PICTURES",
    "TAKEN",
    "Drill",
    "DrillKind",
    "Lesson",
    "LessonError",
    "Stated",
    "Step",
    "Warned",
    "catalog",
    "checked_name",
    "find_lesson",
    "lesson_files",
    "parse_lesson",
    "read_lesson",
]


NO_LESSONS = (GLOSSARY, SHARED)
"""Files of a catalog that hold what lessons share."""
TAKEN = ("new", "check", "values")
"""Words that mean something else in a lesson's place on the command line."""
LONGEST_NAME = 60
_NAME = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")


def catalog(folder: Path | None = None) -> dict[str, Lesson]:
    """Every lesson by name, in the order of their numbers.

    The course's own lessons, and those of `folder`, which take the place of own ones that bear
    the same name. Raises LessonError for a lesson that cannot be read.
    """
    lessons = {lesson.name: lesson for lesson in _own()}
    if folder is not None:
        read = [read_lesson(path) for path in lesson_files(folder)]
        lessons |= {lesson.name: lesson for lesson in read}
    return dict(sorted(lessons.items(), key=lambda item: (item[1].number, item[0])))


def lesson_files(folder: Path) -> list[Path]:
    """The lesson files of a folder, by name. Raises LessonError where there is no such folder."""
    if not folder.is_dir():
        raise LessonError(f"there is no folder {str(folder)!r} to read lessons from")
    return sorted(path for path in folder.glob("*.toml") if path.name not in NO_LESSONS)


def read_lesson(path: Path) -> Lesson:
    """Read a lesson of one's own from its file. Raises LessonError with file and line."""
    name = checked_name(path.stem)
    return parse_lesson(name, str(path), read_text(path, LessonError))


def checked_name(name: str) -> str:
    """A lesson's name as it was given. Raises LessonError for one that is none.

    It becomes a link on a page and a word on the command line: small letters, digits, hyphens.
    """
    if len(name) > LONGEST_NAME or _NAME.fullmatch(name) is None or name in TAKEN:
        raise LessonError(
            f"{name[:LONGEST_NAME] or 'nothing'!r} is no lesson name; use small letters, digits and"
            " hyphens, as in two-valleys"
        )
    return name


def find_lesson(lessons: Mapping[str, Lesson], name: str) -> Lesson:
    """The lesson of that name; raises LessonError that offers those on a cut of that name, else
    the nearest names."""
    if name in lessons:
        return lessons[name]
    on_it = " or ".join(one.name for one in lessons.values() if one.entry.name == name)
    if on_it:
        raise LessonError(f"{name!r} is a cut and no lesson; to learn it take {on_it}")
    near = difflib.get_close_matches(name, lessons, n=3, cutoff=0.4)
    offer = f"did you mean {' or '.join(near)}?" if near else "`squaresaw lesson` lists them all"
    raise LessonError(f"there is no lesson called {name!r}; {offer}")


@cache
def _own() -> tuple[Lesson, ...]:
    """The course's own lessons, read once: they are part of the program."""
    here = resources.files("lessons.course.catalog")
    return tuple(
        parse_lesson(
            Path(file.name).stem,
            f"lessons/course/catalog/{file.name}",
            file.read_text("utf-8"),
            of_course=True,
        )
        for file in sorted(here.iterdir(), key=lambda file: file.name)
        if file.name.endswith(".toml") and file.name not in NO_LESSONS
    )
