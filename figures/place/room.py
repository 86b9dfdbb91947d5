"""A picture put into its room on a sheet: a heading, the picture to scale, and notes below.

A picture is drawn anew for each scale, the largest first, until it and its words find room.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import shapely

from figures.ink.drawing import Drawing, Label, Stroke
from figures.ink.lettering import fraction_text, text_size, wrapped
from figures.ink.scale import Scale
from figures.place.placing import NoRoomError, Placing, Words, moved
from layout.errors import SheetError

Room = tuple[float, float]
"""Width and height on paper [in]."""

HEAD_PT, NOTE_PT = 10.0, 8.0
GAP_IN = 0.08
SHARES = ((0, 0), (0, 0.5), (0, -0.5), (0.5, 0), (-0.5, 0), (0.95, 0), (-0.95, 0))
"""Where a picture is tried in its room: shares of what is free on either side of its middle."""
STUDY_SCALES = (
    Scale(1.0, "1 : 1"),
    Scale(3 / 4, "3 : 4"),
    Scale(1 / 2, "1 : 2"),
    Scale(1 / 3, "1 : 3"),
    Scale(1 / 4, "1 : 4"),
    Scale(1 / 5, "1 : 5"),
    Scale(1 / 6, "1 : 6"),
    Scale(1 / 8, "1 : 8"),
    Scale(1 / 10, "1 : 10"),
    Scale(1 / 12, "1 : 12"),
    Scale(1 / 16, "1 : 16"),
    Scale(1 / 20, "1 : 20"),
    Scale(1 / 24, "1 : 24"),
    Scale(1 / 32, "1 : 32"),
)
"""Scales of a picture to study, the largest first; FULL SIZE is said beside check bars alone."""


SURELY_IN = 0.01
"""A picture that is larger than its room by so much is not a matter of rounding."""


@dataclass(frozen=True)
class Picture:
    """A drawing at its scale in inches on paper, anywhere, and the words it wants."""

    drawing: Drawing
    words: tuple[Words, ...] = ()

    def moved(self, dx_in: float, dy_in: float) -> "Picture":
        """The picture moved, words and all [in]."""
        return Picture(
            self.drawing.moved(dx_in, dy_in),
            tuple(moved(words, dx_in, dy_in) for words in self.words),
        )

    def under(self, prefix: str) -> "Picture":
        """The picture with a prefix before every gid, so that two of them stand apart in a file."""

        def own(gid: str | None) -> str | None:
            return prefix + gid if gid else gid

        drawing = self.drawing
        named = Drawing(
            tuple(replace(stroke, gid=own(stroke.gid)) for stroke in drawing.strokes),
            tuple(replace(area, gid=own(area.gid)) for area in drawing.areas),
            tuple(replace(label, gid=own(label.gid)) for label in drawing.labels),
        )
        words = tuple(
            replace(
                each,
                gid=own(each.gid),
                first=tuple(replace(label, gid=own(label.gid)) for label in each.first),
            )
            for each in self.words
        )
        return Picture(named, words)

    def __add__(self, other: "Picture") -> "Picture":
        return Picture(self.drawing + other.drawing, self.words + other.words)


def in_room(
    heading: str,
    notes: Sequence[str],
    room: Room,
    draw: Callable[[float], Picture],
    *,
    symbol: Drawing | None = None,
    scales: Sequence[Scale] = STUDY_SCALES,
    to_scale: bool = True,
) -> Drawing:
    """A picture with its heading and notes, from (0, 0) to the room's width and height.

    `draw` makes the picture for a factor, inches on paper for an inch of wood. Wood shrinks with
    the factor, what is drawn about it does not: a scale at which the last picture, shrunk all
    over, is too large still, is not drawn. `symbol` stands in the lower right corner. Raises
    SheetError where the room is too small for any scale.
    """
    width, height = room
    lowest, foot = _notes(notes, width, symbol)
    doubtful: int | None = None
    wider, higher, largest = 0.0, 0.0, 1.0
    for scale in scales:
        said = fraction_text(scale.text) if to_scale else "NOT TO SCALE"
        top, head = _heading(heading, said, width, height)
        field = (0.0, lowest, width, top)
        if field[3] - field[1] < 0.8:
            break
        share = scale.factor / largest
        if max(share * wider - width, share * higher - (field[3] - field[1])) > SURELY_IN:
            continue
        picture = draw(scale.factor)
        if doubtful is not None and doubtful >= len(picture.words):
            doubtful = None
        left, bottom, right, up = picture.drawing.bounds()
        wider, higher, largest = right - left, up - bottom, scale.factor
        spare_x, spare_y = width - (right - left), field[3] - field[1] - (up - bottom)
        if min(spare_x, spare_y) < 0:
            continue
        middle = field[0] + spare_x / 2 - left, field[1] + spare_y / 2 - bottom
        placing = Placing(
            picture.drawing.moved(*middle), [moved(words, *middle) for words in picture.words]
        )
        for share_x, share_y in SHARES:
            by = share_x * spare_x / 2, share_y * spare_y / 2
            # The field is moved, and not the drawing: what is known of that is known for all.
            about = field[0] - by[0], field[1] - by[1], field[2] - by[0], field[3] - by[1]
            try:
                made = placing.placed(about, doubtful)
                return (made.moved(*by) if any(by) else made) + head + foot
            except NoRoomError as missing:
                doubtful = missing.at
    raise SheetError(
        f"a room of {width:g} x {height:g} in is too small for {heading.lower()!r}:"
        " give it 4 x 4 in or more"
    )


def _heading(text: str, said: str, width: float, height: float) -> tuple[float, Drawing]:
    scale_wide = text_size(said, NOTE_PT, True)[0]
    lines = wrapped(fraction_text(text), HEAD_PT, width - scale_wide - 0.2, bold=True)
    label = Label(lines, 0.0, height, HEAD_PT, va="top", bold=True, gid="heading")
    scale = Label(said, width, height, NOTE_PT, "right", "top", bold=True, gid="scale")
    return height - text_size(lines, HEAD_PT, True)[1] - GAP_IN, Drawing(labels=(label, scale))


def _notes(notes: Sequence[str], width: float, symbol: Drawing | None) -> tuple[float, Drawing]:
    """The notes at the foot of the room, and how high they reach."""
    drawing = Drawing()
    high = 0.0
    if symbol is not None:
        left, bottom, right, top = symbol.bounds()
        drawing += symbol.moved(width - right, -bottom)
        high = top - bottom
        width -= right - left + 0.15
    if notes:
        lines = "\n".join(wrapped(fraction_text(note), NOTE_PT, width) for note in notes)
        drawing += Drawing(labels=(Label(lines, 0.0, 0.0, NOTE_PT, gid="notes"),))
        high = max(high, text_size(lines, NOTE_PT)[1])
    return (high + GAP_IN if high else 0.0), drawing


def third_angle() -> Drawing:
    """The symbol of the projection in which each view lies on the side it is seen from.

    A cut cone: its small end seen at the left, its side at the right (ISO 128, from memory).
    """
    strokes = [
        Stroke(tuple(shapely.Point(0.12, 0.12).buffer(r, 16).exterior.coords), "guide", "symbol")
        for r in (0.06, 0.12)
    ]
    cone = ((0.34, 0.06), (0.6, 0.0), (0.6, 0.24), (0.34, 0.18), (0.34, 0.06))
    strokes.append(Stroke(cone, "guide", "symbol"))
    strokes.append(Stroke(((-0.05, 0.12), (0.29, 0.12)), "centre", "symbol-axis"))
    strokes.append(Stroke(((0.3, 0.12), (0.66, 0.12)), "centre", "symbol-axis"))
    return Drawing(tuple(strokes))
