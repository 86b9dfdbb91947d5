"""A mistake: a wrong method by name, and what it costs when it is made on a cut.

A mistake is a procedure with a fault. Most put a wrong plane through the board: from the same
answer they take the settings that someone who makes the mistake would use. Some put the right
plane in the wrong place: they move it along the board. One leaves an edge standing out of the
roof. Each has its price, measured where it shows.
"""

from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np

from layout.answer.answer import Answer
from layout.errors import LayoutError
from layout.tools.fit import SOUND_IN, Fit
from layout.tools.setting import ByHand, BySaw, Setting

Faulty = Callable[[Answer], Setting | None]
Moved = Callable[[Answer], float | None]
SAME_DEG = 1e-6


@dataclass(frozen=True)
class Made:
    """A mistake made on one cut: the settings, and the fit of the plane they cut.

    `method` is how it is cut, where the same mistake would leave another gap if it were cut by
    the other method; else empty.
    """

    mistake: "Mistake"
    setting: Setting
    fit: Fit
    method: str = field(default="", kw_only=True)

    @property
    def price_in(self) -> float:
        """The widest gap against the mate, or how far an edge stands out [inches]."""
        return float(self.fit.widest_in)

    def says(self, price: str) -> str:
        """What it comes to in a sentence, `price` being the price as it is written."""
        how = f", {self.method}" if self.method else ""
        return f"The gap is {price}, {self.fit.opens_at}{how}."


@dataclass(frozen=True)
class Misplaced(Made):
    """The right plane, moved along the board: plus makes the stick too long [inches]."""

    moved_in: float

    def says(self, price: str) -> str:
        """How far the cut misses its mate, square to it, and on which side."""
        if self.moved_in > 0:
            return f"The board is too long: its end would stick {price} past its mate's side."
        return f"The board is too short: its end stays {price} off its mate."


@dataclass(frozen=True)
class Proud(Made):
    """A square top edge left standing out of the roof planes, by its arrises."""

    def says(self, price: str) -> str:
        """How far the edge stands out."""
        return f"Its top edge stands {price} proud of the roof, measured plumb at the arris."


@dataclass(frozen=True)
class Mistake:
    """A wrong method by name: what is done, why it is wrong, and the settings it leads to.

    `settings` gives None where the mistake cannot be made on a cut, and for every mistake that
    leaves the marks as they should be.
    """

    name: str
    does: str
    why: str
    settings: Faulty

    @property
    def shows(self) -> bool:
        """True for a mistake that shows in the marks or in the saw's setting."""
        return True

    def made_on(self, true_answer: Answer) -> Made | None:
        """The mistake made on this cut; None where it cannot be made or costs nothing."""
        made = true_answer.once(("made", self.name), lambda: self.tried_on(true_answer))
        return None if made is None or made.price_in < SOUND_IN else made

    def tried_on(self, true_answer: Answer) -> Made | None:
        """The mistake made on this cut, though it cost nothing; None where it cannot be made."""
        try:
            setting = self.settings(true_answer)
        except LayoutError:  # the wrong roof that it is worked out in has no such cut
            return None
        if setting is None:
            return None
        method = _method(true_answer, setting)
        return Made(self, setting, true_answer.fit(setting), method=method)


@dataclass(frozen=True)
class MisplacedMistake(Mistake):
    """A wrong length: the marks are right, and the whole cut stands too far along the board."""

    moved_in: Moved

    @property
    def shows(self) -> bool:
        """False: every mark and setting is right."""
        return False

    def tried_on(self, true_answer: Answer) -> Made | None:
        """The mistake made on this cut, though it cost nothing; None where it cannot be made."""
        moved_in = self.moved_in(true_answer)
        if moved_in is None:
            return None
        # Square to its mate a cut that is moved along the board moves by nx for each inch.
        gap_in = abs(float(true_answer.cut.normal[0]) * moved_in)
        return Misplaced(self, true_answer.hand_setting(False), _all_over(gap_in), moved_in)


@dataclass(frozen=True)
class ProudMistake(Mistake):
    """A top edge that stands out of the roof, though every mark is right."""

    proud_in: Moved

    @property
    def shows(self) -> bool:
        """False: every mark and setting is right."""
        return False

    def tried_on(self, true_answer: Answer) -> Made | None:
        """The mistake made on this cut, though it cost nothing; None where it cannot be made."""
        proud_in = self.proud_in(true_answer)
        if proud_in is None:
            return None
        return Proud(self, true_answer.hand_setting(False), _all_over(proud_in))


def _method(true_answer: Answer, setting: Setting) -> str:
    """How a cut with a wrong face mark is made, where the method changes its gap; else empty.

    A cheek follows its edge mark by handsaw and its tilt by saw. About a wrong face mark the two
    are no longer one plane. With a wrong edge mark or a wrong tilt the mistake itself says which
    tool it is made with, and a cut that runs square through the thickness is one plane by both.
    """
    right_saw = true_answer.saw_setting(as_read=False)
    right_hand = true_answer.hand_setting(as_read=False)
    if isinstance(setting, BySaw) and isinstance(right_saw, BySaw):
        turned = abs(setting.line_deg - right_saw.line_deg) > SAME_DEG
        tilted_right = abs(setting.tilt_deg - right_saw.tilt_deg) < SAME_DEG
        if turned and tilted_right and setting.toward_waste:
            return "by saw at the right tilt"
    if isinstance(setting, ByHand) and isinstance(right_hand, ByHand):
        turned = setting.face != right_hand.face or setting.top_lean != right_hand.top_lean
        if turned and setting.left_lean:
            return "by handsaw"
    return ""


def _all_over(gap_in: float) -> Fit:
    return Fit(np.full(4, gap_in))


def _unmarked(_: Answer) -> None:
    """A mistake that no mark shows."""
    return


_mistakes: dict[str, Mistake] = {}


def mistake(does: str, why: str) -> Callable[[Faulty], Faulty]:
    """Enter a procedure that leads to wrong settings, under its own name."""

    def register(settings: Faulty) -> Faulty:
        name = _named(settings)
        _mistakes[name] = Mistake(name, does, why, settings)
        return settings

    return register


def misplaced(does: str, why: str) -> Callable[[Moved], Moved]:
    """Enter a procedure that moves the cut along the board; plus is too long [inches]."""

    def register(moved_in: Moved) -> Moved:
        name = _named(moved_in)
        _mistakes[name] = MisplacedMistake(name, does, why, _unmarked, moved_in)
        return moved_in

    return register


def proud(does: str, why: str) -> Callable[[Moved], Moved]:
    """Enter a procedure that leaves a top edge standing out of the roof [inches]."""

    def register(proud_in: Moved) -> Moved:
        name = _named(proud_in)
        _mistakes[name] = ProudMistake(name, does, why, _unmarked, proud_in)
        return proud_in

    return register


def registered() -> dict[str, Mistake]:
    """Every mistake that has been entered so far, by name."""
    return dict(_mistakes)


def _named(procedure: Callable[..., object]) -> str:
    return procedure.__name__.replace("_", "-")
