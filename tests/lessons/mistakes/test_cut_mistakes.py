"""The price of each known mistake, against derivations written out here."""

from math import atan, cos, radians, sin, sqrt, tan
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.answer.answer import answer
from layout.answer.question import ask
from layout.cuts import Hand, catalogue
from layout.quantity import Pitch, read_pitch
from layout.stock import read_stock
from lessons.cli.main import run
from lessons.mistakes.cut_mistakes import made_on, mistakes
from tests.counts import count


def price(cut: str, mistake: str, **asked) -> float:
    made = mistakes()[mistake].made_on(answer(ask(cut, **asked)))
    assert made is not None
    return made.price_in


def test_the_number_as_tilt_at_12_in_12_costs_five_sixteenths():
    # With the face mark at 45 degrees, a tilt b moves the far side of the cut by t tan b,
    # square to the mark. Square to the hip, whose plane leans by 45 degrees from the face's
    # normal, the right tilt loses t (tan 45 - tan b) cos 45. The number 8.485 on 12 reads
    # b = 35.26 degrees.
    b = atan(sqrt(72) / 12)
    by_hand = 1.5 * (tan(radians(45)) - tan(b)) * cos(radians(45))
    got = price("hip-jack", "side-number-as-tilt", pitch=read_pitch("12"))
    assert got == pytest.approx(by_hand, abs=1e-12)
    assert round(got * 16) == 5


@settings(deadline=None, max_examples=count(40, 10), derandomize=True)
@given(rise=st.floats(1, 20))
def test_the_number_as_tilt_at_any_pitch_on_a_square_corner(rise):
    b = atan(12 / sqrt(144 + rise**2))
    by_hand = 1.5 * abs(1 - tan(b)) * cos(radians(45))
    got = price("hip-jack", "side-number-as-tilt", pitch=Pitch(rise, 12, "any"))
    assert got == pytest.approx(by_hand, abs=1e-9)


def test_45_on_the_edge_costs_what_the_edge_line_loses():
    # Over the thickness the right edge line runs t * 12 / number along the board, a 45 degree
    # line t; square to the hip the difference shrinks by sin 45 cos(slope) = nx.
    for rise in (4, 8, 12):
        number = 144 / sqrt(144 + rise**2)
        nx = sin(radians(45)) * 12 / sqrt(144 + rise**2)
        by_hand = 1.5 * (12 / number - 1) * nx
        assert price("hip-jack", "forty-five-on-edge", pitch=read_pitch(str(rise))) == (
            pytest.approx(by_hand, abs=1e-12)
        )


def test_two_lefts_gape_by_the_thickness_twice():
    # The mirrored cheek leaves its mate by twice the tilt's run: t * 2 tan 45 * cos 45.
    assert price("hip-jack", "wrong-hand") == pytest.approx(1.5 * 2 * cos(radians(45)), abs=1e-12)


def test_12_for_17_costs_the_difference_of_the_two_plumb_lines():
    # With a face line at l and a tilt t the plane is x = z tan l - y tan t / cos l. The right
    # one has l = h, the hip's slope; the wrong one l = a, the common's. Square to the right
    # plane a length along the board shrinks by cos h cos t, and the gap is the spread of the
    # difference over the section: both terms grow toward the same corner.
    for rise in (4.0, 8.0, 12.0):
        a, h, t = atan(rise / 12), atan(rise / sqrt(288)), radians(45)
        by_hand = (
            cos(h) * cos(t) * (5.5 * (tan(a) - tan(h)) + 1.5 * tan(t) * (1 / cos(a) - 1 / cos(h)))
        )
        got = price("hip-ridge-single", "twelve-for-seventeen", pitch=Pitch(rise, 12, "any"))
        assert got == pytest.approx(by_hand, abs=1e-12)


