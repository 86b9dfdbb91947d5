"""Every cut of the catalogue over a wide field of roofs, boards and hands, in arrays.

Both methods are built from settings alone and stood against the joint, as a single answer does
it; here thousands of roofs go through the same functions at once. A roof in which a cut has no
place is passed over, as `mark` refuses it.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import numpy as np

from layout.cuts import End, Entry, catalogue
from layout.errors import CutError, RoofError
from layout.plane.corner import Corner
from layout.plane.cut import ALONG, Cut
from layout.plane.joint import Joint
from layout.stock import Stock, read_stock
from layout.tools.fit import SOUND_IN, fit
from layout.tools.saw import as_set
from layout.tools.setting import ByHand, BySaw, RipByHand, RipBySaw
from layout.vector import Array

RISES = np.arange(0.25, 24.01, 0.25)
"""Of the own roof on 12 [in]."""
OTHER_RISES = (None, 2.0, 4.5, 7.0, 9.0, 12.0, 18.0)
"""Of the other roof on 12 [in]; None for one pitch on both."""
CORNERS: Mapping[str, tuple[float, ...]] = {
    "nothing": (90.0,),
    "hip": (60.0, 72.0, 90.0, 108.0, 120.0, 135.0, 144.0),
    "valley": (210.0, 225.0, 240.0, 255.0, 270.0, 285.0, 300.0),
    "either": (60.0, 90.0, 120.0, 135.0, 225.0, 270.0, 300.0),
}
"""Angles between the walls, measured inside [degrees], by what stands at the corner."""
STOCKS = ("1x6", "2x4", "2x6", "2x10", "4x8", "38mm x 140mm")
HANDS = (1.0, -1.0)
BLOCK = 2048
"""Roofs worked out at once: what a processor keeps at hand."""
SIXTEENTHS = 16
STEP_DEG = 0.5


@dataclass(frozen=True)
class Roofs:
    """Roofs and hands as flat arrays of one length: rises on 12 [in], corners [degrees]."""

    rise: Array
    other_rise: Array
    corner_deg: Array
    hand: Array

    def __len__(self) -> int:
        return len(self.rise)

    def part(self, start: int, stop: int | None = None) -> "Roofs":
        """Some of them, from `start` up to `stop`."""
        return Roofs(*(a[start:stop] for a in self._arrays))

    @property
    def corner(self) -> Corner:
        """All as one corner of arrays."""
        slope, other = (np.degrees(np.arctan2(r, 12.0)) for r in (self.rise, self.other_rise))
        return Corner(slope, other, self.corner_deg, self.hand)

    @property
    def _arrays(self) -> tuple[Array, Array, Array, Array]:
        return self.rise, self.other_rise, self.corner_deg, self.hand


@dataclass(frozen=True)
class Widest:
    """The widest gap of one method over all cases of a cut's end [inches], and where it is."""

    gap_in: float
    roof: Roofs
    stock: Stock

    def command(self, entry: Entry, end: End) -> str:
        """The `mark` command that shows this case."""
        roof = self.roof
        words = ["squaresaw mark", entry.name, f"--pitch {float(roof.rise[0]):g}"]
        if roof.other_rise[0] != roof.rise[0]:
            words.append(f"--other-pitch {float(roof.other_rise[0]):g}")
        if entry.meets != "nothing":
            words.append(f"--corner {float(roof.corner_deg[0]):g}")
        if entry.two_hands:
            words.append(f"--hand {'left' if roof.hand[0] > 0 else 'right'}")
        if len(entry.ends) > 1:
            words.append(f"--end {end}")
        return " ".join([*words, f'--stock "{self.stock.name}"'])


@dataclass(frozen=True)
class Wide:
    """One end of one cut over the whole field.

    `cases` counts roofs times hands times boards times planes; `no_place` the roofs in which the
    cut has no place. `hand` and `saw` are with exact settings, `hand_read` and `saw_read` with
    numbers laid to sixteenths on 12 and the tilt set to half a degree.
    """

    entry: Entry
    end: End
    cases: int
    no_place: int
    hand: Widest
    saw: Widest
    hand_read: Widest
    saw_read: Widest

    @property
    def sound(self) -> bool:
        """True where neither method leaves a gap with exact settings."""
        return self.hand.gap_in < SOUND_IN and self.saw.gap_in < SOUND_IN


def every_cut() -> Iterator[Wide]:
    """Each end of each cut of the catalogue over the field."""
    for entry in catalogue().values():
        for end in entry.ends:
            yield over_the_field(entry, end, field_of(entry))


