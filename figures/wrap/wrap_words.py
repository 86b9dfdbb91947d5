"""What a wrap template says: its name, and by each mark the numbers that lay it, in words."""

from collections.abc import Callable

from figures.wrap.stick_title import title_of_stick
from layout.answer.answer import SAME_ANGLE_DEG, Answer, BevelMark, Mark
from layout.answer.sense_words import (
    beyond_words,
    blade_words,
    end_words,
    hand_line,
    lean_words,
    leaning,
    out_of_reach,
    up_words,
)
from layout.answer.senses import faces, sense, way
from layout.answer.stop_words import depth_words, part_in
from layout.answer.wording import METRIC_RUN, given_line, sentence, short_answer, write_numbers
from layout.cuts import Hand
from layout.quantity import (
    write_at_least,
    write_degrees,
    write_fraction,
    write_inches,
    write_metric,
)
from layout.tools.setting import RipByHand

CROWN = "The crown goes up, toward this edge."
AS_ON_TOP = "Marked as on the top edge."


def title(answer: Answer) -> str:
    """The cut, the hand and the end, as a sheet is called."""
    asked = answer.question
    if asked.stands is not None:
        return title_of_stick(answer)
    hand = [f"{asked.hand.value} hand"] if asked.two_hands else []
    return ", ".join([asked.entry.name, *hand, "along the board" if answer.is_rip else asked.end])


def distance(value_in: float, *, metric: bool = False) -> str:
    """A distance in inches, and in millimeters beside them; in millimeters alone for `metric`."""
    if metric:
        return write_metric(value_in)
    return f"{write_inches(value_in)} ({write_metric(value_in)})"


def made_for(answer: Answer, *, few: bool = False, shared: bool = False) -> str:
    """The board a template is made for, and what to do with another one."""
    stock = answer.question.stock
    if answer.metric:
        size = f"{write_metric(stock.thickness_in)} x {write_metric(stock.depth_in)}"
        off = "1.5 mm"
    else:
        size = f"{write_fraction(stock.thickness_in, 64)} x {write_fraction(stock.depth_in, 64)} in"
        off = "1/16 in"
    if shared:
        return f"Made for {size}."
    if few:
        return f"Made for {size}: if yours differs by over {off}, print for its size."
    return (
        f"Made for {size}. If your board differs by more than {off}, enter its size and print"
        " again."
    )


def what_it_is(
    answer: Answer, *, study: bool = False, few: bool = False, shared: bool = False
) -> str:
    """The hand, and the stock that a template is good for."""
    words = hand_line(answer)
    hands = {one.hand for one in (answer, *answer.others) if one.hand is not None}
    if answer.question.stands is not None and len(hands) > 1:
        words = "No hand: both cheeks are on this paper."
    words = " ".join(filter(None, (words, up_words(answer))))
    return words if study else f"{words} {made_for(answer, few=few, shared=shared)}"


def face_words(
    answers: list[Answer], side: Hand, *, told: list[Answer] | None = None, few: bool = False
) -> str:
    """The marks on a wide face and the saw with its shoe on that face, a plane at a time.

    `told` are the planes whose marks the words on the other face have laid: what they said is
    not said again, nor, in `few` words, how the saw is set where it is set alike.
    """
    if not answers:
        return "No line crosses this face."
    before = told or []

    def as_told(one: Answer) -> bool:
        if any(each.plane_index == one.plane_index for each in before):
            return True
        alone = len(answers) == 1 and len(before) == 1
        return alone and _face_line(before[0]) == _face_line(one)

    def words(one: Answer) -> str:
        if as_told(one) and few and _shoe(one, side) == _shoe(one, side.other):
            return "Mark and saw as on the other face."
        if as_told(one):
            return f"Mark as on the other face. {_shoe(one, side)}"
        return f"{_face_line(one)} {_shoe(one, side)}"

    return each_plane(answers, words)


def edge_words(answers: list[Answer], *, few: bool = False) -> str:
    """The marks on an edge, a plane at a time; in `few` words a mark's mirror is only named."""
    laid: list[Answer] = []

    def words(one: Answer) -> str:
        angle = one.edge.from_square_deg
        for other in laid if few else ():
            if abs(other.edge.from_square_deg - angle) < SAME_ANGLE_DEG:
                return f"The same angle, left end toward the {leaning(one.edge)}."
        if one.edge.numbers is not None and not both:
            laid.append(one)
        if one.edge.numbers is None:
            return _line_words(one.edge, "Edge", "")
        said = _side_number(one)
        if both:
            line = _line_words(one.edge, "Edge", f"from the middle back toward the {both}", "marks")
        else:
            line = _line_words(one.edge, "Edge", f"left end toward the {leaning(one.edge)}")
        return line + said

    both = ""
    if len(answers) == 2:
        one, other = answers
        alike = abs(one.edge.from_square_deg - other.edge.from_square_deg) < SAME_ANGLE_DEG
        if alike and one.edge.lean and one.edge.lean == -other.edge.lean:
            # A point's arrises lie behind its middle, a hollow's before it.
            back = bool(one.cut.at_head) == one.question.joint.point
            both = "foot" if back else "head"
            return words(one)
    return each_plane(answers, words)


