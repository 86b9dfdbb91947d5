"""A book's pictures, each drawn once: a later step that would draw it again names its page.

Which page that is, is known when all lessons are laid out. Until then the words hold the picture's
mark, and the row that draws it is anchored by the same one: `paged` fills in the number.
"""

import re
from collections.abc import Hashable, Iterable, Iterator, Mapping
from dataclasses import replace

from figures.ink.drawing import Drawing
from lessons.course.runner import Worked
from lessons.say.blocks import Block, Mistaken, PictureBlock, Steps, TableBlock

ELSEWHERE = "(The picture is on page {}.)"
SETTING_ELSEWHERE = "(For the setting alone, the picture is on page {}.)"
"""For a saw that stands square: the waste may lie on the other side of the picture's mark."""
MARK = "#{:03d}"
"""A picture's mark, a little wider than the page number that takes its place."""
_MARKED = re.compile(r"#\d{3}(?=\.\))")


def is_mark(anchor: str) -> bool:
    """Whether an anchor is a picture's mark, and not a heading."""
    return anchor.startswith("#")


def paged(drawing: Drawing, pages: Mapping[str, int]) -> Drawing:
    """The drawing with the page in place of each mark, by the page of each."""

    def page(found: re.Match[str]) -> str:
        return str(pages[found[0]])

    labels = tuple(
        replace(label, text=_MARKED.sub(page, label.text)) if "#" in label.text else label
        for label in drawing.labels
    )
    return replace(drawing, labels=labels)


def drawn_once(all_worked: Iterable[Worked]) -> Iterator[Worked]:
    """The same lessons, in the order of the book, without the pictures that stand in it already."""
    here = _BookPictures()
    for worked in all_worked:
        yield replace(worked, blocks=tuple(here.block(block) for block in worked.blocks))


class _BookPictures:
    """A book being read for its pictures; `marks` has the mark of each picture so far."""

    def __init__(self) -> None:
        self.marks: dict[Hashable, str] = {}

    def block(self, block: Block) -> Block:
        """The block without pictures that stand in the book already, the others marked."""
        match block:
            case Steps(items):
                return Steps(tuple(self._step(text, shown) for text, shown in items))
            case Mistaken(_, text, _, PictureBlock() as shown):
                text, here = self._once(text, shown)
                return replace(block, text=text, picture=here)
            case _:
                return block

    def _step(
        self, text: str, shown: PictureBlock | TableBlock | None
    ) -> tuple[str, PictureBlock | TableBlock | None]:
        return self._once(text, shown) if isinstance(shown, PictureBlock) else (text, shown)

    def _once(self, text: str, shown: PictureBlock) -> tuple[str, PictureBlock | None]:
        """Words and their picture with its mark; for one drawn before, the words name its place."""
        if shown.key is None:
            return text, shown
        if shown.key in self.marks:
            words = SETTING_ELSEWHERE if _setting_alone(shown.key) else ELSEWHERE
            return f"{text} {words.format(self.marks[shown.key])}", None
        mark = self.marks[shown.key] = MARK.format(len(self.marks))
        return text, replace(shown, mark=mark)


def _setting_alone(key: Hashable) -> bool:
    """Whether a picture shows a square saw, which serves cuts with the waste at either end."""
    return isinstance(key, tuple) and key[:2] == ("saw-front", "square")
