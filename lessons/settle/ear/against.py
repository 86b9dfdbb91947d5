"""Of which plane of a joint a claim speaks: `Against the plate: ...`, as templates print it."""

import re

from layout.answer.answer import Answer


def of_plane(text: str, true_answer: Answer) -> tuple[str, str]:
    """The claim without the name of its own plane's mate, and why it is about another plane.

    The second is empty where no other plane of this joint is named.
    """
    planes = true_answer.question.joint.planes
    own = planes[true_answer.plane_index].mate_words.lower()
    others = {plane.mate_words.lower() for plane in planes} - {own}
    for words in sorted(others, key=len, reverse=True):
        if _named(words).search(text):
            return text, f"that is the cut against {words}; this is the one against {own}"
    return _named(own).sub(" ", text), ""


def _named(words: str) -> re.Pattern[str]:
    return re.compile(rf"\bagainst {re.escape(words)}(?![\w'])\s*:?", re.IGNORECASE)
