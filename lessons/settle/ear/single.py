"""What one number alone can mean, under the word that stands nearest to it."""

from dataclasses import replace
from math import atan, degrees

from layout.quantity import write_degrees
from layout.tools.square import BLADE_IN
from lessons.settle.claim import SQUARE, ClaimedLine, LineKind
from lessons.settle.ear.clauses import Clause
from lessons.settle.ear.draft import Draft
from lessons.settle.ear.footing import Footing, is_read
from lessons.settle.ear.heard_measure import HeardMeasure
from lessons.settle.ear.trade_tokens import RUNS_IN

ROOF_RISE = 14.0
"""A bare number up to this behind *plumb* is a rise on 12: nobody lays a plumb line by so few
degrees."""
TILTS = {"saw", "tilt", "bevel", "blade", "shoe", "shoeface", "shoeedge", "rip"}
SAWS = {"saw", "tilt", "bevel", "blade"}
MARKS = {"plumb", "level", "face", "edge", "sidecut"}
NO_TILT = {"markalong", "tool", "tongue", "armside", "square", "rise", "run", "otherpitch"}
"""Words of the square's: a number beside them alone is not the saw's."""
LINES = {"plumb", "level"}
WHOLE_RUN_IN = 0.05
"""A stick's run this near to a whole number is said as that: 17 for 16.97."""
RIGHT_DEG = 90.0
"""A mark so far from square never crosses the board; a blade tilted so far lies flat."""
HALF_DEG = 0.1
OWN_ANGLE_DEG = 1.0
"""An angle this near to the one from square across of a level line may be said of that."""


class UnreadError(Exception):
    """A part that cannot be understood: `quoted` is what was said, `why` what is wrong with it."""

    def __init__(self, quoted: str, why: str) -> None:
        super().__init__(why)
        self.quoted, self.why = quoted, why


def quoted(clause: Clause) -> str:
    """A part of a claim in its own words."""
    said = [*(cue.text for cue in clause.cues)]
    if clause.measure:
        said.append(clause.measure.text)
    return " ".join([*said, *(cue.text for cue in clause.behind), *clause.strange])


def sloped(kind: str, base: Draft, line: ClaimedLine, footing: Footing) -> Draft:
    """On a stick that rises a plumb line's top leans to the head, a level line's to the foot."""
    top = None if not footing.slopes else "head" if kind == "plumb" else "foot"
    return changed(base, face=line, top=top)


def plumb_line(kind: str, rise: float, run: float) -> ClaimedLine:
    """A plumb line, or a level one where `kind` says so, by a rise on a run."""
    sort: LineKind = "level" if kind == "level" else "plumb"
    return ClaimedLine(sort, rise, run)


def numbers_line(mark: float, other: float) -> ClaimedLine:
    """A line by two numbers on the square, the first of them marked along."""
    return ClaimedLine("numbers", mark, other)


def changed(draft: Draft, **changes: object) -> Draft:
    """The draft with some of its parts said."""
    return replace(draft, **changes)  # type: ignore[arg-type]


