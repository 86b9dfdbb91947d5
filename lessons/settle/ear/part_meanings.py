"""What each part of a claim can mean: its number under its words, every way it can be taken."""

from dataclasses import replace
from math import atan, degrees

from layout.cuts import End
from layout.quantity import write_degrees
from layout.tools.square import BLADE_IN
from lessons.settle.claim import SQUARE, ClaimedLine, ClaimError
from lessons.settle.ear.clauses import Clause
from lessons.settle.ear.draft import Draft
from lessons.settle.ear.footing import Footing
from lessons.settle.ear.heard_measure import HeardMeasure
from lessons.settle.ear.lying import FLAT, ONEDGE
from lessons.settle.ear.number_sources import AS_COMMON, SOURCES, as_common, as_sourced, from_source
from lessons.settle.ear.on_this_cut import EVERYWHERE
from lessons.settle.ear.single import (
    LINES,
    MARKS,
    RIGHT_DEG,
    SAWS,
    TILTS,
    UnreadError,
    changed,
    numbers_line,
    one_number,
    plumb_line,
    quoted,
    sloped,
)
from lessons.settle.ear.trade_tokens import RUNS_IN
from lessons.settle.ear.two_numbers import rise_on_run, two_on_the_square

AHEAD = {"ahead", "aheadhalf", "leftnearfoot", "rightnearfoot", "overdepth"}
LYING = {*FLAT, *ONEDGE}
SHOES = {"shoe", "saw", "blade"}
ASIDE = "is taken for another line's, said beside this"
THROUGH = "square through the thickness"


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
        return [as_common(names, base, footing)]
    sourced = names & set(SOURCES)
    if base.shoe is None and "square" not in names and not sourced:
        rides = names & {"edge", "face"} if _rides(clause) else set()
        base = changed(base, shoe=rides.pop()) if len(rides) == 1 else base
    tilts = names & (TILTS - {"rip"}) or "plumbblade" in names
    source = next((name for name in SOURCES if name in names), None)
    if source is not None and (tilts or names & {*MARKS, "table", "rip"}):
        return from_source(source, names, base, footing)
    if source is not None and source != "pitch":
        return from_source(source, {"tilt"}, base, footing) if source == "halfcorner" else [base]
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


def _rides(clause: Clause) -> bool:
    """`the shoe rides the top edge`; no shoe rides the edge whose angle is the saw's."""
    said = [cue.name for cue in (*clause.cues, *clause.behind)]
    shoe = next((at for at, name in enumerate(said) if name in SHOES), len(said))
    return any(name in ("edge", "face") for name in said[shoe:])


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


def _numbered(clause: Clause, said: HeardMeasure, footing: Footing, *, miter: bool) -> list[Draft]:
    names = clause.names
    base = _placed(names)
    if "squarethrough" in names:
        base = changed(base, edge=SQUARE, notes=(THROUGH,))
    if "ascommon" in names:
        own = said.kind in ("ratio", "pair") and {said.first, said.second} == {
            footing.rise,
            RUNS_IN[0],
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
        return two_on_the_square(names, said, base, footing)
    if said.kind == "ratio":
        return rise_on_run(names, nearest, said, base, footing)
    if "armside" in names and said.value in RUNS_IN:
        return _along_run(said, base, footing)
    meant = one_number(clause, nearest, said, base, footing, miter=miter)
    return [_on_its_line(one, names, footing) for one in as_sourced(meant, names, said, footing)]


def _along_run(said: HeardMeasure, base: Draft, footing: Footing) -> list[Draft]:
    """`the 12 side`: along that arm, by the rise on the face or the number on the edge."""
    lines = [changed(base, face=numbers_line(said.value, footing.rise))]
    number = footing.edge_number
    if number is not None and said.value == RUNS_IN[0]:
        lines.append(changed(base, edge=numbers_line(RUNS_IN[0], number)))
    return lines


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
    if said.value > BLADE_IN:
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


def _ripped(names: set[str], said: HeardMeasure, base: Draft, footing: Footing) -> list[Draft]:
    """A bevel along the board: gauged by two lengths, or sawn by a tilt."""
    base = changed(base, rip=True)
    value = said.value
    if said.kind != "one":
        run = said.second
        if footing.true_answer.is_rip and run:
            angle = degrees(atan(value / run))
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
    if value >= RIGHT_DEG:
        raise UnreadError(said.text, "a blade tilted that far lies flat; give less than 90")
    return [changed(base, tilt_deg=value)]
