"""The same words with each number of a pair marked along: what they can mean beside the usual.

`Face 12 on 24` is a rise on a run to most men. To one who reads off what was printed it is two
numbers on the square, and the line runs along one of them, the way this cut's own mark slants.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import product

from lessons.settle.ear.clauses import Clause
from lessons.settle.ear.heard_measure import HeardMeasure

MARKED = {"face", "edge", "sidecut", "sidenumber", "top"}
EDGE = {"edge", "sidecut", "sidenumber"}
ON_12 = 12.0
SAWN = {"saw", "tilt", "bevel", "blade", "shoe", "table", "pitch", "roof", "gauge", "drop"}


def with_arms(parts: Sequence[Clause]) -> Iterator[list[Clause]]:
    """The parts with an arm named for each pair of numbers that leaves it unsaid, every way."""
    choices = [[part, *_named(part)] for part in parts]
    ways = product(*choices)
    next(ways)  # as it was said
    yield from (list(way) for way in ways)


def _named(part: Clause) -> Iterator[Clause]:
    said = part.measure
    if said is None or said.kind not in ("ratio", "pair") or said.along is not None:
        return
    if part.names & SAWN:
        return
    if said.joint == "in" and not part.names & MARKED:
        return  # 12 in 8, plumb or not, is that rise on that run
    on_edge = part.names & EDGE and "face" not in part.names
    if said.kind == "ratio" and said.second == ON_12 and on_edge:
        return  # a side-cut number on 12 is drawn along the 12
    for mark in dict.fromkeys((said.value, said.second)):
        yield replace(part, measure=_along(said, mark))


def _along(said: HeardMeasure, mark: float) -> HeardMeasure:
    return replace(said, kind="pair", joint="and", along=mark)
