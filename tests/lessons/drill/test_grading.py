"""Problems over random draws: right answers graded right, each mistake's answer told as such."""

from dataclasses import replace
from functools import cache
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.errors import LayoutError, QuantityError
from layout.quantity import nearest, write_fraction
from lessons.course.lesson import LessonError, catalog
from lessons.course.wrong_answers import Wrong, made_here, misread, wrong_answers
from lessons.drill.dealer import Deck, drawn_given, pick, places, shuffled
from lessons.drill.grading import choices, diagnosed, grade, read_answer, tolerance_words
from lessons.drill.problem import AwkwardError, Problem, given_words, put
from lessons.drill.problem_words import diagnosis_words
from lessons.drill.session import unexplained_words
from lessons.say.units import System
from tests import resolved
from tests.counts import count

LESSONS = catalog()
DRILLS = [(name, place) for name, one in LESSONS.items() for place in places(one)]
DRAWS = {System.INCH: count(8, 1), System.METRIC: count(3, 1)}


def as_typed(problem: Problem, value: float | str) -> str:
    """A value as a learner would type it: exact to the last digit."""
    if isinstance(value, str):
        return value
    return f"{_figures(problem, value)} {problem.sought.sense}".rstrip()


def _figures(problem: Problem, value: float) -> str:
    if problem.system is System.METRIC and problem.sought.kind != "angle":
        return repr(value * (25 if problem.sought.kind == "number" else 25.4))
    return f"{value:.12f}"


@pytest.fixture(scope="module", params=list(System))
def dealt(request) -> list[Problem]:
    """Some problems of every drill of every lesson."""
    deck = Deck(Random(11), request.param)
    return [
        deck.deal(LESSONS[name], place)
        for name, place in DRILLS
        for _ in range(DRAWS[request.param])
    ]


def test_the_right_answer_is_right_and_every_mistake_is_told(dealt):
    told = 0
    for problem in dealt:
        if problem.layout is not None:
            for line in problem.layout.lines:
                judged = grade(problem, line.letter.lower())
                assert judged.right == (line.letter in problem.layout.faulty)
            continue
        sought = problem.sought
        judged = grade(problem, as_typed(problem, sought.value))
        assert judged.right
        assert judged.wrongs == ()
        for wrong in sought.wrongs:
            judged = grade(problem, as_typed(problem, wrong.value))
            assert not judged.right, (given_words(problem.true_answer), wrong)
            names = [one.name for one in judged.wrongs]
            assert wrong.name in names
            told += 1
    assert told > len(dealt) / 2


def test_drills_do_not_always_have_one_answer():
    rng = Random(3)
    for name, place in DRILLS:
        drill = LESSONS[name].drills[place]
        if drill.kind not in ("number", "choose"):
            continue
        deck, answers = Deck(rng), set()
        for _ in range(count(30, 6)):
            answers.add(deck.deal(LESSONS[name], place).answer_text)
            if len(answers) > 1:
                break
        assert len(answers) > 1, (name, drill.answer)


def test_what_is_printed_is_graded_as_what_it_stands_for(dealt):
    """The written answer is right, though it is rounded; a written wrong one is no right one."""
    for problem in dealt:
        if problem.sought is None or problem.sought.unit == "gap":
            continue
        assert grade(problem, problem.answer_text.removesuffix(" in")).right
        for wrong in problem.sought.wrongs:
            written = problem.sought.written(wrong.value, problem.system)
            judged = grade(problem, f"{written} {problem.sought.sense}".rstrip())
            assert not judged.right
            assert wrong.name in [one.name for one in judged.wrongs]


def test_wrong_answers_lie_clear_of_the_right_one(dealt):
    for problem in dealt:
        sought = problem.sought
        if sought is None or isinstance(sought.value, str):
            continue
        for wrong in sought.wrongs:
            assert abs(wrong.value - sought.value) > 1.5 * sought.tolerance
        # Anything in between is neither right nor taken for a mistake it does not reach.
        off = sought.value + 1.2 * sought.tolerance
        judged = grade(problem, as_typed(problem, off))
        assert not judged.right
        for wrong in judged.wrongs:
            assert abs(wrong.value - off) <= sought.tolerance + 1e-9


