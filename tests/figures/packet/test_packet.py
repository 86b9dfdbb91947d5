"""A packet's sheets against the framed sticks: marks read from the file, folded on each solid.

The solids are built by a general-purpose library from the sticks' planes (`tests.stick_solids`);
the folding is `tests.wraps`' own arithmetic, from the strokes of the PDF alone.
"""

import json
import re
import unicodedata
from pathlib import Path
from random import Random

import numpy as np
import pypdf
import pytest

from figures.files.press import write
from figures.ink.paper import read_paper
from figures.packet.making import Making
from figures.packet.stick_sheet import stick_sheet
from figures.wrap.stations import kind
from figures.wrap.template import template_pages
from layout.answer.answer import answer
from layout.framing.cutlist import piece_groups, piece_rows, stick_row
from layout.framing.ends import datum_of, distinct_ends, place_of
from layout.framing.roof import frame
from layout.framing.running import landings, start_of
from layout.job.job import Job
from layout.job.job_roof import roof_plan
from lessons.cli.main import run
from lessons.jobs.job_file import read_job
from tests.counts import LONG, count, part_of
from tests.folded_marks import ROLL, marks_in_file, printed
from tests.measure import pdf_text
from tests.stick_solids import solid

NEAR_IN = 1e-3


def drawn_job(seed):
    """A small roof of a training yard: two pitches, any hip head, a wing in every third.

    Of each seven one is a T whose valley runs on to the main ridge, one an octagon or hexagon, and
    one has a bay.
    """
    rng = Random(seed)
    pitch, end = rng.choice((4, 6, 8, 9, 12)), rng.choice((5, 8, 10, 12))
    texts = {
        "size": f"{rng.choice((14, 15, 16))}' x {rng.choice((9, 10))}'",
        "pitch": f"{pitch} in 12",
        "end-pitch": f"{end} in 12" if seed % 3 else f"{pitch} in 12",
        "spacing": "24in",
        "hip": "2x10",
        "valley": "2x10",
        "hip-head": rng.choice(("commons", "ridge")),
        "hip-way": rng.choice(("backed", "dropped")),
        "overhang": rng.choice(("10in", "16in")),
    }
    if seed % 3 == 0:
        texts |= {"size": "16' x 10'", "wing": "8' x 8'", "wing-end": "gable"}
    if seed % 7 == 4:
        texts |= {"size": "20' x 12'", "wing": "6' x 7'", "wing-at": "5'", "wing-end": "gable"}
        texts |= {"hip": "2x10", "valley": "2x12"}
    elif seed % 7 == 5:
        del texts["size"], texts["end-pitch"]
        texts = {k: v for k, v in texts.items() if not k.startswith("wing")}
        texts["equal"] = rng.choice(("8 x 5'", "6 x 6'"))
    elif seed % 7 == 6:
        texts = {k: v for k, v in texts.items() if not k.startswith("wing")}
        texts |= {"size": "16' x 10'", "ends": "bay,gable"}
        del texts["end-pitch"]
    return Job(f"yard {seed}", texts)


def sharp_edges(stick, place):
    """The edges of the stick with the cuts of one place alone, in board axes (n, 2, 3) [in]."""
    only = tuple(r for r in stick.removals if place_of(stick, r) == place)
    mesh = solid(_Cut(stick, only)).to_mesh64()
    points = stick.in_board(np.asarray(mesh.vert_properties)[:, :3])
    triangles = np.asarray(mesh.tri_verts)
    normals = np.cross(
        points[triangles[:, 1]] - points[triangles[:, 0]],
        points[triangles[:, 2]] - points[triangles[:, 0]],
    )
    sizes = np.linalg.norm(normals, axis=1)
    beside = {}
    for triangle, normal, size in zip(triangles, normals, sizes, strict=True):
        if size > 1e-9:
            for i in range(3):
                key = tuple(sorted((triangle[i], triangle[(i + 1) % 3])))
                beside.setdefault(key, []).append(normal / size)
    sharp = [
        key for key, sides in beside.items() if len(sides) != 2 or sides[0] @ sides[1] < 1 - 1e-9
    ]
    return points[np.array(sharp)]


