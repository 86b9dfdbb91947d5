"""Settings by the name of where they come from: the pitch, half the corner, the side-cut number."""

from layout.quantity import write_degrees, write_fraction
from lessons.settle.claim import SQUARE, ClaimedLine
from lessons.settle.ear.draft import Draft
from lessons.settle.ear.footing import Footing
from lessons.settle.ear.heard_measure import HeardMeasure
from lessons.settle.ear.single import LINES, TILTS, UnreadError, changed, plumb_line, sloped
from lessons.settle.ear.trade_tokens import RUNS_IN

SAID_SO_DEG = 0.5
"""How far a number may be from where it is said to come from, as numbers are said on site."""
AS_COMMON = "as the common's"
SOURCES = {
    "halfpitch": "half the pitch",
    "pitch": "the pitch",
    "otherpitch": "the other roof's pitch",
    "sidenumber": "the side-cut number",
    "halfcorner": "half the corner",
    "edgeangle": "the edge mark's angle",
}
"""Where numbers are said to come from, and how each is said back."""


def from_source(source: str, names: set[str], base: Draft, footing: Footing) -> list[Draft]:
    """A mark, a table or a tilt by a name in place of a number."""
    if "table" in names and source == "halfcorner" and not names & TILTS:
        return [changed(base, turn=ClaimedLine("degrees", footing.half_corner_deg))]
    if (names & TILTS and not names & {"plumb", "level"}) or source == "halfcorner":
        if "edge" in names and source == "sidenumber" and not names & (TILTS - {"bevel"}):
            return [_own_edge(base, footing)]
        angle, words = _source_angle(source, footing)
        return [changed(base, tilt_deg=angle, notes=(f"{words}, {write_degrees(angle)}",))]
    if "table" in names and source == "pitch":
        return [changed(base, turn=_by_pitch(footing))]
    if "edge" in names and source == "sidenumber":
        return [_own_edge(base, footing)]
    rises = footing.plumb != SQUARE  # on a stick that lies or stands no line across is plumb
    named = names & LINES if rises else set()
    if source in ("pitch", "otherpitch") and (named or "face" in names):
        if footing.is_level and not names & LINES:
            kinds = ("plumb", "level")
            return [one for kind in kinds for one in
                    from_source(source, {*names, kind}, base, footing)]  # fmt: skip
        own = source == "pitch"
        line = _by_pitch(footing) if own else footing.other_plumb
        whose = "by the pitch" if own else "by the other roof's pitch"
        if "level" in named:
            line = footing.level if own else ClaimedLine("degrees", 90 - line.from_square_deg)
        top = None if not rises else "foot" if "level" in named else "head"
        return [changed(base, face=line, top=top, notes=(f"the face mark {whose}",))]
    raise UnreadError(SOURCES.get(source, source), "say the number itself")


def _by_pitch(footing: Footing) -> ClaimedLine:
    """The plumb line of a stick that rises; the pitch's own angle on one that lies or stands."""
    pitch = footing.true_answer.question.pitch
    return footing.plumb if footing.plumb != SQUARE else ClaimedLine("degrees", pitch.slope_deg)


def as_common(names: set[str], base: Draft, footing: Footing) -> Draft:
    """The plumb or level line that a common of this roof takes: its rise on a run of 12."""
    kind = "level" if "level" in names else "plumb"
    if not names & LINES or not footing.slopes:
        raise UnreadError("the common", "which of the common's lines is that? say its numbers")
    line = plumb_line(kind, footing.rise, RUNS_IN[0])
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


def as_sourced(
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
