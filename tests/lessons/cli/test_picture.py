"""`squaresaw picture`: every view of every cut into a file, and one line for what cannot be."""

import subprocess
import xml.etree.ElementTree as ET

import pypdf
import pytest

from lessons.cli.main import run
from tests.counts import LONG, count, part_of
from tests.views_of import CUTS

SVG = "{http://www.w3.org/2000/svg}"
VIEWS = [
    "plan",
    "pictorial",
    "along",
    "faces",
    "middle",
    "square",
    "saw",
    "miter-saw",
    "gap",
    "developed",
]
NO_MITER = ("common-seat", "common-heel", "hip-seat", "valley-seat", "valley-tail")


def texts(path) -> list[str]:
    return ["".join(each.itertext()) for each in ET.parse(path).iter(f"{SVG}text")]


def drawn(capsys, path, *arguments: str) -> str:
    assert run(["picture", *arguments, "-o", str(path)]) == 0, capsys.readouterr().err
    return capsys.readouterr().out


def refused(capsys, *arguments: str) -> str:
    assert run(["picture", *arguments]) == 2
    told = capsys.readouterr()
    assert not told.out
    assert told.err.count("\n") == 1
    return told.err


@pytest.mark.parametrize("view", VIEWS)
def test_a_view_is_written_as_words_and_lines(capsys, tmp_path, view):
    path = tmp_path / "x.svg"
    drawn(capsys, path, "hip-jack", "--view", view, "--hand", "right")
    said = texts(path)
    assert any("RIGHT-HAND cut" in line for line in said) or view == "gap"
    assert any("WARNING" in line for line in said), "every sheet carries its caution"


@pytest.mark.parametrize("view", [*VIEWS, "gauge", "all"] if LONG else ["gauge", "gap", "along"])
def test_every_view_of_every_cut_is_drawn_or_refused_in_one_line(capsys, tmp_path, view):
    for name, end, hand in part_of(CUTS, 30, 7):
        arguments = [name, "--end", end, "--hand", hand.value, "--view", view]
        done = run(["picture", *arguments, "-o", str(tmp_path / "x.svg")])
        told = capsys.readouterr()
        assert done == 0 or told.err.count("\n") == 1, told.err
        # What a cut has no view of: a rip has no mark to look along and no miter saw.
        rip = name.endswith("backing") or name == "sleeper-edge"
        has_no = {
            "along": rip,
            "miter-saw": rip or name in NO_MITER,
            "gauge": not rip,
            "gap": "no known mistake" in told.err,
        }
        assert (done == 2) == has_no.get(view, False), f"{arguments}: {told.err}"


def test_a_joint_of_two_planes_has_a_page_for_each(capsys, tmp_path):
    out = drawn(capsys, tmp_path / "x.svg", "hip-ridge", "--view", "faces")
    assert out.count("wrote") == 2
    assert (tmp_path / "x-1.svg").exists()
    assert "against the end common" in " ".join(texts(tmp_path / "x-2.svg"))


def test_the_composed_pages_are_letter_and_leave_no_view_out(capsys, tmp_path):
    for name, _, hand in CUTS[:: count(1, 70)]:
        path = tmp_path / "x.pdf"
        drawn(capsys, path, name, "--hand", hand.value)
        pages = pypdf.PdfReader(path).pages
        assert all([float(side) for side in page.mediabox[2:]] == [612, 792] for page in pages)
        text = " ".join(" ".join(page.extract_text().split()) for page in pages)
        rip = name.endswith("backing") or name == "sleeper-edge"
        for heading in ("of the joint, seen", "Square on", "hoe on the", "folded", "unrolled"):
            assert rip or heading in text, (name, heading)
        assert "unrolled" in text
        assert ("seen along its own mark" in text) == (not rip)


def test_a_png_says_that_it_has_no_scale(capsys, tmp_path, monkeypatch):
    from figures.files import pictured

    shown = []
    real = pictured.png

    def seen(page, path, dpi):
        shown.extend(label.text for label in page.drawing.labels)
        return real(page, path, dpi)

    monkeypatch.setattr(pictured, "png", seen)
    drawn(capsys, tmp_path / "x.png", "hip-jack", "--view", "faces")
    assert "NOT TO SCALE" in shown
    assert not any(" : " in text for text in shown)
    assert (tmp_path / "x.png").read_bytes().startswith(b"\x89PNG")


