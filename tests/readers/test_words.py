"""What `mark` prints, read by one who has nothing but the words, is the plane of the joint."""

import ast
import re
from functools import cache
from itertools import product
from pathlib import Path

import numpy as np
import pytest

from layout.answer import sense_words
from layout.answer.answer import Answer, answer
from layout.answer.question import ask
from layout.cuts import Hand, catalogue
from layout.errors import LayoutError
from layout.plane.joint import Plane
from layout.quantity import read_pitch
from layout.stock import read_stock
from layout.tools.saw import SawKind, SawLimits
from lessons.say import words as say
from lessons.say.words import read_aloud
from tests.counts import LONG
from tests.readers.words import PlaneRead, TwoReadingsError, UnreadError, read_mark
from tests.second_way import Roof, Stick, second_way

ENDS = [(name, end) for name, entry in catalogue().items() for end in entry.ends]
ROOFS = (("8", "8", 0.0), ("5", "9", 0.0), ("12", "12", 15.0), ("9", "6", -20.0), ("3", "14", 5.0))
"""Pitch, other pitch, and how far the corner is off square [degrees]."""
KINDS: tuple[SawKind | None, ...] = (None, *SawKind)
BOARDS = ("2x6", "4x6", "2x2", "38mm x 140mm")
SAME = 5e-3
"""Angles stand to a hundredth of a degree; two of them in a product leave a little more."""


@cache
def answered(name, end, hand, roof, kind, board) -> Answer | None:
    pitch, other, off = roof
    entry = catalogue()[name]
    try:
        question = ask(
            name,
            end=end,
            hand=hand,
            pitch=read_pitch(pitch),
            other_pitch=read_pitch(other),
            corner_deg=entry.usual_corner_deg + off,
            stock=read_stock(board),
        )
    except LayoutError:
        return None
    return answer(question, limits=SawLimits(kind=kind))


def reads(one: Answer, kind: SawKind | None, text: str | None = None) -> None:
    """The words give every plane of the joint, the hand, and the marks on a backed edge."""
    sheet = read_mark(text or read_aloud(one), saw=kind.value if kind else None)
    for plane, cut in zip(sheet.planes, one.cuts, strict=True):
        assert np.abs(plane.normal - cut.normal).max() < SAME
    sides = [cut.normal[1] for cut in one.cuts if abs(cut.normal[1]) > 1e-9]
    hand = None if not sides else "left" if sides[0] > 0 else "right"
    assert sheet.hand == hand
    assert sheet.up_face == up_by_world_points(one)
    assert sheet.own_side == own_side_by_world_points(one)
    the_backed_lines_give_the_planes(sheet.planes, one)
    mates = [mated(plane) for plane in one.question.joint.planes]
    assert [plane.mate for plane in sheet.planes] == (mates if len(mates) > 1 else [None])


def the_backed_lines_give_the_planes(planes: list[PlaneRead], one: Answer) -> None:
    """Each line on a bevel of a backed edge lies on its cut, where it is drawn as it is said."""
    roofs = bevels_by_world_points(one)
    for which, plane in enumerate(planes):
        said = {face: degrees for face, degrees, _ in plane.backed}
        assert said == pytest.approx(backed_by_world_points(one, which), abs=6e-3)
        assert roofs.keys() == said.keys()
        for face, degrees, left_end in plane.backed:
            built = through_the_lines(plane, roofs[face], degrees, left_end)
            # Nearly level marks on the face magnify a hundredth of a degree.
            assert np.abs(built - plane.normal).max() < 4 * SAME, (face, degrees, left_end)


def mated(plane: Plane) -> str:
    """A mate's name as men say it: "own wall" is this roof's, "other wall" the other roof's."""
    whose, _, what = plane.mate_name.partition(" ")
    roof = {"own": "this roof's", "other": "the other roof's"}.get(whose)
    return f"{roof} {what}" if roof else f"the {plane.mate_name}"


def through_the_lines(
    plane: PlaneRead, bevel: np.ndarray, degrees: float, left_end: float
) -> np.ndarray:
    """The plane that holds the line on one bevel and the line on the wide face.

    A line `degrees` from square across a surface goes tan(degrees) along the board for every unit
    across it. To the left in a bevel whose normal is (0, y, z) goes (0, z, -y).
    """
    on_bevel = np.array([left_end * np.tan(np.radians(degrees)), bevel[2], -bevel[1]])
    top = {"head": 1.0, "foot": -1.0, None: 0.0}[plane.face_top]
    on_face = np.array([top * np.tan(np.radians(plane.face_deg)), 0.0, 1.0])
    normal = np.cross(on_bevel, on_face)
    normal /= np.linalg.norm(normal)
    return normal if normal @ plane.normal > 0 else -normal


