"""The known mistakes with a pitch: set as a tilt, laid on another run, or the other roof's.

Each is made with the saw; `cut_mistakes` has those made with the square.
"""

from dataclasses import replace
from math import sqrt

from layout.answer.answer import Answer, answer
from layout.errors import LayoutError
from layout.tools.saw import reaches
from layout.tools.setting import BySaw, Setting
from layout.vector import angle_deg
from lessons.mistakes.mistake import mistake

HIP_RUN = 12 * sqrt(2)
"""The run of a square corner's hip for 12 of the common's, which the trade says as 17."""
SAME_DEG = 1e-6
FLATTEST_DEG = 89.0


def _sawn(true_answer: Answer) -> BySaw | None:
    setting = true_answer.saw_setting(as_read=False)
    return setting if isinstance(setting, BySaw) else None


@mistake(
    "The saw is tilted to the roof's own pitch.",
    "The pitch is the angle of the mark on the face. The tilt comes from the corner, seen square"
    " to that mark; a cut without a cheek takes none.",
)
def pitch_as_tilt(true_answer: Answer) -> Setting | None:
    """Tilt = the slope of this roof; on a cut that runs square through, in under the waste."""
    setting = _sawn(true_answer)
    slope = true_answer.question.pitch.slope_deg
    if setting is None or not reaches(slope, FLATTEST_DEG):
        return None
    return replace(setting, tilt_deg=slope, toward_waste=setting.toward_waste or 1)


@mistake(
    "The face is marked with the hip's run where the common's belongs.",
    "17 is the run of a hip or valley over a square corner. A jack or a common climbs the same"
    " rise on 12.",
)
def seventeen_for_twelve(true_answer: Answer) -> Setting | None:
    """The rise laid on 16.97 in place of 12, on a stick that runs as a common does."""
    setting = _sawn(true_answer)
    numbers = true_answer.face.numbers
    own_run = abs(float(true_answer.question.joint.unit_run) - 1.0) < SAME_DEG
    slope = true_answer.stick_slope_deg
    plumb = abs(true_answer.face.from_square_deg - slope) < SAME_DEG
    level = abs(90.0 - true_answer.face.from_square_deg - slope) < SAME_DEG
    if setting is None or numbers is None or not own_run or not (plumb or level):
        return None
    rise = true_answer.question.pitch.rise_in_12
    pair = (rise, HIP_RUN) if plumb else (HIP_RUN, rise)
    return _with(setting, float(angle_deg(*pair)), setting.tilt_deg)


@mistake(
    "The other roof's pitch is laid on the face, with this roof's tilt.",
    "Where pitches differ, each roof has its own face mark.",
)
def other_roofs_pitch_on_face(true_answer: Answer) -> Setting | None:
    """The face mark of the same cut with both roofs exchanged, and the right tilt."""
    setting, other = _sawn(true_answer), _exchanged(true_answer)
    if setting is None or other is None:
        return None
    return _with(setting, other.line_deg, setting.tilt_deg)


@mistake(
    "The tilt is the other roof's.",
    "Where pitches differ, the hip does not stand halfway between the walls, and each side of it"
    " has its own tilt.",
)
def other_roofs_tilt(true_answer: Answer) -> Setting | None:
    """The right face mark, with the tilt of the same cut in the other roof."""
    setting, other = _sawn(true_answer), _exchanged(true_answer)
    if setting is None or other is None or setting.toward_waste == 0:
        return None
    if not reaches(other.tilt_deg, FLATTEST_DEG):
        return None
    return _with(setting, setting.line_deg, other.tilt_deg)


def _exchanged(true_answer: Answer) -> BySaw | None:
    """The saw's setting for the same cut with both roofs exchanged; None where they are alike."""
    asked = true_answer.question
    if abs(asked.pitch.slope_deg - asked.other_pitch.slope_deg) < SAME_DEG:
        return None
    try:
        return _sawn(answer(replace(asked, pitch=asked.other_pitch, other_pitch=asked.pitch)))
    except LayoutError:
        return None  # the other roof has no such cut


def _with(setting: BySaw, line_deg: float, tilt_deg: float) -> BySaw:
    return BySaw(line_deg, setting.top_lean, tilt_deg, setting.toward_waste, setting.end)
