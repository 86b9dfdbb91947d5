"""The options that put a question about a cut, and those that say how near and with what saw.

Nobody compares or shows such a group, and `mark` need not wait until it could.
"""

from dataclasses import dataclass

from layout import usual
from layout.answer.answer import Answer
from layout.answer.question import Question
from layout.tools.saw import SawLimits
from lessons.cli.commands import options
from lessons.say.units import System


@dataclass(frozen=True, eq=False, repr=False)
class CutOptions:
    """The roof, the board and the hand of a cut."""

    pitch: options.PitchOption = usual.PITCH
    other_pitch: options.OtherPitchOption = None
    corner: options.CornerOption = None
    sides: options.SidesOption = None
    hand: options.HandOption = options.HandName.left
    end: options.EndOption = None
    stock: options.StockOption = None
    roll: options.RollOption = "0"

    def question(self, cut: str) -> Question:
        """The question about this cut, or about the one end of a job's stick. Raises CutError."""
        return options.question(
            cut,
            self.pitch,
            self.other_pitch,
            self.corner,
            self.sides,
            self.hand,
            self.end,
            self.stock,
            self.roll,
        )

    def questions(self, name: str) -> tuple[Question, ...]:
        """The question about a cut; of a job's stick, one about each end that is asked for."""
        if options.is_stick(name):
            return options.ends_of(name, self.end)
        return (self.question(name),)


@dataclass(frozen=True, eq=False, repr=False)
class SawOptions:
    """What the user's own saw can be set to."""

    max_tilt: options.MaxTiltOption = options.USUAL_TILT
    blade_depth: options.BladeDepthOption = options.USUAL_DEPTH
    saw: options.SawOption = None

    @property
    def limits(self) -> SawLimits:
        """The limits of that saw. Raises QuantityError."""
        return options.saw_limits(self.max_tilt, self.blade_depth, self.saw)


@dataclass(frozen=True, eq=False, repr=False)
class AnswerOptions:
    """How near is near enough, on which scale and saw, and in which units it is said."""

    tolerance: options.ToleranceOption = usual.TOLERANCE
    tilt_step: options.TiltStepOption = usual.TILT_STEP
    max_tilt: options.MaxTiltOption = options.USUAL_TILT
    blade_depth: options.BladeDepthOption = options.USUAL_DEPTH
    saw: options.SawOption = None
    units: options.UnitsOption = System.INCH

    def answer(self, asked: Question) -> Answer:
        """The answer to the question. Raises QuantityError."""
        return options.answered(
            asked,
            self.tolerance,
            self.tilt_step,
            self.max_tilt,
            self.blade_depth,
            self.saw,
            self.units.square_parts,
        )
