"""The end of a ridge where hips come up to it, by points of the plan: what stays, what goes."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import pytest
import shapely

from layout.framing.carrier import Carrier, ridge_top
from layout.framing.face import Face
from layout.framing.hipend import HipEnd
from layout.framing.roof_plan import HipHead
from layout.framing.stick import WasteRegion
from layout.stock import read_stock
from tests.corner_lines import FOOT, HEIGHT, STOCK, line_of

X, Y, Z = np.eye(3)
RIDGE = read_stock("2x8")
RUN = 60.0
"""Of the front roof up to its ridge; the hipped end stands at -X of it."""


def hip_end(
    head: HipHead, rises: tuple[int, int] = (8, 8), way: str = "backed", turned: bool = False
) -> HipEnd:
    """The hip over FOOT, between a front along +X and the end, and its mirror at the back.

    The ridge's head lies at the end that is meant, or `turned` at the far one.
    """
    front = line_of(rises, 90.0, way)  # type: ignore[arg-type]
    own, end = front.faces
    back = Face("back", own.pitch, FOOT + 2 * RUN * Y, X, -Y, HEIGHT, 10.0, 0.75)
    other = replace(
        front, name="H2", own=back, foot=FOOT + 2 * RUN * Y, toward=X - Y, top=front.top
    )
    apex = FOOT + RUN * Y + RUN * own.slope / end.slope * X
    ridge = Carrier(
        "R1", "ridge", own, back, 180.0, apex, X if turned else -X, RIDGE,
        ridge_top(own, back, RIDGE),
    )  # fmt: skip
    return HipEnd(apex, -X, end, ridge, read_stock("2x6"), (front, other), head)


def gone(removals: Sequence[WasteRegion], point: np.ndarray) -> bool:
    return any(all(p.beyond_in(point) > 0 for p in removal) for removal in removals)


@pytest.mark.parametrize("turned", [False, True])
@pytest.mark.parametrize("head", ["commons", "ridge"])
def test_the_ridge_ends_square_and_under_the_ends_roof(head: HipHead, turned: bool) -> None:
    end = hip_end(head, turned=turned)
    removals = end.ridge_removals()
    for past in (-0.1, 0.1):
        low = end.apex + (end.ridge_end_in + past) * end.outward - 9 * Z
        assert gone(removals, low) == (past > 0)
        # 20 in inside its end the roof of the end is 20 x 8 / 12 higher than over the ridge's end
        at = end.apex + (end.ridge_end_in - 20) * end.outward + 3 * Y
        over = HEIGHT + 8 / 12 * float((at - FOOT) @ X)
        assert gone(removals, at + (over + past) * Z) == (past > 0)
    assert [plane.says for (plane,) in removals] == ["square end", "ridge bevel"]
    assert {plane.end for (plane,) in removals} == {"foot" if turned else "head"}


def test_between_commons_it_ends_flush_with_them() -> None:
    """Commons are 1 1/2 in thick: half of it past the point where the hips' lines meet."""
    end = hip_end("commons")
    assert end.ridge_end_in == 0.75
    for hip, inward in zip(end.hips, (Y, -Y), strict=True):
        removals = end.hip_heads(hip)
        for past in (-0.1, 0.1):  # of the side common's face, and of the end common's
            for beside in (-0.1, 0.1):
                point = end.apex + (0.75 + past) * end.outward - (0.75 + beside) * inward + 9 * Z
                assert gone(removals, point) == (past < 0 or beside < 0)
        planes = [plane for removal in removals for plane in removal]
        assert [p.asked.plane_index for p in planes if p.asked] == [0, 1]
        assert {(p.says, p.end) for p in planes} == {("hip-ridge", "head")}
        assert {p.asked.cut for p in planes if p.asked} == {"hip-ridge"}
    (flush,) = end.end_common_heads()
    assert flush.normal == pytest.approx(X)
    assert float(flush.beyond_in(end.apex + 0.75 * end.outward)) == pytest.approx(0)
    asked = flush.asked
    assert asked is not None
    assert (asked.cut, asked.corner_deg, asked.end) == ("common-ridge", 90.0, "head")
    assert asked.pitch == asked.other_pitch == end.end_face.pitch
    assert (flush.says, flush.end) == ("common-ridge", "head")


@pytest.mark.parametrize(
    ("rises", "way"), [((8, 8), "backed"), ((6, 10), "shifted"), ((10, 6), "dropped")]
)
def test_under_two_cheeks_the_ridge_runs_on_to_the_hips_outer_faces(
    rises: tuple[int, int], way: str
) -> None:
    """Where a hip's face on the end's side crosses the ridge's own side, drawn in plan."""
    end = hip_end("ridge", rises, way)
    crossing = []
    for hip, inward in zip(end.hips, (Y, -Y), strict=True):
        start = hip.near_point(end.end_face)
        face = shapely.LineString([start[:2], (start + 200 * hip.plan_line)[:2]])
        side = end.apex - RIDGE.thickness_in / 2 * inward
        met = face.intersection(shapely.LineString([(side - 99 * X)[:2], (side + 99 * X)[:2]]))
        crossing.append(float((end.apex[:2] - shapely.get_coordinates(met)[0]) @ X[:2]))
        ((cheek,),) = end.hip_heads(hip)
        assert cheek.normal == pytest.approx(inward)
        assert float(cheek.beyond_in(end.apex)) == pytest.approx(RIDGE.thickness_in / 2)
    assert end.ridge_end_in == pytest.approx(crossing[0])
    assert crossing[1] == pytest.approx(crossing[0])
    if rises == (8, 8):  # half a ridge, and half a hip across at 45 degrees
        assert end.ridge_end_in == pytest.approx(0.75 + 0.75 * 2**0.5)
    # the end's own common stops at the ridge's end and between the hips
    flush, *sides = end.end_common_heads()
    assert float(flush.beyond_in(end.apex + end.ridge_end_in * end.outward)) == pytest.approx(0)
    assert flush.normal == pytest.approx(X)
    for plane, hip in zip(sides, end.hips, strict=True):
        assert plane.normal == pytest.approx(-hip.aside(end.end_face))
        assert float(plane.beyond_in(hip.near_point(end.end_face))) == pytest.approx(0)


def test_the_ridge_runs_on_to_the_farther_of_two_unlike_hips() -> None:
    thin, end = hip_end("ridge"), hip_end("ridge")
    thick = line_of((8, 8), 90.0, "backed", stock=read_stock("4x10"))
    for hips in ((thick, thin.hips[1]), (thin.hips[1], thick)):
        assert replace(end, hips=hips).ridge_end_in == pytest.approx(0.75 + 1.75 * 2**0.5)
    assert STOCK.thickness_in == 1.5
