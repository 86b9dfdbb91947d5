"""A job's roof: its plan, framed, and the names of its sticks and pieces."""

from dataclasses import replace
from typing import Any, cast

from layout import usual
from layout.answer.question import Question
from layout.errors import FrameError
from layout.framing.cutlist import piece_groups
from layout.framing.ends import PLACES, end_question, places
from layout.framing.outlines import RoofEnd, equal_sided
from layout.framing.roof import TrainingRoof, frame
from layout.framing.roof_plan import RoofPlan, Wing
from layout.framing.stick import Stick
from layout.framing.walls import Wall, WallKind, walk
from layout.job.job import Job, nearest_word
from layout.quantity import read_building_length, read_length, read_pitch, two_sides
from layout.stock import read_stock


def roof_plan(job: Job) -> RoofPlan:
    """The plan of a job's roof; what it does not say is the usual.

    Raises a LayoutError for a value that cannot be read.
    """
    pitch = read_pitch(job.said("pitch", usual.PITCH))
    spacing_in = read_length(job.said("spacing", usual.SPACING))
    first = job.given("first")
    from_corner = job.given("start") == "corner"
    settings: dict[str, Any] = {
        "pitch": pitch,
        "spacing_in": spacing_in,
        "first_in": read_length(first) if first else spacing_in if from_corner else None,
        "overhang_in": read_length(job.said("overhang", usual.OVERHANG)),
        "rake_overhang_in": read_length(job.said("rake-overhang", usual.RAKE_OVERHANG)),
        "fascia_in": read_length(job.said("fascia", usual.FASCIA)),
        "seat_in": read_length(text) if (text := job.given("seat")) else None,
        "rafter": read_stock(job.said("rafter", usual.RAFTER)),
        "hip": read_stock(job.said("hip", usual.HIP)),
        "valley": read_stock(job.said("valley", usual.VALLEY)),
        "ridge": read_stock(job.said("ridge", usual.RIDGE)),
        "plate": read_stock(job.said("plate", usual.PLATE)),
        "hip_way": job.said("hip-way", "backed"),
        "hip_head": job.said("hip-head", "commons"),
        "high": job.said("high-wall", "plate"),
    }
    if job.walls:
        walls = tuple(
            Wall(
                read_building_length(each["length"]),
                float(each.get("turn", "90")),
                cast(WallKind, each.get("kind", "eave")),
                (read_pitch(each["pitch"]) if "pitch" in each else pitch)
                if each.get("kind", "eave") == "eave"
                else None,
                each.get("name", ""),
            )
            for each in job.walls
        )
        return RoofPlan.over(walk(walls), **settings)
    equal = job.given("equal")
    if equal is not None:
        many, long = size_texts(equal)
        return RoofPlan.over(equal_sided(many, long, pitch), **settings)
    ends = [read_end(text) for text in job.said("ends", usual.ENDS).split(",")]
    if len(ends) != 2:
        raise FrameError(f"ends {job.said('ends', '')!r} should name both ends, such as hip,gable")
    wing = job.given("wing")
    return RoofPlan(
        *size(job.said("size", usual.SIZE), "size"),
        end_pitch=read_pitch(text) if (text := job.given("end-pitch")) else None,
        ends=(ends[0], ends[1]),
        wing=Wing(
            *size(wing, "wing"),
            read_end(job.said("wing-end", usual.WING_END)),
            read_pitch(text) if (text := job.given("wing-pitch")) else None,
            at_in=read_building_length(job.said("wing-at", "0")),
        )
        if wing
        else None,
        **settings,
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
