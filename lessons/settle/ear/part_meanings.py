"""What each part of a claim can mean: its number under its words, every way it can be taken."""

from dataclasses import replace
from math import atan, degrees

from layout.quantity import write_degrees, write_fraction
from lessons.settle.claim import SQUARE, ClaimedLine, ClaimError, LineKind
from lessons.settle.ear.clauses import Clause
from lessons.settle.ear.draft import Draft
from lessons.settle.ear.footing import Footing
from lessons.settle.ear.measures import Measure

ROOF_RISE = 14.0
"""A bare number up to this behind *plumb* is a rise on 12: nobody lays a plumb line by so few
degrees."""
ON_SQUARE = 24.0
ON_METRIC = 100.0
"""From here on the numbers are millimeters of a metric square."""
TILTS = {"saw", "tilt", "bevel", "blade", "shoe", "shoeface", "shoeedge", "rip"}
MARKS = {"plumb", "level", "face", "edge", "sidecut"}
NO_TILT = {"markalong", "tool", "tongue", "armside", "square", "rise", "run", "otherpitch"}
"""Words of the square's: a number beside them alone is not the saw's."""
SOURCES = ("pitch", "otherpitch", "sidenumber", "halfcorner", "edgeangle")


class UnreadError(Exception):
    """A part that cannot be understood: `quoted` is what was said, `why` what is wrong with it."""

    def __init__(self, quoted: str, why: str) -> None:
        super().__init__(why)
        self.quoted, self.why = quoted, why


def readings_of(clause: Clause, footing: Footing, *, miter: bool) -> list[Draft]:
    """Every meaning of one part. Raises UnreadError where it has none."""
    try:
        if clause.measure is None:
            return _words_alone(clause, footing)
        return _numbered(clause, clause.measure, footing, miter=miter)
    except ClaimError as error:
        raise UnreadError(_quote(clause), str(error)) from None


def _quote(clause: Clause) -> str:
    said = [*(cue.text for cue in clause.cues)]
    if clause.measure:
        said.append(clause.measure.text)
    return " ".join([*said, *(cue.text for cue in clause.behind), *clause.strange])


def _placed(names: set[str]) -> Draft:
    """Where the shoe rides and how the board lies, by words alone."""
    return Draft(
        shoe="edge" if "shoeedge" in names else "face" if "shoeface" in names else None,
        lay="flat" if "flat" in names else "edge" if "onedge" in names else None,
        miter=bool(names & {"mitersaw", "table"}),
        rip="rip" in names,
    )


def _words_alone(clause: Clause, footing: Footing) -> list[Draft]:
    names = clause.names
    base = _placed(names)
    tilts = names & (TILTS - {"rip"}) or "plumbblade" in names
    source = next((name for name in SOURCES if name in names), None)
    if source is not None and (tilts or names & MARKS or "table" in names):
        return _from_source(source, names, base, footing)
    if source is not None and source != "pitch":
        return _from_source(source, {"tilt"}, base, footing) if source == "halfcorner" else [base]
    if "plumbblade" in names:
        return [_with(base, tilt_deg=0.0)]
    if "square" in names:
        return _squared(names, base)
    if "level" in names:
        top = "foot" if footing.slopes else None
        return [_with(base, face=footing.level, top=top, notes=("the level line",))]
    if "plumb" in names:
        top = "head" if footing.slopes else None
        note = f"the plumb line by the pitch ({write_degrees(footing.plumb.from_square_deg)})"
        return [_with(base, face=footing.plumb, top=top, notes=(note,))]
    return [base]


def _squared(names: set[str], base: Draft) -> list[Draft]:
    if "table" in names:
        return [_with(base, turn=SQUARE)]
    if names & {"edge", "top"} and not names & {"face", "plumb"}:
        return [_with(base, edge=SQUARE)]
    if names & {"face"} and "edge" not in names:
        return [_with(base, face=SQUARE)]
    if names & (TILTS - {"rip"}):
        return [_with(base, tilt_deg=0.0)]
    return [_with(base, face=SQUARE, notes=("square",))]


