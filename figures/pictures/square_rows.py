"""The framing square with its rafter rows: where to read for a pitch, and how to prove the row.

Both arms are drawn to one scale and broken off, the tongue in its middle too. Under each inch of
the blade stands the column of the roof that rises so many inches in 12; the column and the row to
read are framed. A pitch between two inches has no column: what it would read is said below.
"""

from math import atan2, degrees, hypot

import shapely

from figures.ink.drawing import Area, Drawing, Label, Polygon, Stroke
from figures.ink.scale import Scale
from figures.place.placing import Words
from figures.place.room import Picture, Room, in_room
from figures.wood.unfolded import broken
from layout.length.table import rafter_row
from layout.quantity import Pitch, read_pitch, write_degrees, write_sixteenths
from layout.tools.square import TONGUE_IN

BLADE_WIDE_IN, TONGUE_WIDE_IN = 2.0, 1.5
RISES = range(2, 19)
"""The rises whose columns a square has room for (NAVEDTRA 14044 tabulates 2 to 18)."""
ROWS = (
    "common, per foot of run",
    "hip or valley, same run",
    "jacks 16 in apart differ",
    "jacks 24 in apart differ",
    "side cut of jacks",
    "side cut of hip or valley",
)
SIDE_CUT = 4
"""The row that the number on the edge is read from, counted from the top."""
ROW_PT, INCH_PT = 7.5, 8.5
BLADE_SHOWN_IN = 18.9
TONGUE_SHOWN_IN = ((0.0, 3.0), (10.6, 13.2))
"""How far along the blade is drawn, and which parts of the tongue, from the heel [in]."""
LETTERS = "ABCDEF"
SCALES = (Scale(1 / 2, "1 : 2"), Scale(2 / 5, "2 : 5"))
DOT_IN = 0.035


def square_with_rows(pitch: Pitch, room: Room) -> Drawing:
    """The square's blade with its rafter rows, the row and column for a pitch framed.

    From (0, 0) to the room's width and height [in on paper]. Gids: `square`, `column`, `row`,
    `cell` on the frames, `mark-number` and `other-number` on the dots where both arms are laid on
    the arris. Raises SheetError for a room that is too small.
    """
    row = rafter_row(pitch)
    number = write_sixteenths(row.jack_side_cut)
    letter, name = LETTERS[SIDE_CUT], ROWS[SIDE_CUT]
    where = (
        f"Read the column under {_column(pitch)}, row {letter}: {name}"
        if _column(pitch)
        else f"{pitch} lies between two columns: row {letter}, {name}, would read"
    )
    twelve = rafter_row(read_pitch("12")).jack_side_cut
    notes = [
        f"{where}: {row.jack_side_cut:.2f}, laid as {number}.",
        f"Lay 12 on the tongue and {number} on the blade, both on the arris (sharp edge), and mark"
        f" along the tongue: {write_degrees(90.0 - _angle(row.jack_side_cut))} from square across."
        " It is a number for the square, never a tilt for the saw.",
        "Prove the rows with 12 and 12: from 12 on the blade to 12 on the tongue a rule reads"
        f" {hypot(12.0, 12.0):.2f}, and that stands under 12 in row A. The side-cut number under 12"
        f" is 12 x 12 over it, {twelve:.2f}: find the row that reads so.",
        "Squares differ: some carry other rows. For a square corner and equal pitches.",
    ]
    return in_room(
        f"The framing square and its rafter rows, {pitch}",
        notes,
        room,
        lambda factor: _square(pitch, factor),
        scales=SCALES,
    )


def _angle(number: float) -> float:
    return degrees(atan2(number, 12.0))


def _column(pitch: Pitch) -> int | None:
    """The rise that has a column of its own; None for a pitch between two."""
    rise = round(pitch.rise_in_12, 6)
    return int(rise) if rise in RISES else None


