"""Read a lesson file and check it: everything a lesson says is data, nothing in it is code.

A lesson is one TOML file. Every key is known, every text's named values exist, every cut,
mistake and picture it names is there; whatever is wrong is told with file and line.
"""

import difflib
import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from importlib import resources
from pathlib import Path
from typing import Any, Literal

from layout.cuts import End, Entry, find
from layout.errors import LayoutError
from lessons.mistakes import mistakes
from lessons.template import Template, TemplateError, read_name, read_template

PICTURES = (
    "plan",
    "pictorial",
    "views",
    "square-on-face",
    "square-on-edge",
    "saw-front",
)
"""The pictures a lesson may ask for by name."""

DrillKind = Literal["number", "find-error", "mark"]
DRILL_KEYS: dict[str, frozenset[str]] = {
    "number": frozenset({"kind", "ask", "answer", "hints", "because"}),
    "find-error": frozenset({"kind", "ask", "mistake", "hints", "because"}),
    "mark": frozenset({"kind", "ask", "hints", "because"}),
}
"""What each kind of drill says: a number to work out, a layout with one fault, a cut to mark."""

GIVEN_KEYS = frozenset({"pitch", "other_pitch", "corner", "hand", "stock", "roll"})


class LessonError(LayoutError):
    """A lesson file that cannot be taught from; the message starts with file and line."""


@dataclass(frozen=True)
class Step:
    """One thing to do, and the picture that shows it."""

    say: Template
    picture: str | None


@dataclass(frozen=True)
class Warned:
    """A known mistake that the lesson warns of, by name, and what the lesson adds to it."""

    name: str
    say: Template | None


@dataclass(frozen=True)
class Drill:
    """A kind of problem: what is asked, the value that answers it, hints, and the reason."""

    kind: DrillKind
    ask: Template
    answer: str | None
    mistake: str | None
    hints: tuple[Template, ...]
    because: Template


@dataclass(frozen=True)
class Lesson:
    """A lesson as it stands in its file: texts to fill, and the cut they are about."""

    name: str
    path: str
    number: int
    title: str
    entry: Entry
    end: End | None
    able: Template
    given: Mapping[str, str]
    situation: tuple[Step, ...]
    by_hand: tuple[Step, ...]
    by_saw: tuple[Step, ...]
    agree: tuple[Template, ...]
    warned: tuple[Warned, ...]
    drills: tuple[Drill, ...]
    cautions: tuple[Template, ...]
    words: Mapping[str, str]


KEYS = frozenset(
    {
        "number",
        "title",
        "cut",
        "end",
        "able",
        "given",
        "situation",
        "hand",
        "saw",
        "agree",
        "mistake",
        "drill",
        "cautions",
        "words",
    }
)
NEEDED = KEYS - {"end", "given", "cautions"}


class _File:
    """A lesson file's text, and where in it something stands."""

    def __init__(self, name: str, path: str, text: str) -> None:
        self.name, self.path, self.text = name, path, text

    def error(self, message: str, needle: str = "") -> LessonError:
        """The error with the file and the first line that holds `needle`."""
        lines = self.text.splitlines()
        at = next((i for i, line in enumerate(lines, start=1) if needle and needle in line), 1)
        return LessonError(f"{self.path}:{at}: {message}")

    def template(self, text: Any) -> Template:
        if not isinstance(text, str):
            raise self.error(f"{text!r} should be a text in quotation marks", str(text))
        try:
            return read_template(text)
        except TemplateError as error:
            raise self.error(str(error), error.place) from None

    def templates(self, texts: Any, key: str) -> tuple[Template, ...]:
        if not isinstance(texts, list):
            raise self.error(f"{key} should be a list of texts", key)
        return tuple(self.template(text) for text in texts)

    def known(self, table: Any, keys: Iterable[str], where: str) -> Mapping[str, Any]:
        """The table, refused where it has a key that nothing reads."""
        if not isinstance(table, dict):
            raise self.error(f"{where} should be a table with keys", where)
        allowed = sorted(keys)
        for key in table:
            if key not in allowed:
                raise self.error(
                    f"{where} has no key {key!r}; its keys are {', '.join(allowed)}", key
                )
        return table

    def one_of(self, value: Any, choices: Iterable[str], where: str) -> str:
        if value not in choices:
            raise self.error(f"{where} {value!r} is not one of {', '.join(choices)}", str(value))
        return str(value)


