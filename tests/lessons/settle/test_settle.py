"""Claims settled: the right ones are found right, the mistakes are found wrong and named."""

from collections.abc import Sequence
from dataclasses import replace
from math import asin, atan, cos, degrees, radians, sin, sqrt, tan

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from layout.answer.answer import Answer, answer
from layout.answer.question import ask
from layout.cuts import Hand, catalogue
from layout.errors import LayoutError
from layout.quantity import Pitch, nearest, read_pitch
from layout.tools.fit import SOUND_IN, fit
from layout.tools.saw import as_set
from layout.tools.setting import ByHand, BySaw, BySawOnEdge, RipByHand, RipBySaw, Setting
from layout.tools.square import Numbers
from lessons.mistakes.cut_mistakes import made_on
from lessons.settle.claim import ClaimError, claimed, write_claim
from lessons.settle.ear.hearing import hear
from lessons.settle.findings import ClaimVerdict, Judged, Settled
from lessons.settle.settle import KNOWN_WITHIN_IN, settle
from tests.counts import count

RIGHT, WRONG, OPEN = ClaimVerdict.RIGHT, ClaimVerdict.WRONG, ClaimVerdict.OPEN


def settled(true_answer: Answer, *texts: str) -> Settled:
    return settle(true_answer, texts)


def said(setting: Setting) -> str:
    """A setting as a claim in words, to the last digit."""
    return write_claim(claimed(setting))


def as_read(setting: Setting) -> Setting:
    """A setting as tools are read: sixteenths on the square, half degrees, gauges in 32nds."""

    def pair(legs: tuple[float, float]) -> tuple[float, float]:
        read = Numbers(*legs, "tongue").as_read()
        return (read.mark, read.other) if read.mark and read.other else legs

    match setting:
        case ByHand(face, _, edge, _, _):
            return replace(setting, face=pair(face), edge=pair(edge))
        case RipByHand(_, drop, _, _):
            return replace(setting, drop_in=nearest(drop, 32))
        case BySaw() | RipBySaw() | BySawOnEdge():
            return replace(setting, tilt_deg=float(as_set(setting.tilt_deg)))


def right_settings(true_answer: Answer) -> list[Setting]:
    """The joint's own settings by every method, exact."""
    on_edge = true_answer.edge_saw_setting()
    both = [true_answer.hand_setting(as_read=False), true_answer.saw_setting(as_read=False)]
    return [*both, *([on_edge] if on_edge else [])]


@st.composite
def answers(draw: st.DrawFn, name: str) -> Answer:
    """A cut in a random roof that a crew might frame: any pitch, corner, hand and end."""
    entry = catalogue()[name]
    pitch, other = (Pitch(draw(st.integers(6, 36)) / 2, 12.0, "drawn") for _ in range(2))
    corner = draw(st.sampled_from([60.0, 90.0, 90.0, 110.0, 135.0]))
    if entry.meets == "valley":
        corner = 360.0 - corner
    try:
        return answer(
            ask(
                name,
                pitch=pitch,
                other_pitch=draw(st.sampled_from([pitch, other])),
                corner_deg=corner,
                hand=draw(st.sampled_from(Hand)),
                end=draw(st.sampled_from(entry.ends)),
            )
        )
    except LayoutError:
        assume(False)
        raise


over_every_cut = pytest.mark.parametrize("name", sorted(catalogue()))


