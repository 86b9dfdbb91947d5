"""Where rafters stand along an eave, by hand: steps from a hip's top, clear of what is fixed."""

import pytest

from layout.errors import LengthError
from layout.framing.spacing import lay_out


@pytest.mark.parametrize(
    ("length", "hips", "first", "fixed", "stand"),
    [
        # no hips: a spacing apart from the start, the last at the end or before it
        (96, (0, 0), None, (), (16, 32, 48, 64, 80, 96)),
        (95.5, (0, 0), None, (), (16, 32, 48, 64, 80)),
        (96, (0, 0), None, (96,), (16, 32, 48, 64, 80, 96)),
        # hips 40 in: 40 is 16 + 16 + 8, so jacks 8 and 24 from either corner, and the tops
        (120, (40, 40), None, (40, 80), (8, 24, 40, 56, 72, 80, 96, 112)),
        (80, (40, 40), None, (40,), (8, 24, 40, 56, 72)),
        # a hip of whole steps has none at its corner
        (64, (32, 0), None, (32,), (16, 32, 48, 64)),
        (64, (0, 32), None, (32,), (16, 32, 48)),
        # a hip at the end shorter than an inch
        (64, (0, 0.5), None, (63.5,), (16, 32, 48, 63.5)),
        # from the corners on, 10 first
        (100, (30, 30), 10, (30, 70), (10, 26, 30, 42, 58, 70, 74, 90)),
        (100, (40, 30), 10, (40, 70), (10, 26, 40, 58, 70, 74, 90)),
        # nearer than 3 to what is fixed none is laid, at 3 one is
        (64, (0, 0), None, (18.5, 35, 64), (18.5, 32, 35, 48, 64)),
        # laid ones keep clear of one another, the lower one stands
        (79, (0, 32), None, (), (16, 32, 47, 63)),
        (78, (0, 32), None, (), (16, 32, 46, 62)),
        (50.5, (0, 17), None, (), (16, 32, 49.5)),
        # what is fixed off the eave falls away
        (64, (0, 0), None, (-1, 0, 64, 65), (0, 16, 32, 48, 64)),
        # no rafter within a spacing and the clear stretch: one stands at the top of the end's hip
        (100, (0, 30), None, (), (16, 32, 48, 64, 70, 86)),
        (57.5, (0, 11.5), 11, (), (11, 27, 43, 46.5)),
        (60, (0, 25), 5, (), (5, 21, 39, 55)),
        (60.5, (0, 25), 5, (), (5, 21, 39.5, 55.5)),
        (61, (0, 19), 2, (), (2, 18, 34, 43, 59)),
        (20, (0, 10), None, (), (10,)),
        # one 19 apart, and one 19 1/2 apart with the hip's top at 65
        (100, (14, 35), None, (), (14, 30, 46, 62, 81, 97)),
        (100, (13.5, 35), None, (), (13.5, 29.5, 45.5, 61.5, 65, 81, 97)),
        # a common over the top, at 73, and one 1 in before it: the jack 2 in on, at 75, goes
        (100, (0, 27), 9, (), (9, 25, 41, 57, 75, 91)),
        (100, (0, 26), 9, (), (9, 25, 41, 57, 73, 91)),
    ],
)  # fmt: skip
def test_places_by_hand(length, hips, first, fixed, stand):
    assert lay_out(length, *hips, 16, first, fixed, 3) == pytest.approx(stand)


def test_a_small_spacing():
    assert lay_out(2, 0, 0, 0.5, None, (), 0.1) == (0.5, 1.0, 1.5, 2.0)


def test_a_place_mirrored_is_the_same_place():
    """With a top fixed at either hip, a side told from its other end has its jacks mirrored."""
    for length, start, end in ((200, 61, 47), (150, 75, 75), (90, 10, 33)):
        tops = (start, length - end)
        there = lay_out(length, start, end, 16, None, tops, 3)
        back = lay_out(length, end, start, 16, None, [length - top for top in tops], 3)
        jacks = [p for p in there if p <= start or p >= length - end]
        mirrored = sorted(length - p for p in back if p <= end or p >= length - start)
        assert jacks == pytest.approx(mirrored)


@pytest.mark.parametrize("spacing", [0, -1])
def test_no_spacing_is_refused(spacing):
    with pytest.raises(LengthError) as caught:
        lay_out(100, 0, 0, spacing, None, (), 3)
    assert str(caught.value) == (f"a spacing of {spacing} in parts no rafters; give one such as 16")
