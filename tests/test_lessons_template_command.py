"""`squaresaw template`: the sheet as it reaches the user, printers, and all that is bad input."""

import json

import pytest

from lessons.cli import run
from tests.measure import pdf_pieces, pdf_sizes, pdf_text


@pytest.fixture(autouse=True)
def _own_data_folder(monkeypatch, tmp_path):
    monkeypatch.setenv("SQUARESAW_DATA", str(tmp_path / "data"))


def printed(capsys, *arguments: str) -> str:
    assert run(["template", *arguments]) == 0
    return capsys.readouterr().out


def refused(capsys, *arguments: str) -> str:
    assert run(["template", *arguments]) == 2
    out, error = capsys.readouterr()
    assert out == ""
    assert error.count("\n") == 1, "an error is one line"
    return error


def bars(path) -> list[float]:
    return [piece.length_in for piece in pdf_pieces(path)]


def test_the_main_sheet(capsys, tmp_path):
    path = tmp_path / "jack.pdf"
    said = printed(capsys, "hip-jack", "--pitch", "12 in 12", "--paper", "Legal", "-o", str(path))
    assert f"wrote {path}" in said
    assert sorted(pdf_sizes(path)[0]) == pytest.approx([612, 1008])
    text = " ".join(pdf_text(path).split())
    for words in ("hip-jack, left hand, head", "FULL SIZE", "12 in 12 (45°)", "WARNING"):
        assert words in text
    for length in (6.0, 8.0):
        assert any(each == pytest.approx(length, abs=5e-4) for each in bars(path))


def test_hand_end_scale_and_surfaces_reach_the_sheet(capsys, tmp_path):
    path = tmp_path / "a.svg"
    printed(
        capsys, "cripple-jack", "--end", "foot", "--hand", "right", "--scale", "half",
        "--all-round", "--paper", "A3", "-o", str(path),
    )  # fmt: skip
    text = path.read_text()
    assert "cripple-jack, right hand, foot" in text
    assert "Study view" in text
    assert 'id="mark-bottom-edge"' in text
    backed = tmp_path / "b.svg"
    printed(capsys, "hip-ridge", "--backed", "-o", str(backed))
    assert 'id="mark-left-bevel"' in backed.read_text()
    assert 'id="mark-top-edge"' not in backed.read_text()


def test_several_pages_go_to_files_of_their_own_or_to_one_pdf(capsys, tmp_path):
    steep = ("hip-jack", "--pitch", "16", "--stock", "2x10")
    printed(capsys, *steep, "-o", str(tmp_path / "a.svg"))
    made = sorted(path.name for path in tmp_path.glob("a-*.svg"))
    assert len(made) > 1
    printed(capsys, *steep, "-o", str(tmp_path / "a.pdf"))
    assert len(pdf_sizes(tmp_path / "a.pdf")) == len(made)


def test_a_printer_is_measured_kept_and_measured_again(capsys, tmp_path):
    path = tmp_path / "a.pdf"
    first = ("hip-jack", "--printer", "shop", "-o", str(path))
    printed(capsys, *first, "--printed-bars", "5 31/32 x 8 1/32")
    kept = json.loads((tmp_path / "data" / "printers.json").read_text())
    across, along = 6 / (5 + 31 / 32), 8 / (8 + 1 / 32)
    assert kept["shop"] == pytest.approx([across, along])
    printed(capsys, *first)
    assert any(each == pytest.approx(6 * across, abs=5e-4) for each in bars(path))
    assert any(each == pytest.approx(8 * along, abs=5e-4) for each in bars(path))
    assert "printer correction" in pdf_text(path).lower()
    # The corrected sheet measures a little long: both corrections count.
    printed(capsys, *first, "--printed-square", "6 1/64 x 8")
    kept = json.loads((tmp_path / "data" / "printers.json").read_text())
    assert kept["shop"] == pytest.approx([across * 6 / (6 + 1 / 64), along])
    assert "'office' (known are shop)" in refused(
        capsys, "hip-jack", "--printer", "office", "-o", str(tmp_path / "b.pdf")
    )


