"""The senses of an answer in words: every phrase that turns a saw stands here, and nowhere else.

One reading only: *below the shoe* is where the blade cuts, an end of the board is its head or
its foot, a side is a face or an edge by name. No word is used that can mean the part of the saw
above the shoe as well as the part below.
"""

from math import ceil, floor

from layout.answer import senses
from layout.answer.answer import Answer, Mark
from layout.answer.senses import Sense, StartAt, Way
from layout.answer.wording import pitch_words
from layout.cuts import Hand
from layout.quantity import MM_PER_INCH, write_degrees, write_fraction, write_metric
from layout.tools.miter import MiterSetting
from layout.tools.saw import SawKind, reaches
from layout.tools.travel import ONE_WAY, Below, Lean, Side, Wood, lean

ALONG = "measured along the blade"
"""Blade that a cut takes is told as a length of the blade, to be held against the saw's own."""
TILT_GLOSS = "the saw's bevel setting"
SQUARE_BLADE = "the blade stands square to its shoe"
UNDER: dict[Below, str] = {"under_waste": "under the waste", "under_kept": "under the kept wood"}
WOOD: dict[Wood, str] = {"kept": "kept wood", "waste": "waste"}
SURFACE: dict[Side, str] = {
    "left": "left face",
    "right": "right face",
    "top": "top edge",
    "bottom": "bottom edge",
}
START: dict[StartAt, str] = {
    "left": "left face",
    "right": "right face",
    "top": "top edge",
    "bottom": "bottom edge",
    "head": "head",
    "foot": "foot",
    "inside": "inside corner",
}
KIND: dict[SawKind, str] = {
    SawKind.BLADE_LEFT: "blade-left saw",
    SawKind.BLADE_RIGHT: "blade-right saw",
    SawKind.BOTH_WAYS: "saw that tilts both ways",
}
LOOK_AT_YOUR_SAW = (
    "Blade-left: seen from behind the saw, the blade is to the left of the motor.",
    "Tilt your own saw, unplugged, and see that below the shoe the blade swings in under its wide"
    " side.",
)
LONGEST_BLADE_IN = 24.0
ROUNDING = 1e-6
LEANS = 0.02
"""The sine of a face's angle from plumb under which nobody could tell which way it looks."""


def end_words(sign: float) -> str:
    """The end of the board that a sign names: head for plus, foot for minus."""
    return "head" if sign > 0 else "foot"


def leaning(mark: Mark) -> str:
    """The end toward which a mark slants: a face mark's top, an edge mark's left end."""
    return end_words(mark.lean)


def hand_line(answer: Answer) -> str:
    """Which hand this is, in the words that leave no doubt.

    A joint whose plane asked for runs square through the thickness may have a second one that
    does not: the hand is then that one's.
    """
    stand = "stand at the foot, look toward the head"
    if answer.hand is not None:
        side = answer.hand.value
        what = "rip" if answer.is_rip else "cut"
        return f"{side.upper()}-HAND {what}: {stand}; the {surface_name(answer)} faces {side}."
    for other in answer.others:
        if other.hand is not None:
            side, mates = other.hand.value, answer.question.joint.planes
            return (
                f"{side.upper()}-HAND cut: {stand}; the cheek against"
                f" {mates[other.plane_index].mate_words} faces {side}. The cut against"
                f" {mates[answer.plane_index].mate_words} runs square through the thickness."
            )
    return "No hand: the cut runs square through the thickness."


def up_words(answer: Answer) -> str:
    """Which wide face looks up where the board lies or leans in place; empty where none does.

    The left face looks along y of the board, whose world z is its share of straight up.
    """
    rises = float(answer.question.joint.pose.left[2])
    if abs(rises) < LEANS:
        return ""
    return f"In place the {'left' if rises > 0 else 'right'} face looks up."


def roof_sides(answer: Answer) -> str:
    """On which side of a hip or valley this roof lies; empty where both have one pitch.

    The hand is the cheek's, and at one stick's head and heel the cheeks against one roof face
    opposite ways. A roof falls away from a hip and rises from a valley, so its normal leans to
    the side of the hip on which the roof lies, and away from it at a valley.
    """
    asked = answer.question
    if len(asked.joint.bevels) != 2 or asked.pitch.slope_deg == asked.other_pitch.slope_deg:
        return ""
    leans_left = float(asked.joint.pose.to_board(asked.joint.bevels[0])[1]) > 0
    left = leans_left != (asked.entry.meets == "valley")
    this, other = ("left", "right") if left else ("right", "left")
    pitch, other_pitch = (
        pitch_words(each, metric=answer.metric) for each in (asked.pitch, asked.other_pitch)
    )
    return (
        f"Seen from the foot, this roof ({pitch}) lies on the {this} of the {asked.entry.meets},"
        f" the other ({other_pitch}) on its {other}."
    )


def surface_name(answer: Answer) -> str:
    """What the cut surface is called: a bevel along the board, a cheek at its end."""
    return "bevel" if answer.is_rip else "cheek"


