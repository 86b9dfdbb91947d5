"""Settle claims about a cut: each one's plane, its gap on this stock, and what is behind it.

A claim becomes a setting by its own method, from its own words; the joint lends it only the end
of the stick, and the way it leans where the claim does not say. The setting's plane is stood
against the joint's mate and against the planes of the other claims and of the known mistakes.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import cached_property
from itertools import combinations

import numpy as np

from layout.answer import SAME_ANGLE_DEG, Answer
from layout.cuts import End, Hand
from layout.fit import SOUND_IN, Fit, fit
from layout.saw import as_set
from layout.setting import ByHand, BySaw, BySawOnEdge, RipByHand, RipBySaw, Setting
from layout.vector import Array
from lessons.claim import SQUARE, Arris, Claim, ClaimError, Line
from lessons.mistakes import Made, Mistake, made_on

MOST_CLAIMS = 6
KNOWN_WITHIN_IN = 1 / 32
"""Settings read on the tool stray this far from the mistake that they come from."""
FINE_DIGITS = 3
"""Decimals of a setting written finer than tools are read, where the read one will not do."""


class Verdict(StrEnum):
    """What is found of a claim; an open one fixes no plane by itself."""

    RIGHT = "right"
    WRONG = "wrong"
    OPEN = "open"


@dataclass(frozen=True)
class Explained:
    """A known mistake near a claim: the widest gap between its plane and the claim's [inches]."""

    mistake: Mistake
    off_in: float

    @property
    def same(self) -> bool:
        """The claim says the mistake's own plane, not one near it."""
        return self.off_in < SOUND_IN


@dataclass(frozen=True)
class Judged:
    """A claim and what was found of it.

    `whole` is the claim with what was missing taken from the joint. `taken` has the words for
    the way it leans where the claim did not say. `instead` is the nearest right claim by the
    same method, None for one that is right. `mistakes` stand nearest first.
    """

    claim: Claim
    whole: Claim
    setting: Setting
    fit: Fit
    tolerance_in: float
    taken: tuple[str, ...]
    mistakes: tuple[Explained, ...]
    instead: Claim | None

    @property
    def gap_in(self) -> float:
        """The widest gap against the mate [inches]."""
        return float(self.fit.widest_in)

    @property
    def exact(self) -> bool:
        """The claim says the joint's own plane, to the last digit."""
        return self.gap_in < SOUND_IN

    @property
    def fits(self) -> bool:
        """The gap stays within the tolerance."""
        return self.gap_in <= self.tolerance_in

    @property
    def verdict(self) -> Verdict:
        """Right where it fits, wrong where it does not, open where the plane is not fixed."""
        if self.claim.missing and not self.whole.rip:
            return Verdict.OPEN
        return Verdict.RIGHT if self.fits else Verdict.WRONG


@dataclass(frozen=True)
class Settled:
    """Every claim judged, and which of them say one plane."""

    answer: Answer
    judged: tuple[Judged, ...]

    @property
    def right(self) -> tuple[int, ...]:
        """The right claims, counted from 1."""
        return self._with(Verdict.RIGHT)

    @property
    def wrong(self) -> tuple[int, ...]:
        """The wrong claims, counted from 1."""
        return self._with(Verdict.WRONG)

    @property
    def open(self) -> tuple[int, ...]:
        """The claims that fix no plane, counted from 1."""
        return self._with(Verdict.OPEN)

    @cached_property
    def apart_in(self) -> Array:
        """Widest gap between each pair of claims' cuts stood together [inches] (n, n)."""
        normals = [judged.setting.normal for judged in self.judged]
        gaps = np.array([[_apart(self.answer, a, b) for b in normals] for a in normals])
        worst: Array = np.maximum(gaps, gaps.T)
        return worst

    @cached_property
    def same_plane(self) -> tuple[tuple[int, ...], ...]:
        """Groups of claims, counted from 1, any two of which fit each other within tolerance."""
        groups: list[list[int]] = []
        for index, judged in enumerate(self.judged):
            if judged.verdict is Verdict.OPEN:
                continue
            for group in groups:
                if all(self.apart_in[index, i] <= judged.tolerance_in for i in group):
                    group.append(index)
                    break
            else:
                groups.append([index])
        return tuple(tuple(i + 1 for i in group) for group in groups if len(group) > 1)

    def apart(self, numbers: Sequence[int]) -> float:
        """Widest gap between any two of these claims, counted from 1 [inches]."""
        return max(float(self.apart_in[i - 1, j - 1]) for i, j in combinations(numbers, 2))

    def _with(self, verdict: Verdict) -> tuple[int, ...]:
        return tuple(i for i, one in enumerate(self.judged, start=1) if one.verdict is verdict)