def _from_source(source: str, names: set[str], base: Draft, footing: Footing) -> list[Draft]:
    """A mark or a tilt by a name in place of a number."""
    if (names & TILTS and not names & {"plumb", "level"}) or source == "halfcorner":
        if "edge" in names and source == "sidenumber" and not names & (TILTS - {"bevel"}):
            return [_own_edge(base, footing)]
        angle, words = _source_angle(source, footing)
        return [_with(base, tilt_deg=angle, notes=(f"{words}, {write_degrees(angle)}",))]
    if "table" in names and source == "pitch":
        return [_with(base, turn=footing.plumb)]
    if "edge" in names and source == "sidenumber":
        return [_own_edge(base, footing)]
    if source in ("pitch", "otherpitch") and names & {"plumb", "level", "face"}:
        own = source == "pitch"
        line = footing.plumb if own else footing.other_plumb
        whose = "by the pitch" if own else "by the other roof's pitch"
        if "level" in names:
            line = footing.level if own else ClaimedLine("degrees", 90 - line.from_square_deg)
        top = None if not footing.slopes else "foot" if "level" in names else "head"
        return [_with(base, face=line, top=top, notes=(f"the face mark {whose}",))]
    raise UnreadError(source, "say the number itself")


def _own_edge(base: Draft, footing: Footing) -> Draft:
    number = footing.edge_number
    if number is None:
        raise UnreadError("the side-cut number", "this cut has none: its edge is marked square")
    note = f"the side-cut number, {write_fraction(number)} on 12"
    return _with(base, edge=ClaimedLine("numbers", 12.0, number), notes=(note,))


def _source_angle(source: str, footing: Footing) -> tuple[float, str]:
    number = footing.number_angle_deg
    match source:
        case "pitch":
            return footing.true_answer.question.pitch.slope_deg, "the pitch's own angle"
        case "otherpitch":
            return footing.true_answer.question.other_pitch.slope_deg, "the other roof's pitch"
        case "halfcorner":
            return footing.half_corner_deg, "half the corner"
        case "sidenumber" if number is not None:
            return number, f"the angle of the side-cut number, {footing.number_words()}"
        case "edgeangle" if number is not None:
            return 90.0 - number, "the edge mark's angle from square"
        case _:
            raise UnreadError("the side-cut number", "this cut has none: its edge is square")


def _numbered(clause: Clause, said: Measure, footing: Footing, *, miter: bool) -> list[Draft]:
    names = clause.names
    base = _placed(names)
    if said.kind == "runs":
        line = _plumb_line("level" if "level" in names else "plumb", footing.rise, said.first)
        note = f"the rise on a run of {said.first:g}"
        kind = "level" if "level" in names else "plumb"
        return [replace(_sloped(kind, base, line, footing), notes=(note,))]
    if said.kind == "range":
        raise UnreadError(said.text, "a range is no setting; say one number")
    if said.unit == "ft":
        raise UnreadError(said.text, "feet are a length's; this is about a mark or a setting")
    rips = names & {"rip", "gauge", "drop", "fromface", "fromedge"}
    sawn = names & (TILTS - {"rip"}) or said.unit == "deg"
    if footing.true_answer.is_rip and names & MARKS and not rips and not sawn:
        name = footing.true_answer.question.entry.name
        why = f"{name} is a rip along it; say gauge 3/4 drop 5/16, or rip, saw 22 1/2"
        raise UnreadError(_quote(clause), f"this ends the board, but {why}")
    if footing.true_answer.is_rip or "rip" in names or names & {"gauge", "drop"}:
        return _ripped(names, said, base, footing)
    nearest = _nearest(clause)
    if said.kind == "one" and names & {"ahead", "aheadhalf", "overdepth"}:
        return _run_along(names, said, base, footing)
    if said.kind == "pair":
        return _pair(names, said, base, footing)
    if said.kind == "ratio":
        return _ratio(names, nearest, said, base, footing)
    return _one(clause, nearest, said, base, footing, miter=miter)


def _run_along(names: set[str], said: Measure, base: Draft, footing: Footing) -> list[Draft]:
    """How far a mark runs along the board while it crosses it: over the depth, or the thickness."""
    if said.unit == "deg":
        raise UnreadError(said.text, "how far a mark runs is a length")
    stock = footing.true_answer.question.stock
    if "overdepth" in names:
        return [_with(base, face=_run(said.value, stock.depth_in))]
    half = 2.0 if "aheadhalf" in names else 1.0
    return [_with(base, edge=_run(said.value, stock.thickness_in / half))]


