"""Lesson files: every kind of fault is told with its file and its line."""

import re
from pathlib import Path

import pytest

from lessons.cli.main import run
from lessons.course.lesson import LessonError, catalog, parse_lesson
from lessons.course.lesson_starter import starter

GOOD = """number = 3
title = "A cheek"
cut = "hip-jack"
end = "head"
able = "You can cut {tilt:deg}."
agree = [
  "The hand leaves {hand_gap:gap}.",
  "The saw leaves {saw_gap:gap}.",
]
cautions = ["Mind the offcut."]

[given]
pitch = "8 in 12"
stock = "2x6"

[[situation]]
say = "One plane."
picture = "plan"

[[hand]]
say = "Mark {edge_number:square}."

[[hand]]
say = "Mark it again, {edge_number:square}."
when = "square corner"

[[saw]]
say = "Tilt {tilt:deg}."

[[mistake]]
name = "side-number-as-tilt"

[[mistake]]
name = "wrong-hand"

[[drill]]
kind = "number"
ask = "What tilt for {pitch}?"
answer = "tilt:deg"
hints = [
  "From above.",
  "Half of {corner}.",
]
because = "It is {tilt:deg}."

[[drill]]
kind = "find-error"
ask = "Find it."
mistake = "wrong-hand"
because = "Other hand."

[[check]]
when = "equal pitches, square corner"
tilt = "45"

[words]
"cheek" = "a leaning cut"
"""


def read(text: str, **more: bool) -> object:
    return parse_lesson("yard", "yard.toml", text, **more)


def fault(old: str, new: str, count: int = 1, **more: bool) -> str:
    assert old in GOOD
    with pytest.raises(LessonError) as caught:
        read(GOOD.replace(old, new, count), **more)
    return str(caught.value)


def test_the_good_one_is_read():
    lesson = read(GOOD)
    assert lesson.title == "A cheek"
    assert str(lesson.by_hand[1].when) == "square corner"
    assert lesson.by_hand[0].say.where == "yard.toml:21"
    assert lesson.stated[0].tilt_deg == 45


@pytest.mark.parametrize(
    ("old", "new", "line", "said"),
    [
        ("{tilt:deg}.", "{tild:deg}.", 5, "names no known value; did you mean tilt"),
        ("{hand_gap:gap}", "{hand_gap}", 7, "takes :in or :fine or :gap or :ft or :decimal"),
        ("The saw leaves {saw_gap:gap}", "The saw {saw_gap:deg}", 8, "has :deg; saw_gap is"),
        ("Half of {corner}", "Half of {corner:deg}", 42, "takes no unit"),
        ("Mark it again, {edge_number:square}", "Mark {edge_number(2):square}", 24, "1 arguments"),
        ("number = 3", "number = 0", 1, "should be a whole number"),
        ("number = 3", "number = true", 1, "should be a whole number"),
        ('cut = "hip-jack"', 'cut = "hip-jak"', 3, "did you mean hip-jack"),
        ('end = "head"', 'end = "foot"', 4, "hip-jack is cut at the head"),
        ('pitch = "8 in 12"', 'pitch = "steep"', 13, "'steep' is not a pitch"),
        ('stock = "2x6"', 'stock = "2x5"', 14, "'2x5' is no dressed size"),
        ('stock = "2x6"', 'hand = "up"', 14, "hand 'up' should be left or right"),
        ('stock = "2x6"', 'board = "2x6"', 14, "given has no key 'board'"),
        (
            'picture = "plan"',
            'picture = "plane"',
            18,
            "picture 'plane' is unknown; did you mean 'plan'?",
        ),
        ('picture = "plan"', 'image = "plan"', 18, "situation has no key 'image'"),
        ('when = "square corner"', 'when = "round corner"', 25, "'round corner' is no condition"),
        ('say = "Tilt {tilt:deg}."', "say = 45", 28, "say is 45; it should be a text"),
        ('say = "Tilt {tilt:deg}."', 'when = "square corner"', 27, "say is missing"),
        ('name = "wrong-hand"', 'name = "wrong-foot"', 34, "name 'wrong-foot' is unknown"),
        (
            '[[mistake]]\nname = "wrong-hand"\n',
            "",
            30,
            "warns of 2 mistakes or more, this one of 1",
        ),
        ('kind = "number"', 'kind = "riddle"', 37, "kind 'riddle' is unknown; use one of number"),
        ('answer = "tilt:deg"', 'answer = "tilt"', 39, "has no unit"),
        ('answer = "tilt:deg"', 'answer = "hand"', 39, "is answered by a number"),
        ('answer = "tilt:deg"\n', "", 36, "a number drill needs an answer"),
        ('because = "It is {tilt:deg}."', 'why = "So."', 44, "drill has no key 'why'"),
        ('mistake = "wrong-hand"', 'mistake = "no-shortening"', 49, "leaves every mark right"),
        ('tilt = "45"', 'tilt = "steep"', 54, "'steep' is not an angle"),
        ('tilt = "45"', 'edge = "12"', 54, "should be two numbers"),
        ('tilt = "45"', 'pitch = "8"\ntilt = "45"', 53, "not for both"),
        ('tilt = "45"\n', "", 52, "a check states face, edge or tilt"),
        ('title = "A cheek"\n', "", 1, "says nothing under 'title'"),
        ("agree = [", "agreed = [", 6, "the lesson has no key 'agreed'"),
        ("[[saw]]", "[[sow]]", 27, "the lesson has no key 'sow'"),
        ('title = "A cheek"', "title = A cheek", 2, "not a TOML file"),
        ('[words]\n"cheek" = "a leaning cut"', "", 1, ""),
    ],
)
def test_a_fault_is_told_with_its_line(old, new, line, said):
    if not said:  # nothing need be said of words: the course explains its own
        assert read(GOOD.replace(old, new)).words == {}
        return
    message = fault(old, new)
    assert re.match(rf"yard\.toml:{line}:\d+: ", message), message
    assert said in message


