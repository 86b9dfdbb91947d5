"""How the top of a hip or valley is brought under both roof planes.

A hip stands plumb under the line in which both roofs meet; a square top edge centered on that
line would stick out of both planes at its arrises. Three ways bring it in:

* **backed**: the middle of the top edge stays on the line and both sides are ripped into the
  roof planes;
* **dropped**: the whole hip is lowered plumb, by a deeper seat, until no arris sticks out: both
  lie in their planes where both roofs fall away alike, else only that under the steeper fall;
* **shifted**: dropped, and moved sideways so that both arrises lie in their planes where the
  roofs fall away unlike.

A valley needs neither: **plain**, the middle of its top edge lies on the line and the roofs
rise from it; **hollowed**, it is raised until the arrises reach the planes and the middle is
ripped out.
"""

from dataclasses import dataclass
from typing import Literal

from layout.cuts.hip import line_pose
from layout.errors import RoofError
from layout.plane.corner import Corner
from layout.stock import Stock
from layout.vector import angle_deg

HipWay = Literal["backed", "dropped", "shifted"]
ValleyWay = Literal["plain", "hollowed"]
TopWay = Literal["backed", "dropped", "shifted", "plain", "hollowed"]


@dataclass(frozen=True)
class CarrierTop:
    """Where a hip or valley stands across and below the line in which both roofs meet.

    `own_side_in` and `other_side_in` are level distances, square to the stick, from that line
    to the face on the own and on the other roof's side; their sum is the thickness.
    `lowered_in` is plumb, from the line down to the stick's unbevelled top edge; minus where
    it is raised. The bevels are the angles between each roof plane and a square top edge, seen
    square to the stick [degrees]; `own_rip_in` and `other_rip_in` how far down each face the
    rip reaches, square to the edge [inches], 0 where nothing is ripped there (a valley's
    rip reaches down in the middle instead: `middle_rip_in`).
    """

    way: TopWay
    thickness_in: float
    own_side_in: float
    other_side_in: float
    lowered_in: float
    own_bevel_deg: float
    other_bevel_deg: float
    own_rip_in: float = 0.0
    other_rip_in: float = 0.0
    middle_rip_in: float = 0.0


def falls(corner: Corner) -> tuple[float, float]:
    """Plumb fall of the own and the other roof away from their line, per unit square across it.

    Level distance is counted from the line to each roof's own side; plus falls (a hip), minus
    rises (a valley). In the stick's axes a roof plane's normal is (0, ny, nz), so over y it
    climbs -ny/nz along the depth; plumb that is more, by 1 over the depth's plumb part.
    """
    pose = line_pose(corner)
    at_hip = not bool(corner.reentrant)
    across = float(pose.to_board(corner.across)[1])
    own_side = -across if at_hip else across
    plumb = 1.0 / float(pose.up[2])
    own, other = (pose.to_board(n) for n in (corner.normal, corner.other_normal))
    return (
        own_side * float(own[1] / own[2]) * plumb,
        -own_side * float(other[1] / other[2]) * plumb,
    )


def hip_top(corner: Corner, stock: Stock, way: HipWay = "backed") -> CarrierTop:
    """Where a hip of this stock stands under both roofs.

    Raises RoofError at an inside corner, and where a roof does not fall away from the hip
    on its own side, so that no backing or drop exists.

    >>> from layout.stock import read_stock
    >>> round(hip_top(Corner(45.0, 45.0), read_stock("2x8"), "dropped").lowered_in, 4)
    0.5303
    """
    own_fall, other_fall = falls(corner)
    if bool(corner.reentrant) or own_fall <= 0 or other_fall <= 0:
        raise RoofError(
            "both roofs must fall away from a hip, each to its own side;"
            " give an outside corner with pitches nearer each other"
        )
    half = stock.thickness_in / 2
    plumb_part = float(line_pose(corner).up[2])
    bevels = _bevels(own_fall, other_fall, plumb_part)
    if way == "backed":
        rips = (half * own_fall * plumb_part, half * other_fall * plumb_part)
        return CarrierTop(way, stock.thickness_in, half, half, 0.0, *bevels, *rips)
    if way == "dropped":
        lowered = half * max(own_fall, other_fall)
        return CarrierTop(way, stock.thickness_in, half, half, lowered, *bevels)
    own_side = stock.thickness_in * other_fall / (own_fall + other_fall)
    other_side = stock.thickness_in - own_side
    return CarrierTop(way, stock.thickness_in, own_side, other_side, own_side * own_fall, *bevels)


def valley_top(corner: Corner, stock: Stock, way: ValleyWay = "plain") -> CarrierTop:
    """Where a valley of this stock stands under both roofs.

    Raises RoofError at an outside corner, and where a roof does not rise from the valley.
    """
    own_fall, other_fall = falls(corner)
    if not bool(corner.reentrant) or own_fall >= 0 or other_fall >= 0:
        raise RoofError(
            "both roofs must rise from a valley, each to its own side; give an inside corner"
        )
    half = stock.thickness_in / 2
    plumb_part = float(line_pose(corner).up[2])
    bevels = _bevels(own_fall, other_fall, plumb_part)
    raised = 0.0 if way == "plain" else half * max(-own_fall, -other_fall)
    return CarrierTop(
        way,
        stock.thickness_in,
        half,
        half,
        -raised,
        *bevels,
        middle_rip_in=raised * plumb_part,
    )


def _bevels(own_fall: float, other_fall: float, plumb_part: float) -> tuple[float, float]:
    own, other = (float(angle_deg(fall * plumb_part, 1.0)) for fall in (own_fall, other_fall))
    return own, other
