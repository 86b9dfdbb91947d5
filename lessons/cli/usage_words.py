"""What is wrong with a command line, with what would be right."""

import re

_LEFT_OVER = re.compile(r"Got unexpected extra arguments?(?:\(s\))? \((.*)\)")
_NO_CHOICE = re.compile(
    r"Invalid value for '(?P<option>[^']+)': (?P<given>.+) is not one of (?P<known>.+)\."
)
_MISSING = {
    "Missing option '--output'": "no file to write is named; name one, as in -o sheet.pdf",
    "Missing argument 'CUT": "no cut is named; `squaresaw cuts` lists them all",
}


def usage_words(said: str) -> str:
    """What the command-line library says, or what would be right where it says only what is wrong.

    >>> usage_words("Got unexpected extra argument(s) (pitch 7)")
    "'pitch 7' is left over; an option begins with two hyphens, as in --pitch 7"
    >>> usage_words("Invalid value for '--units': 'feet' is not one of 'inch', 'metric'.")
    "--units cannot be 'feet'; say inch or metric"
    """
    if left_over := _LEFT_OVER.fullmatch(said):
        return f"{left_over[1]!r} is left over; an option begins with two hyphens, as in --pitch 7"
    if choice := _NO_CHOICE.fullmatch(said):
        *first, last = (word.strip("'") for word in choice["known"].split(", "))
        known = f"{', '.join(first)} or {last}" if first else last
        return f"{choice['option']} cannot be {choice['given']}; say {known}"
    return next((right for wrong, right in _MISSING.items() if said.startswith(wrong)), said)