def bevel_words(answers: list[Answer], side: Hand) -> str:
    """The mark on one bevel of a backed top edge, which is not the square edge's."""

    def words(one: Answer) -> str:
        mark = next(mark for mark in one.backed_edges if mark.side is side)
        return (
            f"On this bevel the mark runs {slanted(mark)}; on a square edge it would run"
            f" {slanted(one.edge)}."
        )

    def slanted(mark: Mark | BevelMark) -> str:
        # The two may slant toward different ends.
        if not mark.lean:
            return "square across"
        angle = write_degrees(mark.from_square_deg)
        return f"{angle} from square across, left end toward the {end_words(mark.lean)}"

    return each_plane(answers, words)


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
    if stands.starts_in is not None:
        at = f"{distance(stands.starts_in, metric=answer.metric)} toward the head from it"
        hook = f"Hold the tape at {stands.uses[0].datum}"
        return f"{words} {hook}. The bevel starts {at} and runs on to the head."
    if start_in is None:
        return words
    told = []
    for datum in dict.fromkeys(use.datum for use in stands.uses):
        far: dict[str, list[str]] = {}
        for use in stands.uses:
            if use.datum == datum:
                off = start_in + use.offset_in
                way = "head" if off > 0 else "foot"
                at = f"{distance(abs(off), metric=answer.metric)} toward the {way} from it"
                far.setdefault(at if abs(off) > 1e-6 else "at it", []).append(use.name)
        each = "; ".join(
            f"{', '.join(those)}: {at}" if len(far) > 1 else at for at, those in far.items()
        )
        before = max(use.foot_in for use in stands.uses if use.datum == datum)
        first = f"First draw {datum}"
        if before > 0:
            least = write_at_least(before, metric=answer.metric)
            first += f", at least {least} from the foot end of the board"
        told.append(f"{first}. Hold the tape at it. The start line stands {each}.")
    return " ".join([words, *told])


def backing_words(answer: Answer) -> str:
    """The order of work on a stick whose top edge is backed; empty where it is not.

    Papers fold on the top arrises, which the backing takes away: marks come first.
    """
    stands = answer.question.stands
    if stands is None or not stands.rips:
        return ""
    falls = {
        side: f"{gauge(down, metric=answer.metric)} below the top arris"
        for side, down in backing_falls(answer)
    }
    if len(falls) == 2 and len(set(falls.values())) == 1:
        lines = f"{falls[Hand.LEFT]} on either face"
    else:
        lines = " and ".join(f"{fall} of the {side.value} face" for side, fall in falls.items())
    return (
        "Order: 1, plumb line; 2, start lines; 3, all papers and marks, on the unbacked board; 4,"
        f" gauge lines {lines}; 5, saw the ends, back the top edge last."
    )


def backing_falls(answer: Answer) -> list[tuple[Hand, float]]:
    """The faces of a stick whose top edge is backed, and how far below their top arrises [in]."""
    stands, stock = answer.question.stands, answer.question.stock
    falls = []
    for rip in stands.rips if stands is not None else ():
        _, across, up = (float(part) for part in rip.normal)
        side = Hand.LEFT if across > 0 else Hand.RIGHT
        y = stock.thickness_in if side is Hand.LEFT else 0.0
        falls.append((side, stock.depth_in - (rip.level_in - across * y) / up))
    return falls


def notch_words(answer: Answer, *, few: bool = False) -> str:
    """How deep a notch is drawn, measured square to the edge, and who says how deep it is cut."""
    deep_in = max(float(cut.span[1, 1]) for cut in answer.cuts)
    deep = write_metric(deep_in) if answer.metric else write_inches(deep_in)
    if answer.question.stands is not None:
        return (
            f"The notch is {deep} deep at its deepest, square to the edge, as this"
            " job's seat and height above the plate ask for: compare with the approved drawings."
        )
    if few:
        return (
            f"Drawn {deep} deep, square to the edge, to show its lines: the approved drawings"
            " decide how deep it is cut."
        )
    return (
        f"The notch is drawn {deep} deep, square to the edge, to show its lines:"
        " your height above the plate and the approved drawings decide how deep it is cut."
    )


def gauge_words(answers: list[Answer], side: Hand, down_in: float, arris: str) -> str:
    """The line that a rip leaves on a face, so far from an arris [in]."""

    def sawn(one: Answer) -> str:
        words = f"{_told('Saw along it', one)} {tilt_of(one)}; {blade_words(one, side)}."
        beyond = out_of_reach(one, faces(one)[0]) if way(one) != "face" else ""
        return f"{words} {sentence(beyond)}" if beyond else words

    saw = " ".join(sawn(one) for one in answers)
    if down_in < 1e-6:
        return f"The line is the {arris} itself. {saw}"
    return f"Gauge line {gauge(down_in, metric=answers[0].metric)} from the {arris}. {saw}"


