"""A stick of running measures, reduced: what stands where along a plate, ridge, hip or valley.

Ticks are the two sides of each stick that lands there, an X between them where it stands (common
practice, no source). A story pole has single marks. Everything is read from the end at the left.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from figures.ink.drawing import Drawing, Label, Stroke
from figures.ink.lettering import fraction_text, text_size
from layout.framing.crossing import Crossing
from layout.framing.running import Landing
from layout.quantity import write_long

BAR_IN, NAME_PT, GAP_IN = 0.3, 7.0, 0.05
"""Height of the stick on paper, its lettering [pt], and white before words [in]."""
APART_IN = 0.115
"""Words that stand up beside each other are at least this far apart [in]."""


@dataclass(frozen=True)
class PoleMark:
    """A mark on a pole: what it is, its measure from the start, and a second one, or none [in].

    The X stands between the two, so past the first. `outline` is the shape of what crosses a
    plate on the slant: along it [in], and across it as a share of its width.
    """

    name: str
    at_in: float
    to_in: float | None = None
    outline: tuple[tuple[float, float], ...] = ()


def landing_marks(found: Sequence[Landing]) -> tuple[PoleMark, ...]:
    """Sticks on a carrier as marks, those at one place together."""
    marks: dict[tuple[float, float], list[str]] = {}
    for one in found:
        marks.setdefault((round(one.near_in, 4), round(one.far_in, 4)), []).append(one.stick)
    return tuple(
        PoleMark(", ".join(names), near, far) for (near, far), names in sorted(marks.items())
    )


def crossing_marks(
    found: Sequence[Crossing], width_in: float, length_in: float
) -> tuple[PoleMark, ...]:
    """Hips and valleys on a plate of this width and length as marks, each with its own shape.

    The figure is to where a face's line meets the plate's edge: its outside one if it meets that.
    """
    marks = []
    for one in found:
        points = [point for _, *ends in one.lines for point in ends if point.edge != "end"]
        # A hip at an end shows its line that lies nearer the middle of the plate.
        outer = [point for point in points if point.edge == "outside edge"] or points
        if not outer:
            continue
        at = min(outer, key=lambda point: abs(point.along_in - length_in / 2)).along_in
        shape = tuple((along, across / width_in) for along, across in one.outline)
        marks.append(PoleMark(one.stick, at, outline=shape))
    return tuple(marks)


def pole(
    marks: Sequence[PoleMark], length_in: float, width_in: float, *, metric: bool = False
) -> Drawing:
    """The pole with its marks, reduced to a width, hanging from the origin [in on paper].

    Names stand below it, measures from its left end above. Words that would crowd each other are
    moved aside, each with a line to its mark: the nearer one of two.
    """
    low = min([0.0, *(mark.at_in for mark in marks)])
    high = max([length_in, *(mark.to_in or mark.at_in for mark in marks)])
    factor = (width_in - 2 * APART_IN) / (high - low)

    def at(value_in: float) -> float:
        return APART_IN + (value_in - low) * factor

    spots = _spread([at(mark.at_in) for mark in marks], width_in)
    said = [fraction_text(write_long(mark.at_in, metric=metric)) for mark in marks]
    above = max((text_size(text, NAME_PT)[0] for text in said), default=0.0) + 4 * GAP_IN
    top, bottom = -above, -above - BAR_IN
    strokes = [
        Stroke(
            (
                (at(low), top),
                (at(high), top),
                (at(high), bottom),
                (at(low), bottom),
                (at(low), top),
            ),
            "visible",
            "pole",
        )
    ]
    labels = []
    for mark, spot, text in zip(marks, spots, said, strict=True):
        if mark.outline:
            # The outside edge of a plate lies below, as on the plan of its first wall.
            rim = tuple((at(x), bottom + share * BAR_IN) for x, share in mark.outline)
            strokes.append(Stroke(rim, "cut", "slanted"))
            ends = []
        else:
            ends = [mark.at_in] if mark.to_in is None else [mark.at_in, mark.to_in]
        strokes += [Stroke(((at(e), top), (at(e), bottom)), "cut", "mark") for e in ends]
        if mark.to_in is not None and not mark.outline:
            x0, x1 = at(mark.at_in), at(mark.to_in)
            strokes += [
                Stroke(((x0, top), (x1, bottom)), "guide", "stands"),
                Stroke(((x0, bottom), (x1, top)), "guide", "stands"),
            ]
        # The figure is to the line nearer the start, so its leader stands on that line.
        near = at(mark.at_in)
        strokes += [
            Stroke(((near, top), (spot, top + 2 * GAP_IN)), "guide", "leader"),
            Stroke(((near, bottom), (spot, bottom - 2 * GAP_IN)), "guide", "leader"),
        ]
        labels += [
            Label(text, spot, top + 3 * GAP_IN, NAME_PT, "left", "center", rotation_deg=90.0),
            Label(
                mark.name, spot, bottom - 3 * GAP_IN, NAME_PT, "right", "center",
                rotation_deg=90.0, bold=True,
            ),
        ]  # fmt: skip
    return Drawing(tuple(strokes), (), tuple(labels))


def _spread(spots: Sequence[float], width_in: float) -> list[float]:
    """Spots in their order, moved aside until none crowds the next, inside a width [in]."""
    moved = list(spots)
    for i in range(1, len(moved)):
        moved[i] = max(moved[i], moved[i - 1] + APART_IN)
    over = moved[-1] - width_in if moved else 0.0
    if over > 0:
        moved[-1] -= over
        for i in range(len(moved) - 2, -1, -1):
            moved[i] = min(moved[i], moved[i + 1] - APART_IN)
    return moved
