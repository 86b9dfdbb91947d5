"""A settled argument as one JSON object, versioned."""

from layout.answer.answer import Answer
from layout.tools.setting import ByHand, BySaw, BySawOnEdge, RipByHand, RipBySaw, Setting
from lessons.say.contract import JsonObject, contract
from lessons.settle.claim import write_claim
from lessons.settle.findings import ClaimVerdict, Finding, Settled, Tried
from lessons.settle.heard_words import heard_words, question_words, repeated
from lessons.settle.opening import opening
from lessons.settle.settle_words import headline

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
        "unread": list(settled.unread),
        "same_plane": [list(group) for group in settled.same_plane],
        "apart_in": settled.apart_in.tolist(),
        "claims": [_claim(settled.answer, finding) for finding in settled.findings],
    }


def _claim(answer: Answer, finding: Finding) -> JsonObject:
    heard = finding.heard
    told: JsonObject = {
        "claim": finding.text,
        "verdict": finding.verdict.value,
        "heard": repeated(answer, finding),
        "mended": [{"said": said, "taken": taken} for said, taken in heard.mended],
        "passed_over": list(finding.left_out),
        "question": question_words(answer, finding) or None,
        "quoted": heard.quoted or None,
        "why_unread": heard.why or None,
        "paste": heard.paste or None,
        "form": heard.form or None,
        "rule": None if finding.rule is None else vars(finding.rule),
        "readings": [_reading(answer, tried) for tried in finding.tried],
    }
    if finding.length is not None:
        length = finding.length
        told |= {"read_as": told["heard"], "gap_in": length.off_in, "true_in": length.true_in}
        told |= {"why_unread": None, "quoted": None, "paste": None, "form": None}
        none = ("method", "normal", "missing", "exact", "opens", "instead")
        return {**dict.fromkeys(none), "leans_as_joint": [], "mistakes": [], **told}
    if not finding.tried:
        empty = ("read_as", "method", "normal", "missing", "gap_in", "exact", "opens", "instead")
        return {**told, **dict.fromkeys(empty), "leans_as_joint": [], "mistakes": []}
    judged = finding.judged
    place = opening(answer, judged)
    return {
        **told,
        "read_as": write_claim(judged.claim),
        "method": _METHODS[type(judged.setting)],
        "normal": [float(part) for part in judged.setting.normal],
        "missing": judged.claim.missing if finding.verdict is ClaimVerdict.OPEN else None,
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


def _reading(answer: Answer, tried: Tried) -> JsonObject:
    return {
        "heard": heard_words(answer, tried),
        "verdict": tried.verdict.value,
        "gap_in": tried.lead.gap_in,
        "parts": [
            {
                "read_as": write_claim(part.claim),
                "verdict": part.verdict.value,
                "gap_in": part.gap_in,
                "normal": [float(each) for each in part.setting.normal],
            }
            for part in tried.parts
        ],
        "otherwise": [
            {"read_as": write_claim(one.claim), "gap_in": one.gap_in, "fits": one.fits}
            for one in tried.otherwise
        ],
    }