def one_number(
    clause: Clause,
    nearest: str,
    said: HeardMeasure,
    base: Draft,
    footing: Footing,
    *,
    miter: bool,
) -> list[Draft]:
    """Every meaning of a number that stands alone; `nearest` is the word that says what it is."""
    value, names = said.value, clause.names
    if "halfcorner" in names and not names & {"table", *MARKS}:
        return [_half_and(said, base, footing)]
    if value < 0:
        raise UnreadError(said.text, "nothing is set to less than nothing")
    degrees_said = said.unit == "deg"
    if nearest == "table":
        return [changed(base, turn=angle_line(value))]
    if "slidingbevel" in names or ("offedge" in names and not names & TILTS):
        told = {cue.text for cue in (*clause.cues, *clause.behind) if cue.name == "offedge"}
        if any("top edge" in text or "bottom edge" in text for text in told):
            if len(names & LINES) == 1:
                kind = "level" if "level" in names else "plumb"
                return [sloped(kind, base, angle_line(90.0 - value), footing)]
            names = {"face"}  # an angle against that edge is seen on the face
        if footing.edge_number is None and not names & {"edge", *MARKS}:
            names = {"face"}  # an edge that is marked square across has no angle
        return _off_edge(names, base, 90.0 - value)
    if nearest in ("plumb", "level"):
        along = bool(clause.cues) and clause.cues[-1].name == "markalong"
        run = nearest == "level" and value in RUNS_IN
        if along and not run:
            raise UnreadError(quoted(clause), "one number of the square lays no line; say both")
        on_arm = along or "on" in {cue.text for cue in clause.cues}
        return _plumb_or_level(nearest, said, base, footing, on_arm=on_arm)
    if nearest in ("saw", "tilt", "blade", "shoe", "shoeface", "shoeedge", "bevel"):
        return _tilted(names, said, base, footing)
    if nearest == "face":
        return _on_face(names, said, base, footing)
    if nearest in ("edge", "sidenumber"):
        marked = _on_edge(names, said, base, degrees_said=degrees_said, miter=miter)
        on_edge = any(cue.name in ("edge", "onedge") for cue in (*clause.cues, *clause.behind))
        angle = value > BLADE_IN or degrees_said
        tilts = names & (TILTS - {"bevel"})  # "bevel the cheek at 45" does not say which
        if "sidecut" in names and angle and value < RIGHT_DEG and not on_edge and not tilts:
            return [changed(base, tilt_deg=value), *marked]  # cheek 45: on the saw, or on the edge
        if "bevel" in names and "sidecut" not in names and angle and value < RIGHT_DEG:
            return _tilted(names, said, base, footing)  # bevel the edge 45
        marks = names & {"sidenumber", "sidecut"}
        rides = bool(names & {"saw", "tilt", "blade", "shoe"}) and not marks
        if rides and value < RIGHT_DEG and said.unit not in ("in", "in?"):
            return [changed(base, tilt_deg=value, shoe="edge"), *marked]
        return marked
    if nearest in ("flat", "onedge") and miter:
        return [changed(base, turn=angle_line(value)), changed(base, tilt_deg=value)]
    on_square = value <= BLADE_IN and value not in RUNS_IN and said.unit in ("", "in", "in?")
    if "rise" not in names and value not in RUNS_IN:
        names = names - {"run"}  # I run my jacks at 45
    if names & NO_TILT == {"tool"} and on_square and value > 0:
        return _on_the_square(value, base, footing)
    if names & NO_TILT:
        raise UnreadError(said.text, "nothing says what this number is")
    return _lonely(names, said, base, footing, miter=miter)


def _on_the_square(value: float, base: Draft, footing: Footing) -> list[Draft]:
    """A number on the square, with its 12 left unsaid: a rise, or the number on the edge."""
    found = [sloped("plumb", base, plumb_line("plumb", value, 12.0), footing)]
    if footing.edge_number is not None:
        found.append(changed(base, edge=numbers_line(12.0, value)))
    return found


def _half_and(said: HeardMeasure, base: Draft, footing: Footing) -> Draft:
    """Half the corner, with the number that it is said to be."""
    half = footing.half_corner_deg
    if abs(said.value - half) > HALF_DEG:
        why = f"half this corner is {write_degrees(half)}; say one of the two"
        raise UnreadError(said.text, why)
    return changed(base, tilt_deg=said.value, notes=("half the corner",))


def angle_line(value: float) -> ClaimedLine:
    """A line by its angle from square across [degrees]."""
    return ClaimedLine("degrees", value) if value else SQUARE


def _off_edge(names: set[str], base: Draft, from_square_deg: float) -> list[Draft]:
    line = angle_line(from_square_deg)
    if names & {"face", "plumb", "level"}:
        return [changed(base, face=line)]
    if "edge" in names:
        return [changed(base, edge=line)]
    return [changed(base, face=line), changed(base, edge=line)]


