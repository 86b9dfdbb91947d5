"""The ear: what somebody says about a cut, as every claim that it can be.

It repeats before anything is judged. One reading is a claim; two are both kept and none is
picked; with none, what was not understood is quoted beside a sentence that would be.
"""

import itertools
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Literal

from layout.answer.answer import Answer
from lessons.settle.claim import SQUARE, ClaimError
from lessons.settle.ear.accounting import elsewhere, left_over, may_be_left_out
from lessons.settle.ear.against import of_plane, other_board, without_own_names
from lessons.settle.ear.claimed_lean import sensed
from lessons.settle.ear.clauses import Clause, carried, clauses
from lessons.settle.ear.contrast import without_contrast
from lessons.settle.ear.draft import Draft, combined
from lessons.settle.ear.footing import Footing
from lessons.settle.ear.heard_measure import Item, is_cue
from lessons.settle.ear.heard_reading import Reading, reading_of
from lessons.settle.ear.lexicon import lexicon
from lessons.settle.ear.lying import FLAT, ONEDGE
from lessons.settle.ear.measures import measured
from lessons.settle.ear.of_another import of_another, without, words_of
from lessons.settle.ear.on_this_cut import on_this_cut, without_premises
from lessons.settle.ear.part_meanings import readings_of
from lessons.settle.ear.paste import form_of, pasted, sentence, shortened
from lessons.settle.ear.single import UnreadError
from lessons.settle.ear.told_beside import asides, beside_a_setting, leave_said_faces, two_angles
from lessons.settle.ear.trade_tokens import Listened, Token, listen

LONGEST = 1500
"""Letters in a claim that says tiny numbers to the last digit; longer text is something else."""
MOST_LEFT_OUT = 5
"""Words; what is heard without more of them is a guess."""
LEFT_OUT = {"told", "steps", "asked", "bothsides", "oneeach"}
"""Kinds of words that a claim is asked about without; what is denied, added or left to choice
is none of them."""
REFUSED = {
    "told": "it tells what was or would be; say what is to be set",
    "steps": "it speaks of more than one cut, side or step; say one setting of one cut",
    "bothsides": "it speaks of more than one cut, side or step; say one setting of one cut",
    "oneeach": "it speaks of more than one cut, side or step; say one setting of one cut",
    "denied": "it says what is not so; say what is to be set",
    "either": "it leaves a choice; make a claim of each",
    "sums": "it compares, or asks for a sum; say the number that comes out",
    "anotherone": "it speaks of another one beside this; say what this one takes",
    "strangeunit": "nothing on a saw or a square is set in that",
    "asked": "it asks, or sets a condition; say what is to be set",
}
STRANGE = "I do not know {these}; leave {them} out, or say it in words of the trade"
AGAINST_TABLE = re.compile(
    r"\b(?:to|from|off|above|with|against) (?:the|its) (?:table|bench|base|shoe|plate|deck)\b"
)
"""A blade's angle against what it stands on is what its tilt leaves of 90: no tilt is offered."""
Rule = Literal["always", "never"]


@dataclass(frozen=True)
class Heard:
    """What the ear made of a claim.

    `readings` is empty where it was not understood: `quoted` is the part that stopped it, `why`
    the reason, `paste` a sentence with what was understood, empty where nothing sure was; `form`
    is how a claim about this cut is said, with N for its numbers. `mended` has slips of the pen, as
    said and as taken. `rule` is set for a claim that is to hold always, or never. `left_out` are
    words that it had to be heard without: it is then asked about, and gets no verdict. `denied`
    is what the claim itself turns down.
    """

    text: str
    readings: tuple[Reading, ...] = ()
    mended: tuple[tuple[str, str], ...] = ()
    rule: Rule | None = None
    quoted: str = ""
    why: str = ""
    paste: str = ""
    form: str = ""
    left_out: tuple[str, ...] = ()
    denied: tuple[str, ...] = ()

    @property
    def offer(self) -> str:
        """What to say instead: the sentence to paste, else the form of a claim, in words."""
        if self.paste:
            return f"say it as: {self.paste}"
        return f"say it like this, with a number for each N: {self.form}" if self.form else ""


