"""An answer in words that can be read aloud on a tailgate."""

from layout.answer.answer import Answer, Mark, Verdict
from layout.answer.wording import (
    beyond_words,
    blade_words,
    given_line,
    hand_line,
    leaning,
    short_answer,
    write_numbers,
)
from layout.cuts import Hand
from layout.quantity import MM_PER_INCH, write_degrees, write_fraction, write_length
from layout.tools.fit import SOUND_IN
from layout.tools.saw import reaches
from layout.tools.setting import RipByHand
from layout.tools.square import search
from lessons.say.units import System, write_gap_limit

CAUTION = (
    "Guard free, stock held, offcut supported; eyes and ears protected; unplug before setting;"
    " dry run on scrap; mind falls.",
    "Geometry only: the approved drawings, local code and licensed practice govern.",
)


def write_gap(gap_in: float, system: System = System.INCH) -> str:
    """A gap in sixty-fourths, with the decimals beside it; in hundredths of a millimetre."""
    if gap_in < SOUND_IN:
        return "no gap"
    if system is System.METRIC:
        return f"{gap_in * MM_PER_INCH:.2f} mm"
    if gap_in < 1 / 128:
        return f"under 1/128 in ({gap_in:.4f})"
    return f"{write_fraction(gap_in, 64) if gap_in > 1 / 64 else '1/64'} in ({gap_in:.4f})"


def mark_lines(answer: Answer) -> list[str]:
    """The face mark and the edge mark, each with its numbers, its lean and its bevel."""
    if answer.is_rip:
        return rip_lines(answer)
    edge = answer.edge
    lines = _one_mark("FACE MARK", answer.face, "its top")
    number = float(answer.cut.edge_number)
    said = f"; number on 12: {write_length(number)}" if edge.numbers and number < 1000 else ""
    lines += _one_mark("EDGE MARK", edge, "its left end", said)
    if not answer.by_hand.good_enough:
        lines += _finer(answer)
    for side, angle in answer.backed_edges:
        lines.append(
            f"  backed     on the {side.value} bevel the mark runs {write_degrees(angle)}"
            " from square across: not the square edge's"
        )
    return lines


def _one_mark(name: str, mark: Mark, far_end: str, said: str = "") -> list[str]:
    if mark.numbers is None:
        return [f"{name}   square across"]
    return [
        f"{name}   {write_degrees(mark.from_square_deg)} from square across{said}",
        f"  square     {write_numbers(mark.numbers)}",
        f"  leans      {far_end} toward the {leaning(mark)}",
        f"  bevel      {write_degrees(mark.bevel_deg)} from the board's edge",
    ]


def _finer(answer: Answer) -> list[str]:
    """Numbers that read nearer than the round ones, where those leave more than the tolerance."""
    pairs = (("face", answer.face.numbers), ("edge", answer.edge.numbers))
    return [
        f"  finer      on the {where}: {write_numbers(search(pair.mark, pair.other))}"
        for where, pair in pairs
        if pair is not None
    ]


def rip_lines(answer: Answer) -> list[str]:
    """A bevel along the board: the two lines that are gauged."""
    gauges = answer.hand_setting(as_read=False)
    assert isinstance(gauges, RipByHand)
    edge = "top" if gauges.top > 0 else "bottom"
    low = "right" if gauges.right > 0 else "left"
    return [
        f"RIP         along the {edge} edge; the mark runs with the board on face and edge",
        f"  gauge      {write_fraction(gauges.across_in, 32)} in across,"
        f" falling {write_fraction(gauges.drop_in, 32)} in ({gauges.drop_in:.3f})"
        f" toward the {low} face",
        f"  bevel      {write_degrees(float(answer.cut.face_tilt_deg))} from square to the face",
    ]