def test_values_and_faults_agree_with_the_second_way(dealt):
    for problem in dealt:
        words = given_words(problem.true_answer)
        if "(" not in words or "rolled" in words:
            continue
        roof = resolved.read_given(words)
        if problem.layout is not None and problem.system is System.INCH:
            faulty = {ln.letter for ln in problem.layout.lines if not resolved.fits(ln.text, roof)}
            assert faulty == problem.layout.faulty, (words, problem.layout)
        elif problem.sought is not None:
            answered = resolved.answer(problem.sought.named, roof)
            if isinstance(answered, str):
                assert problem.sought.value == answered
            else:
                assert problem.sought.value == pytest.approx(answered, abs=1e-7)


def test_no_hint_gives_the_answer_away(dealt):
    for problem in dealt:
        if problem.sought is None:
            continue
        if resolved.said_in(problem.answer_text, problem.ask):
            continue  # a number that is given as well, by chance
        for hint in problem.hints:
            assert not resolved.said_in(problem.answer_text, hint), (hint, problem.answer_text)


def test_a_seed_gives_the_same_problems_and_none_twice():
    name, place = DRILLS[0]
    first, second = ([Deck(Random(4)).deal(LESSONS[name], place).key for _ in "1"] for _ in "12")
    assert first == second
    deck = Deck(Random(4))
    keys = [deck.deal(LESSONS[name], place).key for _ in range(40)]
    assert len(set(keys)) == len(keys)
    other = Deck(Random(5))
    assert keys[:5] != [other.deal(LESSONS[name], place).key for _ in range(5)]


def test_what_was_drawn_before_is_not_put_again(monkeypatch):
    """Long series draw a drill's few roofs again and again: each is put once."""
    seen = []

    def counted(lesson, place, drawn, *given, **named):
        seen.append((place, tuple(sorted(drawn.items())), named["fault"], named["measure"]))
        return put(lesson, place, drawn, *given, **named)

    monkeypatch.setattr("lessons.drill.dealer.put", counted)
    lesson = LESSONS["one-plane"]
    deck = Deck(Random(3))
    keys = [deck.deal(lesson, place).key for _ in range(12) for place in places(lesson)]
    assert len(seen) == len(set(seen))
    assert len(set(keys)) == len(keys)


def test_draws_are_fixed_for_a_seed_on_any_machine():
    # Random.random is promised not to change; these are its first numbers for seed 7.
    rng = Random(7)
    assert [pick(rng, range(100)) for _ in range(4)] == [32, 15, 65, 7]
    assert sorted(shuffled(Random(1), "abcdef")) == list("abcdef")


def test_draws_are_sensible():
    lesson = LESSONS["hip-jack"]
    rng, whole, rises = Random(3), 0, set()
    for _ in range(400):
        drawn = drawn_given(lesson, lesson.drills[0], rng)
        rise = resolved.number(drawn["pitch"].removesuffix(" in 12"))
        assert 3 <= rise <= 18
        assert (2 * rise).is_integer()
        whole += rise.is_integer()
        rises.add(rise)
        assert drawn["hand"] in ("left", "right")
        assert drawn["stock"] in ("2x4", "2x6", "2x8", "2x10")
    assert len(rises) > 25
    assert 0.65 < whole / 400 < 0.85


def test_a_problem_in_which_a_mistake_cannot_be_told_is_refused():
    # At 1 1/2 in 12 the edge mark is 45.45 degrees: within half a degree of the tilt, 45.
    lesson = LESSONS["skew-corner"]
    place = next(i for i, d in enumerate(lesson.drills) if d.answer == "tilt:deg")
    with pytest.raises(AwkwardError, match="cannot be told"):
        put(lesson, place, {"pitch": "1 1/2 in 12", "corner": "90"})
    put(lesson, place, {"pitch": "8 in 12", "corner": "90"})


def test_a_fault_that_costs_next_to_nothing_is_refused():
    lesson = LESSONS["hip-jack"]
    place = places(lesson, "find-error")[0]
    with pytest.raises(AwkwardError, match="less than 1/16"):
        put(lesson, place, {"pitch": "2 in 12"}, fault="side-number-as-tilt")


def test_mistakes_that_give_one_number_are_all_told():
    # At 12 in 12 on a 2x4 marking the edge at 45 degrees and tilting by the side number both
    # leave the long face ahead by the thickness, 1 1/2: tan 35.26 / cos 45 = 1.
    lesson = LESSONS["hip-jack"]
    problem = put(lesson, places(lesson, "mark")[0], {"pitch": "12 in 12"}, measure="edge")
    names = {wrong.name for wrong in grade(problem, "1 1/2 foot").wrongs}
    assert {"side-number-as-tilt", "forty-five-on-edge"} <= names


