"""The board to be marked at full size: face and edge unfolded on one paper, with no mark on it.

Both marks are to run through one dot on the arris that face and edge share. As far as paper
allows the dot stands in the middle, so that the outline does not tell which way the marks lean.
"""

from dataclasses import dataclass

import shapely

from figures.drawing import Area, Drawing, Label, Stroke
from figures.stick import Stick, both_bounds, broken, stick
from layout.answer import Answer

LONGEST_IN = 7.7
"""The outline is no longer than this where the marks leave it room; it fits a sheet [in]."""
PAST_IN = 0.55
"""Board beyond the ends of the marks [in]."""
RIP_IN = 7.0
"""Board shown for a bevel along it [in]."""
DOT_IN = 0.04
NAME_PT, WORDS_PT = 8.5, 9.0


@dataclass(frozen=True)
class _Reach:
    """How far the board runs from the dot to the left and to the right [in]."""

    left_in: float
    right_in: float


def marking_outline(answer: Answer) -> Drawing:
    """Face and edge of the answer's board at true size, the dot at (0, arris), nothing marked.

    The face lies at v from 0 to the depth. Gids: `face`, `edge`, `arris`, `dot`, `notes`.
    """
    shown = stick(answer)
    reach = _reach(answer)
    left, right = -reach.left_in, reach.right_in
    _, low, _, high = both_bounds(shown)
    arris = shown.arris_v_in
    sides = [Stroke(((left, arris), (right, arris)), "fold", "arris")]
    outer = high if shown.edge == "top" else low
    far = 0.0 if shown.edge == "top" else shown.depth_in
    sides.append(Stroke(((left, far), (right, far)), "visible", "face"))
    sides.append(Stroke(((left, outer), (right, outer)), "visible", "edge"))
    drawing = Drawing(tuple(sides))
    for u in (left, right):
        drawing += broken((u, low), (u, high))
    if not answer.is_rip:
        dot = shapely.Point(0.0, arris).buffer(DOT_IN)
        drawing += Drawing(areas=(Area(dot, "ink", "dot"),))
    return drawing + _words(shown, left, right, low, high, answer.is_rip)


def _reach(answer: Answer) -> _Reach:
    if answer.is_rip:
        return _Reach(RIP_IN / 2, RIP_IN / 2)
    shown, cut = stick(answer), answer.cut
    down = -1.0 if shown.edge == "top" else 1.0
    inward = 1.0 if shown.face == "right" else -1.0
    ends = (
        shown.to_head * float(cut.top_lean) * down * shown.depth_in,
        shown.to_head * float(cut.left_lean) * inward * shown.thickness_in,
    )
    left, right = -min(0.0, *ends), max(0.0, *ends)
    longest = max(left, right) + PAST_IN
    if 2 * longest <= LONGEST_IN:
        return _Reach(LONGEST_IN / 2, LONGEST_IN / 2)
    # The marks take more than half: whatever length there is over stands on the other side.
    spare = max(0.0, LONGEST_IN - left - right - 2 * PAST_IN)
    if left > right:
        return _Reach(left + PAST_IN, right + PAST_IN + spare)
    return _Reach(left + PAST_IN + spare, right + PAST_IN)


def _words(shown: Stick, left: float, right: float, low: float, high: float, rip: bool) -> Drawing:
    """Names at the left end, out of the way of the marks; below, where to start and the head."""
    middle_of_edge = (shown.arris_v_in + (high if shown.edge == "top" else low)) / 2
    fold = "up" if shown.edge == "top" else "down"
    ahead = "at the right" if shown.to_head > 0 else "at the left"
    start = "" if rip else " Start both marks at the dot, unless the problem says otherwise."
    y = low - 0.12
    labels = (
        Label(f"{shown.face} face", left + 0.12, 0.12, NAME_PT),
        Label(f"{shown.edge} edge", left + 0.12, middle_of_edge, NAME_PT, va="center"),
        Label(
            f"The {shown.edge} edge is folded {fold} from the dashed arris.\n"
            f"The HEAD of the board is {ahead}.{start}",
            left,
            y,
            WORDS_PT,
            va="top",
            gid="notes",
        ),
    )
    return Drawing(labels=labels)
