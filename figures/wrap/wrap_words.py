"""What a wrap template says: its name, and by each mark the numbers that lay it, in words."""

from collections.abc import Callable

from layout.answer.answer import SAME_ANGLE_DEG, Answer, Mark
from layout.answer.sense_words import (
    SURFACE,
    beyond_words,
    blade_words,
    hand_line,
    lean_words,
    leaning,
    start_words,
    wide_words,
)
from layout.answer.senses import Sense, edges, faces, sense, way
from layout.answer.wording import given_line, short_answer, write_numbers
from layout.cuts import Hand
from layout.quantity import write_degrees, write_fraction, write_inches, write_metric
from layout.tools.setting import RipByHand

CROWN = "The crown goes up, toward this edge."
SAW_SIDE = "Saw on the hatched side of the heavy line."
ROUND_CORNERS = "Where a line goes round a corner, its letters meet."


def title(answer: Answer) -> str:
    """The cut, the hand and the end, as a sheet is called."""
    asked = answer.question
    hand = [f"{asked.hand.value} hand"] if asked.entry.two_hands else []
    return ", ".join([asked.entry.name, *hand, "along the board" if answer.is_rip else asked.end])


def distance(value_in: float, *, metric: bool = False) -> str:
    """A distance in inches, and in millimeters beside them; in millimeters alone for `metric`."""
    if metric:
        return write_metric(value_in)
    return f"{write_inches(value_in)} ({write_metric(value_in)})"


def made_for(answer: Answer) -> str:
    """The board a template is made for, and what to do with another one."""
    stock = answer.question.stock
    size = f"{write_fraction(stock.thickness_in, 64)} x {write_fraction(stock.depth_in, 64)} in"
    return (
        f"Made for {size}. If your board differs by more than 1/16 in, enter its size and print"
        " again."
    )


def what_it_is(answer: Answer, *, study: bool = False) -> str:
    """The hand, and the stock that a template is good for."""
    words = hand_line(answer)
    return words if study else f"{words} {made_for(answer)}"


def face_words(answers: list[Answer], side: Hand, *, short: bool = False) -> str:
    """The marks on a wide face and the saw with its shoe on that face, a plane at a time.

    `short` leaves out how the mark is laid, where the other face has said it.
    """
    if not answers:
        return "No line crosses this face."

    def words(one: Answer) -> str:
        if short:
            return f"Mark as on the other face. {_shoe(one, side)}"
        return f"{_face_line(one)} {_shoe(one, side)}"

    return _each(answers, words)


def edge_words(answers: list[Answer]) -> str:
    """The marks on an edge, a plane at a time."""

    def words(one: Answer) -> str:
        if one.edge.numbers is None:
            return _line_words(one.edge, "Edge", "")
        number = float(one.cut.edge_number)
        said = f" Number on 12: {number:.3f}." if number < 1000 else ""
        if both:
            line = _line_words(one.edge, "Edge", f"from the middle back toward the {both}", "marks")
        else:
            line = _line_words(one.edge, "Edge", f"left end toward the {leaning(one.edge)}")
        return line + said

    both = ""
    if len(answers) == 2 and all(one.edge.numbers is not None for one in answers):
        one, other = answers
        alike = abs(one.edge.from_square_deg - other.edge.from_square_deg) < SAME_ANGLE_DEG
        if alike and one.edge.lean == -other.edge.lean:
            # A point's arrises lie behind its middle, a hollow's before it.
            back = bool(one.cut.at_head) == one.question.joint.point
            both = "foot" if back else "head"
            return words(one)
    return _each(answers, words)


def bevel_words(answers: list[Answer], side: Hand) -> str:
    """The mark on one bevel of a backed top edge, which is not the square edge's."""

    def words(one: Answer) -> str:
        angle = dict(one.backed_edges)[side]
        return (
            f"On this bevel the mark runs {write_degrees(angle)} from square across; on a square"
            f" edge it would be {write_degrees(one.edge.from_square_deg)}."
        )

    return _each(answers, words)


