"""Text with named values: `{tilt:deg}`, `{price(side-number-as-tilt):gap}`, `{pitch}`.

Checked when it is read: an unknown name, a missing or foreign unit and a wrong number of
arguments are errors, so that no lesson fails in front of a class.
"""

import difflib
import re
from dataclasses import dataclass
from functools import cache

from layout.answer.answer import Answer
from layout.errors import LayoutError
from lessons.say.units import UNITS, System, written
from lessons.values.all_values import values

_PLACE = re.compile(r"\{([^{}]*)\}")
_NAMED = re.compile(r"([a-z_]+)(?:\(([^()]*)\))?(?::([0-9a-z]+))?")


class NamedTextError(LayoutError):
    """A text that names a value wrongly; `place` is the text in braces."""

    def __init__(self, message: str, place: str) -> None:
        super().__init__(message)
        self.place = place


@dataclass(frozen=True)
class NamedText:
    """A text whose named values are known to exist; build one with `read_named_text`.

    `where` is the file and line it stands in, for the error where a value does not exist.
    """

    text: str
    where: str = ""

    def fill(self, answer: Answer, system: System = System.INCH) -> str:
        """The text with every named value written out. Raises LayoutError where one has no value
        for this answer, such as a number for a mark that runs square across."""

        def read(asked: str) -> str:
            name, arguments, unit = _parsed(asked)
            return written(values()[name].read(answer, *arguments), unit, system)

        def put(match: re.Match[str]) -> str:
            return answer.once((match[1], system), lambda: read(match[1]))

        try:
            return _PLACE.sub(put, self.text)
        except LayoutError as error:
            raise LayoutError(f"{self.where}: {error}" if self.where else str(error)) from None


def read_named_text(text: str, where: str = "") -> NamedText:
    """Check the text's named values. Raises NamedTextError that quotes the faulty place."""
    for match in _PLACE.finditer(text):
        _parsed(match[1])
    without = _PLACE.sub("", text)
    if "{" in without or "}" in without:
        raise NamedTextError(f"a brace is left open in {text!r}", text)
    return NamedText(text, where)


def read_name(place: str) -> tuple[str, tuple[str, ...], str]:
    """A single named value, as it stands between braces: name, arguments, unit."""
    return _parsed(place)


@cache
def _parsed(place: str) -> tuple[str, tuple[str, ...], str]:
    match = _NAMED.fullmatch(place.strip())
    if match is None:
        raise NamedTextError(f"{{{place}}} is no named value; write {{name:unit}}", place)
    name, inside, unit = match[1], match[2], match[3] or ""
    known = values().get(name)
    if known is None:
        near = difflib.get_close_matches(name, values(), n=3, cutoff=0.5)
        offer = f"did you mean {' or '.join(near)}?" if near else "see `squaresaw lesson values`"
        raise NamedTextError(f"{{{place}}} names no known value; {offer}", place)
    arguments = tuple(part.strip() for part in inside.split(",")) if inside else ()
    try:
        known.arguments_of(arguments)
    except LayoutError as error:
        raise NamedTextError(f"{{{place}}}: {error}", place) from None
    units = UNITS[known.kind]
    if unit not in units and (units or unit):
        offer = f":{' or :'.join(units)}" if units else "no unit"
        said = f":{unit}" if unit else "no unit"
        raise NamedTextError(
            f"{{{place}}} has {said}; {name} is of the kind {known.kind} and takes {offer}", place
        )
    return name, arguments, unit
