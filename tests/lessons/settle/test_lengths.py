"""Claims about lengths and drops, held against the triangles they come from."""

import json
from dataclasses import replace
from math import sqrt

import pytest

from figures.ink.paper import read_paper
from layout.answer.answer import answer
from layout.answer.question import ask
from layout.errors import SheetError
from layout.quantity import read_pitch
from layout.stock import read_stock
from lessons.cli.main import run
from lessons.settle.argument import argued
from lessons.settle.ear.measures import measured
from lessons.settle.ear.trade_tokens import listen
from lessons.settle.findings import ClaimVerdict
from lessons.settle.lengths import Building, _spaced
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


@pytest.mark.parametrize(
    ("cut", "stock", "carrier"),
    [("hip-ridge", "4x10", "2x12"), ("hip-jack", "2x6", "4x12"), ("hip-jack", "4x6", None)],
)
def test_a_drop_is_that_of_the_hip_whatever_stick_is_cut(cut, stock, carrier):
    """Half its thickness, 3 1/2 in of a 4x: on a cut of the hip its own board's, else the hip's
    that the roof has, or a 2x."""
    asked = answer(ask(cut, pitch=read_pitch("8"), stock=read_stock(stock)))
    hip = Building(run_in=RUN_IN, carrier=None if carrier is None else read_stock(carrier))
    (one,) = argued(asked, ["drop it 3/8"], hip).findings
    thick_in = 1.5 if carrier is None else 3.5
    assert one.length.true_in == pytest.approx(thick_in / 2 * 8 / (12 * sqrt(2)), abs=1e-9)


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


def judged(cut, text, building=None, **roof):
    true_answer = answer(ask(cut, pitch=read_pitch("8"), **roof))
    (finding,) = argued(true_answer, [text], building or Building(run_in=RUN_IN)).findings
    return finding


STEEP = {"other_pitch": read_pitch("12")}


@pytest.mark.parametrize(
    ("cut", "roof", "text", "true_in"),
    [
        # On the hip both roofs are as high: 8 a = 12 b, a from this wall and b from the other.
        # 16 in along this wall are b, so the jack's level run grows by a = 16 (12 / 8).
        ("hip-jack", STEEP, "common difference 28 7/8",
         16 * (12 / 8) * sqrt(1 + (8 / 12) ** 2)),
        ("hip-jack", {}, "common difference 24 on center 28 7/8",
         24 * sqrt(1 + (8 / 12) ** 2)),
        ("hip-jack", {}, "common difference 28 7/8 at 24 inch centers",
         24 * sqrt(1 + (8 / 12) ** 2)),
        ("hip-jack", {}, "first jack 24 at 24 on center", 24.0),
        ("hip-jack", {}, "first jack 16 off the corner", 16.0),
        ("valley-jack", {}, "common difference 19 1/4", 16 * sqrt(1 + (8 / 12) ** 2)),
        # A hip's run is the common's over the sine of half the corner: at 120 degrees
        # 72 sqrt(1 / 0.75 + (8/12)^2) = 96. A valley over the same corner is as long.
        ("hip-jack", {"corner_deg": 120}, "hip is 8 ft to the middle of the ridge", 96.0),
        ("hip-jack", {"corner_deg": 120}, "valley is 8 ft to the middle of the ridge", 96.0),
        ("valley-ridge", {}, "9 ft 4 9/16 to the middle of the ridge", HIP_IN),
        ("valley-ridge", {}, "hip is 9 ft 4 9/16 to the middle of the ridge", HIP_IN),
        ("common-ridge", {}, "7 ft 2 9/16 to the middle of the ridge", COMMON_IN),
        ("common-ridge", {}, "valley is 9 ft 4 9/16 to the middle of the ridge", HIP_IN),
        # Twelve inches of overhang less the fascia's 3/4, on the slope.
        ("common-tail-plumb", {}, "tail is 1 ft 1 1/2", 11.25 * sqrt(1 + (8 / 12) ** 2)),
        ("common-seat", {}, "seat length 3 1/2", 3.5),
        # A 2x6 is 5 1/2 deep, so 5 1/2 sqrt(1 + (8/12)^2) plumb; the seat is 3 1/2 long, so the
        # heel is 3 1/2 of run times 8/12, and what is left stands above the plate.
        ("common-seat", {}, "heel height 2 5/16", 3.5 * 8 / 12),
        ("common-seat", {}, "height above plate 4 1/4",
         5.5 * sqrt(1 + (8 / 12) ** 2) - 3.5 * 8 / 12),
    ],
)  # fmt: skip
def test_lengths_follow_from_their_triangles(cut, roof, text, true_in):
    one = judged(cut, text, **roof)
    assert one.length is not None
    assert one.length.true_in == pytest.approx(true_in, abs=1e-9)
    assert one.verdict is RIGHT


