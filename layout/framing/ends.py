"""The ends of a framed stick as questions: marks, templates and gaps are read off the stick.

An end is what is made at one place of a stick: its `head`, its `foot`, a `seat` (the notch over
a plate), its `rip` (the bevels along its top edge), a `bevel` that begins on the way and runs on to
the head. All removals of that place stand together.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Literal

import numpy as np

from layout.answer.question import Question
from layout.answer.standing import Standing, Use
from layout.cuts import End, Entry, Hand, catalogue
from layout.errors import FrameError
from layout.framing.on_face import mark_left_in
from layout.framing.stick import LEVEL_DIGITS, NORMAL_DIGITS, CutPlane, Stick, WasteRegion
from layout.plane.joint import Joint, Plane
from layout.plane.pose import Pose, lay
from layout.quantity import Pitch, read_pitch
from layout.vector import Z, cross

CutPlace = Literal["head", "bevel", "seat", "high-seat", "foot", "rip"]
PLACES: tuple[CutPlace, ...] = ("head", "bevel", "high-seat", "seat", "foot", "rip")
"""Every place of a stick, from its head to its foot."""
NOTCHES: tuple[CutPlace, ...] = ("high-seat", "seat")
BUILDING_LINE = "the plumb line over the outside of the wall, on the top edge"
FOOT_POINT = "the long point of the foot, on the top edge"
_BESIDE = 1e-9
SAME_CUT = 1e-9
"""Planes are one cut where neither their normals nor their levels [inches] differ by more."""


def place_of(stick: Stick, removal: WasteRegion) -> CutPlace:
    """Where on the stick a removal is made."""
    along = [float(stick.pose.head @ plane.normal) for plane in removal]
    if all(abs(part) <= _BESIDE for part in along):
        return "rip"
    if any(abs(part) <= _BESIDE for part in along):
        return "bevel"
    if min(along) < 0 < max(along):
        return "high-seat" if "high-seat" in {p.says for p in removal} else "seat"
    return "head" if along[0] > 0 else "foot"


def places(stick: Stick) -> tuple[CutPlace, ...]:
    """The places of a stick at which something is cut, from its head to its foot."""
    found = {place_of(stick, removal) for removal in _cutting(stick)}
    return tuple(place for place in PLACES if place in found)


def planes_at(stick: Stick, place: CutPlace) -> tuple[CutPlane, ...]:
    """The planes of all removals at one place of a stick, each of them once."""
    return _each_once([r for r in _cutting(stick) if place_of(stick, r) == place])


def _each_once(removals: Sequence[WasteRegion]) -> tuple[CutPlane, ...]:
    """Every plane once. A valley's seat bounds two removals, one beyond either heel: one cut."""
    every: list[CutPlane] = []
    for removal in removals:
        every += [plane for plane in removal if not any(one_cut(plane, k) for k in every)]
    return tuple(every)


def one_cut(plane: CutPlane, other: CutPlane) -> bool:
    """Whether two planes are one and the same cut, though each removal has its own."""
    if plane is other:
        return True
    apart = float(np.abs(plane.normal - other.normal).max()), abs(plane.level_in - other.level_in)
    return plane.says == other.says and max(apart) < SAME_CUT


def datum_of(stick: Stick) -> tuple[float, str]:
    """Where the tape is hooked for this stick, on its own x [inches], and in words."""
    if stick.on_plate:
        return 0.0, BUILDING_LINE
    return stick.end_points("foot").long_in, FOOT_POINT


def end_question(
    stick: Stick, place: CutPlace, by_name: Mapping[str, Stick], sticks: Sequence[str] = ()
) -> Question:
    """The question about one end of a stick, all its removals together.

    `by_name` are the sticks of the roof, in which mates are found; `sticks` the names of all
    that have this same end. Raises FrameError where nothing is cut at that place.
    """
    removals = [r for r in _cutting(stick) if place_of(stick, r) == place]
    if not removals:
        raise FrameError(
            f"nothing is cut at the {place} of {stick.name};"
            f" ask for its {' or its '.join(places(stick))}"
        )
    if place == "bevel":
        removals = [(next(p for p in r if _runs_along(stick, p)),) for r in removals]
    every = _each_once(removals)
    groups = tuple(
        tuple(next(i for i, p in enumerate(every) if one_cut(p, plane)) for plane in removal)
        for removal in removals
    )
    rips = [p for r in _cutting(stick) if place_of(stick, r) == "rip" for p in r]
    backed = len(rips) == 2
    joint = Joint(
        stick.pose,
        tuple(_plane(stick, plane, by_name) for plane in every),
        point=all(len(group) == 1 for group in groups),
        unit_run=_unit_run(stick),
        bevels=tuple(rip.normal for rip in rips) if backed and place != "rip" else (),
        rip=place in ("rip", "bevel"),
        grouped=groups,
    )
    marks, gone = _finished(stick, every, removals) if place in NOTCHES else ((), ())
    stands = Standing(
        joint,
        (use_of(stick, stick.name, tuple(sticks) or (stick.name,)),),
        tuple(stick.cut(rip) for rip in rips) if place in ("head", "foot") else (),
        _starts_in(stick, every[0]) if place == "bevel" else None,
        marks,
        gone,
    )
    told = [plane for at, plane in enumerate(every) if at not in gone]
    return _question(stick, place, told, stands, by_name)