def _run(along_in: float, across_in: float) -> ClaimedLine:
    return _numbers(along_in, across_in) if along_in else SQUARE


def _nearest(clause: Clause) -> str:
    """The last word before the number that says what it is, else the first behind it."""
    telling = TILTS | MARKS | {"table", "slidingbevel", "sidenumber"}
    for cue in reversed(clause.cues):
        if cue.name in telling or cue.name in ("flat", "onedge"):
            return _plainly(cue.name)
    return _plainly(next((cue.name for cue in clause.behind if cue.name in telling), ""))


def _plainly(name: str) -> str:
    """A side cut is marked on the edge."""
    return "edge" if name == "sidecut" else name


def _ratio(
    names: set[str], nearest: str, said: Measure, base: Draft, footing: Footing
) -> list[Draft]:
    rise, run = said.value, said.second
    if ON_SQUARE < max(rise, run) < ON_METRIC:
        raise UnreadError(said.text, "no square is so long; say 12 in 12, or degrees")
    edge = _with(base, edge=_numbers(run, rise)) if run else base
    if nearest == "table":
        return [_with(base, turn=_plumb_line("plumb", rise, run))]
    if nearest in ("edge", "sidenumber"):
        return [edge]
    if nearest in ("plumb", "level"):
        return [_sloped(nearest, base, _plumb_line(nearest, rise, run), footing)]
    plumb = _sloped("plumb", base, _plumb_line("plumb", rise, run), footing)
    if nearest == "face":
        if said.joint == "in" or rise == run or abs(rise - footing.rise) < 1 / 16:
            return [plumb]
        return [plumb, _with(base, face=_numbers(run, rise))]
    if nearest in ("saw", "tilt", "bevel", "blade") and "edge" not in names:
        angle = degrees(atan(rise / run)) if run else 0.0
        note = f"the saw set to the angle of {said.text}, {write_degrees(angle)}"
        return [_with(base, tilt_deg=angle, notes=(note,))]
    if "edge" in names:
        return [edge]
    number = footing.edge_number
    is_number = number is not None and abs(12 * rise / run - number) <= 1 / 8
    is_pitch = abs(12 * rise / run - footing.rise) <= 1 / 16
    if "pitch" in names:
        return [plumb]
    if said.joint == "in" and (is_pitch or not is_number):
        return [plumb]
    if said.joint == "on" and (is_number or not is_pitch) and not (is_number and is_pitch):
        return [edge]
    return [plumb, edge]


def _sloped(kind: str, base: Draft, line: ClaimedLine, footing: Footing) -> Draft:
    """On a stick that rises a plumb line's top leans to the head, a level line's to the foot."""
    top = None if not footing.slopes else "head" if kind == "plumb" else "foot"
    return _with(base, face=line, top=top)


def _plumb_line(kind: str, rise: float, run: float) -> ClaimedLine:
    sort: LineKind = "level" if kind == "level" else "plumb"
    return ClaimedLine(sort, rise, run)


def _numbers(mark: float, other: float) -> ClaimedLine:
    return ClaimedLine("numbers", mark, other)


def _pair(names: set[str], said: Measure, base: Draft, footing: Footing) -> list[Draft]:
    """Two numbers on the square; where none is named to mark along, both may be meant."""
    one, two = said.value, said.second
    along = [said.along] if said.along is not None else [one] if one == two else [one, two]
    lines = [_numbers(mark, two if mark == one else one) for mark in along]
    where = ["edge"] if names & {"edge", "sidenumber"} else []
    where = ["face"] if names & {"plumb", "level", "face"} else where
    if "plumb" in names or "level" in names:
        kind = "plumb" if "plumb" in names else "level"
        return [_sloped(kind, base, line, footing) for line in lines]
    if where:
        return [_with(base, **{where[0]: line}) for line in lines]
    return [_with(base, **{place: line}) for place in ("face", "edge") for line in lines]