def test_the_course_drills_every_kind():
    message = fault("number = 3", "number = 4", of_course=True)
    assert "a lesson of the course asks for every kind: no mark" in message


def test_an_own_folder_adds_and_overrides(tmp_path: Path):
    (tmp_path / "hip-jack.toml").write_text(GOOD)
    (tmp_path / "two-valleys.toml").write_text(GOOD.replace("number = 3", "number = 99"))
    lessons = catalog(tmp_path)
    assert lessons["hip-jack"].title == "A cheek"
    assert lessons["hip-jack"].path == str(tmp_path / "hip-jack.toml")
    assert list(lessons)[-1] == "two-valleys"
    assert len(lessons) == len(catalog()) + 1


def test_a_folder_that_is_not_there_is_refused(tmp_path: Path):
    with pytest.raises(LessonError, match="there is no folder"):
        catalog(tmp_path / "none")
    (tmp_path / "bytes.toml").write_bytes(b"\xff\xfe")
    with pytest.raises(LessonError, match=r"bytes.toml:1: this is no UTF-8 text"):
        catalog(tmp_path)


def test_the_starter_can_be_taught_as_it_stands(tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    assert run(["lesson", "new", "two-valleys"]) == 0
    assert (tmp_path / "two-valleys.toml").read_text() == starter("two-valleys")
    assert run(["lesson", "check", "."]) == 0
    assert "two-valleys: good" in capsys.readouterr().out
    assert run(["lesson", "two-valleys", "--catalog", "."]) == 0
    assert run(["lesson", "new", "two-valleys"]) == 2
    assert run(["lesson", "new", "check"]) == 2
    assert run(["lesson", "new", "Two Valleys"]) == 2


def test_a_new_lesson_goes_into_the_folder_of_own_lessons(tmp_path, monkeypatch, capsys):
    stands, own = tmp_path / "here", tmp_path / "cat"
    stands.mkdir()
    own.mkdir()
    monkeypatch.chdir(stands)
    for name in ("my-jack", "my-valley"):
        assert run(["lesson", "new", name, "--catalog", str(own)]) == 0
        assert f"wrote {own / name}.toml" in capsys.readouterr().out
    assert not list(stands.iterdir())
    # The number that its file calls free is free in that folder too.
    lessons = catalog(own)
    numbers = [lesson.number for lesson in lessons.values()]
    assert lessons["my-valley"].number == lessons["my-jack"].number + 1 == max(numbers)
    assert run(["lesson", "check", "--catalog", str(own)]) == 0
    capsys.readouterr()
    assert run(["lesson", "new", "my-jack", "--catalog", str(own)]) == 2
    assert "my-jack.toml is there already; give another name" in capsys.readouterr().err
    assert run(["lesson", "new", "my-jack", "--catalog", str(tmp_path / "none")]) == 2
    told = capsys.readouterr().err
    assert told.count("\n") == 1
    assert "there is no folder" in told
    assert "make it first" in told
    assert not (tmp_path / "none").exists()


@pytest.mark.parametrize(
    ("asked", "idle"),
    [
        (["new", "my-jack", "--pitch", "9"], "--pitch"),
        (["new", "my-jack", "-o", "x.pdf"], "--output"),
        (["check", ".", "--catalog", "."], "--catalog"),
        (["check", "--hand", "left"], "--hand"),
        (["values", "tilt"], "'tilt'"),
        (["values", "--max-tilt", "60"], "--max-tilt"),
        (["--pitch", "9"], "--pitch"),
        (["hip-jack", "left"], "'left'"),
    ],
)
def test_what_a_lesson_s_command_has_no_use_for_is_refused(
    asked, idle, tmp_path, monkeypatch, capsys
):
    monkeypatch.chdir(tmp_path)
    assert run(["lesson", *asked]) == 2
    told, error = capsys.readouterr()
    assert told == ""
    assert error.count("\n") == 1
    assert f"has no use for {idle}; leave it out" in error
    assert not list(tmp_path.iterdir())


def test_lesson_check_tells_every_fault_and_the_line(tmp_path, capsys):
    (tmp_path / "good.toml").write_text(starter("good"))
    (tmp_path / "unit.toml").write_text(GOOD.replace("{saw_gap:gap}", "{saw_gap}"))
    # Read, it is right; worked out, the common has no edge number.
    common = GOOD.replace('"hip-jack"\nend = "head"', '"common-ridge"')
    (tmp_path / "value.toml").write_text(common)
    # It states a tilt that does not fit the joint.
    (tmp_path / "states.toml").write_text(GOOD.replace('tilt = "45"', 'tilt = "40"'))
    assert run(["lesson", "check", str(tmp_path)]) == 2
    out, error = capsys.readouterr()
    assert "good: good" in out
    assert f"{tmp_path / 'unit.toml'}:8:" in out
    assert f"{tmp_path / 'value.toml'}:20: the edge mark runs square across here" in out
    assert f"{tmp_path / 'states.toml'}:52: tilt 40 leaves 11/64 in" in out
    assert error == "squaresaw: 3 of 4 lessons have faults\n"


def test_faults_in_several_tables_are_told_at_once(tmp_path, capsys):
    bad = GOOD.replace('picture = "plan"', 'picture = "plane"')
    bad = bad.replace('name = "wrong-hand"', 'name = "wrong-foot"')
    bad = bad.replace('answer = "tilt:deg"', 'answer = "tild:deg"')
    (tmp_path / "three.toml").write_text(bad)
    assert run(["lesson", "check", str(tmp_path / "three.toml")]) == 2
    out, _ = capsys.readouterr()
    told = out.splitlines()
    assert len(told) == 3
    assert all(len(line.replace(str(tmp_path), "")) <= 300 for line in told)
    assert "three.toml:18:" in told[0]
    assert "'plane' is unknown; did you mean 'plan'?" in told[0]
    assert "three.toml:34:" in told[1]
    assert "'wrong-foot' is unknown; did you mean 'wrong-" in told[1]
    assert "three.toml:39:" in told[2]
    assert "names no known value; did you mean tilt" in told[2]


def test_lesson_values_lists_all_that_may_be_named(capsys):
    assert run(["lesson", "values"]) == 0
    out = capsys.readouterr().out
    for name in ("{tilt:deg}", "equal pitches", "no-drop-no-backing", "saw-front"):
        assert name in out


@pytest.mark.parametrize(
    ("old", "new", "line", "said"),
    [
        ('kind = "number"', 'kind = ["number"]', 37, "kind is ['number']; it should be a text"),
        ('name = "wrong-hand"', 'name = ["x"]', 34, "name is ['x']; it should be a text"),
        ('title = "A cheek"', 'title = ["a", "b"]', 2, "title is ['a', 'b']; it should be a text"),
        ('title = "A cheek"', "title = 7", 2, "title is 7; it should be a text"),
        ('pitch = "8 in 12"', 'roll = "inf"', 13, "roll 'inf' should be a number of degrees"),
        ('pitch = "8 in 12"', 'roll = "nan"', 13, "roll 'nan' should be a number of degrees"),
        ('name = "wrong-hand"', "name = []", 34, "name is []; it should be a text"),
        ('hints = [\n  "From above.",', "hints = [\n  4,", 40, "it should be a list of texts"),
        ("number = 3", "number = 99999", 1, "should be a whole number"),
        ('say = "One plane."', 'say = "One \\u001b[31mplane."', 17, "holds the control character"),
    ],
)
def test_what_is_of_the_wrong_kind_gets_a_line_and_a_column(old, new, line, said):
    message = fault(old, new)
    assert re.match(rf"yard\.toml:{line}:\d+: ", message), message
    assert said in message


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("a = " + "[" * 5000 + "]" * 5000, "nested too deep"),
        ("number = " + "9" * 5000, "too many digits"),
        ('title = "' + "x" * 3000 + '"\nnumber = 1', "a text may have 2000"),
    ],
)
def test_a_monstrous_file_is_one_line(text, said):
    with pytest.raises(LessonError, match=said) as caught:
        read(text)
    assert re.match(r"yard\.toml:\d+:\d+: ", str(caught.value))
    assert len(str(caught.value)) < 300