def _finished(
    stick: Stick, every: Sequence[CutPlane], removals: Sequence[WasteRegion]
) -> tuple[tuple[tuple[float, float], ...], tuple[int, ...]]:
    """How long each plane's mark is on the right and left face of the finished stick, and which
    planes have left no surface on it."""
    thick = stick.stock.thickness_in
    marks, gone = [], []
    for at, plane in enumerate(every):
        alike = tuple(p for removal in removals for p in removal if one_cut(p, plane))
        marks.append((mark_left_in(stick, alike, 0.0), mark_left_in(stick, alike, thick)))
        if not any(stick.surfaces(p) for p in alike):
            gone.append(at)
    return tuple(marks), tuple(gone)


def _runs_along(stick: Stick, plane: CutPlane) -> bool:
    return abs(float(stick.pose.head @ plane.normal)) <= _BESIDE


def _starts_in(stick: Stick, plane: CutPlane) -> float:
    """Where a bevel begins along the board, from the place where the tape is hooked [inches]."""
    along = np.concatenate([stick.in_board(points)[:, 0] for points in stick.surfaces(plane)])
    return float(along.min()) - datum_of(stick)[0]


def _cutting(stick: Stick) -> tuple[WasteRegion, ...]:
    """The removals that leave a surface on the stick."""
    return tuple(r for r in stick.removals if any(stick.surfaces(plane) for plane in r))


def _question(
    stick: Stick,
    place: CutPlace,
    planes: Sequence[CutPlane],
    stands: Standing,
    by_name: Mapping[str, Stick],
) -> Question:
    near = (plane for each in (stick, *by_name.values()) for r in each.removals for plane in r)
    # A stick of no cut in the catalogue, such as a plate, is told in the roof that it stands in.
    asked = next((plane.asked for plane in (*planes, *near) if plane.asked), None)
    pitch = asked.pitch if asked else read_pitch("8 in 12")
    first = next((stick.hand(plane) for plane in planes if stick.hand(plane)), None)
    end: End = "head" if place in ("head", "high-seat", "bevel") else "foot"
    said = dict.fromkeys(plane.says.replace("-", " ") for plane in planes)
    known = catalogue()
    entry = Entry(
        f"{stick.name}:{place}",
        "stick",
        f"{stick.role}, {' + '.join(said)}",
        known[asked.cut].meets if asked and asked.cut in known else "nothing",
        stick.stock.name,
        first is not None and place in ("head", "foot"),
        {},
    )
    other: Pitch = asked.other_pitch if asked else pitch
    return Question(
        entry,
        end,
        pitch,
        other,
        asked.corner_deg if asked else 90.0,
        first or Hand.LEFT,
        stick.stock,
        stands=stands,
    )


def _plane(stick: Stick, plane: CutPlane, by_name: Mapping[str, Stick]) -> Plane:
    cut, mate = stick.cut(plane), by_name.get(plane.mate)
    pose = mate.pose if mate is not None else _pose(plane)
    return Plane(plane.normal, mate_words(stick, plane, mate), pose, at_in=cut.point)


def mate_words(stick: Stick, plane: CutPlane, mate: Stick | None) -> str:
    """What a plane lies against: a stick by its role and name, else what stands there.

    A heel stands at a wall; where it has two, each is told by the face at which it lies.
    """
    if plane.says.endswith("heel"):
        if stick.hand(plane) is None:
            return "wall"
        return f"wall at the {_face_at(stick, plane)} face"
    if mate is not None:
        return f"{mate.role} {mate.name}"
    for ending, words in (
        ("tail", "fascia"),
        ("tail-plumb", "fascia"),
        ("heel", "wall"),
        ("backing", "sheathing"),
        ("bevel", "sheathing"),
        ("corner", "sheathing"),
    ):
        if plane.says.endswith(ending):
            return words
    return "open air"


def _pose(plane: CutPlane) -> Pose:
    """A board that runs level along a plane; a level plane is a seat, which has its plate."""
    return lay(cross(Z, plane.normal), Z)


def _unit_run(stick: Stick) -> float:
    """The stick's plan length over the common's run, from any cut that the catalogue knows."""
    for removal in stick.removals:
        for plane in removal:
            question = stick.question(plane)
            if question is not None:
                return float(np.asarray(question.joint.unit_run))
    return 1.0


