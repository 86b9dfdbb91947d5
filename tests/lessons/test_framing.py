"""`squaresaw roof` and `squaresaw jacks`: lists, drawings, and roofs that cannot be framed."""

import csv
import io
import json
import math
import re
import shlex

import pypdfium2
import pytest

from layout.answer.question import ask
from layout.cuts import Hand
from layout.quantity import read_pitch
from lessons.cli.main import run
from tests.measure import pdf_pieces, pdf_text


def said(capsys, *arguments: str) -> str:
    assert run(list(arguments)) == 0
    return capsys.readouterr().out


def rows(capsys, *arguments: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(said(capsys, *arguments, "--csv"))))


def test_the_jacks_of_a_hip_grow_by_the_common_difference(capsys):
    # NAVEDTRA 14044, Builder 3 & 2 vol. 2, ch. 2: at 8 in 12, 16 in on centre, the shortest
    # jack is 19.23 in and the second twice that.
    found = rows(capsys, "jacks", "--pitch", "8", "--count", "4")
    own = [float(row["theoretical_in"]) for row in found if row["side"] == "own"]
    assert own == pytest.approx([19.23 * k for k in (1, 2, 3, 4)], abs=0.005 * 4)
    assert {row["hand"] for row in found} == {"left", "right"}
    assert all(row["pair"] for row in found)


def test_jacks_as_json_carry_boards_and_leave_no_verdict(capsys):
    answer = json.loads(said(capsys, "jacks", "--eave", "8'", "--json"))
    assert answer["schema"] == 1
    cut = sum(len(board["pieces"].split(", ")) for board in answer["boards"])
    assert cut == len(answer["jacks"])
    assert {row["section"] for row in answer["compare"]} >= {"R802.3", "R802.6", "R802.7"}
    text = said(capsys, "jacks", "--eave", "8'").lower()
    assert "pass" not in text
    assert "fail" not in text


@pytest.mark.parametrize("given", [(), ("--count", "5"), ("--eave", "8'")], ids=str)
def test_a_number_of_jacks_that_nobody_gave_is_said_to_be_an_example(capsys, tmp_path, given):
    drawn = ("-o", str(tmp_path / "stick.pdf"))
    for asked in (given, (*given, *drawn)):
        text = said(capsys, "jacks", *asked)
        assert ("5 jacks to an eave are only an example: give --eave" in text) == (not given)


def test_valley_jacks_run_from_cut_to_cut(capsys):
    text = said(capsys, "jacks", "--on-valley", "--count", "3")
    assert "from cut to cut" in text
    assert "valley" in text


def test_the_layout_stick_is_true_to_size(capsys, tmp_path):
    stick = tmp_path / "stick.pdf"
    found = rows(capsys, "jacks", "--pitch", "12", "--count", "3")
    said(capsys, "jacks", "--pitch", "12", "--count", "3", "-o", str(stick))
    # The strip stands along the roll: its heavy lines lie across it, 2 1/2 in long.
    heavy = [
        piece.points
        for piece in pdf_pieces(stick)
        if piece.width_in == pytest.approx(0.7 / 25.4, abs=1e-4)
    ]
    places = sorted({round(y, 6) for (_, y), _ in heavy})
    assert all(abs(x1 - x0) == pytest.approx(2.5, abs=0.0005) for (x0, _), (x1, _) in heavy)
    longs = sorted({round(float(row["long_in"]), 6) for row in found})
    assert [y - places[0] for y in places] == pytest.approx(
        [x - longs[0] for x in longs], abs=0.001
    )


def test_the_layout_stick_is_tiled_on_sheets(capsys, tmp_path):
    stick = tmp_path / "stick.pdf"
    said(capsys, "jacks", "--count", "3", "-o", str(stick), "--paper", "Letter")
    assert len(pypdfium2.PdfDocument(stick)) > 1
    assert "page B" in pdf_text(stick, 1)


def test_a_layout_stick_of_two_pitches_says_both(capsys, tmp_path):
    """It bears the jacks of both roofs; the expected words are the options given."""
    stick = tmp_path / "stick.pdf"
    said(capsys, "jacks", "--pitch", "7", "--other-pitch", "9", "--count", "1", "-o", str(stick))
    assert "7 in 12 against 9 in 12, 16 in on center" in " ".join(pdf_text(stick, 0).split())


def test_a_roofs_cut_list_counts_every_stick(capsys):
    answer = json.loads(said(capsys, "roof", "--size", "24' x 16'", "--json"))
    assert sum(row["count"] for row in answer["pieces"]) == len(answer["sticks"])
    roles = {row["role"] for row in answer["sticks"]}
    assert roles == {"hip", "ridge", "hip jack", "common", "plate"}
    # Griffith, Carpentry, 1916, App. IV: ridge = length - width + thickness of the ridge or
    # what stands at its ends; here it ends flush with the side commons, 1 1/2 in thick.
    ridge = next(row for row in answer["sticks"] if row["role"] == "ridge")
    assert ridge["long_in"] == pytest.approx((24 - 16) * 12 + 1.5, abs=1e-9)


