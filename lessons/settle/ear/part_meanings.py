"""What each part of a claim can mean: its number under its words, every way it can be taken."""

from dataclasses import replace
from math import atan, degrees

from layout.cuts import End
from layout.quantity import write_degrees, write_fraction
from lessons.settle.claim import SQUARE, ClaimedLine, ClaimError
from lessons.settle.ear.clauses import Clause
from lessons.settle.ear.draft import Draft
from lessons.settle.ear.footing import Footing
from lessons.settle.ear.heard_measure import HeardMeasure
from lessons.settle.ear.lying import FLAT, ONEDGE
from lessons.settle.ear.on_this_cut import EVERYWHERE
from lessons.settle.ear.single import (
    LINES,
    MARKS,
    ON_SQUARE,
    RUNS,
    TILTS,
    UnreadError,
    changed,
    numbers_line,
    one_number,
    plumb_line,
    quoted,
    sloped,
)

ON_METRIC = 100.0
"""From here on the numbers are millimeters of a metric square."""
SAID_SO_DEG = 0.5
"""How far a number may be from where it is said to come from, as numbers are said on site."""
AHEAD = {"ahead", "aheadhalf", "leftnearfoot", "rightnearfoot", "overdepth"}
LYING = {*FLAT, *ONEDGE}
SAWS = {"saw", "tilt", "bevel", "blade"}
SHOES = {"shoe", "saw", "blade"}
AS_COMMON = "as the common's"
ASIDE = "is taken for another line's, said beside this"
THROUGH = "square through the thickness"
SOURCES = ("halfpitch", "pitch", "otherpitch", "sidenumber", "halfcorner", "edgeangle")


def readings_of(clause: Clause, footing: Footing, *, miter: bool) -> list[Draft]:
    """Every meaning of one part. Raises UnreadError where it has none."""
    try:
        if clause.measure is None:
            return _words_alone(clause, footing)
        return _numbered(clause, clause.measure, footing, miter=miter)
    except ClaimError as error:
        raise UnreadError(quoted(clause), str(error)) from None


def _placed(names: set[str]) -> Draft:
    """Where the shoe rides and how the board lies, by words alone."""
    return Draft(
        shoe="edge" if "shoeedge" in names else "face" if "shoeface" in names else None,
        lay="flat" if names & FLAT else "edge" if names & ONEDGE else None,
        miter=bool(names & {"mitersaw", "table"}),
        rip="rip" in names,
    )


def _words_alone(clause: Clause, footing: Footing) -> list[Draft]:
    names = clause.names
    base = _placed(names)
    if "ascommon" in names:
        return [_as_common(names, base, footing)]
    sourced = names & set(SOURCES)
    if base.shoe is None and names & SHOES and "square" not in names and not sourced:
        rides = names & {"edge", "face"}  # the shoe rides the top edge
        base = changed(base, shoe=rides.pop()) if len(rides) == 1 else base
    tilts = names & (TILTS - {"rip"}) or "plumbblade" in names
    source = next((name for name in SOURCES if name in names), None)
    if source is not None and (tilts or names & {*MARKS, "table", "rip"}):
        return _from_source(source, names, base, footing)
    if source is not None and source != "pitch":
        return _from_source(source, {"tilt"}, base, footing) if source == "halfcorner" else [base]
    if "squarethrough" in names:
        return [_on_its_line(changed(base, edge=SQUARE, notes=(THROUGH,)), names, footing)]
    if "plumbblade" in names:
        return [_on_its_line(changed(base, tilt_deg=0.0), names, footing)]
    if "square" in names:
        return _squared(names, base)
    if "level" in names:
        top = "foot" if footing.slopes else None
        return [changed(base, face=footing.level, top=top, notes=("the level line",))]
    if "plumb" in names:
        top = "head" if footing.slopes else None
        note = f"the plumb line by the pitch ({write_degrees(footing.plumb.from_square_deg)})"
        return [changed(base, face=footing.plumb, top=top, notes=(note,))]
    return [base]


def _squared(names: set[str], base: Draft) -> list[Draft]:
    if "table" in names:
        return [changed(base, turn=SQUARE)]
    if names & {"edge", "top"} and not names & {"face", "plumb"}:
        return [changed(base, edge=SQUARE)]
    if names & {"face"} and "edge" not in names:
        return [changed(base, face=SQUARE)]
    if names & (TILTS - {"rip"}):
        return [changed(base, tilt_deg=0.0)]
    return [changed(base, face=SQUARE, notes=("square",))]


