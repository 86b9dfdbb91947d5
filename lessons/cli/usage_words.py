"""What is wrong with a command line, with what would be right."""

import re

_LEFT_OVER = re.compile(r"Got unexpected extra arguments?(?:\(s\))? \((.*)\)")
_MISSING = {
    "Missing option '--output'": "no file to write is named; name one, as in -o sheet.pdf",
    "Missing argument 'CUT": "no cut is named; `squaresaw cuts` lists them all",
}


def usage_words(said: str) -> str:
    """What the command-line library says, or what would be right where it says only what is wrong.

    >>> usage_words("Got unexpected extra argument(s) (pitch 7)")
    "'pitch 7' is left over; an option begins with two hyphens, as in --pitch 7"
    """
    if left_over := _LEFT_OVER.fullmatch(said):
        return f"{left_over[1]!r} is left over; an option begins with two hyphens, as in --pitch 7"
    return next((right for wrong, right in _MISSING.items() if said.startswith(wrong)), said)
