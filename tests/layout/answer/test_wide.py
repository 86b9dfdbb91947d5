"""The wide check: its field, its planes against single answers, and that it can find a fault."""

import shlex
from dataclasses import replace
from functools import partial

import numpy as np
import pytest

from layout.answer import wide
from layout.answer.answer import answer
from layout.answer.question import ask
from layout.cuts import Hand, catalogue, find
from layout.errors import CutError
from layout.quantity import read_pitch
from layout.stock import read_stock
from layout.tools import hand, saw
from layout.tools.fit import SOUND_IN
from tests.counts import LONG, count

ENDS = [(name, end) for name, entry in catalogue().items() for end in entry.ends]


@pytest.mark.parametrize(("name", "end"), ENDS)
def test_both_methods_cut_every_cuts_plane(name, end):
    entry = find(name)
    roofs = wide.field_of(entry)
    if not LONG:
        drawn = np.random.default_rng(7).permutation(len(roofs))[:50]
        roofs = wide.Roofs(*(a[np.sort(drawn)] for a in roofs._arrays))
    tried = wide.over_the_field(entry, end, roofs)
    assert tried.sound
    assert tried.cases >= count(500, 40)
    # Read on the tools every method is worse than exact, or no rounding was done.
    assert tried.hand_read.gap_in >= tried.hand.gap_in
    # A cut square through board and face is set exactly on any saw, and gains nothing.
    assert tried.saw_read.gap_in >= tried.saw.gap_in / 10


def test_every_end_of_every_cut_is_tried_over_its_own_field(monkeypatch):
    monkeypatch.setattr(wide, "over_the_field", lambda *given: given)
    for (entry, end, roofs), (name, place) in zip(wide.every_cut(), ENDS, strict=True):
        assert (entry.name, end) == (name, place)
        most = [len(wide.CORNERS[entry.meets]), len(wide.RISES), 1 + entry.two_hands]
        pitches = 1 if entry.meets == "nothing" else len(wide.OTHER_RISES)
        assert len(roofs) == np.prod(most) * pitches
        assert set(roofs.corner_deg) == set(wide.CORNERS[entry.meets])
        assert set(roofs.rise) == set(wide.RISES)
        assert set(roofs.hand) == ({1.0, -1.0} if entry.two_hands else {1.0})
        assert ((roofs.rise == roofs.other_rise).sum() == len(roofs)) == (pitches == 1)


def test_the_field_holds_a_million_cases():
    cases = sum(
        len(wide.field_of(entry)) * len(entry.ends) * len(wide.STOCKS)
        for entry in catalogue().values()
    )
    assert cases > 1_000_000


@pytest.mark.parametrize("name", ["hip-jack", "hip-tail", "purlin-square", "hip-backing"])
def test_an_array_says_what_a_single_answer_says(name):
    """One roof on one board the array's way and `mark`'s: the plane, the verdict, the refusal."""
    entry = find(name)
    field = wide.field_of(entry)
    answered = 0
    for at in range(100, len(field), 2221):
        roof = field.part(at, at + 1)
        case = dict(zip(("pitch", "other_pitch", "corner", "hand"), roof._arrays, strict=True))
        question = partial(
            ask,
            name,
            pitch=read_pitch(f"{float(case['pitch'][0])} in 12"),
            other_pitch=read_pitch(f"{float(case['other_pitch'][0])} in 12"),
            corner_deg=float(case["corner"][0]),
            hand=Hand.LEFT if case["hand"][0] > 0 else Hand.RIGHT,
        )
        try:
            tried = wide.over_the_field(entry, entry.ends[0], roof)
        except CutError:
            with pytest.raises(CutError):
                answer(question())
            continue
        single = answer(question())
        planes = entry.joint(roof.corner).cuts(single.question.stock)
        assert single.by_hand.sound == (tried.hand.gap_in < SOUND_IN)
        assert single.cut.normal == pytest.approx(planes[0].normal[0], abs=1e-12)
        answered += 1
    assert answered > 2