class _Cut:
    """What `tests.stick_solids.solid` asks of a stick: the whole one's place, some of its cuts."""

    def __init__(self, stick, removals):
        self.removals, self.corners = removals, stick.corners
        self.pose, self.origin, self.stock = stick.pose, stick.origin, stick.stock
        self.in_board = stick.in_board


def off_edges(points, edges):
    """How far each point lies from the nearest edge [in]."""
    start, along = edges[:, 0], edges[:, 1] - edges[:, 0]
    share = np.einsum("pej,ej->pe", points[:, None] - start, along)
    share = np.clip(share / np.maximum((along**2).sum(axis=1), 1e-18), 0, 1)
    nearest = start + share[..., None] * along
    return np.linalg.norm(points[:, None] - nearest, axis=2).min(axis=1)


@pytest.mark.parametrize("seed", range(count(100, 2)))
def test_marks_of_every_template_lie_on_the_edges_of_every_stick(tmp_path, seed):
    """In the default suite a sixth of two jobs' ends, in the long run all of a hundred jobs'.

    All ends of a job are in one file; one of them in seven bears its words too.
    """
    roof = frame(roof_plan(drawn_job(seed)))
    groups = piece_groups(roof)
    ends = distinct_ends(groups, roof.by_name)
    share = count(1, 6)
    chosen = [q for number, q in enumerate(ends) if (number + seed) % share == 0]
    answers = [answer(question) for question in chosen]
    worded = [(number + seed) % 7 == 0 for number in range(len(answers))]
    sheets = [printed(one, words) for one, words in zip(answers, worded, strict=True)]
    assert all(len(sheet) == 1 for sheet in sheets)
    (path,) = write([sheet[0] for sheet in sheets], tmp_path / "ends.pdf", title="ends")
    for index, (one, question) in enumerate(zip(answers, chosen, strict=True)):
        places = marks_in_file(sheets[index], path, one, index)
        assert len(places) >= 3
        where = question.entry.name.partition(":")[2]
        if kind(one) == "notch":
            assert len(places) >= 9
        text = " ".join(pdf_text(path, index).split())
        for use in question.stands.uses:
            stick = groups[use.name][0]
            moved = use.offset_in + datum_of(stick)[0]
            here = places + np.array([0.0 if one.is_rip else moved, 0.0, 0.0])
            edges = sharp_edges(stick, where)
            if where == "bevel":  # drawn at the end of a board, made along a part of the stick
                here = here * [0.0, 1.0, 1.0]
                edges = edges[np.abs(np.diff(edges[:, :, 1:], axis=1)).max(axis=(1, 2)) < 1e-9]
                edges = edges * [0.0, 1.0, 1.0]
            off = off_edges(here, edges)
            assert off.max() < NEAR_IN, (seed, question.entry.name, use.name, off.max())
            assert not worded[index] or all(name in text for name in use.sticks)


def test_words_move_no_line(tmp_path):
    """The heavy strokes of an end with its words and without them, each read from its own file."""
    roof = frame(roof_plan(Job("yard", {"size": "16' x 10'", "spacing": "48in"})))
    question = next(
        q for q in distinct_ends(piece_groups(roof), roof.by_name) if q.entry.name == "H1:seat"
    )
    one, found = answer(question), []
    for words in (True, False):
        sheet = printed(one, words)
        (path,) = write(sheet, tmp_path / f"{words}.pdf", title="end")
        found.append(marks_in_file(sheet, path, one))
    assert len(found[0]) == len(found[1])
    np.testing.assert_allclose(*found, atol=1e-4)