def waste_words(answer: Answer) -> str:
    """On which side of its lines the waste lies."""
    if answer.is_rip:
        edge = "top" if float(answer.cut.normal[2]) > 0 else "bottom"
        return f"The waste lies on the {edge} edge's side of the bevel."
    if senses.is_cut_short(answer):
        return (
            "The waste lies below the mark, down to the bottom edge. Cut the foot first: its cut"
            " leaves no heel."
        )
    if senses.is_notch(answer):
        return "The waste is the notch between both marks, open at the bottom edge."
    return f"The waste lies on the {end_words(float(answer.cut.normal[0]))} side of the marks."


def lean_words(runs: Lean | Sense) -> str:
    """What the blade does below the shoe: under which wood, and toward which end or surface."""
    below = runs.below if isinstance(runs, Lean) else runs.below_shoe
    if below == "square":
        return SQUARE_BLADE
    toward = SURFACE[runs.toward_side] if runs.toward_side else runs.toward
    return f"below the shoe the blade runs in {UNDER[below]}, toward the {toward}"


def blade_words(answer: Answer, shoe: Hand) -> str:
    """What the blade does below a shoe that rides this face."""
    return lean_words(lean(answer.cut.normal, "left" if shoe is Hand.LEFT else "right"))


def wide_words(one: Sense, kind: SawKind | None = None) -> str:
    """Where the wide side of the shoe rides, and what that is worth.

    A saw that tilts both ways is tilted so that its wide side rides on the kept wood.
    """
    if one.wide_side_on is None:
        return ""
    if kind is SawKind.BOTH_WAYS:
        return f"wide side of the shoe on the {WOOD['kept']}: tilt the saw to that side"
    words = f"wide side of the shoe on the {WOOD[one.wide_side_on]}"
    if one.square:
        return words
    if one.wide_side_on == "kept":
        return f"{words}: the steadier way"
    # The waste of a rip is a strip along an edge: it bears no shoe.
    held = ": clamp a board flush beside it" if one.toward_side else ", which must be held up"
    return words + held


def body_words(one: Sense) -> str:
    """Which way the saw leans above the board: only ever said beside what the blade does."""
    if one.body_leans_over is None:
        return ""
    return f"above the board the saw leans over the {WOOD[one.body_leans_over]}"


def travel_words(one: Sense, kind: SawKind) -> str:
    """At which end of the line this saw starts."""
    start = one.start_from[kind]
    if start == "inside":
        return "this saw would start in the inside corner: use a handsaw"
    if start is None:
        return "start at the end of the line that puts the wide side on the kept wood"
    return f"start at the {START[start]}"


def start_words(one: Sense, kind: SawKind | None = None) -> str:
    """Where to start with this saw, or in one line with either saw that tilts one way."""
    if kind is not None:
        return travel_words(one, kind)
    left, right = (travel_words(one, each) for each in (SawKind.BLADE_LEFT, SawKind.BLADE_RIGHT))
    if left == right:
        return left
    said, cannot = [], ""
    for each in ONE_WAY:
        start = one.start_from[each]
        if start == "inside":
            cannot = f"; a {KIND[each]} would start in the inside corner: use a handsaw"
        elif start is not None:
            said.append(f"at the {START[start]} with a {KIND[each]}")
    return f"start {', '.join(said)}{cannot}"


def way_name(answer: Answer) -> str:
    """The saw's way in few words, for lists; where the saw is known, also where it starts."""
    how, kind = senses.way(answer), answer.limits.kind
    if how == "handsaw":
        return "handsaw"
    if how == "both faces":
        return "half from each face"
    reached = (*senses.faces(answer), *senses.edges(answer))
    first = next(one for one in reached if one.within_reach)
    start = None if kind is None else first.start_from[kind]
    if start == "inside":
        return "handsaw"
    where = "one pass on a face" if how == "face" else f"one pass on the {SURFACE[first.side]}"
    if start is not None:
        where = f"{SURFACE[first.side]}, from the {START[start]}"
    if senses.is_cut_short(answer):
        return where
    return f"{where}, to the inside corner" if senses.is_notch(answer) else where


def out_of_reach(answer: Answer, one: Sense) -> str:
    """Why one pass from this surface does not make the cut; empty where it does."""
    limits = answer.limits
    if not one.within_tilt:
        limit = write_degrees(limits.tilt_deg)
        return (
            f"out of reach: a tilt of {write_degrees(one.tilt_deg)} is past the {limit} this saw"
            " tilts"
        )
    if one.within_depth:
        return ""
    needs, has = _needs(one.needs_in, answer.metric), _has(limits.depth_in, answer.metric)
    return (
        f"out of reach: it takes {needs} of saw blade below the shoe, this saw has {has}, both"
        f" {ALONG}"
    )


def margin_words(answer: Answer, needs_in: float) -> str:
    """That the blade only just comes through; empty where it does so with room."""
    spare = answer.limits.depth_in - needs_in
    if senses.is_hollow(answer) or spare > senses.THIN_MARGIN_IN:
        return ""
    needs = _needs(needs_in, answer.metric)
    has = _has(answer.limits.depth_in, answer.metric)
    return f"only just: it takes {needs} of saw blade, this saw has {has}; try the depth on scrap"