def test_a_mistake_says_nothing_of_what_it_does_not_touch():
    lesson = LESSONS["hip-jack"]
    number = put(lesson, 0, {"pitch": "12 in 12"})
    assert number.sought.name == "edge_number"
    names = {wrong.name for wrong in number.sought.wrongs}
    assert "side-number-as-tilt" not in names
    values = {wrong.name: wrong.value for wrong in number.sought.wrongs}
    assert values["forty-five-on-edge"] == pytest.approx(12, abs=1e-9)
    # Common practice, no source: the square read along the wrong arm turns 8 1/2 into 17.
    assert values["wrong-arm-on-edge"] == pytest.approx(144 / 72**0.5, abs=1e-9)


def test_the_misread_plane_has_the_marks_of_the_mistake():
    lesson = LESSONS["hip-jack"]
    right = put(lesson, 0, {"pitch": "12 in 12"}).true_answer
    made = {one.mistake.name: one for one in made_here(right)}
    tilted = misread(right, made["side-number-as-tilt"].setting)
    assert float(tilted.cut.face_tilt_deg) == pytest.approx(35.26438968, abs=1e-6)
    assert tilted.face.from_square_deg == pytest.approx(45, abs=1e-9)


def test_mistakes_of_length_answer_with_the_length_they_take_off():
    # Hip and jack 1 1/2 thick at 45 degrees in plan, 12 in 12: level 3/4 * sqrt 2 = 1.0607, along
    # the board sqrt 2 times that. Half the straight thickness would be 3/4 level.
    lesson = LESSONS["shortening"]
    given = {"pitch": "12 in 12", "stock": "2x6"}
    asked = {drill.answer: place for place, drill in enumerate(lesson.drills) if drill.answer}
    along = put(lesson, asked["shortening_along:in"], given).sought
    right = put(lesson, asked["shortening_along:in"], given).true_answer
    assert along.value == pytest.approx(1.5)
    answered = {wrong.name: wrong.value for wrong in wrong_answers(right, "shortening")}
    assert answered == pytest.approx(
        {
            "no-shortening": 0.0,
            "square-shortening": 0.75,
            "whole-thickness": 1.5,
            "whole-diagonal": 1.5 * 2**0.5,
        }
    )
    answered = {wrong.name: wrong.value for wrong in along.wrongs}
    assert answered == pytest.approx(
        {
            "no-shortening": 0.0,
            "square-shortening": 0.75 * 2**0.5,
            "shortening-along-the-slope": 0.75 * 2**0.5,
            "whole-diagonal": 3.0,
        }
    )


# ---- reading -----------------------------------------------------------------------------


@cache
def number_problem(system: System = System.INCH) -> Problem:
    return put(LESSONS["hip-jack"], 0, {"pitch": "12 in 12"}, system)


@cache
def angle_problem() -> Problem:
    lesson = LESSONS["skew-corner"]
    place = next(i for i, d in enumerate(lesson.drills) if d.answer == "tilt:deg")
    return put(lesson, place, {"pitch": "12 in 12", "corner": "90"})


@cache
def length_problem(system: System = System.INCH) -> Problem:
    lesson = LESSONS["hip-jack"]
    return put(
        lesson, places(lesson, "mark")[0], {"pitch": "12 in 12", "stock": "2x4"}, system,
        measure="face",
    )  # fmt: skip


@pytest.mark.parametrize(
    ("typed", "value", "form"),
    [
        ("8 1/2", 8.5, ""),
        ("8-1/2", 8.5, ""),
        ("8½", 8.5, ""),
        ("8.5", 8.5, ""),
        ("17/2", 8.5, "A rule reads that as 8 1/2."),
        ("8 1/2 in", 8.5, ""),
        ('8 1/2"', 8.5, ""),
        ("8 2/4", 8.5, "A rule reads that as 8 1/2."),
        ("215.9mm", 8.5, "In inches that is 8 1/2."),
        ("8 1/2 on 12", 8.5, ""),
        ("8 1/2 over 12", 8.5, ""),
        ("4 1/4 on 6", 8.5, "Said on 12, as the trade does, that is 8 1/2."),
        ("3/4 on 1", 9.0, "Said on 12, as the trade does, that is 9."),
        ("3/8 on 1/2", 9.0, "Said on 12, as the trade does, that is 9."),
        ("0' 8 1/2\"", 8.5, ""),
        ("8.485", 8.485, "To the sixteenth that is 8 1/2."),
        ("1-1/2", 1.5, ""),
        ("1 1/2", 1.5, ""),
        ("11/2", 5.5, "A rule reads that as 5 1/2."),
        ("8 3/7", 8 + 3 / 7, "No rule is divided into 7 parts; the nearest is 8 7/16."),
    ],
)
def test_numbers_are_read_as_a_carpenter_writes_them(typed, value, form):
    read = read_answer(number_problem(), typed)
    assert read.value == pytest.approx(value, abs=1e-9)
    assert read.form == form


