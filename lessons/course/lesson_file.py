"""Read a lesson file and check it: whatever is wrong is told with file, line and column."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from math import isfinite
from typing import Any, cast

from layout.cuts import Entry, Hand, find
from layout.errors import LayoutError
from layout.quantity import read_angle, read_number, read_pitch
from layout.stock import read_stock
from lessons.course.condition import Condition
from lessons.course.lesson_data import (
    PICTURES,
    Drill,
    DrillKind,
    Lesson,
    Stated,
    Step,
    Teach,
    Warned,
)
from lessons.course.lesson_text import LessonText, TextPlace
from lessons.course.named_text import NamedTextError, read_name
from lessons.course.schema import DRILLS, FEWEST_MISTAKES, GIVEN, STATED, held
from lessons.course.shared_steps import shared_steps
from lessons.course.tables import TABLES
from lessons.mistakes.cut_mistakes import mistakes
from lessons.values.all_values import values

TOP_LEVEL = TextPlace()
OF_COURSE = ("number", "find-error", "mark")
"""Kinds of drill that every lesson of the course has."""


def parse_lesson(name: str, path: str, text: str, *, of_course: bool = False) -> Lesson:
    """Read one lesson from a file's text; `of_course` asks for drills of every kind.

    Raises LessonError with file, line and column, and with every further fault that it can tell:
    a table with one does not hide what is wrong in the next.
    """
    file = LessonText(path, text)
    held(file)
    data = file.data
    entry = _entry(file)
    readers: dict[str, Callable[[], object]] = {
        "end": lambda: _end(file, entry),
        "able": lambda: file.template(data["able"], TOP_LEVEL.at("able")),
        "given": lambda: _given(file, data.get("given", {}), TextPlace("given")),
        "situation": lambda: _steps(file, "situation", needed=True),
        "by_hand": lambda: _steps(file, "hand", needed=True),
        "by_saw": lambda: _steps(file, "saw", needed=True),
        "agree": lambda: _agree(file),
        "warned": lambda: _warned(file),
        "drills": lambda: _drills(file),
        "cautions": lambda: file.templates(data.get("cautions", ()), TOP_LEVEL.at("cautions")),
        "stated": lambda: _stated(file),
        "drawn": lambda: _steps(file, "drawn"),
        "aside": lambda: _steps(file, "aside"),
        "teach": lambda: _teach(file),
    }
    parts: dict[str, Any] = {}
    for part, reader in readers.items():
        with file.noting():
            parts[part] = reader()
    file.refuse()
    lesson = Lesson(
        name=name,
        path=path,
        number=data["number"],
        title=data["title"],
        entry=entry,
        words=data.get("words", {}),
        **parts,
    )
    kinds = {drill.kind for drill in lesson.drills}
    if of_course and not kinds >= set(OF_COURSE):
        missing = ", ".join(kind for kind in OF_COURSE if kind not in kinds)
        raise file.error(
            f"a lesson of the course asks for every kind: no {missing}", TextPlace("drill")
        )
    return lesson


def _entry(file: LessonText) -> Entry:
    try:
        return find(file.data["cut"])
    except LayoutError as error:
        raise file.error(str(error), TOP_LEVEL.at("cut")) from None


def _end(file: LessonText, entry: Entry) -> Any:
    end = file.data.get("end")
    if end is not None and end not in entry.ends:
        place = TOP_LEVEL.at("end")
        raise file.error(f"{entry.name} is cut at the {' and '.join(entry.ends)}", place)
    return end


def _degrees(text: str) -> float:
    """A roll [degrees]: a finite number under half a turn."""
    value = float(text)
    if not (isfinite(value) and abs(value) < 180):
        raise ValueError
    return value


READ_GIVEN: dict[str, Callable[[str], object]] = {
    "pitch": read_pitch,
    "other_pitch": read_pitch,
    "corner": read_angle,
    "hand": Hand,
    "stock": read_stock,
    "roll": _degrees,
}
"""What each thing that is given is read with."""


def _given(file: LessonText, table: Mapping[str, Any], place: TextPlace) -> Mapping[str, str]:
    given = {key: str(said) for key, said in table.items()}
    for key, text in given.items():
        try:
            READ_GIVEN[key](text)
        except LayoutError as error:
            raise file.error(str(error), place.at(key)) from None
        except ValueError:
            offer = "left or right" if key == "hand" else "a number of degrees under 180"
            raise file.error(f"{key} {text!r} should be {offer}", place.at(key)) from None
    return given


def _steps(file: LessonText, name: str, *, needed: bool = False) -> tuple[Step, ...]:
    steps: list[Step] = []
    for place, table in file.tables(name):
        with file.noting():
            steps += _step(file, place, table)
    if needed and not file.tables(name):
        raise file.error(f"{name} should be one step or more, each [[{name}]]", TOP_LEVEL.at(name))
    return tuple(steps)


def _step(file: LessonText, place: TextPlace, table: Mapping[str, Any]) -> Iterator[Step]:
    """The steps that one table gives: its own, or those that lessons share under a name."""
    when = file.condition(table, place)
    if "use" in table:
        group = file.one_of(table["use"], shared_steps(), place.at("use"))
        for step in shared_steps()[group]:
            yield replace(step, when=Condition((*when.names, *step.when.names)))
        return
    for key, known in (("picture", PICTURES), ("table", TABLES)):
        if key in table:
            with file.noting():
                file.one_of(table[key], known, place.at(key))
    say = file.template(table.get("say"), place.at("say"), bound="when" not in table)
    yield Step(say, table.get("picture"), when, table.get("table"))


def _agree(file: LessonText) -> tuple[Step, ...]:
    """Texts, or tables with a text and when it holds."""
    entries = file.data["agree"]
    if all(isinstance(entry, str) for entry in entries):
        texts = file.templates(entries, TOP_LEVEL.at("agree"), bound=True)
        return tuple(Step(text) for text in texts)
    return _steps(file, "agree", needed=True)


def _warned(file: LessonText) -> tuple[Warned, ...]:
    warned = []
    tables = file.tables("mistake")
    for place, table in tables:
        with file.noting():
            name = file.one_of(table.get("name"), mistakes(), place.at("name"))
            bound = "when" not in table
            say = None
            if "say" in table:
                say = file.template(table["say"], place.at("say"), bound=bound)
            where = f"{file.path}:{file.line(place.at('name'))}"
            warned.append(Warned(name, say, file.condition(table, place), where))
    if len(tables) < FEWEST_MISTAKES:
        raise file.error(
            f"a lesson warns of {FEWEST_MISTAKES} mistakes or more, this one of {len(tables)}",
            TextPlace("mistake"),
        )
    return tuple(warned)


def _drills(file: LessonText) -> tuple[Drill, ...]:
    drills = []
    for place, table in file.tables("drill"):
        with file.noting():
            drills.append(_drill(file, place, table))
    return tuple(drills)


def _drill(file: LessonText, place: TextPlace, table: Mapping[str, Any]) -> Drill:
    kind = file.one_of(table.get("kind"), DRILLS, place.at("kind"))
    for key in table:
        if key not in DRILLS[kind]:
            known = ", ".join(sorted(DRILLS[kind]))
            raise file.error(
                f"a drill of the kind {kind} has no key {key!r}; its keys are {known}",
                place.at(key),
            )
    if "answer" in DRILLS[kind]:
        _check_answer(file, kind, table.get("answer"), place.at("answer"))
    if "mistake" in DRILLS[kind]:
        _check_fault(file, table.get("mistake"), place.at("mistake"))
    bound = "when" not in table
    return Drill(
        cast(DrillKind, kind),
        file.template(table.get("ask"), place.at("ask"), bound=bound),
        table.get("answer"),
        table.get("mistake"),
        file.templates(table.get("hints", ()), place.at("hints"), bound=bound),
        file.template(table.get("because"), place.at("because"), bound=bound),
        file.condition(table, place),
    )


def _check_fault(file: LessonText, fault: Any, place: TextPlace) -> None:
    named = file.one_of(fault, mistakes(), place)
    if not mistakes()[named].shows:
        raise file.error(
            f"{named} leaves every mark right, so no layout shows it; name one of"
            f" {', '.join(one for one in mistakes() if mistakes()[one].shows)}",
            place,
        )


def _check_answer(file: LessonText, kind: str, answer: Any, place: TextPlace) -> None:
    if answer is None:
        raise file.error(f"a {kind} drill needs an answer, such as tilt:deg", place)
    try:
        name, _, unit = read_name(answer)
    except NamedTextError as error:
        raise file.error(str(error), place) from None
    of_kind = values()[name].kind
    if kind == "number" and not unit:
        raise file.error(
            f"{answer!r} is a {of_kind}; a number drill is answered by a number", place
        )
    if kind == "choose" and of_kind != "word":
        raise file.error(f"{answer!r} is a {of_kind}; a choose drill is answered by a word", place)


def _stated(file: LessonText) -> tuple[Stated, ...]:
    stated = []
    for place, table in file.tables("check"):
        with file.noting():
            stated.append(_statement(file, place, table))
    return tuple(stated)


def _statement(file: LessonText, place: TextPlace, table: Mapping[str, Any]) -> Stated:
    if not set(STATED) & set(table):
        raise file.error("a check states face, edge or tilt; this one states nothing", place)
    given = {key: said for key, said in table.items() if key in GIVEN}
    if given and "when" in table:
        raise file.error(
            "a check holds for a roof of its own, or when a condition holds; not for both",
            place.at("when"),
        )
    return Stated(
        file.line(place),
        _given(file, given, place),
        file.condition(table, place) if "when" in table else None,
        _pair(file, table.get("face"), place.at("face")),
        _pair(file, table.get("edge"), place.at("edge")),
        _tilt(file, table.get("tilt"), place.at("tilt")),
    )


def _pair(file: LessonText, text: str | None, place: TextPlace) -> tuple[float, float] | None:
    if text is None:
        return None
    parts = text.split(" on ")
    try:
        mark, other = (read_number(part) for part in parts)
    except (LayoutError, ValueError):
        raise file.error(
            f"{place.key} {text!r} should be two numbers, the one marked along first: 12 on 8 1/2",
            place,
        ) from None
    if mark == 0 and other == 0:
        raise file.error(f"{place.key} {text!r} lays no line", place)
    return mark, other


def _tilt(file: LessonText, text: object, place: TextPlace) -> float | None:
    if text is None:
        return None
    try:
        tilt_deg = read_angle(str(text))
    except LayoutError as error:
        raise file.error(str(error), place) from None
    if tilt_deg >= 90:
        raise file.error(f"no saw tilts to {text} degrees; give less than 90", place)
    return tilt_deg


def _teach(file: LessonText) -> Teach | None:
    table = file.data.get("teach")
    if table is None:
        return None
    place = TextPlace("teach")
    if "minutes" not in table:
        raise file.error("teach says no minutes; write minutes = 50", place)
    bring, watch, ask = (
        file.template(table.get(key), place.at(key)) for key in ("bring", "watch", "ask")
    )
    grade = file.template(table["grade"], place.at("grade")) if "grade" in table else None
    return Teach(table["minutes"], bring, watch, ask, grade)
