"""A claim heard once more, in the ways that it can be meant beside the usual one.

Asked for before a verdict is given, so that none is where a likely way of meaning it fits.
"""

from dataclasses import replace

from layout.answer.answer import Answer
from lessons.settle.ear.against import of_plane, without_own_names
from lessons.settle.ear.clauses import carried
from lessons.settle.ear.every_arm import with_arms
from lessons.settle.ear.footing import Footing
from lessons.settle.ear.heard_reading import Reading
from lessons.settle.ear.hearing import Heard, parted, readings_in, understood
from lessons.settle.ear.trade_tokens import listen


def hear_every_arm(text: str, true_answer: Answer) -> tuple[Reading, ...]:
    """What is said, with each number of a pair marked along in turn where the arm is not named.

    Beside what `hear` makes of it: asked for where none of that fits, before it is said that
    a claim is wrong however it is meant.
    """
    footing = Footing(true_answer)
    text, elsewhere = of_plane(text, true_answer)
    if elsewhere:
        return ()
    made = parted(listen(without_own_names(text, true_answer)), footing)
    if any(part.strange for part in made.parts):
        return ()
    found: list[Reading] = []
    for way in with_arms(made.parts):
        heard = readings_in(text, carried(way), made.items, footing, made.rule)
        found += [one for one in heard.readings if one not in found]
    return tuple(found)


def hear_without_another_s(text: str, true_answer: Answer) -> Heard | None:
    """What is said without the line that may be another board's; None where there is none.

    `left_out` has the words of that part, and any more that it had to be heard without; it has
    no readings where nothing could be made of the rest.
    """
    footing = Footing(true_answer)
    text, elsewhere = of_plane(text, true_answer)
    listened = listen(without_own_names(text, true_answer))
    words = parted(listened, footing).of_another
    if elsewhere or not words:
        return None
    heard = [understood(text, listened, footing, drop=at) for at, _ in enumerate(words, start=1)]
    readings: list[Reading] = []
    for one in heard:
        readings += [reading for reading in one.readings if reading not in readings]
    more = [word for one in heard for word in one.left_out]
    return replace(
        heard[0], readings=tuple(readings), left_out=tuple(dict.fromkeys((*words, *more)))
    )
