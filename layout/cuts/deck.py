"""A small roof framed on the deck of another: jacks on the deck, and the sleeper under them.

The own roof is the one framed on top; the other roof is the deck. Both meet along the valley
line, but nothing is cut into the deck: a plank, the sleeper, lies flat on it along the line.
"""

from dataclasses import replace

import numpy as np

from layout.cuts import entry
from layout.cuts.jack import jack_pose
from layout.plane.corner import Corner
from layout.plane.joint import Joint, Plane
from layout.plane.pose import Pose, lay
from layout.vector import Z, cross, dot, facing


@entry("deck", "a jack's foot flat on the deck or sleeper", meets="valley", end="foot")
def deck_valley_jack(corner: Corner) -> Joint:
    """The jack's foot lies on the deck, so its plane is the deck's own.

    On a square corner the deck rises square to the jack's run: its normal has sin b to the
    side and cos b up. Against a jack of slope a: n = (-cos b sin a, sin b, -cos b cos a).
    The face mark is the level cut's, 90 - a, and the saw tilts by the deck's slope b.
    """
    deck = lay(corner.line, corner.other_normal)
    return Joint(jack_pose(corner), (Plane(-corner.other_normal, "deck", deck),))


def sleeper_pose(corner: Corner) -> Pose:
    """The sleeper: flat on the deck, its length up the valley line, its depth under the own roof.

    The depth lies in the deck, square to the line, so it is square to the deck's normal too.
    """
    under = cross(corner.other_normal, corner.line)
    return lay(corner.line, facing(under, corner.across))


@entry("deck", "a sleeper's head against its twin under the ridge", meets="valley", stock="2x8")
def sleeper_head(corner: Corner) -> Joint:
    """Two sleepers meet in the plumb plane under the own roof's ridge, level with the own eave.

    The twin lies under the own roof's far slope, whose eave runs parallel: there the walls
    turn by what is left of two right angles. Seen from that side the corner is this one's
    mirror image, so it is built as such and turned half round.
    """
    far = replace(corner, interior_deg=540.0 - corner.interior_deg, hand=-corner.hand)
    twin = sleeper_pose(far).axes * np.array([-1.0, -1.0, 1.0])
    return Joint(sleeper_pose(corner), (Plane(corner.inward, "twin sleeper", Pose(twin)),))


@entry(
    "deck",
    "a sleeper's foot in line with this roof's eave",
    meets="valley",
    end="foot",
    stock="2x8",
)
def sleeper_foot(corner: Corner) -> Joint:
    """The foot is plumb and in line with the own roof's eave, where the fascia ends on the deck."""
    fascia = lay(corner.eave, Z)
    return Joint(sleeper_pose(corner), (Plane(-corner.inward, "own fascia", fascia),))


@entry("deck", "the rip along a sleeper's outer edge", meets="valley", end="foot", stock="2x8")
def sleeper_edge(corner: Corner) -> Joint:
    """The outer edge is ripped into the own roof's plane, from the arris that would stand out.

    The valley line lies in both roofs, so the bevel runs along the sleeper: nx = 0. It starts
    at the arris on the deck; only where steep roofs meet at more than a right angle does the
    other arris stand out, and the bevel runs down from that.
    """
    pose = sleeper_pose(corner)
    deck_face = np.where(pose.to_board(corner.other_normal)[..., 1] > 0, 0.0, 1.0)
    obtuse = dot(corner.normal, corner.other_normal) < 0
    start = np.where(obtuse, 1.0 - deck_face, deck_face)
    sheathing = lay(corner.upslope, corner.normal)
    plane = Plane(corner.normal, "own sheathing", sheathing, (start, 0.0))
    return Joint(pose, (plane,), rip=True)
