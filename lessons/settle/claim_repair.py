"""The right claim nearest to a wrong one: the same method, and as little changed as will do."""

from collections import ChainMap
from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations
from typing import Any

from layout.answer.answer import SAME_ANGLE_DEG, Answer
from layout.tools.saw import as_set
from layout.tools.setting import RipByHand
from lessons.settle.claim import SQUARE, Claim, ClaimedLine
from lessons.settle.claim_setting import arris_of, setting_of, top_of

FINE_DIGITS, FINE_DEG_DIGITS = 3, 2
"""Decimals of inches and degrees written finer than tools are read, where the read will not do."""
TRUE_DIGITS = 9
"""Decimals of inches that a gauge is set to: subtracting depths leaves noise behind them."""


def nearest_right(whole: Claim, true_answer: Answer) -> Claim:
    """The right claim by the same method that changes least of this one.

    One part is put right at a time (the tilt or second line, the line it starts from, the way
    it leans), then two, then all; as read on the tool, and finer where that does not do.
    """
    for exact in (False, True):
        for candidate in _repairs(whole, true_answer, exact):
            if (
                float(true_answer.fit(setting_of(candidate, true_answer)).widest_in)
                <= true_answer.tolerance_in
            ):
                return candidate
    return candidate


def _repairs(whole: Claim, true_answer: Answer, exact: bool) -> Iterator[Claim]:
    lean: dict[str, Any] = {
        "cheek": true_answer.hand if whole.cheek else None,
        "top": top_of(true_answer) if whole.top and true_answer.face.lean else None,
        "arris": arris_of(true_answer) if whole.arris else None,
    }
    second, first = _right_parts(whole, true_answer, exact)
    if whole.face is not None and whole.face.kind in ("plumb", "level"):
        first |= {"top": lean.pop("top")}  # a plumb line leans as a plumb line does
    # Words for a lean that the joint does not have would contradict it.
    bare: dict[str, Any] = {"text": ""}
    if true_answer.hand is None:
        bare["cheek"] = None
    if not true_answer.face.lean:
        bare["top"] = None
    for size in (1, 2, 3):
        for parts in combinations((second, first, lean), size):
            yield replace(whole, **dict(ChainMap(bare, *parts)))


def _right_parts(
    whole: Claim, true_answer: Answer, exact: bool
) -> tuple[dict[str, Any], dict[str, Any]]:
    """The right values of what a method sets: its tilt or second line, and its first line."""
    cut = true_answer.cut
    if whole.gauge_in is not None:
        gauges = true_answer.hand_setting(as_read=not exact)
        assert isinstance(gauges, RipByHand)
        across_in = round(gauges.across_in, TRUE_DIGITS)
        drop_in = round(gauges.drop_in, FINE_DIGITS) if exact else gauges.drop_in
        return {"gauge_in": (across_in, drop_in)}, {}
    tilt = float(cut.edge_tilt_deg if whole.shoe == "edge" else cut.face_tilt_deg)
    tilted: dict[str, Any] = {"tilt_deg": _set(tilt, true_answer, exact)}
    if whole.rip:
        return tilted, {}
    if whole.shoe == "edge":
        return tilted, {"edge": _right_line(true_answer, "edge", whole.edge, exact)}
    first: dict[str, Any] = {"face": _right_line(true_answer, "face", whole.face, exact)}
    if first["face"] == SQUARE:
        first["table"] = False
    if whole.edge is None:
        return tilted, first
    return {"edge": _right_line(true_answer, "edge", whole.edge, exact)}, first


def _set(tilt_deg: float, true_answer: Answer, exact: bool) -> float:
    return (
        round(tilt_deg, FINE_DEG_DIGITS)
        if exact
        else float(as_set(tilt_deg, true_answer.limits.step_deg))
    )


def _right_line(
    true_answer: Answer, where: str, said: ClaimedLine | None, exact: bool
) -> ClaimedLine:
    """The joint's own mark, in degrees where the claim spoke of degrees, else in numbers."""
    mark = true_answer.face if where == "face" else true_answer.edge
    if mark.numbers is None:
        return SQUARE
    pair = mark.numbers if exact else mark.numbers.as_read(mark.parts)
    degrees = _set(mark.from_square_deg, true_answer, exact)
    if said is not None and said.kind == "degrees" and 0 < degrees < 90:
        return ClaimedLine("degrees", degrees)
    mark_in, other_in = pair.mark, pair.other
    if exact:
        mark_in, other_in = round(mark_in, FINE_DIGITS), round(other_in, FINE_DIGITS)
    if min(mark_in, other_in) <= 0:  # too near square, or too near the board's length
        return ClaimedLine("degrees", mark.from_square_deg)
    if where == "face":
        # Both lie at 45 degrees at 12 in 12: a plumb line's top leans to the head, a level one's
        # to the foot.
        plumb, slope = mark.lean > 0, true_answer.stick_slope_deg
        if abs(mark.from_square_deg - (slope if plumb else 90 - slope)) < SAME_ANGLE_DEG:
            return (
                ClaimedLine("plumb", mark_in, other_in)
                if plumb
                else ClaimedLine("level", other_in, mark_in)
            )
    return ClaimedLine("numbers", mark_in, other_in)
