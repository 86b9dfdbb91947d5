"""A sawn end read back: from its marks, its long point or its gap to the tilt that was set."""

import json
from math import atan, cos, degrees, radians, sin, sqrt, tan

import pytest

from layout.answer.answer import answer
from layout.answer.question import ask
from layout.quantity import read_pitch
from lessons.cli.main import run
from lessons.settle.cut_back import CutBackError, read_back


def jack(pitch="8"):
    return answer(ask("hip-jack", pitch=read_pitch(pitch)))


@pytest.mark.parametrize("number", [8.375, 9.985, 12.0])
def test_the_tilt_follows_from_the_number_on_the_edge(number):
    """The face line (sin a, 0, cos a) and the edge line (-12, number, 0) span the plane: across
    both stands n = (n cos a, 12 cos a, -n sin a), and the tilt is asin of its part along y."""
    slope = atan(8 / 12)
    n = (number * cos(slope), 12 * cos(slope), -number * sin(slope))
    (found,) = read_back(jack(), edge=f"{number} on 12")
    assert found.tilt_deg == pytest.approx(
        degrees(atan(n[1] / sqrt(n[0] ** 2 + n[2] ** 2))), abs=1e-9
    )
    assert found.edge_number == pytest.approx(number)
    assert found.judged.fits == (abs(number - 9.985) < 0.01)


def test_the_long_point_is_the_edge_mark_over_the_thickness():
    by_mark = read_back(jack(), edge="12 on 12")[0]
    by_point = read_back(jack(), long_point_in=1.5)[0]
    assert by_point.normal == pytest.approx(by_mark.normal, abs=1e-12)


def test_a_gap_leaves_two_tilts_and_its_place_one():
    # At the mate a wrong tilt leaves 1.5 |1 - tan(tilt)| cos 45, as the long point is moved.
    low, high = read_back(jack(), gap_in=0.2)
    for one, sign in ((low, 1), (high, -1)):
        assert one.judged.gap_in == pytest.approx(0.2, abs=1e-9)
        made = 1.5 * sign * (1 - tan(radians(one.tilt_deg))) * cos(radians(45))
        assert made == pytest.approx(0.2, abs=1e-9)
    (one,) = read_back(jack(), gap_in=0.2, opens_at="heel")
    assert one.tilt_deg == pytest.approx(high.tilt_deg)


def test_the_known_mistake_is_named_and_the_recut_told():
    (found,) = read_back(jack(), edge="12 on 12")
    assert {one.mistake.name for one in found.mistakes} >= {"forty-five-on-edge"}
    # Tilted too little, the long point stays and the short face gives way: nothing is lost there.
    assert found.recut_in == pytest.approx(0.0, abs=1e-9)
    # Tilted too much, the short face is short already: the whole difference is lost.
    (over,) = read_back(jack(), edge="8 on 12")
    assert over.recut_in == pytest.approx(1.5 * (12 / 8 - 1 / cos(atan(8 / 12))), abs=1e-9)


@pytest.mark.parametrize(
    ("measured", "why"),
    [
        ({}, "measure something"),
        ({"edge": "35 degrees"}, "can be taken two ways"),
        ({"edge": "fnord"}, "is no mark on the edge"),
        ({"edge": "9 on 12", "gap_in": 0.1}, "give one of them"),
        ({"gap_in": 2000.0}, "no tilt leaves so wide a gap"),
        ({"gap_in": 0.0}, "more than nothing"),
    ],
)
def test_what_cannot_be_read_is_refused(measured, why):
    with pytest.raises(CutBackError, match=why):
        read_back(jack(), **measured)


def test_the_command(capsys):
    assert run(["read", "hip-jack", "--pitch", "8", "--edge", "8 3/8 on 12"]) == 0
    out = capsys.readouterr().out
    assert "it was tilted 50.01°" in out
    assert "RECUT" in out
    assert run(["read", "hip-jack", "--edge", "12 on 12", "--json"]) == 0
    (plane,) = json.loads(capsys.readouterr().out)["planes"]
    assert plane["mistakes"][0]["name"] in ("forty-five-on-edge", "side-number-as-tilt")
    assert run(["read", "hip-jack"]) == 2
