"""Lines with a word in the margin: what a settled claim and a sawn end are told in."""

import textwrap

WIDEST = 92
COLUMN = 13


def hanging(margin: str, text: str) -> list[str]:
    """A text wrapped beside its word in the margin, every further line set in as far."""
    return textwrap.wrap(
        text,
        WIDEST,
        initial_indent=margin.ljust(COLUMN),
        subsequent_indent=" " * COLUMN,
        break_on_hyphens=False,
    )
