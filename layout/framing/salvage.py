"""A stick that was cut too short: what its board still gives, and which shorter piece it fits."""

from collections.abc import Sequence
from dataclasses import dataclass

from layout.framing.cutlist import boards, piece_groups
from layout.framing.ends import distinct_ends
from layout.framing.roof import TrainingRoof
from layout.framing.stick import Stick
from layout.length.boards import Board

LEAST_IN = 1 / 64
"""A stick that is shorter by less is as long as it was [inches]."""


@dataclass(frozen=True)
class Salvage:
    """What becomes of a stick whose recut end lies `lost_in` farther in [inches].

    `left_in` is what is left over of the board from which it is cut: with its other end not cut
    yet, the whole stick can be moved along by as much. `shorter` is the longest piece of the
    list with the same ends that is shorter by the loss or more, with its first stick; None where
    there is none.
    """

    stick: Stick
    lost_in: float
    left_in: float
    shorter: tuple[str, Stick] | None

    @property
    def same_board(self) -> bool:
        """Whether the whole stick still comes out of its board, if its other end is not cut."""
        return self.left_in >= self.lost_in


def salvage(roof: TrainingRoof, stick: Stick, lost_in: float) -> Salvage:
    """What becomes of a stick of a roof that loses `lost_in` of its length at one end [inches]."""
    bought = [board for _, board in boards(roof)]
    return Salvage(stick, lost_in, _left_in(bought, stick.name), _shorter(roof, stick, lost_in))


def _left_in(bought: Sequence[Board], name: str) -> float:
    for board in bought:
        if any(piece.name == name for piece in board.pieces):
            return board.left_in
    return 0.0


def _shorter(roof: TrainingRoof, stick: Stick, lost_in: float) -> tuple[str, Stick] | None:
    """The longest piece with the same ends that what is left of the stick still holds."""
    groups = piece_groups(roof)
    ends: dict[str, set[int]] = {name: set() for name in groups}
    for number, question in enumerate(distinct_ends(groups, roof.by_name)):
        assert question.stands is not None
        for use in question.stands.uses:
            ends[use.name].add(number)
    own = next(name for name, sticks in groups.items() if stick.name in {s.name for s in sticks})
    most = stick.blank_in - lost_in
    fitting = [
        (name, sticks[0])
        for name, sticks in groups.items()
        if name != own
        and sticks[0].role == stick.role
        and ends[name] == ends[own]
        and sticks[0].blank_in <= most + LEAST_IN
    ]
    return max(fitting, key=lambda one: one[1].blank_in, default=None)
