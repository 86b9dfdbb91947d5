"""Dimensions: how long, and how many degrees, drawn as draughtsmen draw them.

Extension lines start 1/16 in from the part and run 1/8 in past the dimension line; the first
dimension line stands 3/8 in from the part and each further one 1/4 in beyond (common drafting
practice). Words stand above their line and read from below or from the right. All lengths here
are inches on paper: put the part to scale first, then dimension it.

    dimension((0, 0), (5.5, 0), "5 1/2", offset_in=-FIRST_IN)
    angle_dimension((0, 0), 2.0, 90.0, 56.3, "33.7 deg")
"""

from math import atan2, cos, degrees, hypot, radians, sin

import shapely

from figures.ink.drawing import Area, Drawing, Label, Stroke
from figures.ink.lettering import fraction_text, text_size
from figures.ink.pens import Point
from layout.errors import SheetError

GAP_IN = 1 / 16
PAST_IN = 1 / 8
FIRST_IN = 3 / 8
ARROW_IN = 1 / 8
"""Length of an arrowhead, three times its width [in]."""
TEXT_GAP_IN = 0.03
"""Clear paper between a dimension line and the words on it [in]."""
ARC_STEP_DEG = 2.0


def dimension(
    p: Point,
    q: Point,
    text: str,
    offset_in: float = FIRST_IN,
    size_pt: float = 10.0,
    gid: str | None = None,
) -> Drawing:
    """The distance from p to q, on a line `offset_in` to the left of the way from p to q [in].

    Plain fractions in the text become real ones. Where arrows do not fit between the extension
    lines they point in from outside, and where the words do not, they stand beyond q. Raises
    SheetError where p and q are one point.
    """
    dx, dy = q[0] - p[0], q[1] - p[1]
    length = hypot(dx, dy)
    if length == 0:
        raise SheetError(f"a dimension needs two points, both are {p}")
    side = 1.0 if offset_in >= 0 else -1.0
    reach = abs(offset_in)
    words = fraction_text(text)
    wide = text_size(words, size_pt)[0]
    roomy = length >= 2 * ARROW_IN + 0.06
    if length >= wide + 0.06:
        label = Label(words, length / 2, offset_in + TEXT_GAP_IN, size_pt, "center", gid=gid)
    else:
        beyond = length + (0.06 if roomy else 2 * ARROW_IN + 0.06)
        label = Label(words, beyond, offset_in, size_pt, "left", "center", gid=gid)
    lines = [
        Stroke(((end, side * GAP_IN), (end, offset_in + side * PAST_IN)), "dimension")
        for end in (0.0, length)
        if reach > GAP_IN
    ]
    tail = 0.0 if roomy else 2 * ARROW_IN
    lines.append(Stroke(((-tail, offset_in), (length + tail, offset_in)), "dimension"))
    heads = (
        _arrow((0.0, offset_in), 180.0 if roomy else 0.0),
        _arrow((length, offset_in), 0.0 if roomy else 180.0),
    )
    flat = Drawing(tuple(lines), heads, (label,))
    angle = degrees(atan2(dy, dx))
    turned = flat.turned(angle)
    return _words_above(turned, angle, size_pt).moved(*p)


def angle_dimension(
    centre: Point,
    radius_in: float,
    start_deg: float,
    end_deg: float,
    text: str,
    size_pt: float = 10.0,
    gid: str | None = None,
) -> Drawing:
    """The angle from one direction to another about a center, on an arc of a radius [in].

    Directions are counterclockwise from the x axis [deg]; the arc runs the way from start to
    end that the numbers say. The words stand level, outside the arc. Raises SheetError for an
    arc of no size.
    """
    sweep = end_deg - start_deg
    if not (radius_in > 0 and 0 < abs(sweep) <= 360):
        raise SheetError(f"an arc of radius {radius_in} in over {sweep} deg cannot be drawn")
    steps = max(2, int(abs(sweep) / ARC_STEP_DEG) + 1)
    arc = tuple(_polar(radius_in, start_deg + sweep * i / steps) for i in range(steps + 1))
    turn = 90.0 if sweep > 0 else -90.0
    chord = degrees(ARROW_IN / radius_in) / 2 * (1 if sweep > 0 else -1)
    long_enough = abs(radians(sweep)) * radius_in >= 2 * ARROW_IN + 0.06
    if long_enough:
        heads = (
            _arrow(arc[0], start_deg - turn + chord),
            _arrow(arc[-1], end_deg + turn - chord),
        )
        lines = [Stroke(arc, "dimension")]
    else:
        heads = (_arrow(arc[0], start_deg + turn), _arrow(arc[-1], end_deg - turn))
        lines = [Stroke(arc, "dimension")]
        for (x, y), way in ((arc[0], start_deg - turn), (arc[-1], end_deg + turn)):
            dx, dy = _polar(2 * ARROW_IN, way)
            lines.append(Stroke(((x, y), (x + dx, y + dy)), "dimension"))
    middle = start_deg + sweep / 2
    words = fraction_text(text).replace(" deg", "°")
    width, height = text_size(words, size_pt)
    # Level words clear the arc when the nearest point of their box is outside it.
    out = radius_in + TEXT_GAP_IN
    out += abs(cos(radians(middle))) * width / 2 + abs(sin(radians(middle))) * height / 2
    label = Label(words, *_polar(out, middle), size_pt, "center", "center", gid=gid)
    return Drawing(tuple(lines), heads, (label,)).moved(*centre)


def leader(tip: Point, elbow: Point, text: str, size_pt: float = 10.0) -> Drawing:
    """Words beside an elbow, with a line and an arrow from them to a tip [in]."""
    right = elbow[0] >= tip[0]
    shelf = (elbow[0] + (0.12 if right else -0.12), elbow[1])
    way = degrees(atan2(tip[1] - elbow[1], tip[0] - elbow[0]))
    at = shelf[0] + (TEXT_GAP_IN if right else -TEXT_GAP_IN)
    label = Label(
        fraction_text(text), at, elbow[1], size_pt, "left" if right else "right", "center"
    )
    return Drawing((Stroke((tip, elbow, shelf), "dimension"),), (_arrow(tip, way),), (label,))


def _words_above(drawing: Drawing, angle_deg: float, size_pt: float) -> Drawing:
    """Words on a line that runs backwards were turned over on to its other side: put them back."""
    (label,) = drawing.labels
    upside_down = not -90.0 + 1e-9 < (angle_deg + 180) % 360 - 180 <= 90.0 + 1e-9
    if not upside_down or label.va == "center":
        return drawing
    height = text_size(label.text, size_pt)[1] + 2 * TEXT_GAP_IN
    shift = radians(label.rotation_deg + 90)
    moved = Drawing(labels=(label,)).moved(height * cos(shift), height * sin(shift))
    return Drawing(drawing.strokes, drawing.areas, moved.labels)


def _arrow(tip: Point, way_deg: float) -> Area:
    """A filled arrowhead whose tip is at a point and which points a way [deg]."""
    c, s = cos(radians(way_deg)), sin(radians(way_deg))
    if way_deg % 90 == 0:
        c, s = round(c), round(s)
    head = ((0.0, 0.0), (-ARROW_IN, ARROW_IN / 6), (-ARROW_IN, -ARROW_IN / 6))
    corners = [(c * x - s * y + tip[0], s * x + c * y + tip[1]) for x, y in head]
    return Area(shapely.polygons(corners), "ink")


def _polar(radius_in: float, way_deg: float) -> Point:
    return radius_in * cos(radians(way_deg)), radius_in * sin(radians(way_deg))
