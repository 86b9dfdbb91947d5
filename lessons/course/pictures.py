"""The pictures that a lesson names, each a drawing of the lesson's own answer."""

from dataclasses import replace
from functools import cache
from importlib import import_module
from typing import TYPE_CHECKING

from layout.answer.answer import Answer
from layout.answer.sense_words import hand_line
from layout.answer.senses import faces, is_notch
from layout.answer.wording import short_answer
from layout.tools.setting import Setting
from lessons.mistakes.cut_mistakes import mistakes
from lessons.mistakes.mistake import Made, Misplaced, Proud
from lessons.say.blocks import PictureBlock

if TYPE_CHECKING:
    from figures.ink.drawing import Drawing
    from figures.pictures.gap import StoodAgainst
    from figures.place.room import Room

WIDE = frozenset(
    {"along", "saw", "both-faces", "cross-read", "three-triangles", "stepping", "tail-stepping"}
)
"""Pictures of two or three views side by side."""
LEAST_IN = {
    "unfolded": 3.6,
    "middle": 3.0,
    "wrong-tilt": 2.5,
    "faces": 2.6,
    "far-faces": 2.6,
    "center-line": 2.6,
    "square-on-face": 2.35,
    "square-on-edge": 2.8,
    "jack-row": 3.2,
    "ridge-taken-off": 2.8,
}
"""Least height of a picture whose small parts are what it is for [in on paper]."""
LITTLE_OFF_IN = 2.8
"""The same for the views of a rip or a notch, which take little off a board [in on paper]."""
SHOWS = {
    "plan": "where the board lies in the roof, and what it meets",
    "pictorial": "the cut end",
    "faces": "face and edge, with the mark on each",
    "square-on-face": "the square laid on the face",
    "square-on-edge": "the square laid on the edge",
    "saw-front": "the saw at its tilt, seen along the cut",
    "unfolded": "the drawing on a board that finds the edge mark",
    "wrong-tilt": "the gap that a tilt set to the side-cut number leaves",
    "saw": "the saw set on each face, with the way to go",
    "both-faces": "the shoe on each face, from above, with the way to go",
    "miter-saw": "the miter saw: table and tilt",
    "along": "the board seen along its own mark, beside the plan",
    "middle": "the marks laid out through the middle of the edge",
    "cross-read": "one scrap, read with the square on its edge and a sliding bevel at its end",
    "three-triangles": "the three right triangles that find the tilt",
    "stepping": "stepping off with the square: whole steps and a part of one",
    "tail-stepping": "stepping out the tail, past the building line",
    "jack-row": "three jacks in the unfolded roof, and how much longer each is",
    "ridge-taken-off": "what the ridge takes off, level and along the edge",
    "rule-across": "a rule laid across the square, from run to rise",
    "center-line": "from the center line of what is met back to its side, in plan",
    "far-faces": "the face and the edge on the far side, with the mark on each",
    "other-end": "the cut at the stick's other end",
}

DRAWN_BY = {
    "plan": ("figures.pictures.edge_on", "plan_of_joint"),
    "pictorial": ("figures.pictures.pictorial", "pictorial"),
    "faces": ("figures.pictures.views", "face_and_edge_views"),
    "square-on-face": ("figures.pictures.square_laid", "square_on_face"),
    "square-on-edge": ("figures.pictures.square_laid", "square_on_edge"),
    "saw-front": ("figures.pictures.saw_front", "steadier_saw_front"),
    "unfolded": ("figures.pictures.drawn_triangle", "edge_triangle"),
    "saw": ("figures.pictures.saw_setting", "setting"),
    "both-faces": ("figures.pictures.both_faces", "both_faces"),
    "miter-saw": ("figures.pictures.miter_saw", "miter_saw"),
    "along": ("figures.pictures.along", "seen_along"),
    "middle": ("figures.pictures.middle", "marks_through_middle"),
    "cross-read": ("figures.pictures.cross_read", "cross_read"),
    "three-triangles": ("figures.pictures.three_triangles", "three_triangles"),
    "stepping": ("figures.pictures.stepped", "stepped_in"),
    "tail-stepping": ("figures.pictures.stepped", "stepped_out"),
    "jack-row": ("figures.pictures.jack_row", "jacks_unfolded"),
    "ridge-taken-off": ("figures.pictures.ridge_taken", "ridge_taken_off"),
    "rule-across": ("figures.pictures.rule_across", "rule_across"),
    "center-line": ("figures.pictures.center_line", "to_center_line"),
    "far-faces": ("figures.pictures.views", "far_face_and_edge_views"),
    "other-end": ("figures.pictures.pictorial", "other_end"),
}
"""Module and function of each picture; loaded when one is drawn and not before."""


