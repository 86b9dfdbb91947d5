"""A flat board to draw on, with a square, a rule and a protractor: no table, no formula.

Lines are drawn and meet; lengths are read off a rule, angles off a protractor. What is not drawn
is multiplied or divided, as the lessons do with the numbers of a table.
"""

import math
from dataclasses import dataclass

Spot = tuple[float, float]


@dataclass(frozen=True)
class Line:
    """A drawn line, through a spot and on to another."""

    start: Spot
    toward: Spot

    @property
    def way(self) -> Spot:
        return self.toward[0] - self.start[0], self.toward[1] - self.start[1]


def meet(one: Line, other: Line) -> Spot:
    """Where two drawn lines cross."""
    (ax, ay), (bx, by) = one.way, other.way
    cross = ax * by - ay * bx
    assert cross != 0, "the lines run side by side"
    dx, dy = other.start[0] - one.start[0], other.start[1] - one.start[1]
    t = (dx * by - dy * bx) / cross
    return one.start[0] + t * ax, one.start[1] + t * ay


def rule(one: Spot, other: Spot) -> float:
    """A distance read off a rule."""
    return math.dist(one, other)


def protractor(one: Line, other: Line) -> float:
    """The angle between two lines, read off a protractor, under 180 degrees."""
    turn = [math.atan2(line.way[1], line.way[0]) for line in (one, other)]
    angle = abs(math.degrees(turn[0] - turn[1])) % 360
    return min(angle, 360 - angle)


def laid_off(start: Spot, base: Line, angle_deg: float) -> Line:
    """A line drawn by the protractor at an angle to another, counterclockwise."""
    x, y = base.way
    turn = math.atan2(y, x) + math.radians(angle_deg)
    return Line(start, (start[0] + math.cos(turn), start[1] + math.sin(turn)))


def squared(line: Line, at: Spot) -> Line:
    """A line square to another, drawn with the square."""
    x, y = line.way
    return Line(at, (at[0] - y, at[1] + x))


ORIGIN: Spot = (0.0, 0.0)
LEVEL = Line(ORIGIN, (1.0, 0.0))
PLUMB = Line(ORIGIN, (0.0, 1.0))


def square(along: float, across: float) -> Line:
    """The line that the square lays with two numbers, from the level edge."""
    return Line(ORIGIN, (along, across))


def beside(line: Line, apart: float) -> Line:
    """A line beside another, this far to its left, gauged."""
    x, y = line.way
    size = rule(ORIGIN, (x, y))
    dx, dy = -y / size * apart, x / size * apart
    return Line(
        (line.start[0] + dx, line.start[1] + dy), (line.toward[0] + dx, line.toward[1] + dy)
    )
