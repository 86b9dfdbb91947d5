"""Whether a hip or valley is deep enough for the plumb cuts of the jacks that lie against it."""

import numpy as np

from layout.errors import LengthError
from layout.framing.carrier import Carrier
from layout.length.drop import falls
from layout.quantity import write_fraction
from layout.stock import Stock


def check_carrier_depth(line: Carrier, jack: Stock) -> None:
    """Raise LengthError where a jack's plumb cut reaches below the hip or valley it meets.

    Both are measured plumb: the jack's whole cut, and the hip's side from the roof down to its
    bottom edge. With one stock the hip, being flatter, is always the shallower.
    """
    level = float(np.hypot(*line.direction[:2]))
    bottom_in = line.top.lowered_in + line.stock.depth_in / level
    for face, fall in zip((line.own, line.other), falls(line.corner()), strict=True):
        cut_in = jack.depth_in * float(np.hypot(1.0, face.slope))
        side_in = bottom_in - fall * line.side_in(face)
        if side_in < cut_in:
            raise LengthError(
                f"a {line.kind} of {line.stock.name} measures {write_fraction(side_in)} in plumb at"
                f" its side and the jack's plumb cut {write_fraction(cut_in)} in, so the cut would"
                f" reach below it; give a deeper {line.kind} (depth of the stock"
                f" {write_fraction(line.stock.depth_in)} in beside {write_fraction(cut_in)} in:"
                " compare with R802.3 in the edition adopted locally; number from memory)",
                about=[line.kind, "rafter"],
            )
