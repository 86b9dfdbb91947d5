"""Stepping off with the square along a rafter's top edge: whole steps, and a part of one.

The square is laid again and again with the same two numbers on the arris. Inward from the building
line each step reaches nearer the ridge; outward, for a tail, farther past the wall. Part of a step
is measured along the arm that lies level, and brought up to the edge by a plumb line.
"""

from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
import shapely

from figures.ink.drawing import Area, Drawing, Stroke
from figures.pictures.framing_square import DOT_IN, PAST_IN, Laid, square_lines
from figures.pictures.views import arrow_to_head
from figures.place.dimension import dimension
from figures.place.placing import Words, from_labels
from figures.place.room import Picture, Room, in_room
from figures.wood.unfolded import broken
from layout.answer.answer import Answer
from layout.answer.wording import number_words
from layout.errors import SheetError
from layout.length.run_length import UNIT_RUN_IN
from layout.tools.square import Arm
from layout.vector import Array

StepWay = Literal["in", "out"]
PART_IN = 4.0
"""The run that is left after the whole steps, or the overhang [in]."""
WHOLE_STEPS = {"in": 2, "out": 1}
BEYOND_IN = 5.0
"""How much of the board is drawn past the building line and past the end [in]."""


@dataclass(frozen=True)
class SteppedEdge:
    """The triangle that is laid: run and rise on the square, and the arms that carry them [in].

    The top edge lies along u, toward the head, at v = 0, the building line meets it at the
    origin. `way` says whether the steps go in from there, toward the ridge, or out.
    """

    run_in: float
    rise_in: float
    rise_arm: Arm
    depth_in: float
    way: StepWay

    @property
    def step_in(self) -> float:
        """Length of one step along the edge [in]."""
        return float(np.hypot(self.run_in, self.rise_in))

    @property
    def level(self) -> Array:
        """The way from the run's number on the edge to the heel: level on the roof (2,)."""
        return np.array([self.run_in, -self.rise_in]) / self.step_in

    @property
    def plumb(self) -> Array:
        """The way from the heel to the rise's number on the edge: plumb on the roof (2,)."""
        return np.array([self.rise_in, self.run_in]) / self.step_in

    def starts(self) -> list[float]:
        """Where the run's number lies at each laying, the last for the part of a step [in]."""
        count = WHOLE_STEPS[self.way] + 1
        if self.way == "in":
            return [at * self.step_in for at in range(count)]
        return [-(at + 1) * self.step_in for at in range(count)]

    @property
    def part_spot(self) -> Array:
        """The end of the part of a step on the level arm (2,) [in].

        Inward the part runs from the edge, outward it runs back from the heel: there the
        number on the arm is the part itself.
        """
        start = np.array([self.starts()[-1], 0.0])
        along = PART_IN if self.way == "in" else self.run_in - PART_IN
        spot: Array = start + along * self.level
        return spot

    @property
    def end_in(self) -> float:
        """Where the last plumb line meets the edge [in]."""
        spot = self.part_spot
        return float(spot[0] - spot[1] / self.plumb[1] * self.plumb[0])

    def down(self, at_in: float) -> tuple[tuple[float, float], tuple[float, float]]:
        """A plumb line on the face from the edge to the other edge (2 points) [in]."""
        reach = self.depth_in / self.plumb[1]
        return (at_in, 0.0), (at_in - reach * self.plumb[0], -self.depth_in)


def stepped_in(answer: Answer, room: Room) -> Drawing:
    """Stepping off from the building line to the ridge, from (0, 0) to the room [in on paper].

    Gids: `laid-1` and so on for each laying, `building-line`, `end-line`, `part` for the dot on
    the level arm. Raises SheetError for a cut that is not plumb, and for a room that is too small.
    """
    return _drawn(answer, "in", "Stepping off along the top edge", room)


def stepped_out(answer: Answer, room: Room) -> Drawing:
    """Stepping out the tail from the building line; gids and errors as for stepping off."""
    return _drawn(answer, "out", "Stepping out the tail along the top edge", room)


def stepping(answer: Answer, way: StepWay) -> SteppedEdge:
    """The steps of a rafter with a plumb cut. Raises SheetError where nothing is stepped off."""
    numbers = answer.face.numbers
    if answer.is_rip or numbers is None or answer.face.from_square_deg <= 0.0:
        raise SheetError("only a sloping rafter is stepped off: its face mark has two numbers")
    run = UNIT_RUN_IN * float(answer.question.joint.unit_run)
    rise = run * float(np.tan(np.radians(answer.stick_slope_deg)))
    return SteppedEdge(run, rise, numbers.mark_arm, answer.question.stock.depth_in, way)


def _drawn(answer: Answer, way: StepWay, heading: str, room: Room) -> Drawing:
    steps = stepping(answer, way)
    run, rise = (number_words(each, metric=answer.metric) for each in (steps.run_in, steps.rise_in))
    held = _held(steps)
    if way == "in":
        note = (
            f"Each time the {run} of the {held} moves to where the {rise} of the"
            f" {steps.rise_arm} met the edge."
        )
    else:
        note = (
            f"Each time the {rise} of the {steps.rise_arm} moves to where the {run} of the"
            f" {held} met the edge."
        )
    return in_room(heading, [note], room, lambda factor: _picture(steps, factor, answer.metric))


