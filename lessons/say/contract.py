"""The answer as one JSON object, versioned: what checks outside the project read."""

from dataclasses import asdict
from typing import Any

from layout.answer import senses, together
from layout.answer.answer import Answer, BevelMark, Mark, Verdict
from layout.answer.notch_marks import mark_on_face_in
from layout.answer.soundness import doubts
from layout.plane.cut import Cut
from layout.tools.setting import RipByHand

SCHEMA = 1

JsonObject = dict[str, Any]


def contract(answer: Answer) -> JsonObject:
    """The whole answer; numbers are not rounded, an angle in degrees, a length in inches.

    `square` is the pair laid on the square's arms to the sixteenth, the run or 12 first;
    what cannot be (the number of a mark square across) is null.
    """
    asked, cut = answer.question, answer.cut
    flat, on_edge = answer.face.from_square_deg, answer.edge.from_square_deg
    tilt, edge_tilt = float(cut.face_tilt_deg), float(cut.edge_tilt_deg)
    told = senses.senses(answer)
    return {
        "schema": SCHEMA,
        "cut": asked.entry.name,
        "end": asked.end,
        "hand": asked.hand.value if asked.two_hands else None,
        "given": {
            "pitch": str(asked.pitch),
            "slope_deg": asked.pitch.slope_deg,
            "other_pitch": str(asked.other_pitch),
            "other_slope_deg": asked.other_pitch.slope_deg,
            "corner_deg": asked.corner_deg,
            "roll_deg": asked.roll_deg,
            "stock": {
                "name": asked.stock.name,
                "thickness_in": asked.stock.thickness_in,
                "depth_in": asked.stock.depth_in,
            },
        },
        "plane": _plane(cut),
        "other_planes": [_plane(other) for other in answer.cuts[1:]],
        "rip": _gauges(answer),
        "face_mark": {**_mark(answer.face), "top_leans": _lean(answer.face)},
        "edge_mark": {
            **_mark(answer.edge),
            "left_end_leans": _lean(answer.edge),
            "number_on_12": float(cut.edge_number) if answer.edge.numbers else None,
            "on_backed_edge": {
                mark.side.value: mark.from_square_deg for mark in answer.backed_edges
            },
            "on_backed_edge_left_end_leans": {
                mark.side.value: _lean(mark) for mark in answer.backed_edges
            },
        },
        "saw": {
            "on_face": {
                "tilt_deg": tilt,
                "on_right_face_leans_over": _over(answer.runs_under_waste),
                "on_left_face_leans_over": _over(-answer.runs_under_waste),
                **{side: sense_object(told[side]) for side in senses.FACES},
            },
            "on_edge": {
                "tilt_deg": edge_tilt,
                **{side: sense_object(told[side]) for side in senses.EDGES},
            },
            "way": senses.way(answer),
            "within_reach": senses.within_reach(answer),
            "limits": {
                "tilt_deg": answer.limits.tilt_deg,
                "turn_deg": answer.limits.turn_deg,
                "blade_depth_in": answer.limits.depth_in,
                "saw": answer.limits.kind.value if answer.limits.kind else None,
            },
        },
        "miter_positions": _positions(answer),
        "mitre_saw": {
            "flat": {"table_deg": flat, "tilt_deg": tilt},
            "on_edge": {"table_deg": on_edge, "tilt_deg": edge_tilt},
        },
        "long_minus_short_in": answer.long_minus_short_in,
        "runs_down_face_in": answer.runs_down_face_in,
        "notch_mark_in": _notch_mark(answer),
        "long_point": _long_point(answer),
        "notes": list(doubts(answer)),
        "methods": {
            "hand": _verdict(answer.by_hand),
            "saw": {**_verdict(answer.by_saw), "within_reach": senses.within_reach(answer)},
        },
        "together": _together(answer),
        "agree": answer.agree,
        "tolerance_in": answer.tolerance_in,
    }


def sense_object(one: senses.Sense) -> JsonObject:
    """A saw whose shoe rides one surface: what its blade does, where it starts, what it reaches."""
    return {
        "tilt_deg": one.tilt_deg,
        "below_shoe": one.below_shoe,
        "toward": one.toward,
        "toward_side": one.toward_side,
        "wide_side_on": one.wide_side_on,
        "body_leans_over": one.body_leans_over,
        "start_from": {kind.value: start for kind, start in one.start_from.items()},
        "blade_needed_in": one.needs_in,
        "within_reach": one.within_reach,
        "marked": one.marked,
    }


def _notch_mark(answer: Answer) -> JsonObject | None:
    """How long a notch's mark is on each face [inches]; None for any other cut."""
    if not senses.is_notch(answer):
        return None
    return {
        "right": mark_on_face_in(answer, left=False),
        "left": mark_on_face_in(answer, left=True),
    }


def _positions(answer: Answer) -> JsonObject | None:
    """How the board lies on a miter saw, flat and on edge; null for rips, notches and hollows."""
    laid = senses.miter(answer)
    if laid is None:
        return None
    return {
        name: {**asdict(one), "within_reach": senses.miter_reaches(answer, one)}
        for name, one in zip(("flat", "on_edge"), laid, strict=True)
    }


def _long_point(answer: Answer) -> JsonObject | None:
    point = senses.long_point(answer)
    if point is None:
        return None
    return {
        "from_right_face_in": point.y_in,
        "past_from_right_face_in": point.past_y_in,
        "by_in": point.by_in,
    }


def _plane(cut: Cut) -> JsonObject:
    return {
        "normal": [float(part) for part in cut.normal],
        "point_in": [float(part) for part in cut.point],
    }


def _mark(mark: Mark) -> JsonObject:
    numbers = mark.numbers.as_read() if mark.numbers else None
    return {
        "from_square_deg": mark.from_square_deg,
        "square": list(mark.square) if mark.square else None,
        "mark_along": {"number": numbers.mark, "arm": numbers.mark_arm} if numbers else None,
        "bevel_from_edge_deg": mark.bevel_deg,
    }


def _lean(mark: Mark | BevelMark) -> str | None:
    return {1: "head", -1: "foot"}.get(mark.lean)


def _over(sign: int) -> str | None:
    return {1: "waste", -1: "kept wood"}.get(sign)


def _gauges(answer: Answer) -> JsonObject | None:
    gauges = answer.hand_setting(as_read=False)
    if not isinstance(gauges, RipByHand):
        return None
    return {
        "across_in": gauges.across_in,
        "drop_in": gauges.drop_in,
        "edge": "top" if gauges.top > 0 else "bottom",
        "low_face": "right" if gauges.right > 0 else "left",
    }


def _verdict(verdict: Verdict) -> JsonObject:
    return {
        "gap_exact_in": float(verdict.exact.widest_in),
        "gap_read_in": float(verdict.read.widest_in),
        "sound": verdict.sound,
        "good_enough": verdict.good_enough,
    }


def _together(answer: Answer) -> JsonObject | None:
    """Two cheeks as one end against both mates at once; null for any other cut."""
    if not together.has_two_cheeks(answer):
        return None
    pairs = zip(("hand", "saw"), together.exact(answer), together.as_read(answer), strict=True)
    return {
        name: {"gap_exact_in": float(exact.widest_in), "gap_read_in": float(read.widest_in)}
        for name, exact, read in pairs
    }