def roofs(examples: int) -> settings:
    return settings(
        deadline=None, max_examples=count(10 * examples, examples // 4), derandomize=True
    )


def all_settled(true_answer: Answer, texts: Sequence[str]) -> list[Judged]:
    """Each claim judged by itself; every one of them is read, and one way only."""
    if not texts:
        return []
    found = settle(true_answer, texts)
    assert [len(one.tried) for one in found.findings] == [1] * len(texts)
    return list(found.judged)


@over_every_cut
@roofs(8)
@given(data=st.data())
def test_the_right_settings_are_right_by_hand_and_by_saw(name, data):
    right = data.draw(answers(name))
    exact = settled(right, *(said(setting) for setting in right_settings(right)))
    assert exact.right == tuple(range(1, len(exact.judged) + 1))
    assert exact.same_plane == (exact.right,)
    for judged in exact.judged:
        assert judged.exact
        assert judged.gap_in < SOUND_IN
        assert judged.instead is None
        assert judged.mistakes == ()
    # As they are read on the tool, they are right where their method is good enough.
    by_saw = right.saw_setting(True)
    ways = [(right.hand_setting(True), right.by_hand)]
    if by_saw.tilt_deg < 90:  # a cut nearly along its face is read as a blade that lies flat
        ways.append((by_saw, right.by_saw))
    read = settled(right, *(said(setting) for setting, _ in ways))
    for judged, (_, verdict) in zip(read.judged, ways, strict=True):
        assert judged.gap_in == pytest.approx(float(verdict.read.widest_in), abs=1e-12)
        assert (judged.verdict is RIGHT) == verdict.good_enough
    # A claim that does not say how it leans takes the joint's lean, and tells so.
    for setting in right_settings(right):
        bare = replace(claimed(setting), cheek=None, top=None, arris=None)
        (judged,) = settle(right, [bare]).judged
        assert judged.setting.normal == pytest.approx(setting.normal, abs=1e-12)
        assert bool(judged.taken) == (bare != claimed(setting))


@over_every_cut
@roofs(4)
@given(data=st.data())
def test_every_mistake_is_found_wrong_and_named(name, data):
    right = data.draw(answers(name))
    known = made_on(right)
    normals = {made.mistake.name: made.setting.normal for made in known}
    found = all_settled(right, [said(made.setting) for made in known])
    for made, judged in zip(known, found, strict=True):
        gap = float(fit(right.cut, made.setting.normal).widest_in)
        assert judged.gap_in == pytest.approx(gap, abs=1e-9)
        assert judged.gap_in == pytest.approx(made.price_in, abs=1e-9)
        assert judged.verdict is (WRONG if made.price_in > right.tolerance_in else RIGHT)
        assert not judged.exact
        same = [one.mistake.name for one in judged.mistakes if one.same]
        assert made.mistake.name in same
        # Whatever is said to be the same plane closes on the claim's own cut.
        for other in same:
            mate = replace(right.cut, normal=normals[other])
            assert float(fit(mate, made.setting.normal).widest_in) < SOUND_IN
    # What is to be set instead fits, and is of the claim's own method.
    wrong = [judged for judged in found if judged.instead is not None]
    assert [judged.verdict for judged in found if judged.instead is None].count(WRONG) == 0
    again = all_settled(right, [write_claim(judged.instead) for judged in wrong])
    for before, after in zip(wrong, again, strict=True):
        assert after.verdict is RIGHT
        assert type(after.setting) is type(before.setting)


@over_every_cut
@roofs(4)
@given(data=st.data())
def test_every_mistake_as_read_on_the_tool_is_still_named(name, data):
    right = data.draw(answers(name))
    tellable = []
    for made in made_on(right):
        read = as_read(made.setting)
        off = float(fit(replace(right.cut, normal=made.setting.normal), read.normal).widest_in)
        # Not where it is nearer to the right cut, or read too coarsely to tell.
        if off < min(float(right.fit(read).widest_in), KNOWN_WITHIN_IN):
            tellable.append((made.mistake.name, said(read)))
    found = all_settled(right, [claim for _, claim in tellable])
    for (mistake, _), judged in zip(tellable, found, strict=True):
        assert mistake in [one.mistake.name for one in judged.mistakes]


@over_every_cut
@roofs(8)
@given(data=st.data(), tilt=st.floats(0, 80), line=st.floats(1, 80))
def test_any_claim_has_the_gap_of_its_plane_and_a_right_one_beside_it(name, data, tilt, line):
    right = data.draw(answers(name))
    text = f"rip, saw {tilt:.3f}deg" if right.is_rip else f"face {line:.3f}deg, saw {tilt:.3f}deg"
    (judged,) = settled(right, text).judged
    assert judged.gap_in == float(fit(right.cut, judged.setting.normal).widest_in)
    if judged.verdict is WRONG:
        (again,) = settle(right, [judged.instead]).judged
        assert again.verdict is RIGHT


def hip_jack(**asked: object) -> Answer:
    return answer(ask("hip-jack", pitch=read_pitch("12 in 12"), **asked))


def test_the_argument_on_the_scaffold():
    # With the face mark at 45 degrees a tilt b moves the long point by t tan b along the mark;
    # square to the hip, whose plane leans by 45 degrees, the right tilt loses the difference.
    tilt = radians(35.25)
    by_hand = 1.5 * (1 - tan(tilt)) * cos(radians(45))
    found = settled(hip_jack(), "plumb 12 in 12, saw 35 1/4", "plumb 12 in 12, edge 8 1/2 on 12")
    one, two = found.judged
    assert (found.right, found.wrong) == ((2,), (1,))
    assert one.gap_in == pytest.approx(by_hand, abs=1e-12)
    # Nobody spoke of an edge mark, so no mistake about one is offered.
    assert [each.mistake.name for each in one.mistakes] == ["side-number-as-tilt"]
    assert write_claim(one.instead) == "plumb 12 in 12, saw 45"
    # 8 1/2 for 8.485: 1.5 (12/8.485 - 12/8.5) along the board, times nx = 1/2 square to the hip.
    assert two.gap_in == pytest.approx(1.5 * (12 / sqrt(72) - 12 / 8.5) / 2, abs=1e-12)
    assert not two.exact


def test_the_foremans_two_may_both_be_right():
    # Common practice, no source: 12 in 12 takes 8 1/2 on the edge, and the saw at 45.
    found = settled(hip_jack(), "plumb 12 in 12, saw 45", "plumb 12 in 12, edge 8 1/2 on 12")
    assert found.right == (1, 2)
    assert found.same_plane == ((1, 2),)
    assert found.apart((1, 2)) == pytest.approx(found.judged[1].gap_in, rel=1e-2)


def test_two_that_agree_may_both_be_wrong():
    tilt = degrees(atan(sqrt(72) / 12))
    found = settled(hip_jack(), f"plumb 12 in 12, saw {tilt:.9f}", "plumb 12 in 12, edge 12 on 12")
    assert found.wrong == (1, 2)
    assert found.same_plane == ((1, 2),)


def test_a_mitre_saw_flat_and_on_edge_cut_one_plane():
    found = settled(
        hip_jack(),
        "saw flat 45 tilt 45",
        "on edge 54.7 tilt 30",
        "face 45deg, edge 54.7 from square",
    )
    assert found.right == found.same_plane[0] == (1, 2, 3)


def test_two_lefts_are_told_by_the_cheek():
    (judged,) = settled(hip_jack(), "plumb 12 in 12, saw 45, right cheek").judged
    assert judged.gap_in == pytest.approx(2 * 1.5 * cos(radians(45)), abs=1e-12)
    assert [one.mistake.name for one in judged.mistakes] == ["wrong-hand"]
    assert judged.taken == ()
    assert write_claim(judged.instead) == "plumb 12 in 12, saw 45, left cheek"
    (right_jack,) = settled(hip_jack(hand=Hand.RIGHT), "plumb 12 in 12, saw 45, right cheek").judged
    assert right_jack.exact


def test_only_what_is_wrong_changes():
    hip = answer(ask("hip-ridge-single", pitch=read_pitch("8")))
    (judged,) = settled(hip, "plumb 8 in 12, saw 45").judged
    assert write_claim(judged.instead) == "plumb 8 in 17, saw 45"
    (judged,) = settled(hip, "plumb 8 in 17, saw 30").judged
    assert write_claim(judged.instead) == "plumb 8 in 17, saw 45"
    (judged,) = settled(hip, "face 25.3deg, edge 42 from square, left cheek").judged
    assert write_claim(judged.instead) == (
        "face 25.3° from square, edge 48° from square, left cheek"
    )
    # Where the joint leans to neither side, the right claim has no word for it.
    (judged,) = settled(answer(ask("common-ridge")), "plumb 8 in 12, saw 5, left cheek").judged
    assert write_claim(judged.instead) == "plumb 8 in 12, saw 0°"


def test_what_was_lent_is_not_said_to_be_set_instead():
    """8 in 12: with the shoe on the edge the saw is tilted asin(cos 45 sin 33.69) = 23.09. The line
    on the edge was not in question."""
    jack = answer(ask("hip-jack", pitch=read_pitch("8")))
    (judged,) = settled(jack, "saw on the edge, tilt 30").judged
    instead = judged.instead
    assert instead is not None
    assert (instead.shoe, instead.edge, instead.face) == ("edge", None, None)
    assert instead.tilt_deg == nearest(degrees(asin(cos(radians(45)) * sin(atan(8 / 12)))), 2)


def test_what_nobody_disputes_is_lent_and_what_is_in_dispute_is_asked():
    found = settled(
        hip_jack(), "plumb 12 in 12", "edge 45deg", "saw 45", "8 1/2 on the edge", "plumb 10"
    )
    # A cheek's plumb line alone lets the plane swing; a wrong plumb line is wrong by itself.
    assert (found.open, found.right, found.wrong) == ((1,), (3, 4), (2, 5))
    plumb, edge, tilt, _, _ = found.judged
    assert plumb.lacks_tilt
    assert plumb.exact
    assert tilt.exact
    assert edge.gap_in > 0.3
    # Where nothing leans through the thickness, a plumb line is the whole cut.
    assert settled(answer(ask("common-ridge")), "plumb 8 in 12").right == (1,)


def test_no_reading_of_two_is_picked():
    found = settled(hip_jack(), "tilt 8 1/2", "45 degrees", "edge 54.74 degrees", "saw 30")
    assert (found.wrong, found.open) == ((1,), (2, 3, 4))  # both ways of tilt 8 1/2 are wrong
    gaps = [[tried.lead.gap_in for tried in one.tried] for one in found.findings]
    assert [len(each) for each in gaps] == [2, 3, 2, 1]
    # Right with the shoe on the edge, and only so: asked about, not condemned.
    (shoe,) = found.findings[3].tried
    assert shoe.rescued
    assert shoe.lead.gap_in > 0.3


def test_of_several_wrong_ways_the_one_that_gapes_least_decides():
    """By 10 on 12 the blade falls short of 45 degrees by 1/6 of 1 1/2 in, 1/4 in along the board:
    square to the cut that is 1/4 in over the root of 2. Tilted 10 degrees it is far more."""
    found = settled(answer(ask("hip-jack", pitch=read_pitch("8"))), "10 on the saw")
    assert found.wrong == (1,)
    assert len(found.findings[0].tried) == 2
    assert found.judged[0].gap_in == pytest.approx(0.25 / sqrt(2))


def test_level_is_not_plumb_though_both_lie_at_45():
    found = settled(hip_jack(), "level 12 in 12, saw 45")
    assert found.wrong == (1,)
    assert write_claim(found.judged[0].instead) == "plumb 12 in 12, saw 45"
    seat = answer(ask("common-seat", pitch=read_pitch("12 in 12")))
    found = settled(seat, "level 12 in 12", "level 10 in 12, square across the edge")
    assert (found.right, found.wrong) == ((1,), (2,))
    assert write_claim(found.judged[1].instead) == "level 12 in 12, edge square"


def test_the_plane_said_twice_must_be_right_both_ways():
    found = settled(
        hip_jack(),
        "plumb 12 in 12, edge 8 1/2 on 12, saw 45",
        "plumb 12 in 12, edge 8 1/2 on 12, saw 35 1/4",
    )
    assert (found.right, found.wrong) == ((1,), (2,))
    assert found.judged[1].claim.tilt_deg == 35.25


def test_the_tolerance_decides_and_exact_is_told_apart():
    text = "plumb 12 in 12, edge 8 1/2 on 12"
    strict = replace(hip_jack(), tolerance_in=0.001)
    assert settled(hip_jack(), text).judged[0].verdict is RIGHT
    assert settled(strict, text).judged[0].verdict is WRONG
    assert write_claim(settled(strict, text).judged[0].instead) == (
        "plumb 12 in 12, edge 8.485 on 12"
    )


def test_a_rip_is_settled_by_gauge_and_by_saw():
    backing = answer(ask("hip-backing", pitch=read_pitch("8")))
    # On a square corner the drop over a unit of thickness is sin(slope of the hip)'s partner:
    # tan(backing) = 8 / sqrt(8^2 + 2 * 12^2), so 3/4 in drops 0.32, read 5/16.
    drop = 0.75 * 8 / sqrt(8**2 + 2 * 12**2)
    found = settled(backing, f"gauge 3/4 drop {drop:.12f}", "gauge 3/4 drop 5/16", "saw 23")
    assert found.right == (1, 2, 3)
    assert found.judged[0].exact
    (steep,) = settled(backing, "gauge 3/4 drop 1/2").judged
    assert steep.verdict is WRONG
    assert write_claim(steep.instead) == "gauge 3/4 drop 5/16"
    (wrong_way,) = settled(backing, "rip, saw 23, right cheek").judged
    assert write_claim(wrong_way.instead) == "rip, saw 23°, left cheek"


@pytest.mark.parametrize(
    ("texts", "expected"),
    [([], "there is no claim to settle"), (["saw 45"] * 501, "501 claims are too many")],
)
def test_what_cannot_be_settled_is_refused(texts, expected):
    with pytest.raises(ClaimError, match=expected):
        settled(hip_jack(), *texts)


@pytest.mark.parametrize(
    ("cut", "text", "why"),
    [
        ("hip-jack", "gauge 3/4 drop 1/4", "is of a rip, but hip-jack ends the board"),
        ("hip-jack", "rip, saw 20", "is of a rip"),
        ("hip-backing", "plumb 8 in 12, saw 45", "hip-backing is a rip along it"),
        ("hip-backing", "square", "hip-backing is a rip along the board"),
    ],
)
def test_what_does_not_suit_the_cut_is_not_understood_and_the_rest_is_judged(cut, text, why):
    true_answer = answer(ask(cut))
    good = said(true_answer.saw_setting(as_read=False))
    found = settled(true_answer, text, good)
    assert (found.unread, found.right) == ((1,), (2,))
    assert why in found.findings[0].heard.why
    heard = found.findings[0].heard
    assert settled(true_answer, heard.paste or heard.form.replace("N", "8")).unread == ()


@pytest.mark.parametrize(
    "text",
    ["8 and twelve, level on the twelve", "10 on the saw", "plumb 8 in 12, edge 10 on 12, saw 45"],
)
def test_readings_of_one_plane_are_one_and_no_other_is_lost(text):
    """What is asked about is not asked twice: each reading puts planes there that no other does."""
    jack = answer(ask("hip-jack", pitch=read_pitch("8")))

    def planes(parts: Sequence[Judged]) -> tuple[object, ...]:
        return tuple((one.claim.missing, *np.round(one.setting.normal, 9) + 0.0) for one in parts)

    (found,) = settled(jack, text).findings
    ways = [planes((*one.parts, *one.otherwise)) for one in found.tried]
    assert len(set(ways)) == len(ways)
    for reading in hear(text, jack).readings:
        claims = [*reading.claims, *reading.otherwise]
        assert planes(settle(jack, claims).judged) in ways