def stands_words(answer: Answer, start_in: float | None) -> str:
    """For which sticks a template is, and where along the board its start line stands.

    `start_in` is the start line on the board's own x [in], None for a rip, which has none.
    Empty for a cut of the catalogue, which stands on no stick.
    """
    stands = answer.question.stands
    if stands is None:
        return ""
    names = [name for use in stands.uses for name in use.sticks]
    words = f"For {'sticks' if len(names) > 1 else 'stick'} {', '.join(names)}."
    if start_in is None:
        return words
    told = []
    for datum in dict.fromkeys(use.datum for use in stands.uses):
        far: dict[str, list[str]] = {}
        for use in stands.uses:
            if use.datum == datum:
                off = start_in + use.offset_in
                way = "head" if off > 0 else "foot"
                at = f"{distance(abs(off))} toward the {way} from it"
                far.setdefault(at if abs(off) > 1e-6 else "at it", []).append(use.name)
        each = "; ".join(
            f"{', '.join(those)}: {at}" if len(stands.uses) > 1 else at for at, those in far.items()
        )
        told.append(f"Hook the tape at {datum}. The start line stands {each}.")
    return " ".join([words, *told])


def backing_words(answer: Answer) -> str:
    """The lines to which the top edge is ripped after the end is cut; empty where it is not."""
    stands = answer.question.stands
    if stands is None or not stands.rips:
        return ""
    stock = answer.question.stock
    falls = []
    for rip in stands.rips:
        n, level = rip.normal, rip.level_in
        y = stock.thickness_in if n[1] > 0 else 0.0
        down = stock.depth_in - (level - float(n[1]) * y) / float(n[2])
        falls.append(f"{gauge(down)} below the top arris of the {'left' if y else 'right'} face")
    return f"Then back the top edge: gauge lines {' and '.join(falls)}."


def notch_words(answer: Answer) -> str:
    """How deep a notch is drawn, measured square to the edge, and who says how deep it is cut."""
    deep = max(float(cut.span[1, 1]) for cut in answer.cuts)
    if answer.question.stands is not None:
        return (
            f"The notch is {write_inches(deep)} deep at its deepest, square to the edge, as this"
            " job's seat and height above the plate ask for: compare with the approved drawings."
        )
    return (
        f"The notch is drawn {write_inches(deep)} deep, square to the edge, to show its lines:"
        " your height above the plate and the approved drawings decide how deep it is cut."
    )


def gauge_words(answers: list[Answer], side: Hand, down_in: float, arris: str) -> str:
    """The line that a rip leaves on a face, so far from an arris [in]."""
    saw = " ".join(
        f"Saw along it, shoe on this face: tilt {_tilt(one)}; {blade_words(one, side)}."
        for one in answers
    )
    if down_in < 1e-6:
        return f"The line is the {arris} itself. {saw}"
    return f"Gauge line {gauge(down_in)} from the {arris}. {saw}"


def gauge(value_in: float) -> str:
    """A gauge setting to the nearest 1/32 in, decimals beside it."""
    return f"{write_fraction(value_in, 32)} in ({value_in:.3f})"


def rip_edge_words(answers: list[Answer], hollow_in: float | None) -> str:
    """What becomes of the edge that is ripped; `hollow_in` is how deep its hollow gets [in]."""
    if hollow_in is not None:
        return f"The whole edge is waste: hollow it {gauge(hollow_in)} deep under the thin line."
    if len(answers) > 1:
        return "Both bevels meet in the line that stays; all else of this edge is waste."
    setting = answers[0].hand_setting(as_read=False)
    assert isinstance(setting, RipByHand)
    low = "right" if setting.right > 0 else "left"
    return (
        f"The whole edge is waste: {gauge(setting.across_in)} across, falling"
        f" {gauge(setting.drop_in)} toward the {low} face."
    )


def steps(kind: str, start: str, arris: str) -> str:
    """How the paper goes on the board."""
    if kind == "rip":
        return (
            f"Cut the paper out. Hang it over the end of the board, align the {arris}, fold, tape."
            " Prick the heavy lines, move the paper along and prick again; join with a"
            f" straightedge. {SAW_SIDE}"
        )
    return (
        f"Square a line round the board, {start}. Cut the paper out, and the notches at its folds."
        f" Lay its start line on that line and its edge on the {arris}; fold at the arrises,"
        f" tape. {ROUND_CORNERS} {SAW_SIDE}"
    )


def ends_steps(arris: str, back: str, point: str) -> str:
    """How the first of two papers goes on the board, the one over the top edge."""
    return (
        f"Square a line round the board, {back} back from the {point}. Cut both papers out, and"
        f" the notches at their folds. Lay start line 1 on that line and the fold on the {arris};"
        f" fold, tape. {ROUND_CORNERS}"
    )