def test_the_start_line_stands_where_the_words_say(tmp_path):
    """The printed distance from the tape's hook, against the start line measured in the file."""
    roof = frame(roof_plan(Job("yard", {"size": "16' x 10'", "spacing": "24in"})))
    question = next(
        q for q in distinct_ends(piece_groups(roof), roof.by_name) if q.entry.name == "H1:head"
    )
    one = answer(question)
    pages = template_pages(one, ROLL)
    (path,) = write(pages, tmp_path / "end.pdf", title="end")
    text = "".join(pdf_text(path).split())
    said = re.search(r"Thestartlinestands[^(]*\(([\d.]+)mm\)towardtheheadfromit", text)
    marks = marks_in_file(pages, path, one)
    long_point = marks[:, 0].max()
    row = stick_row(roof.by_name["H1"])
    assert long_point == pytest.approx(row.lengths.long_in, abs=NEAR_IN)
    back = re.search(r"\(([\d.]+)mm\)fromthelongpoint(?:atthe\w+edge)?,towardthefoot", text)
    stands = float(said[1]) + float(back[1])
    assert stands == pytest.approx(row.lengths.long_in * 25.4, abs=1.01)


def test_running_measures_are_the_places_of_the_layout():
    """Along the front plate: jacks from either hip mirror each other, commons on centre.

    Common practice, no source; the far end is the plate's own length, measured on its solid.
    """
    roof = frame(roof_plan(Job("yard", {"size": "24' x 16'", "spacing": "24in"})))
    plate = roof.by_name["P1"]
    here = [one for one in landings(roof.sticks) if one.carrier == "P1" and one.stick[0] in "JC"]
    middles = np.array([one.middle_in for one in here])
    assert start_of(plate) == pytest.approx(0.0, abs=1e-9)
    np.testing.assert_allclose(np.sort(24 * 12 - middles), middles, atol=1e-6)
    np.testing.assert_allclose(
        [one.far_in - one.near_in for one in here], roof.plan.rafter.thickness_in, atol=1e-6
    )


def test_one_question_every_way(capsys, tmp_path, monkeypatch):
    """The hip's long point by roof, its JSON, the packet's rows: one figure.

    `length` and `jacks` cut the hip's head on the ridge, and say so: with that head the roof
    gives their figure too.
    """
    monkeypatch.chdir(tmp_path)
    assert run(["job", "new", "yard.toml"]) == 0
    capsys.readouterr()
    text = Path("yard.toml").read_text()
    Path("yard.toml").write_text(text.replace('spacing = "16in"', 'spacing = "48in"'))

    def said(*arguments):
        assert run([*arguments, "--job", "yard.toml"]) == 0
        return capsys.readouterr().out

    roof = json.loads(said("roof", "--json"))
    stick = next(row for row in roof["sticks"] if row["name"] == "H1")
    one = json.loads(said("roof", "--stick", "H1", "--json"))
    assert one["long_in"] == stick["long_in"]
    piece = next(row for row in roof["pieces"] if "H1" in row["names"].split(", "))
    assert piece["long_in"] == pytest.approx(stick["long_in"], abs=1e-9)
    head = [plane for plane in stick["planes"] if plane["place"] == "head"]
    longest = min(
        max(
            float(np.dot(p["normal"], p["point_in"]) - p["normal"][1] * y - p["normal"][2] * 7.25)
            / p["normal"][0]
            for p in [plane]
        )
        for plane in head
        for y in [0.75]
    )
    assert longest == pytest.approx(stick["long_in"], abs=1e-9)
    jacks = json.loads(said("jacks", "--json"))["jacks"]
    shortest = min(row["long_in"] for row in roof["sticks"] if row["role"] == "hip jack")
    assert jacks[0]["long_in"] == pytest.approx(shortest, abs=1e-9)
    on_ridge = json.loads(said("roof", "--json", "--hip-head", "ridge"))
    single = next(row for row in on_ridge["sticks"] if row["name"] == "H1")
    told = json.loads(said("length", "hip", "--json"))
    by_length = told["length"][0]["table_in"] + told["head_points"]["long_in"]
    assert by_length == pytest.approx(single["long_in"], abs=1e-6)
    assert "one cheek on the ridge" in said("length", "hip")


LONG_POINT = r": (?:long point|length) ([^,;.]+?)(?= \(|,|;|\.)"
TO_THE_SIXTEENTH = 1 / 32 + 1e-9


