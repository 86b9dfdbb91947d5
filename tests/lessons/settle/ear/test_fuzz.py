"""Words of the trade in random order with random numbers and slips: no traceback, no guess, no
wait.

A claim whose readings come to different verdicts gets none; every answer comes in 50 ms.
Time is the process's own, and the least of five tries, since the machine may be busy.
"""

import random
import time

import pytest

from layout.answer.answer import Answer, answer
from layout.answer.question import ask
from layout.quantity import read_pitch
from lessons.settle.ear.hearing import hear, parted
from lessons.settle.ear.lexicon import lexicon
from lessons.settle.ear.trade_tokens import listen
from lessons.settle.findings import ClaimVerdict
from lessons.settle.lengths import Building, length_claim
from lessons.settle.settle import settle
from lessons.settle.settle_contract import settled_contract
from lessons.settle.settle_words import read_settled
from tests.counts import count

MOST_S = 0.05
CUTS = ("hip-jack", "common-ridge", "hip-backing", "common-seat", "hip-ridge", "purlin-square")
NUMBERS = ("12", "8", "45", "8 1/2", "35 1/4", "17", "10", "0", "90", "33.69", "5/16", "8/12", "⅞",
           "forty five", "eight and a half", "45°", "13'", "-5", "1e9", "3/0",
           "4'-6 1/2\"")  # fmt: skip


CHUNKS = 4
TELLING = ("mark", "saw", "miter", "square", "reference", "sense", "source")
"""Sections of the lexicon that a readable claim is made of: every second sentence has no others."""


def sentences(how_many: int, chunk: int) -> list[str]:
    dice = random.Random(14 + chunk)
    known = lexicon()
    every = [" ".join(words) for words in known.phrases]
    telling = [
        " ".join(words)
        for words, meaning in known.phrases.items()
        if known.group[meaning] in TELLING
    ]
    passed = sorted(lexicon().passed)
    said = []
    for _ in range(how_many):
        words = []
        phrases, most = (every, 14) if dice.random() < 0.5 else (telling, 5)
        for _ in range(dice.randint(1, most)):
            kind = dice.random()
            words.append(
                dice.choice(NUMBERS)
                if kind < 0.35
                else dice.choice(phrases)
                if kind < 0.85
                else dice.choice(passed)
                if kind < 0.95
                else dice.choice(",;.:-/()and")
            )
        text = " ".join(words)
        for _ in range(dice.choice((0, 0, 1, 2)) if text else 0):
            at = dice.randrange(len(text) + 1)
            text = dice.choice(
                (
                    text[:at] + text[at + 1 :],
                    text[:at] + dice.choice("abcdefghijklmnopqrstuvwxyz '°\"½") + text[at:],
                    text[:at] + text[at : at + 2][::-1] + text[at + 2 :],
                )
            )
        said.append(text)
    return said


def answers() -> list[Answer]:
    return [answer(ask(name, pitch=read_pitch("8 in 12"))) for name in CUTS]


def took_s(text: str, true_answer: Answer) -> float:
    """The processor's time for hearing this and judging it: the least of five, since whatever
    else the machine does only adds to it."""
    times = []
    for _ in range(5):
        for kept in (listen, parted):  # or only the first try would hear all of it
            kept.cache_clear()
        start = time.process_time()
        settle(true_answer, [hear(text, true_answer)])
        times.append(time.process_time() - start)
    return min(times)


@pytest.mark.parametrize("chunk", range(CHUNKS))
def test_no_sentence_breaks_it_is_guessed_at_or_keeps_anyone_waiting(chunk):
    rights = answers()
    for true_answer in rights:
        settle(true_answer, ["saw 45"])  # what is made once is made before the clock runs
    read = 0
    many = count(100_000 // CHUNKS, 400 // CHUNKS)
    for number, text in enumerate(sentences(many, chunk)):
        true_answer = rights[number % len(rights)]
        start = time.process_time()
        settled = settle(true_answer, [text or "?"])
        (found,) = settled.findings
        if time.process_time() - start > MOST_S:
            assert took_s(text, true_answer) <= MOST_S, text
        assert read_settled(settled), text  # what is found is also said, and given to programs
        assert settled_contract(settled)["claims"], text
        if found.verdict is ClaimVerdict.UNREAD:
            assert found.heard.why, text
            offered = found.heard.paste or found.heard.form.replace("N", "8")
            if length_claim(offered, true_answer, Building()) is None:
                (again,) = settle(true_answer, [offered], explained=False).findings
                assert again.verdict is not ClaimVerdict.UNREAD, (text, offered)
            continue
        read += 1
        if found.verdict in (ClaimVerdict.RIGHT, ClaimVerdict.WRONG):
            # one reading, or several that all come to the one verdict
            assert {tried.verdict for tried in found.tried} == {found.verdict}, text
            assert not any(tried.aside for tried in found.tried), text
    assert read > many / 20