@pytest.mark.parametrize(
    ("say", "loose"),
    [
        ("Set the tilt to 45 degrees.", "45 degrees"),
        ("Mark 8 1/2 on the edge.", "8 1/2"),
        ("The top of the mark leans toward the head.", "toward the head"),
        ("The blade leans left.", "leans left"),
        ("Tilt it forty-five.", "forty-five"),
        ("The mark starts on the right face.", "right face"),
    ],
)
def test_a_setting_said_outright_is_refused_and_told_how_to_write_it(say, loose):
    message = fault('say = "Tilt {tilt:deg}."', f'say = "{say}"')
    assert f"{loose!r} is one roof's; write a value such as {{" in message
    assert "or say `when` it holds" in message
    # Under a condition it may stand, and so may what no setting is said with.
    read(GOOD.replace('say = "Tilt {tilt:deg}."', f'say = "{say}"\nwhen = "square corner"'))
    read(GOOD.replace('say = "Tilt {tilt:deg}."', 'say = "Take 2 boards to the left end."'))


def test_a_collar_tie_that_is_told_to_tilt_is_refused_by_lesson_check(tmp_path, capsys):
    text = GOOD.replace('cut = "hip-jack"', 'cut = "collar-tie"')
    text = text.replace('say = "Tilt {tilt:deg}."', 'say = "Set the tilt to 45 degrees."')
    (tmp_path / "collar.toml").write_text(text, "utf-8")
    assert run(["lesson", "check", str(tmp_path)]) == 2
    assert "collar.toml:28:" in capsys.readouterr().out


