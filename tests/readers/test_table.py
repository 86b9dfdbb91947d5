"""A square laid by the printed rules of `table`, column by column, marks the angle of the cut.

The reader has the printed table alone. A square laid on the edge of a stick with one number on
each arm makes a right triangle, whose long side is the edge of the stick.
"""

import re
from fractions import Fraction
from math import atan2, degrees, hypot, pi, tan

import pypdfium2
import pytest

from lessons.cli.main import run

RULE = re.compile(
    r"(Side cuts|Miter of a plate): ([\d.]+) on the tongue, the number on the blade, mark along the"
    r" (tongue|blade), on the (edge and never as a tilt|plate's wide face)\."
)
NAMED = {"Side cuts": "side cut", "Miter of a plate": "miter"}
"""How the head of a column begins, by the words of its rule."""


def laid_deg(tongue: float, blade: float, arm: str) -> float:
    """The angle of one arm from square across the stick [degrees].

    The heel at the origin, the tongue along x and the blade along y: the edge of the stick runs
    from (tongue, 0) to (0, blade), and square across it is (blade, tongue).
    """
    along = (1.0, 0.0) if arm == "tongue" else (0.0, 1.0)
    return degrees(
        atan2(abs(along[0] * tongue - along[1] * blade), along[0] * blade + along[1] * tongue)
    )


def number(words: str) -> float:
    return float(sum(Fraction(part) for part in words.split()))


def columns(text: str) -> dict[str, str]:
    """The cells of a table of one row by the heads of their columns, as they stand below them."""
    lines = [line for line in text.split("\n\n", 1)[1].splitlines() if line]
    *heads, row = lines
    cells = [(found.start(), found.end()) for found in re.finditer(r"\S+(?: \S+)*", row)]
    named = {}
    for start, end in cells:
        parts = []
        for line in heads:
            # A head ends where its cell ends, or the cell is the wider of both.
            for found in re.finditer(r"\S+(?: \S+)*", line):
                if found.end() == end or found.start() == start == 0:
                    parts.append(found[0])
        named[" ".join(parts)] = row[start:end]
    return named


def marked(text: str) -> dict[str, float]:
    """Every column for which the table prints a rule, as the angle its square marks [degrees]."""
    rules = {NAMED[name]: (number(on), arm) for name, on, arm, _ in RULE.findall(text)}
    angles = {}
    for head, cell in columns(text).items():
        for begins, (on, arm) in rules.items():
            if head.startswith(begins):
                angles[head] = laid_deg(on, number(cell), arm)
    return angles


def said(capsys, *arguments: str) -> str:
    assert run(["table", *arguments]) == 0
    return capsys.readouterr().out


@pytest.mark.parametrize("units", ["inch", "metric"])
@pytest.mark.parametrize("rise", [3, 8, 15])
@pytest.mark.parametrize("sides", [3, 4, 6, 8, 12])
def test_the_square_marks_the_cuts_over_equal_sides(capsys, sides, rise, units):
    """A plate turns by 360 / n at each corner, and half of that is its miter.

    In the plane of the roof a hip crosses a jack at the angle of half a side to the common.
    """
    common, half_side = hypot(12.0, rise), 12.0 * tan(pi / sides)
    angles = marked(said(capsys, str(rise), "--sides", str(sides), "--units", units))
    assert angles == {
        "miter": pytest.approx(180.0 / sides, abs=0.2),
        "side cut jacks": pytest.approx(90.0 - degrees(atan2(half_side, common)), abs=0.2),
    }


@pytest.mark.parametrize("rise", [3, 8, 15])
def test_the_square_marks_the_cuts_at_a_square_corner(capsys, rise):
    """In the plane of the roof a jack meets the hip at 12 over its common's length.

    A hip runs at 45 degrees to the ridge, and its edge climbs by its own length over its run.
    """
    common = hypot(12.0, rise)
    hip, run_of_hip = hypot(12.0, 12.0, rise), hypot(12.0, 12.0)
    assert marked(said(capsys, str(rise))) == {
        "side cut jacks": pytest.approx(90.0 - degrees(atan2(12.0, common)), abs=0.2),
        "side cut hip": pytest.approx(degrees(atan2(hip, run_of_hip)), abs=0.2),
    }


@pytest.mark.parametrize(("rise", "other"), [(8, 10), (9, 4), (5, 12)])
def test_the_square_marks_the_cuts_between_two_pitches(capsys, rise, other):
    """Over 12 of this roof's run the hip goes 12 x rise / other along its eave.

    So far it lies from the common in this roof's plane. Against a ridge along that eave the cheek
    goes over / 12 along the hip's run for each inch across, and on the slope longer by the hip's
    length over its run.
    """
    over = 12.0 * rise / other
    hip, run_of_hip = hypot(12.0, over, rise), hypot(12.0, over)
    assert marked(said(capsys, str(rise), "--other-pitch", str(other))) == {
        "side cut jacks": pytest.approx(90.0 - degrees(atan2(over, hypot(12.0, rise))), abs=0.2),
        "side cut hip": pytest.approx(degrees(atan2(over * hip, 12.0 * run_of_hip)), abs=0.2),
    }


def test_braces_say_their_angles_from_square_across(capsys):
    """A plumb mark on a stick that climbs stands off square across by its slope, a level one by
    90 less the slope: the post stands plumb, the beam lies level.
    """
    slope = degrees(atan2(24.0, 18.0))
    cells = columns(said(capsys, "--brace", "18 x 24"))
    said_deg = {head: cell.rstrip("\N{DEGREE SIGN}") for head, cell in cells.items()}
    assert float(said_deg["mark at the post"]) == pytest.approx(slope, abs=0.01)
    assert float(said_deg["mark at the beam"]) == pytest.approx(90.0 - slope, abs=0.01)


def test_the_printed_card_says_the_same_rules(capsys, tmp_path):
    card = tmp_path / "rows.pdf"
    text = said(capsys, "8", "--sides", "6")
    said(capsys, "8", "--sides", "6", "-o", str(card))
    printed = " ".join(pypdfium2.PdfDocument(card)[0].get_textpage().get_text_range().split())
    assert RULE.findall(printed) == RULE.findall(text) != []