def test_every_cut_of_a_roof_leads_to_its_marks(capsys):
    text = said(capsys, "roof", "--size", "30' x 20'", "--wing", "12' x 12'", "--pitch", "9")
    block = text.split("\nCUTS\n")[1].split("\n\n")[0].splitlines()
    start = block[0].index("squaresaw mark")
    commands = [line[start:] for line in block[1:]]
    catalogued = sorted({command for command in commands if command != "-"})
    assert len(catalogued) > 12
    for command in catalogued:
        assert "BOTH FIT" in said(capsys, "mark", *shlex.split(command))


def test_a_roof_without_sticks_tells_its_lines_and_why(capsys):
    fronts = "100in, 90, 4; 40in, -90, 8; 100in, 90, 12; 300in, 90, 8; 200in, 90, 8; 340in, 90, 8"
    text = said(capsys, "roof", "--walls", fronts)
    assert "NO STICKS: two answers: wall 1 and wall 3 come to one level line 1'-8\"" in text
    answer = json.loads(said(capsys, "roof", "--walls", fronts, "--json"))
    assert answer["no_sticks"].startswith("two answers")
    assert {row["kind"] for row in answer["lines"]} == {"ridge", "hip", "valley", "break"}


@pytest.mark.parametrize(
    ("arguments", "roles"),
    [
        (["--size", "10' x 10'"], {"hip", "hip jack", "plate"}),
        (["--equal", "6 x 6'"], {"hip", "hip jack", "plate"}),
        (["--size", "16' x 10'", "--ends", "gable,bay"], {"ridge", "gable stud", "hip"}),
        (["--size", "20' x 12'", "--wing", "4' x 8'", "--wing-at", "6'", "--valley", "2x10"],
         {"valley", "valley jack"}),
        (["--walls", "12', 90, 4; 10', 90, gable; 12', 90, high; 10', 90, gable"], {"common"}),
        (["--walls", "12', 90, 4; 10', 90, gable; 12', 90, high; 10', 90, gable",
          "--high-wall", "ledger"], {"ledger"}),
    ],
)  # fmt: skip
def test_every_shape_can_be_asked_for(capsys, arguments, roles):
    found = rows(capsys, "roof", *arguments, "--spacing", "24in", "--list", "sticks")
    assert roles <= {row["role"] for row in found}


def test_metric_lists_say_millimeters(capsys):
    text = said(capsys, "roof", "--size", "10' x 10'", "--spacing", "24in", "--units", "metric")
    assert "All lengths in millimeters." in text
    line = next(line for line in text.splitlines() if line.startswith("P-A "))
    assert "3048" in line  # 10 ft
    assert "-0" + chr(34) not in line


def test_one_stick_prints_its_cuts_and_its_templates(capsys, tmp_path):
    text = said(capsys, "roof", "--stick", "J1")
    assert "J1:head, at the head" in text
    assert "common seat" in text
    sheets = tmp_path / "j1.pdf"
    said(capsys, "roof", "--stick", "J1:head", "-o", str(sheets))
    words = "".join(page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(sheets))
    assert "J1:head" in words
    assert "FULL SIZE" in words


def test_every_role_has_lengths_and_marks(capsys):
    """A ridge has lengths, a hip its heel, and JSON is JSON for one stick too."""
    ridge = said(capsys, "roof", "--stick", "R1")
    assert "length 8'-1 1/2\"" in ridge
    assert "R1:head" in ridge
    hip = json.loads(said(capsys, "roof", "--json", "--stick", "H1"))
    assert [end["cut"] for end in hip["ends"]] == ["H1:head", "H1:seat", "H1:foot", "H1:rip"]
    assert {plane["cut"] for plane in hip["planes"]} >= {"hip heel", "hip-seat", "hip-tail"}


def test_the_plan_names_every_stick(capsys, tmp_path):
    plan = tmp_path / "roof.pdf"
    sticks = rows(capsys, "roof", "--size", "14' x 10'", "--list", "sticks")
    said(capsys, "roof", "--size", "14' x 10'", "-o", str(plan))
    first = pdf_text(plan)
    assert [row["name"] for row in sticks if row["name"] not in first] == []
    assert "not for cutting from" in first


