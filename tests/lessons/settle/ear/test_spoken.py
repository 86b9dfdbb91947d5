"""Numbers in words: written by a small speller apart from the program, and read back."""

import itertools

import pytest

from lessons.settle.ear.spoken import fraction_after, spoken

SMALL = [
    *("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"),
    *("eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen"),
    "nineteen",
]
TENS = ["", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"]


def spelled(number: int) -> list[str]:
    """A whole number under two thousand, in American English."""
    if number < 20:
        return [SMALL[number]]
    if number < 100:
        return [TENS[number // 10], *(spelled(number % 10) if number % 10 else [])]
    rest = number % 100
    return [*spelled(number // 100), "hundred", *(spelled(rest) if rest else [])]


FRACTIONS = {
    "a half": 1 / 2, "one half": 1 / 2, "a quarter": 1 / 4, "three quarters": 3 / 4,
    "two thirds": 2 / 3, "an eighth": 1 / 8, "five eighths": 5 / 8, "one sixteenth": 1 / 16,
    "fifteen sixteenths": 15 / 16, "nine thirty seconds": 9 / 32,
    "twenty one thirty seconds": 21 / 32,
    "one sixty fourth": 1 / 64, "three fourths": 3 / 4, "half": 1 / 2,
}  # fmt: skip


@pytest.mark.parametrize("behind", [[], ["on"], ["plumb", "two"]])
def test_every_whole_number_is_read_back_with_the_words_it_takes(behind):
    for number in range(400):
        words = spelled(number)
        assert spoken([*words, *behind], 0) == (number, len(words)), words
        assert spoken(["saw", *words, *behind], 1) == (number, len(words)), words
        if number > 100 and number % 100:
            said = [*words[:2], "and", *words[2:]]
            assert spoken([*said, *behind], 0) == (number, len(said)), said


def test_a_fraction_after_a_whole_number_is_added():
    for (words, value), number in itertools.product(FRACTIONS.items(), (1, 9, 12, 35, 104)):
        if words.startswith("an "):
            continue
        for joined in ([], ["and"]):
            if not joined and (words.split()[0] != "a"):
                continue  # eight three quarters is two numbers
            said = [*spelled(number), *joined, *words.split()]
            assert spoken([*said, "on"], 0) == (pytest.approx(number + value), len(said)), said
    assert spoken(["nine", "and", "5/8", "on"], 0) == (9.625, 3)
    assert spoken(["nine", "5/8", "on"], 0) == (9.625, 2)
    assert spoken(["nine", "and", "8/8"], 0) == (9, 1)
    assert spoken(["nine", "and", "0/8"], 0) == (9, 1)
    assert spoken(["nine", "and", "9/8"], 0) == (9, 1)
    assert spoken(["nine", "and"], 0) == (9, 1)


def test_a_fraction_stands_alone():
    for words, value in FRACTIONS.items():
        said = words.split()
        if said[0] == "an" or words in ("half",):
            continue
        assert spoken([*said, "drop"], 0) == (pytest.approx(value), len(said)), words
    assert spoken(["three", "quarters", "of", "an", "inch"], 0) == (0.75, 2)
    assert spoken(["half", "an", "inch"], 0) == (0.5, 2)
    assert spoken(["half", "inch"], 0) == (0.5, 1)
    assert spoken(["quarter", "degree"], 0) == (0.25, 1)
    assert spoken(["a", "quarter", "an", "inch", "drop"], 0) == (0.25, 3)


@pytest.mark.parametrize(
    "words",
    ["half the corner", "a half of that", "half of the pitch", "half", "quarter", "saw",
     "half as steep", "a", "a saw", "quarter my pitch"],
)  # fmt: skip
def test_a_part_of_something_is_no_number(words):
    assert spoken(words.split(), 0) is None


@pytest.mark.parametrize(
    ("words", "value", "taken"),
    [
        ("fortyfive on", 45, 1),
        ("thirtysix", 36, 1),
        ("forty ten", 40, 1),
        ("forty zero", 40, 1),
        ("twenty nine", 29, 2),
        ("thirty five point two five on", 35.25, 5),
        ("three point zero five", 3.05, 4),
        ("thirty point sixty nine on", 30.69, 4),
        ("thirty point", 30, 1),
        ("thirty point plumb", 30, 1),
        ("one hundred plumb", 100, 2),
        ("one hundred and plumb", 100, 2),
        ("two hundred and five", 205, 4),
        ("one hundred twenty and a half", 120.5, 6),
        ("twenty one thirty seconds", 21 / 32, 4),
        ("twenty one thirty", 21, 2),
        ("twenty one sixty fourths on", 21 / 64, 4),
        ("twenty one eighths", 21, 2),
        ("eight and half the corner", 8, 1),
        ("eight and a half of that", 8, 1),
        ("eight and a half of an inch", 8.5, 4),
    ],
)
def test_numbers_and_the_words_they_take(words, value, taken):
    assert spoken(words.split(), 0) == (pytest.approx(value), taken)


def test_a_fraction_goes_on_after_figures():
    assert fraction_after(["9", "and", "a", "half"], 1) == (0.5, 3)
    assert fraction_after(["9", "and", "three", "eighths", "on"], 1) == (0.375, 3)
    assert fraction_after(["9", "and", "11/16"], 1) == (0.6875, 2)
    assert fraction_after(["9", "11/16"], 1) == (0.6875, 1)
    assert fraction_after(["9", "and", "12", "on"], 1) is None
    assert fraction_after(["9", "half", "the", "corner"], 1) is None
    assert fraction_after(["9"], 1) is None
