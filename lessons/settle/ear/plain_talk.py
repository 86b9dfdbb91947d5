"""Talk put plainly before it is taken apart: clipped words, *never* for *always*, asides.

Each rule leaves what is said of a mark or a setting as it stands.
"""

import re

from lessons.settle.ear.lexicon import ONES, PARTS, TENS

_SPOKEN = "|".join(sorted((*ONES, *TENS, *PARTS), key=len, reverse=True))
_PART = r"(?:an? |one |three |five |seven )?(?:half|halves|thirds?|quarters?|eighths?|sixteenths?)"
_NO_APOSTROPHE = re.compile(
    r"\b(do|does|is|ai|wo|did|would|should|could|was|were|have|has|had|are)nt\b"
)
_NUMBER_IS = re.compile(r"(\d)'s\b")
_NUMBERED_ONE = re.compile(r"\bthe (\d+(?:\.\d+)?(?: \d+/\d+)?) ones?\b(?! side| in| on)")
_TOTHER = re.compile(r"\bt'other\b")
_CANNOT = re.compile(
    r"\b(i|you|ya|it|he|she|they|we|one|just) cant\b"
    r"|\bcant (?=(?:be|do|go|get|make|cut|use|set|miss|see|have|reach|work|fit|say)\b)"
)
_HAD_IT_THAT = re.compile(r"\b(?:always |has always )?(?:had it|held|swore|reckoned) that\b")
_NEVER_MIND = re.compile(
    r",? (?:and |but )?never mind (?:about )?(?:what )?the (?:square|book|table)(?: says)?\b"
)
_HALF_RIGHT_ANGLE = re.compile(r"\bhalf (?:of )?a right angle\b")
_NOT_THE_LINE = re.compile(
    r"\b(?:is |are )?not (?:cut |marked |sawn )?(level|plumb)(?: cut)?,? (?:but |it's )(?:a )?"
    r"(?=(plumb|level)\b)(?!\1)"
)
_SAME_NUMBER = re.compile(rf"\bsame (?=\d|(?:{_SPOKEN})\b)")
_STRAIT = re.compile(r"\bstrait\b")
_PITCHES = re.compile(
    r"^((?:(?!\bsaw|\bblade)[^,;.])*\b(?:hip|valley|jack|common)\b[^,;.]{0,24})"
    rf" (?:pitches|slopes) (?:at|to) (?=\d|(?:{_SPOKEN})\b)"
)
_CLIPPED_ARE = re.compile(r"\b(they|you)re\b")
_COS = re.compile(r"\b(?:cos|coz|'cause|'cos)\b")
_TAG = re.compile(
    r",? (?:don't|doesn't|isn't|ain't|aren't|won't|wouldn't|didn't|hasn't|haven't|can't)"
    r" (?:they|it|he|she|you|ya|we|that|this)\s*\??\s*(?=$|,)"
)
_CLIPPED_IS = re.compile(r"\b(that|there|here|he|she)s\b")
_WHOLE = re.compile(rf"\b(the|a|your|his) full (?=\d|(?:{_SPOKEN})\b)")
_PARTS_WRITTEN = re.compile(r"(\d+\s*/\s*\d+)\s*(?:ths?|nds?|rds?)\b")
_AND_CLIPPED = re.compile(r"\s(?:an|'?n)'(?=\s)|\s'n(?=\s)")
_AND_SPOKEN = re.compile(rf"(\d|\b(?:{_SPOKEN})) (?:an|n)(?= (?:\d|(?:a )?(?:{_SPOKEN})\b))")
_POINT = re.compile(r"(\d+) point (\d+)")
_PART_BEHIND_UNIT = re.compile(
    rf"(\d|\b(?:{_SPOKEN})) (degrees?|deg|inch(?:es)?) (and (?:{_PART}|\d+/\d+)\b)"
)
_AN_INCH = re.compile(rf"\b(?:an? |one )?inch (and (?:{_PART}|\d+/\d+)\b)")
_NO_MORE = r"(?=\s*(?:$|[,.;:!]))"
_THEN = r"(?=\s*(?:$|[,.;:!]|(?:and|but|so|just|then) ))"
_NEVER_TILTED = re.compile(
    r"\bnever (?:(?:gets?|takes?|needs?|has|have|wants?|puts?|uses?) (?:a |an |any |no )?)?"
    r"(?:tilts?|bevels?|leans?|tips?)((?: (?:the saw|your saw|the blade|it|her|on it|to it))?"
    rf"(?: (?:on|for|with) (?:a |an |any |the |your )?[a-z]+(?: rafters?)?)?){_NO_MORE}"
)
_NEVER_OFF = re.compile(
    r"\bnever (?:(?:moves?|strays?|budges?|comes?|goes?|varies|changes|wanders?) (?:away )?"
    r"(?:off|from)(?: of)?|leaves?|anything (?:but|other than|else than))(?= )"
)
_CONSEQUENCE = re.compile(
    r"[,;]? \b(?:or|otherwise|or else),? (?:she|he|it|they|you|ya)(?:'ll| will| won't| don't)?"
    r" (?:never )?(?:comes? out|goes|be|fits?|closes?|gapes?|opens?|ends? up|looks?|is)"
    r"(?: (?:backwards?|wrong|crooked|short|long|open|junk|bad|firewood|scrap|off|tight|up))?"
    rf"{_NO_MORE}"
)
_PAST_REACH = re.compile(
    r"\b(?:won't|can't|cannot|doesn't|don't|will not) (?:quite )?"
    rf"(?:reach|get there|(?:go|tilt|lean) (?:over )?that far)(?: it| that)?{_THEN}"
)
_NOT_BACKED = re.compile(
    r"\b(?:don't|do not|never|no need to|don't bother(?: to)?|without) back(?:ing)?"
    rf"(?: it| her| the hip)?(?: at all)?{_THEN}"
)
_STRAIGHT_LINE = re.compile(r"\bstraight (plumb|level|seat|heel)( cut| line)?(?= |$|[,.;])")
_SAME_AS_COMMON = re.compile(
    r"\bsame (plumb|level|seat)( cut| line)? as (?:on )?(?:the |your |a |any )?"
    r"(?:common rafters?|commons?|rafters)\b"
)
_SAME = re.compile(
    r"\bsame (?:old )?(bevel|tilt|angle|setting|saw setting|cut|plumb cut|plumb line|plumb|saw)"
    r"(?! as\b)(?=s?\b)"
)
_SWAPPED = re.compile(
    r"\b(?:swap|trade|switch|change)(?: out)? (?:the |your |a )?(twelve|12|seventeen|17)"
    r" (?:out )?(?:for|to|with) (?:the |a )?(seventeen|17|twelve|12)\b"
)
_EDGE_GETS = re.compile(rf"\bedge gets (?:a )?(?=\d|(?:{_SPOKEN})\b)")
_MEETS = re.compile(
    r"\bwhere (?:(?:the |it|they|a )(?:hip|jack|valley|rafter|common)?) ?"
    r"(?:hits?|meets?|lands? on|sits? on) (?:the |a )?(ridge|hip|valley)\b"
)
_SO_THAT = re.compile(
    r",? so (?:that )?(?:the |it|she|they)?(?:corners?|edges?|arris|sheathing|plywood)? ?"
    r"(?:don't|doesn't|won't|can't) (?:poke|stick|hit|bind|rock|hump|show)"
    r"(?: up| out| through| over| into)*(?: the (?:sheathing|plywood|roof|decking|boards))?"
    rf"{_NO_MORE}"
)
_BOTTOM_LINE = re.compile(r"^bottom line ?[,:]")
RULES: tuple[tuple[re.Pattern[str], str], ...] = (
    (_NO_APOSTROPHE, r"\1n't"),
    (_CLIPPED_IS, r"\1's"),
    (_CLIPPED_ARE, r"\1're"),
    (_COS, "because"),
    (_WHOLE, r"\1 "),
    (_CANNOT, r"\1 can't "),
    (_HAD_IT_THAT, "says"),
    (_NEVER_MIND, ""),
    (_HALF_RIGHT_ANGLE, "45 degrees"),
    (_NOT_THE_LINE, ""),
    (_SAME_NUMBER, ""),
    (_STRAIT, "straight"),
    (_PITCHES, r"\1, plumb line at "),
    (_TAG, ""),
    (_TOTHER, "the other"),
    (_NUMBERED_ONE, r"\1 other one"),
    (_NUMBER_IS, r"\1"),
    (_PARTS_WRITTEN, r"\1"),
    (_AND_CLIPPED, " and"),
    (_AND_SPOKEN, r"\1 and"),
    (_POINT, r"\1.\2"),
    (_AN_INCH, r"1 \1 inches"),
    (_PART_BEHIND_UNIT, r"\1 \3 \2"),
    (_NEVER_TILTED, r"always no tilt\1"),
    (_NEVER_OFF, "always"),
    (_CONSEQUENCE, ""),
    (_PAST_REACH, ""),
    (_NOT_BACKED, ""),
    (_STRAIGHT_LINE, r"\1\2 square through"),
    (_SAME_AS_COMMON, r"\1\2 same as the common"),
    (_SAME, r"\1"),
    (_SWAPPED, r"\2 for \1"),
    (_EDGE_GETS, "side cut "),
    (_MEETS, r"at the \1"),
    (_SO_THAT, ""),
    (_BOTTOM_LINE, ""),
)


def plainly(folded: str) -> str:
    """A claim in small letters, each number and rule in the words in which it is read.

    >>> plainly("ten an seventeen"), plainly("33 point 7"), plainly("30 degrees an' a half")
    ('ten and seventeen', '33.7', '30 and a half degrees')
    >>> plainly("an inch and a half ahead"), plainly("never tilt the saw on a common")
    ('1 and a half inches ahead', 'always no tilt the saw on a common')
    >>> plainly("the saw never moves off 45"), plainly("never tilt past 45")
    ('the saw always 45', 'never tilt past 45')
    """
    for pattern, plain in RULES:
        folded = pattern.sub(plain, folded)
    return folded
