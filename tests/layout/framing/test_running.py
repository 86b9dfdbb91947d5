"""Where sticks land along their carriers, read again from the corners of both solids."""

from dataclasses import replace

import numpy as np
import pytest

from layout.framing.running import landings, start_of
from layout.framing.stick import Stick
from tests.drawn_roofs import framed_shape
from tests.stick_solids import solid

SIDES = {"right face": 0.0, "left face": 1.0}


def on_face(stick: Stick, carrier: Stick, side: str) -> np.ndarray:
    """The stick's corners that lie on a carrier's face, in the carrier's axes (k, 3)."""
    world = np.array(solid(stick).to_mesh().vert_properties)[:, :3].astype(float)
    points = carrier.in_board(world)
    level = SIDES[side] * carrier.stock.thickness_in
    return points[np.abs(points[:, 1] - level) < 1e-3]


@pytest.mark.parametrize("name", ["a lower wing", "a lean-to"])
def test_every_landing_reads_from_the_carriers_foot(name: str) -> None:
    """A stick's two faces along its carrier, on the carrier's top edge: on a plate where they
    stand, elsewhere where the stick's highest corners lie. The tape is hooked over the end of a
    plate, a ridge or a ledger, and over the corner of the walls on a valley."""
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
        if carrier.role != "plate":
            points = points[points[:, 2] > points[:, 2].max() - 1e-3]
        wood = np.array(solid(carrier).to_mesh().vert_properties)[:, :3].astype(float)
        start = 0.0 if carrier.role == "valley" else float(carrier.in_board(wood)[:, 0].min())
        near, far = float(points[:, 0].min()) - start, float(points[:, 0].max()) - start
        assert (one.near_in, one.far_in) == pytest.approx((near, far), abs=2e-3), one
        assert one.middle_in == pytest.approx((near + far) / 2, abs=2e-3)


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
def test_every_landing_lies_at_the_sticks_highest_corner(name: str) -> None:
    """`down_in` is the carrier's depth less the height of the stick's highest corner there."""
    roof = framed_shape(name)
    seen = set()
    for one in landings(roof.sticks):
        if one.side not in SIDES:
            continue
        carrier = roof.by_name[one.carrier]
        points = on_face(roof.by_name[one.stick], carrier, one.side)
        down = carrier.stock.depth_in - points[:, 2].max()
        assert one.down_in == pytest.approx(down, abs=2e-3), one
        seen.add((carrier.role, roof.by_name[one.stick].role))
    assert len(seen) >= 2, seen
