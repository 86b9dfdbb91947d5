"""Text and pictures set in rows down a page, and rows divided among pages.

A row is a drawing that hangs from the origin, to the right and down, and the height it takes.
Rows are made to a width, set one under another, and never broken: what does not fit goes to the
next page. Sizes are points, everything else inches on paper.

    rows = [words("By hand", 7.5, 13, bold=True), beside(words(step, 2.7), picture(drawing), 2.9)]
    for page in paginate(rows, 8.5):
        stacked(page)                one Drawing, hanging from the origin
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from figures.ink.drawing import Box, Drawing, Label, Stroke
from figures.ink.lettering import ASCENT_EM, DESCENT_EM, fraction_text, text_size, wrapped
from figures.ink.pens import PT_PER_IN

TEXT_PT = 10.0
LEAD_IN = 0.07
"""White under a row of words [in]."""
LEAST_SPARE_IN = 0.15
"""Less than this much more height is not worth drawing a picture again [in]."""
DOT_EVERY_IN = 0.09
"""Distance of the dots that lead to a page number [in]."""
DOT_IN = 0.02
LEAST_DOTS_IN = 8 * DOT_EVERY_IN
"""Length of such a dot, and of the shortest row of them [in]."""
CELL_IN = 0.04
"""White on either side of a table's cell, and over it under the line [in]."""
_LOOSE = 1e-9


@dataclass(frozen=True)
class Row:
    """A drawing that hangs from the origin, and the height it takes [in].

    `with_next` keeps it on one page with the row that follows: a heading with its text. `fresh`
    starts a page. A row `between` others (white, a rule) is left out at the top of a page.
    `taller` makes the same row with a height added, for a picture that can use what a page has
    left [in]. `anchor` names the row, so that its place on the page can be found again. `wide`
    sets it across both columns, where a page has two. `again` is set above it where it starts a
    page: the heading of the table that it goes on with.
    """

    drawing: Drawing
    height_in: float
    with_next: bool = False
    fresh: bool = False
    between: bool = False
    taller: "Callable[[float], Row] | None" = None
    anchor: str = ""
    wide: bool = False
    again: "Row | None" = None

    def indented(self, by_in: float) -> "Row":
        """The row moved to the right [in]."""
        return replace(self, drawing=self.drawing.moved(by_in, 0.0))


def words(
    text: str,
    width_in: float,
    size_pt: float = TEXT_PT,
    *,
    bold: bool = False,
    with_next: bool = False,
) -> Row:
    """A paragraph wrapped to a width."""
    lines = wrapped(fraction_text(text), size_pt, width_in, bold)
    label = Label(lines, 0.0, 0.0, size_pt, va="top", bold=bold)
    return Row(Drawing(labels=(label,)), text_size(lines, size_pt, bold)[1] + LEAD_IN, with_next)


def hung(lead: str, row: Row, indent_in: float, size_pt: float = TEXT_PT) -> Row:
    """A row moved to the right by an indent, with bold words (a step's number) in front of it."""
    first = next((label.size_pt for label in row.drawing.labels), size_pt)
    # Hung by their tops, words of two sizes would not stand on one baseline.
    down = ASCENT_EM * (size_pt - first) / PT_PER_IN
    label = Label(lead, 0.0, min(0.0, down), size_pt, va="top", bold=True)
    body = row.drawing.moved(indent_in, -max(0.0, down))
    height = max(row.height_in + max(0.0, down), size_pt / PT_PER_IN)
    return replace(row, drawing=Drawing(labels=(label,)) + body, height_in=height)


def picture(drawing: Drawing, width_in: float | None = None) -> Row:
    """A drawing hung from the origin by the upper left corner of its bounds.

    With `width_in` it stands in the middle of that width.
    """
    left, bottom, right, top = drawing.bounds()
    into = 0.0 if width_in is None else max(0.0, (width_in - (right - left)) / 2)
    return Row(drawing.moved(into - left, -top), top - bottom + LEAD_IN)


def beside(left: Row, right: Row, right_from_in: float) -> Row:
    """Two rows side by side, the second starting `right_from_in` from the left."""
    return Row(
        left.drawing + right.drawing.moved(right_from_in, 0.0),
        max(left.height_in, right.height_in),
    )


def columns(rows: Sequence[Row], column_in: float) -> Row:
    """Rows in two columns of nearly equal height, the second `column_in` to the right [in]."""
    heights = [row.height_in for row in rows]

    def taller(split: int) -> float:
        return max(sum(heights[:split]), sum(heights[split:]))

    split = min(range(len(rows) + 1), key=lambda at: (taller(at), -at))
    return beside(under(rows[:split]), under(rows[split:]), column_in)


def under(rows: Sequence[Row]) -> Row:
    """Rows set one under another as one that is not broken."""
    return Row(stacked(rows), sum(row.height_in for row in rows))


def space(height_in: float, *, with_next: bool = False) -> Row:
    """Empty paper between two rows, of a height [in]; left out at the head of a page."""
    return Row(Drawing(), height_in, with_next, between=True)


def rule(width_in: float, height_in: float = LEAD_IN, *, with_next: bool = False) -> Row:
    """A thin line across a width, with white under it."""
    line = Stroke(((0.0, 0.0), (width_in, 0.0)), "frame")
    return Row(Drawing((line,)), height_in, with_next, between=True)


def writing_lines(width_in: float, count: int, apart_in: float = 0.32) -> Row:
    """Thin lines to write an answer on, with room above each."""
    lines = tuple(
        Stroke(((0.0, -apart_in * (i + 1)), (width_in, -apart_in * (i + 1))), "frame")
        for i in range(count)
    )
    return Row(Drawing(lines), apart_in * count + LEAD_IN)