@pytest.mark.parametrize(
    ("arguments", "expected"),
    [
        (["roof", "--size", "big"], "write length x width"),
        (["roof", "--ends", "hip"], "name both ends"),
        (["roof", "--ends", "hip,shed"], "hip or gable"),
        (["roof", "--stick", "J99"], "no stick and no piece of this roof"),
        (["roof", "--csv", "--list", "nails"], "pieces, sticks, cuts, boards"),
        (["roof", "--spacing", "40'"], "longer than the eave"),
        (["roof", "--hip", "2x6"], "R802.3"),
        (["roof", "--overhang", "1/2"], "no tail"),
        (["jacks", "--eave", "1'"], "longer than the eave"),
        (["jacks", "--eave", "8'", "--count", "3"], "one of both"),
        (["jacks", "--count", "0"], "one or more"),
        (["jacks", "--corner", "180"], "180"),
        (["jacks", "--corner", "270"], "carries no hip; give one below 180, such as 90, or --on-v"),
        (["jacks", "--eave", "10'", "--first", "11'"], "the first jack, 11'-0\" from the corner"),
        (["jacks", "--eave", "10'", "--spacing", "11'"], "a spacing of 11'-0\" is longer"),
        (["jacks", "--lengths", "1'"], "longest"),
        (["jacks", "-o", "stick.txt"], ".pdf or .svg"),
    ],
)
def test_what_cannot_be_framed_is_refused_with_a_reason(capsys, arguments, expected):
    assert run(arguments) == 2
    out, error = capsys.readouterr()
    assert out == ""
    assert expected in error
    assert error.count("\n") == 1


UNLIKE = ("--pitch", "7", "--end-pitch", "9", "--hip", "2x12", "--spacing", "48in")


def cuts_told(capsys, *arguments: str) -> list[list[str]]:
    """The cells of every row of the table of cuts."""
    text = said(capsys, "roof", *arguments)
    head, *lines = text.split("\nCUTS\n")[1].split("\n\n")[0].splitlines()
    starts = [found.start() for found in re.finditer(r"(?:^|(?<=  ))\S", head)]
    ends = [*starts[1:], None]
    return [[line[a:b].strip() for a, b in zip(starts, ends, strict=True)] for line in lines]


def test_the_seats_of_two_hips_of_unlike_pitches_are_of_two_hands(capsys):
    """7 in 12 in front and behind, 9 in 12 at the left end, square corners.

    The hip climbs both roofs at once: 7 x the run from the front = 9 x that from the end, so it
    runs 9 along the front wall for 7 across it, and the front wall's heel leans
    asin(7 / sqrt 130) = 37.87 degrees, the end wall's asin(9 / sqrt 130) = 52.13. H1 stands on
    the front left corner: for one who looks up it, the heel along the front wall faces the left,
    where the roof rises from that wall. On H2, behind, that along the back wall faces the right.
    """
    rows = cuts_told(capsys, "--size", "28' x 18'", "--ends", "hip,gable", *UNLIKE)
    seats = {row[5]: row[6] for row in rows if row[0] == "hip-seat"}
    assert {hip: shlex.split(said)[5:7] for hip, said in seats.items()} == {
        "H1": ["--hand", "left"], "H2": ["--hand", "right"]
    }  # fmt: skip
    heels = {(row[5], row[2], row[3].split("tilt ")[1], row[6]) for row in rows
             if row[0] == "hip heel"}  # fmt: skip
    assert heels == {
        ("H1", "left", "37.87°", seats["H1"]), ("H1", "right", "52.13°", seats["H1"]),
        ("H2", "right", "37.87°", seats["H2"]), ("H2", "left", "52.13°", seats["H2"]),
    }  # fmt: skip
    for hip, (own, other) in {"H1": ("left", "right"), "H2": ("right", "left")}.items():
        heard = said(capsys, "mark", *shlex.split(seats[hip]))
        assert f"this roof's wall, the cheek faces {own}: face 24.72°, edge 14 on 12" in heard
        assert f"other roof's wall, the cheek faces {other}: face 24.72°, edge 8 1/2 shy" in heard


def test_hips_of_one_pitch_have_one_seat(capsys):
    """At 45 degrees to both walls both heels lean alike: one notch is both hands'."""
    rows = cuts_told(capsys, "--size", "24' x 16'", "--spacing", "48in")
    (seat,) = (row for row in rows if row[0] == "hip-seat")
    assert seat[5] == "H1 H2 H3 H4"
    assert "--hand" not in seat[6]