def hear(text: str, true_answer: Answer) -> Heard:
    """Hear what is said about this cut.

    >>> from layout.answer.question import ask
    >>> from layout.answer.answer import answer
    >>> [str(r.claims[0].tilt_deg) for r in hear("bevel 45", answer(ask("hip-jack"))).readings]
    ['45.0']
    """
    shown = " ".join("".join(c if c.isprintable() else " " for c in text).split())
    footing = Footing(true_answer)
    if not shown:
        return Heard("", why="an empty claim says nothing", form=form_of(footing))
    if len(shown) > LONGEST:
        why, told = f"a claim of {len(shown)} letters is none", shortened(shown)
        return Heard(told, quoted=told, why=why, form=form_of(footing))
    text, elsewhere = of_plane(text, true_answer)
    listened = listen(without_own_names(text, true_answer))
    elsewhere = elsewhere or other_board(text, true_answer)
    if elsewhere:
        return Heard(shown, quoted=shortened(shown), why=elsewhere, form=form_of(footing))
    heard = understood(shown, listened, footing)
    against = AGAINST_TABLE.search(shown.lower()) is not None
    if not heard.readings and (against or not _reads(heard.paste, footing)):
        heard = replace(heard, paste="")
    if not heard.readings:
        names = {token.name for token in listened.tokens}
        heard = replace(heard, form=form_of(footing, names))
    return replace(heard, mended=listened.mended, denied=without_contrast(listened.tokens)[1])


def _reads(paste: str, footing: Footing) -> bool:
    """Whether a sentence to paste is itself understood, as a claim of this cut's kind."""
    again = understood(paste, listen(paste), footing)
    claims = [claim for reading in again.readings for claim in reading.claims]
    whole = len(again.readings) == 1 and not again.readings[0].unplaced and not again.left_out
    return whole and all(claim.rip == footing.true_answer.is_rip for claim in claims)


@dataclass(frozen=True)
class Parted:
    """A claim taken apart: the pieces, the parts that they make, and whether it is a rule.

    `another` says which other roof it is about; empty where none is named. `of_another` has the
    words of the parts that may speak of another board or cut.
    """

    items: list[Item]
    parts: list[Clause]
    rule: Rule | None
    another: str
    of_another: tuple[str, ...]


@lru_cache(maxsize=64)
def parted(listened: Listened, footing: Footing, *, less: bool = False, drop: int = 0) -> Parted:
    """The claim taken apart; kept for a while, since a claim is heard in more ways than one.

    With `less` without the words that a claim may be asked about without; with `drop` without
    that one, counted from 1, of the parts that may be another's.
    """
    tokens = on_this_cut(without_contrast(listened.tokens)[0], footing)
    tokens = [one for one in tokens if not (less and is_cue(one, *LEFT_OUT))]
    items, another = without_premises(measured(tokens), footing)
    items = _settled_words(items, rip=footing.true_answer.is_rip)
    parts = clauses(items)
    foreign = of_another(" ".join(one.text for one in tokens), parts, footing)
    words = tuple(words_of(items, one) for one in foreign)
    if 0 < drop <= len(foreign):
        dropped = foreign[drop - 1]
        items = without(items, dropped)
        parts = [part for part in parts if part is not dropped]
    return Parted(items, parts, _rule(tokens), another, words)


