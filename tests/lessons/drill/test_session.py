"""A drill as an apprentice meets it: typed lines in, words out."""

from random import Random

import pytest

from lessons.cli import main as cli
from lessons.cli.main import run
from lessons.course.lesson import LessonError, catalog
from lessons.drill.dealer import places
from lessons.drill.problem import Problem, put
from lessons.drill.session import Session, dealt, over
from lessons.mistakes.cut_mistakes import mistakes
from tests.counts import count

LESSON = catalog()["hip-jack"]


class Learner:
    """Types the lines it is given and remembers what was said and kept."""

    def __init__(self, *lines: str | type[BaseException]) -> None:
        self.lines = list(lines)
        self.said: list[str] = []
        self.prompts: list[str] = []
        self.kept: list = []

    def hear(self, prompt: str) -> str:
        self.prompts.append(prompt)
        line = self.lines.pop(0) if self.lines else EOFError
        if isinstance(line, str):
            return line
        raise line

    def answers(self, *problems: Problem):
        session = Session(self.hear, self.said.append, self.kept.append, Random(1))
        self.tally = session.run(iter(problems), len(problems))
        return self

    @property
    def heard(self) -> str:
        return " ".join("\n".join(self.said).split())


def number(**given: str) -> Problem:
    return put(LESSON, 0, {"pitch": "12 in 12", **given})


def tilt() -> Problem:
    lesson = catalog()["skew-corner"]
    place = next(i for i, d in enumerate(lesson.drills) if d.answer == "tilt:deg")
    return put(lesson, place, {"pitch": "12 in 12", "corner": "90"})


def fault(name: str) -> Problem:
    return put(LESSON, places(LESSON, "find-error")[0], {"pitch": "12 in 12"}, fault=name)


def mark() -> Problem:
    return put(LESSON, places(LESSON, "mark")[0], {"pitch": "12 in 12"}, measure="edge")


def test_a_right_answer_is_echoed_and_given_its_reason():
    learner = Learner("8 1/2").answers(number())
    assert "Read as 8 1/2. Right." in learner.heard
    assert number().because in learner.heard
    assert "1 problem, 1 right at the first try" in cli_words(over(learner.tally))
    (kept,) = learner.kept
    assert (kept.right, kept.tries, kept.hints, kept.mistakes) == (True, 1, 0, ())
    assert kept.given["pitch"] == "12 in 12"


def cli_words(blocks) -> str:
    from lessons.say.plain import in_words

    return " ".join(in_words(blocks).split())


def test_what_is_given_and_the_tolerance_are_told_beforehand():
    learner = Learner().answers(number(hand="right"))
    assert (
        "Given: hip-jack, head; pitch 12 in 12; corner 90°; right hand; board 2x6" in learner.heard
    )
    assert "1/16 either way is right" in learner.heard
    assert "8 1/2" not in learner.heard


def test_the_square_number_set_as_a_tilt_is_named_with_its_price():
    # 12 in 12 on a 2x6: the tilt 35.26 leaves 5/16, worked out by hand in the tests of mistakes.
    learner = Learner("35 1/4", "45").answers(tilt())
    assert (
        "35.25° is what you get if the saw is tilted to the angle that the side-cut number makes."
        in learner.heard
    )
    assert "The gap is 5/16 in" in learner.heard
    wrong, right = learner.kept
    assert (wrong.right, wrong.tries, wrong.mistakes) == (False, 1, ("side-number-as-tilt",))
    assert (right.right, right.tries) == (True, 2)
    assert (learner.tally.put, learner.tally.right) == (1, 0)
    assert learner.tally.made == {"side-number-as-tilt": 1}


def test_nobody_is_labelled():
    learner = Learner("35 1/4", "12", "0").answers(tilt())
    for word in ("you are", "you did", "your mistake", "careless", "fail", "stupid", "wrong!"):
        assert word not in learner.heard.lower()


def test_where_two_mistakes_match_it_is_asked_which():
    learner = Learner("1 1/2 foot", "nine", "2").answers(mark())
    assert "More than one way leads to 1 1/2 in, foot." in learner.heard
    assert "Type a number from 1 to" in learner.heard
    shown = [line for line in "\n".join(learner.said).splitlines() if line[:1] == "2"]
    (kept,) = learner.kept
    (chosen,) = kept.mistakes
    assert mistakes()[chosen].does.split(".")[0][:30] in shown[0]
    assert mistakes()[chosen].why.split(".")[0][:40] in learner.heard


