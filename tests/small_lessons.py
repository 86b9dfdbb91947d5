"""Two short lessons of the tests' own, which use every kind of block, and how they are run."""

from pathlib import Path

CHEEK = """\
number = 101
title = "A cheek for the yard"
cut = "hip-jack"
able = "You can put a cheek on a board at {pitch}."
agree = ["The hand leaves {hand_gap:gap}; up to {tolerance:gap} will do."]
cautions = ["A tilted blade throws the offcut aside."]

[given]
pitch = "8 in 12"
stock = "2x6"

[[situation]]
say = "The cut leaves one mark on the face & one on the edge."
picture = "faces"

[[hand]]
say = "Lay {face_blade:square} on the blade and {face_tongue:square} on the tongue."
picture = "square-on-face"

[[hand]]
say = "Mark the waste."

[[saw]]
say = "Tilt the saw to {tilt:deg}; the long face is {longer_by:in} longer."

[[mistake]]
name = "side-number-as-tilt"

[[mistake]]
name = "wrong-hand"

[[drill]]
kind = "number"
ask = "At {pitch}, which number stands across from {number(12):square}?"
answer = "edge_number:square"
hints = ["Look at the row for side cuts.", "Divide by the length of the common."]
because = "The edge runs up the slope."

[[drill]]
kind = "find-error"
ask = "One thing is wrong here. What is it?"
mistake = "side-number-as-tilt"
because = "The number belongs on the edge."

[[drill]]
kind = "mark"
ask = "Mark this cheek on the outline."
because = "Face {face_angle:deg}, edge {edge_angle:deg}."

[words]
"cheek" = "a cut that leans sideways"
"arris" = "the sharp edge where two surfaces meet"
"tilt" = "how far the blade leans"
"""

PLUMB = """\
number = 102
title = "A plumb cut for the yard"
cut = "common-ridge"
able = "You can put a plumb cut on a board at {pitch}."
agree = ["The hand leaves {hand_gap:gap}."]

[given]
pitch = "6 in 12"
stock = "2x4"

[[situation]]
say = "The board stands against a ridge."

[[hand]]
say = "Mark along the {face_arm}."

[[saw]]
say = "Keep the saw square."

[[mistake]]
name = "wrong-arm-on-face"

[[mistake]]
name = "wrong-arm-on-face"

[[drill]]
kind = "number"
ask = "At {pitch}, how far does the mark run along the board?"
answer = "runs_down_face:in"
because = "It falls by the pitch."

[words]
"plumb" = "straight up and down"
"""

NAMES = ("yard-cheek", "yard-plumb")


def small_catalog(folder: Path) -> Path:
    """The folder with both lessons in it."""
    for name, text in zip(NAMES, (CHEEK, PLUMB), strict=True):
        (folder / f"{name}.toml").write_text(text, "utf-8")
    return folder
