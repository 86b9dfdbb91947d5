"""What the forms ask, as the commands' own options."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from itertools import groupby
from urllib.parse import urlencode

from layout.cuts import Entry, catalogue
from lessons.say.hanging import unwrapped

QUESTION = {
    "pitch": "--pitch",
    "other_pitch": "--other-pitch",
    "corner": "--corner",
    "hand": "--hand",
    "end": "--end",
    "stock": "--stock",
    "roll": "--roll",
}
"""Fields of a form that put a question about a cut, with the option that takes each."""
SAW = {
    "saw": "--saw",
    "tolerance": "--tolerance",
    "tilt_step": "--tilt-step",
    "max_tilt": "--max-tilt",
    "blade_depth": "--blade-depth",
}
LONGEST = 80
_MARGIN = re.compile(r"(\s*)(\S+(?: \S+)* (?= )|right face|looks like) +(\S.*)")


@dataclass(frozen=True)
class AnswerLine:
    """A line of a command's answer: what stands in its margin, and the rest."""

    margin: str
    text: str
    deeper: bool


def fields(query: Mapping[str, str], names: Iterable[str]) -> dict[str, str]:
    """The fields that were filled in, each cut to a sensible length."""
    found = {}
    for name in names:
        text = " ".join(query.get(name, "").split())[:LONGEST]
        if text:
            found[name] = text
    return found


def options(filled: Mapping[str, str], known: Mapping[str, str]) -> list[str]:
    """Filled fields as options, each in one piece, so that no value can pass for an option."""
    return [f"{known[name]}={text}" for name, text in filled.items() if name in known]


def address(path: str, filled: Mapping[str, str]) -> str:
    """A page's address with its question in it."""
    return f"{path}?{urlencode(filled)}" if filled else path


def lines(said: str, *, wrapped: bool = False) -> list[list[AnswerLine]]:
    """A command's words as groups of lines, as blank lines part them.

    Of words that were `wrapped` for the terminal each sentence is brought back onto one line: a
    page wraps by itself.
    """
    groups: list[list[AnswerLine]] = [[]]
    told = said.rstrip("\n").split("\n")
    for line in unwrapped(told) if wrapped else told:
        if not line.strip():
            groups.append([])
        elif match := _MARGIN.fullmatch(line):
            groups[-1].append(AnswerLine(match[2].strip(), match[3], bool(match[1])))
        else:
            groups[-1].append(AnswerLine("", line.strip(), line.startswith("      ")))
    return [group for group in groups if group]


def families(search: str = "") -> list[tuple[str, list[Entry]]]:
    """The cuts by family; of those only that speak of every word that is searched for."""
    words = search.casefold().replace("-", " ").split()

    def speaks(entry: Entry) -> bool:
        told = f"{entry.name} {entry.family} {entry.says} {' '.join(entry.ends)}".casefold()
        return all(word in told.replace("-", " ") for word in words)

    found = [entry for entry in catalogue().values() if speaks(entry)]
    return [(family, list(cuts)) for family, cuts in groupby(found, key=lambda cut: cut.family)]
