"""How far a saw may go into a notch or a hollow: to its inside corner, where kept wood begins."""

from layout.answer import senses
from layout.answer.answer import Answer
from layout.quantity import write_short

WHOLE_IN = 1e-9


def part_in(answer: Answer) -> float | None:
    """How far in from its face a plane of a hollow goes, square to the face [inches].

    None where it goes through the whole thickness: there the saw blade may stand through.
    """
    if not senses.is_hollow(answer):
        return None
    deep = senses.through_in(answer.cut, face=True)
    return None if deep > answer.question.stock.thickness_in - WHOLE_IN else deep


def depth_words(answer: Answer, deep_in: float) -> str:
    """How far the saw blade stands below the shoe, and how that is measured.

    One number only, square to the shoe. Measured along a tilted blade it is longer by 1 / cos of
    the tilt, and a saw set to that number square to the shoe cuts past the inside corner.
    """
    deep = write_short(deep_in, metric=answer.metric)
    tilted = "" if senses.faces(answer)[0].square else " with the blade tilted"
    return f"{deep} below the shoe, measured square to the shoe{tilted}"


def stop_words(answer: Answer) -> str:
    """Where the saw stops, in one sentence; empty for a cut with nothing kept behind it.

    Past the inside corner of a hollow heel the blade would run into the other cheek's kept wood,
    and past that of a notch into the rafter: neither can be put back.
    """
    if not senses.is_hollow(answer) or senses.is_cut_short(answer):
        return ""
    deep = part_in(answer)
    first, kind = senses.faces(answer)[0], answer.limits.kind
    by_hand = not senses.within_reach(answer) or (
        kind is not None and first.start_from[kind] == "inside"
    )
    said = []
    if deep is not None:
        if by_hand:
            far = write_short(deep, metric=answer.metric)
            said.append(f"go to the inside corner only, {far} from the face, square to it")
        else:
            said.append(
                f"set the saw blade to reach the inside corner only: {depth_words(answer, deep)}"
            )
    if senses.is_notch(answer) and not by_hand:
        said.append("stop short of the inside corner, finish by handsaw, do not overcut")
    return "; ".join(said)
