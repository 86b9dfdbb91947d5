"""Whether a cut fits by handsaw and by saw, and whether both are one plane, in words."""

from layout.answer import senses, together
from layout.answer.answer import Answer, Verdict
from layout.answer.gap_words import (
    NO_GAP,
    fits_or_leaves,
    gap_and_decimals,
    write_gap,
    write_limit,
)
from layout.answer.sense_words import (
    out_of_reach,
)
from layout.answer.wording import (
    short_answer,
)
from lessons.say.hanging import in_margin
from lessons.say.units import System


def verdict_line(name: str, verdict: Verdict, system: System = System.INCH) -> str:
    """One method's verdict: what it leaves with exact settings, and with those read off."""
    metric = system.is_metric
    if not verdict.sound:
        wide = write_gap(float(verdict.exact.widest_in), metric=metric)
        return in_margin(name, f"leaves {wide} open with exact settings: another plane")
    read = float(verdict.read.widest_in)
    limit = write_limit(verdict.tolerance_in, metric=metric)
    return in_margin(
        name,
        f"{fits_or_leaves(read, verdict.tolerance_in, metric=metric)}; as read on the tool:"
        f" {gap_and_decimals(read, metric=metric)} (limit {limit})",
    )


def set_by_the_marks(verdict: Verdict, system: System = System.INCH) -> str:
    """What one method leaves open with its tool set to the nearest mark: a lesson's words."""
    metric = system.is_metric
    read = float(verdict.read.widest_in)
    if read <= verdict.tolerance_in:
        gap = write_gap(read, metric=metric)
        return gap if gap == NO_GAP else f"{gap} open"
    return fits_or_leaves(read, verdict.tolerance_in, metric=metric)


def saw_verdict(answer: Answer, system: System = System.INCH) -> str:
    """The saw's verdict: the geometry's where this saw reaches, else that it does not."""
    if senses.within_reach(answer):
        return verdict_line("BY SAW", answer.by_saw, system)
    return in_margin("BY SAW", out_of_reach(answer, senses.faces(answer)[0]))


def together_lines(answer: Answer, system: System = System.INCH) -> list[str]:
    """Two cheeks as one end, tried against both mates at once; nothing for any other cut."""
    if not together.has_two_cheeks(answer):
        return []
    by_hand, by_saw = (float(one.widest_in) for one in together.as_read(answer))
    metric, limit = system.is_metric, answer.tolerance_in
    said = [f"by handsaw {fits_or_leaves(by_hand, limit, metric=metric)}"]
    if senses.joint_within_reach(answer):
        said.append(f"by saw {fits_or_leaves(by_saw, limit, metric=metric)}")
    return [in_margin("BOTH CHEEKS", f"against both mates at once, as read: {', '.join(said)}")]


def against_words(answer: Answer) -> str:
    """What one plane of a joint lies against, and the side that its cheek or bevel faces."""
    what = "bevel" if answer.is_rip else "cheek"
    side = f", the {what} faces {answer.hand.value}" if answer.hand else ""
    return f"against {answer.plane.mate_words}{side}"


def plane_words(answer: Answer) -> str:
    """The joint's other plane in one line, with what it lies against."""
    return f"{against_words(answer)}: {short_answer(answer)}"


def agreement_line(answer: Answer) -> str:
    """The verdict on both methods together, and on the saw's reach."""
    if not (answer.by_hand.sound and answer.by_saw.sound):
        return "TWO PLANES: the methods do not cut the joint's plane"
    if not senses.joint_within_reach(answer):
        all_of_it = "it" if len(answer.cuts) == 1 else "both cuts"
        return f"BY HANDSAW: both ways give one plane, but this saw does not reach {all_of_it}"
    if answer.agree:
        return "BOTH FIT: by handsaw and by saw it is the same plane"
    return (
        "ONE PLANE, but the settings as read leave more than the limit: set finer, or ease"
        " --tolerance"
    )