@pytest.mark.parametrize(
    ("typed", "value"),
    [
        ("45", 45),
        ("45deg", 45),
        ("45°", 45),
        ("45 degrees", 45),
        ("35 1/4", 35.25),
        ("5/16 deg", 0.3125),
        ("35.26", 35.26),
    ],
)
def test_angles_are_read(typed, value):
    assert read_answer(angle_problem(), typed).value == value


@pytest.mark.parametrize(
    ("problem", "typed", "asked"),
    [
        (angle_problem(), "8 1/2 in", "degrees are asked for"),
        (angle_problem(), "216mm", "degrees are asked for"),
        (angle_problem(), "5/16", "part of an inch; degrees are asked for"),
        (angle_problem(), "¾", "part of an inch; degrees are asked for"),
        (number_problem(), "45deg", "a number is asked for"),
        (number_problem(), "45°", "a number is asked for"),
        (length_problem(), "45 deg", "a length is asked for"),
        (number_problem(), "plenty", "is not a length"),
        (number_problem(), "8 1/0", "divides by zero"),
        (number_problem(), "", "is not a length"),
        (number_problem(), "-8", "is not a length"),
        (number_problem(), "8 1/2 on 0", "nothing stands across from 0"),
        (length_problem(), "3 on 12 head", "is not a length"),
    ],
)
def test_what_is_no_answer_is_asked_again_and_not_judged(problem, typed, asked):
    with pytest.raises(QuantityError, match=asked):
        grade(problem, typed)


def test_a_right_value_in_poor_form_is_right():
    judged = grade(number_problem(), "8.47")
    assert judged.right
    assert judged.read.form == "To the sixteenth that is 8 1/2."
    assert judged.read.said == "8.47 (nearest 8 1/2)"


def test_a_wrong_value_is_diagnosed_before_it_is_rounded():
    # 35.1 rounds to 35, more than half a degree off nothing; held as typed it lies 0.16 from
    # the side number's 35.26. 35.8 lies 0.54 away, though 35 1/2 would be within half a degree.
    problem = angle_problem()
    assert [w.name for w in grade(problem, "35.1").wrongs] == ["side-number-as-tilt"]
    assert grade(problem, "35.8").wrongs == ()


def test_metric_answers_are_millimetres():
    # On a run of 300: 8.4853 * 25 = 212.1.
    assert grade(number_problem(System.METRIC), "212").right
    assert grade(number_problem(System.METRIC), "212 mm").right
    assert not grade(number_problem(System.METRIC), "216").right
    # A 2x4 is 88.9 mm deep; at 12 in 12 the mark runs as far as the board is deep.
    assert grade(length_problem(System.METRIC), "89 head").right
    assert grade(length_problem(System.METRIC), "3 1/2 in, head").right
    assert not grade(length_problem(System.METRIC), "3 1/2 head").right
    assert "mm" in tolerance_words(number_problem(System.METRIC))


@pytest.mark.parametrize(
    ("typed", "value", "form"),
    [
        ("212.5 on 300", 8.5, ""),
        ("106.25 on 150", 8.5, "Said on 300, as the trade does, that is 212.5."),
        ("425 on 600", 8.5, "Said on 300, as the trade does, that is 212.5."),
        ("21.25 cm", 8.5, ""),
        ("10 on 100", 1.2, "Said on 300, as the trade does, that is 30."),
    ],
)
def test_metric_numbers_are_said_on_300_or_on_another_number(typed, value, form):
    read = read_answer(number_problem(System.METRIC), typed)
    assert read.value == pytest.approx(value, abs=1e-9)  # on 12, as the lessons reckon
    assert read.form == form