def roof_of(one: Answer) -> Roof:
    """Rise over run of both roofs, and the corner."""
    asked = one.question
    slopes = (each.rise / each.run for each in (asked.pitch, asked.other_pitch))
    return Roof(*slopes, asked.corner.interior_deg)


def placed_by_world_points(one: Answer) -> Stick:
    """The stick as it stands in the world, found from points apart from the program."""
    asked = one.question
    return second_way(asked.entry.name, asked.end, roof_of(one), asked.hand.sign)


def up_by_world_points(one: Answer) -> str | None:
    """The wide face that looks up in place; None where both stand plumb."""
    rises = float(placed_by_world_points(one).axes[1, 2])
    return None if abs(rises) < 0.02 else "left" if rises > 0 else "right"


def own_side_by_world_points(one: Answer) -> tuple[str, str] | None:
    """On which side of a hip or valley the wall lies that the own roof rises from.

    The stick runs up over the line of both roofs; the walls stand on either side of it. None for
    a stick that lies in one roof, and where both roofs have one pitch.
    """
    roof = roof_of(one)
    stick = placed_by_world_points(one)
    head = stick.axes[0]
    up = np.array([0.0, 0.0, 1.0])
    on_line = abs(head @ roof.line) > (1 - 1e-9) * np.linalg.norm(roof.line)
    mirrored = abs(head @ (roof.line * (-1, 1, 1))) > (1 - 1e-9) * np.linalg.norm(roof.line)
    plumb = abs(stick.axes[1] @ up) < 1e-9
    if not ((on_line or mirrored) and plumb) or roof.a == roof.b:
        return None
    wall = np.array([1.0 if on_line else -1.0, 0.0, 0.0])
    side = "left" if wall @ stick.axes[1] > 0 else "right"
    return side, "valley" if roof.w_deg > 180.0 else "hip"


def bevels_by_world_points(one: Answer) -> dict[str, np.ndarray]:
    """The bevels of a backed edge by the face they lie at, as normals in the board's axes.

    They are the roofs, from points in the world. On a hip's crown the bevel that faces left lies
    on the left half, in a valley's hollow on the right half. None on a stick that carries no two
    roofs, for a rip along the edge, and for a notch, which is open at the bottom edge.
    """
    if one.is_rip or one.question.entry.name.endswith("-seat"):
        return {}
    corner = one.question.corner.interior_deg
    roof = roof_of(one)
    stick = placed_by_world_points(one)
    valley = corner > 180.0
    backings = [
        second_way("valley-backing" if valley else "hip-backing", "foot", roof, side)
        for side in (1.0, -1.0)
    ]
    found = {}
    for bevels in (each for each in backings if np.allclose(each.axes, stick.axes)):
        for bevel in bevels.normals:
            side = "left" if (bevel[1] > 0) != valley else "right"
            found[f"{side} face"] = bevel
    return found


def backed_by_world_points(one: Answer, which: int = 0) -> dict[str, float]:
    """The marks on a backed edge's bevels from points in the world: a cut's plane and each roof."""
    normal = placed_by_world_points(one).normals[which]
    marks = {}
    for face, bevel in bevels_by_world_points(one).items():
        x, y, z = np.cross(normal, bevel)
        marks[face] = float(np.degrees(np.arctan2(abs(x), np.hypot(y, z))))
    return marks


@pytest.mark.parametrize("name", ["hip-ridge-single", "valley-ridge"])
def test_both_marks_on_a_backed_edge_exchanged_at_once_are_seen(name):
    one = answered(name, "head", Hand.LEFT, ROOFS[1], None, "2x6")
    text = read_aloud(one)
    left, right = backed_by_world_points(one).values()
    assert abs(left - right) > 0.1
    wrong = swapped(text, "bevel at the left face", "bevel at the right face")
    assert wrong != text
    read_mark(wrong)  # the words alone can be so: the roofs tell
    reads(one, None)
    with pytest.raises(AssertionError):
        reads(one, None, wrong)


