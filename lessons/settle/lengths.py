"""Claims about lengths and drops: how long, how far down, how far apart, against the building.

What a claim leaves unsaid (to which point, level or along the board) has a usual meaning; where
only another meaning makes it right, it is asked back. A length is judged to a sixteenth.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from layout.answer.answer import Answer
from layout.cuts import find
from layout.errors import LayoutError
from layout.length.birdsmouth import from_seat
from layout.length.drop import hip_top
from layout.length.run_length import jack_per_spacing, measure
from layout.length.shortening import CheekPoints, cheek_points
from layout.length.tail import tail
from layout.plane.corner import Corner
from layout.quantity import write_feet, write_inches, write_length
from layout.stock import Stock, read_stock
from layout.tools.square import BLADE_IN
from lessons.settle.ear.heard_measure import HeardMeasure, Item, is_cue
from lessons.settle.ear.hearing import LEFT_OUT, MOST_LEFT_OUT
from lessons.settle.ear.lexicon import lexicon
from lessons.settle.ear.measures import measured
from lessons.settle.ear.trade_tokens import listen
from lessons.settle.findings import ClaimVerdict, LengthFound

NEAR_IN = 1 / 16
"""How near a length must come: a tape is read to the sixteenth."""
HEADS = {"common": "common-ridge", "hip": "hip-ridge-single", "valley": "valley-ridge"}
USUAL_CARRIER = "2x8"
"""A hip, valley or common of which nothing is said: its thickness alone is asked for."""
OF_LENGTHS = ("length", "stick", "unit", "reference", "rip")
"""Sections of the lexicon whose words a length is told in; any other makes it a setting's."""
CENTERS = (
    "on center",
    "on centers",
    "on centre",
    "on centres",
    "inch centers",
    "inch centres",
    "centers",
    "centres",
    "oc",
    "o c",
    "center to center",
)
KINDS = (
    "dropit",
    "shorten",
    "halfthick",
    "difference",
    "firstjack",
    "seatlength",
    "heelheight",
    "heelcut",
)


@dataclass(frozen=True)
class Building:
    """What lengths need beyond the cut: the common's level run, and what it is framed with [in]."""

    run_in: float | None = None
    spacing_in: float = 16.0
    ridge_in: float = 1.5
    seat_in: float = 3.5
    overhang_in: float = 12.0
    fascia_in: float = 0.75
    carrier: Stock | None = None


@dataclass(frozen=True)
class _Meant:
    """One meaning of a length, in words, with its true value [inches].

    A `seldom` one is not what the words say by themselves, but what some men mean by them.
    """

    words: str
    true_in: float
    seldom: bool = False


def length_claim(text: str, true_answer: Answer, building: Building) -> LengthFound | None:
    """Judge a claim about a length; None where it is about something else."""
    listened = listen(text)
    cues = [token for token in listened.tokens if token.kind == "cue"]
    names = {token.name for token in cues}
    items, building = _spaced(measured(listened.tokens), building)
    found = [item for item in items if isinstance(item, HeardMeasure)]
    what = next((name for name in KINDS if name in names), "")
    if len(found) != 1 or found[0].kind != "one" or found[0].unit == "deg":
        return None
    said_in, pointed = found[0].value, names & {"long", "longpoint"}
    long = found[0].unit == "ft" or (said_in > BLADE_IN and pointed)
    if not what and not long:
        return None
    strange = [token for token in listened.tokens if token.kind == "unknown"]
    strange += [token for token in cues if token.name in LEFT_OUT - {"oneeach"}]
    left_out = list(dict.fromkeys(token.text for token in strange))
    if len(left_out) > MOST_LEFT_OUT:
        return None
    if any(
        lexicon().group[name] not in OF_LENGTHS
        for name in names - {"level", "plumb", "atright", "always"} - LEFT_OUT
    ):
        return None
    try:
        meant = list(_meanings(what, names, true_answer, building))
    except LayoutError as error:
        return LengthFound(ClaimVerdict.OPEN, said_in, None, "", str(error))
    if not meant:
        return LengthFound(
            ClaimVerdict.OPEN, said_in, None, "", "What is the common's level run? give --run 12'"
        )
    return _found(said_in, meant, tuple(left_out))


