"""Texts with named values: what is refused when read, what is written when filled."""

import pytest

from layout.answer.answer import answer
from layout.answer.question import ask
from layout.errors import LayoutError
from lessons.course.named_text import NamedText, NamedTextError, read_name, read_named_text
from lessons.say.units import System


def filled(text: str, system: System = System.INCH, **asked: object) -> str:
    return read_named_text(text).fill(answer(ask("hip-jack", **asked)), system)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("{tild:deg}", "names no known value; did you mean tilt"),
        ("{qqqqqq:deg}", "names no known value; see `squaresaw lesson values`"),
        ("{tilt}", "has no unit; tilt is of the kind angle and takes :deg"),
        ("{tilt:in}", "has :in; tilt is of the kind angle and takes :deg"),
        ("{pitch:deg}", "has :deg; pitch is of the kind pitch and takes no unit"),
        ("{price:gap}", "has 0 arguments where price takes 1"),
        ("{price(a, b):gap}", "has 2 arguments where price takes 1"),
        ("{tilt(8):deg}", "has 1 arguments where tilt takes 0"),
        ("{price(no-such):gap}", "no mistake is called 'no-such'"),
        ("{common_length(twelve):ft}", "'twelve' is not a length"),
        ("{common_length(0):ft}", "a length of 0 is none"),
        ("{Tilt}", "is no named value; write {name:unit}"),
        ("{}", "is no named value"),
        ("a {brace left open", "a brace is left open"),
        ("a brace} too many", "a brace is left open"),
    ],
)
def test_what_is_wrong_is_told_when_it_is_read(text, said):
    with pytest.raises(NamedTextError) as caught:
        read_named_text(text)
    assert said in str(caught.value)


def test_the_place_at_fault_is_kept():
    with pytest.raises(NamedTextError) as caught:
        read_named_text("good {tilt:deg}, bad {tilt:in}")
    assert caught.value.place == "tilt:in"


def test_values_are_written_in_place():
    assert filled("Tilt {tilt:deg}, {edge_number:square} on {number(12):square}.") == (
        "Tilt 45°, 10 on 12."
    )
    assert filled("{edge_number:square} on {number(12):square}", System.METRIC) == "250 on 300"
    assert filled("{common_length(12 ft):ft} for {length(12 ft):ft}") == "14'-5 1/16\" for 12'-0\""
    assert filled("{price(side-number-as-tilt):gap}") == "11/64 in"
    assert filled("no value") == "no value"


def test_a_value_that_does_not_exist_tells_where_it_was_asked_for():
    text = NamedText("{edge_number:square}", "yard.toml:7")
    with pytest.raises(LayoutError, match=r"^yard.toml:7: the edge mark runs square across"):
        text.fill(answer(ask("common-ridge")))


def test_a_name_alone():
    assert read_name("price(wrong-hand):gap") == ("price", ("wrong-hand",), "gap")
    with pytest.raises(NamedTextError):
        read_name("tilt")
