"""An argument in full: claims about the cut, about lengths, and rules, each judged its own way."""

from collections.abc import Sequence
from dataclasses import replace

from layout.answer.answer import Answer
from lessons.settle.findings import Settled
from lessons.settle.lengths import Building, length_claim
from lessons.settle.rules import under_condition, with_rules
from lessons.settle.settle import settle


def argued(true_answer: Answer, said: Sequence[str], building: Building | None = None) -> Settled:
    """Judge all that is said about this cut, in the building it stands in."""
    where = building or Building()
    settled = settle(true_answer, said)
    found = []
    for finding, text in zip(settled.findings, said, strict=True):
        finding = under_condition(text, true_answer) or finding
        length = length_claim(text, true_answer, where)
        if length is not None:
            finding = replace(finding, tried=(), length=length)
        found.append(finding)
    return with_rules(replace(settled, findings=tuple(found)))
