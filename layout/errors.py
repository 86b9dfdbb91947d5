"""The one family of errors a user can cause: what was asked, why not, what would work."""

from collections.abc import Sequence


class LayoutError(ValueError):
    """A request that cannot be met; its text is one line fit to show a carpenter.

    `about` are the values of a job that it speaks of, by their names there, the one to change
    first; empty where it is no single one. A wall's are named as "pitch of wall 2".
    """

    def __init__(self, said: str = "", *, about: Sequence[str] = ()) -> None:
        super().__init__(said)
        self.about = tuple(about)


class QuantityError(LayoutError):
    """A length, pitch or angle that cannot be read, or that no stick can have."""


class StockError(LayoutError):
    """A board size that is not known or cannot exist."""


class RoofError(LayoutError):
    """Roof planes that do not meet in the line that was asked for."""


class CutError(LayoutError):
    """A cut that is not in the catalogue, or a plane that a tool cannot put there."""


class LengthError(LayoutError):
    """A length, seat, tail or spacing that leaves no stick, or that no board is long enough for."""


class FrameError(LayoutError):
    """A roof whose shape cannot be framed."""


class SheetError(LayoutError):
    """A page, scale or correction on which the drawing cannot be printed."""