def saw_lines(answer: Answer) -> list[str]:
    """The saw's tilt from either surface, which way it leans, and the mitre saw both ways."""
    tilt, edge_tilt = float(answer.cut.face_tilt_deg), float(answer.cut.edge_tilt_deg)
    line = "along the gauged line" if answer.is_rip else "along the face mark"
    lines = [f"SAW         tilt {write_degrees(tilt)}, shoe on a wide face, {line}"]
    if not answer.is_rip:
        lines += [f"  {side.value + ' face':10} {blade_words(answer, side)}" for side in Hand]
    if not reaches(tilt, answer.limits.tilt_deg):
        lines.append(f"  beyond     {beyond_words(answer)}")
    lines.append(
        f"  edge       shoe on the edge along the edge mark: tilt {_tilt(edge_tilt, answer)}"
    )
    if not answer.is_rip:
        flat, on_edge = answer.face.from_square_deg, answer.edge.from_square_deg
        lines.append(f"MITRE SAW   flat: table {_turn(flat, answer)}, tilt {_tilt(tilt, answer)}")
        lines.append(
            f"            on edge: table {_turn(on_edge, answer)}, tilt {_tilt(edge_tilt, answer)}"
        )
    return lines


def _tilt(angle_deg: float, answer: Answer) -> str:
    past = "" if reaches(angle_deg, answer.limits.tilt_deg) else " (past the saw)"
    return write_degrees(angle_deg) + past


def _turn(angle_deg: float, answer: Answer) -> str:
    past = "" if reaches(angle_deg, answer.limits.turn_deg) else " (past the table)"
    return write_degrees(angle_deg) + past


def point_lines(answer: Answer) -> list[str]:
    """Which face is longer and by how much, and how far the face mark runs."""
    lines = []
    if answer.hand is not None and not answer.is_rip:
        longer = answer.hand.other.value
        lines.append(
            f"LONG POINT  on the {longer} face, past the {answer.hand.value} face by"
            f" {write_length(answer.long_minus_short_in)}, measured along the board"
        )
    if answer.runs_down_face_in:
        lines.append(
            f"  face       the mark runs {write_length(answer.runs_down_face_in)} over the depth"
        )
    return lines


def verdict_line(name: str, verdict: Verdict, system: System = System.INCH) -> str:
    """One method's verdict: sound with exact settings, good enough as read."""
    wide = float(verdict.exact.widest_in)
    sound = "sound" if verdict.sound else f"NOT SOUND, {write_gap(wide, system)}"
    read = float(verdict.read.widest_in)
    within = "within" if verdict.good_enough else "BEYOND"
    return (
        f"{name} {sound}; as read on the tool {write_gap(read, system)},"
        f" {within} {write_gap_limit(verdict.tolerance_in, system)}"
    )


def read_aloud(answer: Answer) -> str:
    """The whole answer, a line a thing to do."""
    asked = answer.question
    place = "along the board" if answer.is_rip else f"at the {asked.end}"
    lines = [
        f"{asked.entry.name}, {place}: {asked.entry.says or asked.entry.name}",
        given_line(answer),
        hand_line(answer),
        "",
        *mark_lines(answer),
        *saw_lines(answer),
        *point_lines(answer),
        *(f"AND THEN    {plane_words(other)}" for other in answer.others),
        verdict_line("BY HAND    ", answer.by_hand),
        verdict_line("BY SAW     ", answer.by_saw),
        agreement_line(answer),
        "",
        *CAUTION,
    ]
    return "\n".join(lines)


def plane_words(answer: Answer) -> str:
    """The joint's other plane in one line, with what it lies against."""
    plane = answer.question.joint.planes[answer.which]
    side = f", the {answer.hand.value} cheek" if answer.hand else ""
    return f"against the {plane.mate_name}{side}: {short_answer(answer)}"


def agreement_line(answer: Answer) -> str:
    """The verdict on both methods together."""
    if not (answer.by_hand.sound and answer.by_saw.sound):
        return "DISAGREE: the methods do not cut the joint's plane"
    if answer.agree:
        return "AGREE: both cut the same plane"
    return (
        "AGREE in the plane, but the settings as read leave more than the tolerance:"
        " set finer, or ease --tolerance"
    )
