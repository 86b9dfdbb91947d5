"""What a lesson file may hold: every table, every key, and what kind of thing stands there.

The one declaration of it. A file is held against it before anything is read from it, so that
what reads it afterward can take each thing for what it is.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal

from lessons.course.lesson_text import LessonText, TextPlace

KeyKind = Literal["text", "texts", "whole", "quantity", "words"]
SAYS: Mapping[KeyKind, str] = {
    "text": "a text in quotation marks",
    "texts": "a list of texts",
    "whole": "a whole number, 1 or more",
    "quantity": "a text in quotation marks, or a number",
    "words": "a text in quotation marks",
}
LONGEST_TEXT = 2000
"""Letters that a text may have: some thirty lines on paper."""
GREATEST_NUMBER = 9999
_CONTROL = re.compile(r"[\x00-\x1f\x7f-\x9f\u2028\u2029\ud800-\udfff]")
"""What no page prints and what a terminal would obey."""

DRILLS: Mapping[str, frozenset[str]] = {
    "number": frozenset({"kind", "ask", "answer", "hints", "because", "when"}),
    "choose": frozenset({"kind", "ask", "answer", "hints", "because", "when"}),
    "find-error": frozenset({"kind", "ask", "mistake", "hints", "because", "when"}),
    "dispute": frozenset({"kind", "ask", "mistake", "hints", "because", "when"}),
    "mark": frozenset({"kind", "ask", "hints", "because", "when"}),
}
"""What each kind of drill says: a number to work out, words to choose from, a layout with one
fault, claims of which one is wrong, a cut to mark."""


@dataclass(frozen=True)
class Table:
    """A table's keys and their kinds; `many` for one that may stand more than once, [[name]].

    `open` is the kind of every key of a table whose keys are anyone's own.
    """

    keys: Mapping[str, KeyKind]
    many: bool = True
    open: KeyKind | None = None


FEWEST_MISTAKES = 2
"""Mistakes that a lesson warns of, at the least."""
STEP = Table({"say": "text", "picture": "text", "table": "text", "when": "text", "use": "text"})
GIVEN: Mapping[str, KeyKind] = {
    "pitch": "quantity",
    "other_pitch": "quantity",
    "corner": "quantity",
    "hand": "text",
    "stock": "text",
    "roll": "quantity",
}
STATED: Mapping[str, KeyKind] = {"face": "text", "edge": "text", "tilt": "quantity"}
TOP: Mapping[str, KeyKind] = {
    "number": "whole",
    "title": "text",
    "cut": "text",
    "end": "text",
    "able": "text",
    "agree": "texts",
    "cautions": "texts",
}
NEEDED = ("number", "title", "cut", "able", "agree")
"""Keys that every lesson has."""
TABLES: Mapping[str, Table] = {
    "given": Table(GIVEN, many=False),
    "situation": STEP,
    "hand": STEP,
    "saw": STEP,
    "drawn": STEP,
    "aside": STEP,
    "agree": STEP,
    "mistake": Table({"name": "text", "say": "text", "when": "text"}),
    "drill": Table(
        {
            "kind": "text",
            "ask": "text",
            "answer": "text",
            "mistake": "text",
            "hints": "texts",
            "because": "text",
            "when": "text",
        }
    ),
    "check": Table({**GIVEN, **STATED, "when": "text"}),
    "teach": Table(
        {"minutes": "whole", "bring": "text", "watch": "text", "ask": "text", "grade": "text"},
        many=False,
    ),
    "words": Table({}, many=False, open="words"),
}
"""Every table of a lesson file; agree may also be a list of texts."""


def held(file: LessonText) -> None:
    """Hold a file against the schema. Raises LessonError with file, line and column."""
    top = TextPlace()
    for key, value in file.data.items():
        if key in TABLES and not (key in TOP and _texts(value)):
            _table(file, key, value)
        elif key in TOP:
            _value(file, TOP[key], value, top.at(key))
        else:
            known = ", ".join(sorted({*TOP, *TABLES}))
            raise file.error(f"the lesson has no key {key!r}; its keys are {known}", top.at(key))
    for key in NEEDED:
        if key not in file.data:
            raise file.error(f"the lesson says nothing under {key!r}", top)


def _texts(value: Any) -> bool:
    return isinstance(value, list) and all(isinstance(one, str) for one in value)


def _table(file: LessonText, name: str, value: Any) -> None:
    table = TABLES[name]
    if table.many:
        if not isinstance(value, list) or not all(isinstance(one, dict) for one in value):
            raise file.error(
                f"{name} should be one table or more, each [[{name}]]", TextPlace(name)
            )
        several = value
    else:
        if not isinstance(value, dict):
            raise file.error(f"{name} should be a table with keys, [{name}]", TextPlace(name))
        several = [value]
    for index, one in enumerate(several):
        place = TextPlace(name, index)
        for key, inside in one.items():
            kind = table.open or table.keys.get(key)
            if kind is None:
                known = ", ".join(sorted(table.keys))
                raise file.error(f"{name} has no key {key!r}; its keys are {known}", place.at(key))
            _value(file, kind, inside, place.at(key))


def _value(file: LessonText, kind: KeyKind, value: Any, place: TextPlace) -> None:
    if not _is(kind, value):
        shown = repr(value)
        said = shown if len(shown) <= 40 else f"{shown[:37]}..."
        raise file.error(f"{place.key} is {said}; it should be {SAYS[kind]}", place)
    for text in value if isinstance(value, list) else [value]:
        if isinstance(text, str):
            _plain(file, text, place)


def _is(kind: KeyKind, value: Any) -> bool:
    if kind == "whole":
        return type(value) is int and 1 <= value <= GREATEST_NUMBER
    if kind == "texts":
        return _texts(value)
    number = kind == "quantity" and type(value) in (int, float)
    return isinstance(value, str) or number


def _plain(file: LessonText, text: str, place: TextPlace) -> None:
    if len(text) > LONGEST_TEXT:
        raise file.error(
            f"{place.key} has {len(text)} letters; a text may have {LONGEST_TEXT}", place
        )
    found = _CONTROL.search(text.replace("\n", " "))
    if found is not None:
        raise file.error(
            f"{place.key} holds the control character {found[0]!r}; leave it out", place
        )
