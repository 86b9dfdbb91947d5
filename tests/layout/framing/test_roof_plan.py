"""What a plan works out for itself, and which plans are refused, each in one whole sentence."""

import math

import pytest

from layout.errors import LayoutError
from layout.framing.outlines import shed
from layout.framing.roof_plan import RoofPlan, Wing
from layout.quantity import read_pitch
from layout.stock import read_stock

P, STEEP, FLAT = read_pitch("8"), read_pitch("12"), read_pitch("4")


def test_overhangs_and_mouths_of_other_pitches() -> None:
    """One fascia at one height: 12 x 8/12 = 8 x 12/12 = 24 x 4/12. One height above plate: what
    the common leaves, 5.5 x stretch - 3.5 x 8/12."""
    plan = RoofPlan(300, 180, overhang_in=12.0, end_pitch=STEEP)
    assert [plan.overhang_of(pitch) for pitch in (P, STEEP, FLAT)] == pytest.approx([12, 8, 24])
    assert plan.overhang_of(read_pitch("100/150")) == pytest.approx(12)  # 8 in 12, as a ratio
    height = 5.5 * math.hypot(12, 8) / 12 - 3.5 * 8 / 12
    assert plan.mouth.seat_in == pytest.approx(3.5)
    for pitch, seat in ((P, 3.5), (STEEP, 5.5 * math.sqrt(2) - height)):
        mouth = plan.mouth_of(pitch)
        assert mouth.height_above_plate_in == pytest.approx(height)
        assert mouth.seat_in == pytest.approx(seat)
    assert RoofPlan(300, 180, seat_in=3.0).mouth.seat_in == pytest.approx(3.0)
    assert plan.pitches == (P, STEEP)
    assert plan.stud == plan.plate


def test_the_back_of_a_rake_board() -> None:
    backs = [RoofPlan(300, 180, rake_overhang_in=over).rake_back_in for over in (0.0, 0.75, 10.0)]
    assert backs == pytest.approx([0, 0, 9.25])


def test_outlines_of_rectangle_l_and_t() -> None:
    wing = Wing(60, 100, "gable", STEEP)
    ell = RoofPlan(300, 180, wing=wing, ends=("hip", "gable"), end_pitch=FLAT).outline
    assert [(w.name, w.kind, w.pitch) for w in ell.walls] == [
        ("wing end", "gable", None), ("inner", "eave", STEEP), ("front", "eave", P),
        ("right", "gable", None), ("back", "eave", P), ("left", "eave", STEEP),
    ]  # fmt: skip
    assert [w.length_in for w in ell.walls] == pytest.approx([100, 60, 200, 180, 300, 240])
    plain = RoofPlan(300, 180).outline
    assert [w.length_in for w in plain.walls] == pytest.approx([300, 180, 300, 180])
    assert len(RoofPlan(300, 180, wing=Wing(60, 100, at_in=0.5)).outline.walls) == 8
    tee = RoofPlan(
        300, 180, wing=Wing(60, 100, "hip", STEEP, 80), ends=("gable", "hip"), end_pitch=FLAT
    ).outline
    assert {w.name: w.pitch for w in tee.walls} == {
        "front": P, "wing left": STEEP, "wing end": FLAT, "wing right": STEEP,
        "front, right of the wing": P, "right": FLAT, "back": P, "left": None,
    }  # fmt: skip
    assert [w.length_in for w in tee.walls] == pytest.approx([80, 60, 100, 60, 120, 180, 300, 180])
    assert RoofPlan.over(shed(140, 110, FLAT)).pitch == FLAT
    assert RoofPlan.over(shed(140, 110, FLAT), pitch=P).pitch == P


@pytest.mark.parametrize(
    ("plan", "says"),
    [
        (RoofPlan(300, 12000), "a width of 12000 in frames nothing; give one such as 24'"),
        (RoofPlan(300, 180, wing=Wing(0, 100)),
         "a wing's length of 0 in frames nothing; give one such as 24'"),
        (RoofPlan(300, 180, wing=Wing(60, -1)),
         "a wing's width of -1 in frames nothing; give one such as 24'"),
        (RoofPlan(300, 180, spacing_in=180.5),
         "a spacing of 15'-0 1/2\" is longer than the eave of 15'-0\";"
         " give a spacing such as 16 or 24 in"),
        (RoofPlan(300, 180, first_in=0.0), "the first jack cannot stand 0 in from the corner;"
         " give more than 0 and at most the spacing of 16 in"),
        (RoofPlan(300, 180, first_in=16.5), "the first jack cannot stand 16.5 in from the corner;"
         " give more than 0 and at most the spacing of 16 in"),
        (RoofPlan(300, 180, rake_overhang_in=0.5), "a rake overhang of 1/2 in does not hold a rake"
         " board 3/4 in thick; give a longer one, or 0 for none"),
        (RoofPlan(300, 180, rake_overhang_in=-1.0), "a rake overhang of -1 in does not hold a rake"
         " board 3/4 in thick; give a longer one, or 0 for none"),
        (RoofPlan(300, 180, wing=Wing(60, 100), ends=("hip", "bay")),
         "a bay ends a roof without a wing here; say the walls as walked"),
        (RoofPlan(300, 180, wing=Wing(60, 100, "bay")),
         "a bay ends a roof without a wing here; say the walls as walked"),
        (RoofPlan(300, 180, wing=Wing(60, 100), ends=("gable", "hip")),
         "the outer corner of an L is hipped, since both roofs turn there;"
         " give 'hip' for the left end"),
        (RoofPlan(115.5, 180, wing=Wing(60, 100)),
         "the wing is as wide as the main roof is long: that is no L"),
        (RoofPlan(60, 26, ridge=read_stock("20in x 20in")),
         "a ridge 20 in thick takes 10 in off a run of 1'-1\" whose seat takes 3 1/2 in: no rafter"
         " is left; give a thinner ridge, a shorter seat or a wider roof"),
        (RoofPlan(200, 180, wing=Wing(60, 26), ridge=read_stock("19in x 20in")),
         "a ridge 19 in thick takes 9 1/2 in off a run of 1'-1\" whose seat takes 3 1/2 in: no"
         " rafter is left; give a thinner ridge, a shorter seat or a wider roof"),
    ],
)  # fmt: skip
def test_what_is_refused_and_why(plan: RoofPlan, says: str) -> None:
    with pytest.raises(LayoutError) as caught:
        plan.check()
    assert str(caught.value) == says


@pytest.mark.parametrize(
    "plan",
    [
        RoofPlan(11999, 180),
        RoofPlan(300, 180, spacing_in=180),
        RoofPlan(300, 180, first_in=16.0),
        RoofPlan(300, 180, spacing_in=0.5),
        RoofPlan(300, 180, wing=Wing(60, 100, at_in=0.5), ends=("gable", "gable"), spacing_in=0.4),
        RoofPlan(300, 180, first_in=0.5),
        RoofPlan(300, 180, rake_overhang_in=0.75),
        RoofPlan(300, 180, rake_overhang_in=0.0),
        RoofPlan(116, 180, wing=Wing(60, 100)),
        RoofPlan(300, 180, wing=Wing(60, 100, at_in=80), ends=("gable", "gable")),
        RoofPlan(60, 26, ridge=read_stock("18.9in x 20in")),
        RoofPlan.over(shed(140, 110, P), spacing_in=150.0),
    ],
)
def test_what_just_goes(plan: RoofPlan) -> None:
    plan.check()
