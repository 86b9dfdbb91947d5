"""How a template's cut is sawn: how the shoe rides, where the saw starts and where it stops."""

from collections.abc import Collection

from figures.wrap.wrap_words import each_plane
from layout.answer.answer import Answer
from layout.answer.sense_words import (
    KIND,
    SURFACE,
    lean_words,
    remaining_words,
    start_words,
    wide_words,
)
from layout.answer.senses import Sense, edges, faces, way
from layout.answer.stop_words import stop_words
from layout.answer.wording import sentence
from layout.quantity import write_degrees
from layout.tools.saw import SawKind

SECOND_CHEEK = (
    "Before the second cheek, clamp the first one's offcut back in place, its face flush; else cut"
    " it by handsaw."
)
SECOND_RIP = (
    "For the second rip turn the hip end for end and clamp that board flush with the hip's other"
    " face."
)
"""Only a hip's edge is ripped twice to a point: its backing."""


def saw_heading(opening: str, kinds: Collection[SawKind | None]) -> str:
    """The heading of directions for a saw: "By saw, with a blade-left saw".

    `kinds` are the saws that the directions under it are for; only where they fit one kind
    alone does the heading name it.
    """
    kind = next(iter(kinds)) if len(kinds) == 1 else None
    return opening if kind is None else f"{opening}, with a {KIND[kind]}"


def saw_kinds(answer: Answer) -> tuple[SawKind | None, ...]:
    """The saws a template is for: a job's own, any saw where it stands on no stick."""
    return () if answer.question.stands is None else (answer.limits.kind,)


def sawing_words(answer: Answer) -> str:
    """How the shoe rides and where the saw starts, for each plane that it reaches.

    The steadier face where one pass does it; both faces where it takes half from each; the edge
    where only that is in reach. Empty where the saw reaches none of the planes.
    """

    def words(one: Answer) -> str:
        match way(one):
            case "face":
                return _ride(one, faces(one)[0])
            case "both faces":
                return " ".join(_ride(one, shoe) for shoe in faces(one))
            case "edge":
                return _ride(one, next(shoe for shoe in edges(one) if shoe.within_reach))
            case _:
                return by_handsaw

    planes = [answer, *answer.others]
    if all(way(one) == "handsaw" for one in planes):
        return ""
    by_handsaw = sentence(remaining_words(answer, "handsaw"))
    ridden = each_plane(planes, words)
    if answer.question.stands is None and _second_pass_hangs(planes):
        ridden += f" {SECOND_RIP if answer.is_rip else SECOND_CHEEK}"
    return ridden


def _second_pass_hangs(planes: list[Answer]) -> bool:
    """Whether the first cut of a point takes away what bears the wide side for the second."""
    if len(planes) < 2 or not planes[0].question.joint.point:
        return False
    return all(way(one) == "face" and faces(one)[0].wide_side_on == "waste" for one in planes)


def _ride(one: Answer, shoe: Sense) -> str:
    wide = wide_words(shoe, one.limits.kind)
    # A face's tilt stands beside its mark; the edge's stands nowhere else on a rip's sheet.
    tilt = "" if shoe.on_face else f", tilt {write_degrees(shoe.tilt_deg)}"
    rides = f"Shoe on the {SURFACE[shoe.side]}{tilt}" + (f", {wide}" if wide else "")
    lean = f" {sentence(lean_words(shoe))}" if not shoe.on_face else ""
    kind = one.limits.kind
    stop = stop_words(one)
    if kind is not None and shoe.start_from[kind] == "inside" and one.question.stands is not None:
        rides, lean = "By handsaw", ""
    ride = f"{rides}.{lean} {sentence(start_words(shoe, kind))}"
    return f"{ride} {sentence(stop)}" if stop else ride