def test_what_was_met_is_said_in_the_words_of_the_lessons():
    learner = Learner("0 foot", "show").answers(mark())
    (name,) = learner.kept[0].mistakes
    said = " ".join(cli_words(over(learner.tally)).split())
    assert f"MET ON THE WAY 1 time {mistakes()[name].does}" in said
    assert name not in said


def test_another_way_names_no_mistake():
    learner = Learner("1 1/2 foot", "99", "3").answers(mark())
    names = [line for line in "\n".join(learner.said).splitlines() if line.endswith("Another way.")]
    last = names[0].split()[0]
    learner = Learner("1 1/2 foot", last).answers(mark())
    assert learner.kept[0].mistakes == ()


@pytest.mark.parametrize("end", [EOFError, KeyboardInterrupt, "quit", "q", "EXIT", "skip"])
def test_who_leaves_at_the_question_met_none_of_the_mistakes(end):
    """Nobody said which way was taken: the answer is wrong, and counts as no mistake."""
    learner = Learner("1 1/2 foot", end).answers(mark())
    assert learner.prompts[:2] == ["> ", "which? "]
    (kept,) = learner.kept
    assert (kept.right, kept.tries, kept.mistakes) == (False, 1, ())
    assert not learner.tally.made
    assert "Met on the way" not in cli_words(over(learner.tally))
    assert "Try again" not in learner.heard


def test_what_the_drill_offers_is_taken_at_the_question():
    problem = mark()
    hinted = Learner("1 1/2 foot", "hint").answers(problem)
    assert problem.hints[0] in hinted.heard
    assert hinted.prompts == ["> ", "which? ", "> "]
    shown = Learner("1 1/2 foot", "show").answers(problem)
    assert f"Answer: {problem.answer_text}" in shown.heard
    assert [(one.shown, one.mistakes) for one in shown.kept] == [(False, ()), (True, ())]


def test_another_answer_is_taken_at_the_question():
    problem = mark()
    learner = Learner("1 1/2 foot", problem.answer_text).answers(problem)
    assert learner.prompts == ["> ", "which? "]
    assert "Right." in learner.heard
    assert [(one.right, one.tries, one.mistakes) for one in learner.kept] == [
        (False, 1, ()),
        (True, 2, ()),
    ]
    assert not learner.tally.made


def test_hints_come_one_by_one_and_the_last_is_a_like_problem():
    problem = number()
    learner = Learner(*["hint"] * (len(problem.hints) + 2), "8 1/2").answers(problem)
    for hint in problem.hints:
        assert hint in learner.heard
    assert "A like problem, worked:" in learner.heard
    like = learner.heard.split("A like problem, worked:")[1].split("There is no other hint")[0]
    assert "pitch 12 in 12" not in like
    assert "Its answer: " in like
    assert learner.kept[-1].hints == len(problem.hints) + 1
    assert learner.tally.right == 0


def test_nothing_tells_how_many_hints_there_are():
    problem = number()
    learner = Learner("hint", "quit").answers(problem)
    after = learner.heard.split(problem.hints[0])[0]
    assert "hint" in after
    for word in ("1 of", "first hint", "hints left", "remain", "last hint"):
        assert word not in learner.heard.replace("Problem 1 of 1", "").replace("PROBLEM 1 OF 1", "")


def test_show_gives_the_worked_answer_and_counts_as_not_known():
    learner = Learner("8", "show").answers(number())
    assert f"Answer: 8 1/2. {number().because}" in learner.heard
    assert [(one.right, one.tries, one.shown) for one in learner.kept] == [
        (False, 1, False),
        (False, 2, True),
    ]
    assert (learner.tally.put, learner.tally.right) == (1, 0)


def test_a_near_answer_is_called_near_and_one_far_off_is_not():
    near = Learner("8 11/16").answers(number())
    assert "Near, within 1/4" in near.heard
    far = Learner("3").answers(number())
    assert "Near" not in far.heard
    assert "no mistake this program knows leads to it" in far.heard


def test_find_the_error_names_the_line_the_price_and_the_reason():
    learner = Learner("a", "Z", "line c").answers(fault("side-number-as-tilt"))
    assert "Line A is as it should be." in learner.heard
    assert "'Z' is no line; answer with one of A, B, C" in learner.heard
    assert "Line C should read: Saw, shoe on the right face, along the face mark: tilt 45°" in (
        learner.heard
    )
    assert "The gap is 5/16 in" in learner.heard
    assert [one.right for one in learner.kept] == [False, True]


