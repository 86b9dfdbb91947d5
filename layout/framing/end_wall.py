"""What stands on the end walls: gable studs under the end rafters, and a lean-to's ledger."""

from collections.abc import Iterator, Sequence

from layout.framing.gable_studs import gable_studs
from layout.framing.roof_frame import RoofFrame
from layout.framing.stick import Stick
from layout.vector import Array, at_height

_FLUSH_IN = 1e-6


def end_walls(frame: RoofFrame, rafters: Sequence[Stick]) -> list[Stick]:
    """The studs under every rafter that stands flush with a gable, and the ledgers."""
    return [*_studs(frame, rafters), *_ledgers(frame)]


def _studs(frame: RoofFrame, rafters: Sequence[Stick]) -> Iterator[Stick]:
    outline, plan = frame.roof.outline, frame.plan
    for line in frame.roof.lines:
        if line.kind != "rake":
            continue
        plane, plumb = (line.left, line.right)
        if plane not in frame.faces:
            plane, plumb = plumb, plane
        face = frame.faces[plane]
        wall = frame.roof.planes[plumb].walls[0]
        if outline.walls[wall].kind != "gable":
            continue
        outward = at_height(-outline.inward[wall])
        start = at_height(line.foot)
        flush = [
            stick
            for stick in rafters
            if stick.face == face.name
            and abs(_inside_in(stick, start, -outward) - plan.rafter.thickness_in / 2) < _FLUSH_IN
        ]
        for rafter in flush:
            low = plan.plate.depth_in
            yield from gable_studs(
                face, rafter, outward, start, (low, line.run_in), plan.spacing_in, plan.stud
            )


def _inside_in(stick: Stick, start: Array, inward: Array) -> float:
    """How far inside a wall the middle of a rafter stands [inches]."""
    middle = stick.origin + stick.stock.thickness_in / 2 * stick.pose.left
    return float((middle - start) @ inward)


def _ledgers(frame: RoofFrame) -> Iterator[Stick]:
    corners = frame.roof.outline.corners
    for high in frame.high_walls.values():
        if high.ledger is not None:
            start, end = corners[high.wall], corners[(high.wall + 1) % len(corners)]
            yield high.ledger_stick("ledger", start, end)
