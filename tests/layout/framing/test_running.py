"""Where sticks land along their carriers, read again from the corners of both solids."""

from dataclasses import replace

import numpy as np
import pytest

from layout.framing.outlines import rectangle
from layout.framing.roof import frame
from layout.framing.roof_plan import RoofPlan
from layout.framing.running import landings, start_of
from layout.framing.stick import Stick
from layout.quantity import read_pitch
from tests.drawn_roofs import DEEP, framed_shape
from tests.stick_solids import solid

SIDES = {"right face": 0.0, "left face": 1.0}


def on_face(stick: Stick, carrier: Stick, side: str) -> np.ndarray:
    """The stick's corners that lie on a carrier's face, in the carrier's axes (k, 3)."""
    world = np.array(solid(stick).to_mesh().vert_properties)[:, :3].astype(float)
    points = carrier.in_board(world)
    level = SIDES[side] * carrier.stock.thickness_in
    return points[np.abs(points[:, 1] - level) < 1e-3]


def along(carrier: Stick, side: str, start: float, points: np.ndarray) -> np.ndarray:
    """How far along a carrier the plumb lines of points (k, 3) are met at its top [inches].

    The level distance from `start`, over the cosine of the carrier's slope. On a face its top is
    that of its own wood.
    """
    face = carrier.in_board(np.array(solid(carrier).to_mesh().vert_properties)[:, :3].astype(float))
    if side in SIDES:
        face = on_face(carrier, carrier, side)
    top = np.array([start, 0.0, face[:, 2].max()])
    begins = carrier.origin + carrier.pose.to_world(top)
    level = carrier.pose.head * [1.0, 1.0, 0.0]
    run = np.linalg.norm(level)
    world = carrier.origin + carrier.pose.to_world(points)
    return (world - begins) @ (level / run) / run


@pytest.mark.parametrize("name", ["a lower wing", "a lean-to"])
def test_every_landing_reads_from_the_carriers_foot(name: str) -> None:
    """A stick's two faces along its carrier: the plumb lines of its outermost corners there, met
    at the carrier's top. The tape is hooked over the end of a plate, a ridge or a ledger, and
    over the corner of the walls on a valley."""
    roof = framed_shape(name)
    order = {stick.name: k for k, stick in enumerate(roof.sticks)}
    found = landings(roof.sticks)
    places = [(order[one.carrier], one.middle_in) for one in found]
    assert places == sorted(places)
    rafters = {stick.name for stick in roof.rafters}
    assert {one.side for one in found if one.stick in rafters} == set(SIDES)
    for one in found:
        if one.side not in SIDES:
            continue
        carrier = roof.by_name[one.carrier]
        points = on_face(roof.by_name[one.stick], carrier, one.side)
        wood = np.array(solid(carrier).to_mesh().vert_properties)[:, :3].astype(float)
        start = 0.0 if carrier.role == "valley" else float(carrier.in_board(wood)[:, 0].min())
        places_in = along(carrier, one.side, start, points)
        near, far = float(places_in.min()), float(places_in.max())
        assert (one.near_in, one.far_in) == pytest.approx((near, far), abs=2e-3), one
        assert one.middle_in == pytest.approx((near + far) / 2, abs=2e-3)


