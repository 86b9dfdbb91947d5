"""Valley rafters: a plumb stick under the line in which two roofs meet at an inside corner.

The same line as a hip's, met from inside: slope, plan angle and unit run obey the same rules.
At an inside corner of 270 degrees, the valley rises over the building, away from
the point of the corner.
"""

from dataclasses import replace

import numpy as np

from layout.cuts import entry
from layout.cuts.hip import (
    fascia_planes,
    line_joint,
    line_pose,
    other_roof_plane,
    plumb_stick,
    roof_plane,
    seat_planes,
)
from layout.plane.corner import Corner
from layout.plane.joint import Joint, Plane
from layout.plane.pose import lay
from layout.vector import Z, facing


@entry("valley", "a valley's head against the side of the ridge: one cheek", meets="valley")
def valley_ridge(corner: Corner) -> Joint:
    """One cheek lies along the side of the main ridge, which runs level with the own eave."""
    return line_joint(corner, Plane(corner.inward, "ridge", plumb_stick(corner.eave)))


@entry(
    "valley",
    "the level seat of a valley on the plates",
    meets="valley",
    end="foot",
    two_hands=False,
)
def valley_seat(corner: Corner) -> Joint:
    """The seat is level, as a hip's is: square across, 90 - h from square across its face.

    The corner of the plates points away from the valley: the wood under the seat goes where it
    lies inside either wall, two removals, and the heel comes to a point in the corner.
    """
    return line_joint(corner, *seat_planes(corner), point=False, grouped=((0, 1), (0, 2)))


@entry(
    "valley",
    "a valley's tail behind an inside corner of two fascias",
    meets="valley",
    end="foot",
)
def valley_tail(corner: Corner) -> Joint:
    """Both cheeks lie behind plumb fascias that meet in a corner pointing inward.

    The wood behind either fascia stays, so the tail is hollow where a hip's comes to a point.
    """
    return line_joint(corner, *fascia_planes(corner), point=False)


@entry(
    "valley",
    "the hollow ripped along a valley's top edge into both roof planes",
    meets="valley",
    end="foot",
)
def valley_backing(corner: Corner) -> Joint:
    """The top edge is hollowed to both roof planes; each begins at the arris of its own face.

    A valley stands under the planes' lowest line, so its arrises are raised into the planes
    and the middle is taken out: wood below either plane stays. Where the pitches differ the
    lowest line lies beside the middle of the edge, nearer the steeper bevel's face.
    """
    own_at_left = line_pose(corner).to_board(corner.across)[..., 1] > 0
    own_face = np.asarray(own_at_left, dtype=float)
    return line_joint(
        corner,
        roof_plane(corner, through=(own_face, 1.0)),
        other_roof_plane(corner, through=(1.0 - own_face, 1.0)),
        point=False,
        rip=True,
    )


@entry("valley", "a shortened valley's head against the through valley", meets="valley")
def valley_to_valley(corner: Corner) -> Joint:
    """The short valley meets the side of the valley that runs through to the ridge.

    A wing has two inside corners; its walls are parallel, so the far one measures
    180 degrees less what this one measures outside. The through valley rises from there,
    mirrored; where both roofs pitch alike they meet square, and the cut has no cheek.
    """
    far = replace(corner, interior_deg=540.0 - corner.interior_deg, hand=-corner.hand)
    outward = facing(far.across, corner.plan_line)
    return line_joint(corner, Plane(outward, "through valley", lay(far.line, Z)))
