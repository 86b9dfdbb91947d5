"""Pictures of one cut on a page: a view by its name, or all of them composed.

Each view is one picture or two, each with a room of its own on the page. The composed pages have
what is marked and set, in the order of the work; the larger the paper, the fewer they are.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal, get_args

from figures.ink.drawing import Box, Drawing, Label, label_box
from figures.ink.paper import Paper
from figures.page.sheet import Page, clear_field
from figures.pictures.along import seen_along
from figures.pictures.captions import cut_name
from figures.pictures.developed import developed
from figures.pictures.edge_on import plan_of_joint
from figures.pictures.gap import gap_against_mate
from figures.pictures.middle import marks_through_middle
from figures.pictures.miter_saw import miter_saw
from figures.pictures.pictorial import pictorial
from figures.pictures.saw_setting import setting
from figures.pictures.square_laid import square_on_edge, square_on_face
from figures.pictures.views import face_and_edge_views
from figures.place.room import Room
from figures.wood.mate import the_mate
from layout.answer.answer import Answer
from layout.answer.senses import is_hollow
from layout.answer.wording import given_line
from layout.errors import SheetError
from layout.tools.setting import Setting

CutView = Literal[
    "plan",
    "pictorial",
    "along",
    "faces",
    "middle",
    "square",
    "gauge",
    "saw",
    "miter-saw",
    "gap",
    "developed",
    "all",
]
VIEWS: tuple[CutView, ...] = get_args(CutView)
SHOWS: dict[CutView, str] = {
    "plan": "where the board lies, and what it meets",
    "pictorial": "the cut end in space",
    "along": "the board seen along its own mark",
    "faces": "face and edge, with both marks",
    "middle": "the marks laid out through the middle of the edge",
    "square": "the framing square on face and edge",
    "gauge": "the marking gauge on face and edge",
    "saw": "the circular saw on each face, and where it starts",
    "miter-saw": "the miter saw, board flat and on edge",
    "gap": "the gap that a wrong setting leaves",
    "developed": "all four sides of the board, unrolled",
    "all": "the pictures to work by",
}
GUTTER_IN = 0.2
_SLIGHT = 1e-9
DrawAnswer = Callable[[Answer, Room], Drawing]


@dataclass(frozen=True)
class PictureRow:
    """Pictures side by side: how each is drawn, and the height the row would like [in]."""

    draws: tuple[DrawAnswer, ...]
    height_in: float


def picture_page(
    answer: Answer, view: CutView, paper: Paper, *, wrong: Setting | None = None, version: str = ""
) -> Page:
    """One page with a view of the answer's cut; `wrong` is what the gap is drawn of.

    Of "all" the first of its pages. Raises SheetError for a view that the cut does not have, and
    for paper that is too small.
    """
    return next(_pages(answer, view, paper, wrong, "", version))


def picture_pages(
    answer: Answer,
    view: CutView,
    paper: Paper,
    *,
    wrong: Setting | None = None,
    wrong_does: str = "",
    version: str = "",
) -> tuple[Page, ...]:
    """All pages of a view: "all" takes as many as its pictures need on this paper.

    `wrong_does` is what was done wrong, said on the page that bears the gap.
    """
    return tuple(_pages(answer, view, paper, wrong, wrong_does, version))


def _pages(
    answer: Answer,
    view: CutView,
    paper: Paper,
    wrong: Setting | None,
    wrong_does: str,
    version: str,
) -> Iterator[Page]:
    rows = _rows(answer, view, wrong)
    page = Page(
        paper,
        Drawing(),
        title=f"{_named(answer)}: {SHOWS[view]}",
        given=given_line(answer),
        scale=None,
        version=version,
        description=f"Picture of {cut_name(answer)}: {SHOWS[view]}.",
    )
    while rows:
        shown = page
        drawing, count = _most_rows(answer, rows, clear_field(page))
        if wrong_does and count == len(rows):
            # The last page has the gap: a longer title may leave it less room.
            said = replace(page, given=f"{page.given}. {wrong_does}")
            drawing, count = _most_rows(answer, rows, clear_field(said))
            shown = said if count == len(rows) else page
        yield replace(shown, drawing=drawing)
        rows = rows[count:]


def _most_rows(answer: Answer, rows: Sequence[PictureRow], field: Box) -> tuple[Drawing, int]:
    """The rows that fill a page, drawn, and how many they are.

    Raises SheetError where the page is too small for one.
    """
    room = field[3] - field[1] + SLACK_IN
    for count in range(len(rows), 0, -1):
        if count > 1 and sum(row.height_in for row in rows[:count]) > room:
            continue
        try:
            return _composed(answer, rows[:count], field), count
        except SheetError:
            if count == 1:
                raise
    raise AssertionError("there is at least one row")


def _named(answer: Answer) -> str:
    """The cut; of a joint with two planes, what the answer's own lies against."""
    if len(answer.cuts) == 1:
        return cut_name(answer)
    mate = the_mate(answer.plane.mate_name)
    return f"{cut_name(answer)}, against {mate}"