@pytest.mark.parametrize("hand", list(Hand))
@pytest.mark.parametrize(("name", "end"), [each for each in ENDS if each[0][:3] in ("hip", "val")])
def test_each_line_on_a_backed_edge_lies_on_the_cut(name, end, hand):
    """8 in 12 against 9, and each roof the other's; on a 2x10, which these lines are drawn over.

    A shortened valley's head at 8 and 9 in 12, left hand: face mark 26.49 degrees with its top
    toward the head, edge mark 7.51 with its left end toward the foot. The roof on the left half
    leans 26.64 off the square edge, so that its line's left end lies
    tan 26.49 x sin 26.64 - tan 7.51 x cos 26.64 = 0.2235 - 0.1178 = 0.106 in nearer the head for
    each inch of bevel: atan 0.106 = 6.03 degrees, toward the head and not the foot.
    """
    for pitches in (("8", "9", 0.0), ("9", "8", 0.0), ("4", "13", 0.0)):
        one = answered(name, end, hand, pitches, None, "2x10")
        if one is not None:
            reads(one, None)
    if (name, hand) == ("valley-to-valley", Hand.LEFT):
        text = read_aloud(answered(name, end, hand, ("8", "9", 0.0), None, "2x10"))
        assert (
            "on the bevel at the left face draw 6.03° from square across, its left end toward"
            " the head" in text
        )


def test_a_notch_that_never_reaches_the_top_edge_has_no_line_there():
    for name in ("hip-seat", "valley-seat"):
        assert "backed" not in read_aloud(answered(name, "foot", Hand.LEFT, ROOFS[0], None, "2x6"))


@pytest.mark.parametrize("name", ["hip-ridge", "hip-tail", "valley-tail", "hip-seat"])
def test_the_first_of_several_cuts_says_what_it_lies_against(name):
    (end,) = catalogue()[name].ends
    text = read_aloud(answered(name, end, Hand.LEFT, ROOFS[1], None, "2x6"))
    said = {
        "hip-ridge": "against this roof's common, the cheek faces left",
        "hip-tail": "against this roof's fascia, the cheek faces left",
        "valley-tail": "against this roof's fascia, the cheek faces left",
        "hip-seat": "against the plate",
    }[name]
    assert f"FIRST CUT    {said}" in text.splitlines()


CASES = list(product(ROOFS, KINDS, BOARDS))


@pytest.mark.parametrize(("name", "end"), ENDS)
def test_the_words_alone_give_the_plane(name, end):
    """Every cut and end, both hands; roofs, saws and boards: a few of them, or all."""
    place = ENDS.index((name, end))
    some = CASES if LONG else [CASES[place * 7 % len(CASES)]]
    read = 0
    for (roof, kind, board), hand in product([(ROOFS[0], None, "2x6"), *some], Hand):
        one = answered(name, end, hand, roof, kind, board)
        if one is not None:
            reads(one, kind)
            read += 1
    assert read >= 2


def swapped(text: str, a: str, b: str) -> str:
    return text.replace(a, "\0").replace(b, a).replace("\0", b)


@cache
def printed(name, end, hand, kind, board):
    return read_aloud(answered(name, end, hand, ROOFS[0], kind, board))