def test_of_two_mistakes_within_the_tolerance_the_nearer_is_told_first():
    def wrong(name, value):
        return Wrong(name, f"{name} does.", f"{name} is wrong.", value)

    far, near, beyond = wrong("far", 6.3), wrong("near", 6.62), wrong("beyond", 6.9)
    sought = replace(number_problem().sought, wrongs=(far, beyond, near), tolerance=0.25, pairs=())
    assert diagnosed(sought, 6.5) == (near, far)
    assert diagnosed(sought, 6.4) == (far, near)
    assert diagnosed(sought, 6.8) == (beyond, near)
    assert diagnosed(replace(sought, wrongs=(), pairs=(far, near)), 6.5) == (near, far)


def test_a_mirrored_mark_is_wrong_and_told_so():
    # A left-hand hip jack's face mark slants toward the head, its edge mark toward the foot.
    true_answer = length_problem()
    assert grade(true_answer, "3 1/2 head").right
    mirrored = grade(true_answer, "3 1/2 toward the foot")
    assert not mirrored.right
    assert [wrong.name for wrong in mirrored.wrongs] == ["mirrored-mark"]
    assert "slant toward the head" in mirrored.wrongs[0].does
    with pytest.raises(QuantityError, match="the end toward which its top slants") as told:
        grade(true_answer, "3 1/2")
    assert "such as 2 1/2 foot or 2 1/2 head" in str(told.value)


def hip_jack_mark(measure: str, system: System = System.INCH) -> Problem:
    """The full-size mark of a left-hand hip jack: its face mark slants toward the head, its edge
    mark toward the foot."""
    lesson = LESSONS["hip-jack"]
    given = {"pitch": "12 in 12", "hand": "left"}
    return put(lesson, places(lesson, "mark")[0], given, system, measure=measure)


@pytest.mark.parametrize(
    "typed", ["0 head", "0 foot", "0 toward the foot", "0", "0 in", "0.0 head"]
)
@pytest.mark.parametrize(
    ("measure", "mistake", "should"),
    [
        ("face", "edge-line-only", "The face mark's top should slant toward the head."),
        ("edge", "face-line-only", "The edge mark's left end should slant toward the foot."),
    ],
)
def test_a_mark_of_0_leans_to_no_end(typed, measure, mistake, should):
    """A line square across has no end that it leans to, whichever end is typed beside the 0."""
    problem = hip_jack_mark(measure)
    judged = grade(problem, typed)
    assert not judged.right
    assert (judged.read.said, judged.read.sense) == ("0 in", "")
    (wrong,) = [one for one in judged.wrongs if one.name == mistake]
    words = diagnosis_words(problem, judged, wrong)
    assert words.startswith("0 in is what you get if ")
    assert words.endswith(should)
    assert "As long a mark" not in words
    assert "Besides" not in words


@pytest.mark.parametrize("end", ["head", "foot"])
def test_nearly_0_is_told_as_nearly_square(end):
    """A sixteenth is within the tolerance of the square line: the line that the mistake leaves is
    not said to lean."""
    problem = hip_jack_mark("face")
    judged = grade(problem, f"1/16 {end}")
    (wrong,) = [one for one in judged.wrongs if one.name == "edge-line-only"]
    words = diagnosis_words(problem, judged, wrong)
    assert words.startswith("A line nearly square across the face is what you get if ")
    assert words.endswith("The face mark's top should slant toward the head.")


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("banana", "'banana' is no length with the end toward which its top slants; write both,"),
        ("2 1/2 banana", "'2 1/2 banana' is no length with the end"),
        ("head", "'head' says one thing of two: give the length as well,"),
        ("3 1/2", "'3 1/2' says one thing of two: give the end"),
    ],
)
def test_what_is_missing_of_a_mark_is_told(typed, said):
    with pytest.raises(QuantityError) as told:
        grade(hip_jack_mark("face"), typed)
    assert str(told.value).startswith(said)
    assert str(told.value).endswith("such as 2 1/2 foot or 2 1/2 head")


@pytest.mark.parametrize("typed", ["banana", "30 deg", "8 on 0", "1/0"])
def test_metric_errors_show_metric_answers(typed):
    """No halves of an inch and no 12 stand in what is said to a learner in millimeters."""
    for problem in (number_problem(System.METRIC), hip_jack_mark("face", System.METRIC)):
        with pytest.raises(QuantityError) as told:
            grade(problem, typed)
        assert "1/2" not in str(told.value)
        assert "on 12" not in str(told.value)
        assert any(such in str(told.value) for such in ("such as 64", "like 212", "such as 212"))


