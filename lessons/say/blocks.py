"""A lesson worked out: blocks of text and pictures, before any page or screen.

The runner makes blocks; the terminal, the PDF and the browser page each write the same ones.
"""

from collections.abc import Callable, Hashable, Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from layout.errors import SheetError

if TYPE_CHECKING:
    from figures.ink.drawing import Drawing
    from figures.place.room import Room


@dataclass(frozen=True)
class PictureBlock:
    """A drawing that is made when it is wanted, and what it shows in words.

    `wide` says that it is drawn for the whole width of a page. Pictures with one `key` are one
    picture: it holds all that the drawing depends on, and is None for one that stands alone.
    `least_in` is how high its room is to be at least, so that what it shows is not lost [in].
    `mark` is what a book calls it until its page is known.
    """

    shows: str
    draw: "Callable[[Room], Drawing]"
    wide: bool = False
    key: Hashable | None = None
    least_in: float = 0.0
    mark: str = ""

    def drawn_in_first(self, rooms: "Iterable[Room]") -> "Drawing":
        """The picture in the first of the rooms that is large enough.

        Raises SheetError where none is.
        """
        refused = SheetError("a picture was given no room")
        for room in rooms:
            try:
                return self.draw(room)
            except SheetError as error:
                refused = error
        raise refused


@dataclass(frozen=True)
class Heading:
    """A heading; level 1 for the lesson, 2 for its parts."""

    text: str
    level: int = 2


@dataclass(frozen=True)
class Paragraph:
    """Running text; `strong` for what must not be missed."""

    text: str
    strong: bool = False


@dataclass(frozen=True)
class TableBlock:
    """A table: its heads, its rows, and what it shows."""

    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    shows: str


@dataclass(frozen=True)
class Steps:
    """Things to do in order, each with the picture or the table that shows it, if any."""

    items: tuple[tuple[str, PictureBlock | TableBlock | None], ...]


@dataclass(frozen=True)
class Boxed:
    """An aside in a box: what it is for, and its sentences."""

    title: str
    lines: tuple[str, ...]


@dataclass(frozen=True)
class Facts:
    """Names and values, in two columns."""

    rows: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Mistaken:
    """A mistake with the gap it leaves: what is done, why it is wrong, the gap, and its picture,
    unless that stands elsewhere."""

    title: str
    text: str
    price: str
    picture: PictureBlock | None


@dataclass(frozen=True)
class Cautions:
    """The cautions of a lesson, a sentence each."""

    lines: tuple[str, ...]


@dataclass(frozen=True)
class Terms:
    """Words explained."""

    rows: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class ProblemBlock:
    """A drill worked out: what is asked, hints one after another, the answer and its reason.

    `layout` is somebody's finished work that is to be judged, or work with blanks to write in, line
    by line. `outline` is the bare board to mark on, `solved` the marks as they should stand on it.
    """

    ask: str
    answer: str
    because: str
    hints: tuple[str, ...] = ()
    layout: tuple[str, ...] = ()
    outline: PictureBlock | None = None
    solved: PictureBlock | None = None


@dataclass(frozen=True)
class DrillsBlock:
    """The problems of a lesson; their answers stand apart from them, or folded away.

    `opened` comes before them: the lesson's own steps for another pitch, with blanks.
    """

    problems: tuple[ProblemBlock, ...]
    opened: ProblemBlock | None = None


Block = (
    Heading
    | Paragraph
    | Steps
    | TableBlock
    | Boxed
    | Facts
    | Mistaken
    | Cautions
    | Terms
    | DrillsBlock
)
