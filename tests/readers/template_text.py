"""What stands where in a template's words: its headings, its mates, and its ways to run the saw."""

import re
import unicodedata

import numpy as np

from tests.readers.words import (
    DEG,
    LEN,
    SURFACE,
    Pass,
    TwoReadingsError,
    UnreadError,
    number,
    one_reading,
)

HEADINGS = (
    "RIGHT FACE",
    "LEFT FACE",
    "TOP EDGE",
    "BOTTOM EDGE",
    "END GRAIN",
    "TO USE",
    "BY SAW",
    "FOOT HEAD",
    "THE BOARD",
    "FOR TRAINING",
    "WARNING",
    "NOTICE",
)
MATE = r"Against ([a-z' ]+): "
PLACE = r"(left face|right face|top edge|bottom edge|head|foot)"
KIND = r"(blade-left|blade-right)"
RUN = re.compile(
    rf"(?:{MATE})?Shoe on the {SURFACE}(?:, tilt {DEG})?"
    r"(?:, wide side of the shoe on the (?:(kept wood)(?:: the steadier way)?|(waste)"
    r"(?:, which must be held up|: clamp a board flush beside it)?))?\."
    rf"(?: Below the shoe the blade runs in under the (kept wood|waste), toward the {PLACE}\."
    r"| The blade stands square to its shoe\.)?"
    rf" Start at the {PLACE}(?: with a {KIND} saw(?:, at the {PLACE} with a {KIND} saw"
    rf"|; a {KIND} saw would start in the inside corner: use a handsaw))?\."
)
LAID = re.compile(
    rf"(?:Face|Edge) marks? {DEG} from square across, [^.]*\. Square: {LEN} on the blade,"
    rf" {LEN} on the tongue; mark along the (blade|tongue)\."
)
SIZE = re.compile(rf"Made for {LEN} x {LEN} in\.")
OPPOSITE = {"top edge": "bottom edge", "bottom edge": "top edge"}


def plain(text: str) -> str:
    """The text on one line, its fractions written with plain figures; one reading, or refused."""
    text = " ".join(unicodedata.normalize("NFKC", text).replace("\u2044", "/").split())
    one_reading(text)
    for degrees, blade, tongue, arm in LAID.findall(text):
        along, across = number(blade), number(tongue)
        if arm == "tongue":
            along, across = across, along
        if abs(np.degrees(np.arctan2(along, across)) - float(degrees)) > 0.45:
            raise TwoReadingsError(f"the square lays another line than {degrees} degrees")
    return text


def size_of(text: str) -> tuple[float, float]:
    """Thickness and depth of the board that the sheet is made for [in]."""
    if found := SIZE.search(text):
        return number(found[1]), number(found[2])
    raise UnreadError("the sheet does not say what board it is for")


def runs(words: str) -> list[tuple[str | None, Pass]]:
    """Each way to run the saw that the sheet tells, with the mate whose plane it cuts.

    Of a saw that would start in the inside corner, the start is the far end of the line.
    """
    found: list[tuple[str | None, Pass]] = []
    mate: str | None = None
    for said in RUN.finditer(words):
        mate = said[1] or mate
        one = Pass(said[2], float(said[3] or 0.0), said[6], said[7], wide=said[4] or said[5])
        if said[9] is None:
            one.starts = {"only": said[8]}
        elif said[12] is None:
            one.starts = {said[9]: said[8], said[11]: said[10]}
        else:
            one.starts = {said[9]: said[8], said[12]: OPPOSITE[said[8]]}
        if "only" not in one.starts and len(one.starts) != 2:
            raise TwoReadingsError(said[0])
        found.append((mate, one))
    if len(found) != words.count("Shoe on the") or len(found) < words.count("Start at"):
        raise UnreadError(f"how to run the saw is not understood: {words!r}")
    return found


def mates(words: str) -> list[str]:
    """The mates of which these words speak, in order."""
    return list(dict.fromkeys(re.findall(MATE, words)))


def against(words: str, mate: str | None) -> str:
    """What is said of the plane against one mate; all of it where the words name no mate."""
    pieces = re.split(MATE, words)
    said = dict(zip(pieces[1::2], pieces[2::2], strict=True))
    return words if mate is None or not said else said.get(mate, "")


def sections(text: str) -> dict[str, str]:
    """The words under each heading, up to the next one."""
    places = sorted(
        (match.start(), name) for name in HEADINGS for match in [_first(name, text)] if match
    )
    ends = [start for start, _ in places[1:]] + [len(text)]
    found = dict.fromkeys(HEADINGS, "")
    for (start, name), end in zip(places, ends, strict=True):
        found[name] = text[start + len(name) : end]
    return found


def _first(name: str, text: str) -> re.Match[str] | None:
    """Where a heading stands: a sentence begins after it, and not another name on the paper."""
    return next(re.finditer(rf"\b{name} (?=[A-Z][a-z]|LEFT-HAND|RIGHT-HAND)", text), None)
