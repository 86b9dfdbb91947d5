"""Numbers of a roof beside the section of the residential code to compare them with.

Never a pass or a fail: officials differ on how a seat notch is classed, and the edition that
was adopted locally governs. Sections and limits are given from memory of the International
Residential Code: R802.3 (ridge at least as deep as the rafter's cut end; hips and valleys at
least 2 in nominal and as deep as the cut end), R802.6 (bearing of 1 1/2 in on wood or metal),
R802.7 (a notch at the end of a rafter up to 1/4 of its depth).
"""

from dataclasses import dataclass

ADVICE = "compare with the edition adopted locally"
LEAST_BEARING_IN = 1.5
END_NOTCH_SHARE = 0.25


@dataclass(frozen=True)
class Comparison:
    """A measure of this roof, and the figure a section of the code puts beside it [inches]."""

    what: str
    here_in: float
    section: str
    says: str
    code_in: float
    advice: str = ADVICE


def bearing(stick: str, bearing_in: float) -> Comparison:
    """The level bearing of a stick's seat on its plate [inches] beside R802.6."""
    return Comparison(
        f"level bearing of the {stick} on the plate",
        bearing_in,
        "R802.6",
        "bearing on wood at least",
        LEAST_BEARING_IN,
    )


def notch(stick: str, depth_in: float, stock_depth_in: float) -> Comparison:
    """The depth of a stick's notch, square to the edge [inches], beside R802.7."""
    return Comparison(
        f"depth of the {stick}'s notch, square to the edge",
        depth_in,
        "R802.7",
        "notch at the end of a rafter, at most 1/4 of its depth",
        END_NOTCH_SHARE * stock_depth_in,
    )


def carrier(name: str, carrier_depth_in: float, cut_end_in: float) -> Comparison:
    """A ridge's, hip's or valley's depth beside the cut end of the rafter it takes, R802.3."""
    return Comparison(
        f"depth of the {name}",
        carrier_depth_in,
        "R802.3",
        "at least the depth of the cut end of the rafter",
        cut_end_in,
    )
