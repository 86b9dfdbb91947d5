"""An answer in words that can be read aloud on a tailgate."""

from layout.answer import senses
from layout.answer.answer import Answer, Mark
from layout.answer.notch_marks import mark_on_face_in
from layout.answer.sense_words import (
    LOOK_AT_YOUR_SAW,
    MITER_GLOSS,
    SURFACE,
    TILT_GLOSS,
    body_words,
    end_words,
    hand_line,
    lean_words,
    leaning,
    long_point_words,
    margin_words,
    miter_beyond,
    miter_words,
    out_of_reach,
    remaining_words,
    roof_sides,
    start_words,
    up_words,
    waste_words,
    wide_words,
)
from layout.answer.senses import Sense
from layout.answer.soundness import doubts
from layout.answer.stop_words import depth_words, part_in
from layout.answer.wording import (
    METRIC_RUN,
    given_line,
    on_run,
    size_words,
    write_numbers,
)
from layout.quantity import write_degrees, write_length, write_metric
from layout.tools.setting import RipByHand
from layout.tools.square import search
from lessons.say.hanging import in_margin
from lessons.say.units import System
from lessons.say.verdict_words import (
    against_words,
    agreement_line,
    plane_words,
    saw_verdict,
    together_lines,
    verdict_line,
)

CAUTION = (
    "Check that the guard swings freely at that tilt. Clamp the stock, support the offcut.",
    "Unplug before changing a setting. Make a test cut on scrap.",
    "Wear eye and ear protection. Guard against falls.",
    "Geometry only: the approved drawings, local code and licensed practice govern.",
)
FIRST_CUT = "FIRST CUT"
NEXT_CUTS = ("SECOND CUT", "THIRD CUT", "FOURTH CUT", "FIFTH CUT", "SIXTH CUT")
"""The margin in which each line's name stands."""
NOTCH_IS_EXAMPLE = (
    "this depth of the notch is an example, and so is the mark's length; your roof's own are on"
    " the stick's sheet: squaresaw roof --stick NAME"
)
"""Of a cut that is asked for alone: how deep its notch goes is the roof's to say."""


def mark_lines(answer: Answer) -> list[str]:
    """The face mark and the edge mark, each with its numbers, its slant and its sliding bevel."""
    if answer.is_rip:
        return rip_lines(answer)
    edge = answer.edge
    lines = _one_mark("FACE MARK", answer.face, "its top")
    number = float(answer.cut.edge_number)
    said = (
        f"; side-cut number {_side_number(answer, number)}"
        if edge.numbers and number < 1000
        else ""
    )
    lines += _one_mark("EDGE MARK", edge, "its left end", said)
    if not answer.by_hand.good_enough and not answer.metric:
        lines += _finer(answer)
    return [*lines, *backed_lines(answer)]


def backed_lines(answer: Answer) -> list[str]:
    """The line on each bevel of a backed top edge; nothing where the cut never reaches it."""
    lines = []
    for mark in answer.backed_edges:
        draw = f"draw {write_degrees(mark.from_square_deg)} from square across"
        slant = f", its left end toward the {end_words(mark.lean)}"
        lines.append(
            in_margin(
                "  backed",
                f"if the top edge is backed: on the bevel at the {mark.side.value} face"
                f" {draw + slant if mark.lean else 'draw a line square across'}",
            )
        )
    return lines


def _side_number(answer: Answer, number: float) -> str:
    exact = number * METRIC_RUN if answer.metric else number
    return f"{on_run(number, metric=answer.metric)} (exact {exact:.{1 if answer.metric else 3}f})"


def _length(answer: Answer, length_in: float) -> str:
    return write_metric(length_in) if answer.metric else write_length(length_in)


def _one_mark(name: str, mark: Mark, far_end: str, said: str = "") -> list[str]:
    metric = mark.parts == METRIC_RUN
    if mark.numbers is None:
        return [in_margin(name, "square across")]
    return [
        in_margin(name, f"{write_degrees(mark.from_square_deg)} from square across{said}"),
        in_margin("  square", write_numbers(mark.numbers, metric=metric)),
        in_margin("  slants", f"{far_end} toward the {leaning(mark)}"),
        in_margin(
            "  off edge",
            f"sliding bevel {write_degrees(mark.bevel_deg)} off the edge (not a saw setting)",
        ),
    ]


def _finer(answer: Answer) -> list[str]:
    """Numbers that read nearer than the round ones, where those leave more than the tolerance."""
    pairs = (("face", answer.face.numbers), ("edge", answer.edge.numbers))
    return [
        in_margin("  finer", f"on the {where}: {write_numbers(search(pair.mark, pair.other))}")
        for where, pair in pairs
        if pair is not None
    ]


