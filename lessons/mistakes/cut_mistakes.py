"""The known wrong methods, each a computation of its own; here those that cut a wrong plane.

A mistake is a procedure with a fault: from the same answer it takes the settings that someone
who makes it would use. Those settings cut a plane, the plane leaves a gap on this stock, and the
gap is its price. A mistake that cannot be made on a cut gives None; one that happens to give the
right plane there (a gap of nothing) is no mistake on that cut. Mistakes of length stand in
`length_mistakes`.
"""

from dataclasses import replace

import numpy as np

from layout.answer.answer import Answer, answer
from layout.answer.question import ask
from layout.errors import CutError
from layout.tools.saw import reaches
from layout.tools.setting import ByHand, BySaw, RipBySaw, Setting
from layout.vector import angle_deg
from lessons.mistakes import length_mistakes, pitch_mistakes
from lessons.mistakes.mistake import Made, Misplaced, Mistake, Proud, mistake, registered

__all__ = ["Made", "Misplaced", "Mistake", "Proud", "made_on", "mistakes"]

SQUARE_DEG = 1e-6
HABIT_DEG = 45.0
"""The tilt that a saw is left at, or set to out of habit."""
FLATTEST_DEG = 89.0
"""Nobody sets a blade flatter than this: it would run along under the shoe."""
_ = length_mistakes, pitch_mistakes  # importing them has entered their mistakes


def mistakes() -> dict[str, Mistake]:
    """Every known mistake by name, of plane and of length."""
    return registered()


def made_on(true_answer: Answer) -> list[Made]:
    """Every mistake of marks or settings that can be made on this cut and costs something.

    Dearest first. Mistakes of length, which leave the marks as they should be, are not among
    them: `Mistake.made_on` prices those one by one.
    """
    tried = (mistake.made_on(true_answer) for mistake in mistakes().values() if mistake.shows)
    return sorted((made for made in tried if made is not None), key=lambda m: -round(m.price_in, 9))


def _sawn(true_answer: Answer) -> BySaw | None:
    setting = true_answer.saw_setting(as_read=False)
    return setting if isinstance(setting, BySaw) else None


def _marked(true_answer: Answer) -> ByHand | None:
    setting = true_answer.hand_setting(as_read=False)
    return setting if isinstance(setting, ByHand) else None


@mistake(
    "The saw is tilted to the angle that the side-cut number makes.",
    "The number lays a line on the edge. The tilt is measured somewhere else: square to the"
    " face mark.",
)
def side_number_as_tilt(true_answer: Answer) -> Setting | None:
    """Tilt = atan(number / 12), the angle the number makes with the board's length."""
    setting = _sawn(true_answer)
    if setting is None or true_answer.edge.numbers is None:
        return None
    return replace(setting, tilt_deg=true_answer.edge.bevel_deg)


@mistake(
    "The saw is tilted to the angle of the edge mark from square.",
    "The edge mark is seen on the edge; the tilt is seen square to the face mark. Only where"
    " the face mark is square across are they one.",
)
def edge_mark_as_tilt(true_answer: Answer) -> Setting | None:
    """Tilt = the edge mark's angle from square across."""
    setting = _sawn(true_answer)
    if setting is None or true_answer.edge.numbers is None:
        return None
    return replace(setting, tilt_deg=true_answer.edge.from_square_deg)


@mistake(
    "The edge is marked at 45 degrees.",
    "45 belongs to a square corner under equal pitches. There it is the angle in plan, and for"
    " plumb boards the tilt. On the edge of a leaning board the plane leaves another angle.",
)
def forty_five_on_edge(true_answer: Answer) -> Setting | None:
    """The edge mark drawn with equal numbers, 12 and 12."""
    setting = _marked(true_answer)
    if setting is None or true_answer.edge.numbers is None:
        return None
    return replace(setting, edge=(12.0, 12.0))


@mistake(
    "The face is marked with the common's run where the rafter's own run belongs.",
    "A hip or valley runs farther than a common for the same rise, so it climbs more gently.",
)
def twelve_for_seventeen(true_answer: Answer) -> Setting | None:
    """The rise laid on 12 in place of the stick's own unit run, with the right tilt."""
    setting = _sawn(true_answer)
    run = float(true_answer.question.joint.unit_run)
    numbers = true_answer.face.numbers
    if setting is None or numbers is None or abs(run - 1.0) < 1e-9:
        return None
    marked_on_run = true_answer.face.base == "mark"
    mark = numbers.mark / run if marked_on_run else numbers.mark
    other = numbers.other if marked_on_run else numbers.other / run
    return replace(setting, line_deg=float(angle_deg(mark, other)))