def gaps_as_read(words: list[str]) -> dict[str, float]:
    """The gaps of a case that is shown by a command, answered by its words alone."""
    given = dict(zip(words[3::2], words[4::2], strict=True))
    pitch = read_pitch(f"{given.pop('--pitch')} in 12")
    said = answer(
        ask(
            words[2],
            pitch=pitch,
            other_pitch=read_pitch(f"{given.pop('--other-pitch', pitch.rise)} in 12"),
            corner_deg=float(given.pop("--corner", 90.0)),
            hand=Hand(given.pop("--hand", "left")),
            end=given.pop("--end", None),
            stock=read_stock(given.pop("--stock")),
        )
    )
    assert not given
    every = (said, *said.others)
    return {
        "hand_read": max(float(each.by_hand.read.widest_in) for each in every),
        "saw_read": max(float(each.by_saw.read.widest_in) for each in every),
    }


@pytest.mark.parametrize(
    ("name", "end"),
    [
        ("hip-jack", "head"),
        ("cripple-jack", "foot"),
        ("hip-backing", "foot"),
        ("common-seat", "foot"),
    ],
)
def test_the_command_of_the_worst_case_shows_its_gap(name, end):
    """Up to 12 in 12, beside a flatter roof, both `mark` and the wide check lay 12 and a smaller
    number. The command that is printed, asked as it stands, leaves the very gap."""
    entry = find(name)
    field = wide.field_of(entry)
    at = field.other_rise <= field.rise
    at &= (field.rise <= 12) & (field.rise % 2.25 == 0) & (field.hand == field.hand[-1])
    if entry.meets != "nothing":
        at &= field.corner_deg == entry.usual_corner_deg
    assert at.sum() > 4
    tried = wide.over_the_field(entry, end, wide.Roofs(*(a[at] for a in field._arrays)))
    planes = len(entry.joint(field.part(0, 1).corner, end).planes)
    assert (tried.cases, tried.no_place) == (at.sum() * len(wide.STOCKS) * planes, 0)
    for method in ("hand_read", "saw_read"):
        worst = getattr(tried, method)
        assert worst.gap_in > 1e-3 or (name, method) in SET_EXACTLY
        command = worst.command(entry, end)
        assert (f" --end {end} " in command) == ("--end" in command) == (len(entry.ends) > 1)
        shown = gaps_as_read(shlex.split(command))
        assert shown[method] == pytest.approx(worst.gap_in, abs=1e-9)
        for case in np.flatnonzero(at)[::5]:
            other = replace(worst, roof=field.part(case, case + 1))
            gaps = gaps_as_read(shlex.split(other.command(entry, end)))
            assert gaps[method] <= worst.gap_in + 1e-9


SET_EXACTLY = {("common-seat", "hand_read"), ("common-seat", "saw_read")}
"""A rise in quarters of an inch, and 12, stand on the square; a blade that stands square too."""


@pytest.mark.parametrize(
    ("module", "function"), [(hand, "plane_through"), (saw, "plane_from_face")]
)
def test_a_wrong_method_is_found(monkeypatch, module, function):
    right = getattr(module, function)
    monkeypatch.setattr(module, function, lambda *given: np.abs(right(*given)))
    entry = find("hip-jack")
    tried = wide.over_the_field(entry, "head", wide.field_of(entry).part(0, 50))
    assert not tried.sound
    worst = max(tried.hand, tried.saw, key=lambda case: case.gap_in)
    assert worst.command(entry, "head").startswith("squaresaw mark hip-jack --pitch ")


@pytest.mark.parametrize("faces", Hand)
def test_the_command_of_a_case_asks_for_its_hand(faces):
    roof = wide.Roofs(*(np.array([value]) for value in (8.0, 9.0, 90.0, float(faces.sign))))
    command = wide.Widest(0.0, roof, read_stock("2x6")).command(find("hip-jack"), "head")
    assert f" --hand {faces.value} " in command