def framed(row: Row, width_in: float, pad_in: float = 0.08) -> Row:
    """A row in a box of a width, with white inside."""
    height = row.height_in - LEAD_IN + 2 * pad_in
    outline = ((0.0, 0.0), (width_in, 0.0), (width_in, -height), (0.0, -height), (0.0, 0.0))
    box = Drawing((Stroke(outline, "frame"),))
    return Row(box + row.drawing.moved(pad_in, -pad_in), height + LEAD_IN)


def table(
    head: Sequence[str],
    lines: Sequence[Sequence[str]],
    widths_in: Sequence[float],
    size_pt: float = TEXT_PT,
    *,
    head_again: bool = False,
) -> list[Row]:
    """A ruled table, a row a line, so that a long one goes on to the next page.

    With `head_again` its heading stands over what goes on there too, and no line goes on alone.
    """
    total = sum(widths_in)
    heading = _cells(head, widths_in, size_pt, bold=True)
    line_over = Drawing((Stroke(((0.0, 0.0), (total, 0.0)), "frame"),))
    made = [replace(heading, with_next=True)]
    for line in lines:
        cells = _cells(line, widths_in, size_pt, bold=False)
        down = Row(line_over + cells.drawing.moved(0.0, -CELL_IN), cells.height_in + CELL_IN)
        made.append(replace(down, again=heading if head_again else None))
    if head_again and lines:
        made[-2] = replace(made[-2], with_next=True)
    return made


def _cells(texts: Sequence[str], widths_in: Sequence[float], size_pt: float, bold: bool) -> Row:
    made, x, height = Drawing(), 0.0, 0.0
    for text, width in zip(texts, widths_in, strict=True):
        cell = words(text, width - 2 * CELL_IN, size_pt, bold=bold)
        made += cell.drawing.moved(x + CELL_IN, 0.0)
        height = max(height, cell.height_in)
        x += width
    return Row(made, height)


def paginate(rows: Iterable[Row], height_in: float) -> list[list[Row]]:
    """Divide rows among pages of a height; a row taller than the page stands alone on one."""
    pages: list[list[Row]] = []
    page: list[Row] = []
    used = 0.0
    for group in grouped(rows):
        tall = sum(row.height_in for row in group)
        if page and (group[0].fresh or used + tall > height_in + _LOOSE):
            pages.append(page)
            page, used = [], 0.0
        if not page:
            group = from_matter(group)
            again = group[0].again if group else None
            group = [again, *group] if again is not None else group
        page.extend(group)
        used += sum(row.height_in for row in group)
    return [*pages, page] if page else pages


def filled(page: Sequence[Row], height_in: float) -> list[Row]:
    """The rows of a page with what it has left of its height shared among those that can grow."""
    growing = [row for row in page if row.taller]
    spare = height_in - sum(row.height_in for row in page)
    if not growing or spare < LEAST_SPARE_IN * len(growing):
        return list(page)
    share = spare / len(growing)
    grown = [row.taller(share) if row.taller else row for row in page]
    fits = sum(row.height_in for row in grown) <= height_in + _LOOSE
    return grown if fits else list(page)


def grouped(rows: Iterable[Row]) -> Iterator[list[Row]]:
    """Groups of rows that must stay on one page: each with those that it is kept with."""
    group: list[Row] = []
    for row in rows:
        group.append(row)
        if not row.with_next:
            yield group
            group = []
    if group:
        yield group


def from_matter(group: list[Row]) -> list[Row]:
    """The rows from the first that does not only part others."""
    first = next((i for i, row in enumerate(group) if not row.between), len(group))
    return group[first:]


def stacked(rows: Sequence[Row]) -> Drawing:
    """Rows one under another as one drawing, hanging from the origin."""
    made, y = Drawing(), 0.0
    for row in rows:
        made += row.drawing.moved(0.0, y)
        y -= row.height_in
    return made


def anchors(rows: Sequence[Row], width_in: float) -> list[tuple[str, Box]]:
    """Each named row of a page and the box it takes, hanging from the origin [in]."""
    found, y = [], 0.0
    for row in rows:
        if row.anchor:
            found.append((row.anchor, (0.0, y - row.height_in, width_in, y)))
        y -= row.height_in
    return found


def leader_line(text: str, at_right: str, width_in: float, size_pt: float = TEXT_PT) -> Row:
    """Words, a row of dots, and words at the right end: a line of a list of contents.

    The dots of lines under one another stand under one another. Long words are wrapped, and the
    dots then follow their last line.
    """
    lines = wrapped(fraction_text(text), size_pt, width_in - LEAST_DOTS_IN).split("\n")
    last = lines.pop()
    row = words("\n".join([*lines, last]), width_in, size_pt)
    above = (words("\n".join(lines), width_in, size_pt).drawing,) if lines else ()
    begin = text_size(last, size_pt)[0] + DOT_EVERY_IN
    end = width_in - text_size(at_right, size_pt)[0] - DOT_EVERY_IN
    low = LEAD_IN - row.height_in
    base = low + DESCENT_EM * size_pt / PT_PER_IN
    dots = tuple(
        Stroke(
            ((width_in - DOT_EVERY_IN * i, base), (width_in - DOT_EVERY_IN * i + DOT_IN, base)),
            "frame",
        )
        for i in range(
            int((width_in - end) / DOT_EVERY_IN) + 1, int((width_in - begin) / DOT_EVERY_IN)
        )
    )
    ends = (
        Label(last, 0.0, low, size_pt),
        Label(at_right, width_in, low, size_pt, "right"),
    )
    return Row(sum(above, Drawing(dots, (), ends)), row.height_in)
