"""Read a lesson file and check it: whatever is wrong is told with file and line."""

from collections.abc import Callable, Mapping
from typing import Any, cast

from layout.cuts import Hand, find
from layout.errors import LayoutError
from layout.quantity import read_angle, read_number, read_pitch
from layout.stock import read_stock
from lessons.course.lesson_data import (
    DRILL_KEYS,
    FEWEST_MISTAKES,
    GIVEN_KEYS,
    KEYS,
    NEEDED,
    PICTURES,
    STATED_KEYS,
    Drill,
    DrillKind,
    Lesson,
    Stated,
    Step,
    Warned,
)
from lessons.course.lesson_text import LessonText, Place
from lessons.course.named_text import TemplateError, read_name
from lessons.mistakes.cut_mistakes import mistakes
from lessons.values.all_values import values

TOP = Place()


def parse_lesson(name: str, path: str, text: str, *, of_course: bool = False) -> Lesson:
    """Read one lesson from a file's text; `of_course` asks for drills of every kind.

    Raises LessonError with file and line.
    """
    file = LessonText(path, text)
    data = file.data
    file.known(data, KEYS, TOP)
    for key in sorted(NEEDED):
        if key not in data:
            raise file.error(f"the lesson says nothing under {key!r}", TOP)
    try:
        entry = find(str(data["cut"]))
    except LayoutError as error:
        raise file.error(str(error), TOP.at("cut")) from None
    end = data.get("end")
    if end is not None and end not in entry.ends:
        raise file.error(f"{entry.name} is cut at the {' and '.join(entry.ends)}", TOP.at("end"))
    lesson = Lesson(
        name=name,
        path=path,
        number=_whole(file, data["number"]),
        title=str(data["title"]),
        entry=entry,
        end=end,
        able=file.template(data["able"], TOP.at("able")),
        given=_given(file, data.get("given", {}), Place("given")),
        situation=_steps(file, "situation"),
        by_hand=_steps(file, "hand"),
        by_saw=_steps(file, "saw"),
        agree=_agree(file),
        warned=_warned(file),
        drills=_drills(file),
        cautions=file.templates(data.get("cautions", []), TOP.at("cautions")),
        words=_words(file),
        stated=_stated(file),
    )
    kinds = {drill.kind for drill in lesson.drills}
    if of_course and kinds != set(DRILL_KEYS):
        missing = ", ".join(sorted(set(DRILL_KEYS) - kinds))
        raise file.error(
            f"a lesson of the course asks for every kind: no {missing}", Place("drill")
        )
    return lesson


def _whole(file: LessonText, number: Any) -> int:
    if not isinstance(number, int) or isinstance(number, bool) or number < 1:
        raise file.error(
            f"the lesson's number {number!r} should be a whole number, 1 or more",
            TOP.at("number"),
        )
    return number


READ_GIVEN: dict[str, Callable[[str], object]] = {
    "pitch": read_pitch,
    "other_pitch": read_pitch,
    "corner": read_angle,
    "hand": Hand,
    "stock": read_stock,
    "roll": float,
}
"""What each thing that is given is read with."""


def _given(file: LessonText, table: Any, place: Place) -> Mapping[str, str]:
    given = {key: str(text) for key, text in file.known(table, GIVEN_KEYS, place).items()}
    for key, text in given.items():
        try:
            READ_GIVEN[key](text)
        except LayoutError as error:
            raise file.error(str(error), place.at(key)) from None
        except ValueError:
            offer = "left or right" if key == "hand" else "a number of degrees"
            raise file.error(f"{key} {text!r} should be {offer}", place.at(key)) from None
    return given


def _steps(file: LessonText, name: str) -> tuple[Step, ...]:
    steps = []
    for place, table in file.tables(name):
        known = file.known(table, ("say", "picture", "when"), place)
        picture = known.get("picture")
        if picture is not None:
            file.one_of(picture, PICTURES, place.at("picture"))
        say = file.template(known.get("say"), place.at("say"))
        steps.append(Step(say, picture, file.condition(known, place)))
    if not steps:
        raise file.error(f"{name} should be one step or more, each [[{name}]]", TOP.at(name))
    return tuple(steps)


