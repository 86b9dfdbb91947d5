"""A lesson file's text: its tables, and the line on which something in them stands.

The TOML reader gives values without places. To say where a fault is, the lines are read once
more for table headers and keys: enough for lesson files, whose tables lie one level deep.
"""

import difflib
import re
import tomllib
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from layout.errors import LayoutError
from lessons.course.bound import unbound
from lessons.course.condition import ALWAYS, Condition, ConditionError, read_condition
from lessons.course.named_text import NamedText, NamedTextError, read_named_text

_HEADER = re.compile(r"\s*\[\[?\s*([A-Za-z0-9_-]+)\s*\]\]?\s*(#.*)?")
_KEY = re.compile(r"\s*(?:\"([^\"]+)\"|([A-Za-z0-9_-]+))\s*=")
_TOML_PLACE = re.compile(r"(.*) \(at line (\d+), column (\d+)\)")
_LONG = re.compile(r"\d{1000}")


FEW = 8
"""So many choices are all named where none of them was said; of more, the nearest."""


class LessonError(LayoutError):
    """A lesson file that cannot be taught from; the message starts with file and line.

    `more` are the faults found after the first, a line each.
    """

    def __init__(self, message: str, more: tuple[str, ...] = ()) -> None:
        super().__init__(message)
        self.more = more


@dataclass(frozen=True)
class TextPlace:
    """Where in a lesson something stands: a table, which one of several, and a key in it.

    The lesson's own keys have no table.
    """

    table: str = ""
    index: int = 0
    key: str = ""

    def at(self, key: str) -> "TextPlace":
        """A key of the same table."""
        return TextPlace(self.table, self.index, key)

    def __str__(self) -> str:
        return self.table or "the lesson"


def _first_line(text: str) -> str:
    """The start of a text, up to what may end its line in the file."""
    return re.split(r'[\n"\\]', text, maxsplit=1)[0]


