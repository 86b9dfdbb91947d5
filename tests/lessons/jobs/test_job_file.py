"""Job files: the starter frames, what is wrong is told with its line, options win over the file."""

import json
import re

import numpy as np
import pytest

from layout.job.job import SECTIONS
from lessons.cli.main import one_line, run
from lessons.jobs.job_file import read_job


@pytest.fixture
def yard(tmp_path, monkeypatch, capsys):
    """A small roof of a training yard, as a job file in the current folder."""
    monkeypatch.chdir(tmp_path)
    text = """name = "yard"
[roof]
size = "16' x 10'"
pitch = "8 in 12"
[layout]
spacing = "24in"
"""
    (tmp_path / "yard.toml").write_text(text)
    return tmp_path / "yard.toml"


def said(capsys, *arguments):
    assert run(list(arguments)) == 0
    return capsys.readouterr().out


def refused(capsys, *arguments):
    assert run(list(arguments)) == 2
    out, error = capsys.readouterr()
    assert out == ""
    assert error.count("\n") == 1
    return error


def test_the_starter_can_be_framed_and_is_never_written_over(tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    assert "wrote porch.toml" in said(capsys, "job", "new", "porch.toml")
    before = (tmp_path / "porch.toml").read_bytes()
    assert "can be framed, 65 sticks" in said(capsys, "job", "check", "porch.toml")
    assert "there already" in refused(capsys, "job", "new", "porch.toml")
    assert (tmp_path / "porch.toml").read_bytes() == before
    for line in before.decode().splitlines():
        assert len(line) <= 100


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ('[roof]\npich = "9"', "line 2: [roof] has no 'pich'; did you mean 'pitch'?"),
        ('[roof]\nrafter = "2x6"', "line 2: rafter belongs in the section [stock]"),
        ('[rof]\npitch = "9"', "line 1: there is no section 'rof'; did you mean 'roof'?"),
        ('[roof]\npitch = "99x"', "line 2, pitch: '99x' is not a pitch"),
        ('[roof]\npitch = "9"\n[stock]\npitch = "2x6"', "line 4: pitch belongs in the section"),
        ('[[wall]]\nlength = "9 ft"\n[saw]\nlength = "9"', "line 4: [saw] has no 'length'"),
        ("[roof]\npitch = 9 in 12", "line 2"),
        ('[roof]\nhip-head = "sky"', "line 2: hip-head is commons or ridge, not 'sky'"),
        ("[roof]\npitch = true", "line 2: pitch is a text or a number"),
        ('[[wall]]\nturn = "90"', "wall 1 has no length"),
        ('[[wall]]\nlength = "9 ft"\nkind = "moat"', "eave, gable, high"),
        ('[[wall]]\nlength = "9 ft"\n[roof]\nsize = "9\' x 9\'"', "say the same thing"),
        ("[roof]\nsize = " + "[" * 3000, "nested too deep"),
        ("[roof]\nsize = " + "9" * 5000, "too many digits"),
        ('[layout]\nspacing = "40 ft"', "line 2, spacing: a spacing of 40'-0\""),
    ],
)
def test_what_is_wrong_is_told_with_its_line(tmp_path, capsys, text, expected):
    path = tmp_path / "yard.toml"
    path.write_text(text)
    assert expected in refused(capsys, "job", "check", str(path))


def starter_with(capsys, tmp_path, **values):
    """A new job file in which these values are said, and the line on which each stands."""
    path = tmp_path / "porch.toml"
    said(capsys, "job", "new", str(path))
    lines, at = path.read_text().splitlines(), {}
    for name, value in values.items():
        key = name.replace("_", "-")
        (k,) = (k for k, line in enumerate(lines[: lines.index("# [[wall]]")])
                if line.removeprefix("# ").startswith(f"{key} = "))  # fmt: skip
        lines[k], at[key] = f'{key} = "{value}"', k + 1
    path.write_text("\n".join(lines))
    return path, at


FRAMED = tuple(key for section in ("roof", "layout", "stock") for key in SECTIONS[section])


@pytest.mark.parametrize("key", FRAMED)
def test_a_value_that_cannot_be_read_is_told_with_its_own_line_and_name(tmp_path, capsys, key):
    """Every value that a roof is framed by, in a new file, among whose other lines are words of
    the error's: an end is a hip, and so is a stock's name."""
    wing = {} if key in ("wing", "equal") else {"wing": "10' x 12'"}
    path, at = starter_with(capsys, tmp_path, **wing, **{key: "gabel,hip"})
    error = refused(capsys, "job", "check", str(path))
    assert f"porch.toml, line {at[key]}" in error
    assert re.search(rf"line \d+(, {key}:|: {key} is )", error), error