def settle(right: Answer, claims: Sequence[Claim]) -> Settled:
    """Judge one to six claims about this cut.

    Raises ClaimError for fewer or more, and for a claim of a rip about a cut that ends the
    board, or the other way about.
    """
    if not 1 <= len(claims) <= MOST_CLAIMS:
        raise ClaimError(f"{len(claims)} claims cannot be settled at once; give 1 to {MOST_CLAIMS}")
    known = made_on(right)
    return Settled(right, tuple(_judged(right, claim, known) for claim in claims))


def setting_of(claim: Claim, right: Answer) -> Setting:
    """The setting a whole claim says: its own numbers, made at the joint's end of the stick.

    It leans as it says, else as the joint does. Raises ClaimError for a claim that leaves the
    plane open, or says a rip where the joint has none.
    """
    _check_kind(claim, right)
    if claim.missing:
        raise ClaimError(
            f"the claim {str(claim)!r} leaves the plane open: it lacks {claim.missing}"
        )
    side = _side_sign(claim, right)
    if claim.rip:
        top = _arris_sign(claim, right)
        if claim.gauge_in is not None:
            return RipByHand(*claim.gauge_in, top, -side)
        assert claim.tilt_deg is not None
        return RipBySaw(claim.tilt_deg, top, -side)
    end = _sign(right.cut.normal[0])
    lean = _top_sign(claim, right)
    if claim.shoe == "edge":
        assert claim.edge is not None
        assert claim.tilt_deg is not None
        angle = claim.edge.from_square_deg
        return BySawOnEdge(angle, -side * end, claim.tilt_deg, -lean * end, end)
    assert claim.face is not None
    if claim.tilt_deg is not None:
        return BySaw(claim.face.from_square_deg, lean, claim.tilt_deg, -side, end)
    assert claim.edge is not None
    return ByHand(claim.face.legs, lean, claim.edge.legs, -side * end, end)


def _judged(right: Answer, claim: Claim, known: Sequence[Made]) -> Judged:
    whole = _completed(claim, right)
    setting = setting_of(whole, right)
    found = right.fit(setting)
    # Of mistakes that come to one plane, the one made by the claim's own method goes first.
    nearest = sorted(
        (
            (round(off, 6), type(made.setting) is not type(setting), made.mistake.name, off, made)
            for made in known
            for off in (_apart(right, made.setting.normal, setting.normal),)
        ),
    )
    near = [Explained(made.mistake, off) for *_, off, made in nearest]
    gap = float(found.widest_in)
    mistakes = tuple(one for one in near if one.off_in <= KNOWN_WITHIN_IN and one.off_in < gap)
    return Judged(
        claim,
        whole,
        setting,
        found,
        right.tolerance_in,
        tuple(_taken(whole, right)),
        mistakes,
        None if gap <= right.tolerance_in else _instead(whole, right),
    )


def _apart(right: Answer, mate: Array, made: Array) -> float:
    """Widest gap of one cut against the mate of another, on this stock [inches]."""
    return float(fit(replace(right.cut, normal=mate), made).widest_in)


# What the joint lends a claim


def _check_kind(claim: Claim, right: Answer) -> None:
    name = right.question.entry.name
    tilt_alone = claim.face is None and claim.edge is None and claim.gauge_in is None
    if claim.rip and not right.is_rip:
        raise ClaimError(
            f"the claim {str(claim)!r} is of a rip, but {name} ends the board;"
            " say a face mark, as in plumb 8 in 12, saw 45"
        )
    if right.is_rip and not (claim.rip or tilt_alone):
        raise ClaimError(
            f"the claim {str(claim)!r} ends the board, but {name} is a rip along it;"
            " say gauge 3/4 drop 5/16, or rip, saw 22 1/2"
        )


def _completed(claim: Claim, right: Answer) -> Claim:
    """The claim with what it lacks taken from the joint, exact."""
    _check_kind(claim, right)
    if right.is_rip:
        return replace(claim, rip=True)
    if claim.face is None and claim.shoe == "face":
        claim = replace(claim, face=_lent_face(right))
    if claim.edge is None and claim.tilt_deg is None:
        claim = replace(claim, tilt_deg=float(right.cut.face_tilt_deg))
    return claim


def _lent_face(right: Answer) -> Line:
    """The joint's own face mark, exact."""
    return Line("degrees", right.face.from_square_deg) if right.face.lean else SQUARE


def _side_sign(claim: Claim, right: Answer) -> int:
    """+1 for a cheek that faces left; where the joint has no hand, both are alike."""
    return 1 if (claim.cheek or right.hand or Hand.LEFT) is Hand.LEFT else -1


def _top_sign(claim: Claim, right: Answer) -> int:
    """+1 where the face mark's upper end leans toward the head."""
    if claim.top is not None:
        return 1 if claim.top == "head" else -1
    return right.face.lean or 1


def _arris_sign(claim: Claim, right: Answer) -> int:
    """+1 for a rip that takes off the top edge's arris."""
    if claim.arris is not None:
        return 1 if claim.arris == "top" else -1
    return _sign(right.cut.normal[2])