def _from_source(source: str, names: set[str], base: Draft, footing: Footing) -> list[Draft]:
    """A mark, a table or a tilt by a name in place of a number."""
    if "table" in names and source == "halfcorner" and not names & TILTS:
        return [changed(base, turn=ClaimedLine("degrees", footing.half_corner_deg))]
    if (names & TILTS and not names & {"plumb", "level"}) or source == "halfcorner":
        if "edge" in names and source == "sidenumber" and not names & (TILTS - {"bevel"}):
            return [_own_edge(base, footing)]
        angle, words = _source_angle(source, footing)
        return [changed(base, tilt_deg=angle, notes=(f"{words}, {write_degrees(angle)}",))]
    if "table" in names and source == "pitch":
        return [changed(base, turn=footing.plumb)]
    if "edge" in names and source == "sidenumber":
        return [_own_edge(base, footing)]
    if source in ("pitch", "otherpitch") and names & {"plumb", "level", "face"}:
        if footing.is_level and not names & LINES:
            kinds = ("plumb", "level")
            return [one for kind in kinds for one in
                    _from_source(source, {*names, kind}, base, footing)]  # fmt: skip
        own = source == "pitch"
        line = footing.plumb if own else footing.other_plumb
        whose = "by the pitch" if own else "by the other roof's pitch"
        if "level" in names:
            line = footing.level if own else ClaimedLine("degrees", 90 - line.from_square_deg)
        top = None if not footing.slopes else "foot" if "level" in names else "head"
        return [changed(base, face=line, top=top, notes=(f"the face mark {whose}",))]
    raise UnreadError(source, "say the number itself")


def _as_common(names: set[str], base: Draft, footing: Footing) -> Draft:
    """The plumb or level line that a common of this roof takes: its rise on a run of 12."""
    kind = "level" if "level" in names else "plumb"
    if not names & LINES or not footing.slopes:
        raise UnreadError("the common", "which of the common's lines is that? say its numbers")
    line = plumb_line(kind, footing.rise, RUNS[0])
    return changed(sloped(kind, base, line, footing), notes=(AS_COMMON,))


def _own_edge(base: Draft, footing: Footing) -> Draft:
    number = footing.edge_number
    if number is None:
        raise UnreadError("the side-cut number", "this cut has none: its edge is marked square")
    note = f"the side-cut number, {write_fraction(number)} on 12"
    return changed(base, edge=ClaimedLine("numbers", 12.0, number), notes=(note,))


def _source_angle(source: str, footing: Footing) -> tuple[float, str]:
    number = footing.number_angle_deg
    match source:
        case "pitch":
            return footing.true_answer.question.pitch.slope_deg, "the pitch's own angle"
        case "halfpitch":
            return footing.true_answer.question.pitch.slope_deg / 2, "half the pitch"
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