def _found(said_in: float, meant: Sequence[_Meant], left_out: tuple[str, ...]) -> LengthFound:
    """Every length that is called by these words named and judged; none of them is picked."""
    called = [one for one in meant if not one.seldom]
    fits = [one for one in meant if abs(one.true_in - said_in) <= NEAR_IN]
    right = all(one in fits for one in called)
    near = min(called, key=lambda one: abs(one.true_in - said_in))
    verdict, question = ClaimVerdict.WRONG, ""
    if right:
        verdict = ClaimVerdict.RIGHT
    elif fits:
        verdict = ClaimVerdict.OPEN
        off = [f"as {one.words} it is {_off(said_in, one)}" for one in called if one not in fits]
        question = (
            f"Is that {' or '.join(one.words for one in fits)}? {'; '.join(off).capitalize()}."
        )
    if left_out:
        question = f"{question} {_size_words(near)}".strip()
    what = "; or as ".join(one.words for one in called)
    return LengthFound(verdict, said_in, near.true_in, what, question, left_out)


def _size_words(meant: _Meant) -> str:
    return f"As heard, {meant.words}: {write_inches(meant.true_in)}."


def _spaced(items: list[Item], building: Building) -> tuple[list[Item], Building]:
    """What is left without the spacing, and the building that is spaced so: `16 on center`."""
    for at, item in enumerate(items[1:], start=1):
        number = items[at - 1]
        spaced = is_cue(item, "center") and getattr(item, "text", "") in CENTERS
        one = isinstance(number, HeardMeasure) and number.kind == "one" and number.unit != "deg"
        if spaced and one and number.value > 0:
            rest = [*items[: at - 1], *items[at + 1 :]]
            return rest, replace(building, spacing_in=number.value)
    return items, building


def _off(said_in: float, meant: _Meant) -> str:
    return f"wrong by {write_length(abs(said_in - meant.true_in))}"


def _stick(names: set[str], true_answer: Answer) -> str:
    for name in ("hip", "valley", "common"):
        if name in names:
            return name
    family = true_answer.question.entry.family
    return family if family in HEADS else "common"


def _roof(true_answer: Answer, stick: str) -> Corner:
    asked = true_answer.question
    corner = asked.corner_deg
    if (stick == "valley") != (corner > 180) and asked.entry.meets != "nothing":
        corner = 360.0 - corner
    if stick == "valley" and asked.entry.meets == "nothing":
        corner = 270.0
    return Corner(asked.pitch.slope_deg, asked.other_pitch.slope_deg, corner)


def _carrier(true_answer: Answer, building: Building, stick: str) -> Stock:
    if true_answer.question.entry.family == stick:
        return true_answer.question.stock
    return building.carrier or read_stock(USUAL_CARRIER)


def _meanings(
    what: str, names: set[str], true_answer: Answer, building: Building
) -> Iterator[_Meant]:
    stick = _stick(names, true_answer)
    roof = _roof(true_answer, stick)
    match what:
        case "dropit":
            top = hip_top(
                _roof(true_answer, "hip"), _carrier(true_answer, building, "hip"), "dropped"
            )
            yield _Meant("the drop of the hip, plumb", top.lowered_in)
        case "difference":
            own = float(jack_per_spacing(roof)) * building.spacing_in
            spacing = write_feet(building.spacing_in)
            yield _Meant(f"the common difference at {spacing} on center", own)
        case "firstjack":
            half = true_answer.question.stock.thickness_in / 2
            yield _Meant("from the corner to its middle", building.spacing_in)
            yield _Meant("from the corner to its far face", building.spacing_in + half, seldom=True)
            yield _Meant(
                "from the corner to its near face", building.spacing_in - half, seldom=True
            )
        case "shorten" | "halfthick":
            every = _shortenings(names, true_answer, building)
            yield from (one for one in every if "level" not in names or "along" not in one.words)
        case "seatlength" | "heelheight" | "heelcut":
            mouth = from_seat(
                true_answer.question.pitch.slope_deg, true_answer.question.stock, building.seat_in
            )
            value = {
                "seatlength": mouth.seat_in,
                "heelheight": mouth.height_above_plate_in,
                "heelcut": mouth.heel_in,
            }[what]
            word = {
                "seatlength": "the level seat",
                "heelheight": "the height above the plate, plumb",
                "heelcut": "the heel, plumb",
            }[what]
            yield _Meant(word, value)
        case _ if "tail" in names:
            yield _Meant(
                "the tail along the board",
                tail(roof, building.overhang_in, building.fascia_in).along_in,
            )
        case _:
            yield from _lengths(names, stick, roof, true_answer, building)