MOST_KEPT = 300
"""Drawings kept, so that lessons about one cut draw a picture once."""
_drawn: "dict[tuple[object, ...], Drawing]" = {}


def _asked_for(answer: Answer) -> tuple[object, ...]:
    """All that a picture of an answer depends on."""
    asked = answer.question
    return (
        asked.entry.name,
        asked.end,
        asked.pitch,
        asked.other_pitch,
        asked.corner_deg,
        asked.hand,
        asked.stock,
        asked.roll_deg,
        answer.plane_index,
        answer.metric,
        answer.tolerance_in,
        answer.limits,
    )


def picture(name: str, answer: Answer) -> PictureBlock:
    """The picture of that name for this answer; nothing is drawn until it is wanted."""
    return answer.once(("picture", name), lambda: _picture(name, answer))


def _picture(name: str, answer: Answer) -> PictureBlock:
    if name == "wrong-tilt":
        return _wrong_tilt(answer)

    def draw(room: "Room") -> "Drawing":
        key = (name, *_asked_for(answer), room)
        if key not in _drawn:
            if len(_drawn) >= MOST_KEPT:
                _drawn.clear()
            module, function = DRAWN_BY[name]
            _drawn[key] = getattr(import_module(module), function)(answer, room)
        return _drawn[key]

    shows = f"{SHOWS[name]}: {short_answer(answer)}"
    little = name == "faces" and (answer.is_rip or is_notch(answer))
    least_in = LITTLE_OFF_IN if little else LEAST_IN.get(name, 0.0)
    return PictureBlock(shows, draw, name in WIDE, _key(name, answer), least_in)


BY_PLANE = frozenset({"faces", "square-on-face", "square-on-edge", "saw", "middle"})
"""Pictures of a board with its plane, whatever the cut is called."""


def _key(name: str, answer: Answer) -> tuple[object, ...]:
    """All that a drawing shows: one drawing serves every lesson that has no more to show."""
    if name == "saw-front" and not answer.is_rip:
        return _saw_key(answer)
    if name == "unfolded":
        return _triangle_key(answer)
    if name == "three-triangles":
        return _leaning_key(answer)
    if name == "both-faces" and not answer.is_rip:
        return _faces_key(answer)
    return (name, *(_plane(answer) if name in BY_PLANE else _asked_for(answer)))


def _plane(answer: Answer) -> tuple[object, ...]:
    """A board and the planes that it is cut to; where there are several, which cut it is."""
    asked = answer.question
    return (
        tuple(tuple(round(float(part), 9) for part in cut.normal) for cut in answer.cuts),
        (asked.entry.name, asked.end) if len(answer.cuts) > 1 else None,
        answer.plane_index,
        (asked.stock.thickness_in, asked.stock.depth_in),
        hand_line(answer),
        answer.metric,
        answer.limits,
    )


def _triangle_key(answer: Answer) -> tuple[object, ...]:
    """The triangle that finds an edge mark: its sides, and what they are in the roof."""
    asked = answer.question
    return (
        "unfolded",
        round(answer.stick_slope_deg, 6),
        round(float(answer.cut.edge_number), 6),
        round(float(asked.joint.unit_run), 6),
        min(asked.corner_deg, 360.0 - asked.corner_deg),
        asked.joint.planes[answer.plane_index].mate_name,
        asked.entry.family == "jack",
        answer.metric,
    )


def _leaning_key(answer: Answer) -> tuple[object, ...]:
    """The triangles of a leaning board show its roof, its corner and its tilt."""
    asked = answer.question
    tilt = round(float(answer.cut.face_tilt_deg), 6)
    return ("three-triangles", asked.pitch.slope_deg, asked.corner_deg, tilt, answer.metric)