def _numbered(clause: Clause, said: HeardMeasure, footing: Footing, *, miter: bool) -> list[Draft]:
    names = clause.names
    base = _placed(names)
    if "squarethrough" in names:
        base = changed(base, edge=SQUARE, notes=(THROUGH,))
    if "ascommon" in names:
        own = said.kind in ("ratio", "pair") and {said.first, said.second} == {
            footing.rise,
            RUNS[0],
        }
        if not own:
            why = f"a common of this roof takes {footing.rise:g} on 12; say one of the two"
            raise UnreadError(said.text, why)
        base = changed(base, notes=(AS_COMMON,))
    if said.kind == "runs":
        line = plumb_line("level" if "level" in names else "plumb", footing.rise, said.first)
        note = f"the rise on a run of {said.first:g}"
        kind = "level" if "level" in names else "plumb"
        return [replace(sloped(kind, base, line, footing), notes=(note,))]
    if said.kind == "mixed":
        raise UnreadError(said.text, "it has two units; say both numbers in one")
    if said.kind == "range":
        raise UnreadError(said.text, "a range is no setting; say one number")
    if said.unit == "ft":
        raise UnreadError(said.text, "feet are a length's; this is about a mark or a setting")
    rips = names & {"rip", "gauge", "drop", "fromface", "fromedge"}
    sawn = names & (TILTS - {"rip"}) or said.unit == "deg"
    if footing.true_answer.is_rip and names & MARKS and not rips and not sawn:
        name = footing.true_answer.question.entry.name
        why = f"{name} is a rip along it; say gauge 3/4 drop 5/16, or rip, saw 22 1/2"
        raise UnreadError(quoted(clause), f"this ends the board, but {why}")
    if footing.true_answer.is_rip or "rip" in names or names & {"gauge", "drop"}:
        return _ripped(names, said, base, footing)
    nearest = _nearest(clause)
    if sawn and any(cue.text == EVERYWHERE for cue in (*clause.cues, *clause.behind)):
        raise UnreadError(EVERYWHERE, "is that on every roof, or on the face? say which")
    foreign = said.kind == "ratio" and abs(12 * said.value - footing.rise * said.second) > 1
    if foreign and names & {"pitch", "roof"} and not names & (MARKS - {"edge"}):
        raise UnreadError(said.text, "that is another roof's pitch; give it with --pitch")
    if said.kind == "one" and names & AHEAD:
        return _run_along(names, said, base, footing)
    if said.kind == "pair":
        return _pair(names, said, base, footing)
    if said.kind == "ratio":
        return _ratio(names, nearest, said, base, footing)
    if "armside" in names and said.value in RUNS:
        return _along_run(said, base, footing)
    meant = one_number(clause, nearest, said, base, footing, miter=miter)
    return [_on_its_line(one, names, footing) for one in _as_sourced(meant, names, said, footing)]


def _as_sourced(
    meant: list[Draft], names: set[str], said: HeardMeasure, footing: Footing
) -> list[Draft]:
    """Of the meanings of a number, those that agree with the name of where it comes from.

    Raises UnreadError where none does.
    """
    done: list[Draft] = []
    trouble: UnreadError | None = None
    for one in meant:
        try:
            done.append(_from_where(one, names, said, footing))
        except UnreadError as error:
            trouble = trouble or error
    if not done and trouble is not None:
        raise trouble
    return done


def _along_run(said: HeardMeasure, base: Draft, footing: Footing) -> list[Draft]:
    """`the 12 side`: along that arm, by the rise on the face or the number on the edge."""
    lines = [changed(base, face=numbers_line(said.value, footing.rise))]
    number = footing.edge_number
    if number is not None and said.value == RUNS[0]:
        lines.append(changed(base, edge=numbers_line(RUNS[0], number)))
    return lines


def _from_where(draft: Draft, names: set[str], said: HeardMeasure, footing: Footing) -> Draft:
    """A number beside the name of where it comes from: both must say one thing."""
    source = next((name for name in SOURCES if name in names), None)
    line = draft.face or draft.turn
    if source is None or source == "halfcorner" or said.kind != "one":
        return draft
    if draft.tilt_deg is not None:
        told, (angle, words) = draft.tilt_deg, _source_angle(source, footing)
    elif line is not None and source == "pitch":
        angle, words = footing.plumb.from_square_deg, "the pitch's own angle"
        told = line.from_square_deg
    elif draft.edge is not None and source == "sidenumber":
        own = _own_edge(draft, footing).edge
        assert own is not None
        told, angle, words = draft.edge.from_square_deg, own.from_square_deg, "the side-cut number"
    else:
        return draft
    if abs(told - angle) > SAID_SO_DEG:
        why = f"{words} comes to {write_degrees(angle)} here; say one of the two"
        raise UnreadError(said.text, why)
    return changed(draft, notes=(*draft.notes, f"{words}, {write_degrees(angle)}"))


def _on_its_line(draft: Draft, names: set[str], footing: Footing) -> Draft:
    """A saw that is set along a plumb or level line, where the number is the saw's."""
    sloped = names & {"plumb", "level"}
    sawn = draft.tilt_deg is not None or THROUGH in draft.notes
    if not sawn or draft.face or (draft.edge and draft.edge != SQUARE) or len(sloped) != 1:
        return draft
    level = "level" in sloped
    line = footing.level if level else footing.plumb
    top: End | None = None if not footing.slopes else "foot" if level else "head"
    angle = write_degrees(line.from_square_deg)
    note = f"the {'level' if level else 'plumb'} line by the pitch ({angle})"
    return changed(draft, face=line, top=top, notes=(note, *draft.notes))


