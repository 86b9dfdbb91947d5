"""Whether a lesson may be taught: both methods, and whatever it states, cut the joint's plane.

A lesson holds no method of its own: hand and saw are worked out from the joint, each by its own
construction. But a lesson may state settings outright, and what it states is held against the
joint as well.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from layout.answer.answer import Answer
from layout.answer.gap_words import gap_and_decimals as write_gap
from layout.answer.wording import given_line
from layout.errors import LayoutError
from layout.tools.fit import Fit
from layout.tools.setting import ByHand, BySaw, RipBySaw, Setting
from layout.vector import angle_deg
from lessons.course.lesson_data import Lesson, Stated


class DisagreementError(LayoutError):
    """A lesson whose methods, or whose own words, do not put the joint's plane there."""


@dataclass(frozen=True)
class Misfit:
    """A plane that is not the joint's: where it was said or worked out, and how it fits."""

    where: str
    what: str
    fit: Fit
    true_answer: Answer

    @property
    def gap_in(self) -> float:
        """The widest gap against the mate [inches]."""
        return float(self.fit.widest_in)

    def __str__(self) -> str:
        gap = write_gap(self.gap_in)
        return f"{self.where}: {self.what} leaves {gap}, {self.fit.opens_at}, on {self._case}"

    @property
    def _case(self) -> str:
        hand = self.true_answer.hand
        return given_line(self.true_answer) + (f"; {hand.value} hand" if hand else "")


def checked(lesson: Lesson, true_answer: Answer) -> None:
    """Refuse a lesson whose methods do not agree, or that states what is not so.

    Raises DisagreementError with the gap that was found.
    """
    for verdict, method in ((true_answer.by_hand, "by hand"), (true_answer.by_saw, "by saw")):
        if not verdict.sound:
            misfit = Misfit(lesson.path, method, verdict.exact, true_answer)
            raise DisagreementError(f"{misfit}; the lesson is not printed")
    for misfit in misstated(lesson, true_answer):
        raise DisagreementError(f"{misfit}; the lesson is not printed")


def misstated(lesson: Lesson, true_answer: Answer) -> Iterator[Misfit]:
    """What the lesson states of such a roof, and leaves more than the tolerance on this board.

    What it states of one roof of its own is not looked at here.
    """
    for stated in lesson.stated:
        if stated.when is not None and stated.when.holds(true_answer):
            yield from misfits_of(lesson, stated, true_answer)


def misfits_of(lesson: Lesson, stated: Stated, true_answer: Answer) -> Iterator[Misfit]:
    """The settings of one statement that leave more than the tolerance on this board."""
    where = f"{lesson.path}:{stated.line}"
    for what, setting in _settings(stated, true_answer):
        if setting is None:
            raise DisagreementError(
                f"{where}: {what} is stated, but {true_answer.question.entry.name} has none;"
                " it is ripped along the board"
            )
        fit = true_answer.fit(setting)
        if float(fit.widest_in) > true_answer.tolerance_in:
            yield Misfit(where, what, fit, true_answer)


def _settings(stated: Stated, true_answer: Answer) -> Iterator[tuple[str, Setting | None]]:
    """Each thing that is stated, with all else as it should be."""
    marked, sawn = true_answer.hand_setting(as_read=False), true_answer.saw_setting(as_read=False)
    for name, pair in (("face", stated.face), ("edge", stated.edge)):
        if pair is None:
            continue
        said = f"{name} {pair[0]:g} on {pair[1]:g}"
        if not isinstance(marked, ByHand):
            yield said, None
        elif name == "face":
            yield said, replace(marked, face=pair)
        else:
            yield said, replace(marked, edge=pair)
    if stated.tilt_deg is not None:
        yield f"tilt {stated.tilt_deg:g}", _tilted(sawn, stated)


def _tilted(sawn: BySaw | RipBySaw, stated: Stated) -> Setting:
    assert stated.tilt_deg is not None
    if isinstance(sawn, BySaw) and stated.face is not None:
        line_deg = float(angle_deg(*stated.face))
        return replace(sawn, line_deg=line_deg, tilt_deg=stated.tilt_deg)
    return replace(sawn, tilt_deg=stated.tilt_deg)
