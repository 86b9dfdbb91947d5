"""Where sticks land along their carriers, read again from the corners of both solids."""

import numpy as np
import pytest

from layout.framing.running import landings
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
