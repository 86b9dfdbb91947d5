"""The lessons: everything a lesson says is data in a TOML file, nothing in it is code.

Every key is known, every text's named values exist, every cut, mistake and picture it names is
there; whatever is wrong is told with file and line.
"""

import difflib
from collections.abc import Iterable, Mapping
from importlib import resources
from pathlib import Path

from lessons.course.glossary import GLOSSARY
from lessons.course.lesson_data import (
    DRILL_KEYS,
    GIVEN_KEYS,
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

__all__ = [
    "DRILL_KEYS",
    "GIVEN_KEYS",
    "PICTURES",
    "Drill",
    "DrillKind",
    "Lesson",
    "LessonError",
    "Stated",
    "Step",
    "Warned",
    "catalog",
    "find_lesson",
    "lesson_files",
    "parse_lesson",
    "read_lesson",
]


def catalog(folder: Path | None = None) -> dict[str, Lesson]:
    """Every lesson by name, in the order of their numbers.

    The course's own lessons, and those of `folder`, which take the place of own ones that bear
    the same name. Raises LessonError for a lesson that cannot be read.
    """
    lessons = {lesson.name: lesson for lesson in _own()}
    if folder is not None:
        lessons |= {path.stem: read_lesson(path) for path in lesson_files(folder)}
    return dict(sorted(lessons.items(), key=lambda item: (item[1].number, item[0])))


def lesson_files(folder: Path) -> list[Path]:
    """The lesson files of a folder, by name. Raises LessonError where there is no such folder."""
    if not folder.is_dir():
        raise LessonError(f"there is no folder {str(folder)!r} to read lessons from")
    return sorted(path for path in folder.glob("*.toml") if path.name != GLOSSARY)


def read_lesson(path: Path) -> Lesson:
    """Read a lesson of one's own from its file. Raises LessonError with file and line."""
    try:
        text = path.read_text("utf-8")
    except UnicodeDecodeError:
        raise LessonError(f"{path}:1: not a text in UTF-8") from None
    except OSError as error:
        raise LessonError(f"cannot read {path}: {error.strerror}") from None
    return parse_lesson(path.stem, str(path), text)


def find_lesson(lessons: Mapping[str, Lesson], name: str) -> Lesson:
    """The lesson of that name; raises LessonError that offers the nearest names."""
    if name in lessons:
        return lessons[name]
    near = difflib.get_close_matches(name, lessons, n=3, cutoff=0.4)
    offer = f"did you mean {' or '.join(near)}?" if near else "`squaresaw lesson` lists them all"
    raise LessonError(f"there is no lesson called {name!r}; {offer}")


def _own() -> Iterable[Lesson]:
    here = resources.files("lessons.course.catalog")
    for file in sorted(here.iterdir(), key=lambda file: file.name):
        if file.name.endswith(".toml") and file.name != GLOSSARY:
            path, text = f"lessons/course/catalog/{file.name}", file.read_text("utf-8")
            yield parse_lesson(Path(file.name).stem, path, text, of_course=True)