def _faces_key(answer: Answer) -> tuple[object, ...]:
    """Both faces from above show their line and the ways of the saw, but no tilt."""
    seen = (
        (one.side, one.below_shoe, one.toward, one.wide_side_on, tuple(one.start_from.items()))
        for one in faces(answer)
    )
    mark, depth = answer.face, answer.question.stock.depth_in
    angle_deg = round(mark.from_square_deg, 6)
    return ("both-faces", answer.limits, depth, answer.cut.at_head, angle_deg, mark.lean, *seen)


def _saw_key(answer: Answer) -> tuple[object, ...]:
    """The saw seen along its cut shows no pitch: one serves every cut with that tilt, on that
    face, on a board that thick."""
    thick = answer.question.stock.thickness_in
    if faces(answer)[0].square:
        return ("saw-front", "square", thick, answer.metric)
    seen = (
        (one.side, round(one.tilt_deg, 6), one.below_shoe, one.toward, one.wide_side_on)
        + (() if one.within_reach else (round(one.needs_in, 4),))
        for one in faces(answer)
    )
    return (
        "saw-front",
        answer.hand,
        thick,
        answer.cut.at_head,
        answer.face.lean,
        answer.metric,
        *seen,
    )


def _wrong_tilt(answer: Answer) -> PictureBlock:
    """The gap of a tilt set to the side-cut number; the fit itself where there is no such tilt."""
    made = mistakes()["side-number-as-tilt"].made_on(answer)
    setting = answer.saw_setting(as_read=False) if made is None else made.setting
    shown = gap_picture(answer, setting, SHOWS["wrong-tilt"])
    return replace(shown, wide=True, least_in=LEAST_IN["wrong-tilt"])


def gap_picture(
    answer: Answer, setting: Setting, shows: str, *, brief: bool = False
) -> PictureBlock:
    """A cut made with a wrong setting, stood against its mate; `brief` for a small room."""

    @cache
    def stood() -> "StoodAgainst":
        from figures.pictures.gap import StoodAgainst

        return StoodAgainst(answer, setting, brief)

    def draw(room: "Room") -> "Drawing":
        return stood().in_room(room)

    mate = answer.question.joint.planes[answer.plane_index].mate_words

    return PictureBlock(shows, draw, key=("gap", setting, brief, mate, *_plane(answer)))


def outline_picture(answer: Answer) -> PictureBlock:
    """The bare board to mark on, made to fit; its words say nothing of the marks."""

    def draw(room: "Room") -> "Drawing":
        from figures.pictures.marking import marking_outline

        outline = marking_outline(answer)
        left, bottom, right, top = outline.bounds(words=False)
        return outline.scaled(min(1.0, room[0] / (right - left), room[1] / (top - bottom)))

    return PictureBlock("the board to mark: face and edge, with nothing on them yet", draw)


def mistake_picture(answer: Answer, made: Made, shows: str) -> PictureBlock:
    """What a mistake leaves: a gap, a cut in the wrong place, or an edge that stands out."""
    if isinstance(made, Misplaced):
        return misplaced_picture(answer, made.moved_in, shows)
    if isinstance(made, Proud):
        return proud_picture(answer, shows)
    return gap_picture(answer, made.setting, shows)


def misplaced_picture(answer: Answer, moved_in: float, shows: str) -> PictureBlock:
    """The right cut at the wrong length, before its mate; plus is too long [inches]."""

    def draw(room: "Room") -> "Drawing":
        from figures.pictures.misplaced import misplaced_before_mate

        return misplaced_before_mate(answer, moved_in, room)

    return PictureBlock(shows, draw, key=("misplaced", moved_in, *_asked_for(answer)))


def proud_picture(answer: Answer, shows: str) -> PictureBlock:
    """A hip's square edge under the two roofs, seen along the hip."""

    def draw(room: "Room") -> "Drawing":
        from figures.pictures.proud import proud_of_roofs

        return proud_of_roofs(answer, room)

    return PictureBlock(shows, draw, key=("proud", *_asked_for(answer)))