@pytest.mark.parametrize(
    ("values", "key", "says"),
    [
        ({"hip": "2x6"}, "hip", "number from memory)\n"),
        ({"valley": "2x6", "wing": "10' x 12'"}, "valley", "number from memory)\n"),
        ({"spacing": "40 ft"}, "spacing", "longer than the eave"),
        ({"spacing": "0"}, "spacing", "frames nothing"),
        ({"size": "0 x 9'"}, "size", "a length of 0 in frames nothing"),
        ({"first": "17in"}, "first", "at most the spacing"),
        ({"overhang": "1/2"}, "overhang", "leaves no tail"),
        ({"rake_overhang": "1/2"}, "rake-overhang", "does not hold a rake board"),
        ({"seat": "20in"}, "seat", "does not fit"),
        ({"ridge": "20in x 20in", "size": "26in x 26in"}, "ridge", "no rafter is left"),
        ({"wing": "10' x 30'"}, "wing", "that is no L"),
        ({"wing": "10' x 12'", "ends": "gable,hip"}, "ends", "the outer corner of an L"),
        ({"wing": "10' x 12'", "wing_end": "bay"}, "wing-end", "a bay ends a roof"),
        ({"wing": "10' x 12'", "wing_at": "20'"}, "wing-at", "the wing of a T"),
        ({"equal": "2 x 6'"}, "equal", "3 or more"),
        ({"size": "8' x 20'", "ends": "bay,bay"}, "size", "give more length"),
    ],
)  # fmt: skip
def test_a_value_no_roof_can_be_framed_with_is_told_whole_with_its_line(
    tmp_path, capsys, values, key, says
):
    """The one to change, of all that the error speaks of: "a hip of 2x6" is not the rafter's 2x6.

    At 8 in 12 the jack's cut measures 5.5 sqrt(208) / 12 = 6.61 plumb, a 2x6 hip less: too shallow.
    """
    path, at = starter_with(capsys, tmp_path, **values)
    error = refused(capsys, "job", "check", str(path))
    assert f"porch.toml, line {at[key]}, {key}: " in error
    assert says in error


@pytest.mark.parametrize(
    ("key", "value", "says"),
    [
        ("tilt_step", "fine", "is not an angle"),
        ("tilt_step", "6", "cannot be set"),
        ("max_tilt", "steep", "is not an angle"),
        ("max_tilt", "90", "no saw leans to 90"),
        ("blade_depth", "deep", "is not a length"),
        ("blade_depth", "9", "no circular saw's"),
        ("tolerance", "none", "is not a length"),
        ("tolerance", "0", "lets nothing pass"),
        ("paper", "Lettre", "'Lettre'"),
        ("kind", "left", "kind is blade-left or"),
        ("units", "feet", "units is inch or metric"),
    ],
)
def test_a_saws_or_papers_wrong_value_is_told_with_its_line(tmp_path, capsys, key, value, says):
    """Every other command would refuse the job: so does its check, on the line to change."""
    more = {"size": "10' x 10'", "spacing": "60in"}
    path, at = starter_with(capsys, tmp_path, **more, **{key: value})
    error = refused(capsys, "job", "check", str(path))
    assert f"porch.toml, line {at[key.replace('_', '-')]}" in error
    assert key.replace("_", "-") in error
    assert says in error


@pytest.mark.parametrize(
    ("wrong", "told"),
    [
        ('pitch = "steep"', "line 9, pitch of wall 3: 'steep' is not a pitch"),
        ('kind = "moat"', "line 9: a wall's kind is eave, gable, high, not 'moat'"),
        ('turn = "far"', "line 9: a turn is a number of degrees such as 90"),
        ("name = true", "line 9: name is a text or a number"),
        ('pich = "9"', "line 9: wall 3 has no 'pich'"),
    ],
)
def test_a_walls_value_is_told_with_the_line_in_that_wall(tmp_path, capsys, wrong, told):
    """Two walls before it say the same keys on lines 3 and 6."""
    walls = ['[[wall]]\nlength = "20 ft"\npitch = "8"\n'] * 4
    walls[2] = f'[[wall]]\nlength = "20 ft"\n{wrong}\n'
    path = tmp_path / "yard.toml"
    path.write_text("".join(walls))
    assert told in refused(capsys, "job", "check", str(path))


def test_an_error_too_long_ends_at_a_words_end():
    """Two apostrophes are no quotation, however far apart; 300 letters and no half word."""
    words = "the jack's plumb cut " + "reaches " * 12 + "below the hip's edge"
    assert one_line(words) == words
    long = one_line("reaches " * 60)
    assert long.endswith(" reaches…")
    assert 280 <= len(f"squaresaw: {long}") <= 300


