"""Where a fascia longer than any board is joined: each joint on the middle of a rafter's tail."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil

from layout.framing.roof import TrainingRoof
from layout.framing.trim import fascia_corner
from layout.vector import at_height, dot

SAME_IN = 1e-5


@dataclass(frozen=True)
class TailOnFascia:
    """A rafter by its name; `at_in` is the middle of its tail from the fascia's left end, as seen
    from outside, along the fascia's outside [inches]."""

    stick: str
    at_in: float


def tails_on(roof: TrainingRoof, wall: int) -> tuple[TailOnFascia, ...]:
    """The rafters whose tails end on the back of this wall's fascia, from left to right."""
    outline = roof.surface.outline
    left, right = (fascia_corner(roof, k) for k in (wall, (wall + 1) % len(outline.walls)))
    along, inward = outline.along[wall], outline.inward[wall]
    back = at_height(left + roof.plan.fascia_in * inward)
    tails = []
    for stick in roof.rafters:
        middle = stick.origin + stick.stock.thickness_in / 2 * stick.pose.left
        at = float((middle[:2] - left) @ along)
        ends_here = any(
            plane.says == "common-tail-plumb"
            and float(dot(plane.normal, at_height(-inward))) > 1 - SAME_IN
            and abs(float(plane.beyond_in(back))) < SAME_IN
            for plane in stick.planes
        )
        if ends_here and 0 < at < float((right - left) @ along):
            tails.append(TailOnFascia(stick.name, at))
    return tuple(sorted(tails, key=lambda tail: tail.at_in))


def joints_on(
    tails: Sequence[TailOnFascia], length_in: float, longest_in: float
) -> tuple[TailOnFascia, ...] | None:
    """The tails on which a fascia's parts meet, from left to right; none for one board.

    As few parts as no board of `longest_in` is too short for, each as near to an equal one as the
    tails allow. None where the tails do not allow any.
    """
    for count in range(ceil(length_in / longest_in), len(tails) + 2):
        joints = _joints(tails, length_in, longest_in, count)
        if joints is not None:
            return joints
    return None


def _joints(
    tails: Sequence[TailOnFascia], length_in: float, longest_in: float, count: int
) -> tuple[TailOnFascia, ...] | None:
    joints: list[TailOnFascia] = []
    start = 0.0
    for after in range(count - 1, 0, -1):  # how many parts follow the joint
        equal = start + (length_in - start) / (after + 1)
        able = [
            tail
            for tail in tails
            if start < tail.at_in <= start + longest_in
            and length_in - tail.at_in <= after * longest_in
        ]
        if not able:
            return None
        joints.append(min(able, key=lambda tail: round(abs(tail.at_in - equal), 5)))
        start = joints[-1].at_in
    return tuple(joints)