def _agree(file: LessonText) -> tuple[Step, ...]:
    """Texts, or tables with a text and when it holds."""
    entries = file.data["agree"]
    if isinstance(entries, list) and all(isinstance(entry, str) for entry in entries):
        return tuple(Step(text) for text in file.templates(entries, TOP.at("agree")))
    return tuple(
        Step(
            file.template(table.get("say"), place.at("say")),
            when=file.condition(file.known(table, ("say", "when"), place), place),
        )
        for place, table in file.tables("agree")
    )


def _warned(file: LessonText) -> tuple[Warned, ...]:
    warned = []
    for place, table in file.tables("mistake"):
        known = file.known(table, ("name", "say", "when"), place)
        name = file.one_of(known.get("name"), mistakes(), place.at("name"))
        say = file.template(known["say"], place.at("say")) if "say" in known else None
        warned.append(Warned(name, say, file.condition(known, place)))
    if len(warned) < FEWEST_MISTAKES:
        raise file.error(
            f"a lesson warns of {FEWEST_MISTAKES} mistakes or more, this one of {len(warned)}",
            Place("mistake"),
        )
    return tuple(warned)


def _drills(file: LessonText) -> tuple[Drill, ...]:
    drills = []
    for place, table in file.tables("drill"):
        kind = file.one_of(table.get("kind"), DRILL_KEYS, place.at("kind"))
        known = file.known(table, DRILL_KEYS[kind], place)
        if kind == "number":
            _check_answer(file, known.get("answer"), place.at("answer"))
        if kind == "find-error":
            named = file.one_of(known.get("mistake"), mistakes(), place.at("mistake"))
            if not mistakes()[named].shows:
                raise file.error(
                    f"{named} leaves every mark right, so no layout shows it; name one of"
                    f" {', '.join(one for one in mistakes() if mistakes()[one].shows)}",
                    place.at("mistake"),
                )
        drills.append(
            Drill(
                cast(DrillKind, kind),
                file.template(known.get("ask"), place.at("ask")),
                known.get("answer"),
                known.get("mistake"),
                file.templates(known.get("hints", []), place.at("hints")),
                file.template(known.get("because"), place.at("because")),
                file.condition(known, place),
            )
        )
    return tuple(drills)


def _check_answer(file: LessonText, answer: Any, place: Place) -> None:
    if not isinstance(answer, str):
        raise file.error("a number drill needs an answer, such as tilt:deg", place)
    try:
        name, _, unit = read_name(answer)
    except TemplateError as error:
        raise file.error(str(error), place) from None
    if not unit:
        kind = values()[name].kind
        raise file.error(f"{answer!r} is a {kind}; a number drill is answered by a number", place)


def _stated(file: LessonText) -> tuple[Stated, ...]:
    stated = []
    for place, table in file.tables("check"):
        known = file.known(table, GIVEN_KEYS | STATED_KEYS | {"when"}, place)
        if not STATED_KEYS & set(known):
            raise file.error("a check states face, edge or tilt; this one states nothing", place)
        given = {key: text for key, text in known.items() if key in GIVEN_KEYS}
        if given and "when" in known:
            raise file.error(
                "a check holds for a roof of its own, or when a condition holds; not for both",
                place.at("when"),
            )
        stated.append(
            Stated(
                file.line(place),
                _given(file, given, place),
                file.condition(known, place) if "when" in known else None,
                _pair(file, known.get("face"), place.at("face")),
                _pair(file, known.get("edge"), place.at("edge")),
                _tilt(file, known.get("tilt"), place.at("tilt")),
            )
        )
    return tuple(stated)


def _pair(file: LessonText, text: Any, place: Place) -> tuple[float, float] | None:
    if text is None:
        return None
    parts = str(text).split(" on ")
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


def _tilt(file: LessonText, text: Any, place: Place) -> float | None:
    if text is None:
        return None
    try:
        tilt_deg = read_angle(str(text))
    except LayoutError as error:
        raise file.error(str(error), place) from None
    if tilt_deg >= 90:
        raise file.error(f"no saw tilts to {text} degrees; give less than 90", place)
    return tilt_deg


def _words(file: LessonText) -> Mapping[str, str]:
    table = file.data.get("words", {})
    if not isinstance(table, dict):
        raise file.error("words should be a table: a word, and what it means", TOP.at("words"))
    return {word: str(means) for word, means in table.items()}
