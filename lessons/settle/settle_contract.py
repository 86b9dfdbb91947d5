"""A settled argument as one JSON object, versioned."""

from layout.answer.answer import Answer
from layout.tools.setting import ByHand, BySaw, BySawOnEdge, RipByHand, RipBySaw, Setting
from lessons.say.contract import JsonObject, contract
from lessons.settle.claim import write_claim
from lessons.settle.settle import Judged, Settled, Verdict
from lessons.settle.settle_words import headline, opening

SETTLED_SCHEMA = 1

_METHODS: dict[type[Setting], str] = {
    ByHand: "hand",
    BySaw: "saw",
    BySawOnEdge: "saw on edge",
    RipByHand: "rip by hand",
    RipBySaw: "rip by saw",
}


def settled_contract(settled: Settled) -> JsonObject:
    """Every claim and what was found of it; numbers are not rounded, claims count from 1."""
    whole = contract(settled.answer)
    return {
        "schema": SETTLED_SCHEMA,
        **{key: whole[key] for key in ("cut", "end", "hand", "given", "plane")},
        "tolerance_in": settled.answer.tolerance_in,
        "finding": headline(settled),
        "right": list(settled.right),
        "wrong": list(settled.wrong),
        "open": list(settled.open),
        "same_plane": [list(group) for group in settled.same_plane],
        "apart_in": settled.apart_in.tolist(),
        "claims": [_claim(settled.answer, judged) for judged in settled.judged],
    }


def _claim(answer: Answer, judged: Judged) -> JsonObject:
    place = opening(answer, judged)
    return {
        "claim": str(judged.claim),
        "read_as": write_claim(judged.claim),
        "method": _METHODS[type(judged.setting)],
        "normal": [float(part) for part in judged.setting.normal],
        "verdict": judged.verdict.value,
        "missing": judged.claim.missing if judged.verdict is Verdict.OPEN else None,
        "leans_as_joint": list(judged.taken),
        "gap_in": judged.gap_in,
        "exact": judged.exact,
        "opens": None
        if judged.exact
        else {"face": place.face, "level": place.level, "point": place.point},
        "mistakes": [
            {
                "name": one.mistake.name,
                "does": one.mistake.does,
                "why": one.mistake.why,
                "apart_in": one.off_in,
                "same_plane": one.same,
            }
            for one in judged.mistakes
        ],
        "instead": write_claim(judged.instead) if judged.instead is not None else None,
    }
