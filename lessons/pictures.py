"""The pictures that a lesson names, each a drawing of the lesson's own answer."""

from typing import TYPE_CHECKING

from layout.answer import Answer
from layout.setting import Setting
from layout.wording import short_answer
from lessons.blocks import Picture, Room

if TYPE_CHECKING:
    from figures.drawing import Drawing

SHOWS = {
    "plan": "where the board lies in the roof, and what it meets",
    "pictorial": "the cut end",
    "views": "face and edge, with the mark on each",
    "square-on-face": "the square laid on the face",
    "square-on-edge": "the square laid on the edge",
    "saw-front": "the saw at its tilt, seen along the cut",
}


def picture(name: str, answer: Answer) -> Picture:
    """The picture of that name for this answer; nothing is drawn until it is wanted."""

    def draw(room: Room) -> "Drawing":
        from figures.pictorial import pictorial
        from figures.plan import plan_of_joint
        from figures.tools import saw_front, square_on_edge, square_on_face

        from figures.views import face_and_edge_views

        drawn = {
            "plan": plan_of_joint,
            "pictorial": pictorial,
            "views": face_and_edge_views,
            "square-on-face": square_on_face,
            "square-on-edge": square_on_edge,
            "saw-front": saw_front,
        }
        return drawn[name](answer, room)

    return Picture(f"{SHOWS[name]}: {short_answer(answer)}", draw)


def gap_picture(answer: Answer, setting: Setting, shows: str) -> Picture:
    """A cut made with a wrong setting, stood against its mate."""

    def draw(room: Room) -> "Drawing":
        from figures.gap import gap_against_mate

        return gap_against_mate(answer, setting, room)

    return Picture(shows, draw)