def read_in(text):
    """Feet, inches and a fraction as they are printed, on paper too, in inches."""
    plain = "".join(unicodedata.normalize("NFKC", each) for each in text).replace("\u2044", "/")
    feet, inches, top, under = re.fullmatch(
        r"(?:(\d+)'-)?(\d+)(?: ?(?<=\D)(\d+)/(\d+))?\"", plain
    ).groups(default="0")
    return 12 * int(feet) + int(inches) + int(top) / (int(under) or 1)


def by_sheet(name, said):
    """The words of a stick's sheet, read from a PDF: the job's packet in the long run, else the
    one sheet, which the packet makes by the same call."""
    if LONG:
        told = json.loads(said("packet", "-o", "yard.pdf", "--json").partition("\n")[2])
        page = next(row for row in told["sticks"] if row["name"] == name)["sheet_page"] - 1
        path = Path("yard.pdf")
    else:
        roof, page = frame(roof_plan(read_job(Path("yard.toml")))), 0
        row = next(row for row in piece_rows(roof) if name in row.names.split(", "))
        made = Making(roof, read_paper("Letter"), "8 in 12", answer)
        sheet = stick_sheet(made, row, piece_groups(roof)[row.mark])
        (path,) = write(sheet, Path("sheet.pdf"), title="sheet")
    text = " ".join(pdf_text(path, page).split())
    return read_in(re.search(LONG_POINT, text)[1]), TO_THE_SIXTEENTH


def by_stick(name, said):
    return read_in(re.search(LONG_POINT, said("roof", "--stick", name))[1]), TO_THE_SIXTEENTH


def by_template(name, said):
    """The start line's distance and the long point's from it, each in millimeters."""
    said("template", f"{name}:head", "-o", "end.pdf")
    path = Path("end.pdf")
    pages = range(len(pypdf.PdfReader(path).pages))
    text = "".join("".join(pdf_text(path, page).split()) for page in pages)
    found = (
        re.search(pattern, text)[1]
        for pattern in (
            r"Thestartlinestands[^(]*\(([\d.]+)mm\)toward",
            r"\(([\d.]+)mm\)fromthelongpoint(?:atthe\w+edge)?,towardthefoot",
        )
    )
    return sum(map(float, found)) / 25.4, 1.01 / 25.4


def by_jacks(name, said):
    del name  # the first jack from the corner is J1
    return json.loads(said("jacks", "--json"))["jacks"][0]["long_in"], 1e-6


def by_length(name, said):
    del name  # a hip
    told = json.loads(said("length", "hip", "--json"))
    return told["length"][0]["table_in"] + told["head_points"]["long_in"], 1e-6


WAYS = {
    "sheet": by_sheet, "stick": by_stick, "template": by_template, "jacks": by_jacks,
    "length": by_length,
}  # fmt: skip
ASKED = [
    (name, way, head)
    for head in ("commons", "ridge")
    for name, ways in (
        ("H1", ("sheet", "stick", "template", "length")),
        ("J1", ("sheet", "stick", "template", "jacks")),
    )
    for way in ways
]


@pytest.mark.parametrize(("name", "way", "head"), part_of(ASKED, 16, 4))
def test_a_long_point_is_one_figure_by_every_way(name, way, head, tmp_path, monkeypatch, capsys):
    """Hip and first jack, by the sheet's printed words, `roof`, `jacks`, `length` and the template.

    `length` lays one cheek of a hip on the ridge, and says so: where the job's hips come up
    between commons its figure is another.
    """
    monkeypatch.chdir(tmp_path)
    Path("yard.toml").write_text(
        f'[roof]\nsize = "16 ft x 10 ft"\nhip-head = "{head}"\n[layout]\nspacing = "24in"\n'
    )

    def said(*arguments):
        assert run([*arguments, "--job", "yard.toml"]) == 0
        return capsys.readouterr().out

    framed = stick_row(frame(roof_plan(read_job(Path("yard.toml")))).by_name[name])
    found, near = WAYS[way](name, said)
    if (way, head) == ("length", "commons"):
        assert abs(found - framed.lengths.long_in) > 0.5
        assert "one cheek on the ridge" in said("length", "hip")
    else:
        assert found == pytest.approx(framed.lengths.long_in, abs=near)