def test_another_fault_than_the_drills_own_has_its_own_reason():
    problem = fault("wrong-hand")
    learner = Learner("C").answers(problem)
    assert problem.layout.made.mistake.why in learner.heard


def test_what_cannot_be_read_is_not_counted():
    learner = Learner("a good bit", "45deg", "", "8 1/2").answers(number())
    assert len(learner.kept) == 1
    assert learner.kept[0].right
    assert "is an angle" in learner.heard


@pytest.mark.parametrize("end", [EOFError, KeyboardInterrupt, "quit", "q", "EXIT"])
def test_it_ends_cleanly(end):
    learner = Learner("8", end).answers(number(), tilt())
    assert len(learner.kept) == 1
    assert learner.lines == []


def test_skip_goes_on_without_an_answer():
    learner = Learner("skip", "45").answers(number(), tilt())
    assert [one.right for one in learner.kept] == [True]


def test_kinds_are_mixed_and_can_be_narrowed():
    many = list(dealt([LESSON], Random(2), 8))
    assert len({problem.drill.kind for problem in many[:4]}) == 4
    only = list(dealt([LESSON], Random(2), 4, "find-error"))
    assert {problem.drill.kind for problem in only} == {"find-error"}
    from dataclasses import replace

    without = replace(LESSON, drills=LESSON.drills[:1])
    with pytest.raises(LessonError, match="no problem of the kind mark"):
        list(dealt([without], Random(2), 1, "mark"))


# ---- the command -----------------------------------------------------------------------------


@pytest.fixture
def typed(monkeypatch, tmp_path):
    monkeypatch.setenv("SQUARESAW_DATA", str(tmp_path / "data"))

    def type_(*lines: str) -> None:
        left = list(lines)

        def hear(prompt: str) -> str:
            if not left:
                raise EOFError
            return left.pop(0)

        monkeypatch.setattr("builtins.input", hear)

    return type_


def test_one_seed_puts_the_same_problems(typed, capsys):
    said = []
    for _ in range(2):
        typed("skip", "skip", "skip")
        assert run(["drill", "hip-jack", "--seed", "5", "--no-save", "--problems", "3"]) == 0
        said.append(capsys.readouterr().out)
    assert said[0] == said[1]
    assert "Seed 5." in said[0]
    typed("skip", "skip", "skip")
    run(["drill", "hip-jack", "--seed", "6", "--no-save", "--problems", "3"])
    assert capsys.readouterr().out != said[0]


def test_without_a_seed_one_is_told(typed, capsys):
    typed()
    assert run(["drill"]) == 0
    assert "Seed " in capsys.readouterr().out


def test_metric_is_in_millimetres(typed, capsys):
    typed("skip")
    arguments = ["drill", "hip-jack", "--seed", "5", "--no-save", "--kind", "number"]
    assert run([*arguments, "--units", "metric", "--problems", "1"]) == 0
    said = capsys.readouterr().out
    assert " mm)" in said
    assert " in)" not in said


def test_preview_lists_thirty_draws_of_every_drill(capsys):
    assert run(["drill", "hip-jack", "--preview", "30"]) == 0
    said = capsys.readouterr().out
    for place in range(len(LESSON.drills)):
        part = said.split(f"drill {place + 1}, ")[1].split("hip-jack, drill ")[0]
        lines = [line for line in part.splitlines() if line.startswith("  hip-jack, head; pitch")]
        assert len(lines) == 30
        assert len(set(lines)) == 30


def test_every_lesson_can_be_previewed(capsys):
    assert run(["drill", "--preview", str(count(3, 1))]) == 0
    assert "no fair problem" not in capsys.readouterr().out


@pytest.mark.parametrize(
    ("arguments", "expected"),
    [
        (["drill", "hip-jak"], "did you mean hip-jack"),
        (["drill", "--problems", "0"], "--problems"),
        (
            ["drill", "--kind", "essay"],
            "--kind cannot be 'essay'; say number, find-error, dispute, mark or choose",
        ),
        (["drill", "--seed", "-1"], "--seed"),
    ],
)
def test_bad_input_is_one_line(typed, capsys, arguments, expected):
    typed()
    assert run(arguments) == 2
    out, error = capsys.readouterr()
    assert out == ""
    assert expected in error
    assert error.count("\n") == 1


def test_the_commands_are_known():
    assert {"drill", "worksheet"} <= set(cli.COMMANDS)
