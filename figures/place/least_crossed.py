"""Names that must all be on the sheet: each in the first of its places where nothing stands.

For a plan of many sticks: every one is named, whatever the crowd, so where no place is free the
name goes where it crosses least, and never onto another name while a line will do.
"""

from collections.abc import Iterable, Iterator

import shapely

from figures.ink.drawing import Drawing, Label, label_box

NAME_COST = 100
"""How many lines a name would rather cross than touch one other name."""


def least_crossed(
    wanted: Iterable[Iterable[Label]], drawing: Drawing, clear_in: float
) -> Iterator[Label]:
    """Each name at one of its places, tried in their order; those that come first choose first.

    `clear_in` is the white round a name [in]. A name without any place is left out.
    """
    lines = shapely.STRtree([shapely.linestrings(stroke.points) for stroke in drawing.strokes])
    taken = [label_box(label) for label in drawing.labels]
    for places in wanted:
        best, fewest = None, float("inf")
        for label in places:
            box = label_box(label, clear_in)
            crossed = len(lines.query(box, predicate="intersects"))
            crossed += NAME_COST * sum(1 for other in taken if other.intersects(box))
            if crossed < fewest:
                best, fewest = label, crossed
            if crossed == 0:
                break
        if best is not None:
            taken.append(label_box(best, clear_in))
            yield best