def test_the_building_s_own_measures_are_used():
    """Each measure of a building in the length that is made of it, and in no other."""
    building = Building(run_in=RUN_IN, spacing_in=24.0, ridge_in=3.0, seat_in=4.0)
    building = replace(building, carrier=read_stock("4x8"))  # 3 1/2 by 7 1/4
    slant = sqrt(1 + (8 / 12) ** 2)
    for cut, text, true_in in (
        ("hip-jack", "common difference 28 7/8", 24 * slant),
        ("hip-jack", "first jack 24", 24.0),
        ("common-seat", "seat length 4", 4.0),
        ("common-seat", "heel height 2 11/16", 4.0 * 8 / 12),
        ("hip-jack", "shorten it 2 1/2", 1.75 * sqrt(2)),
        ("common-ridge", "shorten it 1 1/2", 1.5),
        ("hip-ridge-single", "shorten it 2 1/8", 1.5 * sqrt(2)),
    ):
        one = judged(cut, text, building)
        assert one.length.true_in == pytest.approx(true_in, abs=1e-9), text
        assert one.verdict is RIGHT, text


def test_a_wrong_length_tells_the_nearest_that_its_words_mean():
    one = judged("hip-jack", "common difference 19")
    assert one.verdict is WRONG
    assert one.length.said_in == 19
    assert one.length.what == "the common difference at 1'-4\" on center"
    off = judged("hip-jack", "first jack 16 3/4 off the corner")
    assert off.length.question == (
        "Is that from the corner to its far face? As from the corner to its middle it is wrong by"
        " 3/4 in (0.750)."
    )
    near = judged("hip-jack", "first jack 15 1/4 off the corner")
    assert near.length.question.startswith("Is that from the corner to its near face?")


@pytest.mark.parametrize("off_in", [-0.0624, 0.0624])
def test_a_sixteenth_off_is_right_and_more_is_not(off_in):
    assert judged("hip-jack", f"first jack {16 + off_in}").verdict is RIGHT
    assert judged("hip-jack", f"first jack {16 + 1.01 * off_in / 0.998}").verdict is WRONG


def test_a_number_past_the_square_s_blade_is_a_length_without_its_feet():
    """24 in is the longest number on a framing square's blade."""
    assert found("hip is 24 1/2 long point").length is not None
    assert found("hip is 24 long point").length is None
    assert found("hip is 112 1/4 long point").verdict is RIGHT
    assert found("plumb 24 1/2 in 30").length is None


def test_of_two_lengths_of_one_word_the_nearer_is_told():
    """Half of a hip 1 1/2 thick on the slant is 1.06; of a ridge 1 in thick 0.71."""
    thin = Building(ridge_in=1.0)
    assert found("shorten the hip 2 1/4", thin).length.true_in == pytest.approx(LEVEL_IN)
    assert found("shorten the hip 3/8", thin).length.true_in == pytest.approx(0.5 * sqrt(2))


@pytest.mark.parametrize(
    ("cut", "text", "true_in", "whose"),
    [
        ("hip-jack", "shorten it for the ridge 3/4", 0.75, "the common's shortening for the ridge"),
        ("valley-jack", "shorten it 1 1/16", LEVEL_IN, "the jack's shortening for the valley"),
        ("purlin-square", "shorten the hip 1 1/16", LEVEL_IN, "the hip's shortening for the ridge"),
        ("purlin-square", "shorten it 3/4", 0.75, "the common's shortening for the ridge"),
        ("hip-ridge", "shorten it 1 1/16", LEVEL_IN, "the hip's shortening for the ridge"),
        ("hip-backing", "shorten it 1 1/16", LEVEL_IN, "the hip's shortening for the ridge"),
    ],
)
def test_a_shortening_is_this_stick_s_for_what_it_meets_or_as_it_is_named(
    cut, text, true_in, whose
):
    """Half the mate square to it, on the slant of 45 for a hip or jack; 3/4 in for a common."""
    one = judged(cut, text)
    assert one.verdict is RIGHT
    assert one.length.true_in == pytest.approx(true_in)
    assert one.length.what == f"{whose}, level, square back from the plumb line"


@pytest.mark.parametrize(
    "text", ["drop it 3/8 on the saw", "drop it 3/8 plumb 8 in 12", "first jack 16 and 32",
             "first jack 16 degrees", "first jack 17 at 0 on center",
             "shorten the hip 2 1/4 a b c d e f g"]
)  # fmt: skip
def test_what_speaks_of_a_setting_too_or_of_several_numbers_is_no_length(text):
    assert found(text).length is None


def test_a_length_off_by_words_is_said_to_be_as_heard():
    one = found("shorten it 1 1/16 gramophone snarf")
    assert one.left_out == ("gramophone", "snarf")
    assert one.length.question == (
        "As heard, the jack's shortening for the hip, level, square back from the plumb line:"
        " 1 1/16 in."
    )


def test_what_else_a_shortening_may_be_is_asked_with_every_length_that_fits():
    """Half of a hip 1 1/2 thick is 3/4 square to it, and a jack's cheek lies at 45 in plan, so its
    long point is half the jack's own thickness, 3/4, past the middle, level."""
    assert found("shorten it 3/4").length.question == (
        "Is that half the hip, square to its side or how far the long point lies past the middle of"
        " the cheek, level? As the jack's shortening for the hip, level, square back from the plumb"
        " line it is wrong by 5/16 in (0.311)."
    )


@pytest.mark.parametrize("said", ["16 degrees on center", "8 on 12 on center", "0 on center"])
def test_no_angle_and_no_pair_of_numbers_is_a_spacing(said):
    """A spacing is one length: what is no such number leaves the usual 16 in."""
    items = measured(listen(said).tokens)
    assert _spaced(items, Building()) == (items, Building())
    assert _spaced(measured(listen("24 on center").tokens), Building()) == (
        [],
        Building(spacing_in=24.0),
    )