def _run_along(names: set[str], said: HeardMeasure, base: Draft, footing: Footing) -> list[Draft]:
    """How far a mark runs along the board while it crosses it: over the depth, or the thickness."""
    if said.unit == "deg":
        raise UnreadError(said.text, "how far a mark runs is a length")
    if said.value > ON_SQUARE:
        raise UnreadError(said.text, "no mark runs so far along the board while it crosses it")
    stock = footing.true_answer.question.stock
    if "overdepth" in names:
        return [changed(base, face=_run(said.value, stock.depth_in))]
    half = 2.0 if "aheadhalf" in names else 1.0
    return [changed(base, edge=_run(said.value, stock.thickness_in / half))]


def _run(along_in: float, across_in: float) -> ClaimedLine:
    return numbers_line(along_in, across_in) if along_in else SQUARE


def _nearest(clause: Clause) -> str:
    """The last word before the number that says what it is, else the first behind it.

    `plumb line 45 on the saw` is the saw's number, and so is `saw 45 on the plumb line`. Empty
    where only a line stands behind it that is followed: `45 down the plumb line`.
    """
    telling = TILTS | MARKS | {"table", "slidingbevel", "sidenumber"}
    before = next((c.name for c in reversed(clause.cues) if c.name in telling | LYING), "")
    behind = next((c.name for c in clause.behind if c.name in telling), "")
    tied = bool(clause.behind) and clause.behind[0].name == "on"
    if before == "sidecut" and behind in SAWS:
        return _plainly(behind)  # cheek: 45 saw
    if before in LINES and behind in SAWS:
        return _plainly(behind if tied else before)
    if not before and behind in LINES and clause.followed:
        return ""
    return _plainly(before or behind)


def _plainly(name: str) -> str:
    """A side cut is marked on the edge."""
    return "edge" if name == "sidecut" else name


def _ratio(
    names: set[str], nearest: str, said: HeardMeasure, base: Draft, footing: Footing
) -> list[Draft]:
    rise, run = said.value, said.second
    on_12 = run == RUNS[0] and nearest in ("edge", "sidenumber")  # a number, not an arm's length
    if ON_SQUARE < max(rise, run) < ON_METRIC and not on_12:
        raise UnreadError(said.text, "no square is so long; say 12 in 12, or degrees")
    if "offedge" in names:
        if not footing.slopes and run:  # an angle from the edge, laid by its rise on its run
            return [changed(base, face=numbers_line(run, rise))]
        raise UnreadError(said.text, "which line is that against the edge? say plumb or level")
    if base.edge is not None and nearest not in ("plumb", "level", "face"):
        nearest = "through"
    edge = changed(base, edge=numbers_line(run, rise)) if run else base
    if nearest == "table":
        return [changed(base, turn=plumb_line("plumb", rise, run))]
    if nearest in ("edge", "sidenumber"):
        return [edge]
    if nearest in ("plumb", "level", "face") and run and not footing.slopes and rise != run:
        return _either_arm(rise, run, base)
    if nearest in ("plumb", "level"):
        return [sloped(nearest, base, plumb_line(nearest, rise, run), footing)]
    plumb = sloped("plumb", base, plumb_line("plumb", rise, run), footing)
    if not footing.slopes and rise != run and nearest not in (*SAWS, "edge", "sidenumber"):
        marked = _either_arm(rise, run, base)
        return [*marked, edge] if said.joint == "on" and footing.edge_number else marked
    if nearest == "through" and not names & {"edge", *SAWS}:
        return [plumb, *_leveled(said, base, footing)]
    if nearest == "face":
        if said.joint == "in" or rise == run or abs(rise - footing.rise) < 1 / 16:
            return [plumb, *_leveled(said, base, footing)]
        return [plumb, changed(base, face=numbers_line(run, rise))]
    if nearest in ("saw", "tilt", "bevel", "blade") and "edge" not in names:
        angle = degrees(atan(rise / run)) if run else 0.0
        note = f"the saw set to the angle of {said.text}, {write_degrees(angle)}"
        tilted = changed(base, tilt_deg=angle, notes=(note,))
        if nearest == "bevel" and said.joint == "on" and not names & {"saw", "tilt", "blade"}:
            return [edge] if "top" in names else [tilted, edge]  # of the saw, or of the edge
        return [tilted]
    if "edge" in names:
        return [edge]
    number = footing.edge_number
    is_number = number is not None and abs(12 * rise / run - number) <= 1 / 8
    is_pitch = abs(12 * rise / run - footing.rise) <= 1 / 16
    if "pitch" in names:
        return [plumb, *_leveled(said, base, footing)]
    if said.joint != "in" and _on_own_run(run, footing):
        return [plumb, *_leveled(said, base, footing)]
    if said.joint == "on" and number is None:  # an edge that is marked square has no number
        return [plumb, *_leveled(said, base, footing), edge]
    if said.joint == "in" and (is_pitch or not is_number):
        return [plumb, *_leveled(said, base, footing)]
    if said.joint == "on" and (is_number or not is_pitch) and not (is_number and is_pitch):
        return [edge]
    return [plumb, edge]


