"""A lesson's cut tried in many roofs, on many boards: both methods against the joint's plane.

The settings are read for each roof from its own answer, as they are printed. Their planes and
their fits are then worked out together, a board at a time.
"""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, fields, replace
from typing import Any

import numpy as np

from layout.answer.answer import Answer
from layout.answer.many import Many, in_many
from layout.answer.question import Question
from layout.answer.senses import Way, way
from layout.plane.cut import Cut
from layout.stock import Stock
from layout.tools.fit import SOUND_IN, Fit, fit
from layout.tools.saw import SawLimits, reaches
from layout.tools.setting import Setting
from layout.vector import Array


@dataclass(frozen=True)
class CutTried:
    """What came of a cut in its roofs, on every board: how many were tried, and the widest gaps.

    `exact_in` is with exact settings, `read_in` with settings as read on the tools [inches];
    `beyond` is how many leave more than the tolerance as read, `past_saw` how many have a tilt
    past the saw's, `other_way` how many take two passes or the shoe on an edge, `out_of_reach`
    how many no pass of the saw makes. `unfit` is the first method whose exact plane is not the
    joint's, with its gaps and where. `answers` has the answer in each roof on the cut's own board,
    None where the cut has no place.
    """

    answers: tuple[Answer | None, ...]
    cases: int = 0
    exact_in: float = 0.0
    read_in: float = 0.0
    beyond: int = 0
    past_saw: int = 0
    other_way: int = 0
    out_of_reach: int = 0
    unfit: tuple[str, Fit, Answer] | None = None


def try_cut(questions: Sequence[Question], boards: Sequence[Stock], limits: SawLimits) -> CutTried:
    """Try every plane by both methods, on the questions' own board and on each of the others.

    The questions ask for one end of one cut on one board, each in a roof of its own.
    """
    many = in_many(questions)
    if many is None:
        return CutTried((None,) * len(questions))
    own = _OnBoard(many, many.questions[0].stock, limits)
    answers = dict(zip(many.places, own.answers(), strict=True))
    past_saw = sum(not one for plane in own.cuts for one in _tilts_so_far(plane, limits))
    methods = _methods(own)
    unfit: tuple[str, Fit, Answer] | None = None
    cases = beyond = other_way = out_of_reach = 0
    exact_in = read_in = 0.0
    on_boards = [own, *(_OnBoard(many, board, limits) for board in boards)]
    for here in on_boards:
        ways = _ways(here)
        other_way += ways["both faces"] + ways["edge"]
        out_of_reach += ways["handsaw"]
        # Marks and tilt follow from the roof; a rip's gauges do not.
        for method in _methods(here) if here.answer(0).is_rip else methods:
            exact, read = (_widest(here, normals) for normals in (method.exact, method.read))
            exact_in, read_in = max(exact_in, exact.max()), max(read_in, read.max())
            beyond += int(np.count_nonzero(read > here.answer(0).tolerance_in))
            worst = np.unravel_index(int(exact.argmax()), exact.shape)
            if not exact[worst] < SOUND_IN and unfit is None:
                plane, case = int(worst[1]), int(worst[0])
                made = fit(here.answer(case, plane).cut, method.exact[plane][case])
                unfit = method.name, made, here.answer(case, plane)
        cases += len(many.questions) * len(here.cuts)
    return CutTried(
        tuple(answers.get(place) for place in range(len(questions))),
        cases,
        float(exact_in),
        float(read_in),
        beyond,
        past_saw * len(on_boards),
        other_way,
        out_of_reach,
        unfit,
    )


class _OnBoard:
    """The cuts of all roofs on one board, in arrays, and a single answer where one is asked for."""

    def __init__(self, many: Many, stock: Stock, limits: SawLimits) -> None:
        self.many, self.stock, self.limits = many, stock, limits
        self.cuts = many.cuts(stock)
        self._answers: dict[int, Answer] = {}

    def answer(self, case: int, plane: int = 0) -> Answer:
        """What is answered for one plane in one of the roofs."""
        if case not in self._answers:
            asked = self.many.questions[case].on(self.stock)
            cuts = tuple(_single(cut, case) for cut in self.cuts)
            self._answers[case] = Answer(asked, cuts, limits=self.limits)
        first = self._answers[case]
        return replace(first, plane_index=plane) if plane else first

    def answers(self, plane: int = 0) -> list[Answer]:
        """What is answered for one plane in every roof."""
        return [self.answer(case, plane) for case in range(len(self.many.questions))]


def _single(cut: Cut, case: int) -> Cut:
    outline = None if cut.outline is None else tuple(points[case] for points in cut.outline)
    return Cut(cut.normal[case], cut.point[case], cut.span[case], outline)


@dataclass(frozen=True)
class _Method:
    """One method's planes in all roofs (n, 3), for each plane of the joint: exact, and as read."""

    name: str
    exact: tuple[Array, ...]
    read: tuple[Array, ...]


def _methods(told: _OnBoard) -> list[_Method]:
    of_planes = [told.answers(plane) for plane in range(len(told.cuts))]
    return [
        _Method(
            name,
            *(
                tuple(_normals([setting(one, as_read) for one in answers]) for answers in of_planes)
                for as_read in (False, True)
            ),
        )
        for name, setting in (("by hand", Answer.hand_setting), ("by saw", Answer.saw_setting))
    ]


def _normals(settings: Sequence[Setting]) -> Array:
    """The planes of settings of one kind, worked out together (n, 3)."""
    columns: list[Any] = []
    for field in fields(settings[0]):
        column = np.array([getattr(setting, field.name) for setting in settings], dtype=float)
        columns.append(tuple(column.T) if column.ndim > 1 else column)
    normals: Array = type(settings[0])(*columns).normal
    return normals


def _widest(here: _OnBoard, normals: Sequence[Array]) -> Array:
    """The widest gap of each roof and plane (n, planes), every plane made with its normals."""
    gaps = [fit(cut, made).widest_in for cut, made in zip(here.cuts, normals, strict=True)]
    return np.stack(gaps, axis=-1)


def _ways(here: _OnBoard) -> Counter[Way]:
    """How the saw makes each of the cuts on a board, counted.

    A blade that comes through the whole thickness at its tilt makes the cut in one pass on a face;
    only the others are looked at one by one.
    """
    found: Counter[Way] = Counter()
    for plane, cut in enumerate(here.cuts):
        thin = here.stock.thickness_in / np.maximum(np.cos(np.radians(cut.face_tilt_deg)), 1e-12)
        through = thin <= here.limits.depth_in
        reached = _tilts_so_far(cut, here.limits)
        plain = [both[0] and both[1] for both in zip(reached, through.tolist(), strict=True)]
        found["face"] += sum(plain)
        found.update(way(here.answer(case, plane)) for case, one in enumerate(plain) if not one)
    return found


def _tilts_so_far(cut: Cut, limits: SawLimits) -> list[bool]:
    """Whether the saw can be set to each cut's tilt, with its shoe on a face."""
    return [reaches(tilt, limits.tilt_deg) for tilt in cut.face_tilt_deg.tolist()]
