"""Roofs to be tried: one of every shape by name, and as many as are asked for drawn by lot."""

from functools import cache

import numpy as np

from layout.errors import LayoutError
from layout.framing.outlines import bay_end, ell, equal_sided, rectangle, shed, tee
from layout.framing.roof import TrainingRoof, frame
from layout.framing.roof_plan import RoofPlan, Wing
from layout.framing.walls import Outline, Wall, walk
from layout.quantity import read_pitch
from layout.stock import read_stock

PITCHES = [read_pitch(said) for said in ("4", "6", "7", "8", "9", "10", "12", "35deg")]
P = read_pitch("8")
DEEP = read_stock("2x12")
BIG = {"hip": read_stock("2x10"), "valley": read_stock("2x10")}


def eaves(lengths_and_turns, pitch=P) -> Outline:
    """Walls that are all eaves of one pitch."""
    return walk([Wall(float(x), float(turn), "eave", pitch) for x, turn in lengths_and_turns])


def through(corners, pitch=P) -> Outline:
    """Eaves from corner to corner, counterclockwise, the first along +X."""
    points = np.array(corners, dtype=float)
    steps = np.roll(points, -1, axis=0) - points
    heading = np.degrees(np.arctan2(steps[:, 1], steps[:, 0]))
    turns = (np.roll(heading, -1) - heading + 180) % 360 - 180
    return eaves(zip(np.hypot(*steps.T), turns, strict=True), pitch)


def cross(arm: float, wing: float, long: float) -> Outline:
    """Four wings round a middle, twelve walls."""
    return eaves([(long, -90), (arm, 90), (wing, 90), (arm, -90), (long, 90), (2 * wing, 90)] * 2)


def skew_end(pitch=P, end=P) -> Outline:
    """A rectangle whose right end stands aslant."""
    slant = 180 / np.sin(np.radians(70))
    return walk([Wall(300, 70, "eave", pitch), Wall(slant, 110, "eave", end),
                 Wall(300 + slant * np.cos(np.radians(70)), 90, "eave", pitch),
                 Wall(180, 90, "eave", end)])  # fmt: skip


over = RoofPlan.over
SHAPES: dict[str, RoofPlan] = {
    "a square": RoofPlan(160, 160, spacing_in=24),
    "17 x 16": RoofPlan(204, 192, spacing_in=24, hip_head="ridge"),
    "all hips to one point, two pitches": over(
        rectangle(210, 150, read_pitch("10 in 12"), read_pitch("10 in 16.8")), hip=DEEP,
        spacing_in=24, hip_way="dropped",
    ),
    "an octagon": over(equal_sided(8, 72, P), spacing_in=24, first_in=9.0),
    "a pentagon": over(equal_sided(5, 120, read_pitch("9")), spacing_in=24, **BIG),
    "a half-octagon end and a gable": over(
        bay_end(120, 150, P, "gable"), spacing_in=24, plate_corner="clipped"
    ),
    "a half-octagon end": over(bay_end(140, 150, P), spacing_in=24, hip_way="dropped"),
    "a T of two pitches": over(
        tee(300, 180, 90, 60, 110, P, read_pitch("10"), read_pitch("9"), ("hip", "gable", "hip")),
        hip=DEEP, valley=DEEP, valley_way="hollowed", spacing_in=24,
    ),
    "a T of one height": over(tee(330, 150, 90, 60, 150, P), spacing_in=24, **BIG),
    "a lower wing": over(
        tee(300, 180, 80, 60, 100, P, ends=("gable", "gable", "gable")), spacing_in=24, **BIG
    ),
    "an offset front": over(
        eaves([(200, 90), (60, -90), (110, 90), (160, 90), (310, 90), (220, 90)]), spacing_in=24,
        hip_way="dropped", **BIG,
    ),
    "a court": over(
        eaves([(400, 90), (240, 90), (120, 90), (100, -90), (150, -90), (100, 90), (130, 90),
               (240, 90)]), spacing_in=24, **BIG,
    ),
    "a cross": over(cross(60, 100, 90), spacing_in=24, **BIG),
    "a shed": over(shed(140, 110, read_pitch("4")), spacing_in=24),
    "a lean-to": over(shed(140, 110, read_pitch("5")), high="ledger", spacing_in=24),
    "a ridge off the middle": over(
        walk([Wall(160, 90, "eave", P), Wall(150, 90, "gable"),
              Wall(160, 90, "eave", read_pitch("6")), Wall(150, 90, "gable")]), spacing_in=24,
    ),
    "four pitches": over(
        walk([Wall(240, 90, "eave", P), Wall(150, 90, "eave", read_pitch("7")),
              Wall(240, 90, "eave", read_pitch("6")), Wall(150, 90, "eave", read_pitch("9"))]),
        hip=DEEP, hip_way="dropped", spacing_in=24,
    ),
    "a skew end": over(skew_end(), spacing_in=24, **BIG),
    "a sloping ridge": over(
        through([(0, 0), (210, 0), (200, 150), (10, 130)]), spacing_in=24, **BIG,
    ),
}  # fmt: skip