def test_every_command_of_the_table_of_cuts_asks_for_what_its_row_says(capsys):
    """Of a unit normal's three parts the one across the board says it: its sign the side that the
    cheek faces, its size the sine of the saw's tilt."""
    rows = cuts_told(capsys, "--size", "24' x 12'", *UNLIKE, "--wing", "6' x 8'", "--wing-at", "6'",
                     "--wing-pitch", "6", "--valley", "2x12")  # fmt: skip
    seen = set()
    for row in (row for row in rows if row[6] != "-"):
        cut, *options = shlex.split(row[6])
        given = dict(zip(options[::2], options[1::2], strict=True))
        pitch = read_pitch(given["--pitch"])
        normals = ask(
            cut,
            pitch=pitch,
            other_pitch=read_pitch(given.get("--other-pitch", str(pitch))),
            hand=Hand(given.get("--hand", "left")),
        ).joint.normals
        tilt = float(row[3].split("tilt ")[1].rstrip("°"))
        turned = {"left": tilt, "right": -tilt, "-": 0.0}[row[2]]
        assert any(abs(math.degrees(math.asin(n[1])) - turned) < 0.006 for n in normals), row
        seen.add(row[0])
    assert seen >= {"hip-seat", "hip heel", "hip-tail", "hip-ridge", "hip-jack"}
    assert seen >= {"valley-seat", "valley heel", "valley-tail", "valley-jack"}


@pytest.mark.parametrize(
    ("more", "elsewhere"),
    [
        ((*UNLIKE,), set()),
        ((*UNLIKE, "--fascia", "1 1/2"), {"hip-tail"}),
        ((*UNLIKE, "--rafter", "4x6"), {"hip-ridge"}),
        ((*UNLIKE, "--hip-way", "shifted"), {"hip-tail", "hip-ridge", "hip-seat", "hip heel"}),
        (("--fascia", "1 1/2", "--spacing", "48in"), set()),
    ],
)
def test_no_command_prints_a_sheet_whose_cheeks_meet_elsewhere(capsys, more, elsewhere):
    """The catalogue's fascias are 3/4 in, its commons 1 1/2 in thick, its hip over the middle.

    The backs of fascias t thick meet t inside of both, in plan 9 - 7 parts of sqrt 130 beside the
    hip's line: 0.13 in for 3/4 in, 0.26 for 1 1/2. Under like pitches they meet on the line,
    however thick. A common 3 1/2 in thick stands 1 3/4 in on either side of its own line; a hip
    that is shifted has its middle beside the line, so that every pair of cheeks meets elsewhere.
    """
    rows = cuts_told(capsys, "--size", "14' x 10'", *more)
    pairs = {"hip-tail", "hip-ridge", "hip-seat", "hip heel"}
    assert {row[0] for row in rows if row[0] in pairs and row[6] == "-"} == elsewhere
    assert "Where no command stands (-)" in said(capsys, "roof", "--size", "14' x 10'", *more)
    assert {row[0] for row in rows if row[6] != "-"} >= {"hip-jack", "common-seat"} | (
        pairs - elsewhere
    )


def test_a_metric_roof_says_no_inch(capsys):
    """Marks, pitches and lengths in millimeters and on 300; the words to type keep their own."""
    assert run(["roof", "--size", "10' x 8'", "--spacing", "48in", "--units", "metric"]) == 0
    said = capsys.readouterr().out
    told = [line.split(" --pitch")[0] for line in said.splitlines()]
    assert not [line for line in told if re.search(r"on 12\b|in 12\b|\d\"|\d shy", line)]
    assert re.search(r"edge 2\d\d on 300", said)


def test_two_pitches_are_both_in_the_title_with_each_sides_overhang_and_heights(capsys):
    """The ends' overhang under a level fascia: 12 in * 4/9 = 5 1/3 in, by the rises alone."""
    text = said(capsys, "roof", "--size", "16' x 12'", "--pitch", "4", "--end-pitch", "9",
                "--hip", "2x10", "--spacing", "96in")  # fmt: skip
    assert "front, back 4 in 12, right, left 9 in 12" in text.splitlines()[0]
    sides = text.split("\nSIDES\n")[1].split("\n\n")[0]
    assert "height above plate" in sides
    ends = next(line for line in sides.splitlines() if line.startswith("right"))
    assert "0'-5 5/16\"" in ends
    cuts = text.split("\nCUTS\n")[1].split("\n\n")[0].splitlines()
    for cut in ("hip-ridge", "hip-tail", "hip heel", "hip-backing"):
        hands = {line.split()[2 + (cut == "hip heel") + ("bird" in line)] for line in cuts
                 if line.startswith(cut)}  # fmt: skip
        assert hands == {"left", "right"}, cut


def test_a_name_that_no_drawing_can_have_is_refused_before_the_roof_is_framed(
    capsys, tmp_path, monkeypatch
):
    monkeypatch.setattr("lessons.cli.commands.roof.frame", None)
    assert run(["roof", "-o", str(tmp_path / "roof.txt")]) == 2
    assert "the name must end in .pdf or .svg" in capsys.readouterr().err
