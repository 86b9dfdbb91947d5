"""Numbers that belong together, as a carpenter says them: one measure each, the rest untouched."""

import pytest

from lessons.settle.ear.heard_measure import HeardMeasure, Item
from lessons.settle.ear.measures import measured
from lessons.settle.ear.trade_tokens import listen


def shown(item: Item) -> str:
    """A word as it stands; a measure as its kind and numbers, `>` before the one marked along."""
    if not isinstance(item, HeardMeasure):
        return item.text
    if item.kind == "one":
        return f"<{item.value:g}{item.unit}>"
    along = "" if item.along is None else f" >{item.along:g}"
    return f"<{item.kind} {item.first:g} {item.joint or ','} {item.second:g}{along}>"


@pytest.mark.parametrize(
    ("said", "heard"),
    [
        ("8 1/2 to the foot, saw 45", "<ratio 8.5 on 12> , saw <45>"),
        ("seven inches rise to the foot", "<ratio 7 in 12>"),
        # A tilt leans toward the foot; the number after it is its own.
        ("tilt 10 to the foot", "tilt <10> to the foot"),
        ("saw square, edge 10 to the foot", "saw square , edge <ratio 10 on 12>"),
        # No arm of a framing square is longer than its blade, 24 in.
        ("24 to the foot", "<ratio 24 on 12>"),
        ("25 to the foot", "<25> to the foot"),
        ("8 twelve", "<ratio 8 in 12>"),
        ("8 seventeen hip, saw 45", "<ratio 8 in 17> hip , saw <45>"),
        ("25 twelve pitch", "<25> <12> pitch"),
        ("12 along the board for 10 across, saw 45", "<pair 12 , 10 >12> , saw <45>"),
        ("for every 17 square across it runs 8 along", "for every <pair 8 , 17 >8>"),
        ("12 along for 10 along", "<12> along for <10> along"),
        ("12 degrees along for 10 across", "<12deg> along for <10> across"),
        ("half of 90 on the saw", "<45> on the saw"),
        ("the half of 60 on it", "the <30> on it"),
        ("half of 120 is 60, plumb 8 in 12", "<60> , plumb <ratio 8 in 12>"),
        ("45 = 45", "<45>"),
        ("7 is 7.05, plumb", "<7.05> , plumb"),
        ("7 is 7.5", "<7> is <7.5>"),
        ("at 30, well I think 30", "at <30>"),
        ("at 30, well I think 45", "at <30> , well i think <45>"),
        ("17 for 12, saw 45", "<runs 17 , 12> , saw <45>"),
        ("12 for 17 for the hip", "<runs 12 , 17> for the hip"),
        ("13 for 12", "<13> for <12>"),
        ("number on 12: 9.985, tilt 45", "edge <ratio 9.985 on 12> , tilt <45>"),
        ("plumb 8 in 12, number on 12: 9.985", "plumb <ratio 8 in 12> , edge <ratio 9.985 on 12>"),
        ("8:12 saw 45", "<ratio 8 in 12> saw <45>"),
        ("8 over 12", "<ratio 8 in 12>"),
        ("8-12", "<ratio 8 in 12>"),
        ("30 to 40", "<range 30 in 40>"),
        ("45 degrees on 12", "<45deg> on <12>"),
        ("100 mm on 12", "<mixed 3.93701 on 12>"),
        ("8 1/2 shy on 12", "<ratio 8.47656 on 12>"),  # shy: between a 64th and a 32nd less
        # Parted in halves to sixty-fourths it is inches, else a rise on a run.
        ("8/12", "<ratio 8 in 12>"),
        ("17/16", "<1.0625>"),
        ("8/16", "<0.5>"),
        ("10 on 12 (exact 9.985), saw 45", "<ratio 9.985 on 12> , saw <45>"),
        ("10 on 12 (exact 9.985) 12 on 12 (exact 12.01)",
         "<ratio 9.985 on 12> <ratio 12.01 on 12>"),
        ("10 on 12 (exact 9.5)", "<ratio 10 on 12> ( exact <9.5> )"),
        ("rise 8, run 12", "<ratio 8 in 12>"),
        ("8 rise 12 run", "<ratio 8 in 12>"),
        ("run 12 rise 8", "<ratio 8 in 12>"),
        ("a rise of 8 and a run of 17", "a <ratio 8 in 17>"),
        ("8 rise 12 run 17", "<ratio 8 in 12> <17>"),
        ("8 on 12, mark along the tongue", "<pair 8 and 12> , mark along the tongue"),
        ("12 on the blade, 8 on the tongue, mark along the tongue", "<pair 12 , 8 >8> , ,"),
        ("12 on the blade and 8 on the tongue mark along the blade", "<pair 12 , 8 >12> and"),
        ("tongue 8, blade 12", "<pair 12 , 8> ,"),
        ("12 on the blade", "<12> on the blade"),
        ("8 on the tongue and 12 on the blade then 10 on the tongue and 12 on the blade",
         "<pair 12 , 8> and then <pair 12 , 10> and"),
        ("12 and 8, mark the 8", "<pair 12 and 8 >8> ,"),
        ("12 and 10 on the square, mark along the 12", "<pair 12 and 10 >12> on the square ,"),
        ("mark the 12, 12 and 8 on the edge", ", <pair 12 and 8 >12> on the edge"),
        ("8 in 12, mark along the 12", "<pair 8 in 12 >12> ,"),
        ("8 and 12, 12 side", "<pair 8 and 12 >12> , side"),
        ("9 5/8, 12, mark the 12", "<pair 9.625 and 12 >12> ,"),
        ("9 5/8, cut the 12", "<pair 9.625 and 12 >12>"),
        ("9 5/8, 12, saw 45", "<9.625> , <12> , saw <45>"),
        ("face 12 and 8, mark the 8, edge 12 and 10, mark the 12",
         "face <pair 12 and 8 >8> , , edge <pair 12 and 10 >12> ,"),
        ("edge 12 and 8, saw 45", "edge <pair 12 and 8> , saw <45>"),
        ("saw ten and seventeen", "saw <10> and <17>"),
        ("17 and 8 then saw 45", "<pair 17 and 8> then saw <45>"),
        ("25 and 12, mark the 12", "<25> and <12> , mark the <12>"),
        ("12 and 8 degrees", "<12> and <8deg>"),
        # Said again to the sixteenth, a number is the pair's; farther off it is another.
        ("12 and 9 11/16, mark the 9.7", "<pair 12 and 9.6875 >9.6875> ,"),
        ("12 and 9 5/8, mark the 9.7", "<pair 12 and 9.625> , mark the <9.7>"),
    ],
)  # fmt: skip
def test_numbers_that_belong_together_are_one_measure(said, heard):
    assert " ".join(shown(item) for item in measured(listen(said).tokens)) == heard