SLACK_IN = 0.6
"""The rows of a composed page may be squeezed by this much in all [in]."""


def _rows(answer: Answer, view: CutView, wrong: Setting | None) -> list[PictureRow]:
    if view == "gauge" and not answer.is_rip:
        raise SheetError(
            "nothing is gauged on this cut: its lines are laid with the framing square, so ask"
            " for the view square"
        )
    if view == "gap" and wrong is None:
        raise SheetError("no known mistake leaves a gap on this cut: ask for another view")

    def gap(true_answer: Answer, room: Room) -> Drawing:
        assert wrong is not None
        return gap_against_mate(true_answer, wrong, room)

    if view == "all":
        return [*_all_rows(answer), *([PictureRow((gap,), 4.0)] if wrong is not None else [])]
    drawn = (gap,) if view == "gap" else DRAWN[view]
    return [PictureRow((draw,), 4.0) for draw in drawn]


def _all_rows(answer: Answer) -> list[PictureRow]:
    """The rows of a composed sheet, those first that no sheet goes without."""
    rows = [
        PictureRow((plan_of_joint, pictorial), 2.0),
        PictureRow((square_on_face, square_on_edge), 2.5),
        PictureRow((setting,), 5.4),
        PictureRow((face_and_edge_views,), 2.6),
    ]
    if not (answer.is_rip or is_hollow(answer)):
        rows.append(PictureRow((miter_saw, _miter_on_edge), 3.0))
    rows.append(PictureRow((developed,), 3.6))
    if not answer.is_rip:
        rows.append(PictureRow((seen_along,), 3.0))
        if abs(float(answer.cut.normal[1])) > _SLIGHT:
            rows.append(PictureRow((marks_through_middle,), 3.0))
    return rows


def _miter_on_edge(answer: Answer, room: Room) -> Drawing:
    return miter_saw(answer, room, "edge")


def _composed(answer: Answer, rows: Sequence[PictureRow], field: Box) -> Drawing:
    """The rows one under another, sharing the height as they ask for it."""
    left, bottom, right, top = field
    spare = top - bottom - GUTTER_IN * (len(rows) - 1)
    share = spare / sum(row.height_in for row in rows)
    drawing, y = Drawing(), top
    for i, row in enumerate(rows):
        high = row.height_in * share
        count = len(row.draws)
        wide = (right - left - GUTTER_IN * (count - 1)) / count
        for j, draw in enumerate(row.draws):
            part = _own(
                draw(answer, (wide, high)), f"{i + 1}{'ab'[j]}" if count > 1 else f"{i + 1}"
            )
            drawing += part.moved(left + j * (wide + GUTTER_IN), y - high)
        y -= high + GUTTER_IN
    return drawing


def _own(drawing: Drawing, place: str) -> Drawing:
    """The drawing with its place before every gid: the same name stands on several pictures."""

    def own(gid: str | None) -> str | None:
        return f"p{place}.{gid}" if gid else gid

    return Drawing(
        tuple(replace(stroke, gid=own(stroke.gid)) for stroke in drawing.strokes),
        tuple(replace(area, gid=own(area.gid)) for area in drawing.areas),
        tuple(replace(label, gid=own(label.gid)) for label in drawing.labels),
    )


def not_to_scale(page: Page) -> Page:
    """The page with every scale on it unsaid, for a file that is shown at any size."""
    labels = page.drawing.labels
    return replace(
        page, drawing=replace(page.drawing, labels=tuple(_unsaid(each, labels) for each in labels))
    )


def _unsaid(label: Label, labels: Sequence[Label]) -> Label:
    """A scale's label as NOT TO SCALE, on two lines where one would run into other words."""
    if (label.gid or "").split(".")[-1] != "scale":
        return label
    one = replace(label, text="NOT TO SCALE")
    box = label_box(one)
    crowded = any(box.intersects(label_box(other)) for other in labels if other is not label)
    return replace(one, text="NOT TO\nSCALE") if crowded else one


DRAWN: dict[CutView, tuple[DrawAnswer, ...]] = {
    "plan": (plan_of_joint,),
    "pictorial": (pictorial,),
    "along": (seen_along,),
    "faces": (face_and_edge_views,),
    "middle": (marks_through_middle,),
    "square": (square_on_face, square_on_edge),
    "gauge": (square_on_face, square_on_edge),
    "saw": (setting,),
    "miter-saw": (miter_saw, _miter_on_edge),
    "developed": (developed,),
}
"""What each view of a cut draws; a lesson calls the same drawing by the same name."""
