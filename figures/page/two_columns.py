"""Rows set in two columns down a page, and across both where one is wide.

What stands before a wide row is read down the left column, then down the right; the two are made
as even as they can be. Rows are never broken, and those that are kept together stay so. Sizes
are inches on paper.

    for page in in_two_columns(rows, 7.5, 8.3):
        drawn(page)                  one Drawing, hanging from the origin
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from figures.ink.drawing import Box, Drawing
from figures.page.flow import Row, from_matter, grouped
from layout.errors import SheetError

GUTTER_IN = 0.25
"""White between the columns [in]."""
LEAST_BAND_IN = 1.0
"""Less height than this at the foot of a page starts no new band [in]."""
BAND_IN = 0.1
"""White between bands [in]."""
_LOOSE = 1e-9


@dataclass(frozen=True)
class Placed:
    """A row and where its upper left corner hangs from the field's [in]."""

    row: Row
    x_in: float
    y_in: float


Group = list[Row]


def column_width(width_in: float) -> float:
    """Width of one column of a field [in]."""
    return (width_in - GUTTER_IN) / 2


def in_two_columns(
    rows: Iterable[Row], width_in: float, height_in: float
) -> list[tuple[Placed, ...]]:
    """The rows on as many pages of this field as they take.

    Raises SheetError for a row that is taller than the field.
    """
    pages = _FilledPages(width_in, height_in)
    waiting: list[Group] = []
    for group in grouped(rows):
        if group[0].fresh:
            pages.columns(waiting)
            waiting = []
            pages.turn()
        if any(row.wide for row in group):
            pages.columns(waiting)
            waiting = []
            pages.across(group)
        else:
            waiting.append(group)
    pages.columns(waiting)
    return pages.done()


def drawn(page: Sequence[Placed]) -> Drawing:
    """A page's rows as one drawing, hanging from the origin."""
    made = Drawing()
    for placed in page:
        made += placed.row.drawing.moved(placed.x_in, placed.y_in)
    return made


def named(page: Sequence[Placed], width_in: float) -> Iterator[tuple[str, Box]]:
    """Each named row of a page and the box it takes, hanging from the origin."""
    for placed in page:
        if placed.row.anchor:
            right = width_in if placed.row.wide else placed.x_in + column_width(width_in)
            low = placed.y_in - placed.row.height_in
            yield placed.row.anchor, (placed.x_in, low, right, placed.y_in)


class _FilledPages:
    """Pages being filled from the top down."""

    def __init__(self, width_in: float, height_in: float) -> None:
        self.width_in, self.height_in = width_in, height_in
        self._pages: list[list[Placed]] = [[]]
        self._used = 0.0

    def done(self) -> list[tuple[Placed, ...]]:
        """The pages that carry anything."""
        return [tuple(page) for page in self._pages if page]

    def turn(self) -> None:
        """Start a page, unless this one is still empty."""
        if self._pages[-1]:
            self._pages.append([])
            self._used = 0.0

    def across(self, group: Group) -> None:
        """Set a group over the whole width."""
        if self._used and self._used + _height([group]) > self.height_in + _LOOSE:
            self.turn()
        self._used += self._set([group], 0.0) + BAND_IN

    def columns(self, groups: list[Group]) -> None:
        """Set groups in two columns, on further pages where they do not fit."""
        while groups:
            room = self.height_in - self._used
            if room < LEAST_BAND_IN:
                self.turn()
                continue
            split, tall = _even(groups)
            if tall <= room + _LOOSE:
                rest: list[Group] = []
                left, right = groups[:split], groups[split:]
            else:
                left, rest = _filled(groups, room)
                right, rest = _filled(rest, room)
                tall = self.height_in
                if not left and self._used:
                    self.turn()
                    continue
                if not left:
                    what = "a step with its picture" if groups[0][0].drawing else "a row"
                    raise SheetError(
                        f"{what} takes {_height(groups[:1]):.3g} in of height, and the page has"
                        f" {room:.3g}: use larger paper"
                    )
            self._set(left, 0.0)
            self._set(right, column_width(self.width_in) + GUTTER_IN)
            self._used += tall + BAND_IN
            groups = rest
            if rest:
                self.turn()

    def _set(self, groups: Sequence[Group], x_in: float) -> float:
        y = -self._used
        for row in _of_column(groups):
            self._pages[-1].append(Placed(row, x_in, y))
            y -= row.height_in
        return -self._used - y


def _of_column(groups: Sequence[Group]) -> list[Row]:
    """The rows of a column, from the first that does not only part others."""
    return from_matter([row for group in groups for row in group])


def _height(groups: Sequence[Group]) -> float:
    return sum(row.height_in for row in _of_column(groups))


def _even(groups: Sequence[Group]) -> tuple[int, float]:
    """Where to part the groups so that the taller column is as low as can be, and its height."""

    def taller(split: int) -> float:
        return max(_height(groups[:split]), _height(groups[split:]))

    split = min(range(1, len(groups) + 1), key=lambda at: (taller(at), -at))
    return split, taller(split)


def _filled(groups: Sequence[Group], room_in: float) -> tuple[list[Group], list[Group]]:
    """The groups that fill a column of this height [in], and the rest."""
    count = 0
    while count < len(groups) and _height(groups[: count + 1]) <= room_in + _LOOSE:
        count += 1
    return list(groups[:count]), list(groups[count:])
