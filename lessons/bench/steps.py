"""The steps of the bench's sliders, and the question that each of them puts.

A slider moves one thing alone: the pitch of both roofs together, the other roof's pitch while
this one stays, or the corner while both pitches stay. Boards go with the pitch.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from layout.answer.question import Question, ask
from layout.cuts import End, Entry, Hand, catalogue
from layout.quantity import read_pitch, write_fraction
from layout.stock import read_stock

Slider = Literal["pitch", "other", "corner"]

USUAL_PITCH = "8 in 12"
"""Where the pitch stands while another slider moves."""
RISES = tuple(half / 2 for half in range(4, 37))
"""Pitches from 2 to 18 in 12, by halves."""
CORNERS_DEG = tuple(range(60, 155, 5))
"""Corners between the walls, by five degrees; the square one is among them."""
BOARDS = {
    "1x": ("1x6", "1x4", "1x8"),
    "2x": ("2x6", "2x4", "2x8", "2x10"),
    "4x": ("4x4", "4x6", "4x8"),
}
"""Boards that stand beside a cut's usual one, as thick as that."""


@dataclass(frozen=True)
class SliderStep:
    """One place of a slider: what it says there, and the options that `mark` takes for it."""

    slider: Slider
    pitch: str
    other_pitch: str | None = None
    corner_deg: float | None = None

    @property
    def said(self) -> str:
        """What the slider says here."""
        if self.slider == "corner":
            return f"{self.corner_deg:g}°"
        return str(self.other_pitch if self.slider == "other" else self.pitch)

    def question(self, entry: Entry, end: End, hand: Hand, board: str) -> Question:
        """The question put at this step. Raises LayoutError for a roof without this cut."""
        return ask(
            entry.name,
            pitch=read_pitch(self.pitch),
            other_pitch=read_pitch(self.other_pitch) if self.other_pitch else None,
            corner_deg=self.corner_deg,
            hand=hand,
            stock=read_stock(board),
            end=end,
        )


def pitches() -> Iterator[str]:
    """Every pitch of a slider, as it is said."""
    return (f"{write_fraction(rise)} in 12" for rise in RISES)


def steps(entry: Entry) -> dict[Slider, tuple[SliderStep, ...]]:
    """The sliders that mean something for a cut, each with all of its steps."""
    sliders: dict[Slider, tuple[SliderStep, ...]] = {
        "pitch": tuple(SliderStep("pitch", pitch) for pitch in pitches())
    }
    if entry.meets != "nothing":
        sliders["other"] = tuple(SliderStep("other", USUAL_PITCH, other) for other in pitches())
        sliders["corner"] = tuple(
            SliderStep("corner", USUAL_PITCH, None, float(corner)) for corner in CORNERS_DEG
        )
    return sliders


def boards(entry: Entry) -> tuple[str, ...]:
    """The boards of a cut, the usual one first."""
    others = BOARDS.get(entry.stock[:2], ())
    return (entry.stock, *(board for board in others if board != entry.stock))


def hands(entry: Entry) -> tuple[Hand, ...]:
    """Both hands where they differ."""
    return (Hand.LEFT, Hand.RIGHT) if entry.two_hands else (Hand.LEFT,)


def places() -> tuple[tuple[Entry, End], ...]:
    """Every cut of the catalogue at every end that carries it."""
    return tuple((entry, end) for entry in catalogue().values() for end in entry.ends)