def test_a_wrong_face_mark_says_by_which_method_its_gap_opens(capsys):
    """A hip between two commons at 8 in 12: tan a = 8/12 for the common, tan h = 8/16.97 for the
    hip. A face line at l is x = z tan l. By handsaw the right edge mark stays, so only the 5 1/2 in
    of depth count; by saw a tilt of 45 moves the far side of half the thickness by 0.75 / cos l,
    and that differs too. Square to the mate both shrink by cos h cos 45.
    """
    a, h = atan(8 / 12), atan(8 / sqrt(288))
    square_to_mate = cos(h) * cos(radians(45))
    by_hand = square_to_mate * 5.5 * (tan(a) - tan(h))
    by_saw = by_hand + square_to_mate * 0.75 * (1 / cos(a) - 1 / cos(h))
    assert by_hand == pytest.approx(0.687, abs=5e-4)
    assert by_saw == pytest.approx(0.733, abs=5e-4)
    assert price("hip-ridge", "twelve-for-seventeen") == pytest.approx(by_saw, abs=1e-12)
    # 0.687 is 11/16, 0.733 is 47/64.
    claim = "face 8 on 12 marked along the 8, edge 10 7/8 on 12"
    assert run(["settle", "hip-ridge", "--pitch", "8", "--claim", claim]) == 0
    assert "leaves 11/16 in (0.688) open" in capsys.readouterr().out
    assert run(["lesson", "hip-double-cheek"]) == 0
    lesson = " ".join(capsys.readouterr().out.split())
    told = "The gap is 47/64 in, at the bottom of the left face, by saw at the right tilt."
    assert lesson.count(told) == 2, "where it goes wrong, and in the answer to the drill"


def test_the_method_is_said_where_the_gap_depends_on_it_and_nowhere_else():
    pitches = {"pitch": read_pitch("8"), "other_pitch": read_pitch("11")}
    by_saw, by_hand = "by saw at the right tilt", "by handsaw"
    for cut, name, method in (
        ("hip-jack", "wrong-arm-on-face", by_saw),
        ("hip-jack", "other-roofs-pitch-on-face", by_saw),
        ("hip-jack", "other-roofs-pitch", by_hand),
        ("hip-jack", "edge-line-only", by_hand),
        # A wrong edge mark is followed by handsaw, a wrong tilt set on a saw: the mistake says so.
        ("hip-jack", "forty-five-on-edge", ""),
        ("hip-jack", "side-number-as-tilt", ""),
        # Turned over as a whole, the cheek is one plane by its edge mark and by its tilt.
        ("hip-jack", "wrong-hand", ""),
        # A common's plumb cut runs square through: with a wrong face mark it is one plane by both.
        ("common-ridge", "span-for-run", ""),
    ):
        made = mistakes()[name].made_on(answer(ask(cut, **pitches)))
        assert made.method == method, name
        assert made.says("1/8 in").endswith(f", {method}." if method else made.fit.opens_at + ".")


# Every plane is x = p z + q y in board axes; made with p' and q' it misses the right one by
# (p' - p) z + (q' - q) y along the board. Over the section that spreads by |p' - p| depth +
# |q' - q| thickness, and square to the mate by nx times that. A face line at l from square has
# p = tan l; hand: q = 12 / number on the edge; saw: q = tan(tilt) / cos l.
T, D = 1.5, 5.5


def spread(nx: float, p: float, q: float, p_made: float, q_made: float) -> float:
    return nx * (abs(p_made - p) * D + abs(q_made - q) * T)


def jack(rise: float) -> tuple[float, float, float, float]:
    """Slope a, and nx, p, q of a jack's cheek on a square corner, where n = (ca, ., -sa) / sqrt 2
    in board axes."""
    a = atan(rise / 12)
    return a, cos(a) / sqrt(2), tan(a), 1 / cos(a)


@pytest.mark.parametrize("rise", [4, 8, 11])
def test_mistakes_on_a_jacks_cheek(rise):
    a, nx, p, q = jack(rise)
    roof = {"pitch": Pitch(rise, 12, "any")}
    e = atan(q)  # the edge mark, from square across
    by_hand = {
        "edge-mark-as-tilt": spread(nx, p, q, p, tan(e) / cos(a)),
        "wrong-arm-on-edge": spread(nx, p, q, p, 1 / q),
        "wrong-arm-on-face": spread(nx, p, q, 1 / p, 1 / sin(a)),
        "face-line-only": spread(nx, p, q, p, 0),
        "edge-line-only": spread(nx, p, q, 0, q),
        # With the shoe on the edge at line e and tilt 45, n = (cos e, sin e, tan 45) cos 45.
        "flat-tilt-on-edge": spread(nx, p, q, 1 / cos(e), q),
    }
    for name, expected in by_hand.items():
        assert price("hip-jack", name, **roof) == pytest.approx(expected, abs=1e-12), name


