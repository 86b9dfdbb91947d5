"""The high wall of a shed or lean-to: where its plate or its ledger stands, and the rafter's cuts.

A rafter of slope s leaves `height` above the low plate and measures `plumb` through, so at a run
r its bottom edge is at height + s r - plumb. On the high plate, which reaches from r = W - d to
the outside of its wall at W, it is notched again: a level seat as long as the low one, and a
plumb heel against the plate's inside. The seat begins at W - d and ends where the bottom edge
has climbed to it: the plate's top is height + s (W - d + seat) - plumb high.
"""

from dataclasses import dataclass

from layout.framing.face import Face
from layout.framing.stick import CatalogueCut, CutPlane, Stick, WasteRegion, plane_at
from layout.length.birdsmouth import BirdsMouth
from layout.plane.pose import lay
from layout.stock import Stock
from layout.vector import Array, Z, vector


@dataclass(frozen=True)
class HighWall:
    """A wall to which a face climbs, `run_in` in from its building line, along `wall` by name.

    `ledger` is a board on the wall's outside line to which rafters are cut; without one they
    bear on a plate `plate_in` wide and run on by `tail_run_in`.
    """

    wall: int
    face: Face
    run_in: float
    mouth: BirdsMouth
    plate_in: float
    tail_run_in: float
    ledger: Stock | None = None

    @property
    def plate_top_in(self) -> float:
        """The plate's top over the low plate's [inches]."""
        seat_ends = self.run_in - self.plate_in + self.mouth.seat_in
        return (
            self.mouth.height_above_plate_in
            + self.face.slope * seat_ends
            - self.mouth.plumb_depth_in
        )

    def head(self) -> tuple[WasteRegion, ...]:
        """What a rafter loses there: its plumb end, and the notch on the plate."""
        face = self.face
        if self.ledger is not None:
            asked = CatalogueCut("common-ridge", face.pitch, face.pitch, 90.0, "head")
            at = face.origin + (self.run_in - self.ledger.thickness_in) * face.inward
            return ((plane_at(face.inward, at, "common-ridge", "head", asked),),)
        seat = CutPlane(-Z, -self.plate_top_in, "high-seat", "head")
        inside = face.origin + (self.run_in - self.plate_in) * face.inward
        end = face.origin + (self.run_in + self.tail_run_in) * face.inward
        return (
            (seat, plane_at(face.inward, inside, "high-heel", "head")),
            (plane_at(face.inward, end, "high-tail", "head"),),
        )

    def ledger_stick(self, name: str, start: Array, end: Array) -> Stick:
        """The ledger along the wall from one plan point to another (2,), its outer top arris in
        the roof."""
        assert self.ledger is not None
        face, stock = self.face, self.ledger
        along = vector(end[0] - start[0], end[1] - start[1], 0.0)
        length = float((along @ along) ** 0.5)
        pose = lay(along, Z)
        run = self.run_in - stock.thickness_in
        top = face.height_in + face.slope * run
        first = vector(start[0], start[1], top - stock.depth_in)
        on_wall = (
            first if float(pose.left @ face.inward) < 0 else first - stock.thickness_in * pose.left
        )
        return Stick(
            name, "ledger", face.name, stock, pose, on_wall,
            (
                (plane_at(-pose.head, first, "square end", "foot"),),
                (plane_at(pose.head, first + length * pose.head, "square end", "head"),),
            ),
            length,
        )  # fmt: skip