def test_an_existing_file_is_said_to_be_replaced(capsys, tmp_path):
    path = tmp_path / "x.svg"
    assert "wrote" in drawn(capsys, path, "framing-square")
    assert "replaced" in drawn(capsys, path, "framing-square", "--pitch", "7 1/2")
    said = " ".join(texts(path))
    assert "between two columns" in said
    # By hand: 144 over the root of 144 + 56.25 is 10.18.
    assert "10.18" in said


def test_the_square_reads_the_published_row(capsys, tmp_path):
    """NAVEDTRA 14044, side cut of jacks at 8 in 12: 10 over 12 (exactly 9.98)."""
    path = tmp_path / "x.svg"
    drawn(capsys, path, "framing-square", "--pitch", "8")
    said = " ".join(texts(path))
    assert "Read the column under 8, row E: side cut of jacks: 9.98, laid as 10." in said
    assert "16.97" in said
    assert "8.49" in said


def test_a_roof_and_its_sticks_are_drawn(capsys, tmp_path):
    small = ("--size", "14' x 8'")
    out = drawn(capsys, tmp_path / "r.svg", "roof", "--view", "section", *small)
    assert "r.svg" in out
    assert "8'-0\"" in texts(tmp_path / "r.svg")
    drawn(capsys, tmp_path / "s.svg", "c1", *small)
    assert any("C1, common: the whole board" in line for line in texts(tmp_path / "s.svg"))


def test_a_jobs_roof_and_the_ends_of_its_sticks_are_drawn(capsys, tmp_path):
    job = tmp_path / "porch.toml"
    assert run(["job", "new", str(job)]) == 0
    capsys.readouterr()
    out = drawn(capsys, tmp_path / "e.svg", "H1:head", "--view", "saw", "--job", str(job))
    assert out.count("wrote") == 2, "a double cheek has a page for each"
    said = " ".join(texts(tmp_path / "e-1.svg"))
    assert "H1:head" in said
    assert "Below the shoe the blade runs in" in said
    assert "X9" in refused(capsys, "X9", "--job", str(job), "-o", str(tmp_path / "x.svg"))


def test_the_saw_that_is_named_is_the_one_that_is_drawn(capsys, tmp_path):
    path = tmp_path / "x.svg"
    drawn(capsys, path, "hip-jack", "--view", "saw", "--saw", "blade-left")
    said = " ".join(texts(path))
    assert "blade-left saw" in said
    assert "blade-right saw" not in said


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("hip-jack", "--view", "gauge", "-o", "x.svg"), "ask for the view square"),
        (("hip-jack", "--view", "nonsense", "-o", "x.svg"), "give one of plan"),
        (("hip-jack", "-o", "x.docx"), "must end in .pdf, .svg or .png"),
        (("nothing-of-the-kind", "-o", "x.svg"), "nothing called"),
        (("hip-backing", "--view", "along", "-o", "x.svg"), "bevel along the board"),
        (("common-seat", "--view", "miter-saw", "-o", "x.svg"), "circular saw instead"),
        (("roof", "--view", "saw", "-o", "x.svg"), "a roof has no view"),
        (("H99", "-o", "x.svg"), "no stick and no piece"),
        (("hip-jack", "-o", "no/such/folder/x.svg"), "no folder"),
    ],
)
def test_what_cannot_be_drawn_is_said_in_one_line(capsys, tmp_path, monkeypatch, arguments, words):
    monkeypatch.chdir(tmp_path)
    assert words in refused(capsys, *arguments)
    assert not list(tmp_path.iterdir())


def test_open_asks_the_system_to_show_the_file(capsys, tmp_path, monkeypatch):
    from lessons.cli import viewer

    asked = []
    monkeypatch.setattr(viewer.sys, "platform", "linux")
    monkeypatch.setattr(viewer.shutil, "which", lambda name: f"/bin/{name}")
    monkeypatch.setattr(subprocess, "Popen", lambda command, **_: asked.append(command))
    path = tmp_path / "x.svg"
    drawn(capsys, path, "hip-jack", "--view", "plan", "--open")
    assert asked == [["/bin/xdg-open", str(path)]]
    monkeypatch.setattr(viewer.shutil, "which", lambda name: None)
    assert run(["picture", "hip-jack", "--view", "plan", "-o", str(path), "--open"]) == 2
    assert "open the file yourself" in capsys.readouterr().err
