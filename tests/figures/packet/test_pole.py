"""A reduced stick of running measures, and a whole packet: both read back from what is drawn."""

import json

import numpy as np
import pypdfium2
import pytest

from figures.packet.layout_sheets import start_words, story_marks
from figures.packet.pole import PoleMark, landing_marks, pole
from layout.framing.running import landings
from layout.job.job import Job
from layout.job.job_roof import framed
from lessons.cli.main import run


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
    roof = framed(Job("yard", {"size": "16' x 10'", "spacing": "48in"}))
    plates = [roof.by_name[f"P{k}"] for k in (1, 2, 3, 4)]
    for plate, before in zip(plates, (*plates[-1:], *plates[:-1]), strict=True):
        assert f"its end toward plate {before.name}" in start_words(plate, plates)
    foot = roof.by_name["R1"].corners[:, 0].min()
    far = min(plates, key=lambda one: one.corners[:, 0].mean())
    assert foot - far.corners[:, 0].max() > 0
    toward = "P4" if float(roof.by_name["R1"].pose.head[0]) > 0 else "P2"
    assert f"toward plate {toward}" in start_words(roof.by_name["R1"], plates)
    assert "outside corner" in start_words(roof.by_name["H1"], plates)


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