FLIPS = [
    ("hand_line", "LEFT", "RIGHT"),
    ("hand_line", "faces left", "faces right"),
    ("up_words", "left face", "right face"),
    ("waste_words", "head", "foot"),
    ("waste_words", "top", "bottom"),
    ("leaning", "head", "foot"),
    ("lean_words", "kept wood", "waste"),
    ("lean_words", "head", "foot"),
    ("lean_words", "top edge", "bottom edge"),
    ("wide_words", "kept wood", "waste"),
    ("body_words", "kept wood", "waste"),
    ("start_words", "top edge", "bottom edge"),
    ("start_words", "left face", "right face"),
    ("start_words", "head", "foot"),
    ("start_words", "blade-left", "blade-right"),
    ("long_point_words", "left face", "right face"),
    ("miter_words", "right face down", "left face down"),
    ("miter_words", "top edge against", "bottom edge against"),
    ("miter_words", "head to your right", "head to your left"),
    ("miter_words", "waste at your right", "waste at your left"),
    ("miter_words", "to your left; tilt", "to your right; tilt"),
    ("miter_words", "leaning to your left", "leaning to your right"),
]
OTHERWISE = {
    "head": "foot",
    "left": "right",
    "top": "bottom",
    "kept wood": "waste",
    "blade-left": "blade-right",
    "blade": "tongue",
    "below": "above",
    "under": "over",
    "nearer": "farther from",
    "toward": "away from",
    "against": "away from",
    "down": "up",
    "steadier": "shakier",
    "behind": "before",
    "inside": "outside",
    "past": "short of",
}
OTHERWISE |= {b: a for a, b in OTHERWISE.items() if b not in ("away from", "before")}
OF_SENSE = re.compile(rf"\b(?:{'|'.join(sorted(OTHERWISE, key=len, reverse=True))})\b", re.I)
"""Every word that turns a tool or names a side, and its opposite."""
EVERYWHERE = re.compile(
    r"\b(?:heads?|foot|feet|lefts?|rights?|tops?|bottoms?|up|down|upper|lower|kept|waste|front|back"
    r"|behind|before|above|below|over|under|in|out|inside|outside|near\w*|far\w*|toward|away|past"
    r"|against|beside|across|clockwise|steadier)\b",
    re.I,
)
NO_SENSE = {
    "in": "inches; the blade runs in under",
    "out": "out of reach",
    "kept": "only as 'kept wood'",
    "over": "the saw leans over: said above the board alone, and exchanged as 'over'",
    "across": "square across",
    "beside": "a comment",
    "before": "you stand before the miter saw: a gloss that must stand as it is",
    "up": "screws",
    "front": "of the miter saw's table: a gloss that must stand as it is",
}


def test_the_list_of_words_of_sense_is_whole():
    """Each word of direction in the one module that says senses is exchanged below, or is none."""
    source = Path(sense_words.__file__).read_text("utf-8")
    said: set[str] = set()
    for node in ast.walk(ast.parse(source)):
        if (
            isinstance(node, ast.Constant)
            and isinstance(node.value, str)
            and "\n" not in node.value
        ):
            said |= {word.lower() for word in EVERYWHERE.findall(node.value)}
    assert said >= {"head", "foot", "left", "right", "top", "bottom", "waste", "below", "above"}
    for word in said - set(OTHERWISE):
        assert word in NO_SENSE, f"{word!r} turns a tool: exchange it in this test"


def exchanged(text):
    """The text with one word of sense exchanged for its opposite, once for each such word."""
    told = text.index("\n", text.index("\n") + 1)  # the cut's and the roof's own names
    cautions = text.index("\nCheck that the guard")
    for found in OF_SENSE.finditer(text, 0, cautions):
        word = found[0].lower()
        if found.start() < told and word not in ("head", "foot", "left", "right", "top", "bottom"):
            continue
        if word == "under" and text[found.end() + 1].isdigit():
            continue  # under 1/128 in
        new = OTHERWISE[found[0].lower()]
        new = new.upper() if found[0].isupper() else new.capitalize() if found[0].istitle() else new
        line = text[text.rfind("\n", 0, found.start()) + 1 : text.find("\n", found.end())]
        yield found[0].lower(), line, text[: found.start()] + new + text[found.end() :]


LAID_EITHER_WAY = re.compile(r"([\d /]+) on the blade, \1 on the tongue")
EXCHANGED_ON = [
    ("hip-jack", "head", SawKind.BLADE_LEFT, "2x6"),
    ("valley-jack", "foot", None, "4x6"),
    ("hip-backing", "foot", None, "2x6"),
    ("hip-seat", "foot", SawKind.BLADE_RIGHT, "2x6"),
    ("hip-seat", "foot", SawKind.BOTH_WAYS, "2x6"),
    ("hip-ridge", "head", None, "2x2"),
]


@pytest.mark.parametrize("hand", list(Hand))
@pytest.mark.parametrize(
    ("name", "end", "kind", "board"),
    [(*each, kind, board) for each in ENDS for kind in KINDS for board in ("2x6", "4x6")]
    if LONG
    else EXCHANGED_ON,
)
def test_every_single_word_of_sense_is_read(name, end, kind, board, hand):
    """One word of a whole sheet, exchanged for its opposite, and the reader refuses the sheet."""
    one = answered(name, end, hand, ROOFS[1], kind, board)
    text = read_aloud(one)
    reads(one, kind)
    seen = 0
    for word, line, wrong in exchanged(text):
        if LAID_EITHER_WAY.search(line) and word in ("blade", "tongue"):
            continue  # 12 and 12 lay one line on either arm
        seen += 1
        try:
            _same_plane(wrong, one, kind)
        except (UnreadError, TwoReadingsError, AssertionError):
            continue
        pytest.fail(f"{word!r} can be exchanged unseen in {line!r}")
    assert seen > 15


