"""Whether a sentence's settings come from values: no number, side or end beside a setting word.

"Set the tilt to 45 degrees" is right for one roof and wrong for the next, and nobody sees it. So
a sentence of a lesson that speaks of a tilt, a mark, a number, a lean or a direction says which
one through a value in braces, or says under which condition it holds.
"""

import re

_BRACES = re.compile(r"\{[^{}]*\}")
_SENTENCE = re.compile(r"(?<=[.;:?!])\s+")
_SETTING = re.compile(
    r"\b(?:tilt\w*|marks?|marked|marking|numbers?|lean\w*|slant\w*|toward|bevels?|shoe|start\w*"
    r"|set the (?:saw|blade) (?:to|at)|wide side|motor|(?:on|along) the (?:blade|tongue)"
    r"|below the shoe|table (?:to|at|turned)"
    r"|waste (?:at|on|lies|toward))\b",
    re.I,
)
_COUNTED = (
    r"(?:ten|eleven|twelve|(?:thir|four|fif|six|seven|eigh|nine)teen"
    r"|(?:twen|thir|for|fif|six|seven|eigh|nine)ty(?:[- ]\w+)?)"
)
_NUMBER = re.compile(rf"(?<![\w{{])\d+(?:[ ./]\d+)*(?:\s*(?:°|deg\w*|in\b))?|\b{_COUNTED}\b", re.I)
_SIDE = re.compile(
    r"\b(?:left|right)(?:-hand)? (?:face|end|side|hand|edge|cheek|cut|jack|hip|one)\b"
    r"|\b(?:toward|to) (?:the|your) (?:left|right|head|foot|top|bottom|waste|kept)\b(?! edge)"
    r"|\b(?:at|on) (?:the|your) (?:left|right)\b(?! \w+)"
    r"|\b(?:under|on|over) the (?:waste|kept wood)\b"
    r"|\bleans? (?:left|right)\b"
    r"|\b(?:start\w*|shoe|rides?)\b[^.;]*\b(?:top|bottom) edge\b"
    r"|\b(?:head|foot) end\b",
    re.I,
)
HOW = {
    "number": "a value such as {tilt:deg} or {number(12):square}",
    "side": "a value such as {hand}, {waste_end}, {face_leans}, {steadier_face} or {start}",
}


def unbound(text: str) -> tuple[str, str] | None:
    """The first literal number, side or end beside a setting word, and how to write it.

    None where every one comes from a value.

    >>> unbound("Set the tilt to 45 degrees.")
    ('45 degrees', 'a value such as {tilt:deg} or {number(12):square}')
    >>> unbound("Set the saw at 45 degrees.")
    ('45 degrees', 'a value such as {tilt:deg} or {number(12):square}')
    >>> unbound("Set the tilt to {tilt:deg}.")
    """
    for sentence in _SENTENCE.split(_BRACES.sub("…", text)):
        if _SETTING.search(sentence) is None:
            continue
        for kind, pattern in (("number", _NUMBER), ("side", _SIDE)):
            found = pattern.search(sentence)
            if found is not None:
                return found[0].strip(), HOW[kind]
    return None