class LessonText:
    """A lesson file: its data, and errors that say where in it they are."""

    def __init__(self, path: str, text: str) -> None:
        self.path = path
        self._lines = text.splitlines()
        self._faults: list[str] = []
        try:
            self.data: dict[str, Any] = tomllib.loads(text)
        except tomllib.TOMLDecodeError as error:
            said = _TOML_PLACE.fullmatch(str(error))
            line, what = (int(said[2]), said[1]) if said else (len(self._lines), str(error))
            column = int(said[3]) if said else 1
            raise LessonError(f"{path}:{max(line, 1)}:{column}: not a TOML file: {what}") from None
        except RecursionError:
            raise LessonError(f"{path}:1:1: not a lesson: its values are nested too deep") from None
        except ValueError:  # a number of so many digits that Python will not read it
            line = next((i for i, t in enumerate(self._lines, 1) if _LONG.search(t)), 1)
            raise LessonError(f"{path}:{line}:1: a number here has too many digits") from None

    @cached_property
    def _headers(self) -> list[tuple[int, str]]:
        """The headers of tables: their lines, from 0, and the tables' names."""
        return [
            (number, match[1])
            for number, line in enumerate(self._lines)
            if (match := _HEADER.fullmatch(line))
        ]

    @cached_property
    def _keys(self) -> list[tuple[int, str]]:
        """The keys at the beginnings of lines: their lines, from 0, and their names."""
        return [
            (number, match[1] or match[2])
            for number, line in enumerate(self._lines)
            if (match := _KEY.match(line))
        ]

    def line(self, place: TextPlace, needle: str = "") -> int:
        """The line of a key, or of the first text in its value that holds `needle`, from 1."""
        start, end = self._table(place)
        if place.key:
            keys = [found for found in self._keys if start <= found[0] < end]
            at = next((i for i, (_, key) in enumerate(keys) if key == place.key), None)
            if at is None and not place.table and self._has_table(place.key):
                return self.line(TextPlace(place.key), needle)
            if at is not None:
                start = keys[at][0]
                end = keys[at + 1][0] if at + 1 < len(keys) else end
        for number in range(start, end):
            if needle and needle in self._lines[number]:
                return number + 1
        return start + 1

    def error(self, message: str, place: TextPlace, needle: str = "") -> LessonError:
        """The error with the file, the line and the column."""
        line = self.line(place, needle)
        return LessonError(f"{self.path}:{line}:{self._column(line, place, needle)}: {message}")

    @contextmanager
    def noting(self) -> Iterator[None]:
        """Read one table: its fault is kept, and the tables after it are read all the same."""
        try:
            yield
        except LessonError as fault:
            self._faults.append(str(fault))

    def refuse(self) -> None:
        """Raise LessonError with all that was noted, in the order in which it was found."""
        if self._faults:
            raise LessonError(self._faults[0], tuple(self._faults[1:]))

    def _column(self, line: int, place: TextPlace, needle: str) -> int:
        """Where on the line the needle stands, or the key, from 1."""
        text = self._lines[line - 1] if line <= len(self._lines) else ""
        for sought in (needle, place.key):
            if sought and sought in text:
                return text.index(sought) + 1
        return 1

    def _has_table(self, name: str) -> bool:
        return any(header == name for _, header in self._headers)

    def _table(self, place: TextPlace) -> tuple[int, int]:
        """First line of a table and the line after its last, from 0."""
        bounds = [*(number for number, _ in self._headers), len(self._lines)]
        if not place.table:
            return 0, max(bounds[0], 1)
        named = [i for i, (_, name) in enumerate(self._headers) if name == place.table]
        if not named:
            return self._inline(place)
        i = named[min(place.index, len(named) - 1)]
        return bounds[i], bounds[i + 1]

    def _inline(self, place: TextPlace) -> tuple[int, int]:
        """A table written in one line after its key, or not there at all."""
        line = self.line(TextPlace(key=place.table)) - 1
        return line, line + 1

    def template(self, text: Any, place: TextPlace, *, bound: bool = False) -> NamedText:
        """A text whose named values are checked.

        `bound` refuses one that says a setting by a number, a side or an end of its own.
        """
        if text is None:
            raise self.error(
                f"{place.key} is missing; it should be a text in quotation marks", place
            )
        try:
            made = read_named_text(text, f"{self.path}:{self.line(place, _first_line(text))}")
        except NamedTextError as error:
            raise self.error(str(error), place, error.place) from None
        loose = unbound(text) if bound else None
        if loose is not None:
            said, write = loose
            raise self.error(
                f"{said!r} is one roof's; write {write}, or say `when` it holds", place, said
            )
        return made

    def templates(
        self, texts: Iterable[Any], place: TextPlace, *, bound: bool = False
    ) -> tuple[NamedText, ...]:
        """Several texts, each checked as `template` checks one."""
        return tuple(self.template(text, place, bound=bound) for text in texts)

    def tables(self, name: str) -> list[tuple[TextPlace, Mapping[str, Any]]]:
        """Every table of a name, [[name]], with its place."""
        tables = self.data.get(name, [])
        return [(TextPlace(name, index), table) for index, table in enumerate(tables)]

    def known(self, table: Any, keys: Iterable[str], place: TextPlace) -> Mapping[str, Any]:
        """The table, refused where it has a key that nothing reads."""
        if not isinstance(table, dict):
            raise self.error(f"{place} should be a table with keys", place)
        allowed = sorted(keys)
        for key in table:
            if key not in allowed:
                raise self.error(
                    f"{place} has no key {key!r}; its keys are {', '.join(allowed)}",
                    place.at(key),
                )
        return table

    def one_of(self, value: Any, choices: Iterable[str], place: TextPlace) -> str:
        """The value, refused where it is not among the choices."""
        known = tuple(choices)
        if value not in known:
            said = "is missing" if value is None else f"{value!r} is unknown"
            near = difflib.get_close_matches(str(value), known, n=1, cutoff=0.5)
            if len(known) > FEW:
                offer = "`squaresaw lesson values` lists them all"
                offer = f"did you mean {near[0]!r}? {offer}" if near else offer
            else:
                offer = f"use one of {', '.join(known)}"
            raise self.error(f"{place.key} {said}; {offer}", place)
        return str(value)

    def condition(self, table: Mapping[str, Any], place: TextPlace) -> Condition:
        """When the table's words hold: always, where it says nothing."""
        if "when" not in table:
            return ALWAYS
        try:
            return read_condition(str(table["when"]))
        except ConditionError as error:
            raise self.error(str(error), place.at("when")) from None