def _one(
    clause: Clause,
    nearest: str,
    said: Measure,
    base: Draft,
    footing: Footing,
    *,
    miter: bool,
) -> list[Draft]:
    value, names = said.value, clause.names
    if value < 0:
        raise UnreadError(said.text, "nothing is set to less than nothing")
    degrees_said = said.unit == "deg"
    if nearest == "table":
        return [_with(base, turn=_angle(value))]
    if "slidingbevel" in names or ("offedge" in names and not names & TILTS):
        return _off_edge(names, base, 90.0 - value)
    if nearest in ("plumb", "level"):
        if clause.cues and clause.cues[-1].name == "markalong":
            raise UnreadError(_quote(clause), "one number of the square lays no line; say both")
        return _plumb_or_level(nearest, said, base, footing)
    if nearest in ("saw", "tilt", "blade", "shoe", "shoeface", "shoeedge", "bevel"):
        return _tilted(names, said, base, footing)
    if nearest == "face":
        return _on_face(names, said, base, footing)
    if nearest in ("edge", "sidenumber"):
        marked = _on_edge(names, said, base, degrees_said=degrees_said, miter=miter)
        marks = names & {"sidenumber", "sidecut"}
        rides = bool(names & {"saw", "tilt", "blade", "shoe"}) and not marks
        if rides and value < 90 and said.unit not in ("in", "in?"):
            return [_with(base, tilt_deg=value, shoe="edge"), *marked]
        return marked
    if nearest in ("flat", "onedge") and miter:
        return [_with(base, turn=_angle(value))]
    if names & NO_TILT:
        raise UnreadError(said.text, "nothing says what this number is")
    return _lonely(names, said, base, footing, miter=miter)


def _angle(value: float) -> ClaimedLine:
    return ClaimedLine("degrees", value) if value else SQUARE


def _off_edge(names: set[str], base: Draft, from_square_deg: float) -> list[Draft]:
    line = _angle(from_square_deg)
    if names & {"face", "plumb", "level"}:
        return [_with(base, face=line)]
    if "edge" in names:
        return [_with(base, edge=line)]
    return [_with(base, face=line), _with(base, edge=line)]


def _plumb_or_level(kind: str, said: Measure, base: Draft, footing: Footing) -> list[Draft]:
    value = said.value
    if said.unit in ("in", "in?"):
        raise UnreadError(said.text, f"a {kind} line is said as a rise on a run, or in degrees")

    def angle(value: float) -> Draft:
        return _sloped(kind, base, _angle(value if kind == "plumb" else 90.0 - value), footing)

    def rise(run: float) -> Draft:
        return _sloped(kind, base, _plumb_line(kind, value, run), footing)

    if said.unit == "deg" or value > ON_SQUARE:
        return [angle(value)]
    rises = [rise(12.0)]
    if abs(footing.run - 12.0) > 1e-6:
        whole = float(round(footing.run)) if abs(footing.run - round(footing.run)) < 0.05 else 0
        rises.append(rise(whole or footing.run))
    if value * 16 != round(value * 16):
        return [*rises, angle(value)]
    if value <= ROOF_RISE or abs(value - footing.rise) < 1 / 16:
        return rises
    return [*rises, angle(value)]


def _tilted(names: set[str], said: Measure, base: Draft, footing: Footing) -> list[Draft]:
    value = said.value
    if value >= 90:
        raise UnreadError(said.text, "a blade tilted that far lies flat; give less than 90")
    if said.unit in ("in", "in?"):
        raise UnreadError(said.text, "a tilt is said in degrees; inches are a mark's")
    note = ("bevel is taken for the saw's tilt",) if "bevel" in names else ()
    if "edge" in names and "sidecut" not in names and base.shoe is None:
        if "saw" not in names and "tilt" not in names and "bevel" in names:
            tilted = _with(base, tilt_deg=value, shoe="edge", notes=note)
            return [tilted, *_off_edge({"edge"}, base, 90.0 - value)]
        base = _with(base, shoe="edge")
    elif "face" in names and base.shoe is None:
        base = _with(base, shoe="face")
    tilted = _with(base, tilt_deg=value, notes=note)
    if said.unit == "deg" or base.shoe is not None or not footing.could_be_on_square(value):
        return [tilted]
    angle = degrees(atan(value / 12))
    words = f"the saw set to the angle of {said.text} on 12, {write_degrees(angle)}"
    return [tilted, _with(base, tilt_deg=angle, notes=(words,))]


