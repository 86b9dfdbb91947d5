"""The known wrong methods, each a computation of its own.

A mistake is a procedure with a fault: from the same answer it takes the settings that someone
who makes it would use. Those settings cut a plane, the plane leaves a gap on this stock, and the
gap is its price. A mistake that cannot be made on a cut gives None; one that happens to give the
right plane there (a gap of nothing) is no mistake on that cut.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace

from layout.answer import Answer, answer
from layout.fit import SOUND_IN, Fit
from layout.question import ask
from layout.setting import ByHand, BySaw, Setting
from layout.vector import angle_deg

Faulty = Callable[[Answer], Setting | None]


@dataclass(frozen=True)
class Mistake:
    """A wrong method by name: what is done, why it is wrong, and the settings it leads to."""

    name: str
    does: str
    why: str
    settings: Faulty

    def made_on(self, right: Answer) -> "Made | None":
        """The mistake made on this cut; None where it cannot be made or costs nothing."""
        setting = self.settings(right)
        if setting is None:
            return None
        fit = right.fit(setting)
        return None if float(fit.widest_in) < SOUND_IN else Made(self, setting, fit)


@dataclass(frozen=True)
class Made:
    """A mistake made on one cut: the settings, and the fit of the plane they cut."""

    mistake: Mistake
    setting: Setting
    fit: Fit

    @property
    def price_in(self) -> float:
        """The widest gap against the mate [inches]."""
        return float(self.fit.widest_in)


_mistakes: dict[str, Mistake] = {}


def mistake(does: str, why: str) -> Callable[[Faulty], Faulty]:
    """Enter a faulty procedure under its own name."""

    def register(settings: Faulty) -> Faulty:
        name = settings.__name__.replace("_", "-")
        _mistakes[name] = Mistake(name, does, why, settings)
        return settings

    return register


def mistakes() -> dict[str, Mistake]:
    """Every known mistake by name."""
    return dict(_mistakes)


def made_on(right: Answer) -> list[Made]:
    """Every mistake that can be made on this cut and costs something, dearest first."""
    made = [m for m in (mistake.made_on(right) for mistake in _mistakes.values()) if m is not None]
    return sorted(made, key=lambda m: -m.price_in)


def _sawn(right: Answer) -> BySaw | None:
    setting = right.saw_setting(as_read=False)
    return setting if isinstance(setting, BySaw) else None


def _marked(right: Answer) -> ByHand | None:
    setting = right.hand_setting(as_read=False)
    return setting if isinstance(setting, ByHand) else None


@mistake(
    "The saw is tilted to the angle of the side-cut number on 12.",
    "The number belongs on the edge. It already holds the slope of the board; the tilt is"
    " measured square to the face mark and does not.",
)
def side_number_as_tilt(right: Answer) -> Setting | None:
    """Tilt = atan(number / 12), the angle the number makes with the board's length."""
    setting = _sawn(right)
    if setting is None or right.edge.numbers is None:
        return None
    return replace(setting, tilt_deg=right.edge.bevel_deg)


@mistake(
    "The saw is tilted to the angle of the edge mark from square.",
    "The edge mark is seen on the edge; the tilt is seen square to the face mark. Only where"
    " the face mark is square across are they one.",
)
def edge_mark_as_tilt(right: Answer) -> Setting | None:
    """Tilt = the edge mark's angle from square across."""
    setting = _sawn(right)
    if setting is None or right.edge.numbers is None:
        return None
    return replace(setting, tilt_deg=right.edge.from_square_deg)


@mistake(
    "The edge is marked at 45 degrees.",
    "45 is the saw's tilt on a square corner. On the edge of a sloping board the same plane"
    " leaves a longer line.",
)
def forty_five_on_edge(right: Answer) -> Setting | None:
    """The edge mark drawn with equal numbers, 12 and 12."""
    setting = _marked(right)
    if setting is None or right.edge.numbers is None:
        return None
    return replace(setting, edge=(12.0, 12.0))


