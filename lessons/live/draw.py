"""Pictures of a cut for the live page: the lessons' own, as SVG."""

from collections.abc import Mapping, Sequence

from layout.answer.answer import Answer, answer
from layout.answer.question import ask
from layout.cuts import End, Hand
from layout.errors import CutError
from layout.quantity import read_angle, read_pitch
from layout.stock import read_stock

PICTURES = {
    "pictorial": "The cut end in the roof",
    "square-on-face": "The square on the face",
    "square-on-edge": "The square on the edge",
    "saw": "The saw, set on each face",
    "plan": "Where the board lies, and what it meets",
}
"""The pictures of a cut's page, in their order, and what each one shows."""
WIDE = frozenset({"saw"})
"""Pictures of several views, which a page shows as wide as it is."""
ROOMS_IN = ((3.5, 4.0), (3.5, 5.0), (4.5, 4.5), (6.0, 5.0), (7.5, 7.5))
"""Rooms a picture is drawn in, the first that is large enough [in]."""
ENDS: dict[str, End] = {"head": "head", "foot": "foot"}


def answered(filled: Mapping[str, str]) -> Answer:
    """The answer to a form's question. Raises LayoutError where the question has none."""
    hand, end = filled.get("hand", "left"), filled.get("end")
    if hand not in ("left", "right") or (end and end not in ENDS):
        raise CutError("a cut has a left or a right hand, and stands at the head or the foot")
    other, corner, board = (filled.get(name) for name in ("other_pitch", "corner", "stock"))
    roll = filled.get("roll", "0")
    sign = -1.0 if roll.startswith("-") else 1.0
    return answer(
        ask(
            filled["cut"],
            pitch=read_pitch(filled.get("pitch", "8 in 12")),
            other_pitch=read_pitch(other) if other else None,
            corner_deg=read_angle(corner) if corner else None,
            hand=Hand(hand),
            stock=read_stock(board) if board else None,
            end=ENDS[end] if end else None,
            roll_deg=sign * read_angle(roll.removeprefix("-")),
        )
    )


def claim_svg(filled: Mapping[str, str], said: Sequence[str], number: int) -> str:
    """The cut that one of these claims makes, against its mate; claims count from 1.

    Raises CutError for a claim that makes none.
    """
    from figures.files.inline import drawing_svg
    from lessons.course.pictures import gap_picture
    from lessons.settle.argument import argued
    from lessons.settle.claim import write_claim

    settled = argued(answered(filled), said)
    finding = dict(settled.read).get(number)
    if finding is None:
        raise CutError(f"claim {number} makes no cut that could be drawn")
    judged = finding.judged
    shown = gap_picture(settled.answer, judged.setting, write_claim(judged.claim), brief=True)
    return drawing_svg(shown.drawn_in_first(ROOMS_IN), shown.shows)


def picture_svg(name: str, filled: Mapping[str, str]) -> str:
    """One picture of a cut as SVG."""
    from figures.files.inline import drawing_svg
    from lessons.course.pictures import picture

    if name not in PICTURES:
        raise CutError(f"there is no picture {name!r}; the pictures are {', '.join(PICTURES)}")
    shown = picture(name, answered(filled))
    return drawing_svg(shown.drawn_in_first(ROOMS_IN), shown.shows)
