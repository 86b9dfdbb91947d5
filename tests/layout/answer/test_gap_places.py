"""Where a gap opens is said by what bounds the cut's own part of the board, and not the board's."""

import numpy as np
import pytest

from layout.cuts import Hand
from lessons.mistakes.cut_mistakes import made_on
from tests.counts import count
from tests.views_of import CUTS, NAMES, answers

STEP = count(1, 4)


def lies_there(answer, place, point) -> bool:
    """Whether a point of the section is at the place, from the board's measures alone."""
    thickness, depth = answer.question.stock.thickness_in, answer.question.stock.depth_in
    y, z = point[1], point[2]
    tests = {
        "right face": abs(y) < 1e-6,
        "left face": abs(y - thickness) < 1e-6,
        "middle of the thickness": abs(y - thickness / 2) < 1e-6,
        "bottom": abs(z) < 1e-6,
        "top": abs(z - depth) < 1e-6,
        "inside corner": 1e-6 < z < depth - 1e-6,
    }
    named = [name for name in tests if name in place]
    assert named, place
    return all(tests[name] for name in named)


@pytest.mark.parametrize("spec", CUTS[::STEP], ids=NAMES[::STEP])
def test_a_gap_opens_where_it_is_said_to(spec):
    """The corners that stand farthest from the mate's plane, found from the plane's own points."""
    for answer in answers(spec):
        for made in made_on(answer):
            place = made.fit.opens_at
            if place == "all over" or answer.cut.outline is not None:
                continue
            cut = answer.cut
            (y0, y1), (z0, z1) = cut.span
            n, m = made.setting.normal, cut.normal
            if answer.is_rip:
                corners = [(0.0, y, -(n[1] * (y - cut.point[1])) / n[2]) for y in (y0, y1)]
            else:
                corners = [
                    (-(n[1] * y + n[2] * z) / n[0], y, z) for y in (y0, y1) for z in (z0, z1)
                ]
            reach = [float(np.dot(m, corner)) for corner in corners]
            wide = [c for c, r in zip(corners, reach, strict=True) if r < min(reach) + 1e-6]
            assert all(lies_there(answer, place, corner) for corner in wide), (place, wide)


def test_a_notch_gapes_at_its_inside_corner_and_a_point_between_the_faces():
    (seat,) = [m for m in made_on(answers(("common-seat", "foot", Hand.LEFT))[0])
               if m.mistake.name == "wrong-arm-on-face"]  # fmt: skip
    assert seat.fit.opens_at == "along the inside corner"
    (cheek,) = [m for m in made_on(answers(("hip-ridge", "head", Hand.LEFT))[0])
                if m.mistake.name == "side-number-as-tilt"]  # fmt: skip
    assert cheek.fit.opens_at == "along the middle of the thickness"
