"""A sawn end read back: from what is measured on it, the plane, the tilt, and what went wrong.

Two marks fix a plane, and so does one with the gap that it leaves. What is not measured on the
face is taken as the cut's own mark.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import product

import numpy as np

from layout.answer.answer import Answer
from layout.errors import LayoutError
from layout.quantity import write_length
from layout.tools.setting import ByHand
from layout.vector import Array, angle_deg
from lessons.settle.claim import SQUARE, Claim, ClaimedLine
from lessons.settle.claim_setting import completed, setting_of
from lessons.settle.ear.hearing import hear
from lessons.settle.findings import Explained, Judged
from lessons.settle.settle import ONE_PLANE_DIGITS, settle

SAME_IN = 1e-9
STEEPEST_DEG = 89.0
HALVINGS = 60
AGREE_IN = 1 / 8
"""How far measurements of one end may be apart: a mark and a tape are each read to a sixteenth."""


class CutBackError(LayoutError):
    """Measurements from which no sawn plane follows."""


@dataclass(frozen=True)
class CutBack:
    """A sawn end: its plane, as marks and as a tilt [degrees], and what it comes to.

    `judged` is the plane against the mate; `mistakes` lead to it, nearest first. `recut_in` is
    how much shorter the longest point becomes when the right plane is sawn into what is left
    [inches]; 0 where it fits already. Of a rip it is how much farther down the face the right bevel
    comes, less than 0 where it is cut too deep already.
    """

    true_answer: Answer
    judged: Judged
    mistakes: tuple[Explained, ...]
    recut_in: float

    @property
    def normal(self) -> Array:
        """Unit normal of the sawn plane, out of the kept wood (3,)."""
        return self.judged.setting.normal

    @property
    def tilt_deg(self) -> float:
        """The tilt that the saw must have had, its shoe on the face [degrees]."""
        n = self.normal
        return float(angle_deg(n[1], np.hypot(n[0], n[2])))

    @property
    def face_deg(self) -> float:
        """The mark on the face, from square across [degrees]."""
        return float(angle_deg(self.normal[2], self.normal[0]))

    @property
    def edge_deg(self) -> float:
        """The mark on the edge, from square across [degrees]."""
        return float(angle_deg(self.normal[1], self.normal[0]))

    @property
    def ahead_in(self) -> float:
        """How far the longer face stands past the other along the board [inches]."""
        thick = self.true_answer.question.stock.thickness_in
        return thick * float(abs(self.normal[1] / self.normal[0]))

    @property
    def edge_number(self) -> float | None:
        """The number on 12 that the edge shows; None where it runs square across."""
        n = self.normal
        return None if abs(n[1]) < SAME_IN else float(12 * abs(n[0] / n[1]))


def read_back(
    true_answer: Answer,
    *,
    edge: str | None = None,
    face: str | None = None,
    long_point_in: float | None = None,
    gap_in: float | None = None,
    opens_at: str | None = None,
) -> list[CutBack]:
    """Read a sawn end back; two planes where a gap alone leaves two. Raises CutBackError.

    `edge` and `face` are said as in a claim. `long_point_in` is how far the longer face stands
    past the other along the board, `gap_in` the widest gap against the mate, which opens at the
    "long point" or at the "heel". Of several measurements the first is the one that is read; the
    others must agree with it, and a gap's two planes are told apart by them.
    """
    if true_answer.is_rip:
        raise CutBackError("a rip has no end to read; measure its bevel: --across 3/4 --drop 5/16")
    if edge is None and long_point_in is None and gap_in is None and face is None:
        raise CutBackError(
            'measure something: --edge "8 3/8 on 12", --long-point 1 13/16 or --gap 3/16'
        )
    line = _line(true_answer, face, "face") if face is not None else None
    told: dict[str, list[CutBack]] = {}
    if edge is not None:
        told["the edge"] = [_read(true_answer, line, _line(true_answer, edge, "edge"))]
    if long_point_in is not None:
        told["the long point"] = [_read(true_answer, line, _by_point(true_answer, long_point_in))]
    if gap_in is not None:
        tilts = _by_gap(true_answer, line, gap_in, opens_at)
        told["the gap"] = [_read(true_answer, line, tilt) for tilt in tilts]
    if not told:
        return [_read(true_answer, line, _own_edge(true_answer))]
    if len(told) == 1:
        return next(iter(told.values()))
    return [_agreeing(told)]


def _agreeing(told: dict[str, list[CutBack]]) -> CutBack:
    """The first measurement's plane, where the others come to it within what a tape reads."""
    chosen = min(product(*told.values()), key=_spread_in)
    if _spread_in(chosen) > AGREE_IN:
        each = ", ".join(
            f"by {name} it is {write_length(one.ahead_in)}"
            for name, one in zip(told, chosen, strict=True)
        )
        raise CutBackError(
            "the measurements do not go together; how far the long point is ahead of the other"
            f" face: {each}; measure again"
        )
    return chosen[0]