def _either_arm(rise: float, run: float, base: Draft) -> list[Draft]:
    """On a level stick no line is plumb by a rise on a run: either number may be marked along."""
    return [changed(base, face=numbers_line(one, two)) for one, two in ((rise, run), (run, rise))]


def _on_own_run(run: float, footing: Footing) -> bool:
    """Whether these are numbers of a hip's or valley's: its rise on 17, or 16.97."""
    return abs(footing.run - RUNS[1]) < 0.1 and abs(run - RUNS[1]) < 0.1


def _leveled(said: HeardMeasure, base: Draft, footing: Footing) -> list[Draft]:
    """The level line by these numbers, where this cut's own mark is the level one."""
    if not footing.is_level:
        return []
    line = plumb_line("level", said.value, said.second)
    return [sloped("level", base, line, footing)]


def _pair(names: set[str], said: HeardMeasure, base: Draft, footing: Footing) -> list[Draft]:
    """Two numbers on the square; where none is named to mark along, both may be meant."""
    one, two = said.value, said.second
    own = said.joint == "and" and not names & MARKS and _on_own_run(two, footing)
    if own and said.along is not None and said.along == two:
        return [*_leveled(said, base, footing), changed(base, face=numbers_line(two, one))][:1]
    if own:
        plumb = sloped("plumb", base, plumb_line("plumb", one, two), footing)
        return [plumb, *_leveled(said, base, footing)]
    if names & LINES and said.along is None and (two in RUNS or one in RUNS):
        kind = "plumb" if "plumb" in names else "level"
        rise, run = (one, two) if two in RUNS else (two, one)
        return [sloped(kind, base, plumb_line(kind, rise, run), footing)]
    along = [said.along] if said.along is not None else [one] if one == two else [one, two]
    lines = [numbers_line(mark, two if mark == one else one) for mark in along]
    where = ["edge"] if names & {"edge", "sidenumber"} else []
    where = ["face"] if names & {"plumb", "level", "face"} else where
    if "plumb" in names or "level" in names:
        kind = "plumb" if "plumb" in names else "level"
        return [sloped(kind, base, line, footing) for line in lines]
    if where:
        return [changed(base, **{where[0]: line}) for line in lines]
    places = ("face",) if footing.edge_number is None else ("face", "edge")
    return [changed(base, **{place: line}) for place in places for line in lines]


def _ripped(names: set[str], said: HeardMeasure, base: Draft, footing: Footing) -> list[Draft]:
    """A bevel along the board: gauged by two lengths, or sawn by a tilt."""
    base = changed(base, rip=True)
    value = said.value
    if said.kind != "one":
        run = said.second
        angle = degrees(atan(value / run)) if run else 0.0
        if footing.true_answer.is_rip and run:
            return [changed(base, tilt_deg=angle, notes=(f"the angle of {said.text}",))]
        raise UnreadError(said.text, "a rip is gauged by two lengths, or sawn by a tilt")
    if names & {"gauge", "fromface"} and "fromedge" not in names:
        return [changed(base, across_in=value)]
    if names & {"drop", "fromedge"}:
        return [changed(base, drop_in=value)]
    if said.unit == "deg":
        return [changed(base, tilt_deg=value)]
    tells = names & (TILTS - {"rip"})
    if said.unit in ("in", "in?"):
        return [changed(base, drop_in=value)]
    if value <= 1.5 and not tells:
        return [changed(base, drop_in=value)]
    if value <= 1.5:
        return [changed(base, tilt_deg=value), changed(base, drop_in=value)]
    if value >= 90:
        raise UnreadError(said.text, "a blade tilted that far lies flat; give less than 90")
    return [changed(base, tilt_deg=value)]
