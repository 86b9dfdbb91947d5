"""How a circular saw reaches every cut of a framed stick: each plane as an answer of its own."""

from collections.abc import Mapping

from layout.answer.answer import Answer, answer
from layout.framing.ends import end_question, places, planes_at
from layout.framing.stick import CutPlane, Stick
from layout.tools.saw import SawLimits


def sawn(
    stick: Stick, by_name: Mapping[str, Stick], limits: SawLimits | None = None
) -> tuple[tuple[CutPlane, Answer], ...]:
    """Every plane of a stick with its answer for a saw with these limits, from head to foot.

    `by_name` are the sticks of the roof, in which mates are found.
    """
    found: list[tuple[CutPlane, Answer]] = []
    for place in places(stick):
        first = answer(end_question(stick, place, by_name), limits=limits)
        planes = planes_at(stick, place)
        found += [(planes[one.plane_index], one) for one in (first, *first.others)]
    return tuple(found)