def join_steps(apart_in: float, toward: str, arris: str, *, metric: bool = False) -> str:
    """How the second of two papers goes on, and how the marks on both are joined."""
    far = (
        "on start line 1"
        if abs(apart_in) < 1e-9
        else f"{distance(abs(apart_in), metric=metric)} from start line 1 toward the {toward}"
    )
    return (
        f"Start line 2 stands {far}: square it round the board. Lay this paper's start line on it"
        f" and the fold on the {arris}; fold, tape. On each face join the two marks with a"
        f" straightedge. {SAW_SIDE}"
    )


END_FLAP = "Fold the flap down over the end of the board: its heavy line is the section."


def carry_on_words(arris: str, from_start_in: float, toward: str) -> str:
    """Where a line that runs off the paper ends on the board, measured from the start line."""
    return (
        f"The paper stops short: the line ends on the {arris}, {distance(abs(from_start_in))}"
        f" from the start line toward the {toward}."
    )


def description(answer: Answer, *, full: bool = True) -> str:
    """The sheet in words, for those who cannot see it: every number that it bears."""
    planes = [answer, *answer.others]
    rip = answer.hand_setting(as_read=False) if answer.is_rip else None
    size = "Full-size template" if full else "Study view of the template"
    parts = [
        f"{size} to wrap round a board: {title(answer)}.",
        _sentence(given_line(answer)),
        what_it_is(answer),
    ]
    for one in planes:
        mate = one.plane.mate_words
        parts.append(f"Against {mate}: {short_answer(one)}.")
        if rip is None:
            parts.append(_face_line(one))
            parts.append(edge_words([one]))
            parts.append(f"Saw tilt {_tilt(one)}, shoe on a wide face.")
    if isinstance(rip, RipByHand):
        parts.append(
            f"The bevel runs {gauge(rip.across_in)} across and falls {gauge(rip.drop_in)}."
        )
    return " ".join(parts)


def sawing_words(answer: Answer) -> str:
    """How the shoe rides and where the saw starts, for each plane that it reaches.

    The steadier face where one pass does it; both faces where it takes half from each; the edge
    where only that is in reach.
    """

    def words(one: Answer) -> str:
        match way(one):
            case "face":
                return _ride(one, faces(one)[0])
            case "both faces":
                return " ".join(_ride(one, shoe) for shoe in faces(one))
            case "edge":
                return _ride(one, next(shoe for shoe in edges(one) if shoe.within_reach))
            case _:
                return ""

    return _each([answer, *answer.others], words)


def _ride(one: Answer, shoe: Sense) -> str:
    wide = wide_words(shoe, one.limits.kind)
    rides = f"Shoe on the {SURFACE[shoe.side]}" + (f", {wide}" if wide else "")
    lean = f" {_sentence(lean_words(shoe))}" if not shoe.on_face else ""
    return f"{rides}.{lean} {_sentence(start_words(shoe, one.limits.kind))}"


def _each(answers: list[Answer], words: Callable[[Answer], str]) -> str:
    if len(answers) == 1:
        return words(answers[0])
    said = [words(one) for one in answers]
    if len(set(said)) == 1:
        return said[0]
    names = [one.plane.mate_words for one in answers]
    return " ".join(f"Against {name}: {text}" for name, text in zip(names, said, strict=True))


def _face_line(answer: Answer) -> str:
    return _line_words(answer.face, "Face", f"top toward the {leaning(answer.face)}")


def _line_words(mark: Mark, name: str, lean: str, marks: str = "mark") -> str:
    if mark.numbers is None:
        return f"{name} mark square across."
    return (
        f"{name} {marks} {write_degrees(mark.from_square_deg)} from square across, {lean}."
        f" Square: {write_numbers(mark.numbers)}."
    )


def _shoe(answer: Answer, side: Hand) -> str:
    one = sense(answer, "left" if side is Hand.LEFT else "right")
    words = f"Saw, shoe on this face: tilt {_tilt(answer)}; {lean_words(one)}."
    if beyond := beyond_words(answer):
        return f"{words} {_sentence(beyond)}"
    return words


def _tilt(answer: Answer) -> str:
    return write_degrees(float(answer.cut.face_tilt_deg))


def _sentence(text: str) -> str:
    return f"{text[0].upper()}{text[1:]}."