def _plumb_or_level(
    kind: str, said: HeardMeasure, base: Draft, footing: Footing, *, on_arm: bool = False
) -> list[Draft]:
    """The line by one number; `on_arm` where it is the arm that is marked along."""
    value = said.value
    if said.unit in ("in", "in?"):
        raise UnreadError(said.text, f"a {kind} line is said as a rise on a run, or in degrees")

    def angle(value: float) -> Draft:
        return sloped(kind, base, angle_line(value if kind == "plumb" else 90.0 - value), footing)

    def rise(run: float) -> Draft:
        return sloped(kind, base, plumb_line(kind, value, run), footing)

    if said.unit == "deg" or value > BLADE_IN:
        by_mark = abs(value - footing.level.from_square_deg) < OWN_ANGLE_DEG
        if kind == "level" and by_mark:  # off the board's edge, or off square
            return [angle(each) for each in dict.fromkeys((value, 90.0 - value))]
        return [angle(value)]
    if kind == "level" and value in RUNS_IN and value != footing.rise:
        arm = sloped(kind, base, plumb_line(kind, footing.rise, value), footing)
        arm = changed(
            arm, notes=(f"along the {value:g}, with the pitch's rise of {footing.rise:g}",)
        )
        return [arm] if on_arm else [arm, rise(12.0)]
    whole = float(round(footing.run))
    own = whole if abs(footing.run - whole) < WHOLE_RUN_IN else footing.run
    rises = [rise(run) for run in dict.fromkeys((RUNS_IN[0], own))]
    if not is_read(value):
        return [*rises, angle(value)]
    if value <= ROOF_RISE or footing.is_own_rise(value):
        return rises
    return [*rises, angle(value)]


def _tilted(names: set[str], said: HeardMeasure, base: Draft, footing: Footing) -> list[Draft]:
    value = said.value
    if value == RIGHT_DEG and names & {"saw", "blade", "shoe"} and not names & {"tilt", "bevel"}:
        square = "90 is taken for a blade that stands square to its shoe"
        return [changed(base, tilt_deg=0.0, notes=(square,))]
    if value >= RIGHT_DEG:
        why = "a blade tilted that far lies flat; say saw square, or give less than 90"
        raise UnreadError(said.text, why)
    if said.unit in ("in", "in?"):
        raise UnreadError(said.text, "a tilt is said in degrees; inches are a mark's")
    sawn = names & (TILTS - {"blade", "rip"})
    if "blade" in names and "on" in names and not sawn and said.unit != "deg" and value <= BLADE_IN:
        raise UnreadError(said.text, "is that the saw's blade, or the blade of the square?")
    note = ("bevel is taken for the saw's tilt",) if "bevel" in names else ()
    if "crosses" in names and base.shoe is None:
        raise UnreadError(said.text, "is that the saw's tilt, or a mark across the edge?")
    if "edge" in names and "sidecut" not in names and base.shoe is None:
        if "saw" not in names and "tilt" not in names and "bevel" in names:
            tilted = changed(base, tilt_deg=value, shoe="edge", notes=note)
            return [tilted, *_off_edge({"edge"}, base, 90.0 - value)]
        base = changed(base, shoe="edge")
    elif "face" in names and base.shoe is None:
        base = changed(base, shoe="face")
    tilted = changed(base, tilt_deg=value, notes=note)
    if said.unit == "deg" or base.shoe is not None or not footing.could_be_on_square(value):
        return [tilted]
    angle = degrees(atan(value / 12))
    words = f"the saw set to the angle of {said.text} on 12, {write_degrees(angle)}"
    return [tilted, changed(base, tilt_deg=angle, notes=(words,))]


