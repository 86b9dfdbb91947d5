"""A job file's text and the form over it: the file stays the truth, its remarks stay in it.

A value of the form takes the place of its line in the file; one that is new goes under its
section, and one that was emptied goes out. Nothing else of the text is touched.
"""

import json
import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass

from layout.job.job import CHOICES, SECTIONS

FIELDS = tuple(key for values in SECTIONS.values() for key in values)
_HEADER = re.compile(r"\s*\[+\s*([\w-]+)\s*\]+")
_LINE = re.compile(r".*?\bline (\d+)(?:, [\w -]+)?: (.*)", re.DOTALL)


@dataclass(frozen=True)
class Fault:
    """What is wrong with a job, and the field beside which it is said; none for the whole file."""

    field: str
    text: str


def values_of(text: str) -> dict[str, str]:
    """The values of a job's text by name; none of a text that is no job."""
    try:
        tables = tomllib.loads(text)
    except (ValueError, RecursionError):  # no TOML, a number without end, brackets in brackets
        return {}
    found: dict[str, str] = {}
    for section in SECTIONS:
        values = tables.get(section)
        if isinstance(values, dict):
            found |= {key: str(value) for key, value in values.items() if key in FIELDS}
    return found


def with_values(text: str, values: Mapping[str, str]) -> str:
    """The text with these values in it; an empty one takes its line out.

    >>> print(with_values('[roof]\\n# the pitch\\npitch = "8 in 12"\\n', {"pitch": "9 in 12"}))
    [roof]
    # the pitch
    pitch = "9 in 12"
    <BLANKLINE>
    """
    lines = text.splitlines()
    before = values_of(text)
    for section, keys in SECTIONS.items():
        for key in keys:
            if key in values and values[key] != before.get(key, ""):
                lines = _put(lines, section, key, values[key])
    return "\n".join(lines) + "\n"


def _put(lines: list[str], section: str, key: str, value: str) -> list[str]:
    """The lines with one value set, or without it."""
    written = [f"{key} = {json.dumps(value, ensure_ascii=False)}"] if value else []
    inside, header, remark = False, None, None
    for at, line in enumerate(lines):
        if found := _HEADER.match(line):
            inside = found[1] == section
            header = at if inside else header
        elif inside and re.match(rf"\s*{re.escape(key)}\s*=", line):
            return [*lines[:at], *written, *lines[at + 1 :]]
        elif inside and re.match(rf"\s*#\s*{re.escape(key)}\s*=", line):
            remark = at  # a line that was written out, as an example
    if not written:
        return lines
    if remark is not None:
        return [*lines[:remark], *written, *lines[remark + 1 :]]
    if header is not None:
        return [*lines[: header + 1], *written, *lines[header + 1 :]]
    return [*lines, "", f"[{section}]", *written]


def fault_in(text: str, said: str) -> Fault:
    """Where a command's fault belongs: the field on the line that it names."""
    match = _LINE.fullmatch(said)
    if match is None:
        return Fault(_quoted(text, said), said)
    lines = text.splitlines()
    number = int(match[1])
    line = lines[number - 1] if 0 < number <= len(lines) else ""
    key = line.split("=")[0].strip()
    return Fault(key, match[2]) if key in FIELDS else Fault("", said)


def _quoted(text: str, said: str) -> str:
    """The one field whose value a fault quotes; empty where none or several have it."""
    quoted = re.findall(r"'([^']+)'", said)
    found = [
        key
        for key, value in values_of(text).items()
        if any(each and each in value for each in quoted)
    ]
    return found[0] if len(found) == 1 else ""


def sections() -> list[tuple[str, list[tuple[str, str, tuple[str, ...]]]]]:
    """Every field by section: its name, what it is, and its choices where it has some."""
    return [
        (section, [(key, what, CHOICES.get(key, ())) for key, what in keys.items()])
        for section, keys in SECTIONS.items()
    ]
