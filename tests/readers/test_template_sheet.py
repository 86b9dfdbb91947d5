"""Every word group on a printed template stands on the surface that it names."""

from dataclasses import replace
from math import hypot

import pytest

from figures.files.press import write
from figures.ink.paper import read_paper
from figures.page.tiling import PrintSetup, pages
from figures.wrap.both_ends import lay_ends
from figures.wrap.note_blocks import note_blocks
from figures.wrap.wrap import lay
from figures.wrap.wrap_lettering import WrapLettering
from layout.answer.answer import answer
from layout.answer.question import ask
from layout.cuts import Hand, catalogue
from layout.quantity import read_pitch
from layout.stock import read_stock
from tests.counts import LONG
from tests.readers.printed_sheets import asked, printed
from tests.readers.template_sheet import (
    BETWEEN,
    NAMES,
    fold_lines,
    paper_of,
    papers,
    pointed,
    read_sheet,
)

PAPERS = ("Letter", "A4", "Tabloid", "roll-24")
STOCKS = ("2x6", "2x12", "38mm x 140mm")
ROOFS = (("3 1/2", "3 1/2"), ("8", "8"), ("8", "9"), ("14", "14"))
ENDS = [
    (name, end, hand)
    for name, entry in catalogue().items()
    if not ask(name).joint.rip
    for end in entry.ends
    for hand in Hand
    if hand is Hand.LEFT or entry.two_hands
]
EVERY = [
    (*end_of, paper, stock, *ROOFS[(i + j + k) % len(ROOFS)])
    for i, end_of in enumerate(ENDS)
    for j, paper in enumerate(PAPERS)
    for k, stock in enumerate(STOCKS)
]
"""Each end of each cut by either hand on each paper with each board, the four roofs dealt out: a
quarter of the whole product."""
SHARE = [
    ("valley-jack", "foot", Hand.LEFT, "Letter", "2x6", "8", "8"),
    ("fascia-plumb", "head", Hand.LEFT, "A4", "38mm x 140mm", "3 1/2", "3 1/2"),
    ("common-tail-square", "foot", Hand.LEFT, "Tabloid", "2x6", "8", "8"),
    ("hip-jack", "head", Hand.RIGHT, "Letter", "2x6", "8", "9"),
    ("gable-stud", "head", Hand.LEFT, "Letter", "2x4", "8", "8"),
    ("common-tail-level", "foot", Hand.LEFT, "Letter", "2x6", "8", "8"),
]


@pytest.mark.parametrize(
    ("name", "end", "hand", "paper", "stock", "pitch", "other"), EVERY if LONG else SHARE
)
def test_each_surface_bears_its_own_name(tmp_path, name, end, hand, paper, stock, pitch, other):
    one = asked(name, end, stock, pitch, other, hand)
    path, count = printed(one, paper, tmp_path)
    read = [read_sheet(path, index) for index in range(count)]
    seen: set[str] = set()
    for sheet in read:
        if sheet.heavy:
            seen |= _named(sheet)
    faces = {"RIGHT FACE", "LEFT FACE"}
    assert seen >= faces, "every wide face bears its name"
    assert seen & {"TOP EDGE", "BOTTOM EDGE"}, "and so does the edge"
    _notes_stand_where_they_say(read)


def test_a_note_whose_number_stands_on_another_surface_is_seen(tmp_path):
    """With the numbers on the two faces exchanged, or one of them rubbed out, the reader fails."""
    one = answer(ask("brace", pitch=read_pitch("14"), stock=read_stock("38mm x 140mm")))
    made = lay_ends(one)[0].lettered()
    blocks = note_blocks(made.notes)
    sheets = pages(made.drawing, PrintSetup(read_paper("Tabloid")), title="x", blocks=blocks)
    (path,) = write(sheets, tmp_path / "a.pdf", title="x")
    sheet = read_sheet(path)
    assert _notes_stand_where_they_say([sheet]) == len(sheet.numbers)
    first, second, *rest = sheet.numbers
    wrong = replace(first, text=second.text), replace(second, text=first.text), *rest
    for numbers in (wrong, sheet.numbers[1:]):
        with pytest.raises(AssertionError, match="note"):
            _notes_stand_where_they_say([replace(sheet, numbers=numbers)])


def test_a_name_on_another_surface_is_seen(tmp_path, monkeypatch):
    """With the top edge's name two inches lower, on the right face, the reader fails."""
    put = WrapLettering._surface_name

    def wrong(self, name):
        label = put(self, name)
        if name == "top edge":
            self.labels.remove(label)
            self.labels.append(replace(label, y=label.y - 2.0))
            return None
        return label

    monkeypatch.setattr(WrapLettering, "_surface_name", wrong)
    made = lay(answer(ask("hip-jack"))).lettered()
    # Without its note the edge has no heading but its name.
    labels = [one for one in made.drawing.labels if not _is_edge_note(one)]
    bare = replace(made.drawing, labels=tuple(labels))
    sheets = pages(bare, PrintSetup(read_paper("Tabloid")), title="x")
    (path,) = write(sheets, tmp_path / "a.pdf", title="x")
    sheet = read_sheet(path)
    assert any(words.text == "TOP EDGE" for words in sheet.words)
    with pytest.raises(AssertionError):
        _named(sheet)