def understood(
    text: str, listened: Listened, footing: Footing, *, less: bool = False, drop: int = 0
) -> Heard:
    """What is made of a claim's pieces; `less` and `drop` as in `parted`."""
    made = parted(listened, footing, less=less, drop=drop)
    items, parts, rule = made.items, made.parts, made.rule
    refused = [
        item
        for item in items
        if isinstance(item, Token) and lexicon().group.get(item.name) == "refuse"
    ]
    if refused and not less:
        heard = understood(text, listened, footing, less=True, drop=drop)
        if asked := _without(heard, [item.text for item in refused], footing):
            return asked
    for item in refused:
        why = REFUSED[item.name]
        return _unread(text, why, parts, footing, rule, quoted=item.text, offered=False)
    if made.another:
        return _unread(text, made.another, parts, footing, rule, offered=False)
    if negative := next((t for t in _negatives(items)), None):
        why = "nothing is set to less than nothing"
        return _unread(text, why, parts, footing, rule, quoted=negative)
    heard = readings_in(text, carried(parts), items, footing, rule)
    heard = heard if heard.readings else readings_in(text, parts, items, footing, rule)
    strange = list(dict.fromkeys(word for part in parts for word in part.strange))
    if not strange:
        return heard
    if asked := _without(heard, strange, footing):
        return asked
    paste = "" if any(part.lonely for part in parts) else heard.paste
    if heard.readings:  # what is left when the strange words are taken out
        paste = _sure(heard.readings, parts, footing)
    quoted, why = shortened(" ".join(strange)), _strange(strange)
    return Heard(text, quoted=quoted, why=why, paste=paste, rule=rule)


def _without(heard: Heard, words: Sequence[str], footing: Footing) -> Heard | None:
    """The same, to be asked about as heard without these words; None where that is too little."""
    left_out = tuple(dict.fromkeys((*words, *heard.left_out)))
    signs = any(not any(letter.isalpha() for letter in word) for word in left_out)
    if len(heard.readings) != 1 or len(left_out) > MOST_LEFT_OUT or signs:
        return None
    return replace(heard, left_out=left_out, paste=_sure(heard.readings, (), footing))


def readings_in(
    text: str,
    parts: Sequence[Clause],
    items: Sequence[Item],
    footing: Footing,
    rule: Rule | None,
) -> Heard:
    for item in items:
        if isinstance(item, Token) and item.kind == "cue" and (why := elsewhere(item, footing)):
            return _unread(text, why, parts, footing, rule, quoted=item.text, offered=False)
    miter = any(is_cue(item, "table", "mitersaw", *FLAT, *ONEDGE) for item in items)
    choices: list[list[Draft]] = []
    for part in parts:
        try:
            choices.append(readings_of(part, footing, miter=miter))
        except UnreadError as error:
            clear = not error.why.startswith("nothing says what this number")
            said = error.quoted
            return _unread(text, error.why, parts, footing, rule, quoted=said, offered=clear)
    asides(parts, choices, footing)
    leave_said_faces(parts, choices)
    beside_a_setting(parts, choices)
    drafts, twice = combined(choices)
    if twice:  # level 9 in 12, square across: the edge is what is left to be square
        for at, part in enumerate(parts):
            if part.measure is None and part.names == {"square"}:
                choices[at] = [Draft(edge=SQUARE)]
        drafts, twice = combined(choices)
    lonely = [part.measure for part in parts if part.lonely and part.measure]
    alone = [measure.text for measure in lonely]
    if len(alone) > 1 and not miter and not two_angles(parts, lonely):
        why = "nothing says what these numbers are"
        told = " ".join(alone)
        return _unread(text, why, parts, footing, rule, quoted=told, offered=False)
    if len(alone) == 2 and not miter:  # a compound cut has a line on the face and one thing more
        drafts = [d for d in drafts if d.face and (d.edge is None) != (d.tilt_deg is None)]
    faced = [
        bool(drafts) and all(d.face for d in drafts)
        for part, drafts in zip(parts, choices, strict=True)
        if part.lonely and part.measure
    ]
    loose = next((m.text for m, f in zip(lonely, faced, strict=True) if not f), "")
    set_by = [drafts for part, drafts in zip(parts, choices, strict=True) if not part.lonely]
    settings = [d for each in set_by for d in each if d.tilt_deg is not None or d.edge or d.turn]
    if loose and settings and not miter:
        why = "nothing says what this number is"
        return _unread(text, why, parts, footing, rule, quoted=loose, offered=False)
    if twice:
        why = f"{twice} is said twice, in two ways; make two claims of it"
        return _unread(text, why, parts, footing, rule, offered=False)
    sense = sensed(parts, footing.end, hollow=footing.hollow)
    if sense.twice:
        return _unread(text, f"{sense.twice} is said twice", parts, footing, rule)
    drafts = [one for one in drafts if not _undone(one)] or drafts
    readings: list[Reading] = []
    trouble = "nothing is said of a mark or a setting"
    over: list[tuple[str, str]] = []
    left: list[Reading] = []
    for draft in drafts:
        if not draft.says:
            continue
        try:
            reading = reading_of(draft, sense, footing)
        except (ClaimError, UnreadError) as error:
            trouble = str(error)
            continue
        if unused := list(left_over(items, reading.claims, draft, footing)):
            over = over or unused
            left += [reading] if all(reading.claims != other.claims for other in left) else []
            continue
        if all(reading.claims != other.claims for other in readings):
            readings.append(reading)
    if readings:
        return Heard(text, tuple(readings), rule=rule)
    if not over:
        return _unread(text, trouble, parts, footing, rule)
    if all(may_be_left_out(word) for word, _ in over):
        heard = Heard(text, tuple(left), rule=rule)
        asked = _without(heard, [word for word, _ in over], footing)
        if asked is not None:
            return asked
    quoted, why = over[0]
    return Heard(text, quoted=quoted, why=why, paste=_sure(left, parts, footing), rule=rule)