def rip_lines(answer: Answer) -> list[str]:
    """A bevel along the board: the two lines that are gauged.

    A crown's lines lie on the edge and on the face to which the bevel falls. A hollow begins at
    the arris of one face and falls to the middle, where no line can be gauged before the cut.
    """
    gauges = answer.hand_setting(as_read=False)
    assert isinstance(gauges, RipByHand)
    edge = "top" if gauges.top > 0 else "bottom"
    low, high = ("right", "left") if gauges.right > 0 else ("left", "right")
    metric = answer.metric
    across = size_words(gauges.across_in, metric=metric)
    fall = size_words(gauges.drop_in, metric=metric)
    fall += "" if metric else f" ({gauges.drop_in:.3f})"
    lines = [in_margin("RIP", f"a bevel along the {edge} edge; its lines run along the board")]
    if senses.is_hollow(answer):
        lines += [
            in_margin("  starts", f"at the arris (sharp edge) of the {edge} edge and {high} face"),
            in_margin("  ends", f"{across} from the {high} face, the hollow is {fall} deep"),
        ]
    else:
        whole = abs(gauges.across_in - answer.question.stock.thickness_in) < senses.TOUCHES_IN
        arris = f"the arris (sharp edge) of the {edge} edge and {high} face"
        lines += [
            in_margin("  on edge", arris if whole else f"a line {across} from the {low} face"),
            in_margin("  on face", f"a line on the {low} face, {fall} from the {edge} edge"),
        ]
    slope = write_degrees(float(answer.cut.face_tilt_deg))
    return [*lines, in_margin("  slope", f"{slope} from square to the face")]


def saw_lines(answer: Answer) -> list[str]:
    """The circular saw from each face, and from an edge where it reaches; what remains where
    it does not; then the miter saw."""
    tilt = write_degrees(float(answer.cut.face_tilt_deg))
    line = "along the face mark"
    if answer.is_rip:
        line = "along the arris" if senses.is_hollow(answer) else "along its gauged line"
    lines = [in_margin("SAW", f"tilt {tilt} ({TILT_GLOSS}), shoe on a wide face, {line}")]
    shoe = senses.faces(answer)
    beyond = out_of_reach(answer, shoe[0]) if senses.way(answer) != "face" else ""
    if beyond:
        lines.append(in_margin("  reach", beyond))
        lines += remaining_lines(answer)
    elif margin := margin_words(answer, shoe[0].needs_in):
        lines.append(in_margin("  reach", margin))
    if senses.way(answer) in ("face", "both faces"):
        lines += [said for one in shoe for said in pass_lines(answer, one)]
    return [*lines, *edge_lines(answer), *stop_lines(answer), *miter_lines(answer)]


def edge_lines(answer: Answer) -> list[str]:
    """One pass with the shoe on an edge, where the saw reaches through from there."""
    lines = []
    for one in [edge for edge in senses.edges(answer) if edge.within_reach][:1]:
        edge_tilt = write_degrees(one.tilt_deg)
        lines.append(in_margin("  or", f"shoe on the {SURFACE[one.side]}, tilt {edge_tilt}"))
        lines += pass_lines(answer, one)
    return lines


def remaining_lines(answer: Answer) -> list[str]:
    """What remains where one pass does not reach, a line a thing."""
    said = remaining_words(answer).split("; ")
    return [in_margin("  remains" if i == 0 else "", words) for i, words in enumerate(said)]


def pass_lines(answer: Answer, one: Sense) -> list[str]:
    """One pass of the saw: what the blade does below the shoe, how the shoe rides, the travel."""
    kind = answer.limits.kind
    said = [lean_words(one), wide_words(one, kind), body_words(one), start_words(one, kind)]
    first, *rest = (words for words in said if words)
    return [in_margin(f"  {SURFACE[one.side]}", first), *(in_margin("", words) for words in rest)]


def stop_lines(answer: Answer) -> list[str]:
    """Where the saw must stop: at the inside corner of a notch, and of a hollow."""
    lines = []
    if not senses.is_hollow(answer) or senses.is_cut_short(answer):
        return []
    if not senses.within_reach(answer):
        return []
    kind = answer.limits.kind
    if kind is not None and all(s.start_from[kind] == "inside" for s in senses.faces(answer)):
        return []  # the handsaw makes the whole of it
    if senses.is_notch(answer):
        lines.append("saw to the inside corner, no farther; finish with a handsaw")
    deep = part_in(answer)
    if deep is not None:
        lines.append(
            f"set the saw blade {depth_words(answer, deep)}, no deeper: it must end at the inside"
            " corner"
        )
    return [in_margin("  stop" if i == 0 else "", words) for i, words in enumerate(lines)]


def miter_lines(answer: Answer) -> list[str]:
    """The miter saw in full: flat where it reaches, else on edge; nothing for rips and notches."""
    laid = senses.miter(answer)
    if laid is None:
        return []
    flat, on_edge = laid
    reached = [one for one in (flat, on_edge) if senses.miter_reaches(answer, one)]
    if not reached:
        return [
            in_margin("MITER SAW", f"flat: {miter_beyond(answer, flat)}"),
            in_margin("", f"on edge: {miter_beyond(answer, on_edge)}"),
        ]
    lines = []
    if flat not in reached:
        lines.append(f"flat: {miter_beyond(answer, flat)}")
    lines += miter_words(answer, reached[0])
    return [in_margin("MITER SAW" if i == 0 else "", said) for i, said in enumerate(lines)]