@mistake(
    "The jack's side-cut number is laid on the hip's or valley's edge.",
    "The number holds the slope of its own rafter; the hip or valley climbs more gently.",
)
def jack_number_on_hip(true_answer: Answer) -> Setting | None:
    """The edge marked with the number of a jack in the own roof at the same corner."""
    setting = _marked(true_answer)
    asked = true_answer.question
    if setting is None or true_answer.edge.numbers is None or not asked.joint.bevels:
        return None
    jack = "valley-jack" if asked.corner_deg > 180 else "hip-jack"
    try:
        number = answer(
            ask(
                jack,
                pitch=asked.pitch,
                other_pitch=asked.other_pitch,
                corner_deg=asked.corner_deg,
                stock=asked.stock,
            )
        ).cut.edge_number
    except CutError:
        return None  # this roof has no jacks from which the number could be taken
    return replace(setting, edge=(12.0, float(number)))


@mistake(
    "The edge mark's two numbers change places on the square.",
    "One order lays the angle that is wanted, the other what is left of a right angle.",
)
def wrong_arm_on_edge(true_answer: Answer) -> Setting | None:
    """The edge mark's two numbers change places."""
    setting = _marked(true_answer)
    if setting is None or true_answer.edge.numbers is None:
        return None
    return replace(setting, edge=setting.edge[::-1])


@mistake(
    "The face mark's two numbers change places on the square.",
    "A plumb cut is marked along the rise, a level cut along the run.",
)
def wrong_arm_on_face(true_answer: Answer) -> Setting | None:
    """The face mark's two numbers change places, with the right tilt."""
    setting = _sawn(true_answer)
    if setting is None or true_answer.face.numbers is None:
        return None
    return replace(setting, line_deg=90.0 - setting.line_deg)


@mistake(
    "The cheek leans the wrong way: two of one hand in place of a pair.",
    "Left and right cuts are mirror images; the blade must lean the other way, or the"
    " edge mark run the other way.",
)
def wrong_hand(true_answer: Answer) -> Setting | None:
    """The right tilt, leaning to the other side."""
    setting = _sawn(true_answer)
    if setting is None or setting.toward_waste == 0:
        return None
    return replace(setting, toward_waste=-setting.toward_waste)


@mistake(
    "The other roof's pitch is used for the marks of this one.",
    "Where pitches differ, each roof has its own face mark and its own side-cut number.",
)
def other_roofs_pitch(true_answer: Answer) -> Setting | None:
    """The hand settings of the same cut with both roofs exchanged, leaning as they should."""
    setting = _marked(true_answer)
    asked = true_answer.question
    if setting is None or asked.pitch.slope_deg == asked.other_pitch.slope_deg:
        return None
    swapped = replace(asked, pitch=asked.other_pitch, other_pitch=asked.pitch)
    try:
        wrong = answer(swapped).hand_setting(as_read=False)
    except CutError:
        return None  # the other roof has no such cut
    if not isinstance(wrong, ByHand):
        return None
    return replace(setting, face=wrong.face, edge=wrong.edge)


@mistake(
    "The tilt for the board laid flat is set while the board stands on its edge.",
    "The table then follows the edge mark, and the tilt must be the edge's own.",
)
def flat_tilt_on_edge(true_answer: Answer) -> Setting | None:
    """A miter saw turned to the edge mark and tilted by the face's tilt.

    Where it should stand upright there, it runs in under the waste.
    """
    setting = true_answer.edge_saw_setting()
    if setting is None or true_answer.hand is None:
        return None
    tilt_deg = float(true_answer.cut.face_tilt_deg)
    return replace(setting, tilt_deg=tilt_deg, toward_waste=setting.toward_waste or 1)


@mistake(
    "Only the face mark is followed: the blade stands square to the face.",
    "One line alone lets a plane swing about it. The edge mark, or the tilt, is what stops it.",
)
def face_line_only(true_answer: Answer) -> Setting | None:
    """The right face line with no tilt."""
    setting = _sawn(true_answer)
    if setting is None or setting.toward_waste == 0:
        return None
    return replace(setting, tilt_deg=0.0)