def parse_lesson(name: str, path: str, text: str) -> Lesson:
    """Read one lesson from a file's text. Raises LessonError with file and line."""
    file = _File(name, path, text)
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise LessonError(f"{path}: not a TOML file: {error}") from None
    file.known(data, KEYS, "the lesson")
    for key in sorted(NEEDED):
        if key not in data:
            raise file.error(f"the lesson says nothing under {key!r}")
    try:
        entry = find(data["cut"])
    except LayoutError as error:
        raise file.error(str(error), "cut") from None
    end = data.get("end")
    if end is not None and end not in entry.ends:
        raise file.error(f"{entry.name} is cut at the {' and '.join(entry.ends)}", "end")
    return Lesson(
        name=name,
        path=path,
        number=_whole(file, data["number"]),
        title=str(data["title"]),
        entry=entry,
        end=end,
        able=file.template(data["able"]),
        given=_given(file, data.get("given", {})),
        situation=_steps(file, data["situation"], "situation"),
        by_hand=_steps(file, data["hand"], "hand"),
        by_saw=_steps(file, data["saw"], "saw"),
        agree=file.templates(data["agree"], "agree"),
        warned=_warned(file, data["mistake"]),
        drills=_drills(file, data["drill"]),
        cautions=file.templates(data.get("cautions", []), "cautions"),
        words=_words(file, data["words"]),
    )


def _whole(file: _File, number: Any) -> int:
    if not isinstance(number, int) or number < 1:
        raise file.error(f"the lesson's number {number!r} should be a whole number", "number")
    return number


def _given(file: _File, table: Any) -> Mapping[str, str]:
    return {key: str(text) for key, text in file.known(table, GIVEN_KEYS, "given").items()}


def _steps(file: _File, tables: Any, where: str) -> tuple[Step, ...]:
    if not isinstance(tables, list) or not tables:
        raise file.error(f"{where} should be one step or more, each [[{where}]]", where)
    steps = []
    for table in tables:
        known = file.known(table, ("say", "picture"), where)
        picture = known.get("picture")
        if picture is not None:
            file.one_of(picture, PICTURES, "picture")
        steps.append(Step(file.template(known.get("say")), picture))
    return tuple(steps)


def _warned(file: _File, tables: Any) -> tuple[Warned, ...]:
    warned = []
    for table in tables:
        known = file.known(table, ("name", "say"), "mistake")
        name = file.one_of(known.get("name"), mistakes(), "mistake")
        say = file.template(known["say"]) if "say" in known else None
        warned.append(Warned(name, say))
    return tuple(warned)


def _drills(file: _File, tables: Any) -> tuple[Drill, ...]:
    drills = []
    for table in tables:
        kind = file.one_of(table.get("kind"), DRILL_KEYS, "drill kind")
        known = file.known(table, DRILL_KEYS[kind], f"a drill of kind {kind}")
        answer = known.get("answer")
        if kind == "number":
            try:
                read_name(str(answer))
            except TemplateError as error:
                raise file.error(str(error), str(answer)) from None
        if "mistake" in known:
            file.one_of(known["mistake"], mistakes(), "mistake")
        drills.append(
            Drill(
                kind,  # type: ignore[arg-type]  # one_of has checked it
                file.template(known.get("ask")),
                answer,
                known.get("mistake"),
                file.templates(known.get("hints", []), "hints"),
                file.template(known.get("because")),
            )
        )
    return tuple(drills)


def _words(file: _File, table: Any) -> Mapping[str, str]:
    if not isinstance(table, dict):
        raise file.error("words should be a table: a word, and what it means", "words")
    return {word: str(means) for word, means in table.items()}


def catalog(folder: Path | None = None) -> dict[str, Lesson]:
    """Every lesson by name, in the order of their numbers.

    The course's own lessons, and those of `folder`, which take the place of own ones that bear
    the same name. Raises LessonError for a lesson that cannot be read.
    """
    texts = {
        file.name: (f"lessons/catalog/{file.name}", file.read_text("utf-8")) for file in _own()
    }
    if folder is not None:
        if not folder.is_dir():
            raise LessonError(f"there is no folder {str(folder)!r} to read lessons from")
        for path in sorted(folder.glob("*.toml")):
            texts[path.name] = (str(path), path.read_text("utf-8"))
    lessons = [parse_lesson(Path(name).stem, path, text) for name, (path, text) in texts.items()]
    return {lesson.name: lesson for lesson in sorted(lessons, key=lambda one: one.number)}


def find_lesson(lessons: Mapping[str, Lesson], name: str) -> Lesson:
    """The lesson of that name; raises LessonError that offers the nearest names."""
    if name in lessons:
        return lessons[name]
    near = difflib.get_close_matches(name, lessons, n=3, cutoff=0.4)
    offer = f"did you mean {' or '.join(near)}?" if near else "`squaresaw lesson` lists them all"
    raise LessonError(f"there is no lesson called {name!r}; {offer}")


def _own() -> Iterable[Any]:
    here = resources.files("lessons.catalog")
    return sorted((f for f in here.iterdir() if f.name.endswith(".toml")), key=lambda f: f.name)