def test_metric_bars_are_read_against_centimetres(capsys, tmp_path):
    path = tmp_path / "a.pdf"
    printed(capsys, "hip-jack", "--printed-bars", "149 x 200 mm", "-o", str(path))
    assert any(each == pytest.approx(6 * 150 / 149, abs=5e-4) for each in bars(path))


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (("hip-jack", "-o", "{tmp}"), "must end in .pdf or .svg"),
        (("hip-jack", "-o", "{tmp}/none/a.pdf"), "there is no folder"),
        (("hip-jack", "-o", "{tmp}/a.doc"), "must end in .pdf or .svg"),
        (("hip-jack",), "--output"),
        (("hip-jak", "-o", "{tmp}/a.pdf"), "did you mean hip-jack"),
        (("hip-jack", "--pitch", "abc", "-o", "{tmp}/a.pdf"), "is not a pitch"),
        (("hip-jack", "--stock", "9x9x9", "-o", "{tmp}/a.pdf"), "is not a board"),
        (("hip-jack", "--paper", "foolscap", "-o", "{tmp}/a.pdf"), "no paper is called"),
        (("hip-jack", "--paper", "4x4", "-o", "{tmp}/a.pdf"), "no room for a drawing"),
        (("hip-jack", "--margin", "5", "-o", "{tmp}/a.pdf"), "margin of 5 in does not work"),
        (("hip-jack", "--margin", "x", "-o", "{tmp}/a.pdf"), "is not a length"),
        (("hip-jack", "--overlap", "9", "-o", "{tmp}/a.pdf"), "overlap of 9 in does not work"),
        (("hip-jack", "--scale", "1:900", "-o", "{tmp}/a.pdf"), "nothing to see"),
        (("hip-jack", "--scale", "huge", "-o", "{tmp}/a.pdf"), "no scale is called"),
        (("hip-jack", "--backed", "-o", "{tmp}/a.pdf"), "stands on no backed edge"),
        (("hip-jack", "--printed-bars", "5", "-o", "{tmp}/a.pdf"), "ACROSS x ALONG"),
        (("hip-jack", "--printed-bars", "5 x 8", "-o", "{tmp}/a.pdf"), "the print dialog"),
        (("hip-jack", "--printed-bars", "0 x 8", "-o", "{tmp}/a.pdf"), "cannot measure 0"),
        (("hip-jack", "--printer", "shop", "-o", "{tmp}/a.pdf"), "none is known yet"),
        (
            ("hip-jack", "--stock", "20in x 24in", "--paper", "roll-24", "-o", "{tmp}/a.pdf"),
            "roll-24 is 24 in wide",
        ),
    ],
)
def test_bad_input_is_one_line_and_leaves_no_file(capsys, tmp_path, arguments, message):
    asked = [each.replace("{tmp}", str(tmp_path)) for each in arguments]
    assert message in refused(capsys, *asked)
    assert [path for path in tmp_path.rglob("*") if path.is_file()] == []


def test_a_folder_in_the_file_s_place(capsys, tmp_path):
    (tmp_path / "a.pdf").mkdir()
    assert "is a folder" in refused(capsys, "hip-jack", "-o", str(tmp_path / "a.pdf"))
    assert list((tmp_path / "a.pdf").iterdir()) == []


def test_a_folder_that_cannot_be_written(capsys, tmp_path, monkeypatch):
    def no(*_, **__):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr("figures.press.tempfile.mkstemp", no)
    assert "Permission denied" in refused(capsys, "hip-jack", "-o", str(tmp_path / "a.pdf"))
    assert list(tmp_path.iterdir()) == []


def test_kept_corrections_that_cannot_be_read(capsys, tmp_path):
    (tmp_path / "data").mkdir()
    (tmp_path / "data" / "printers.json").write_text("{")
    said = refused(capsys, "hip-jack", "--printer", "shop", "-o", str(tmp_path / "a.pdf"))
    assert "cannot be read" in said
    assert not (tmp_path / "a.pdf").exists()
