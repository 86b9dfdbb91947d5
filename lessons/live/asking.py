"""What the forms ask, as the commands' own options."""

import re
from collections.abc import Iterable, Mapping
from contextlib import suppress
from dataclasses import dataclass
from itertools import groupby
from urllib.parse import parse_qsl, quote, unquote, urlencode, urlsplit

from layout.cuts import Entry, catalogue
from layout.errors import CutError, LayoutError
from layout.quantity import read_pitch
from lessons.course.lesson import Lesson, catalog
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
FIRST = ("common", "jack", "hip", "valley")
"""Families that are asked for most (common practice, no source), in this order; others follow."""
FILLERS = frozenset({"a", "an", "at", "cut", "cuts", "for", "of", "on", "rafter", "rafters", "the"})
"""Words of a search that every cut would answer to."""
SAME = {"creeper": "jack", "creepers": "jack", "birdsmouth": "mouth", "jacks": "jack",
        "hips": "hip", "valleys": "valley", "purlins": "purlin", "commons": "common"}  # fmt: skip
"""Other words for the same (common practice, no source)."""
LONGEST = 80
PAGES = ("marks", "settle", "roof", "learn", "bench", "class", "progress")
"""The pages whose addresses may be sent to someone with the same program."""
_SENT = re.compile(rf"/(?:{'|'.join(PAGES)})(?:/[A-Za-z0-9][A-Za-z0-9._ -]*)*")
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


def sent(text: str) -> str:
    """The path and question of an address that was sent, on whichever machine it was made.

    Raises CutError for what is no address of these pages.

    >>> sent("http://127.0.0.1:4711/marks/hip-jack?pitch=7+in+12")
    '/marks/hip-jack?pitch=7+in+12'
    """
    try:
        told = urlsplit(text.strip())
    except ValueError:
        told = urlsplit("")
    path = unquote(told.path)
    if _SENT.fullmatch(path) is None:
        raise CutError(
            "that is no address of these pages; one looks like"
            " http://127.0.0.1:8000/marks/hip-jack?pitch=7+in+12"
        )
    known = [(name, value) for name, value in parse_qsl(told.query) if name != "key"]
    return address(quote(path), dict(known))


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


def margin(groups: Iterable[Iterable[AnswerLine]], name: str) -> str:
    """What an answer says beside this word of its margin; empty where it says nothing there."""
    return next((line.text for group in groups for line in group if line.margin == name), "")


def bench_of(lesson: Lesson, filled: Mapping[str, str]) -> str:
    """The bench of a lesson's cut and its drills, for the learner's own pitch, board and hand."""
    asked = {"lesson": lesson.name}
    if "pitch" in filled:
        with suppress(LayoutError):
            asked["pitch"] = read_pitch(filled["pitch"]).said
    asked |= {name: filled[name] for name in ("stock", "hand") if name in filled}
    return address(f"/bench/{lesson.entry.name}", asked)


def families(search: str = "") -> list[tuple[str, list[Entry]]]:
    """The cuts by family, the most asked for first; of those only that speak of every trade word
    that is searched for, by their own words or by their lessons' titles."""
    words = [SAME.get(word, word) for word in _words(search) if word not in FILLERS]

    lessons = list(catalog().values()) if words else []

    def speaks(entry: Entry) -> bool:
        titles = [lesson.title for lesson in lessons if lesson.entry.name == entry.name]
        told = set(_words(" ".join((entry.name, entry.family, entry.says, *entry.ends, *titles))))
        return all(any(each.startswith(word) for each in told) for word in words)

    found = [entry for entry in catalogue().values() if speaks(entry)]
    grouped = [(family, list(cuts)) for family, cuts in groupby(found, key=lambda cut: cut.family)]
    places = {family: place for place, family in enumerate(FIRST)}
    return sorted(grouped, key=lambda each: places.get(each[0], len(places)))


def _words(text: str) -> list[str]:
    return re.findall(r"[a-z0-9]+", text.casefold().replace("'s", "").replace("\u2019s", ""))