@mistake(
    "The face is marked with a run of 12 where the stick's own run is longer.",
    "A hip or valley runs farther for the same rise: 16.97, called 17, to the common's 12 on a"
    " square corner.",
)
def twelve_for_seventeen(right: Answer) -> Setting | None:
    """The rise laid on 12 in place of the stick's own unit run, with the right tilt."""
    setting = _sawn(right)
    run = float(right.question.joint.unit_run)
    numbers = right.face.numbers
    if setting is None or numbers is None or abs(run - 1.0) < 1e-9:
        return None
    marked_on_run = right.face.base == "mark"
    mark = numbers.mark / run if marked_on_run else numbers.mark
    other = numbers.other if marked_on_run else numbers.other / run
    return replace(setting, line_deg=float(angle_deg(mark, other)))


@mistake(
    "The jack's side-cut number is laid on the hip's or valley's edge.",
    "The number holds the slope of its own stick; the hip or valley climbs more gently.",
)
def jack_number_on_hip(right: Answer) -> Setting | None:
    """The edge marked with the number of a jack in the own roof at the same corner."""
    setting = _marked(right)
    asked = right.question
    if setting is None or right.edge.numbers is None or not asked.joint.bevels:
        return None
    jack = "valley-jack" if asked.corner_deg > 180 else "hip-jack"
    number = answer(
        ask(
            jack,
            pitch=asked.pitch,
            other_pitch=asked.other_pitch,
            corner_deg=asked.corner_deg,
            stock=asked.stock,
        )
    ).cut.edge_number
    return replace(setting, edge=(12.0, float(number)))


@mistake(
    "The edge is marked along the wrong arm of the square.",
    "The line is marked along the arm that carries 12. Along the other arm it makes the"
    " angle's complement.",
)
def wrong_arm_on_edge(right: Answer) -> Setting | None:
    """The edge mark's two numbers change places."""
    setting = _marked(right)
    if setting is None or right.edge.numbers is None:
        return None
    return replace(setting, edge=setting.edge[::-1])


@mistake(
    "The face is marked along the wrong arm of the square.",
    "A plumb cut is marked along the rise, a level cut along the run.",
)
def wrong_arm_on_face(right: Answer) -> Setting | None:
    """The face mark's two numbers change places, with the right tilt."""
    setting = _sawn(right)
    if setting is None or right.face.numbers is None:
        return None
    return replace(setting, line_deg=90.0 - setting.line_deg)


@mistake(
    "The cheek leans the wrong way: two lefts in place of a pair.",
    "Left and right jacks are mirror images; the blade must lean the other way, or the"
    " edge mark run the other way.",
)
def wrong_hand(right: Answer) -> Setting | None:
    """The right tilt, leaning to the other side."""
    setting = _sawn(right)
    if setting is None or setting.toward_waste == 0:
        return None
    return replace(setting, toward_waste=-setting.toward_waste)


@mistake(
    "The other roof's pitch is used for the marks of this one.",
    "Where pitches differ, each roof has its own face mark and its own edge number.",
)
def other_roofs_pitch(right: Answer) -> Setting | None:
    """The hand settings of the same cut with both roofs exchanged, leaning as they should."""
    setting = _marked(right)
    asked = right.question
    if setting is None or asked.pitch.slope_deg == asked.other_pitch.slope_deg:
        return None
    swapped = replace(asked, pitch=asked.other_pitch, other_pitch=asked.pitch)
    wrong = answer(swapped).hand_setting(as_read=False)
    if not isinstance(wrong, ByHand):
        return None
    return replace(setting, face=wrong.face, edge=wrong.edge)


@mistake(
    "The tilt for the board laid flat is set while the board stands on its edge.",
    "The table then follows the edge mark, and the tilt must be the edge's own.",
)
def flat_tilt_on_edge(right: Answer) -> Setting | None:
    """A mitre saw turned to the edge mark and tilted by the face's tilt."""
    setting = right.edge_saw_setting()
    if setting is None or right.hand is None or setting.toward_waste == 0:
        return None
    return replace(setting, tilt_deg=float(right.cut.face_tilt_deg))
