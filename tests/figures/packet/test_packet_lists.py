"""A packet's lists and its sheets of square sticks, read from what is drawn."""

from functools import cache

import pytest

from figures.ink.paper import read_paper
from figures.packet.layout_sheets import layout_sheets
from figures.packet.lists import PageIndex, lists
from figures.packet.making import Making
from figures.packet.plain_sheets import plain, plain_sheets
from figures.pictures.roof_views import framed as in_view
from figures.pictures.roof_views import roof_plan_picture
from figures.pictures.whole_stick import whole_stick
from layout.answer.answer import answer
from layout.framing.cutlist import piece_groups, piece_rows
from layout.framing.ends import common_mates, distinct_ends, planes_at
from layout.job.job import Job
from layout.job.job_roof import framed


@cache
def made(metric=False):
    roof = framed(Job("yard", {"size": "24' x 16'", "spacing": "24in"}))
    return Making(roof, read_paper("Letter"), "", answer, metric)


def of(metric=False):
    rows, groups = piece_rows(made().roof), piece_groups(made().roof)
    index = PageIndex(
        {row.mark: (6, 7) for row in rows}, {row.mark: (20, 21, 22, 25) for row in rows}, (29, 30)
    )
    return rows, groups, lists(made(metric), rows, index)


def test_the_cut_list_says_the_pages_of_every_piece_and_of_the_layout():
    rows, _, (cut, *_) = of()
    assert "where every stick stands: pages 29, 30" in cut.means
    for row, line in zip(rows, cut.lines, strict=True):
        cells = dict(zip(cut.head, line, strict=True))
        assert (cells["piece"], cells["no."]) == (row.mark, str(row.count))
        assert (cells["sheet"], cells["templates"]) == ("6, 7", "20 to 22, 25")
    assert any(" to " in line[-1] for line in cut.lines)


def test_the_boards_to_buy_begin_with_what_to_ask_for():
    _, _, (_, buy, *_) = of()
    total = sum(int(line[0]) for line in buy.lines)
    said = buy.means.partition(": ")[2].partition(". ")[0]
    assert sum(int(part.split()[0]) for part in said.split(", ")) == total
    assert any("fascia" in line[1] for line in buy.lines)


def test_metric_lists_say_their_unit_once():
    _, _, (cut, buy, *_) = of(metric=True)
    for one in (cut, buy):
        assert one.means.endswith("Cells are in millimeters.")
        assert not any(cell.endswith(" mm") for line in one.lines for cell in line)


def test_square_pieces_share_a_sheet_with_all_their_words():
    rows, groups, _ = of()
    square = [row for row in rows if plain(groups[row.mark])]
    assert {row.role for row in square} == {"ridge", "plate"}
    ((marks, page),) = plain_sheets(made(), square, groups)
    assert marks == tuple(row.mark for row in square)
    text = " ".join(label.text for label in page.drawing.labels)
    for row in square:
        assert f"Piece {row.mark}: {row.role}, {row.count} to cut" in text
    assert text.count("24'-0\"") == 3, "on the picture, and twice in its notes"
    assert "top edge" not in text.partition("It lies flat")[2].partition("Along")[0]
    assert plain_sheets(made(), [], groups) == []


def test_a_template_for_several_sticks_names_no_neighbor_of_one():
    """Four hips have four pairs of commons; the front's and the back's commons one ridge."""
    ends = distinct_ends(piece_groups(made().roof), made().roof.by_name)
    mates = {q.entry.name: [plane.mate_name for plane in q.joint.planes] for q in ends}
    assert mates["H1:head"] == ["common at the right face", "common at the left face"]
    assert mates["H1:foot"] == ["fascia at the right face", "fascia at the left face"]
    heads = next(q for q in ends if q.entry.name == "H1:head").joint
    facing = [cut.normal[1] < 0 for cut in heads.cuts(made().roof.by_name["H1"].stock)]
    assert facing == ["right" in name for name in mates["H1:head"]]
    assert mates["H1:seat"] == ["plate", "wall at the right face", "wall at the left face"]
    assert mates["J1:head"] == ["hip"]
    assert mates["C1:head"] == ["ridge R1"]


def test_a_hollow_tails_cheeks_are_told_by_where_they_lie():
    """A valley's tail is hollow: the cheek whose wood ends it at the left face faces right."""
    texts = {"size": "24' x 14'", "wing": "8' x 8'", "wing-end": "gable", "spacing": "96in"}
    roof = framed(Job("yard", texts | {"hip": "2x10", "valley": "2x12"}))
    valley = roof.by_name["V1"]
    told = common_mates([valley], "foot", roof.by_name)
    assert sorted(told) == ["fascia at the left face", "fascia at the right face"]
    for mate, plane in zip(told, planes_at(valley, "foot"), strict=True):
        face = mate.split()[-2]
        assert valley.hand(plane).value == ("left" if face == "right" else "right")
        y = [float(p[1]) for each in valley.surfaces(plane) for p in valley.in_board(each)]
        assert (sum(y) / len(y) > 0.75) == (face == "left")


def test_both_faces_of_a_hip_have_one_line_in_its_layout():
    text = [label.text for page in layout_sheets(made()) for label in page.drawing.labels]
    both = [line for line in text if "(right face)" in line and "(left face)" in line]
    assert len(both) >= 4
    assert sum("left end" in line for line in text) == 1, "how to read the pictures is said once"


def test_cheeks_of_one_cut_are_told_together():
    said = [x.text for x in whole_stick(made().roof.by_name["H1"], (7.5, 6.0), mates=False).labels]
    foot = next(line for line in said if "hip tail" in line)
    assert "hip tail, two cheeks" in foot
    assert "hip backing on both sides" in " ".join(foot.split())


@pytest.mark.parametrize("side", ["front", "right", "back", "left"])
def test_the_plan_names_the_sides_of_the_roof(side):
    """Each outside the plates, on its own side of the middle."""
    drawing = plan()
    (spot,) = [(x.x, x.y) for x in drawing.labels if x.gid == "side-name" and x.text == side]
    points = [p for s in drawing.strokes if s.gid == "stick-R1" for p in s.points]
    x, y = (sum(each) / len(points) for each in zip(*points, strict=True))
    off = (spot[0] - x, spot[1] - y)
    way = {"front": (0, -1), "right": (1, 0), "back": (0, 1), "left": (-1, 0)}[side]
    assert off[0] * way[0] + off[1] * way[1] > max(abs(off[0]), abs(off[1])) - 1e-9


@cache
def plan():
    return roof_plan_picture(in_view(made().roof.sticks), (9.5, 5.0))