@pytest.mark.parametrize("name", ['a"onload="x', "Two Valleys", "new", "x" * 61, "<script>"])
def test_a_file_whose_name_is_no_lesson_name_is_refused(tmp_path, name, capsys):
    (tmp_path / f"{name}.toml").write_text(GOOD, "utf-8")
    assert run(["lesson", "--catalog", str(tmp_path)]) == 2
    assert "is no lesson name; use small letters" in capsys.readouterr().err


def test_shared_steps_are_called_by_name():
    text = GOOD.replace('[[saw]]\nsay = "Tilt {tilt:deg}."', '[[saw]]\nuse = "saw-the-cheek"')
    lesson = read(text)
    assert len(lesson.by_saw) > 3
    assert lesson.by_saw[0].say.where.startswith("lessons/course/catalog/_steps.toml:")
    narrow = read(text.replace('"saw-the-cheek"', '"saw-the-cheek"\nwhen = "square corner"'))
    assert str(narrow.by_saw[0].when) == "square corner, one pass"
    assert "use 'saw-the-cheese' is unknown" in fault(
        'say = "Tilt {tilt:deg}."', 'use = "saw-the-cheese"'
    )


def test_a_lesson_that_bears_a_cuts_name_starts_from_that_cut(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert run(["lesson", "new", "valley-jack"]) == 0
    assert 'cut = "valley-jack"' in (tmp_path / "valley-jack.toml").read_text()
