"""What a known mistake answers where a lesson asks for a value.

The mistake's settings cut a plane. A value is read from that plane exactly as the right one is
read from the joint's, but only where the mistake itself would lead to it: a mistake in setting
the saw says nothing about the edge mark, one in marking says nothing about the tilt.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import combinations
from math import isfinite

from layout.answer.answer import Answer
from layout.errors import LayoutError
from layout.tools.setting import ByHand, BySaw, BySawOnEdge, RipByHand, RipBySaw, Setting
from layout.vector import sin_cos
from lessons.mistakes.cut_mistakes import Made, Misplaced, Proud, mistakes
from lessons.say.units import Written
from lessons.values.all_values import slips, values

FACE = frozenset({"face_angle", "face_bevel", "face_blade", "face_tongue", "face_leans"})
EDGE = frozenset(
    {"edge_angle", "edge_bevel", "edge_blade", "edge_tongue", "edge_number", "edge_leans"}
)
BLADE = frozenset({"blade_on_cheek_face", "blade_on_far_face"})
WOOD = frozenset({"longer_by", "runs_down_face"})
"""Values that are measured on the wood after any cut that ends it."""
RIP = frozenset({"tilt", "backing", "gauge_drop", "gauge_face"})
SAID: dict[type[Setting], frozenset[str]] = {
    ByHand: FACE | EDGE | WOOD,
    BySaw: FACE | BLADE | WOOD | {"tilt", "edge_leans"},
    BySawOnEdge: EDGE | WOOD | {"edge_tilt"},
    RipByHand: RIP,
    RipBySaw: RIP,
}
"""The values that each kind of setting answers."""
ANSWERED_BY = {"backing": "tilt"}
"""Values that the roof gives as well as the plane, and the one that is read from a plane."""
PLACED: dict[str, Callable[[Answer, Misplaced], float]] = {
    "shortening_along": lambda right, made: _along(right) - made.moved_in,
    "shortening": lambda right, made: _level(right, _along(right) - made.moved_in),
}
"""Values of length that a cut in the wrong place changes."""
ALONG_THE_SLOPE = "shortening-along-the-slope"
SHORTENINGS = frozenset({"no-shortening", ALONG_THE_SLOPE, "square-shortening"})
"""Mistakes of place that are made in shortening."""
OTHER_LEG = "from-the-other-leg"
SAME = 1e-9
"""A mistake whose value is this near the right one does not show in it."""


@dataclass(frozen=True)
class Wrong:
    """A wrong answer to what is asked: the mistake or slip that leads to it, and what it answers.

    `made` is the mistake made on this cut, with the gap it leaves; None for a slip of figures.
    `factor` says of a slip that it can be made on top of another.
    """

    name: str
    does: str
    why: str
    value: float | str
    made: Made | None = None
    factor: bool = False


def misread(true_answer: Answer, setting: Setting) -> Answer:
    """The same question answered from the plane that a wrong setting cuts."""
    cuts = list(true_answer.cuts)
    cuts[true_answer.plane_index] = replace(true_answer.cut, normal=setting.normal)
    return replace(true_answer, cuts=tuple(cuts))


def made_here(true_answer: Answer) -> tuple[Made, ...]:
    """Every mistake that can be made on this cut and costs something, in the order of names."""
    made = []
    for name in sorted(mistakes()):
        try:
            one = mistakes()[name].made_on(true_answer)
        except LayoutError:
            continue  # the roof the mistake would need cannot be framed
        if one is not None:
            made.append(one)
    return tuple(made)


def wrong_answers(
    true_answer: Answer, name: str, arguments: tuple[str, ...] = ()
) -> tuple[Wrong, ...]:
    """What each known mistake and slip answers when the value `name` is asked for.

    Left out are those that give the right value, or none.
    """
    true = values()[name].read(true_answer, *arguments)
    return tuple(
        wrong
        for wrong in (
            *_of_mistakes(true_answer, name, arguments),
            *_of_slips(true_answer, name, arguments),
        )
        if not same(wrong.value, true)
    )


def paired_answers(wrongs: Sequence[Wrong], true: float | str, kind: str) -> tuple[Wrong, ...]:
    """What two of these come to when they are made at once, as far as that can be said.

    Two slips that each multiply the value do so both; an angle gone wrong may be measured from
    the wrong leg besides. Left out is what gives the right value after all.
    """
    if isinstance(true, str):
        return ()
    pairs = []
    if kind == "angle":
        legs = [one for one in wrongs if one.name == OTHER_LEG]
        for leg in legs:
            pairs += [
                _both(one, leg, 90.0 - float(one.value))
                for one in wrongs
                if one is not leg and isinstance(one.value, float)
            ]
    elif true != 0:
        factors = [one for one in wrongs if one.factor]
        for one, other in combinations(factors, 2):
            if one.name != other.name:
                pairs.append(_both(one, other, float(one.value) * float(other.value) / true))
    return tuple(pair for pair in pairs if not same(pair.value, true))


def _both(one: Wrong, other: Wrong, value: float) -> Wrong:
    does = f"{one.does} And: {other.does[:1].lower()}{other.does[1:]}"
    return Wrong(f"{one.name} and {other.name}", does, f"{one.why} {other.why}", value)


def _of_mistakes(true_answer: Answer, name: str, arguments: tuple[str, ...]) -> Iterator[Wrong]:
    if name not in PLACED and not any(name in said for said in SAID.values()):
        return
    for made in made_here(true_answer):
        try:
            value = _answer_of(made, true_answer, name, arguments)
        except LayoutError:
            continue  # that plane shows no such value: its mark runs square across
        if value is not None:
            mistake = made.mistake
            yield Wrong(mistake.name, mistake.does, mistake.why, value, made)


def _of_slips(true_answer: Answer, name: str, arguments: tuple[str, ...]) -> Iterator[Wrong]:
    given = values()[name].arguments_of(arguments)
    for one in slips(name):
        try:
            value = one.work(true_answer, *given)
        except (LayoutError, ZeroDivisionError):
            continue
        if value is not None and isfinite(value):
            yield Wrong(one.name, one.does, one.why, value, None, one.factor)


def same(one: Written, other: Written) -> bool:
    """Whether two values are one and the same."""
    if isinstance(one, float) and isinstance(other, float):
        return abs(one - other) <= SAME
    return one == other


def _answer_of(
    made: Made, true_answer: Answer, name: str, arguments: tuple[str, ...]
) -> float | str | None:
    if isinstance(made, Misplaced):
        return _placed(made, true_answer, name)
    if isinstance(made, Proud) or name not in SAID[type(made.setting)]:
        return None
    read = values()[ANSWERED_BY.get(name, name)].read
    value = read(misread(true_answer, made.setting), *arguments)
    assert isinstance(value, float | str)
    return value


def _placed(made: Misplaced, true_answer: Answer, name: str) -> float | None:
    """A length worked out as the mistake does; the one that is only laid down the slope, where
    it should lie level, has the right level measure."""
    if name not in PLACED or made.mistake.name not in SHORTENINGS:
        return None
    if name == "shortening" and made.mistake.name == ALONG_THE_SLOPE:
        return None
    return PLACED[name](true_answer, made)


def _along(true_answer: Answer) -> float:
    return float(values()["shortening_along"].read(true_answer))  # type: ignore[arg-type]  # a length


def _level(true_answer: Answer, along_in: float) -> float:
    return along_in * float(sin_cos(true_answer.stick_slope_deg)[1])
