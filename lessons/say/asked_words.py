"""A question about a cut as words of the command line, so that another command answers the same."""

import shlex

from layout.answer.question import Question


def asked_words(asked: Question) -> str:
    """The words after `squaresaw mark`, `template` or `read` that ask this question."""
    words = [asked.entry.name, "--pitch", str(asked.pitch)]
    if asked.other_pitch.slope_deg != asked.pitch.slope_deg:
        words += ["--other-pitch", str(asked.other_pitch)]
    if asked.entry.meets != "nothing" and asked.corner_deg not in (90.0, 270.0):
        words += ["--corner", f"{asked.corner_deg:.10g}"]
    if asked.two_hands:
        words += ["--hand", asked.hand.value]
    if len(asked.entry.ends) > 1:
        words += ["--end", asked.end]
    return shlex.join([*words, "--stock", asked.stock.name])