def _taken(claim: Claim, right: Answer) -> Iterator[str]:
    """The words for each way a claim leans without saying so; none where it stands square."""
    leans_aside = bool(claim.tilt_deg) if claim.shoe == "face" else claim.edge != SQUARE
    leans_aside = leans_aside or claim.edge not in (None, SQUARE) or claim.gauge_in is not None
    if claim.cheek is None and leans_aside:
        yield f"{right.hand.value} cheek" if right.hand else "either cheek alike"
    if claim.rip:
        if claim.arris is None:
            yield f"{_arris_of(right)} edge"
        return
    leans_along = claim.face not in (None, SQUARE) or (claim.shoe == "edge" and claim.tilt_deg)
    if claim.top is None and leans_along:
        yield f"top to {_top_of(right)}" if right.face.lean else "either way along alike"


def _top_of(right: Answer) -> End:
    return "head" if right.face.lean > 0 else "foot"


def _arris_of(right: Answer) -> Arris:
    return "top" if right.cut.normal[2] > 0 else "bottom"


def _sign(value: float) -> int:
    return int(np.sign(value))


# The nearest right claim


def _instead(whole: Claim, right: Answer) -> Claim:
    """The right claim by the same method that changes least of this one.

    One part is put right at a time (what decides the tilt first, then the face mark, then the
    way it leans), then all of them; as read on the tool, and finer where that does not do.
    """
    for exact in (False, True):
        for candidate in _repairs(whole, right, exact):
            if float(right.fit(setting_of(candidate, right)).widest_in) <= right.tolerance_in:
                return candidate
    return candidate


def _repairs(whole: Claim, right: Answer, exact: bool) -> Iterator[Claim]:
    lean: dict[str, object] = {
        "cheek": right.hand if whole.cheek else None,
        "top": _top_of(right) if whole.top and right.face.lean else None,
        "arris": _arris_of(right) if whole.arris else None,
    }
    second, first = _right_parts(whole, right, exact)
    # Words for a lean that the joint does not have would contradict it.
    bare: dict[str, object] = {"text": ""}
    if right.hand is None:
        bare["cheek"] = None
    if not right.face.lean:
        bare["top"] = None
    for change in (second, first, lean, {**first, **second}, {**first, **second, **lean}):
        yield replace(whole, **(change | bare))  # type: ignore[arg-type]


def _right_parts(
    whole: Claim, right: Answer, exact: bool
) -> tuple[dict[str, object], dict[str, object]]:
    """The right values of what a method sets: its tilt or second line, and its first line."""
    cut = right.cut
    if whole.gauge_in is not None:
        gauges = right.hand_setting(as_read=not exact)
        assert isinstance(gauges, RipByHand)
        return {"gauge_in": (gauges.across_in, gauges.drop_in)}, {}
    tilt = float(cut.edge_tilt_deg if whole.shoe == "edge" else cut.face_tilt_deg)
    tilted: dict[str, object] = {"tilt_deg": _set(tilt, right, exact)}
    if whole.rip:
        return tilted, {}
    if whole.shoe == "edge":
        return tilted, {"edge": _right_line(right, "edge", whole.edge, exact)}
    first: dict[str, object] = {"face": _right_line(right, "face", whole.face, exact)}
    if first["face"] == SQUARE:
        first["table"] = False
    if whole.edge is None:
        return tilted, first
    return {"edge": _right_line(right, "edge", whole.edge, exact)}, first


def _set(tilt_deg: float, right: Answer, exact: bool) -> float:
    return round(tilt_deg, FINE_DIGITS) if exact else float(as_set(tilt_deg, right.limits.step_deg))


def _right_line(right: Answer, where: str, said: Line | None, exact: bool) -> Line:
    """The joint's own mark, in degrees where the claim spoke of degrees, else in numbers."""
    mark = right.face if where == "face" else right.edge
    if mark.numbers is None:
        return SQUARE
    pair = mark.numbers if exact else mark.numbers.as_read()
    degrees = _set(mark.from_square_deg, right, exact)
    if said is not None and said.kind == "degrees" and 0 < degrees < 90:
        return Line("degrees", degrees)
    if min(pair.mark, pair.other) <= 0:  # too near square, or too near the board's length
        return Line("degrees", mark.from_square_deg)
    if exact:
        pair = replace(
            pair, mark=round(pair.mark, FINE_DIGITS), other=round(pair.other, FINE_DIGITS)
        )
    if where == "face":
        slope = right.stick_slope_deg
        if abs(mark.from_square_deg - slope) < SAME_ANGLE_DEG:
            return Line("plumb", pair.mark, pair.other)
        if abs(90 - mark.from_square_deg - slope) < SAME_ANGLE_DEG:
            return Line("level", pair.other, pair.mark)
    return Line("numbers", pair.mark, pair.other)