def _sure(readings: Sequence[Reading], parts: Sequence[Clause], footing: Footing) -> str:
    """The sentence of a reading that is the only one; empty where there are others.

    Empty too where a number has no word of its own: its role was not given it.
    """
    if any(part.lonely for part in parts):
        return ""
    told = {sentence(one.claims[0], footing) for one in readings if len(one.claims) == 1}
    alone = len(told) == 1 and all(len(one.claims) == 1 for one in readings)
    return told.pop() if alone and not any(one.unplaced for one in readings) else ""


def _strange(words: Sequence[str]) -> str:
    one = len(words) == 1
    return STRANGE.format(these="this word" if one else "these words", them="it" if one else "them")


def _undone(draft: Draft) -> bool:
    """A blade that stands square to the face leaves no other edge mark than a square one."""
    return draft.tilt_deg == 0 and draft.shoe != "edge" and draft.edge not in (None, SQUARE)


def _rule(tokens: Sequence[Token]) -> Rule | None:
    if any(is_cue(token, "never") for token in tokens):
        return "never"
    return "always" if any(is_cue(token, "always") for token in tokens) else None


def _settled_words(items: list[Item], *, rip: bool) -> list[Item]:
    """`on edge` is the miter saw's or the shoe's where a saw is spoken of, else the edge mark's."""
    table = any(is_cue(item, "table", "mitersaw") for item in items)
    saw = any(is_cue(item, "saw", "tilt", "bevel", "blade", "shoe") for item in items)
    if table or (saw and not rip):
        return items
    return [
        replace(item, name="edge")
        if isinstance(item, Token) and item.name == "onedge" and item.text == "on edge"
        else item
        for item in items
    ]


def _negatives(items: Sequence[Item]) -> Iterator[str]:
    for before, item in itertools.pairwise(items):
        lone = isinstance(before, Token) and before.kind == "mark" and before.text == "-"
        if lone and not isinstance(item, Token):
            yield f"-{item.text}"


def _unread(
    text: str,
    why: str,
    parts: Sequence[Clause],
    footing: Footing,
    rule: Rule | None,
    *,
    quoted: str = "",
    offered: bool = True,
) -> Heard:
    """Refused, for the `quoted` words or the whole.

    Where nothing may be `offered` of its numbers (some are denied) none of them is.
    """
    choices = []
    for part in parts if offered else ():
        try:
            choices.append(readings_of(part, footing, miter=False) if not part.lonely else [])
        except UnreadError:
            continue
    paste = pasted(choices, footing)
    return Heard(text, quoted=shortened(quoted or text), why=why, paste=paste, rule=rule)