def _held(steps: SteppedEdge) -> Arm:
    return "blade" if steps.rise_arm == "tongue" else "tongue"


def _picture(steps: SteppedEdge, factor: float, metric: bool) -> Picture:
    starts = steps.starts()
    left = min(*starts, steps.end_in, 0.0) - (BEYOND_IN if steps.way == "in" else 1.0)
    right = max(starts[-1] + steps.step_in if steps.way == "in" else 0.0, steps.end_in) + BEYOND_IN
    low, high = -steps.depth_in, 0.0
    first = _square(steps, starts[0])
    board = [
        Stroke(((left, level), (right, level)), "visible", gid)
        for level, gid in ((low, "bottom-edge"), (high, "top-edge"))
    ]
    drawing = Drawing(tuple(board)).without(first.shape)
    drawing += Drawing(areas=(Area(first.shape, "steel", "square"),))
    drawing += Drawing((Stroke(steps.down(0.0), "datum", "building-line"),))
    drawing += Drawing((Stroke(steps.down(steps.end_in), "cut", "end-line"),))
    for number, start in enumerate(starts, start=1):
        heel = np.array([start, 0.0]) + steps.run_in * steps.level
        line = ((start, 0.0), _pair(heel), (start + steps.step_in, 0.0))
        drawing += Drawing((Stroke(line, "guide", f"laid-{number}"),))
    paper = drawing.scaled(factor) + square_lines(first, factor)
    spot = steps.part_spot * factor
    paper += Drawing(areas=(Area(shapely.Point(*spot).buffer(DOT_IN), "ink", "part"),))
    for u in (left, right):
        paper += broken((u * factor, low * factor), (u * factor, high * factor))
    named = Picture(paper, _words(steps, factor, metric)) + _dimensions(steps, factor, metric)
    # Under the far end of the board, where no square hangs down. Its words stand at its ends.
    at = right * factor - 0.6, low * factor - 0.22
    return arrow_to_head(at, 0.5, 1.0) + named


def _square(steps: SteppedEdge, start: float) -> Laid:
    """The square of one laying, as far as it is drawn."""
    heel = np.array([start, 0.0]) + steps.run_in * steps.level
    return Laid(
        heel,
        steps.plumb,
        -steps.level,
        steps.rise_arm,
        steps.rise_in,
        steps.run_in,
        steps.rise_in + PAST_IN,
        steps.run_in + PAST_IN,
    )


def _words(steps: SteppedEdge, factor: float, metric: bool) -> tuple[Words, ...]:
    run, rise, part, rest = (
        number_words(each, metric=metric)
        for each in (steps.run_in, steps.rise_in, PART_IN, steps.run_in - PART_IN)
    )
    held, start = _held(steps), steps.starts()[0]
    if steps.way == "in":
        said = f"{part} along the {held}:\nthe number {rest}"
    else:
        said = f"{part} on the {held}"
    _, low_end = steps.down(steps.end_in)
    _, low_wall = steps.down(0.0)
    named = (
        (f"{run} on the {held}", (start, 0.0), True, (120.0,)),
        (f"{rise} on the {steps.rise_arm}", (start + steps.step_in, 0.0), True, (60.0,)),
        (said, _pair(steps.part_spot), True, (-60.0, -120.0)),
        ("plumb line: the end", _between((steps.end_in, 0.0), low_end, 0.85), False, (-90.0,)),
        ("building line", _between((0.0, 0.0), low_wall, 0.9), False, (-90.0,)),
    )
    return tuple(
        Words(
            text,
            (at[0] * factor, at[1] * factor),
            9.0 if bold else 8.5,
            bold=bold,
            always=True,
            ways=ways,
        )
        for text, at, bold, ways in named
    )


def _dimensions(steps: SteppedEdge, factor: float, metric: bool) -> Picture:
    """Each step over the edge, and the part of one."""
    marks = [start * factor for start in steps.starts()[:-1]]
    picture = Picture(Drawing())
    part = number_words(PART_IN, metric=metric)
    spans = [(at, at + steps.step_in * factor, "one step") for at in marks]
    ends = sorted((steps.end_in, steps.starts()[-1] if steps.way == "in" else -steps.step_in))
    spans.append((ends[0] * factor, ends[1] * factor, f"part of a step: {part} of run"))
    for begin, end, said in spans:
        lines, words = from_labels(dimension((begin, 0.0), (end, 0.0), said, 0.62, 8.5))
        picture += Picture(lines, tuple(replace(each, ways=(90.0,)) for each in words))
    return picture


def _between(
    start: tuple[float, float], end: tuple[float, float], share: float
) -> tuple[float, float]:
    return start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share


def _pair(spot: Array) -> tuple[float, float]:
    return float(spot[0]), float(spot[1])
