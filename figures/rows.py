"""Text and pictures set in rows down a page, and rows divided among pages.

A row is a drawing that hangs from the origin, to the right and down, and the height it takes.
Rows are made to a width, set one under another, and never broken: what does not fit goes to the
next page. Sizes are points, everything else inches on paper.

    rows = [words("By hand", 7.5, 13, bold=True), beside(words(step, 3.4), picture, 7.5)]
    for page in paginate(rows, 9.0):
        stacked(page)                one Drawing, hanging from the origin
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from figures.drawing import Drawing, Label, Stroke
from figures.lettering import fraction_text, text_size, wrapped

TEXT_PT = 10.0
LEAD_IN = 0.07
"""White under a row of words [in]."""
GUTTER_IN = 0.2
"""White between two columns [in]."""


@dataclass(frozen=True)
class Row:
    """A drawing that hangs from the origin, and the height it takes [in].

    `with_next` keeps it on one page with the row that follows: a heading with its text.
    """

    drawing: Drawing
    height_in: float
    with_next: bool = False


def words(
    text: str,
    width_in: float,
    size_pt: float = TEXT_PT,
    *,
    bold: bool = False,
    indent_in: float = 0.0,
    lead: str = "",
    with_next: bool = False,
) -> Row:
    """A paragraph wrapped to a width; `lead` (a step's number) hangs in front of the indent."""
    lines = wrapped(fraction_text(text), size_pt, width_in - indent_in, bold)
    labels: tuple[Label, ...] = (Label(lines, indent_in, 0.0, size_pt, va="top", bold=bold),)
    if lead:
        labels = (Label(lead, 0.0, 0.0, size_pt, va="top", bold=True), *labels)
    height = text_size(lines, size_pt, bold)[1] + LEAD_IN
    return Row(Drawing(labels=labels), height, with_next)


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


def under(rows: Sequence[Row]) -> Row:
    """Rows set one under another as one that is not broken."""
    return Row(stacked(rows), sum(row.height_in for row in rows))


def space(height_in: float) -> Row:
    """White."""
    return Row(Drawing(), height_in)


def framed(row: Row, width_in: float, pad_in: float = 0.08) -> Row:
    """A row in a box of a width, with white inside."""
    height = row.height_in - LEAD_IN + 2 * pad_in
    outline = ((0, 0), (width_in, 0), (width_in, -height), (0, -height), (0, 0))
    box = Drawing((Stroke(outline, "frame"),))
    return Row(box + row.drawing.moved(pad_in, -pad_in), height + LEAD_IN)


def table(
    head: Sequence[str],
    lines: Sequence[Sequence[str]],
    widths_in: Sequence[float],
    size_pt: float = TEXT_PT,
) -> list[Row]:
    """A ruled table, a row a line, so that a long one goes on to the next page."""
    total = sum(widths_in)
    heading = _cells(head, widths_in, size_pt, bold=True)
    rule = Drawing((Stroke(((0.0, 0.0), (total, 0.0)), "frame"),))
    made = [replace(heading, with_next=True)]
    for line in lines:
        cells = _cells(line, widths_in, size_pt, bold=False)
        down = Row(rule + cells.drawing.moved(0.0, -0.04), cells.height_in + 0.04)
        made.append(down)
    return made


def _cells(texts: Sequence[str], widths_in: Sequence[float], size_pt: float, bold: bool) -> Row:
    made, x, height = Drawing(), 0.0, 0.0
    for text, width in zip(texts, widths_in, strict=True):
        cell = words(text, width - 0.08, size_pt, bold=bold)
        made += cell.drawing.moved(x + 0.04, 0.0)
        height = max(height, cell.height_in)
        x += width
    return Row(made, height)


def paginate(rows: Iterable[Row], height_in: float) -> list[list[Row]]:
    """Divide rows among pages of a height; a row taller than the page stands alone on one."""
    pages: list[list[Row]] = []
    page: list[Row] = []
    used = 0.0
    for group in _groups(rows):
        tall = sum(row.height_in for row in group)
        if page and used + tall > height_in:
            pages.append(page)
            page, used = [], 0.0
        page.extend(group)
        used += tall
    return [*pages, page] if page else pages


def _groups(rows: Iterable[Row]) -> Iterable[list[Row]]:
    """Rows that must stay on one page: each with those that it is kept with."""
    group: list[Row] = []
    for row in rows:
        group.append(row)
        if not row.with_next:
            yield group
            group = []
    if group:
        yield group


def stacked(rows: Sequence[Row]) -> Drawing:
    """Rows one under another as one drawing, hanging from the origin."""
    made, y = Drawing(), 0.0
    for row in rows:
        made += row.drawing.moved(0.0, y)
        y -= row.height_in
    return made
