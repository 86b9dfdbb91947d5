"""Correction of a printer that prints a little short or long, each way on its own.

The user prints a sheet, measures the two check bars with a rule, and says what they measure.
Everything on the next sheet is multiplied by wanted ÷ measured, the check bars with it, so they
must then read true. An error of more than two per cent is no printer but the print dialog
("fit to page"), and is refused: correcting it would hide the next one.

    correction(5 + 63 / 64, 8.0)    -> Correction(across=1.0026..., along=1.0)
"""

from dataclasses import dataclass
from math import isfinite

from layout.errors import SheetError

ACROSS_IN = 6.0
"""Length of the check bar across the paper [in]."""
ALONG_IN = 8.0
"""Length of the check bar along the paper [in]."""
LEAST, MOST = 0.98, 1.02
"""Factors beyond which the print dialog is to blame."""


@dataclass(frozen=True)
class Correction:
    """Factors by which a page is drawn larger than it should print, across and along.

    Both are 1 for a printer that prints true; *across* is the printer's own width, see Paper.
    """

    across: float = 1.0
    along: float = 1.0

    def __post_init__(self) -> None:
        for way, factor in (("across", self.across), ("along", self.along)):
            if not (isfinite(factor) and LEAST <= factor <= MOST):
                raise SheetError(
                    f"a correction of {factor:.4g} {way} is outside {LEAST} to {MOST}: the print"
                    " dialog is wrong, not the printer; print again at 100 %, actual size, no fit"
                )

    def __bool__(self) -> bool:
        return (self.across, self.along) != (1.0, 1.0)

    def __str__(self) -> str:
        return f"printer correction: across × {self.across:.4f}, along × {self.along:.4f}"

    def after(self, earlier: "Correction") -> "Correction":
        """This correction, measured on a sheet that was already printed with an earlier one."""
        return Correction(self.across * earlier.across, self.along * earlier.along)


def correction(
    measured_across_in: float,
    measured_along_in: float,
    across_in: float = ACROSS_IN,
    along_in: float = ALONG_IN,
) -> Correction:
    """The correction for check bars of these measured lengths [in].

    `across_in` and `along_in` are what the bars should measure, for sheets with shorter bars.
    Raises SheetError for what is no length, and where a factor is outside 0.98 to 1.02.
    """
    bars = (("across", measured_across_in, across_in), ("along", measured_along_in, along_in))
    for way, measured, wanted in bars:
        if not (isfinite(measured) and measured > 0):
            raise SheetError(
                f"a check bar cannot measure {measured} in: give what a rule reads on"
                f" the printed bar, about {wanted:.4g} in"
            )
        if not LEAST <= wanted / measured <= MOST:
            percent = (measured / wanted - 1) * 100
            raise SheetError(
                f"the bar {way} measures {measured:.4g} in for {wanted:.4g} in,"
                f" {abs(percent):.1f} % {'long' if percent > 0 else 'short'}: the print dialog is"
                " wrong, not the printer; print again at 100 %, actual size, no fit"
            )
    return Correction(across_in / measured_across_in, along_in / measured_along_in)