def _is_edge_note(label):
    return label.gid == "block" and label.text.startswith(("TOP EDGE", "Edge mark"))


def _named(sheet):
    """The surfaces named on a page, each name where its own strip lies between the folds.

    Fold words say which two surfaces a fold parts; a name off the strips has a pointer into it.
    """
    seen = set()
    surfaces = _surfaces(sheet)
    among = [paper for paper, _ in surfaces]
    for paper, where in surfaces:
        assert len(set(where.values())) == len(where), f"two surfaces on one strip: {where}"
        for name, strip in where.items():
            for other, beside in where.items():
                if abs(strip - beside) == 1:
                    pair = [{name, other} <= (a | b) for a, b in BETWEEN.values()]
                    assert any(pair), f"{name} lies beside {other}"
        _folds_named(sheet, paper, among, where)
        seen |= set(where)
    return seen


def _surfaces(sheet):
    """Each paper on a page, and the strip on which each surface is named."""
    among = papers(sheet)
    found = []
    for paper in among:
        names: dict[str, list[int]] = {}
        for words, spot in _on(paper, sheet.words, sheet, among):
            if words.text in NAMES:
                names.setdefault(words.text, []).append(paper.strip(spot))
        assert all(len(set(strips)) == 1 for strips in names.values()), names
        found.append((paper, {name: strips[0] for name, strips in names.items()}))
    return found


def _on(paper, words, sheet, among):
    """Of some words those on a paper or nearest to it, and the place that each is about."""
    for one in words:
        led = [each for each in among if pointed(sheet, one, each) != one.at]
        nearest = led[0] if led else paper_of(one.at, among)
        if nearest is paper:
            yield one, pointed(sheet, one, paper)


def _folds_named(sheet, paper, among, where):
    """Words along a fold name the two surfaces that it parts."""
    at_strip = {strip: name for name, strip in where.items()}
    for words, (x, y) in _on(paper, sheet.words, sheet, among):
        parted = BETWEEN.get(words.text.removeprefix("FOLD: "))
        if parted is None or not paper.folds:
            continue
        value = x if paper.axis == "x" else y
        below = min(range(len(paper.folds)), key=lambda i: abs(paper.folds[i] - value))
        sides = {at_strip.get(below), at_strip.get(below + 1)} - {None}
        assert all(name in parted[0] | parted[1] for name in sides), (words.text, sides)


def _notes_stand_where_they_say(sheets):
    """How many numbers stand on the surface that their note names; none stands on another.

    The note may stand on another page than its number.
    """
    about = dict(noted for sheet in sheets for noted in sheet.noted)
    stood, told = set(), 0
    for sheet in sheets:
        surfaces = _surfaces(sheet)
        stood |= {number.text for number in sheet.numbers}
        among = [paper for paper, _ in surfaces]
        for paper, where in surfaces:
            at_strip = {strip: name for name, strip in where.items()}
            for number, spot in _on(paper, sheet.numbers, sheet, among):
                assert number.text in about, f"no note has the number {number.text}"
                here, meant = at_strip.get(paper.strip(spot)), about[number.text]
                if here is not None and meant is not None:
                    assert here == meant, f"note {number.text}, on the {meant}, is on {here}"
                    told += 1
    assert stood == set(about), "the number of every note stands on the wrap"
    return told


@pytest.mark.parametrize("hand", list(Hand))
@pytest.mark.parametrize(
    ("name", "pitch", "other"),
    [
        ("valley-to-valley", "8", "9"),
        ("valley-ridge", "8", "8"),
        ("valley-ridge", "5", "12"),
        ("hip-ridge-single", "8", "9"),
    ],
)
def test_a_fold_is_called_the_middle_only_where_it_lies_there(tmp_path, name, pitch, other, hand):
    """A valley's bevels climb out of the trough to both arrises of the faces, equally high.

    With n and n' the two roofs leaning y and y' to the side for each unit up in the board's axes,
    the trough lies y' / (y + y') of the thickness from the side that n climbs to. Between equal
    pitches that is the middle, and a hip's bevels are laid out from its middle at any.
    """
    one = asked(name, "head", "2x10", pitch, other, hand)
    path, count = printed(one, "roll-24", tmp_path, backed=True)
    (sheet,) = (read_sheet(path, index) for index in range(count))
    # One trough: the folds lie side by side, the bevels between three of them.
    right, trough, left = sorted(at for _, at, _ in fold_lines(sheet))
    falls = [
        abs(float(up[1] / up[2]))
        for up in (one.question.joint.pose.to_board(roof) for roof in one.question.joint.bevels)
    ]
    slant = [hypot(1.0, fall) for fall in falls]
    wide = one.question.stock.thickness_in
    if name.startswith("hip"):
        across = [wide / 2, wide / 2]
    else:
        across = [wide * falls[1] / sum(falls), wide * falls[0] / sum(falls)]
    strips = sorted(each * longer for each, longer in zip(across, slant, strict=True))
    assert sorted([trough - right, left - trough]) == pytest.approx(strips, abs=0.005)
    said = {words.text for words in sheet.words if words.text.startswith("FOLD: ")}
    middle = abs(across[0] - across[1]) < 0.005
    assert ("FOLD: middle of the top edge" in said) == middle
    assert ("FOLD: trough of the backing" in said) != middle
