"""A reduced stick of running measures, and a whole packet: both read back from what is drawn."""

import json
import re
from functools import cache

import numpy as np
import pypdfium2
import pytest

from figures.ink.paper import read_paper
from figures.packet.layout_sheets import (
    gauge_line_words,
    joint_words,
    start_words,
    story_marks,
    story_words,
)
from figures.packet.making import Making
from figures.packet.pole import PoleMark, crossing_marks, landing_marks, pole
from layout.answer.answer import answer
from layout.framing.crossing import crossings
from layout.framing.running import landings
from layout.job.job import Job
from layout.job.job_roof import framed
from lessons.cli.main import run


@cache
def plain_roof():
    """16 by 10 ft, few rafters: framed once for all that read it."""
    return framed(Job("yard", {"size": "16' x 10'", "spacing": "48in"}))


def test_ticks_stand_to_scale_and_no_words_touch():
    roof = framed(Job("yard", {"size": "16' x 10'", "spacing": "16in"}))
    here = [one for one in landings(roof.sticks) if one.carrier == "P1"]
    marks = landing_marks(here)
    drawing = pole(marks, 192.0, 7.5)
    ticks = sorted({s.points[0][0] for s in drawing.strokes if s.gid == "mark"})
    wanted = sorted({at for mark in marks for at in (mark.at_in, mark.to_in)})
    scale = (ticks[-1] - ticks[0]) / (wanted[-1] - wanted[0])
    np.testing.assert_allclose(np.diff(ticks), scale * np.diff(wanted), atol=1e-9)
    assert {word for mark in marks for word in mark.name.split(", ")} == {o.stick for o in here}
    crowded = pole([PoleMark("a", 0.0), PoleMark("b", 0.1), PoleMark("c", 0.2)], 100.0, 7.0)
    spots = sorted(label.x for label in crowded.labels if label.bold)
    assert min(np.diff(spots)) > 0.1