def _square(pitch: Pitch, factor: float) -> Picture:
    heel, far = TONGUE_SHOWN_IN
    blade = shapely.box(0.0, 0.0, BLADE_SHOWN_IN, BLADE_WIDE_IN)
    parts = (
        shapely.union(blade, shapely.box(0.0, _down(heel[1]), TONGUE_WIDE_IN, BLADE_WIDE_IN)),
        shapely.box(0.0, _down(far[1]), TONGUE_WIDE_IN, _down(far[0])),
    )
    strokes = [
        Stroke(tuple(part.coords), "visible", "square")
        for shape in parts
        for part in shapely.get_parts(shapely.line_merge(_outline(shape)))
    ]
    halves = range(1, int(2 * BLADE_SHOWN_IN) + 1)
    strokes += [_tick(half / 2, True) for half in halves]
    strokes += [
        _tick(half / 2, False)
        for half in range(1, int(2 * TONGUE_IN))
        if any(start < half / 2 <= stop for start, stop in TONGUE_SHOWN_IN)
    ]
    areas = tuple(Area(shape, "steel") for shape in parts)
    drawing = Drawing(tuple(strokes), areas).scaled(factor)
    for start, stop in (
        ((BLADE_SHOWN_IN, 0.0), (BLADE_SHOWN_IN, BLADE_WIDE_IN)),
        *(((0.0, _down(at)), (TONGUE_WIDE_IN, _down(at))) for at in (heel[1], *far)),
    ):
        ends = [(x * factor, y * factor) for x, y in (start, stop)]
        drawing += broken(ends[0], ends[1], 0.05, 0.05)
    drawing += _columns(pitch, factor)
    number = rafter_row(pitch).jack_side_cut
    spots = (
        ((number, BLADE_WIDE_IN), "other-number", f"{write_sixteenths(number)} on the blade", 90.0),
        ((0.0, _down(12.0)), "mark-number", "12 on the tongue", 180.0),
    )
    words = []
    for (x, y), gid, said, way in spots:
        dot = shapely.Point(x * factor, y * factor).buffer(DOT_IN)
        drawing += Drawing(areas=(Area(dot, "ink", gid),))
        words.append(
            Words(said, (x * factor, y * factor), 9.5, bold=True, always=True, ways=(way,))
        )
    middle = (TONGUE_WIDE_IN, _down(11.0))
    names = (("blade", (12.0, 0.0), -90.0), ("tongue", middle, 0.0))
    words += [
        Words(said, (x * factor, y * factor), 9.0, ways=(way,), leader=False)
        for said, (x, y), way in names
    ]
    picture = Picture(drawing, tuple(words))
    x, y = 4.0 * factor, _down(far[0] - 0.5) * factor
    said = "\n".join(f"{letter}  {name}" for letter, name in zip(LETTERS, ROWS, strict=True))
    key = Label(said, x, y, 8.5, va="top", gid="rows-key")
    return picture + Picture(Drawing(labels=(key,)))


def _down(at: float) -> float:
    """Where a length from the heel down the tongue lies on the paper, its break closed [in]."""
    (_, heel), (far, _) = TONGUE_SHOWN_IN
    return BLADE_WIDE_IN - (at if at <= heel else at - (far - heel) + 0.4)


def _outline(shape: Polygon) -> shapely.Geometry:
    """The border of a part of the square, without the sides at which it is broken off."""
    (_, heel), (far, end) = TONGUE_SHOWN_IN
    ends = [shapely.LineString([(BLADE_SHOWN_IN, -1.0), (BLADE_SHOWN_IN, 3.0)])]
    ends += [
        shapely.LineString([(-1.0, _down(at)), (TONGUE_WIDE_IN + 1.0, _down(at))])
        for at in (heel, far, end)
    ]
    return shapely.boundary(shape).difference(shapely.union_all(ends).buffer(1e-7))


def _tick(at: float, on_blade: bool) -> Stroke:
    """A graduation on the outer edge of an arm, counted from the heel [in]."""
    long = 0.26 if at == int(at) else 0.14
    if on_blade:
        return Stroke(((at, BLADE_WIDE_IN), (at, BLADE_WIDE_IN - long)), "guide", "graduation")
    return Stroke(((0.0, _down(at)), (long, _down(at))), "guide", "graduation")


def _columns(pitch: Pitch, factor: float) -> Drawing:
    """The inch numbers, the six rows under them, and the frames of what is read."""
    low, high = 0.04, BLADE_WIDE_IN - 0.6
    step = (high - low) / len(ROWS)
    size = ROW_PT * factor / SCALES[0].factor
    labels = []
    for inch in range(1, int(BLADE_SHOWN_IN) + 1):
        at = (inch * factor, (BLADE_WIDE_IN - 0.29) * factor)
        labels.append(Label(str(inch), *at, size + 1.0, "center", "top", bold=True))
    for rise in RISES:
        for i, number in enumerate(_numbers(read_pitch(str(rise)))):
            y = (high - (i + 0.5) * step) * factor
            bold = rise == _column(pitch) and i == SIDE_CUT
            said = f"{number:.2f}"
            labels.append(Label(said, rise * factor, y, size, "center", "center", bold=bold))
    for i, letter in enumerate(LETTERS):
        y = (high - (i + 0.5) * step) * factor
        labels.append(Label(letter, 1.1 * factor, y, size, "center", "center", bold=True))
    strokes = []
    top, bottom = high - SIDE_CUT * step, high - (SIDE_CUT + 1) * step
    strokes.append(_frame(0.8, bottom, BLADE_SHOWN_IN - 0.3, top, "row", factor))
    column = _column(pitch)
    if column is not None:
        strokes.append(_frame(column - 0.48, low, column + 0.48, BLADE_WIDE_IN, "column", factor))
        strokes.append(_frame(column - 0.48, bottom, column + 0.48, top, "cell", factor))
    return Drawing(tuple(strokes), (), tuple(labels))


def _numbers(pitch: Pitch) -> tuple[float, ...]:
    row = rafter_row(pitch)
    return (row.common, row.line, *row.jack_differences, row.jack_side_cut, row.line_side_cut)


def _frame(left: float, bottom: float, right: float, top: float, gid: str, factor: float) -> Stroke:
    corners = ((left, bottom), (right, bottom), (right, top), (left, top), (left, bottom))
    pen = "visible" if gid == "cell" else "guide"
    return Stroke(tuple((x * factor, y * factor) for x, y in corners), pen, gid)
