"""What is written under `mistakes` is read back as the mistakes that a sheet's key names."""

import re

import pytest

from lessons.course.lesson import catalog
from lessons.drill.mistake_names import MistakeNameError, mistake_words, mistakes_named
from lessons.drill.worksheet import Series, meanings, rows, sheet_of

RISE, HABIT = "roof-rise-for-fall", "forty-five-as-tilt"
RISE_SAYS = "The roof's rise is taken for its fall beside the hip."
HABIT_SAYS = "The saw is tilted to 45 degrees out of habit."


@pytest.mark.parametrize(
    ("written", "names"),
    [
        ("", ()),
        (RISE_SAYS, (RISE,)),
        (" the roof\u2019s rise is taken for its fall  beside the hip ", (RISE,)),
        (f"7/8 in: {RISE_SAYS}", (RISE,)),
        (f"{HABIT_SAYS} Gap 23/64 in.", (HABIT,)),
        (f"{HABIT_SAYS} Gap 9.5 mm.", (HABIT,)),
        (f"{RISE_SAYS}; {HABIT_SAYS}", (RISE, HABIT)),
        (f"45°: {HABIT_SAYS} Gap 1/4 in. / {RISE_SAYS} Gap 1/4 in.", (HABIT, RISE)),
        (f"{HABIT_SAYS} Gap 1/4 in. Or: {RISE_SAYS}", (HABIT, RISE)),
        (RISE, (RISE,)),
        (f"{RISE} {HABIT}", (RISE, HABIT)),
        (f"{RISE}; {HABIT_SAYS}", (RISE, HABIT)),
        (f"{RISE} and {HABIT}", (RISE, HABIT)),
    ],
)
def test_a_sentence_of_the_key_is_one_mistake(written, names):
    """Each sentence stands for the one short name above it, whatever stands around it."""
    assert mistakes_named(written) == names


def test_every_short_name_has_a_sentence_that_is_read_back():
    """A table says the sentence; written under `mistakes`, it is the same mistake again."""
    series = Series(tuple(catalog().values()), (), 5, problems=12, kind="number")
    sheet = sheet_of(series, 1)
    names = {one.name for p in sheet.problems if p.sought for one in p.sought.wrongs}
    assert len(names) > 10
    for name in (*names, RISE, HABIT, "mirrored-mark"):
        assert mistakes_named(name) == (name,)
        words = mistake_words(name)
        assert words.endswith(".")
        assert words.startswith(words[0].upper())
        assert mistakes_named(words) == (name,)
    assert mistake_words(RISE) == RISE_SAYS
    assert mistake_words(HABIT) == HABIT_SAYS


@pytest.mark.parametrize("written", ["roof rise", "The rise is wrong.", f"{RISE} badly", "the"])
def test_other_words_are_refused(written):
    with pytest.raises(MistakeNameError, match=r"no mistake is called .* write the key's sentence"):
        mistakes_named(written)


def test_all_that_the_table_of_a_sheet_calls_a_wrong_answer_can_be_written_back():
    """As many mistakes are read as the table has sentences: each has one, and may have a gap."""
    series = Series(tuple(catalog().values()), (), 5, problems=12, kind="number")
    answers = [row["wrong_answers"] for row in rows(sheet_of(series, 1))]
    for answer in filter(None, answers):
        sentences = re.split("; | / ", answer)
        assert len(mistakes_named(answer)) == len(sentences)


def test_a_key_says_by_which_method_the_gap_of_a_wrong_face_mark_opens():
    """A hip's plumb cut laid on the common's 12: by saw at the tilt of 45 it is open by another
    amount than by handsaw, so the key names the one that it tells."""
    series = Series((catalog()["hip-plumb-cut"],), ("hip-plumb-cut",), 1, kind="number")
    told = [
        does
        for problem in sheet_of(series, 1).problems
        for meaning in meanings(problem)
        for does in meaning.does
        if does.startswith("The face is marked with the common's run")
    ]
    assert told
    assert all(re.search(r" Gap [^,]+, by saw at the right tilt\.$", one) for one in told), told
    # Written back as the key has it, it is still the one mistake.
    assert {mistakes_named(one) for one in told} == {("twelve-for-seventeen",)}