def field_of(entry: Entry) -> Roofs:
    """The roofs and hands over which a cut is tried."""
    others = OTHER_RISES if entry.meets != "nothing" else OTHER_RISES[:1]
    hands = HANDS if entry.two_hands else HANDS[:1]
    # Rises last: roofs in which a cut has no place then stand together, and are parted in few
    # halvings.
    columns = np.meshgrid(
        np.array(CORNERS[entry.meets]),
        np.array([np.nan if other is None else other for other in others]),
        np.array(hands),
        RISES,
        indexing="ij",
    )
    corner, other, hand, rise = (column.ravel() for column in columns)
    return Roofs(rise, np.where(np.isnan(other), rise, other), corner, hand)


def over_the_field(entry: Entry, end: End, roofs: Roofs) -> Wide:
    """Try both methods on every roof, board and plane of one end."""
    with np.errstate(invalid="ignore"):
        return _tried(entry, end, roofs)


def _tried(entry: Entry, end: End, roofs: Roofs) -> Wide:
    worst: dict[str, Widest] = {}
    cases = placed = 0
    blocks = [roofs.part(at, at + BLOCK) for at in range(0, len(roofs), BLOCK)]
    for here, joint in (found for block in blocks for found in _standing(entry, end, block)):
        placed += len(here)
        for stock in map(read_stock, STOCKS):
            for cut in joint.cuts(stock):
                cases += len(here)
                for name, normal in _planes(cut).items():
                    gaps = np.broadcast_to(fit(cut, normal).widest_in, (len(here),))
                    at = int(np.argmax(np.where(np.isnan(gaps), np.inf, gaps)))
                    if name not in worst or not gaps[at] <= worst[name].gap_in:
                        worst[name] = Widest(float(gaps[at]), here.part(at, at + 1), stock)
    if not worst:
        raise CutError(f"{entry.name} has no place in any roof of the field")
    return Wide(entry, end, cases, len(roofs) - placed, **worst)


def _standing(entry: Entry, end: End, roofs: Roofs) -> Iterator[tuple[Roofs, Joint]]:
    """The joints of all roofs that have one, in as few arrays as it takes.

    One roof without it refuses a whole array; so an array that is refused is halved.
    """
    try:
        yield roofs, entry.joint(roofs.corner, end)
    except (CutError, RoofError):
        half = len(roofs) // 2
        if half:
            yield from _standing(entry, end, roofs.part(0, half))
            yield from _standing(entry, end, roofs.part(half))


def _planes(cut: Cut) -> dict[str, Array]:
    """The plane of each method (..., 3), with exact settings and with settings as read."""
    n = cut.normal
    top, right = np.sign(n[..., 2]), -np.sign(n[..., 1])
    tilt = cut.face_tilt_deg
    if np.all(cut.runs_along):
        start, end = cut.corners()[..., 0, :], cut.corners()[..., 2, :]
        across, drop = (np.abs(end[..., i] - start[..., i]) for i in (1, 2))
        drop_read = _nearest(drop, 2 * SIXTEENTHS)
        return {
            "hand": RipByHand(across, drop, top, right).normal,  # type: ignore[arg-type]
            "saw": RipBySaw(tilt, top, right).normal,  # type: ignore[arg-type]
            "hand_read": RipByHand(across, drop_read, top, right).normal,  # type: ignore[arg-type]
            "saw_read": RipBySaw(as_set(tilt, STEP_DEG), top, right).normal,  # type: ignore[arg-type]
        }
    face, edge = _legs(cut.face_mark_deg, n[..., 2]), _legs(cut.edge_mark_deg, n[..., 1])
    face_read, edge_read = _laid(face), _laid(edge)
    lean, left_lean = np.sign(cut.top_lean), np.sign(cut.left_lean)
    at_head = np.sign(n[..., 0])
    line_read = np.degrees(np.arctan2(*face_read))
    planes: dict[str, Array] = {
        "hand": ByHand(face, lean, edge, left_lean, at_head).normal,  # type: ignore[arg-type]
        "saw": BySaw(cut.face_mark_deg, lean, tilt, right, at_head).normal,  # type: ignore[arg-type]
        "hand_read": ByHand(face_read, lean, edge_read, left_lean, at_head).normal,  # type: ignore[arg-type]
        "saw_read": BySaw(line_read, lean, as_set(tilt, STEP_DEG), right, at_head).normal,  # type: ignore[arg-type]
    }
    return planes


def _legs(mark_deg: Array, part: Array) -> tuple[Array, Array]:
    """The line's two numbers, 12 on the longer arm [inches]; square across where nothing leans."""
    mark, other = np.sin(np.radians(mark_deg)), np.cos(np.radians(mark_deg))
    scale = 12.0 / np.maximum(mark, other)
    leans = np.abs(part) > ALONG
    return np.where(leans, mark * scale, 0.0), np.where(leans, other * scale, 12.0)


def _laid(legs: tuple[Array, Array]) -> tuple[Array, Array]:
    mark, other = (_nearest(leg, SIXTEENTHS) for leg in legs)
    return mark, other


def _nearest(length_in: Array, parts: int) -> Array:
    return np.floor(length_in * parts + 0.5) / parts
