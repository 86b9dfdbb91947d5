"""An answer as it is said, put in figures: `thirty-five and a quarter degrees`, `8 1/2 shy`."""

from layout.quantity import LARGEST
from lessons.settle.ear.heard_measure import HeardMeasure
from lessons.settle.ear.lexicon import lexicon
from lessons.settle.ear.measures import measured
from lessons.settle.ear.trade_tokens import listen

UNITS = {"deg": " deg", "in": " in", "in?": " in", "ft": " in", "": ""}


def in_figures(text: str) -> str | None:
    """The one number of an answer in figures, with its unit; None where there is none, or more.

    Words that say nothing are passed over, and slips mended; *shy* and *strong* take off or add
    what they do on a sheet. A number on 12 keeps its 12.

    >>> in_figures("thirty-five and a quarter degrees"), in_figures("about eight and a half on 12")
    ('35.25 deg', '8.5 on 12')
    """
    listened = listen(text)
    group = lexicon().group
    unknown = [
        token
        for token in listened.tokens
        if token.kind in ("unknown", "mark")
        or (token.kind == "cue" and group[token.name] == "refuse")
    ]
    found = [item for item in measured(listened.tokens) if isinstance(item, HeardMeasure)]
    if unknown or len(found) != 1 or not 0 <= found[0].value <= LARGEST:
        return None
    (one,) = found
    figures = f"{one.value:.10g}"
    if one.kind == "ratio" and one.joint == "on":
        return f"{figures} on {one.second:.10g}"
    return f"{figures}{UNITS[one.unit]}" if one.kind == "one" else None