def remaining_words(answer: Answer, how: Way | None = None) -> str:
    """What to do where one pass on a face does not reach, as a command; empty where it does."""
    match how or senses.way(answer):
        case "face":
            return ""
        case "both faces":
            first, *_ = senses.faces(answer)
            half = senses.saw_reach(answer, face=True).needs_in / 2
            shift = senses.face_shift_in(answer)
            size = abs(shift)
            far = write_metric(size) if answer.metric else f"{write_fraction(size)} in"
            where = (
                f"the left face's mark lies {far} nearer the {end_words(shift)} than the right"
                " face's mark"
                if shift
                else "both faces' marks lie at one place along the board"
            )
            thin = margin_words(answer, half)
            return "; ".join(
                [
                    f"mark both faces and saw half from each, tilt {write_degrees(first.tilt_deg)},"
                    f" {_needs(half, answer.metric)} of saw blade below the shoe, {ALONG}",
                    where,
                    *([thin] if thin else []),
                ]
            )
        case "edge":
            one = next(edge for edge in senses.edges(answer) if edge.within_reach)
            return (
                f"run the shoe on the {SURFACE[one.side]}, along the edge mark, tilt"
                f" {write_degrees(one.tilt_deg)}"
            )
        case _:
            lines = "the gauged lines" if answer.is_rip else "the face mark and the edge mark"
            return f"saw along {lines} with a handsaw"


def beyond_words(answer: Answer) -> str:
    """Why the saw does not reach from a face and what remains; empty where it does."""
    if senses.way(answer) == "face":
        return ""
    first = senses.faces(answer)[0]
    return f"{out_of_reach(answer, first)}. What remains: {remaining_words(answer)}"


def miter_words(answer: Answer, laid: MiterSetting) -> list[str]:
    """How the board lies on the miter saw, how the table turns and how the blade leans."""
    flat = laid.up in ("left", "right")
    lies = "flat" if flat else "on edge"
    table, blade = f"table {write_degrees(laid.table_deg)}", f"tilt {write_degrees(laid.tilt_deg)}"
    if laid.table is None:
        table = "table square"
    else:
        table += f" to your {laid.table}"
    blade = "blade upright" if laid.lean is None else f"{blade}, blade leaning to your {laid.lean}"
    return [
        f"board {lies}: {SURFACE[laid.down]} down, {SURFACE[laid.fence]} against the fence",
        f"head to your {laid.head}, waste at your {laid.waste}",
        f"{table}; {blade}",
    ]


MITER_GLOSS = (
    "Miter saw: you stand before it. Table to your left or right: its front swings there.",
    "Blade leaning to your left or right: its top leans there.",
)


def miter_beyond(answer: Answer, laid: MiterSetting) -> str:
    """Why the miter saw does not reach in this position; empty where it does."""
    limits = answer.limits
    if not reaches(laid.table_deg, limits.turn_deg):
        turn, limit = write_degrees(laid.table_deg), write_degrees(limits.turn_deg)
        return f"out of reach: a table at {turn} is past the {limit} this saw turns"
    if not reaches(laid.tilt_deg, limits.tilt_deg):
        tilt, limit = write_degrees(laid.tilt_deg), write_degrees(limits.tilt_deg)
        return f"out of reach: a tilt of {tilt} is past the {limit} this saw tilts"
    return ""


def long_point_words(answer: Answer, length: str) -> str:
    """Where the long point is and past what, with the length as it was written.

    Of two cheeks that come to a point, the long point is the line between the faces where they
    meet; of a hollow end, the cheek's inside corner is what it stands past.
    """
    point = senses.long_point(answer)
    if point is None:
        return ""
    far, near = (_place(answer, y) for y in (point.y_in, point.past_y_in))
    where = "on" if far.endswith(" face") and "line" not in far else "between the faces, on"
    return f"{where} the {far}, {length} past the {near}, measured along the board"


def _place(answer: Answer, y_in: float) -> str:
    thickness = answer.question.stock.thickness_in
    if abs(y_in) < senses.TOUCHES_IN:
        return "right face"
    if abs(y_in - thickness) < senses.TOUCHES_IN:
        return "left face"
    if abs(y_in - thickness / 2) < 1e-6:
        return "middle of the thickness"
    size = write_metric(y_in) if answer.metric else f"{write_fraction(y_in, 32)} in"
    return f"line {size} from the right face"


def _needs(size_in: float, metric: bool) -> str:
    """A length of saw blade that a cut takes, rounded up: a blade short of it does not do."""
    if size_in > LONGEST_BLADE_IN:
        return "more than any saw has"
    if metric:
        return f"{ceil(size_in * MM_PER_INCH - ROUNDING):d} mm"
    return f"{write_fraction(ceil(size_in * 16 - ROUNDING) / 16)} in"


def _has(size_in: float, metric: bool) -> str:
    """A length of saw blade that a saw has, rounded down."""
    if metric:
        return f"{floor(size_in * MM_PER_INCH + ROUNDING):d} mm"
    return f"{write_fraction(floor(size_in * 16 + ROUNDING) / 16)} in"