@pytest.mark.parametrize(("main", "end"), [("7", "9"), ("9", "7"), ("6", "9"), ("8", "8")])
def test_commons_stand_on_a_ridge_where_the_plan_has_them(main: str, end: str) -> None:
    """By hand: two hips of one end meet 216/2 in * main/end from the end wall, for there both
    roofs are equally high. The first commons' middles lie there, and the ridge ends half their
    thickness before it. So their lines are at 0, 3/4 and 1 1/2 in, and the next stand 48 in on
    center from them, whatever corners the steeper roof planes off their tops.
    """
    plan = RoofPlan.over(
        rectangle(336, 216, read_pitch(main), read_pitch(end)), hip=DEEP, spacing_in=48
    )
    roof = frame(plan)
    meet_in = 108 * float(main) / float(end)
    on_ridge = [one for one in landings(roof.sticks) if one.carrier == "R1" and one.side in SIDES]
    middles = [0.75 + 48 * k for k in range(int((336 - 2 * meet_in) // 48) + 1)]
    middles.append(0.75 + 336 - 2 * meet_in)
    for side in SIDES:
        here = np.array(
            [(one.near_in, one.middle_in, one.far_in) for one in on_ridge if one.side == side]
        )
        wanted = np.unique(np.round(middles, 6))
        np.testing.assert_allclose(here[:, 1], wanted, atol=1e-5)
        np.testing.assert_allclose(here - here[:, 1:2], [[-0.75, 0, 0.75]] * len(here), atol=1e-5)


def test_a_valleys_measures_hold_at_its_arris() -> None:
    """By hand, 8 in 12 both ways and a plain valley 1 1/2 in thick: a jack's middle `s` from the
    corner of the walls reaches the face where the valley has run sqrt(2) s, and the 3/4 in more
    that the face lies off the valley's line. Over the cosine of 8 in 16.97 that is the
    measure at the arris, the highest wood there is: the jack's own top stands 0.32 in above it.
    """
    roof = framed_shape("a lower wing")
    valley = roof.by_name["V1"]
    cosine = np.cos(np.arctan(8 / np.sqrt(288)))
    corner = valley.origin + valley.pose.to_world(np.array([0.0, 0.75, valley.stock.depth_in]))
    here = [one for one in landings(roof.sticks) if one.carrier == "V1" and one.stick[:2] == "VJ"]
    whole = [one for one in here if one.far_in - one.near_in > 1.5 * np.sqrt(2) / cosine - 1e-5]
    assert len(whole) == 6, "the seventh lies against the ridge too, and has no whole cheek"
    for one in whole:
        jack = roof.by_name[one.stick]
        middle = jack.origin + 0.75 * jack.pose.left
        aside = jack.pose.left * np.sign(jack.pose.left @ valley.pose.head)
        s = float((middle - corner) @ aside)
        assert one.down_in == pytest.approx(0.0, abs=1e-9)
        assert one.middle_in == pytest.approx((np.sqrt(2) * s + 0.75) / cosine, abs=1e-5), one


def test_every_rafter_lands_on_what_it_is_cut_to() -> None:
    """Seats on plates and cheeks on carriers, each once; no heel, no hip or valley on a plate."""
    for name in ("a lower wing", "a lean-to"):
        roof = framed_shape(name)
        found = {(one.carrier, one.stick) for one in landings(roof.sticks)}
        asked = set()
        for stick in roof.rafters:
            for plane in stick.planes:
                mate = roof.by_name.get(plane.mate)
                if mate is not None and not plane.says.endswith("heel") and mate.role != "common":
                    asked.add((mate.name, stick.name))
        carriers = {s.name for s in roof.sticks if s.role in ("plate", "ridge", "valley", "ledger")}
        asked = {pair for pair in asked if pair[0] in carriers}
        rafters = {stick.name for stick in roof.rafters}
        assert {pair for pair in found if pair[1] in rafters} == asked
        others = {roof.by_name[b].role for a, b in found if b not in rafters}
        assert others <= {"gable stud", "valley"}
        on_plates = {roof.by_name[b].role for a, b in found if roof.by_name[a].role == "plate"}
        assert not on_plates & {"hip", "valley"}
        assert not {b for _, b in found} & carriers - {"V1", "V2"}


def test_running_measures_of_a_valley_begin_where_it_does() -> None:
    """Over the corner on one that stands there; at the foot's long point on one that does not."""
    roof = framed_shape("a lower wing")
    valley = roof.by_name["V1"]
    assert start_of(valley) == 0
    loose = replace(valley, on_plate=False)
    assert start_of(loose) == pytest.approx(loose.end_points("foot").long_in)
    assert start_of(loose) != pytest.approx(loose.end_points("foot").short_in)
    plate = roof.by_name["P2"]
    assert start_of(plate) == pytest.approx(float(plate.in_board(plate.corners)[:, 0].min()))


@pytest.mark.parametrize("name", ["a lower wing"])
def test_every_landing_is_measured_at_the_carriers_highest_wood(name: str) -> None:
    """`down_in` is the carrier's depth less the height of its own highest corner on that face."""
    roof = framed_shape(name)
    seen = set()
    for one in landings(roof.sticks):
        if one.side not in SIDES:
            continue
        carrier = roof.by_name[one.carrier]
        points = on_face(carrier, carrier, one.side)
        down = carrier.stock.depth_in - points[:, 2].max()
        assert one.down_in == pytest.approx(down, abs=2e-3), one
        seen.add((carrier.role, roof.by_name[one.stick].role))
    assert len(seen) >= 2, seen