def point_lines(answer: Answer) -> list[str]:
    """Where the long point is, past what and by how much, and how far the face mark runs."""
    lines = []
    point = senses.long_point(answer)
    if point is not None:
        said = long_point_words(answer, _length(answer, point.by_in))
        lines.append(in_margin("LONG POINT", said))
    if senses.is_notch(answer):
        lines.append(in_margin("  face", notch_mark_words(answer)))
        if answer.question.stands is None:
            lines.append(in_margin("  example", NOTCH_IS_EXAMPLE))
    elif answer.runs_down_face_in:
        run = _length(answer, answer.runs_down_face_in)
        lines.append(in_margin("  face", f"the mark runs {run} along the board over the depth"))
    return lines


def notch_mark_words(answer: Answer) -> str:
    """How long a notch's mark is on each face, from the open edge to the inside corner.

    A foot cut aslant, or heels far aslant in a small board, may leave a seat on one face alone.
    """
    right, left = (mark_on_face_in(answer, left=side) for side in (False, True))
    if abs(right - left) < senses.TOUCHES_IN:
        where = f"{_length(answer, right)} long on either face"
    elif min(right, left) < senses.TOUCHES_IN:
        side, none = ("right", "left") if right > left else ("left", "right")
        where = f"{_length(answer, max(right, left))} long on the {side} face, none on the {none}"
    else:
        where = f"{_length(answer, right)} long on the right face,"
        where += f" {_length(answer, left)} on the left"
    end = "foot cut" if senses.is_cut_short(answer) else "inside corner"
    return f"the mark is {where}, from the bottom edge to the {end}"


def read_aloud(answer: Answer) -> str:
    """The whole answer, a line a thing to do."""
    asked = answer.question
    system = System.METRIC if answer.metric else System.INCH
    lines = [
        f"{asked.entry.name}{place_words(answer)}: {asked.entry.says or asked.entry.name}",
        given_line(answer),
        hand_line(answer),
        *filter(None, [roof_sides(answer), up_words(answer)]),
        *waste_lines(answer),
        "",
        *first_plane_lines(answer),
        *mark_lines(answer),
        *saw_lines(answer),
        *point_lines(answer),
        *(
            line
            for name, other in zip(NEXT_CUTS, senses.others_left(answer), strict=False)
            for line in other_plane_lines(other, name)
        ),
        verdict_line("BY HANDSAW", answer.by_hand, system),
        saw_verdict(answer, system),
        *together_lines(answer, system),
        agreement_line(answer),
        *(f"NOTE: {doubt}" for doubt in doubts(answer)),
        "",
        *gloss_lines(answer),
        *CAUTION,
    ]
    return "\n".join(lines)


def place_words(answer: Answer) -> str:
    """Where on the board the cut is made: at an end, or along it; nothing for a notch."""
    if answer.is_rip:
        return ", along the board"
    return "" if senses.is_notch(answer) else f", at the {answer.question.end}"


def waste_lines(answer: Answer) -> list[str]:
    """On which side of the cut the waste lies."""
    return [waste_words(answer)]


def gloss_lines(answer: Answer) -> list[str]:
    """What the words for the saws mean, where they were used."""
    lines: list[str] = []
    planes = (one for one in (answer, *answer.others) if senses.within_reach(one))
    if any(not one.square for plane in planes for one in senses.faces(plane)):
        lines += LOOK_AT_YOUR_SAW
    laid = senses.miter(answer)
    if laid is not None and any(senses.miter_reaches(answer, one) for one in laid):
        lines += MITER_GLOSS
    return lines


def first_plane_lines(answer: Answer) -> list[str]:
    """What the first of several planes lies against; nothing where there is only one."""
    several = senses.others_left(answer)
    return [in_margin(FIRST_CUT, against_words(answer))] if several else []


def other_plane_lines(answer: Answer, name: str = "SECOND CUT") -> list[str]:
    """The joint's other plane: what it lies against, its marks, and the saw on it."""
    lines = [in_margin(name, plane_words(answer))]
    if answer.is_rip:
        lines += rip_lines(answer)[1:-1]
    else:
        slants = [
            f"{name} toward the {leaning(mark)}"
            for name, mark in (
                ("face mark's top", answer.face),
                ("edge mark's left end", answer.edge),
            )
            if mark.numbers is not None
        ]
        lines += [in_margin("", "; ".join(slants))] if slants else []
        lines += backed_lines(answer)
    if senses.way(answer) in ("face", "both faces"):
        lines += [said for one in senses.faces(answer) for said in pass_lines(answer, one)]
        lines += stop_lines(answer)
    else:
        lines.append(in_margin("  reach", out_of_reach(answer, senses.faces(answer)[0])))
        lines += [*remaining_lines(answer), *edge_lines(answer)]
    return lines
