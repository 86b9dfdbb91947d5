"""A job file: TOML whose sections and names are those of `layout.job.job`, read and checked.

What is wrong is told with the file, the line and what would be right.
"""

import re
import tomllib
from pathlib import Path
from typing import Any

from layout.errors import LayoutError
from layout.job.job import CHOICES, SECTIONS, WALL, WALL_KINDS, Job, nearest_word
from lessons.say.reading import read_text


class JobError(LayoutError):
    """A job file that cannot be read, or says what no job can mean."""


def read_job(path: Path) -> Job:
    """Read and check a job file. Raises JobError: the file, the line, and what would be right."""
    text = read_text(path, JobError)
    try:
        tables = tomllib.loads(text)
    except tomllib.TOMLDecodeError as reason:
        told = str(reason)
        line = re.search(r"\(at line (\d+)", told)
        where = f"{path.name}, line {line[1]}" if line else f"{path.name}, at its end"
        what = told.split(" (at")[0]
        raise JobError(
            f'{where}: {what}; write values as in pitch = "8 in 12", with straight quotes'
        ) from None
    except RecursionError:
        raise JobError(
            f'{path.name}: a value is nested too deep; write values as in pitch = "8 in 12"'
        ) from None
    except ValueError:  # a number of so many digits that Python will not read it
        raise JobError(
            f'{path.name}: a number has too many digits; write values as in pitch = "8 in 12"'
        ) from None
    return _Reader(path.name, text.splitlines()).job(tables, path.stem)


class _Reader:
    """Reads one file's tables; keeps its lines to say where."""

    def __init__(self, file: str, lines: list[str]) -> None:
        self.file, self.lines = file, lines

    def job(self, tables: dict[str, Any], stem: str) -> Job:
        texts: dict[str, str] = {}
        walls: tuple[dict[str, str], ...] = ()
        name = stem
        for section, values in tables.items():
            if section == "name":
                name = self._text("name", values, "")
            elif section == "wall":
                walls = self._walls(values)
            elif section not in SECTIONS:
                known = ("name", *SECTIONS, "wall")
                raise self._fault(section, f"there is no section {section!r}", known)
            elif not isinstance(values, dict):
                raise JobError(
                    f"{self._where(section, '')}: {section} is a section; write [{section}] on a"
                    " line of its own"
                )
            else:
                texts |= self._section(section, values)
        if walls and any(key in texts for key in ("size", "wing", "ends", "wing-end")):
            raise JobError(
                f"{self.file}: walls and a size say the same thing; leave out size, ends and wing"
            )
        return Job(name, texts, walls)

    def _section(self, section: str, values: dict[str, Any]) -> dict[str, str]:
        texts = {}
        for key, value in values.items():
            if key not in SECTIONS[section]:
                home = next((other for other, names in SECTIONS.items() if key in names), None)
                if home is not None:
                    raise JobError(
                        f"{self._where(key, section)}: {key} belongs in the section [{home}]"
                    )
                what = f"[{section}] has no {key!r}"
                raise self._fault(key, what, tuple(SECTIONS[section]), section)
            texts[key] = self._text(key, value, section)
            if key in CHOICES and texts[key] not in CHOICES[key]:
                raise JobError(
                    f"{self._where(key, section)}: {key} is {' or '.join(CHOICES[key])},"
                    f" not {texts[key]!r}"
                )
        return texts

    def _walls(self, values: Any) -> tuple[dict[str, str], ...]:
        if not isinstance(values, list):
            raise JobError(f"{self._where('wall', '')}: write [[wall]], once for every wall")
        walls = []
        for number, each in enumerate(values, start=1):
            wall = {}
            for key, value in each.items():
                if key not in WALL:
                    what = f"wall {number} has no {key!r}"
                    raise self._fault(key, what, tuple(WALL), "wall", number)
                wall[key] = self._text(key, value, "wall", number)
            if "length" not in wall:
                raise JobError(f'{self.file}: wall {number} has no length; write length = "24\'"')
            if wall.get("kind", "eave") not in WALL_KINDS:
                raise JobError(
                    f"{self._where('kind', 'wall', number)}: a wall's kind is"
                    f" {', '.join(WALL_KINDS)}, not {wall['kind']!r}"
                )
            try:
                float(wall.get("turn", "90"))
            except ValueError:
                raise JobError(
                    f"{self._where('turn', 'wall', number)}: a turn is a number of degrees such as"
                    f" 90, not {wall['turn']!r}"
                ) from None
            walls.append(wall)
        return tuple(walls)

    def _text(self, key: str, value: Any, section: str, nth: int = 1) -> str:
        where = self._where(key, section, nth)
        if isinstance(value, bool) or not isinstance(value, str | int | float):
            raise JobError(f'{where}: {key} is a text or a number, as in {key} = "8 in 12"')
        text = str(value)
        if any(ord(letter) < 32 or ord(letter) == 127 for letter in text):
            raise JobError(f"{where}: {key} holds a control character")
        return text

    def _fault(
        self, key: str, what: str, known: tuple[str, ...], section: str = "", nth: int = 1
    ) -> JobError:
        return JobError(f"{self._where(key, section, nth)}: {what}; {nearest_word(key, known)}")

    def _where(self, key: str, section: str, nth: int = 1) -> str:
        """The file, and the line on which a key stands: in its section where that is known, and
        in the `nth` of that name."""
        inside, passed = not section, 0
        for number, line in enumerate(self.lines, start=1):
            header = re.match(r"\s*\[+\s*([\w-]+)\s*\]+", line)
            if header:
                passed += header[1] == section
                inside = not section or (header[1] == section and passed == nth)
                if header[1] == key:
                    return f"{self.file}, line {number}"
            elif inside and re.match(rf"\s*{re.escape(key)}\s*=", line):
                return f"{self.file}, line {number}"
        return self.file

    def place(self, name: str) -> str:
        """The file, the line and the name of a value, as an error is `about` it."""
        key, _, wall = name.partition(" of wall ")
        section = next((each for each, keys in SECTIONS.items() if key in keys), "")
        where = self._where(key, "wall", int(wall)) if wall else self._where(key, section)
        return f"{where}, {name}"


def place_of(path: Path, name: str) -> str:
    """The file, the line and the name of a value, as an error is `about` it."""
    return _Reader(path.name, read_text(path, JobError).splitlines()).place(name)
