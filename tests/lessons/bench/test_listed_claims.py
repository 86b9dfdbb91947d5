"""A listed claim says in its words what it says in its numbers: same verdict, same gap."""

import pytest

from layout.errors import LayoutError
from lessons.bench.claims import PITCHES, listed_claims
from lessons.course.lesson import catalog
from lessons.course.runner import asked
from lessons.settle.settle import settle
from lessons.settle.settle_notes import claim_words

OWN_GAP_IN = 0.01
"""Words round a tilt to the hundredth of a degree: less than this on the deepest board."""


@pytest.mark.parametrize("name", sorted(catalog()))
def test_words_are_judged_as_the_setting_is(name):
    lesson = catalog()[name]
    judged = 0
    for pitch in dict.fromkeys((lesson.given.get("pitch", "8 in 12"), *PITCHES)):
        try:
            true_answer = asked(lesson, {**lesson.given, "pitch": pitch})
        except LayoutError:
            continue
        claims = list(listed_claims(lesson, true_answer))
        if not claims:
            continue
        meant = settle(true_answer, claims).judged
        heard = settle(true_answer, [claim_words(true_answer, one) for one in claims]).judged
        for claim, by_setting, by_words in zip(claims, meant, heard, strict=True):
            assert by_words.verdict == by_setting.verdict, (pitch, str(claim))
            assert by_words.gap_in == pytest.approx(by_setting.gap_in, abs=OWN_GAP_IN)
            judged += 1
    assert judged
