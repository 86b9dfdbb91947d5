"""The course's rules: each one is broken once, told with file and line, and kept by the course.

The rules are our own; what they ask is common practice in plain writing, no source.
"""

import re
from functools import cache

import pytest

from lessons.cli.main import run
from lessons.course import lesson_rules, taught_before
from lessons.course.lesson import catalog, parse_lesson
from lessons.course.lesson_rules import rule_faults
from lessons.course.lesson_starter import starter
from lessons.course.runner import run as worked
from lessons.course.taught_before import order_faults
from tests.counts import LONG

LESSONS = catalog()
STARTER = starter("two-valleys")
FREE = len(LESSONS) + 1
LONG_SENTENCE = " ".join(["Measure"] + ["and measure"] * 17) + "."


@pytest.fixture(scope="module", autouse=True)
def _course_taught_once():
    """What the lessons of the course teach is worked out once for all tests of this file."""
    taught = taught_before._taught
    course = {id(one): one for one in LESSONS.values()}
    once = cache(lambda key: tuple(taught(course[key])))
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(
            taught_before,
            "_taught",
            lambda one: once(id(one)) if id(one) in course else taught(one),
        )
        yield


def faults(text):
    lesson = parse_lesson("yard", "yard.toml", text)
    return [*rule_faults(worked(lesson)), *order_faults(lesson, LESSONS)]


def changed(old, new):
    assert old in STARTER
    return STARTER.replace(old, new, 1)


def line_of(text, needle):
    return text[: text.index(needle)].count("\n") + 1


@pytest.mark.parametrize("cut", ["hip-jack", "common-ridge", "collar-tie", "valley-seat"])
def test_the_starter_keeps_every_rule(cut):
    assert faults(starter(cut)) == []


@pytest.mark.parametrize(
    ("old", "new", "at", "said"),
    [
        ("After this lesson you can", "You can", "able =", "able should begin with 'After this"),
        ("cautions =", "# cautions =", "able =", "it has no caution of its own"),
        (
            'name = "forty-five-on-edge"',
            'name = "no-drop-no-backing"',
            'name = "side-number-as-tilt"',
            "1 of its mistakes cost something",
        ),
        ('kind = "mark"', 'kind = "dispute"\nmistake = "forty-five-on-edge"', "ask =", "kind mark"),
        ('hints = ["The edge', '# hints = ["The edge', "ask =", "a number drill needs a hint"),
        ("This board lies", LONG_SENTENCE + " This board lies", "say =", "a sentence of 35 words"),
        ("This board lies", "Go. " * 43 + "This board lies", "say =", "make two of it, at most 42"),
        ("This board lies", "Take the tangent. It lies", "say =", "'tangent' is of a formula"),
        (f"number = {FREE}", "number = 1 ", "able =", f"the next free one is {FREE}"),
        (f"number = {FREE}", "number = 2 ", "ask =", "teaches 'side-cut number'"),
    ],
)
def test_a_rule_that_is_not_kept_is_told_with_its_line(old, new, at, said):
    text = changed(old, new)
    found = [fault for fault in faults(text) if said in fault]
    assert found, faults(text)
    assert found[0].startswith(f"yard.toml:{line_of(text, at)}: ")


def test_a_lesson_of_the_course_takes_the_next_number():
    text = changed(f"number = {FREE}", f"number = {FREE + 1}")
    lesson = parse_lesson("yard", "yard.toml", text)
    assert list(order_faults(lesson, LESSONS)) == []
    (fault,) = order_faults(lesson, {**LESSONS, "yard": lesson})
    assert f"leaves a hole in the course; the next free one is {FREE}" in fault


@pytest.mark.parametrize(
    ("old", "at"),
    [
        (
            "[[mistake]]                 # two or more that cost something, by name; the gap is"
            ' worked out\nname = "side-number-as-tilt"',
            'name = "side-number-as-tilt"',
        ),
        ('mistake = "side-number-as-tilt"', 'ask = "A crew'),
    ],
    ids=["warned of", "asked for in a drill"],
)
def test_a_mistake_that_is_never_made_on_the_cut_is_told_with_those_that_are(old, at):
    text = changed(old, old.replace("side-number-as-tilt", "tilt-left-on"))
    at = at.replace("side-number-as-tilt", "tilt-left-on")
    (fault,) = [fault for fault in faults(text) if "never made" in fault]
    said, made = fault.split("; made are ")
    where = f"yard.toml:{line_of(text, at)}"
    assert said == f"{where}: 'tilt-left-on': this mistake is never made on this cut"
    assert {"side-number-as-tilt", "no-shortening"} <= {*made.split(", ")}


def test_a_picture_that_cannot_be_drawn_is_told_with_its_line():
    """No miter saw cuts a notch."""
    text = starter("valley-seat").replace('picture = "plan"', 'picture = "miter-saw"')
    (fault,) = faults(text)
    line = line_of(text, "say =")
    assert fault.startswith(f"yard.toml:{line}: the picture 'miter-saw': a notch or hollow end is")


def test_pictures_and_the_length_of_all_sentences_are_counted(monkeypatch):
    bare = re.sub(r'use = "(lay|saw).*"', 'say = "Mark the board."', STARTER)
    assert any("its steps show 1 pictures; show 3" in fault for fault in faults(bare))
    monkeypatch.setattr(lesson_rules, "MEAN_WORDS", 4)
    assert any("words on average" in fault for fault in faults(STARTER))


def test_a_line_of_a_layout_is_asked_for_after_its_lesson():
    """With no lesson before it, one that shows no edge mark may not show a layout with one."""
    text = re.sub(r'use = "(lay|saw).*"', 'say = "Mark the board."', STARTER)
    found = list(order_faults(parse_lesson("yard", "yard.toml", text), {}))
    line = line_of(text, 'ask = "A crew')
    told = f"yard.toml:{line}: no lesson up to this one teaches 'edge mark'"
    assert any(fault.startswith(told) for fault in found)


@pytest.mark.parametrize("name", LESSONS)
def test_the_course_keeps_its_order(name):
    assert list(order_faults(LESSONS[name], LESSONS)) == []


@pytest.mark.parametrize("name", LESSONS if LONG else ["cripple-jack"])
def test_the_course_keeps_its_rules(name):
    assert list(rule_faults(worked(LESSONS[name]))) == []


def test_lesson_check_tells_each_fault_of_a_file(tmp_path, capsys):
    path = tmp_path / "two-valleys.toml"
    path.write_text(changed("After this lesson you can", "You can").replace("cautions =", "# c ="))
    assert run(["lesson", "check", str(path)]) == 2
    out, error = capsys.readouterr()
    assert out.count("two-valleys: ") == 2
    assert error == "squaresaw: 1 of 1 lessons have faults\n"
