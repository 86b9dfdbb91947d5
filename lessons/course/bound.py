"""Whether a sentence's settings come from values: no number, side or end beside a setting word.

"Set the tilt to 45 degrees" is right for one roof and wrong for the next, and nobody sees it. So
a sentence of a lesson that speaks of a tilt, a mark, a number, a lean or a direction says which
one through a value in braces, or says under which condition it holds.
"""

import re

_BRACES = re.compile(r"\{[^{}]*\}")
_SENTENCE = re.compile(r"(?<=[.;:?!])\s+")
_SETTING = re.compile(
    r"\b(?:tilt\w*|marks?|marked|marking|numbers?|lean\w*|toward|bevels?)\b", re.I
)
_NUMBER = re.compile(r"(?<![\w{])\d+(?:[ ./]\d+)*(?:\s*(?:°|deg\w*|in\b))?|\bforty-five\b", re.I)
_SIDE = re.compile(
    r"\b(?:left|right)(?:-hand)? (?:face|end|side|hand|edge|cheek|cut|jack|hip)\b"
    r"|\btoward the (?:left|right|head|foot|top|bottom)\b"
    r"|\bleans? (?:left|right)\b"
    r"|\b(?:head|foot) end\b",
    re.I,
)
HOW = {
    "number": "a value such as {tilt:deg} or {number(12):square}",
    "side": "a value such as {hand}, {waste_end} or {face_leans}",
}


def unbound(text: str) -> tuple[str, str] | None:
    """The first literal number, side or end beside a setting word, and how to write it.

    None where every one comes from a value.

    >>> unbound("Set the tilt to 45 degrees.")
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
