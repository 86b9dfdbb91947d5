"""A job's roof: its plan, framed, and the names of its sticks and pieces."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any, TypeVar, cast

from layout import usual
from layout.answer.question import Question
from layout.errors import FrameError, LayoutError
from layout.framing.cutlist import piece_groups
from layout.framing.ends import PLACES, end_question, places
from layout.framing.outlines import RoofEnd, equal_sided
from layout.framing.roof import TrainingRoof, frame
from layout.framing.roof_plan import RoofPlan, Wing
from layout.framing.stick import Stick
from layout.framing.walls import Wall, WallKind, walk
from layout.job.job import Job, nearest_word
from layout.quantity import Pitch, read_building_length, read_length, read_pitch, two_sides
from layout.stock import read_stock

Value = TypeVar("Value")


def roof_plan(job: Job) -> RoofPlan:
    """The plan of a job's roof; what it does not say is the usual.

    Raises a LayoutError for a value that cannot be read.
    """
    pitch = _said(job, "pitch", read_pitch, usual.PITCH)
    spacing_in = _said(job, "spacing", read_length, usual.SPACING)
    first_in = _given(job, "first", read_length)
    if first_in is None and job.given("start") == "corner":
        first_in = spacing_in
    settings: dict[str, Any] = {
        "pitch": pitch,
        "spacing_in": spacing_in,
        "first_in": first_in,
        "overhang_in": _said(job, "overhang", read_length, usual.OVERHANG),
        "rake_overhang_in": _said(job, "rake-overhang", read_length, usual.RAKE_OVERHANG),
        "fascia_in": _said(job, "fascia", read_length, usual.FASCIA),
        "seat_in": _given(job, "seat", read_length),
        "rafter": _said(job, "rafter", read_stock, usual.RAFTER),
        "hip": _said(job, "hip", read_stock, usual.HIP),
        "valley": _said(job, "valley", read_stock, usual.VALLEY),
        "ridge": _said(job, "ridge", read_stock, usual.RIDGE),
        "plate": _said(job, "plate", read_stock, usual.PLATE),
        "hip_way": job.said("hip-way", "backed"),
        "hip_head": job.said("hip-head", "commons"),
        "high": job.said("high-wall", "plate"),
    }
    if job.walls:
        walls = tuple(_wall(number, each, pitch) for number, each in enumerate(job.walls, start=1))
        return RoofPlan.over(walk(walls), **settings)
    equal = _given(job, "equal", size_texts)
    if equal is not None:
        return RoofPlan.over(equal_sided(*equal, pitch), **settings)
    wing = _given(job, "wing", lambda text: size(text, "wing"))
    return RoofPlan(
        *_said(job, "size", lambda text: size(text, "size"), usual.SIZE),
        end_pitch=_given(job, "end-pitch", read_pitch),
        ends=_said(job, "ends", read_ends, usual.ENDS),
        wing=Wing(
            *wing,
            _said(job, "wing-end", read_end, usual.WING_END),
            _given(job, "wing-pitch", read_pitch),
            at_in=_said(job, "wing-at", read_building_length, "0"),
        )
        if wing
        else None,
        **settings,
    )


def _said(job: Job, key: str, read: Callable[[str], Value], usual_text: str) -> Value:
    """A value of the job, or the usual one, as it is read; an error says which it is about."""
    return _read(job.said(key, usual_text), key, read)


def _given(job: Job, key: str, read: Callable[[str], Value]) -> Value | None:
    """A value of the job as it is read, None where the job says nothing."""
    text = job.given(key)
    return _read(text, key, read) if text else None


def _read(text: str, key: str, read: Callable[[str], Value]) -> Value:
    try:
        return read(text)
    except LayoutError as error:
        error.about = (key,)
        raise


def _wall(number: int, each: Mapping[str, str], pitch: Pitch) -> Wall:
    """One wall of a job as it is walked, an eave under this pitch where it names none."""
    kind = cast(WallKind, each.get("kind", "eave"))
    own = _read(each["pitch"], f"pitch of wall {number}", read_pitch) if "pitch" in each else pitch
    return Wall(
        _read(each["length"], f"length of wall {number}", read_building_length),
        float(each.get("turn", "90")),
        kind,
        own if kind == "eave" else None,
        each.get("name", ""),
    )


def framed(job: Job) -> TrainingRoof:
    """The job's roof with every stick in place."""
    return frame(roof_plan(job))


def size_texts(text: str) -> tuple[int, float]:
    """Read how many equal walls, and how long each is [inches]."""
    sides = two_sides(text)
    if sides is None or not sides[0].strip().isdigit():
        raise FrameError(f"equal walls {text!r} are how many x how long, such as 8 x 6'")
    return int(sides[0]), read_building_length(sides[1])


def size(text: str, name: str) -> tuple[float, float]:
    """Read a length and a width of a building [inches]; `name` is said where it is none."""
    sides = two_sides(text)
    if sides is None:
        raise FrameError(f"{name} {text!r} is no size; write length x width, such as 24' x 16'")
    return read_building_length(sides[0]), read_building_length(sides[1])


def read_ends(text: str) -> tuple[RoofEnd, RoofEnd]:
    """Read the left and the right end of a ridge, with a comma between them."""
    ends = text.split(",")
    if len(ends) != 2:
        raise FrameError(f"ends {text!r} should name both ends, such as hip,gable")
    return read_end(ends[0]), read_end(ends[1])


def read_end(text: str) -> RoofEnd:
    """Read an end of a ridge: hip, gable or bay."""
    ends: dict[str, RoofEnd] = {"hip": "hip", "gable": "gable", "bay": "bay"}
    end = ends.get(text.strip().lower())
    if end is None:
        raise FrameError(f"an end is hip, gable or bay, not {text.strip()!r}")
    return end


def find_stick(roof: TrainingRoof, name: str) -> tuple[Stick, tuple[str, ...]]:
    """The stick of that name, or the first of a piece, and the names of all that it answers for.

    A stick's name ends in a number (J6), a piece's in a letter after a dash (J-C). Raises
    FrameError that offers the nearest names.
    """
    groups, wanted = piece_groups(roof), name.strip().upper()
    if wanted in roof.by_name:
        return roof.by_name[wanted], (wanted,)
    if wanted in groups:
        return groups[wanted][0], tuple(stick.name for stick in groups[wanted])
    known = (*roof.by_name, *groups)
    raise FrameError(
        f"no stick and no piece of this roof is called {name!r}; {nearest_word(wanted, known)}"
    )


def find_ends(roof: TrainingRoof, text: str) -> tuple[Question, ...]:
    """The questions that a name asks: `J6:head` one end, `J6` every end of the stick."""
    name, _, where = text.partition(":")
    stick, sticks = find_stick(roof, name)
    wanted = where.strip().lower()
    if wanted and wanted not in PLACES:
        raise FrameError(
            f"{where!r} is no end of a stick; give one of {', '.join(places(stick))},"
            f" as in {stick.name}:{places(stick)[0]}"
        )
    asked = tuple(place for place in PLACES if place == wanted) or places(stick)
    return tuple(end_question(stick, place, roof.by_name, sticks) for place in asked)


def with_texts(job: Job, **texts: str | None) -> Job:
    """The job with some of its values said anew; None leaves one as it is."""
    said = {name.replace("_", "-"): text for name, text in texts.items() if text is not None}
    return replace(job, texts={**job.texts, **said})