def _spread_in(found: Sequence[CutBack]) -> float:
    ahead = [one.ahead_in for one in found]
    return max(ahead) - min(ahead)


def _by_point(true_answer: Answer, long_point_in: float) -> ClaimedLine:
    if long_point_in < 0:
        raise CutBackError("a long point stands past the other face by 0 or more")
    thick = true_answer.question.stock.thickness_in
    return ClaimedLine("numbers", long_point_in, thick) if long_point_in else SQUARE


def read_rip(true_answer: Answer, *, across_in: float, drop_in: float) -> CutBack:
    """Read a bevel back that was ripped: its breadth over the edge and its drop [inches].

    `recut_in` is what the right bevel, from the same line on the edge, takes off the face beyond
    the line that is there. Raises CutBackError for a cut that is no rip.
    """
    if not true_answer.is_rip:
        name = true_answer.question.entry.name
        raise CutBackError(f'{name} is no rip; measure its end: --edge "8 3/8 on 12"')
    if not across_in > 0 or drop_in < 0:
        raise CutBackError("a bevel has a breadth over the edge, and drops by 0 or more")
    claim = Claim(rip=True, gauge_in=(across_in, drop_in))
    sawn = Claim(rip=True, tilt_deg=float(angle_deg(drop_in, across_in)))
    judged, by_saw = settle(true_answer, [claim, sawn]).judged
    right_in = across_in * float(np.tan(np.radians(true_answer.cut.face_tilt_deg)))
    return CutBack(true_answer, judged, _mistakes(by_saw, judged), right_in - drop_in)


def read_sawn(true_answer: Answer, tilt_deg: float) -> list[CutBack]:
    """Read an end back that was sawn at a tilt along the right face mark. Raises CutBackError."""
    if true_answer.is_rip:
        raise CutBackError("a rip has no end to read; measure its bevel: --across 3/4 --drop 5/16")
    if not 0 <= tilt_deg <= STEEPEST_DEG:
        raise CutBackError(f"no saw tilts {tilt_deg:g} deg; say 0 to {STEEPEST_DEG:g}")
    return [_read(true_answer, None, tilt_deg)]


def _line(true_answer: Answer, said: str, where: str) -> ClaimedLine:
    """A mark as it is said on the command line, heard by the ear."""
    heard = hear(f"{where} {said}", true_answer)
    lines = {getattr(one, where) for reading in heard.readings for one in reading.claims}
    lines -= {None}
    if len(lines) > 1:
        ways = sorted(f"{_from_square_deg(line):.4g} from square" for line in lines)
        raise CutBackError(
            f"{said!r} on the {where} can be taken two ways; say {' or '.join(ways)}"
        )
    if heard.left_out:
        words = ", ".join(heard.left_out)
        raise CutBackError(f"{said!r} on the {where}: leave out {words}; say 8 3/8 on 12")
    if not lines:
        raise CutBackError(f"{said!r} is no mark on the {where}: {heard.why}; say 8 3/8 on 12")
    return ClaimedLine(*vars(lines.pop()).values())


