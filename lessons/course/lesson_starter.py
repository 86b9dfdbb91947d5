"""The commented file that a new lesson starts from."""

from layout.cuts import catalogue

STARTER = """\
# A lesson of your own. Every text may name values in braces: {{tilt:deg}}, {{pitch}},
# {{edge_number:square}}, {{price(side-number-as-tilt):gap}}. They are worked out for whatever
# pitch, board and corner the lesson is asked for, so nothing in the text goes stale.
# `squaresaw lesson values` lists all that may be named here; `squaresaw lesson check` with this
# file's folder says what is wrong with it, with the line. Trade words are explained by themselves.
# A sentence that is true only in some roofs says so: when = "equal pitches, square corner". One
# that says a tilt, a mark or a side outright, with no value and no `when`, is refused.

number = 100                # its place in the course
title = "{title}"
cut = "{cut}"            # any name that `squaresaw cuts` lists
able = "After this lesson you can ..."
agree = ["Both cut one plane: the handsaw leaves {{hand_gap:gap}}, the saw {{saw_gap:gap}}."]

[given]                     # used where the command says nothing else
pitch = "8 in 12"
stock = "{stock}"

[[situation]]               # one idea a step; a picture is one of:
say = "What meets what."    # plan, pictorial, along, views, through-middle, square-on-face,
                            # square-on-edge, saw-front, saw-setting, miter-saw
picture = "plan"

[[hand]]
say = "Lay {{face_blade:square}} on the blade and {{face_tongue:square}} on the tongue."
picture = "square-on-face"

[[saw]]
say = "Set the tilt to {{tilt:deg}}."
picture = "saw-front"

[[mistake]]                 # two or more, by name; the gap is worked out
name = "side-number-as-tilt"

[[mistake]]
name = "wrong-hand"

[[drill]]                   # kinds: number, choose, find-error, dispute, mark
kind = "number"
ask = "At {{pitch}}, what number stands across from {{number(12):square}} on the edge?"
answer = "edge_number:square"
hints = ["Look in the row for side cuts."]
because = "The edge runs up the slope: {{edge_number:square}} on {{number(12):square}}."

# [[check]]                 # what you state outright is held against the joint: for a roof of its
# pitch = "12 in 12"        # own, or with `when` for every such roof
# edge = "12 on 8 1/2"      # the number marked along first
# tilt = "45"

# [[drawn]]                 # how to find the numbers by drawing; [[aside]] is for a formula
# say = "Unfold the roof plane on a board."

[words]                     # words of your own; the course's are explained by themselves
"short jack" = "the jack nearest the corner"
"""


def starter(name: str) -> str:
    """A lesson file that can be read as it stands, for a lesson of this name.

    A lesson that bears a cut's name is about that cut, on its usual board; any other starts from
    the hip jack.
    """
    entry = catalogue().get(name) or catalogue()["hip-jack"]
    title = name.replace("-", " ").capitalize()
    return STARTER.format(title=title, cut=entry.name, stock=entry.stock)
