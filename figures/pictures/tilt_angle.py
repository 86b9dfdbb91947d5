"""The tilt of the saw as an angle at full size, to set a saw blade or a sliding bevel by.

The scale on a saw lies more often than a drawing does. Two lines meet at the lower left: one for
the shoe, one for the saw blade below it; a chain line stands square to the shoe. Whoever uses it
unplugs the saw, lays a sliding bevel to the two lines, and holds that between shoe and blade.
"""

from math import cos, radians, sin, sqrt, tan

from figures.ink.drawing import Drawing, Label, Stroke
from figures.ink.lettering import fraction_text, text_size
from figures.place.dimension import TEXT_GAP_IN, angle_dimension
from layout.errors import SheetError
from layout.quantity import write_degrees

HIGH_IN, SHOE_IN = 2.0, 2.25
"""Height of the line square to the shoe, and length of the shoe's line [in]."""
ARC_IN = 1.25
NAME_PT, ANGLE_PT = 8.0, 10.0
NAME_OFF_IN = 0.06
CLEAR_IN = 0.06
"""White between the arc, or an arrow that points at it from outside, and a name [in]."""
SQUARE_WORDS = "square to the shoe"
LEAST_DEG, MOST_DEG = 0.05, 85.0


def tilt_angle(tilt_deg: float, high_in: float = HIGH_IN, shoe_in: float = SHOE_IN) -> Drawing:
    """The angle of a tilt at full size, its lower left corner at the origin [in].

    `tilt_deg` is measured from square to the shoe, `shoe_in` is how long the shoe's line is [in].
    Where that is short the blade's name stands along it and not beyond its end, and the angle's
    value is left to the words beneath unless it has room inside. Gids:
    `tilt-shoe`, `tilt-blade`, `tilt-square`, `tilt-value` on the words. A blade that stands
    square (under 0.05 degrees) gives an empty drawing: there is nothing to set. Raises
    SheetError for a tilt past 85.
    """
    if tilt_deg < LEAST_DEG:
        return Drawing()
    if tilt_deg > MOST_DEG:
        raise SheetError(f"a tilt of {tilt_deg:.4g} degrees cannot be drawn; {MOST_DEG:g} is most")
    s, c = sin(radians(tilt_deg)), cos(radians(tilt_deg))
    # The same length of blade at every tilt, as far as the height goes.
    long = min(high_in / c, 1.15 * high_in, shoe_in / max(s, 0.1))
    # The arc, and the arrows outside it where the tilt is small, pass above the words on the
    # square line, which stand at its foot.
    named_to = NAME_OFF_IN + text_size(SQUARE_WORDS, NAME_PT)[0]
    arc_in = max(ARC_IN * high_in / HIGH_IN, named_to + CLEAR_IN)
    # Words on the shoe's line hang below it.
    shoe = Label("shoe", shoe_in, -NAME_OFF_IN, NAME_PT, "right", "top", gid="tilt-shoe-word")
    blade = Label("saw blade", long * s + NAME_OFF_IN, long * c, NAME_PT, va="top")
    if shoe_in < SHOE_IN:
        # Along the blade, at its end or, where that is too near the arc, below the arc.
        wide = text_size("saw blade", NAME_PT)[0]
        end = long if long - wide - CLEAR_IN > arc_in else arc_in - CLEAR_IN
        x, y = end * s + NAME_OFF_IN * c, end * c - NAME_OFF_IN * s
        blade = Label("saw blade", x, y, NAME_PT, "right", "top", 90.0 - tilt_deg)
    square = Label(SQUARE_WORDS, -NAME_OFF_IN, NAME_OFF_IN, NAME_PT, rotation_deg=90.0)
    arc = angle_dimension((0, 0), arc_in, 90.0, 90.0 - tilt_deg, "", ANGLE_PT)
    said = fraction_text(f"tilt {write_degrees(tilt_deg)}")
    drawing = Drawing(
        (
            Stroke(((0, 0), (shoe_in, 0)), "visible", "tilt-shoe"),
            Stroke(((0, 0), (long * s, long * c)), "visible", "tilt-blade"),
            Stroke(((0, 0), (0, high_in)), "centre", "tilt-square"),
            *arc.strokes,
        ),
        arc.areas,
        (shoe, blade, square),
    )
    value = _value(said, tilt_deg, arc_in)
    if shoe_in >= SHOE_IN or value.ha != "right":
        drawing += Drawing(labels=(value,))
    if shoe_in >= SHOE_IN and value.ha == "right":
        shelf = ((value.x + TEXT_GAP_IN, arc_in), (0.0, arc_in))
        drawing += Drawing((Stroke(shelf, "dimension"),))
    left, bottom, _, _ = drawing.bounds()
    return drawing.moved(-left, -bottom)


def _value(said: str, tilt_deg: float, arc_in: float) -> Label:
    """The words of the angle: beyond its arc, or beside the arc's foot where that is too narrow.

    Never between blade and shoe: there they would name the angle that is left of 90.
    """
    wide, high = text_size(said, ANGLE_PT, True)
    middle = radians(90.0 - tilt_deg / 2)
    half = radians(tilt_deg / 2)
    # Square to the middle line the box reaches this far to either side.
    across = wide / 2 * sin(middle) + high / 2 * cos(middle)
    inside = (across + 0.1) / max(tan(half), 0.05)
    reach = _under_arc(wide, high, middle, arc_in - CLEAR_IN)
    if inside <= reach:
        x, y = reach * cos(middle), reach * sin(middle)
        return Label(said, x, y, ANGLE_PT, "center", "center", bold=True, gid="tilt-value")
    return Label(said, -0.32, arc_in, ANGLE_PT, "right", "center", bold=True, gid="tilt-value")


def _under_arc(wide_in: float, high_in: float, middle: float, arc_in: float) -> float:
    """How far out a level box stands on a line from the corner with all of it inside an arc [in].

    `middle` is the line's direction [rad]. A corner `out` beyond the box's center along that line
    and `side` beside it lies on the arc where the center is sqrt(arc^2 - side^2) - out away.
    """
    corners = [(x * wide_in / 2, y * high_in / 2) for x in (1, -1) for y in (1, -1)]
    turned = [
        (x * cos(middle) + y * sin(middle), y * cos(middle) - x * sin(middle)) for x, y in corners
    ]
    return min(sqrt(max(0.0, arc_in**2 - side**2)) - out for out, side in turned)