def test_a_packets_index_leads_to_its_pages(tmp_path, monkeypatch, capsys):
    """A gable of 6 ft: every piece's sheet and templates are on the pages that JSON names."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "yard.toml").write_text(
        '[roof]\nsize = "6 ft x 6 ft"\nends = "gable,gable"\n[layout]\nspacing = "36in"\n'
    )
    assert run(["packet", "--job", "yard.toml", "-o", "yard.pdf", "--json"]) == 0
    told = json.loads(capsys.readouterr().out.partition("\n")[2])
    document = pypdfium2.PdfDocument(tmp_path / "yard.pdf")
    texts = ["".join(p.get_textpage().get_text_range().split()) for p in document]
    assert len(texts) == told["pages"]
    assert {part["name"] for part in told["parts"]} >= {"Cover", "Stick sheets", "Templates"}
    for row in told["sticks"]:
        assert f"Piece{row['piece']}" in texts[row["sheet_page"] - 1]
        for page in row["template_pages"]:
            assert "FULLSIZE" in texts[page - 1]
        assert all(len(plane["normal"]) == 3 for plane in row["planes"])
    common = next(row for row in told["sticks"] if row["role"] == "common")
    assert len(common["template_pages"]) == 3
    for part in told["parts"]:
        assert 1 <= part["page"] <= told["pages"]
    document.close()


def test_a_packet_without_a_job_or_a_place_is_refused(tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    assert run(["packet", "-o", "yard.pdf"]) == 2
    assert "needs its job" in capsys.readouterr().err
    (tmp_path / "yard.toml").write_text('[roof]\npitch = "9"\n')
    for arguments, expected in (
        (["packet", "--job", "yard.toml"], "say where"),
        (["packet", "--job", "yard.toml", "-o", "yard.svg"], "must end in .pdf"),
    ):
        assert run(arguments) == 2
        assert expected in capsys.readouterr().err
    assert not (tmp_path / "yard.pdf").exists()


def test_every_start_is_told_by_the_plate_that_lies_there():
    """Walls are walked counterclockwise from the front left corner, plate by plate."""
    roof = plain_roof()
    plates = [roof.by_name[f"P{k}"] for k in (1, 2, 3, 4)]
    for plate, before in zip(plates, (*plates[-1:], *plates[:-1]), strict=True):
        assert f"Hook the tape on the end nearest {before.name}" in start_words(plate, plates)
    foot = roof.by_name["R1"].corners[:, 0].min()
    far = min(plates, key=lambda one: one.corners[:, 0].mean())
    assert foot - far.corners[:, 0].max() > 0
    toward = "P4" if float(roof.by_name["R1"].pose.head[0]) > 0 else "P2"
    ridge = start_words(roof.by_name["R1"], plates, roof.sticks)
    assert f"on the end nearest {toward}" in ridge
    assert "measure away from it" in ridge
    assert "plumb line over the outside of the wall" in start_words(roof.by_name["H1"], plates)
    # A ridge's right face, from its foot: the wall at the right-hand side of its run in plan.
    x, y = roof.by_name["R1"].pose.head[:2]
    side = max(plates, key=lambda one: float(one.corners[:, :2].mean(axis=0) @ (y, -x)))
    assert f"its right face looks to {side.name}" in ridge
    (butts,) = re.findall(r"\((C\d+)'s end of the ridge\)", ridge)
    assert roof.by_name[butts].corners[:, 0].max() < foot + 1e-6


def test_a_story_pole_has_the_commons_own_marks():
    """By the triangle alone: run, overhang and seat over the cosine of the slope."""
    roof = framed(Job("yard", {"size": "16' x 10'", "spacing": "48in", "seat": "3 1/2"}))
    cosine = 12 / np.hypot(12, 8)
    found = {mark.name: mark.at_in for mark in story_marks(roof.by_name["C1"])}
    tail = (12 - 0.75) / cosine
    assert found["outside of the wall"] == pytest.approx(tail, abs=1e-9)
    assert found["inner end of the seat"] == pytest.approx(tail + 3.5 / cosine, abs=1e-9)
    assert found["ridge's plumb cut"] == pytest.approx(tail + (60 - 0.75) / cosine, abs=1e-9)


@pytest.mark.parametrize("name", ["J1", "J-A"])
def test_names_of_both_kinds_are_told_apart(name):
    from lessons.cli.commands.options import is_stick

    assert is_stick(name)
    assert not is_stick("hip-jack")
    assert not is_stick("valley-seat")


def test_a_figures_leader_stands_on_the_nearer_line():
    drawing = pole([PoleMark("J1", 40.0, 60.0)], 100.0, 7.0)
    ticks = sorted({stroke.points[0][0] for stroke in drawing.strokes if stroke.gid == "mark"})
    leaders = {stroke.points[0][0] for stroke in drawing.strokes if stroke.gid == "leader"}
    assert leaders == {ticks[0]}


def test_a_hip_crosses_both_plates_of_its_corner_on_the_slant():
    """By the square corner alone: in plan a 1 1/2 in hip runs at 45, so each face meets an edge
    1 1/2 / sqrt(2) off its middle line; the second plate butts the first, 3 1/2 in from the corner.
    """
    roof = plain_roof()
    found = {(one.carrier, one.stick): one for one in crossings(roof.sticks)}
    assert {carrier for carrier, _ in found} == {"P1", "P2", "P3", "P4"}
    off = 1.5 / np.sqrt(2)
    right, left = found["P1", "H1"].lines
    assert [(p.edge, round(p.along_in, 3)) for p in right[1:]] == [
        ("outside edge", round(off, 3)),
        ("inside edge", round(3.5 + off, 3)),
    ]
    assert [p.edge for p in left[1:]] == ["end", "inside edge"]
    assert left[2].along_in == pytest.approx(3.5 - off, abs=1e-4)
    ((face, at_end, inside),) = found["P2", "H2"].lines
    assert (face, at_end.edge, inside.edge) == ("right face", "end", "inside edge")
    assert at_end.across_in == pytest.approx(3.5 - off, abs=1e-4)
    assert inside.along_in == pytest.approx(off, abs=1e-4)
    marks = crossing_marks([found["P1", "H1"], found["P1", "H2"]], 3.5, 192.0)
    np.testing.assert_allclose([m.at_in for m in marks], [off, 192 - off], atol=1e-4)
    assert not [one for one in landings(roof.sticks) if one.stick == "H1" and one.carrier[0] == "P"]


def test_measures_on_a_backed_hip_lie_on_its_gauge_line():
    """8 in 12 both ways: a backing falls 3/4 in * tan of it across half the hip.

    tan(backing) = the hip's plumb unit, 8 / sqrt(12^2 + 12^2 + 8^2), as the handbooks have it.
    """
    roof = framed(Job("yard", {"size": "24' x 16'"}))
    down = 0.75 * 8 / np.sqrt(12**2 + 12**2 + 8**2)
    here = [one for one in landings(roof.sticks) if one.carrier == "H1" and one.stick[0] == "J"]
    assert {round(one.down_in, 6) for one in here} == {round(down, 6)}
    # The square arris would bear the plumb line farther on, by the rise of the hip over its run.
    on_arris = here[0].middle_in + down * 8 / np.sqrt(288)
    assert on_arris == pytest.approx(24.19, abs=0.01)
    made = Making(roof, read_paper("Letter"), "", answer)
    (said,) = gauge_line_words(made, here)
    assert "5/16 in below the top arris" in said
    dropped = framed(Job("yard", {"size": "16' x 10'", "spacing": "48in", "hip-way": "dropped"}))
    flat = [one for one in landings(dropped.sticks) if one.carrier == "H1"]
    assert gauge_line_words(Making(dropped, made.paper, "", answer), flat) == []


def test_each_face_of_a_hip_has_its_own_gauge_line():
    """By hand, 7 in 12 against 9 in 12 on a 1 1/2 in hip: 9 in from the front and 7 in from the
    end both roofs are 63/12 in up, so the hip rises 63/12 in on sqrt(130) in. Square across it
    the front's roof falls 7/12 * 7/sqrt(130) on 1, the end's 9/12 * 9/sqrt(130); square to the
    hip's edge that is less by the cosine of its slope. Over half the hip: 0.244 and 0.403 in.
    """
    roof = framed(
        Job("yard", {"size": "28' x 18'", "pitch": "7", "end-pitch": "9", "spacing": "48in"})
    )
    root = np.sqrt(130)
    cosine = root / np.hypot(root, 63 / 12)
    downs = [0.75 * square / (12 * root) * cosine for square in (49, 81)]
    np.testing.assert_allclose(downs, [0.244, 0.403], atol=5e-4)
    found = landings(roof.sticks)
    for name, front, end in (("H1", "right face", "left face"), ("H2", "left face", "right face")):
        here = [one for one in found if one.carrier == name]
        faces = {(one.side, round(one.down_in, 6)) for one in here if one.stick[0] == "J"}
        assert faces == {(front, round(downs[0], 6)), (end, round(downs[1], 6))}
        (said,) = gauge_line_words(Making(roof, read_paper("Letter"), "", answer), here)
        told = {front: "1/4 in", end: "13/32 in"}
        assert (
            f"gauge line, {told['right face']} on the right face and {told['left face']} on the"
            " left face below the top arris"
        ) in said


def test_a_story_poles_zero_is_the_tail_at_the_top_edge():
    """A plumb tail's lower corner lies 5 1/2 in * 8/12 farther out, rounded up: 3 11/16 in."""
    roof = plain_roof()
    said = story_words(roof.by_name["C1"])
    assert "0 is the tail cut at the TOP edge, at least 3 11/16 in from the board's end" in said


def test_a_plates_parts_meet_where_the_layout_says():
    """24 ft is more than the longest stock, 20 ft: two parts of 12 ft, by division alone."""
    roof = framed(Job("yard", {"size": "24' x 16'", "spacing": "48in"}))
    made = Making(roof, read_paper("Letter"), "", answer)
    assert joint_words(made, "P1", 288.0) == ["Its 2 equal parts meet at 12'-0\", over a support."]
    assert joint_words(made, "P2", 185.0) == []