@cache
def framed_shape(name: str) -> TrainingRoof:
    """One of SHAPES, framed once for all tests of a process."""
    return frame(SHAPES[name])


@cache
def small_ell() -> TrainingRoof:
    """Two pitches, four hips and a valley, and few rafters: for what is asked of corners."""
    return frame(
        RoofPlan(
            300, 180, wing=Wing(80, 130, pitch=read_pitch("12")), hip=DEEP, valley=DEEP,
            spacing_in=48, pitch=read_pitch("6"),
        )
    )  # fmt: skip


def drawn(seed: int) -> TrainingRoof:
    """A roof drawn by lot: shape, sizes, pitches, stock and ways; drawn again where it cannot be
    framed."""
    rng = np.random.default_rng(seed)
    while True:
        try:
            return frame(_plan(rng))
        except LayoutError:
            continue


def _plan(rng: np.random.Generator) -> RoofPlan:
    deep = rng.integers(0, 2) == 0
    return RoofPlan.over(
        _outline(rng),
        spacing_in=float(rng.choice([16.0, 19.2, 24.0])),
        first_in=None if rng.integers(0, 2) else float(rng.uniform(6, 16)),
        overhang_in=float(rng.choice([0.0, 8.0, 12.0])),
        hip=read_stock("2x12" if deep else "4x12"),
        valley=read_stock("2x12" if deep else "4x12"),
        ridge=read_stock(str(rng.choice(["2x8", "1x10", "2x10"]))),
        hip_way=str(rng.choice(["backed", "dropped", "shifted"])),
        valley_way=str(rng.choice(["plain", "hollowed"])),
        hip_head=str(rng.choice(["commons", "ridge"])),
        plate_corner=str(rng.choice(["whole", "clipped"])),
        high=str(rng.choice(["plate", "ledger"])),
    )


def _convex(rng: np.random.Generator, pitch) -> Outline:
    """Four to six corners on an ellipse, no two far apart or close: sloping ridges."""
    count = int(rng.integers(4, 7))
    at = np.sort(rng.uniform(0, 2 * np.pi, count))
    gaps = np.diff([*at, at[0] + 2 * np.pi])
    if gaps.max() > 2.2 or gaps.min() < 0.5:
        return _convex(rng, pitch)
    return through(np.stack([130 * np.cos(at), 90 * np.sin(at)], axis=1), pitch)


def _outline(rng: np.random.Generator) -> Outline:
    pitch, other, third = (PITCHES[k] for k in rng.integers(0, len(PITCHES), 3))
    long, wide = float(rng.uniform(150, 260)), float(rng.uniform(100, 170))
    out, wing = float(rng.uniform(40, 90)), float(rng.uniform(60, 0.95 * wide))
    at = float(rng.uniform(40, long - wing - 40)) if long > wing + 80 else 40.0
    ends = ["hip" if rng.integers(0, 3) else "gable" for _ in range(3)]
    if rng.integers(0, 2):
        other = third = pitch
    match int(rng.integers(0, 10)):
        case 0:
            return rectangle(long, wide, pitch, other, ends[:2])
        case 1:
            return rectangle(wide, wide, pitch, other)
        case 2:
            return ell(long, wide, out, wing, pitch, other, third, ends[:2])
        case 3:
            return tee(long + 80, wide, at, out, wing, pitch, other, third, ends)
        case 4:
            return bay_end(long - 60, wide, pitch, ends[0])
        case 5:
            sides = int(rng.integers(3, 13))
            return equal_sided(sides, float(rng.uniform(300, 500)) / sides, pitch)
        case 6:
            return shed(long, wide, pitch)
        case 7:
            return skew_end(pitch, other)
        case 8:
            return _convex(rng, pitch)
        case _:
            return cross(out, wide / 2, long / 3)
