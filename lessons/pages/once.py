"""A book's pictures, each drawn once: a later step that would draw it again names its lesson."""

from collections.abc import Hashable, Iterable, Iterator
from dataclasses import replace

from lessons.course.runner import Worked
from lessons.say.blocks import Block, Mistaken, PictureBlock, Steps, TableBlock

ELSEWHERE = "(The picture is in lesson {}.)"
EARLIER = "(The picture stands earlier in this lesson.)"


def drawn_once(all_worked: Iterable[Worked]) -> Iterator[Worked]:
    """The same lessons, in the order of the book, without the pictures that stand in it already."""
    drawn: dict[Hashable, int] = {}
    for worked in all_worked:
        here = _LessonPictures(worked.lesson.number, drawn)
        yield replace(worked, blocks=tuple(here.block(block) for block in worked.blocks))


class _LessonPictures:
    """A lesson being read for its pictures; `drawn` has the lesson of each picture so far."""

    def __init__(self, number: int, drawn: dict[Hashable, int]) -> None:
        self.number, self.drawn = number, drawn

    def block(self, block: Block) -> Block:
        """The block without pictures that stand in the book already."""
        match block:
            case Steps(items):
                return Steps(tuple(self._step(text, shown) for text, shown in items))
            case Mistaken(_, text, _, PictureBlock() as shown):
                where = self._where(shown)
                return replace(block, text=f"{text} {where}", picture=None) if where else block
            case _:
                return block

    def _step(
        self, text: str, shown: PictureBlock | TableBlock | None
    ) -> tuple[str, PictureBlock | TableBlock | None]:
        where = self._where(shown) if isinstance(shown, PictureBlock) else ""
        return (f"{text} {where}", None) if where else (text, shown)

    def _where(self, shown: PictureBlock) -> str:
        """Where the picture stands already; empty for one that is to be drawn here."""
        if shown.key is None:
            return ""
        if shown.key not in self.drawn:
            self.drawn[shown.key] = self.number
            return ""
        first = self.drawn[shown.key]
        return ELSEWHERE.format(first) if first != self.number else EARLIER