def test_two_mistakes_at_once_are_told_as_a_pair():
    # Half the ridge, 3/4 level, is 0.75/cos along; the whole ridge, level, is 1 1/2.
    lesson = LESSONS["ridge-and-tail"]
    place = next(i for i, d in enumerate(lesson.drills) if d.answer == "half_ridge_along:in")
    problem = put(lesson, place, {"pitch": "12 in 12"})
    (pair,) = grade(problem, "1 1/2").wrongs
    assert pair.name == "shortening-along-the-slope and whole-thickness"


@settings(deadline=None, max_examples=count(200, 50), derandomize=True)
@given(value=st.floats(0.0625, 23.9), parts=st.sampled_from([2, 4, 8, 16, 32, 64]))
def test_whatever_is_written_is_read_back(value, parts):
    problem = number_problem()
    written = write_fraction(nearest(value, parts), parts)
    read = read_answer(problem, written)
    assert read.value == pytest.approx(nearest(value, parts), abs=1e-12)
    assert read.said == written
    assert read.form == ""


@settings(deadline=None, max_examples=count(150, 37), derandomize=True)
@given(text=st.text(max_size=20))
def test_any_text_is_read_or_refused(text):
    for problem in (number_problem(), angle_problem()):
        said = ""
        try:
            said = grade(problem, text).read.said
        except LayoutError as error:
            said = str(error)
        assert said
        assert "\n" not in said


def test_a_drill_that_no_draw_suits_says_why(tmp_path):
    from dataclasses import replace

    lesson = LESSONS["hip-jack"]
    place = places(lesson, "find-error")[0]
    never = replace(lesson.drills[place], mistake="tilt-left-on")
    broken = replace(lesson, drills=(never,), warned=())
    with pytest.raises(LessonError, match="no fair problem for drill 1"):
        Deck(Random(1)).deal(broken, 0)


@pytest.mark.parametrize(
    ("problem", "told"),
    [
        (number_problem, "Answer with a number on the square; 1/16 either way is right."),
        (angle_problem, "Answer in degrees; half a degree either way is right."),
        (
            length_problem,
            "Answer with a length in inches and the end toward which its top slants, such as"
            " 2 1/2 foot; 1/16 either way is right.",
        ),
        (
            lambda: number_problem(System.METRIC),
            "Answer with a number on the square in mm, the run being 300 mm; 1.5 mm either way is"
            " right.",
        ),
        (
            lambda: length_problem(System.METRIC),
            "Answer with a length in mm and the end toward which its top slants, such as 64 foot;"
            " 1.5 mm either way is right.",
        ),
    ],
)
def test_unit_and_tolerance_are_told_beforehand(problem, told):
    assert tolerance_words(problem()) == told


@pytest.mark.parametrize(
    ("problem", "typed", "said"),
    [
        (number_problem, "8 1/2", "8 1/2"),
        (number_problem, "8.51", "8.51 (nearest 8 1/2)"),
        (number_problem, "8 31/64", "8 31/64"),
        (angle_problem, "35.264", "35.26°"),
        (length_problem, "3 1/2 head", "3 1/2 in, head"),
        (length_problem, "3.3, toward the foot", "3.3 (nearest 3 5/16) in, foot"),
        (lambda: number_problem(System.METRIC), "212", "212 mm"),
        (lambda: number_problem(System.METRIC), "8 1/2 in", "215.9 mm"),
        (lambda: length_problem(System.METRIC), "89 head", "89 mm, head"),
        (lambda: length_problem(System.METRIC), "3 1/2 in, head", "88.9 mm, head"),
    ],
)
def test_an_answer_is_said_back_as_it_was_read(problem, typed, said):
    assert read_answer(problem(), typed).said == said


def test_near_is_the_tolerance_and_no_more():
    problem = number_problem()
    sought = problem.sought
    assert sought.value == pytest.approx(12 / 2**0.5)
    for sign in (1, -1):
        assert grade(problem, f"{sought.value + sign * 0.0624:.6f}").right
        assert not grade(problem, f"{sought.value + sign * 0.0626:.6f}").right


OPPOSITES = (
    ("head", "foot"), ("left", "right"), ("blade", "tongue"), ("left face", "right face"),
    ("top edge", "bottom edge"), ("under the waste", "under the kept wood"),
)  # fmt: skip


