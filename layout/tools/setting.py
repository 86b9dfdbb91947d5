"""What a carpenter marks and sets: the only thing either method is given.

A setting knows its own plane, through `hand` or `saw`. Signs: `top_lean` +1 where the face
mark's upper end leans toward the head, `left_lean` +1 where the edge mark's end at the left
face does, `end` +1 for a cut whose waste lies toward the head, -1 toward the foot.
"""

from dataclasses import dataclass

from layout.tools import hand, saw
from layout.vector import Array, vector


@dataclass(frozen=True)
class ByHand:
    """A line on the face and a line on the edge, each as two numbers on the square.

    `face` and `edge` are (along, across): the number on the arm marked along, then the other.
    """

    face: tuple[float, float]
    top_lean: int
    edge: tuple[float, float]
    left_lean: int
    end: int

    @property
    def normal(self) -> Array:
        """Unit normal of the plane through both lines, out of the kept wood (3,)."""
        face = hand.face_line(*self.face, self.top_lean)
        edge = hand.edge_line(*self.edge, self.left_lean)
        return hand.plane_through(face, edge, vector(self.end, 0.0, 0.0))


@dataclass(frozen=True)
class BySaw:
    """A line on the face and a blade tilted about it; angles from square [degrees].

    `toward_waste` is +1 where, below a shoe on the right face, the blade runs in under the
    waste, -1 where it runs in under the kept wood, 0 where it stands square.
    """

    line_deg: float
    top_lean: int
    tilt_deg: float
    toward_waste: int
    end: int

    @property
    def normal(self) -> Array:
        """Unit normal of the plane the blade sweeps, out of the kept wood (3,)."""
        return saw.plane_from_face(
            self.line_deg, self.top_lean, self.tilt_deg, self.toward_waste, self.end
        )


@dataclass(frozen=True)
class BySawOnEdge:
    """A line on the top edge and a blade tilted about it; angles from square [degrees].

    Also a miter saw with the board standing on its edge: the table turned to the line.
    `toward_waste` is +1 where, below the shoe, the blade runs in under the waste, -1 where it
    runs in under the kept wood.
    """

    line_deg: float
    left_lean: int
    tilt_deg: float
    toward_waste: int
    end: int

    @property
    def normal(self) -> Array:
        """Unit normal of the plane the blade sweeps, out of the kept wood (3,)."""
        return saw.plane_from_edge(
            self.line_deg, self.left_lean, self.tilt_deg, self.toward_waste, self.end
        )


@dataclass(frozen=True)
class RipByHand:
    """A bevel along the board between two gauged lines [inches].

    It runs `across_in` over the edge and drops `drop_in` on the way. `top` is +1 on the top
    edge, -1 on the bottom; `right` +1 where it is low at the right face, -1 at the left.
    """

    across_in: float
    drop_in: float
    top: int
    right: int

    @property
    def normal(self) -> Array:
        """Unit normal of the plane through both lines, out of the kept wood (3,)."""
        return hand.plane_along(self.drop_in, self.across_in, self.top, self.right)


@dataclass(frozen=True)
class RipBySaw:
    """A bevel along the board, sawn along a line on the face with the blade tilted [degrees]."""

    tilt_deg: float
    top: int
    right: int

    @property
    def normal(self) -> Array:
        """Unit normal of the plane the blade sweeps, out of the kept wood (3,)."""
        return saw.rip_from_face(self.tilt_deg, self.top, self.right)


Setting = ByHand | BySaw | BySawOnEdge | RipByHand | RipBySaw