def test_45_as_tilt_on_an_octagons_corner():
    # The hip splits the corner of 135: the tilt is 67.5, and nx = cos 67.5 cos a.
    a, f = atan(8 / 12), radians(67.5)
    expected = spread(cos(f) * cos(a), 0, tan(f) / cos(a), 0, 1 / cos(a))
    assert price("hip-jack", "forty-five-as-tilt", corner_deg=135) == pytest.approx(expected)


def test_the_jacks_number_on_a_hip():
    # Jack 12 cos a, hip 12 cos h, both over 12: q is their inverse.
    a, h = atan(8 / 12), atan(8 / sqrt(288))
    expected = spread(cos(h) / sqrt(2), 0, 1 / cos(h), 0, 1 / cos(a))
    assert price("hip-ridge-single", "jack-number-on-hip") == pytest.approx(expected, abs=1e-12)


def test_the_other_roofs_pitch():
    # 8 in 12 against 6 in 12: over one height the runs are as 6 to 8, so the hip lies at
    # tan f = 6/8 to the own eave, which is the own jack's tilt; for the other roof it is 8/6.
    a, b, f = atan(8 / 12), atan(6 / 12), atan(6 / 8)
    expected = spread(cos(f) * cos(a), tan(a), 0.75 / cos(a), tan(b), (8 / 6) / cos(b))
    got = price("hip-jack", "other-roofs-pitch", pitch=read_pitch("8"), other_pitch=read_pitch("6"))
    assert got == pytest.approx(expected, abs=1e-12)


def test_a_commons_mistakes():
    a = atan(8 / 12)
    # Tilted 45 along the plumb mark, q = 1 / cos a and nx = cos a: the gap is the thickness.
    assert price("common-ridge", "tilt-left-on") == pytest.approx(1.5, abs=1e-12)
    # The rise on the span lays half the slope's tangent.
    expected = spread(cos(a), 8 / 12, 0, 8 / 24, 0)
    assert price("common-ridge", "span-for-run") == pytest.approx(expected, abs=1e-12)
    # A level cut runs 12 along for 8 across; on the span 24 along, and nx = sin a.
    expected = spread(sin(a), 12 / 8, 0, 24 / 8, 0)
    assert price("common-seat", "span-for-run") < expected, "only part of the depth is seat"
    assert price("common-tail-level", "span-for-run") == pytest.approx(expected, abs=1e-12)


def test_the_plan_angle_as_tilt_on_a_purlin():
    # n = (1, cos a, sin a) / sqrt 2: the face mark has tan l = sin a, the edge q = cos a; tilted
    # 45 along that mark, q is 1 / cos l.
    a = atan(8 / 12)
    expected = spread(1 / sqrt(2), 0, cos(a), 0, sqrt(1 + sin(a) ** 2))
    assert price("purlin-square", "plan-angle-as-tilt") == pytest.approx(expected, abs=1e-12)
    # Between plumb boards the turn seen from above is the tilt: no mistake.
    assert mistakes()["plan-angle-as-tilt"].made_on(answer(ask("hip-jack"))) is None


def test_mistakes_in_backing():
    # The right bevel has tan d = sin h and covers half the thickness.
    a, h = atan(8 / 12), atan(8 / sqrt(288))
    d = atan(sin(h))
    expected = cos(d) * 0.75 * (tan(a) - tan(d))
    assert price("hip-backing", "roof-slope-as-backing") == pytest.approx(expected, abs=1e-12)
    assert price("hip-backing", "bevel-turned-round") == pytest.approx(1.5 * sin(d), abs=1e-12)


@pytest.mark.parametrize("rise", [4, 8, 12])
def test_mistakes_in_shortening(rise):
    # NAVEDTRA 14044: half the 45 degree thickness, measured level: 0.75 sqrt 2. Along the board
    # it is more by 1 / cos a, and square to the hip less by nx = cos a / sqrt 2.
    a, nx, _, _ = jack(rise)
    roof = {"pitch": Pitch(rise, 12, "any")}
    level = 0.75 * sqrt(2)
    by_hand = {
        "no-shortening": nx * level / cos(a),
        "shortening-along-the-slope": nx * (level / cos(a) - level),
        "square-shortening": nx * (level - 0.75) / cos(a),
    }
    for name, expected in by_hand.items():
        assert price("hip-jack", name, **roof) == pytest.approx(expected, abs=1e-12), name


