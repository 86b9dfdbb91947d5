"""Purlins and roof boards: level sticks of the own roof that end at a hip or a valley.

The stick runs level along the own eave, its head at the hip or valley. Rolled upright its
faces stand plumb; rolled by the slope they stand square to the roof; flat, it is a roof board.
With x toward the line, the plumb plane along the line at plan angle f to the eave has the
world normal (sin f along x, cos f down the slope): what the roll changes is how much of the
cos f part falls across the thickness and how much up the depth.
"""

import numpy as np

from layout.cuts import entry
from layout.plane.corner import Corner
from layout.plane.joint import Joint, Plane, mitre
from layout.plane.pose import lay
from layout.vector import Array, Z, facing


def toward_line(corner: Corner) -> Array:
    """Level along the own eave, from the roof toward the hip or valley (..., 3)."""
    return -corner.eave


def _against_line(corner: Corner, up: Array) -> Joint:
    along = toward_line(corner)
    side = facing(corner.across, along)
    return Joint(lay(along, up), (Plane(side, line_name(corner), lay(corner.line, Z)),))


def line_name(corner: Corner) -> str:
    """What stands over the line in which both roofs meet: a hip at an outside corner, a valley at
    one that points inward; "hip or valley" for corners of both kinds at once.

    >>> line_name(Corner(30.0, 30.0, 90.0)), line_name(Corner(30.0, 30.0, 270.0))
    ('hip', 'valley')
    >>> line_name(Corner(30.0, 30.0, np.array([90.0, 270.0])))
    'hip or valley'
    """
    inside = np.asarray(corner.interior_deg) > 180.0
    return "valley" if inside.all() else "hip or valley" if inside.any() else "hip"


@entry("purlin", "a purlin square to the roof, against a hip or valley", meets="either")
def purlin_square(corner: Corner) -> Joint:
    """Faces square to the roof: n = (sin f, -+cos f cos a, -+cos f sin a), signs by hip or valley.

    The face mark has tan = sin a / tan f, the edge mark tan = cos a / tan f.
    """
    return _against_line(corner, corner.normal)


@entry("purlin", "a purlin with plumb faces, against a hip or valley", meets="either")
def purlin_plumb(corner: Corner) -> Joint:
    """Faces plumb: n = (sin f, -+cos f, 0), square across the face and tilted by 90 - f."""
    return _against_line(corner, Z)


@entry("purlin", "sheathing mitered over a hip or valley", meets="either", stock="1x8")
def roof_board(corner: Corner) -> Joint:
    """Boards of one thickness meet over the line in the plane midway between both roofs.

    The board lies in the own roof with its depth up the slope and its outer face up. Its face
    mark is the line itself, seen square to the roof, where the slope stretches the run by
    1 / cos a: tan = cos a / tan f from square across. With equal pitches the plane stands plumb.
    """
    along = toward_line(corner)
    plane = Plane(
        mitre(corner.normal, corner.other_normal, along),
        "other roof's board",
        lay(-corner.other_eave, corner.other_upslope),
    )
    return Joint(lay(along, corner.upslope), (plane,))
