"""Of which plane of a joint a claim speaks, and of which board.

`Against the plate: ...` is how templates name a plane. `Saw 45 on a 2x8` is about a 2x8.
"""

import re

from layout.answer.answer import Answer
from layout.quantity import plain_text
from lessons.settle.ear.lexicon import lexicon
from lessons.settle.ear.trade_tokens import BOARD


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


def without_own_names(text: str, true_answer: Answer) -> str:
    """The claim without the name of the cut it is about, and of its mate, where no list has them.

    So a new cut is heard by its own name.
    """
    asked = true_answer.question
    whole = r"[\s-]".join(map(re.escape, asked.entry.name.split("-")))
    text = re.sub(rf"\b{whole}s?\s*(?=[:,;])", " ", text, flags=re.IGNORECASE)
    names = {*asked.entry.name.split("-"), *true_answer.plane.mate_words.lower().split()}
    known = lexicon()
    strange = sorted(word for word in names if word.isalpha() and not known.knows(word))
    if not strange:
        return text
    return re.sub(rf"\b(?:{'|'.join(strange)})s?\b", " ", text, flags=re.IGNORECASE)


def other_board(text: str, true_answer: Answer) -> str:
    """Why a claim is about another board than the one that it is held against; empty if not."""
    own = true_answer.question.stock.name.replace(" ", "")
    for found in BOARD.findall(plain_text(text)):
        named = found.replace(" ", "").replace("×", "x")
        if named != own:
            return f"that is another board; this cut is on a {own}: give --stock {named}"
    return ""


def _named(words: str) -> re.Pattern[str]:
    return re.compile(rf"\bagainst {re.escape(words)}(?![\w'])\s*:?", re.IGNORECASE)