def test_a_square_shortening_is_right_where_sticks_meet_square():
    assert mistakes()["square-shortening"].made_on(answer(ask("common-ridge"))) is None
    # Half the ridge; the level measure itself is right for a common too.
    assert price("common-ridge", "no-shortening") == pytest.approx(0.75, abs=1e-12)


@pytest.mark.parametrize(("rise", "drop"), [(2, 0.0884), (8, 0.3536), (12, 0.5303), (18, 0.7955)])
def test_a_square_edge_stands_proud_by_the_drop(rise, drop):
    # (t / 2) r / 16.97: Griffith, Carpentry, section 26: the plumb height.
    got = price("hip-backing", "no-drop-no-backing", pitch=Pitch(rise, 12, "any"))
    assert got == pytest.approx(drop, abs=5e-5)


def test_mistakes_of_length_leave_every_mark_right():
    true_answer = answer(ask("hip-jack"))
    for name in ("no-shortening", "shortening-along-the-slope", "square-shortening"):
        made = mistakes()[name].made_on(true_answer)
        assert not made.mistake.shows
        assert true_answer.fit(made.setting).widest_in < 1e-9
    assert not any(not made.mistake.shows for made in made_on(true_answer))
    assert "too long" in mistakes()["no-shortening"].made_on(true_answer).says("3/4 in")


def test_every_mistake_is_priced_somewhere_in_these_files():
    files = Path(__file__).parent.glob("test_*.py")
    text = "".join(path.read_text(encoding="utf-8") for path in files)
    assert [name for name in mistakes() if f'"{name}"' not in text] == []


def test_a_mistake_that_costs_nothing_is_not_one():
    # A plumb purlin's face mark is square across: its edge mark is its tilt.
    true_answer = answer(ask("purlin-plumb"))
    assert mistakes()["edge-mark-as-tilt"].made_on(true_answer) is None
    # At equal pitches there is no other roof's pitch to take.
    assert mistakes()["other-roofs-pitch"].made_on(answer(ask("hip-jack"))) is None
    # A jack runs 12 to 12: there is no 17 to miss.
    assert mistakes()["twelve-for-seventeen"].made_on(answer(ask("hip-jack"))) is None


@pytest.mark.parametrize("name", sorted(catalogue()))
def test_mistakes_on_every_cut_cost_something_and_mirror(name):
    pitches = {"pitch": read_pitch("7"), "other_pitch": read_pitch("10")}
    left, right = (made_on(answer(ask(name, hand=hand, **pitches))) for hand in Hand)
    assert [m.mistake.name for m in left] == [m.mistake.name for m in right]
    for one, other in zip(left, right, strict=True):
        assert one.price_in > 0
        assert one.price_in == pytest.approx(other.price_in, abs=1e-9)


def test_a_thicker_board_pays_more():
    thin, thick = (
        price("hip-jack", "side-number-as-tilt", stock=read_stock(name)) for name in ("1x6", "2x6")
    )
    assert thick == pytest.approx(2 * thin, abs=1e-12)


@pytest.mark.parametrize("rise", [4, 9, 12])
def test_a_length_gone_wrong_misses_by_what_was_left_out(rise):
    # A common is sqrt(144 + rise^2) long for 12 of run, a hip sqrt(288 + rise^2) (NAVEDTRA
    # 14044). Square to a plumb mate a rafter that is d too long misses it by nx d; nx is the
    # cosine of the slope for a common at the ridge, and for a hip and a jack that over sqrt 2.
    roof = {"pitch": Pitch(rise, 12, "any")}
    common, hip = sqrt(144 + rise**2) / 12, sqrt(288 + rise**2) / 12
    a, nx, _, _ = jack(rise)
    hip_nx = sqrt(288) / sqrt(288 + rise**2) / sqrt(2)
    by_hand = {
        ("common-ridge", "run-as-length"): cos(a) * 12 * (common - 1),
        ("common-ridge", "span-stepped-off"): cos(a) * 12 * common,
        ("hip-ridge-single", "common-row-on-hip"): hip_nx * 12 * (hip - common),
        ("hip-jack", "spacing-as-difference"): nx * 16 * (common - 1),
    }
    for (cut, name), expected in by_hand.items():
        assert price(cut, name, **roof) == pytest.approx(expected, abs=1e-9), name
