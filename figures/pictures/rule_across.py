"""A rule laid across the square from a number on one arm to a number on the other.

The three make the roof's triangle: run on the one arm, rise on the other, and between them what
the rafter takes for them.
"""

from math import hypot

import numpy as np
import shapely

from figures.ink.drawing import Area, Drawing, Stroke
from figures.pictures.framing_square import PAST_IN, Laid, square_lines
from figures.place.placing import Words, enlarged
from figures.place.room import Picture, Room, in_room
from figures.wood.scene import points_of
from layout.answer.answer import Answer
from layout.answer.wording import number_words
from layout.errors import SheetError
from layout.length.run_length import UNIT_RUN_IN
from layout.tools.square import TONGUE_IN
from layout.vector import Array

RULE_WIDE_IN, RULE_PAST_IN = 1.0, 1.6
"""Width of the rule, and how far it is drawn past its reading [in]."""


def rule_across(answer: Answer, room: Room) -> Drawing:
    """The square with a rule from run to rise, from (0, 0) to the room's width and height [in].

    Gids: `rule`, `read` for the length between the two numbers. Raises SheetError for a board
    that does not slope, and for a room that is too small.
    """
    if answer.is_rip or answer.stick_slope_deg <= 0.0:
        raise SheetError("run and rise are laid for a sloping rafter")
    run = UNIT_RUN_IN * float(answer.question.joint.unit_run)
    rise = run * float(np.tan(np.radians(answer.stick_slope_deg)))
    # The blade carries the run, unless the rise is too long for the tongue.
    blade, tongue = (run, rise) if rise <= TONGUE_IN else (rise, run)
    said = [number_words(e, metric=answer.metric) for e in (blade, tongue, hypot(blade, tongue))]
    notes = [f"From {said[0]} on the blade to {said[1]} on the tongue the rule reads {said[2]}."]
    return in_room(
        "A rule across the square",
        notes,
        room,
        lambda factor: _picture(blade, tongue, said, factor),
    )


def _picture(on_blade: float, on_tongue: float, said: list[str], factor: float) -> Picture:
    blade, tongue = np.array([1.0, 0.0]), np.array([0.0, 1.0])
    square = Laid(
        np.zeros(2),
        tongue,
        blade,
        "tongue",
        on_tongue,
        on_blade,
        on_tongue + PAST_IN,
        on_blade + PAST_IN,
    )
    start, end = on_blade * blade, on_tongue * tongue
    along = (end - start) / hypot(on_blade, on_tongue)
    off = np.array([along[1], -along[0]])  # away from the heel
    corners = [
        start,
        end + RULE_PAST_IN * along,
        end + RULE_PAST_IN * along + RULE_WIDE_IN * off,
        start + RULE_WIDE_IN * off,
    ]
    rule = shapely.Polygon([tuple(each) for each in corners])
    drawing = Drawing(areas=(Area(square.shape, "steel", "square"),)).scaled(factor)
    drawing += square_lines(square, factor).without(enlarged(rule, factor))
    drawing += Drawing(
        (
            Stroke(points_of(rule.exterior), "guide", "rule"),
            Stroke((_pair(start), _pair(end)), "visible", "read"),
        ),
        (Area(rule, "paper"),),
    ).scaled(factor)
    words = (
        Words(
            f"{said[0]} on the blade",
            _pair(start * factor),
            9.0,
            bold=True,
            always=True,
            ways=(-30.0,),
        ),
        Words(
            f"{said[1]} on the tongue",
            _pair(end * factor),
            9.0,
            bold=True,
            always=True,
            ways=(180.0,),
        ),
        Words(
            f"the rule reads {said[2]}",
            _pair((start + end) / 2 * factor + off * RULE_WIDE_IN * factor),
            9.0,
            bold=True,
            ways=(45.0,),
            gid="reads",
        ),
    )
    return Picture(drawing, words)


def _pair(spot: Array) -> tuple[float, float]:
    return float(spot[0]), float(spot[1])
