"""Claims about lengths and drops, held against the triangles they come from."""

import json
from math import sqrt

import pytest

from figures.ink.paper import read_paper
from layout.answer.answer import answer
from layout.answer.question import ask
from layout.errors import SheetError
from layout.quantity import read_pitch
from lessons.cli.main import run
from lessons.settle.argument import argued
from lessons.settle.findings import ClaimVerdict
from lessons.settle.lengths import Building
from lessons.settle.settle_page import settled_pages

RUN_IN = 72.0
RIGHT, WRONG, OPEN = ClaimVerdict.RIGHT, ClaimVerdict.WRONG, ClaimVerdict.OPEN
HIP_IN = RUN_IN * sqrt(2 + (8 / 12) ** 2)
"""A square corner's hip: run, run and rise of the common."""
HIP_SHORT_IN = HIP_IN - (0.75 * sqrt(2) + 0.75) * HIP_IN / (RUN_IN * sqrt(2))
"""Both setbacks are level; the hip is longer than its run by HIP_IN / (RUN_IN sqrt 2)."""
COMMON_IN = RUN_IN * sqrt(1 + (8 / 12) ** 2)


def found(text, building=None):
    true_answer = answer(ask("hip-jack", pitch=read_pitch("8")))
    (finding,) = argued(true_answer, [text], building or Building(run_in=RUN_IN)).findings
    return finding


@pytest.mark.parametrize(
    ("text", "true_in", "verdict"),
    [
        ("hip is 9' 4 9/16\" to the middle of the ridge", HIP_IN, RIGHT),
        ("hip is 9 foot 5 to the center", HIP_IN, WRONG),
        # Against the side of the ridge, 45 in plan: 3/4 in square is 3/4 sqrt 2 level, as the
        # slope of the hip lengthens it along; the cheek's half thickness puts the long point back.
        ("hip is 9 foot 4 and 1/4 long point", None, RIGHT),
        # The short point stands half the thickness the other way: (3/4 sqrt 2 + 3/4) level.
        ("hip is 9 foot 2 and 9/16 short point", HIP_SHORT_IN, RIGHT),
        ("hip is 9 foot 4 and 1/4 short point", HIP_SHORT_IN, WRONG),
        ("common is 7'-2 1/2\" to the center", COMMON_IN, RIGHT),
        # Half the thickness of the hip square to it, times its rise over 16.97 to the foot.
        ("drop it 3/8", 0.75 * 8 / (12 * sqrt(2)), RIGHT),
        ("drop the hip 5/8", 0.75 * 8 / (12 * sqrt(2)), WRONG),
        ("common difference 19 1/4", 16 * sqrt(1 + (8 / 12) ** 2), RIGHT),
        ("common difference 19 inches", 16 * sqrt(1 + (8 / 12) ** 2), WRONG),
        ("first jack 16", 16.0, RIGHT),
        ("first jack 16 3/4 off", 16.0, OPEN),
        ("first jack 18", 16.0, WRONG),
    ],
)
def test_a_length_is_judged_to_the_sixteenth(text, true_in, verdict):
    one = found(text)
    assert one.verdict is verdict
    if true_in is not None:
        assert one.length.true_in == pytest.approx(true_in, abs=1e-9)


LEVEL_IN = 0.75 * sqrt(2)
"""Half of a hip 1 1/2 thick, on the slant: square corner, 45 in plan. It is the handbooks' half of
the 45-degree thickness; from memory."""


@pytest.mark.parametrize(
    "said", ["shorten it {}", "shorten it {} for the hip", "shorten {} for the hip on the level",
             "take off {}", "shorten it {} on the level",
             "knock off half the forty-five thickness of the hip, call it {} on the level",
             "take half the thickness of the hip on the slant, {}"],
)  # fmt: skip
@pytest.mark.parametrize("number", ["1 1/16", "an inch and a sixteenth", '1 1/16"'])
def test_small_words_do_not_turn_a_shortening(said, number):
    one = found(said.format(number))
    assert one.verdict is RIGHT
    assert one.length.true_in == pytest.approx(LEVEL_IN)
    assert one.length.what.startswith("the jack's shortening for the hip, level")


def test_a_word_of_two_lengths_names_both_and_judges_both():
    """The jack's shortening for the hip, and the hip's own for a ridge 1 in thick."""
    text = "shorten the hip 1 1/16"
    alike = found(text)
    assert alike.verdict is RIGHT
    assert "the jack's shortening for the hip" in alike.length.what
    assert "the hip's shortening for the ridge" in alike.length.what
    apart = found(text, Building(ridge_in=1.0))
    assert apart.verdict is OPEN
    assert apart.length.question.startswith("Is that the jack's shortening for the hip, level")
    assert "as the hip's shortening for the ridge" in apart.length.question.lower()
    assert found("shorten the hip 2 1/4").verdict is WRONG


@pytest.mark.parametrize(
    ("text", "true_in"),
    [("shorten it 3/4", 0.75), ("shorten it 1 1/4", LEVEL_IN * sqrt(1 + (8 / 12) ** 2))],
)
def test_another_length_that_fits_is_asked_about(text, true_in):
    """Half the hip square to its side; and the level measure along the slope."""
    one = found(text)
    assert abs(true_in - one.length.said_in) < 1 / 16
    assert one.verdict is OPEN
    assert one.length.question.startswith("Is that ")


def test_a_length_heard_without_a_word_is_asked_about():
    one = found("shorten it 1 1/16 gramophone")
    assert one.verdict is OPEN
    assert one.left_out == ("gramophone",)


def test_which_point_decides_is_asked():
    one = found("hip is 9' 4 9/16\"")
    assert one.verdict is OPEN
    assert "to the middle of the ridge?" in one.length.question


def test_without_the_run_it_is_asked_for():
    one = found("hip is 9 foot 4", Building())
    assert one.verdict is OPEN
    assert "--run" in one.length.question


@pytest.mark.parametrize("text", ["saw 45", "gauge 3/4 drop 5/16", "tilt 45 degrees", "hip 45"])
def test_other_claims_are_no_lengths(text):
    assert found(text).length is None


def test_lengths_on_the_command_line(capsys):
    arguments = ["settle", "hip-jack", "--run", "6'", "--claim", "drop it 3/8", "--claim", "saw 45"]
    assert run(arguments) == 0
    assert capsys.readouterr().out.startswith("BOTH ARE RIGHT.")
    assert run([*arguments, "--json"]) == 0
    one, two = json.loads(capsys.readouterr().out)["claims"]
    assert (one["verdict"], two["verdict"]) == ("right", "right")
    assert one["gap_in"] == pytest.approx(3 / 8 - 0.75 * 8 / (12 * sqrt(2)))
    assert one["heard"].startswith("3/8 in, as the drop")


def test_lengths_alone_are_told_in_a_table_on_paper():
    jack = answer(ask("hip-jack", pitch=read_pitch("8")))
    (page,) = settled_pages(argued(jack, ["drop it 3/8", "first jack 16"]), read_paper("Letter"))
    assert page.title == "What was said, and what is so"
    with pytest.raises(SheetError, match="nothing to draw"):
        settled_pages(argued(jack, ["hello"]), read_paper("Letter"))
