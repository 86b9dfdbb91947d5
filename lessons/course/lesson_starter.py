"""The commented file that a new lesson starts from: a whole lesson, to be written over."""

from pathlib import Path

from layout.answer.answer import answer
from layout.answer.question import ask
from layout.cuts import Entry, catalogue
from lessons.course.lesson import catalog

STARTER = """\
# A lesson of your own: a whole one, to write over part by part. Texts may name values in braces:
# {{tilt:deg}}, {{pitch}}, {{edge_number:square}}, {{price(side-number-as-tilt):gap}}. They are
# worked out for whatever pitch, board and corner the lesson is asked for, so nothing goes stale.
# `squaresaw lesson values` lists all that may be named here; `squaresaw lesson check` with this
# file or its folder says what is wrong with it, with the line. Trade words are explained by
# themselves. A sentence that is true only in some roofs says so: when = "equal pitches, square
# corner". One that says a tilt, a mark or a side outright, with no value and no `when`, is refused.

number = {number}                 # its place in the course; this one is free
title = "{title}"
cut = "{cut}"            # any name that `squaresaw cuts` lists
able = "After this lesson you can lay out this cut and saw it, by both ways."
cautions = ["The offcut is short. Clamp the board, and keep your hands off the waste."]

[given]                     # used where the command says nothing else
pitch = "8 in 12"
stock = "{stock}"

[[situation]]               # one idea a step; a picture is one of:
say = "This board lies against {{mate}}."  # plan, pictorial, along, faces, middle,
picture = "plan"            # square-on-face, square-on-edge, saw-front, saw, miter-saw ...

[[hand]]                    # steps of your own have say = "..."; these are the course's, by name
{hand}

[[saw]]
use = "{saw}"

[[agree]]
use = "fits"

[[mistake]]                 # two or more that cost something, by name; the gap is worked out
name = "{first}"

[[mistake]]
name = "{second}"

{number_drill}

[[drill]]
kind = "find-error"
ask = "A crew has laid out this cut for {{pitches}} on {{stock}}. One line is wrong. Which, and why?"
mistake = "{first}"
hints = ["Lay it out yourself, and hold each line against yours."]
because = "Set so, the cut does not lie against {{mate}}."

[[drill]]
kind = "mark"
ask = "Mark this cut full size on the board: every mark, and the waste."
because = "The face mark runs {{face_angle:deg}} from square across; {{face_lean_words}}."

# [[check]]                 # what you state outright is held against the joint: for a roof of its
# pitch = "12 in 12"        # own, or with `when` for every such roof
# edge = "12 on 8 1/2"      # the number marked along first
# tilt = "45"

# [[drawn]]                 # how to find the numbers by drawing; [[aside]] is for a formula
# say = "Unfold the roof plane on a board."

# [teach]                   # for the instructor
# minutes = 45
# bring = "An offcut each."
# watch = "What goes wrong first."
# ask = "What to ask the class."

# [words]                   # words of your own; the course's are explained by themselves
# "short jack" = "the jack nearest the corner"
"""  # noqa: E501
CHEEK = {
    "hand": 'use = "lay-both-marks-again"',
    "saw": "saw-the-cheek-again",
    "first": "side-number-as-tilt",
    "second": "forty-five-on-edge",
    "number_drill": """\
[[drill]]                   # kinds: number, choose, find-error, dispute, mark
kind = "number"
ask = "For {pitches}: the side-cut number is {edge_number:square} on {number(12):square}. The board is {thickness:in} thick. How far apart, along the board, are the marks on both faces?"
answer = "longer_by:in"
hints = ["The edge mark runs {number(12):square} along for every {edge_number:square} across."]
because = "Laid on a scrap as thick, the mark measures {longer_by:in} along the board."
""".rstrip(),  # noqa: E501
}
SQUARE = {
    "hand": """\
say = "Lay {face_blade:square} on the blade and {face_tongue:square} on the tongue. Mark along the {face_arm}; {face_lean_words}."
picture = "square-on-face"

[[hand]]
use = "lay-one-mark"
""".rstrip(),  # noqa: E501
    "saw": "saw-square",
    "first": "wrong-arm-on-face",
    "second": "tilt-left-on",
    "number_drill": """\
[[drill]]                   # kinds: number, choose, find-error, dispute, mark
kind = "number"
ask = "The square lies with {face_blade:square} on the blade and {face_tongue:square} on the tongue, and the mark runs along the {face_arm}. How many degrees from square across is it?"
answer = "face_angle:deg"
hints = ["Lay it on a scrap with a straight edge, and measure with a protractor."]
because = "Laid so, the mark runs {face_angle:deg} from square across."
""".rstrip(),  # noqa: E501
}
"""What differs between a cut with a cheek and one that runs square across the edge."""


def starter(name: str, folder: Path | None = None) -> str:
    """A lesson file that keeps the course's rules as it stands, for a lesson of this name.

    A lesson that bears a cut's name is about that cut, on its usual board; any other starts from
    the hip jack. Its number is the next one that is free in the course, with the lessons of
    `folder` beside it. Raises LessonError where they cannot be read.
    """
    entry = catalogue().get(name) or catalogue()["hip-jack"]
    return STARTER.format(
        title=name.replace("-", " ").capitalize(),
        number=max(lesson.number for lesson in catalog(folder).values()) + 1,
        cut=entry.name,
        stock=entry.stock,
        **(CHEEK if _has_cheek(entry) else SQUARE),
    )


def _has_cheek(entry: Entry) -> bool:
    """Whether the cut's edge mark leans, on its usual board."""
    return answer(ask(entry.name)).edge.numbers is not None