def _on_face(names: set[str], said: Measure, base: Draft, footing: Footing) -> list[Draft]:
    value = said.value
    exact = _with(base, face=_angle(value)) if value < 90 else None
    if said.unit == "deg" or "fromsquare" in names or value > ON_SQUARE:
        if exact is None:
            raise UnreadError(said.text, "a mark so far from square never crosses the board")
        return [exact]
    plumb = _sloped("plumb", base, _plumb_line("plumb", value, 12.0), footing)
    return (
        [plumb] if abs(value - footing.rise) < 1 / 16 else [plumb, _with(base, face=_angle(value))]
    )


def _on_edge(
    names: set[str], said: Measure, base: Draft, *, degrees_said: bool, miter: bool
) -> list[Draft]:
    value = said.value
    if miter and names & {"onedge"}:
        return [_with(base, turn=_angle(value))]
    if not degrees_said and value <= ON_SQUARE and "fromsquare" not in names:
        if value <= 0:
            return [_with(base, edge=SQUARE)]
        return [_with(base, edge=_numbers(12.0, value))]
    if value >= 90:
        raise UnreadError(said.text, "a mark so far from square never crosses the board")
    if "fromsquare" in names or value == 45:
        return [_with(base, edge=_angle(value))]
    from_square = _with(base, edge=_angle(value), notes=(f"{said.text} from square across",))
    off_edge = _with(base, edge=_angle(90.0 - value), notes=(f"{said.text} off the board's edge",))
    return [from_square, off_edge]


def _lonely(
    names: set[str], said: Measure, base: Draft, footing: Footing, *, miter: bool
) -> list[Draft]:
    """A number with no word to say what it is."""
    value = said.value
    if base.shoe is None and not miter and "fromsquare" in names and 0 < value < 90:
        return [_with(base, face=_angle(value)), _with(base, edge=_angle(value))]
    if said.unit in ("in", "in?") or value >= 90:
        raise UnreadError(said.text, "nothing says what this number is")
    if base.shoe is not None:
        return [_with(base, tilt_deg=value)]
    if miter:
        return [_with(base, turn=_angle(value)), _with(base, tilt_deg=value)]
    if said.unit == "deg" or value > ON_SQUARE or value == 0:
        found = [_with(base, tilt_deg=value)]
        if footing.edge_number is not None and value:
            found.append(_with(base, edge=_angle(value)))
    else:
        found = [_with(base, tilt_deg=value)]
        if footing.edge_number is not None:
            found.append(_with(base, edge=_numbers(12.0, value)))
        else:
            found.append(_sloped("plumb", base, _plumb_line("plumb", value, 12.0), footing))
    return found


def _ripped(names: set[str], said: Measure, base: Draft, footing: Footing) -> list[Draft]:
    """A bevel along the board: gauged by two lengths, or sawn by a tilt."""
    base = _with(base, rip=True)
    value = said.value
    if said.kind != "one":
        run = said.second
        angle = degrees(atan(value / run)) if run else 0.0
        if footing.true_answer.is_rip and run:
            return [_with(base, tilt_deg=angle, notes=(f"the angle of {said.text}",))]
        raise UnreadError(said.text, "a rip is gauged by two lengths, or sawn by a tilt")
    if names & {"gauge", "fromface"} and "fromedge" not in names:
        return [_with(base, across_in=value)]
    if names & {"drop", "fromedge"}:
        return [_with(base, drop_in=value)]
    if said.unit == "deg":
        return [_with(base, tilt_deg=value)]
    tells = names & (TILTS - {"rip"})
    if said.unit in ("in", "in?"):
        return [_with(base, drop_in=value)]
    if value <= 1.5 and not tells:
        return [_with(base, drop_in=value)]
    if value <= 1.5:
        return [_with(base, tilt_deg=value), _with(base, drop_in=value)]
    if value >= 90:
        raise UnreadError(said.text, "a blade tilted that far lies flat; give less than 90")
    return [_with(base, tilt_deg=value)]


def _with(draft: Draft, **changes: object) -> Draft:
    return replace(draft, **changes)  # type: ignore[arg-type]