def _shortenings(names: set[str], true_answer: Answer, building: Building) -> Iterator[_Meant]:
    """What comes off this cut's own stick at its mate, and off another that the words may name.

    On a jack *shorten it for the hip* is the jack's, half the hip on the slant; *shorten the hip*
    is the hip's, half the ridge: both are given where the hip is named.
    """
    asked = true_answer.question
    own = asked.entry.family
    mate = next(
        (one for one in ("ridge", "hip", "valley") if one in true_answer.plane.mate_words), ""
    )
    ended = bool(mate) and not true_answer.is_rip and own in (*HEADS, "jack")
    sticks = {name for name in HEADS if name in names}
    if ended and not (sticks - {own, mate}) and not ("ridge" in names and mate != "ridge"):
        half_in = building.ridge_in / 2
        if mate != "ridge":
            half_in = (building.carrier or read_stock(USUAL_CARRIER)).thickness_in / 2
        points = cheek_points(asked.joint, asked.stock, half_in)
        yield from _shortened(f"the {own}'s shortening for the {mate}", mate, points)
    for stick in sorted(sticks) or (
        [] if ended and "ridge" not in names else [_stick(names, true_answer)]
    ):
        if not (ended and stick == own):
            points = _points(_roof(true_answer, stick), stick, true_answer, building)
            yield from _shortened(f"the {stick}'s shortening for the ridge", "ridge", points)


def _shortened(whose: str, mate: str, points: CheekPoints) -> Iterator[_Meant]:
    cut = points.shortening
    yield _Meant(f"{whose}, level, square back from the plumb line", cut.level_in)
    yield _Meant(f"{whose}, along the board", cut.along_in, seldom=True)
    if abs(cut.across_in - cut.level_in) > NEAR_IN:
        yield _Meant(f"half the {mate}, square to its side", cut.across_in, seldom=True)
    ahead_in = (points.long_in - points.centre_in) * cut.level_in / cut.along_in
    if ahead_in > NEAR_IN:
        words = "how far the long point lies past the middle of the cheek, level"
        yield _Meant(words, ahead_in, seldom=True)


def _points(roof: Corner, stick: str, true_answer: Answer, building: Building) -> CheekPoints:
    stock = _carrier(true_answer, building, stick)
    return cheek_points(find(HEADS[stick]).joint(roof), stock, building.ridge_in / 2)


def _lengths(
    names: set[str], stick: str, roof: Corner, true_answer: Answer, building: Building
) -> Iterator[_Meant]:
    """A rafter's length to each point that it may be measured to; the one that is said alone."""
    if building.run_in is None:
        return
    kind = "common" if stick == "common" else "hip or valley"
    table_in = measure(roof, building.run_in, kind).table_in  # type: ignore[arg-type]
    points = _points(roof, stick, true_answer, building)
    every = {
        "longpoint": _Meant(f"the {stick} to its long point", table_in + points.long_in),
        "shortpoint": _Meant(f"the {stick} to its short point", table_in + points.short_in),
        "center": _Meant(f"the {stick} to the middle of the ridge", table_in),
    }
    said = [every[name] for name in every if name in names]
    if said:
        yield from said
        return
    yield every["longpoint"]
    yield replace(every["center"], seldom=True)
    yield _Meant(f"the {stick} to the cut on its middle", table_in + points.centre_in, seldom=True)
    yield replace(every["shortpoint"], seldom=True)
