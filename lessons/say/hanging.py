"""Lines with a word in the margin: what a settled claim and a sawn end are told in."""

import textwrap

WIDEST = 92
COLUMN = 13


def in_margin(margin: str, text: str) -> str:
    """A text beside its word in the margin, all on one line; a longer word pushes it along."""
    return f"{margin:{COLUMN - 1}} {text}"


def hanging(margin: str, text: str) -> list[str]:
    """A text wrapped beside its word in the margin, every further line set in as far."""
    return textwrap.wrap(
        text,
        WIDEST,
        initial_indent=margin.ljust(COLUMN),
        subsequent_indent=" " * COLUMN,
        break_on_hyphens=False,
    )


def unwrapped(lines: list[str]) -> list[str]:
    """Lines as they were before they were wrapped, for a page that wraps by itself.

    A line goes on in the next one where that one's first word found no room behind it.

    >>> whole = "plumb mark by 8 in 12 " * 9
    >>> unwrapped(hanging("I heard", whole)) == ["I heard".ljust(13) + whole.strip()]
    True
    """
    whole: list[str] = []
    last = ""
    for line in lines:
        first = line.split(maxsplit=1)[:1]
        set_in = line.startswith(" " * COLUMN)
        if first and set_in and last.strip() and len(last) + 1 + len(first[0]) > WIDEST:
            whole[-1] = f"{whole[-1]} {line.strip()}"
        else:
            whole.append(line)
        last = line
    return whole
