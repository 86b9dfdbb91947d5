"""The plane that a typed answer leads to: two packed directions, and how the answer mixes them.

An answer to "how far is the saw tilted" turns the blade about the face mark; a number for the edge
turns the mark on the edge about the arris. Everything else of the cut stays right, as it does where
a carpenter gets this one value wrong. The page mixes the directions and draws the gap; the right
answer mixes them to the joint's own plane.
"""

from collections.abc import Callable

import numpy as np

from layout.answer.answer import Answer
from layout.vector import Array, unit
from lessons.bench.pack import rounded
from lessons.drill.problem import Problem
from lessons.say.contract import JsonObject

Mixed = tuple[str, Array, Array]
"""How the answer mixes two directions (`turned`: their cosine and sine parts; `run`: the first and
so often the second), and the two."""

DIGITS = 12
"""Decimals of a direction that a typed answer is to be judged by."""


def swing(problem: Problem) -> JsonObject | None:
    """The packed directions of a problem; None where its answer turns no plane."""
    sought, right = problem.sought, problem.true_answer
    if sought is None or isinstance(sought.value, str) or sought.name not in _SWINGS:
        return None
    how, first, second = _SWINGS[sought.name](right, sought.value)
    if not (np.any(first) and np.any(second)):
        return None  # square across, or along the board: nothing to turn about
    return {"how": how, "first": rounded(first, DIGITS), "second": rounded(second, DIGITS)}


def mixed(how: str, first: Array, second: Array, value: float) -> Array:
    """The normal that an answer leads to, as the page mixes it."""
    if how == "run":
        return unit(first + value * second)
    angle = np.radians(value)
    return unit(np.cos(angle) * first + np.sin(angle) * second)


def _split(right: Answer, axis: int) -> tuple[Array, Array]:
    """A normal's part that stays when a mark on this side of the board turns, and its part that
    does not."""
    normal = np.array(right.cut.normal, dtype=float)
    turns = np.zeros(3)
    turns[axis] = normal[axis]
    return normal - turns, turns


def _tilted(axis: int) -> Callable[[Answer, float], Mixed]:
    """The saw's tilt, square to the surface whose normal is this axis."""

    def mix(right: Answer, _: float) -> Mixed:
        stays, turns = _split(right, axis)
        return "turned", _unit(stays), _unit(turns)

    return mix


def _marked(axis: int, *, off_edge: bool = False) -> Callable[[Answer, float], Mixed]:
    """An angle of a mark from square across, or of a sliding bevel off the edge."""

    def mix(right: Answer, _: float) -> Mixed:
        stays, turns = _split(right, axis)
        steep = abs(float(right.cut.normal[0])) * _unit(turns)
        return ("turned", steep, stays) if off_edge else ("turned", stays, steep)

    return mix


def _along(axis: int) -> Callable[[Answer, float], Mixed]:
    """How far a mark runs along the board while it crosses a given width."""

    def mix(right: Answer, value: float) -> Mixed:
        stays, turns = _split(right, axis)
        return "run", stays, turns / value

    return mix


def _number(right: Answer, value: float) -> Mixed:
    """The number across from 12: the steeper the mark, the less of it."""
    stays, turns = _split(right, 1)
    return "run", turns * value, stays


def _unit(direction: Array) -> Array:
    return unit(direction) if np.any(direction) else direction


_SWINGS: dict[str, Callable[[Answer, float], Mixed]] = {
    "tilt": _tilted(1),
    "backing": _tilted(1),
    "edge_tilt": _tilted(2),
    "face_angle": _marked(2),
    "face_bevel": _marked(2, off_edge=True),
    "edge_angle": _marked(1),
    "edge_bevel": _marked(1, off_edge=True),
    "edge_number": _number,
    "longer_by": _along(1),
    "half_cheek": _along(1),
    "gauge_drop": _along(1),
    "runs_down_face": _along(2),
}
"""Values of lessons that turn the cut's plane when they are got wrong."""
