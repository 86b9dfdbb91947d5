"""Claims that the page can settle: for each lesson both right ways, and the mistakes it warns of.

The page only chooses: every finding on it is `settle`'s own, worked out beforehand.
"""

from collections.abc import Callable, Iterable
from itertools import combinations

from layout.answer.answer import Answer
from layout.errors import LayoutError
from lessons.bench.pack import packed_scene, rounded
from lessons.course.lesson import Lesson
from lessons.course.runner import asked
from lessons.mistakes.cut_mistakes import mistakes
from lessons.say.contract import JsonObject
from lessons.say.hanging import unwrapped
from lessons.say.units import System, written
from lessons.settle.claim import Claim, claimed
from lessons.settle.findings import Settled
from lessons.settle.settle import settle
from lessons.settle.settle_notes import claim_words
from lessons.settle.settle_words import read_settled

PITCHES = ("4 in 12", "8 in 12", "12 in 12")
"""Roofs beside the lesson's own for which its claims are settled."""
MOST_CLAIMS = 5


def packed_claims(
    lessons: Iterable[Lesson], on_lesson: Callable[[], None] = lambda: None
) -> list[JsonObject]:
    """Every lesson's claims, settled one by one and two by two in a few roofs.

    Each is settled from its own words, so that what is heard is what stands on the page.
    """
    packed = []
    for lesson in lessons:
        roofs = [roof for pitch in _pitches(lesson) if (roof := _roof(lesson, pitch)) is not None]
        if roofs:
            packed.append({"name": lesson.name, "title": lesson.title, "roofs": roofs})
        on_lesson()
    return packed


def listed_claims(lesson: Lesson, true_answer: Answer) -> list[Claim]:
    """Both right settings, and those of the mistakes that the lesson warns of."""
    claims = [
        claimed(true_answer.hand_setting(as_read=True)),
        claimed(true_answer.saw_setting(as_read=True)),
    ]
    for warned in lesson.warned:
        made = (
            mistakes()[warned.name].made_on(true_answer) if warned.when.holds(true_answer) else None
        )
        if made is not None and made.mistake.shows:
            claims.append(claimed(made.setting))
    return list(dict.fromkeys(claims))[:MOST_CLAIMS]


def _pitches(lesson: Lesson) -> list[str]:
    return list(dict.fromkeys((lesson.given.get("pitch", "8 in 12"), *PITCHES)))


def _roof(lesson: Lesson, pitch: str) -> JsonObject | None:
    """The claims in one roof; None where the lesson's cut has no place in it."""
    try:
        true_answer = asked(lesson, {**lesson.given, "pitch": pitch})
        claims = [claim_words(true_answer, claim) for claim in listed_claims(lesson, true_answer)]
        alone = [settle(true_answer, [claim]) for claim in claims]
    except LayoutError:
        return None
    # Two together are what was found of each, heard and judged once.
    pairs = (
        Settled(true_answer, (*one.findings, *other.findings))
        for one, other in combinations(alone, 2)
    )
    return {
        "said": pitch,
        "scene": packed_scene(true_answer),
        "claims": [
            {
                "said": said,
                "found": _told(one),
                "verdict": one.judged[0].verdict.value,
                "normal": rounded(one.judged[0].setting.normal),
                "gap": written(one.judged[0].gap_in, "gap", System.INCH),
            }
            for said, one in zip(claims, alone, strict=True)
        ],
        "pairs": [_told(pair) for pair in pairs],
    }


def _told(settled: Settled) -> list[str]:
    return unwrapped(read_settled(settled).splitlines())
