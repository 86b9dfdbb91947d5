"""Sticks of unlike thickness at one point: their miters cover each other, seen as solids."""

import pytest

from layout.framing.outlines import bay_end
from layout.framing.roof import TrainingRoof, frame
from layout.framing.roof_plan import RoofPlan
from layout.quantity import read_pitch
from layout.stock import read_stock
from tests.stick_solids import gaps, overlaps, uncovered


@pytest.fixture(scope="module")
def thick_hips() -> TrainingRoof:
    """Hips 3 1/2 in thick on a ridge of 3/4 in, at the end of half an octagon."""
    return frame(
        RoofPlan.over(
            bay_end(70, 120, read_pitch("8"), "gable"), spacing_in=60, hip=read_stock("4x12"),
            ridge=read_stock("1x10"),
        )
    )  # fmt: skip


def test_miters_of_unlike_sticks_lie_on_each_other(thick_hips: TrainingRoof) -> None:
    """Two sides cross in one point; the miter through it leaves surfaces of one size, and no
    stick runs into another."""
    met = [s for s in thick_hips.sticks if any("miter" in p.says for p in s.planes)]
    assert {"hip", "ridge"} <= {s.role for s in met}
    assert overlaps(thick_hips.sticks) == []
    assert gaps(thick_hips.sticks) == []
    assert uncovered(thick_hips.sticks) == []