def use_of(stick: Stick, name: str, sticks: tuple[str, ...], moved_in: float = 0.0) -> Use:
    """How a stick's tape reads on an end that lies `moved_in` nearer its head than drawn."""
    at, words = datum_of(stick)
    foot = stick.foot_reach_in if stick.on_plate else 0.0
    return Use(name, sticks, moved_in - at, words, foot)


def distinct_ends(
    groups: Mapping[str, Sequence[Stick]], by_name: Mapping[str, Stick]
) -> tuple[Question, ...]:
    """Every different end of a roof once, with all pieces that have it.

    `groups` are the sticks of each piece by its name. Ends are one where their planes are the
    same but for a shift along the board. Plain square ends are left out: nothing is laid out.
    """
    found: dict[tuple[object, ...], tuple[Question, float, list[Use], list[Stick]]] = {}
    for name, sticks in groups.items():
        stick = sticks[0]
        for place in places(stick):
            question = end_question(stick, place, by_name)
            joint, cuts = question.joint, question.joint.cuts(stick.stock)
            if all(max(abs(float(part)) for part in cut.normal[1:]) < _BESIDE for cut in cuts):
                continue
            at = 0.0 if joint.rip else float(cuts[0].x_at(0.0, 0.0))
            stands = _stands(question)
            key = (
                stick.role if place == "rip" else place,
                str(stick.stock),
                joint.removals,
                *(tuple(np.round(cut.normal, NORMAL_DIGITS).tolist()) for cut in cuts),
                *(round(float(cut.level_in - cut.normal[0] * at), LEVEL_DIGITS) for cut in cuts),
                *(tuple(np.round(rip.normal, NORMAL_DIGITS).tolist()) for rip in stands.rips),
                stands.starts_in and round(stands.starts_in, LEVEL_DIGITS),
            )
            drawn = found.setdefault(key, (question, at, [], []))
            names = tuple(each.name for each in sticks)
            drawn[2].append(use_of(stick, name, names, at - drawn[1]))
            drawn[3].extend(sticks)
    return tuple(
        _for_all(question, tuple(uses), common_mates(sticks, _place(question), by_name))
        for question, _, uses, sticks in found.values()
    )


def common_mates(
    sticks: Sequence[Stick], place: CutPlace, by_name: Mapping[str, Stick]
) -> tuple[str, ...]:
    """What each plane of an end lies against, named as it is true of all these sticks.

    The planes are those of the first stick's end, in their order. A mate's own name stays where
    all have the same one; else its kind is told: `plate`, or `common or ridge`. Two cheeks that
    would have one name are told apart by the face at which they lie.
    """
    first = end_question(sticks[0], place, by_name).joint
    ways = [cut.normal for cut in first.cuts(sticks[0].stock)]
    names: list[dict[str, None]] = [{} for _ in ways]
    for stick in sticks:
        joint = end_question(stick, place, by_name).joint
        normals = np.array([cut.normal for cut in joint.cuts(stick.stock)])
        for way, each in zip(ways, names, strict=True):
            # Equal sticks may have their planes in another order: the same cut lies the same way.
            same = int(np.argmin(np.abs(normals - way).max(axis=1)))
            each[joint.planes[same].mate_name] = None
    told = [_of_all(list(each)) for each in names]
    if place in ("rip", "bevel"):
        return tuple(told)
    return tuple(
        f"{name} at the {_face_at(sticks[0], plane)} face"
        if told.count(name) > 1 and sticks[0].hand(plane) is not None
        else name
        for name, plane in zip(told, planes_at(sticks[0], place), strict=True)
    )


def _face_at(stick: Stick, plane: CutPlane) -> str:
    """The face, left or right, at which a plane cuts: a hollow's cheek faces the other way."""
    across = np.concatenate([stick.in_board(points)[:, 1] for points in stick.surfaces(plane)])
    return "left" if across.mean() > stick.stock.thickness_in / 2 else "right"


def _of_all(names: Sequence[str]) -> str:
    if len(names) == 1:
        return names[0]
    return " or ".join(sorted({re.sub(r" [A-Z]+\d+$", "", name) for name in names}))


def _place(question: Question) -> CutPlace:
    said = question.entry.name.partition(":")[2]
    return next(place for place in PLACES if place == said)


def _for_all(question: Question, uses: tuple[Use, ...], mates: Sequence[str]) -> Question:
    """The question with all pieces that have its end, its mates named as all of them have them."""
    stands = _stands(question)
    planes = tuple(
        replace(plane, mate_name=mate)
        for plane, mate in zip(stands.joint.planes, mates, strict=True)
    )
    joint = replace(stands.joint, planes=planes)
    # One paper serves sticks whose other cuts differ.
    laid = replace(question, stands=replace(stands, joint=joint, uses=uses))
    return laid.before_other_cuts()


def _stands(question: Question) -> Standing:
    assert question.stands is not None
    return question.stands
