"""How much of a wrap is drawn, where a sheet does not hold it whole."""

from dataclasses import dataclass

from figures.wrap.spread import RIP_LENGTHS_IN


@dataclass(frozen=True)
class PaperWay:
    """How a wrap may be drawn: how much of one face or of both, how long a rip.

    A `band` leaves out what lies far from the marks.
    """

    short: tuple[str, float] | None = None
    strip_in: float | None = None
    length_in: float = RIP_LENGTHS_IN[0]
    band: bool = False