def _from_square_deg(line: ClaimedLine) -> float:
    """A mark's angle from square across [degrees]."""
    return float(angle_deg(*line.legs))


def _own_edge(true_answer: Answer) -> ClaimedLine:
    return (
        ClaimedLine("degrees", true_answer.edge.from_square_deg)
        if true_answer.edge.lean
        else SQUARE
    )


def _claim(true_answer: Answer, face: ClaimedLine | None, second: ClaimedLine | float) -> Claim:
    if isinstance(second, ClaimedLine):
        return Claim(face=face, edge=second)
    return Claim(face=face, tilt_deg=second)


def _read(true_answer: Answer, face: ClaimedLine | None, second: ClaimedLine | float) -> CutBack:
    claim = _claim(true_answer, face, second)
    setting = setting_of(completed(claim, true_answer), true_answer)
    normal = setting.normal
    tilt = float(angle_deg(normal[1], np.hypot(normal[0], normal[2])))
    by_saw = Claim(
        face=_degrees(float(angle_deg(normal[2], normal[0]))), tilt_deg=min(tilt, STEEPEST_DEG)
    )
    # The same end may have been marked by hand or sawn: the mistakes of both are looked through.
    judged, sawn = settle(true_answer, [claim, by_saw]).judged
    recut_in = 0.0 if judged.fits else _recut_in(true_answer, normal)
    return CutBack(true_answer, judged, _mistakes(sawn, judged), recut_in)


def _mistakes(by_saw: Judged, judged: Judged) -> tuple[Explained, ...]:
    """The mistakes that either way of saying the cut can make, each once, nearest first."""
    found = {one.mistake.name: one for one in (*by_saw.mistakes, *judged.mistakes)}
    off = {name: round(one.off_in, ONE_PLANE_DIGITS) for name, one in found.items()}
    return tuple(sorted(found.values(), key=lambda one: (off[one.mistake.name], -one.same)))


def _degrees(angle: float) -> ClaimedLine:
    return ClaimedLine("degrees", angle) if angle > SAME_IN else SQUARE


def _recut_in(true_answer: Answer, normal: Array) -> float:
    """How far the longest point moves back when the right plane is sawn into what is left.

    Both planes are lines x(y, z) over the section. The right one is moved back until it lies in
    the wood at every corner; then the longest point of each is compared.
    """
    made = replace(true_answer.cut, normal=np.asarray(normal))
    end = 1.0 if true_answer.cut.at_head else -1.0
    sawn, wanted = end * made.corners()[:, 0], end * true_answer.cut.corners()[:, 0]
    back = float(np.max(wanted - sawn))
    return float(np.max(sawn) - np.max(wanted - back))


def _by_gap(
    true_answer: Answer, face: ClaimedLine | None, gap_in: float, opens_at: str | None
) -> list[float]:
    """The tilts that leave this gap, under and over the right one, found by halving."""
    if true_answer.hand is None:
        raise CutBackError("this cut has no long point: measure its face mark, --face 33.7")
    if gap_in <= 0:
        raise CutBackError("a gap is more than nothing; without one the cut fits")
    own = float(true_answer.cut.face_tilt_deg)
    found = []
    for place, limit in (("long point", 0.0), ("heel", STEEPEST_DEG)):
        if opens_at is not None and opens_at != place:
            continue
        if _gap(true_answer, face, limit) < gap_in:
            continue
        low, high = own, limit
        for _ in range(HALVINGS):
            middle = (low + high) / 2
            low, high = (
                (middle, high) if _gap(true_answer, face, middle) < gap_in else (low, middle)
            )
        found.append((low + high) / 2)
    if not found:
        raise CutBackError("no tilt leaves so wide a gap on this board; measure it again")
    return found


def _gap(true_answer: Answer, face: ClaimedLine | None, tilt_deg: float) -> float:
    whole = completed(Claim(face=face, tilt_deg=tilt_deg), true_answer)
    setting = setting_of(whole, true_answer)
    assert not isinstance(setting, ByHand)
    return float(true_answer.fit(setting).widest_in)