def test_a_word_is_chosen_from_what_is_told_and_its_opposite_is_among_it():
    deck, seen = Deck(Random(2)), 0
    for name, place in DRILLS:
        if LESSONS[name].drills[place].kind != "choose":
            continue
        problem = deck.deal(LESSONS[name], place)
        words = choices(problem.sought)
        assert words == sorted(set(words))
        for one, other in OPPOSITES:
            assert (one in words) == (other in words)
        assert tolerance_words(problem) == f"Answer with one of: {'; '.join(words)}."
        grades = {word: grade(problem, f"{word.upper()}.") for word in words}
        assert [word for word, one in grades.items() if one.right] == [problem.sought.value]
        assert all(one.read.said == word for word, one in grades.items())
        other = next(word for word in words if word != problem.sought.value)
        known = Wrong("known", "This is known.", "It is known.", other)
        told = replace(problem, sought=replace(problem.sought, wrongs=(known,)))
        assert grade(told, other).wrongs == (known,)
        assert grade(told, str(problem.sought.value)).wrongs == ()
        for unread in ("mumble", "", words[0][0]):
            with pytest.raises(QuantityError, match="is not one of"):
                grade(problem, unread)
        firsts = [word.split()[0] for word in words]
        if len(set(firsts)) == len(words):
            assert [grade(problem, first).read.said for first in firsts] == words
        said = unexplained_words(problem, grade(problem, other))
        assert said == f"That does not fit here. {problem.hints[0]}"
        seen += 1
        if seen == 6:
            break
    assert seen


def test_a_line_is_named_by_its_letter():
    lesson = LESSONS["hip-jack"]
    problem = Deck(Random(2)).deal(lesson, places(lesson, "find-error")[0])
    letters = [line.letter for line in problem.layout.lines]
    assert tolerance_words(problem) == (
        f"Answer with the letter of the faulty line: {', '.join(letters)}."
    )
    for letter in letters:
        judged = grade(problem, f"line {letter.lower()}.")
        assert judged.read.said == f"line {letter}"
        assert judged.right == (letter in problem.layout.faulty)
    with pytest.raises(QuantityError, match=f"answer with one of {', '.join(letters)}"):
        grade(problem, "z")


def test_an_answer_at_the_tolerance_told_is_still_right():
    """1/16 either way of 8 1/2 is right, and so is 1/16 itself; half a degree likewise."""
    for problem, value, right, wrong in (
        (number_problem(), 8.5, ("8 7/16", "8 9/16"), ("8 27/64", "8 37/64")),
        (angle_problem(), 40.0, ("39.5", "40 1/2"), ("39.4999", "40.5001")),
    ):
        asked = replace(problem, sought=replace(problem.sought, value=value))
        assert [grade(asked, typed).right for typed in right] == [True, True]
        assert [grade(asked, typed).right for typed in wrong] == [False, False]


def test_figures_may_be_spoken():
    assert read_answer(angle_problem(), "thirty-five and a quarter").value == 35.25
    assert read_answer(number_problem(), "eight and a half").value == 8.5
    assert read_answer(length_problem(), "three and a half, head").value == 3.5
    with pytest.raises(QuantityError, match="'mumble and a half'"):
        read_answer(number_problem(), "mumble and a half")


@pytest.mark.parametrize("given", ["1 head", "1 foot"])
def test_a_wrong_length_that_slants_the_other_way_is_told_of_both(given):
    """A 1x4 fascia at 10 in 12, left hand: the edge mark's left end runs 9/16 in toward the foot,
    and with the two numbers exchanged 3/4 x 3/4 / (9/16), 1 in, as far toward the foot."""
    lesson = LESSONS["fascia"]
    problem = put(
        lesson, places(lesson, "mark")[0], {"pitch": "10", "stock": "1x4", "hand": "left"},
        measure="edge",
    )  # fmt: skip
    graded = grade(problem, given)
    (wrong,) = graded.wrongs
    said = diagnosis_words(problem, graded, wrong)
    assert "if the two numbers of the edge mark change places" in said
    if given == "1 foot":
        assert said.startswith("1 in, foot is what you get if")
        assert "Besides" not in said
    else:
        assert said.startswith("As long a mark, but with its left end toward the foot, is what")
        assert said.endswith("Besides, the edge mark's left end should slant toward the foot.")