def _on_face(names: set[str], said: HeardMeasure, base: Draft, footing: Footing) -> list[Draft]:
    value = said.value
    exact = changed(base, face=angle_line(value)) if value < RIGHT_DEG else None
    if said.unit == "deg" or "fromsquare" in names or value > BLADE_IN:
        if exact is None:
            raise UnreadError(said.text, "a mark so far from square never crosses the board")
        return [exact]
    if not is_read(value):  # 18.43 is read on no square: it is an angle
        return [changed(base, face=angle_line(value))]
    kinds = ("plumb", "level") if footing.is_level else ("plumb",)
    lines = [sloped(kind, base, plumb_line(kind, value, 12.0), footing) for kind in kinds]
    if footing.is_own_rise(value):
        return lines
    return [*lines, changed(base, face=angle_line(value))]


def _on_edge(
    names: set[str], said: HeardMeasure, base: Draft, *, degrees_said: bool, miter: bool
) -> list[Draft]:
    value = said.value
    if miter and names & {"onedge"}:
        return [changed(base, turn=angle_line(value))]
    if not degrees_said and value <= BLADE_IN and "fromsquare" not in names:
        if value <= 0:
            return [changed(base, edge=SQUARE)]
        return [changed(base, edge=numbers_line(12.0, value))]
    laid = []
    if not degrees_said and "sidenumber" in names and "fromsquare" not in names:
        laid = [changed(base, edge=numbers_line(12.0, value))]  # 27 1/2 on 12 is past no blade
    if value >= RIGHT_DEG and not laid:
        raise UnreadError(said.text, "a mark so far from square never crosses the board")
    if value >= RIGHT_DEG or "fromsquare" in names or value == 45:
        return [*laid, *([changed(base, edge=angle_line(value))] if value < RIGHT_DEG else [])]
    from_square = changed(base, edge=angle_line(value), notes=(f"{said.text} from square across",))
    off_edge = changed(
        base, edge=angle_line(90.0 - value), notes=(f"{said.text} off the board's edge",)
    )
    return [*laid, from_square, off_edge]


def both_ways(said: HeardMeasure) -> list[tuple[ClaimedLine, tuple[str, ...]]]:
    """An angle from square across, and the same off the board's edge, with where it comes from."""
    off_edge = angle_line(90.0 - said.value), (f"{said.text} off the board's edge",)
    return [(angle_line(said.value), ()), off_edge]


def _lonely(
    names: set[str],
    said: HeardMeasure,
    base: Draft,
    footing: Footing,
    *,
    miter: bool,
) -> list[Draft]:
    """A number with no word to say what it is; it may be that of a line that it follows.

    It may be the saw's, a mark's from square across, or a mark's off the board's edge; the face
    mark's no more where a line is named that it runs along, or *square*.
    """
    value = said.value
    if names & LINES and said.unit not in ("in", "in?") and value < RIGHT_DEG:
        line = _plumb_or_level("plumb" if "plumb" in names else "level", said, base, footing)
        rest = _lonely({*names - LINES, "square"}, said, base, footing, miter=miter)
        return [*line, *rest]
    if base.shoe is None and not miter and "fromsquare" in names and 0 < value < RIGHT_DEG:
        return [changed(base, face=angle_line(value)), changed(base, edge=angle_line(value))]
    if said.unit in ("in", "in?") or value >= RIGHT_DEG:
        raise UnreadError(said.text, "nothing says what this number is")
    if base.shoe is not None:
        return [changed(base, tilt_deg=value)]
    if miter:
        return [changed(base, turn=angle_line(value)), changed(base, tilt_deg=value)]
    if said.unit == "deg" or value > BLADE_IN or value == 0:
        found = [changed(base, tilt_deg=value)]
        if footing.edge_number is not None and value:
            found += [changed(base, edge=line, notes=note) for line, note in both_ways(said)]
        if value and not names & {"square", "squarethrough"}:
            found += [changed(base, face=line, notes=note) for line, note in both_ways(said)]
    else:
        found = [changed(base, tilt_deg=value)]
        if footing.edge_number is not None:
            found.append(changed(base, edge=numbers_line(12.0, value)))
        else:
            found.append(sloped("plumb", base, plumb_line("plumb", value, 12.0), footing))
    return found