FLIPPED_ON = [
    (name, end, hand, kind, board)
    for name, end in (
        ("hip-jack", "head"),
        ("valley-jack", "foot"),
        ("hip-backing", "foot"),
        ("sleeper-edge", "foot"),
        ("fascia-plumb", "head"),
    )
    for hand, kind, board in (
        product(Hand, (None, *SawKind), ("2x6", "2x2"))
        if LONG
        else ((Hand.LEFT, None, "2x2"), (Hand.RIGHT, SawKind.BLADE_LEFT, "2x6"))
    )
]


@pytest.mark.parametrize(("function", "a", "b"), FLIPS)
def test_no_word_of_sense_can_be_flipped_unseen(monkeypatch, function, a, b):
    """Each word that turns a tool, exchanged for its opposite, is refused on every sheet."""
    true = getattr(sense_words, function)

    def flipped(*given, **named):
        said = true(*given, **named)
        return (
            [swapped(one, a, b) for one in said] if isinstance(said, list) else swapped(said, a, b)
        )

    seen = 0
    for name, end, hand, kind, board in FLIPPED_ON:
        one = answered(name, end, hand, ROOFS[0], kind, board)
        right = printed(name, end, hand, kind, board)
        with monkeypatch.context() as patched:
            patched.setattr(say, function, flipped)
            wrong = read_aloud(one)
        if wrong == right:
            continue
        seen += 1
        with pytest.raises((UnreadError, TwoReadingsError, AssertionError)):
            _same_plane(wrong, one, kind)
    assert seen, "this word stands on none of the sheets"


def test_both_roofs_exchanged_at_once_are_seen():
    one = answered("hip-seat", "foot", Hand.LEFT, ROOFS[1], None, "2x6")
    text = read_aloud(one)
    (line,) = (line for line in text.splitlines() if "this roof (" in line)
    wrong = text.replace(line, swapped(line, "left", "right"))
    read_mark(wrong)  # the words alone can be so: the roofs tell
    with pytest.raises(AssertionError):
        _same_plane(wrong, one, None)


def _same_plane(text, one, kind):
    sheet = read_mark(text, saw=kind.value if kind else None)
    for plane, cut in zip(sheet.planes, one.cuts, strict=True):
        assert np.abs(plane.normal - cut.normal).max() < SAME
    assert sheet.up_face == up_by_world_points(one)
    assert sheet.own_side == own_side_by_world_points(one)
    the_backed_lines_give_the_planes(sheet.planes, one)


@pytest.mark.parametrize(
    "line",
    [
        "  left face  the blade leans out over the waste, toward the head",
        "  left face  the blade leans in under the kept wood, toward the foot",
        "  left face  the blade leans toward the head",
        "  left face  bevel 45° to the left",
        "  left face  the saw goes from the left to the right",
    ],
)
def test_what_can_be_taken_two_ways_is_refused(line):
    text = read_aloud(answer(ask("hip-jack")))
    old = next(one for one in text.splitlines() if one.startswith("  left face"))
    with pytest.raises(TwoReadingsError):
        read_mark(text.replace(old, line))


def test_a_sentence_it_does_not_know_is_refused():
    text = read_aloud(answer(ask("hip-jack")))
    with pytest.raises(UnreadError):
        read_mark(text.replace("wide side of the shoe on", "broad side of the shoe on"))


def test_a_seat_on_one_face_alone_is_told_up_to_its_inside_corner():
    """In a board 1 1/2 square the heels of 5 and 9 in 12 run out past the seat on one face."""
    for hand, side in ((Hand.LEFT, "right"), (Hand.RIGHT, "left")):
        one = answered("hip-seat", "foot", hand, ROOFS[1], None, "2x2")
        reads(one, None)
        told = f"long on the {side} face, none on the {hand.value}, from the bottom edge to the"
        assert f"{told} inside corner" in read_aloud(one)
