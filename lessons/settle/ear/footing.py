"""What the joint lends to the ear: the lines and angles that a claim names without a number."""

from dataclasses import dataclass
from math import atan, degrees

from layout.answer.answer import Answer
from layout.answer.senses import is_hollow
from layout.cuts import End
from layout.quantity import write_degrees, write_fraction
from layout.vector import sign
from lessons.settle.claim import SQUARE, ClaimedLine

FLAT_STICK_DEG = 0.5
SAME_LINE_DEG = 1e-6
SIXTEENTH_IN = 1 / 16


def is_read(value: float) -> bool:
    """Whether a number is read on a square: whole sixteenths of an inch."""
    return (value / SIXTEENTH_IN).is_integer()


@dataclass(frozen=True)
class Footing:
    """The joint as the ear sees it."""

    true_answer: Answer

    @property
    def slopes(self) -> bool:
        """Whether the stick rises, so that plumb and level are lines of its own."""
        return abs(self.true_answer.stick_slope_deg) > FLAT_STICK_DEG

    @property
    def plumb(self) -> ClaimedLine:
        """The plumb line on the face of this stick."""
        return _line(self.true_answer.stick_slope_deg) if self.slopes else SQUARE

    @property
    def level(self) -> ClaimedLine:
        """The level line on the face of this stick."""
        return _line(90.0 - self.true_answer.stick_slope_deg)

    @property
    def is_level(self) -> bool:
        """Whether this cut's own mark on the face is the level line."""
        mark = self.true_answer.face
        apart = abs(mark.from_square_deg - self.level.from_square_deg)
        return self.slopes and mark.lean < 0 and apart < SAME_LINE_DEG

    @property
    def is_plumb(self) -> bool:
        """Whether this cut's own mark on the face is the plumb line."""
        mark = self.true_answer.face
        apart = abs(mark.from_square_deg - self.plumb.from_square_deg)
        return self.slopes and mark.lean > 0 and apart < SAME_LINE_DEG

    @property
    def top(self) -> End:
        """The end to which the top of this cut's face mark leans; the head where it is square."""
        return "foot" if self.true_answer.face.lean < 0 else "head"

    def is_own_rise(self, value: float) -> bool:
        """Whether a number is the rise on 12 of this roof, to the sixteenth."""
        return abs(value - self.rise) < SIXTEENTH_IN

    @property
    def is_skew(self) -> bool:
        """Whether this cut's own slanted mark is no plumb or level line of a stick that rises.

        So is a sleeper's, flat on the sheathing: a rise on a run is two numbers there.
        """
        slanted = bool(self.true_answer.face.lean)
        return self.slopes and slanted and not (self.is_plumb or self.is_level)

    @property
    def rise(self) -> float:
        """The pitch's rise on a run of 12."""
        return self.true_answer.question.pitch.rise_in_12

    @property
    def run(self) -> float:
        """The stick's own run for 12 of the common's: 16.97 for a square corner's hip."""
        return 12.0 * float(self.true_answer.question.joint.unit_run)

    @property
    def other_plumb(self) -> ClaimedLine:
        """The plumb line of the other roof's pitch."""
        return _line(self.true_answer.question.other_pitch.slope_deg)

    @property
    def edge_number(self) -> float | None:
        """The side-cut number on 12; None where the edge mark runs square across."""
        return (
            None
            if self.true_answer.edge.numbers is None
            else float(self.true_answer.cut.edge_number)
        )

    @property
    def half_corner_deg(self) -> float:
        """Half the angle between the walls, from the side on which it is below 180 [degrees]."""
        corner = self.true_answer.question.corner_deg
        return min(corner, 360.0 - corner) / 2

    @property
    def number_angle_deg(self) -> float | None:
        """The angle that the side-cut number makes with the board's length [degrees]."""
        number = self.edge_number
        return None if number is None else degrees(atan(number / 12))

    @property
    def end(self) -> int:
        """+1 for a cut at the head, -1 at the foot; 0 for a rip."""
        if self.true_answer.is_rip:
            return 0
        return sign(self.true_answer.cut.normal[0])

    @property
    def hollow(self) -> bool:
        """Whether two planes leave a hollow end."""
        return is_hollow(self.true_answer)

    def could_be_on_square(self, value: float) -> bool:
        """Whether a bare number behind the saw could be one that lies on the square."""
        tilt = float(self.true_answer.cut.face_tilt_deg)
        edge_tilt = float(self.true_answer.cut.edge_tilt_deg)
        number = self.edge_number
        if number is None or not is_read(value) or not 1 <= value <= 17:
            return False
        if abs(value - number) <= SIXTEENTH_IN:
            return True
        near = min(abs(value - tilt), abs(value - edge_tilt)) <= self.true_answer.limits.step_deg
        return not near and (value != int(value) or value < 15)

    def pitch_words(self) -> str:
        """The pitch in words, with its angle."""
        asked = self.true_answer.question.pitch
        return f"{asked} ({write_degrees(asked.slope_deg)})"

    def number_words(self) -> str:
        """The side-cut number in words."""
        number = self.edge_number
        return "" if number is None else f"{write_fraction(number)} on 12"


def _line(angle_deg: float) -> ClaimedLine:
    return ClaimedLine("degrees", angle_deg) if 0 < angle_deg < 90 else SQUARE
