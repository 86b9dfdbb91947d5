"""The board to be marked at full size: face and edge unfolded on one paper, with no mark on it.

Both marks are to run through one dot on the arris that face and edge share. As far as paper
allows the dot stands in the middle, so that the outline does not tell which way the marks lean.
"""

from dataclasses import dataclass
from typing import Literal

import shapely

from figures.ink.drawing import Area, Drawing, Label, Stroke
from figures.ink.lettering import text_size, wrapped
from figures.wood.unfolded import UnfoldedStick, both_bounds, broken, stick
from layout.answer.answer import Answer

LONGEST_IN = 7.7
"""The outline is no longer than this where the marks leave it room; it fits a sheet [in]."""
SHORTER_IN = 6.7
"""Length that leaves room for the notes of a sheet beside a 2x6 [in]."""
PAST_IN = 0.55
"""Board beyond the ends of the marks [in]."""
RIP_IN = 7.0
"""Board shown for a bevel along it [in]."""
DOT_IN = 0.04
NAME_PT, WORDS_PT = 8.5, 9.0
NAME_IN = 0.12
"""From a side of the board to words beside it [in]."""


@dataclass(frozen=True)
class _Reach:
    """How far the board runs from the dot to the left and to the right [in]."""

    left_in: float
    right_in: float


def marking_outline(answer: Answer, longest_in: float = LONGEST_IN) -> Drawing:
    """Face and edge of the answer's board at true size, the dot at (0, arris), nothing marked.

    `longest_in` is the greatest length drawn where the marks leave it room. The face
    lies at v from 0 to the depth. Gids: `face`, `edge`, `arris`, `dot`, `notes`.
    """
    shown = stick(answer)
    reach = _reach(answer, longest_in)
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
        drawing += broken((u, low), (u, high), past_in=0.0)
    if not answer.is_rip:
        dot = shapely.Point(0.0, arris).buffer(DOT_IN)
        drawing += Drawing(areas=(Area(dot, "ink", "dot"),))
    return drawing + _names(shown, left) + _notes(shown, reach, answer)


def _reach(answer: Answer, longest_in: float) -> _Reach:
    if answer.is_rip:
        return _Reach(min(RIP_IN, longest_in) / 2, min(RIP_IN, longest_in) / 2)
    shown, cut = stick(answer), answer.cut
    down = -1.0 if shown.edge == "top" else 1.0
    inward = 1.0 if shown.face == "right" else -1.0
    ends = (
        shown.to_head * float(cut.top_lean) * down * shown.depth_in,
        shown.to_head * float(cut.left_lean) * inward * shown.thickness_in,
    )
    left, right = -min(0.0, *ends), max(0.0, *ends)
    longest = max(left, right) + PAST_IN
    if 2 * longest <= longest_in:
        return _Reach(longest_in / 2, longest_in / 2)
    # The marks take more than half: whatever length there is over stands on the other side.
    spare = max(0.0, longest_in - left - right - 2 * PAST_IN)
    if left > right:
        return _Reach(left + PAST_IN, right + PAST_IN + spare)
    return _Reach(left + PAST_IN + spare, right + PAST_IN)


def _names(shown: UnfoldedStick, left: float) -> Drawing:
    """Which face this is, at the left end, out of the way of the marks."""
    v = NAME_IN if shown.edge == "top" else shown.depth_in - NAME_IN
    va: Literal["bottom", "top"] = "bottom" if shown.edge == "top" else "top"
    return Drawing(labels=(Label(f"{shown.face} face", left + NAME_IN, v, NAME_PT, va=va),))


def _notes(shown: UnfoldedStick, reach: _Reach, answer: Answer) -> Drawing:
    """Which edge this is, where the head is and where to start.

    They stand at the left end of the edge where both marks, whichever way they lean, leave it
    free; else below the board, which then takes more paper.
    """
    _, low, _, high = both_bounds(shown)
    left = -reach.left_in
    fold = "up" if shown.edge == "top" else "down"
    ahead = "at the right" if shown.to_head > 0 else "at the left"
    notes = [
        f"The {shown.edge} edge is folded {fold} from the dashed arris.",
        f"The HEAD of the board is {ahead}.",
    ]
    if not answer.is_rip:
        notes.append("Both marks of a cut meet at the dot; of two cheeks, those on this face.")
        runs = abs(float(answer.cut.left_lean)) * shown.thickness_in
        free = reach.left_in - runs - 3 * NAME_IN
        inside = "\n".join(
            [f"{shown.edge} edge", *(wrapped(note, WORDS_PT, free) for note in notes)]
        )
        wide, tall = text_size(inside, WORDS_PT)
        if wide <= free and tall <= shown.thickness_in - NAME_IN:
            middle = (shown.arris_v_in + (high if shown.edge == "top" else low)) / 2
            label = Label(inside, left + NAME_IN, middle, WORDS_PT, va="center", gid="notes")
            return Drawing(labels=(label,))
    below = Label("\n".join(notes), left, low - NAME_IN, WORDS_PT, va="top", gid="notes")
    return Drawing(labels=(below,))
