"""A stick cut too short: which shorter piece its rest still makes, by the common difference."""

import math
from functools import cache

import pytest

from layout.framing.cutlist import board_rows, boards, piece_groups
from layout.framing.roof import TrainingRoof, frame
from layout.framing.roof_plan import RoofPlan
from layout.framing.salvage import salvage
from layout.framing.stick import Stick
from layout.framing.walls import Wall, walk
from layout.quantity import read_pitch

DIFFERENCE_IN = 24 * math.hypot(12, 8) / 12
"""Jacks 24 in on center at 8 in 12 (NAVEDTRA 14044: 28.84)."""


@cache
def yard() -> TrainingRoof:
    return frame(RoofPlan(150, 160, ends=("hip", "gable"), spacing_in=24))


def jacks() -> list[Stick]:
    """The jacks of one corner's side, from the shortest."""
    here = [s for s in yard().rafters if s.role == "hip jack" and s.face == "front"]
    return sorted(here, key=lambda s: s.blank_in)


@pytest.mark.parametrize(
    ("short", "lost_in", "steps"), [(-1, 1.0, 1), (-1, 29.0, 2), (0, 1.0, None)]
)
def test_a_jack_cut_short_makes_the_next_one_down(
    short: int, lost_in: float, steps: int | None
) -> None:
    """Losing up to one common difference leaves the next jack, more than one the next but one;
    the shortest makes no other. The board's rest is the list's."""
    roof, jack = yard(), jacks()[short]
    found = salvage(roof, jack, lost_in)
    if steps is None:
        assert found.shorter is None
    else:
        assert found.shorter is not None
        _, other = found.shorter
        assert other.blank_in == pytest.approx(jack.blank_in - steps * DIFFERENCE_IN, abs=1e-6)
        assert other.blank_in <= jack.blank_in - lost_in
        assert other.role == "hip jack"
    (row,) = (r for r in board_rows(boards(roof)) if jack.name in r.pieces.split(", "))
    assert found.left_in == row.left_in
    assert found.same_board == (row.left_in >= lost_in)


def test_a_jack_that_is_the_only_one_of_its_piece_is_offered() -> None:
    """The back climbs 9 in 12, so that no jack of the front has another of its length."""
    front, back = read_pitch("8"), read_pitch("9")
    walls = [Wall(150, 90, "eave", front), Wall(160, 90, "gable"), Wall(150, 90, "eave", back),
             Wall(160, 90, "eave", front)]  # fmt: skip
    roof = frame(RoofPlan.over(walk(walls), spacing_in=24))
    jacks = sorted((s for s in roof.rafters if s.role == "hip jack" and s.face == "wall 1"),
                   key=lambda s: s.blank_in)  # fmt: skip
    offered = [salvage(roof, jack, 1.0).shorter for jack in jacks]
    assert [one and one[1].name for one in offered] == [None, jacks[0].name, jacks[1].name]
    assert all(len(piece_groups(roof)[one[0]]) == 1 for one in offered if one)