def gauge(value_in: float, *, metric: bool = False) -> str:
    """A gauge setting to the nearest 1/32 in, decimals beside it; to 0.1 mm for `metric`."""
    if metric:
        return f"{value_in * 25.4:.1f} mm"
    return f"{write_fraction(value_in, 32)} in ({value_in:.3f})"


def rip_edge_words(answers: list[Answer], hollow_in: float | None) -> str:
    """What becomes of the edge that is ripped; `hollow_in` is how deep its hollow gets [in]."""
    metric = answers[0].metric
    if hollow_in is not None:
        deep = gauge(hollow_in, metric=metric)
        return f"The whole edge is waste: hollow it {deep} deep under the thin line."
    if len(answers) > 1:
        return "Both bevels meet in the line that stays; all else of this edge is waste."
    setting = answers[0].hand_setting(as_read=False)
    assert isinstance(setting, RipByHand)
    low = "right" if setting.right > 0 else "left"
    return (
        f"The whole edge is waste: {gauge(setting.across_in, metric=metric)} across, falling"
        f" {gauge(setting.drop_in, metric=metric)} toward the {low} face."
    )


END_FLAP = "Fold the flap down over the end of the board: its heavy line is the section."


def carry_on_words(arris: str, from_start_in: float, toward: str, *, metric: bool = False) -> str:
    """Where a line that runs off the paper ends on the board, measured from the start line."""
    far = distance(abs(from_start_in), metric=metric)
    return (
        f"The paper stops short: the line ends on the {arris}, {far} from the start line toward"
        f" the {toward}."
    )


def description(answer: Answer, *, full: bool = True) -> str:
    """The sheet in words, for those who cannot see it: every number that it bears."""
    planes = [answer, *answer.others]
    rip = answer.hand_setting(as_read=False) if answer.is_rip else None
    size = "Full-size template" if full else "Study view of the template"
    parts = [
        f"{size} to wrap round a board: {title(answer)}.",
        sentence(given_line(answer)),
        what_it_is(answer),
    ]
    for one in planes:
        mate = one.plane.mate_words
        parts.append(f"Against {mate}: {short_answer(one)}.")
        if rip is None:
            parts.append(_face_line(one))
            parts.append(edge_words([one]))
            parts.append(f"Saw tilt {tilt_of(one)}, shoe on a wide face.")
    if isinstance(rip, RipByHand):
        parts.append(
            f"The bevel runs {gauge(rip.across_in, metric=answer.metric)} across and falls"
            f" {gauge(rip.drop_in, metric=answer.metric)}."
        )
    return " ".join(parts)


def each_plane(answers: list[Answer], words: Callable[[Answer], str]) -> str:
    """What is said of each plane, with its mate's name before it where the planes differ."""
    if len(answers) == 1:
        return words(answers[0])
    said = [words(one) for one in answers]
    if len(set(said)) == 1:
        return said[0]
    names = [one.plane.mate_words for one in answers]
    return " ".join(f"Against {name}: {text}" for name, text in zip(names, said, strict=True))


def _face_line(answer: Answer) -> str:
    return _line_words(answer.face, "Face", f"top toward the {leaning(answer.face)}")


def _side_number(answer: Answer) -> str:
    """The side-cut number with its decimals: on the run of 12, or on a metric square's 300."""
    number = float(answer.cut.edge_number)
    if number >= 1000:
        return ""
    if answer.metric:
        return f" Side-cut number {number * METRIC_RUN:.1f} on {12 * METRIC_RUN}."
    return f" Side-cut number {number:.3f}."


def _line_words(mark: Mark, name: str, lean: str, marks: str = "mark") -> str:
    if mark.numbers is None:
        return f"{name} mark square across."
    return (
        f"{name} {marks} {write_degrees(mark.from_square_deg)} from square across, {lean}."
        f" Square: {write_numbers(mark.numbers, metric=mark.parts == METRIC_RUN)}."
    )


def _shoe(answer: Answer, side: Hand) -> str:
    one = sense(answer, "left" if side is Hand.LEFT else "right")
    words = f"{_told('Saw', answer)} {tilt_of(answer)}; {lean_words(one)}."
    if beyond := beyond_words(answer):
        return f"{words} {sentence(beyond)}"
    deep = part_in(answer)
    if deep is not None and answer.question.stands is not None:
        return f"{words} Set the blade no deeper than {depth_words(answer, deep)}."
    return words


def _told(saw: str, answer: Answer) -> str:
    """To set the saw to a tilt, or what it would be: no sheet tells to set what the saw has not."""
    if faces(answer)[0].within_tilt:
        return f"{saw}, shoe on this face: tilt"
    return f"A {saw[0].lower()}{saw[1:]}, shoe on this face, would tilt"


def tilt_of(answer: Answer) -> str:
    """The tilt with the shoe on a wide face."""
    return write_degrees(float(answer.cut.face_tilt_deg))