def test_a_job_gives_what_is_not_said_and_an_option_wins(yard, capsys):
    own = json.loads(said(capsys, "mark", "hip-jack", "--job", "yard.toml", "--json"))
    assert own["given"]["pitch"] == "8 in 12"
    other = said(capsys, "mark", "hip-jack", "--job", "yard.toml", "--pitch", "9", "--json")
    assert json.loads(other)["given"]["pitch"] == "9 in 12"
    wider = json.loads(said(capsys, "roof", "--job=yard.toml", "--size", "20' x 10'", "--json"))
    usual = json.loads(said(capsys, "roof", "--job=yard.toml", "--json"))
    ridges = [
        next(s["long_in"] for s in one["sticks"] if s["role"] == "ridge") for one in (wider, usual)
    ]
    assert ridges[0] - ridges[1] == pytest.approx(48, abs=1e-9)
    assert yard.read_text().count("pitch") == 1


def test_sticks_and_pieces_stand_where_a_cut_may(yard, capsys):
    before = yard.read_bytes()
    stick = said(capsys, "mark", "J1:head", "--job", "yard.toml", "--json")
    piece = said(capsys, "mark", "J-A:head", "--job", "yard.toml", "--json")
    assert json.loads(stick) == json.loads(piece)
    assert json.loads(stick)["cut"] == "J1:head"
    claimed = said(capsys, "settle", "J1:head", "--job", "yard.toml", "--claim", "saw 45")
    assert "J1:head" in claimed
    assert "give --job" in refused(capsys, "mark", "J1:head")
    assert "did you mean" in refused(capsys, "mark", "J99", "--job", "yard.toml")
    assert "several ends" in refused(capsys, "settle", "J1", "--job", "yard.toml")
    assert yard.read_bytes() == before, "a job is never changed by what is asked of it"


def test_a_stick_cut_wrong_is_read_back_with_what_it_loses(yard, capsys):
    """At tilt t along a face mark a the edge runs tan t / cos a over the thickness: 50 for 45
    runs 1.5 (tan 50 - tan 45) / cos 33.69 longer, and that is what a recut takes off."""
    told = said(capsys, "mark", "J1:head", "--job", "yard.toml", "--cut-as", "tilt 50")
    face = np.arctan(8 / 12)
    lost = 1.5 * (np.tan(np.radians(50)) - 1) / np.cos(face)
    assert f"({lost:.3f}) farther in" in told
    assert "edge mark as tilt" in told
    flat = said(capsys, "mark", "J1:head", "--job", "yard.toml", "--cut-as", "tilt 40")
    assert "No length is lost" in flat
    right = said(capsys, "mark", "J1:head", "--job", "yard.toml", "--cut-as", "tilt 45")
    assert "leave it" in right
    two = said(capsys, "mark", "J1:head", "--job", "yard.toml", "--cut-as", "gap 1/4")
    assert 'Say where it opens, "... at the heel"' in two
    after = two.split("approved drawings")[1].splitlines()
    told = [line[:22] for line in after if line[:2] in ("If", "J1")]
    assert told[::2] == ["If the saw was tilted "] * 2
    assert all(line.startswith("J1: ") for line in told[1::2])
    assert "does not say" in refused(
        capsys, "mark", "J1:head", "--job", "yard.toml", "--cut-as", "crooked"
    )
    assert "no end to read back" in refused(
        capsys, "mark", "C1:seat", "--job", "yard.toml", "--cut-as", "tilt 4"
    )


def test_a_job_is_read_as_it_is_written(yard):
    job = read_job(yard)
    assert (job.name, dict(job.texts)) == (
        "yard",
        {"size": "16' x 10'", "pitch": "8 in 12", "spacing": "24in"},
    )


def test_a_wings_pitch_and_a_gables_overhang_reach_the_roof(yard, capsys):
    """The wing's left side pitches 10 in 12; its rake climbs 4 ft and its overhang, by hand:
    a level fascia under 8 and 10 in 12 leaves 12 x 8 / 10 in over the steeper side."""
    more = 'wing = "6\' x 8\'"\nwing-pitch = "10"\nwing-end = "gable"\nrake-overhang = "9in"\n'
    yard.write_text(
        yard.read_text().replace("[layout]", more + "[stock]\nvalley = '2x12'\n[layout]")
    )
    rows = json.loads(said(capsys, "roof", "--job=yard.toml", "--json"))["trim"]
    rakes = [row["length_in"] for row in rows if row["board"] == "rake board"]
    assert rakes == pytest.approx([(48 + 12 * 8 / 10) * np.hypot(12, 10) / 12] * 2)