@mistake(
    "Only the edge mark is followed: the face is cut square across.",
    "One line alone lets a plane swing about it. The face mark is what stops it.",
)
def edge_line_only(true_answer: Answer) -> Setting | None:
    """The right edge line with a face line square across."""
    setting = _marked(true_answer)
    if setting is None or true_answer.face.lean == 0 or true_answer.edge.lean == 0:
        return None
    return replace(setting, face=(0.0, 1.0), top_lean=0)


@mistake(
    "The saw is left tilted at 45 degrees from the cut before.",
    "This cut runs square through the thickness; the blade must stand square to the shoe.",
)
def tilt_left_on(true_answer: Answer) -> Setting | None:
    """A tilt of 45, the blade in under the waste, where there should be none."""
    setting = _sawn(true_answer)
    if setting is None or setting.toward_waste != 0:
        return None
    return replace(setting, tilt_deg=HABIT_DEG, toward_waste=1)


@mistake(
    "The saw is tilted to 45 degrees out of habit.",
    "The tilt follows from the corner and from the pitches; 45 is only one case of it.",
)
def forty_five_as_tilt(true_answer: Answer) -> Setting | None:
    """A tilt of 45 in place of the cut's own; on a square one, in under the waste."""
    setting = _sawn(true_answer)
    if setting is None:
        return None
    return replace(setting, tilt_deg=HABIT_DEG, toward_waste=setting.toward_waste or 1)


@mistake(
    "The rise is laid on the whole span in place of the run.",
    "A rafter runs over half the span. The run belongs on the square, not the span.",
)
def span_for_run(true_answer: Answer) -> Setting | None:
    """A plumb or level cut laid with twice the run: the slope comes out too flat."""
    setting = _sawn(true_answer)
    numbers = true_answer.face.numbers
    if setting is None or numbers is None or not _plumb_or_level(true_answer):
        return None
    run_is_marked = true_answer.face.base == "mark"
    mark = numbers.mark * (2.0 if run_is_marked else 1.0)
    other = numbers.other * (1.0 if run_is_marked else 2.0)
    return replace(setting, line_deg=float(angle_deg(mark, other)))


@mistake(
    "The tilt is taken from the angle seen from above.",
    "Seen from above the joint shows its plan angle. The tilt is measured square to the face"
    " mark, and this face does not stand plumb.",
)
def plan_angle_as_tilt(true_answer: Answer) -> Setting | None:
    """Tilt = the angle in plan from square across the stick to the joint's plan line."""
    setting = _sawn(true_answer)
    joint = true_answer.question.joint
    across, along = true_answer.plane.normal[:2], joint.pose.head[:2]
    if setting is None or setting.toward_waste == 0 or not np.hypot(*across) > 0:
        return None
    aside, ahead = along[0] * across[1] - along[1] * across[0], along @ across
    tilt_deg = float(angle_deg(aside, ahead))
    if not reaches(tilt_deg, FLATTEST_DEG):
        return None
    return replace(setting, tilt_deg=tilt_deg)


@mistake(
    "The edge is backed to the slope of the roof.",
    "The backing is seen square to the hip or valley, which crosses the roof on a slant; it is"
    " always less than the roof's slope.",
)
def roof_slope_as_backing(true_answer: Answer) -> Setting | None:
    """A rip whose bevel is the own roof's slope."""
    setting = true_answer.saw_setting(as_read=False)
    if not isinstance(setting, RipBySaw):
        return None
    return replace(setting, tilt_deg=true_answer.question.pitch.slope_deg)


@mistake(
    "The bevel is ripped from the wrong side: the edge falls toward the other face.",
    "Each bevel lies in one of the roofs, and falls as that roof does.",
)
def bevel_turned_round(true_answer: Answer) -> Setting | None:
    """The right bevel, falling to the other face."""
    setting = true_answer.saw_setting(as_read=False)
    if not isinstance(setting, RipBySaw):
        return None
    return replace(setting, right=-setting.right)


def _plumb_or_level(true_answer: Answer) -> bool:
    angle, slope = true_answer.face.from_square_deg, true_answer.stick_slope_deg
    return min(abs(angle - slope), abs(90.0 - angle - slope)) < SQUARE_DEG
