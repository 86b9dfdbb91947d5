"""Twelve faults that words, pictures and settings had, and the tests that fail on each.

Each was printed once. The readers are not told of them: they fail on any of the kind. Below, what
was wrong, and the tests that see it.
"""

import ast
import re
from functools import cache
from pathlib import Path

import pytest

from lessons.cli.main import run
from tests.counts import LONG

HERE = Path(__file__).parents[2]
WORDS = "tests/readers/test_words.py"
MARK = "tests/lessons/cli/test_mark.py"
SEEN_BY: dict[str, tuple[str, ...]] = {
    "the blade 'leans out over the waste', where below the shoe it runs in under it": (
        f"{WORDS}::test_what_can_be_taken_two_ways_is_refused",
        f"{WORDS}::test_no_word_of_sense_can_be_flipped_unseen",
        f"{WORDS}::test_every_single_word_of_sense_is_read",
        "tests/readers/test_pictures.py::test_a_saw_set_by_the_picture_cuts_the_plane",
        "tests/readers/test_lesson_words.py::test_a_flipped_word_in_the_steps_is_seen",
    ),
    "a tilt past the saw, or 6 in of blade, and 'BY SAW sound'": (
        f"{MARK}::test_a_tilt_past_the_saw_is_out_of_reach_in_the_verdict_too",
        f"{MARK}::test_half_from_each_face_is_no_cure_for_too_much_tilt",
        f"{MARK}::test_an_edge_is_offered_only_where_the_blade_comes_through",
        "tests/lessons/course/test_sweep.py::test_check_counts_the_blade_too",
        "tests/lessons/test_saw_options.py::test_the_cut_list_says_how_the_saw_reaches_each_cut",
    ),
    "a tilt on the edge, and a miter saw, without a direction; a miter saw for a seat": (
        f"{MARK}::test_the_miter_saw_is_told_in_full",
        f"{MARK}::test_no_miter_saw_for_notches_rips_and_hollow_ends",
        "tests/layout/tools/test_miter.py::test_the_blade_lies_in_the_plane",
        f"{WORDS}::test_the_words_alone_give_the_plane",
    ),
    "left and right of a backed valley swapped": (
        f"{MARK}::test_a_backed_valley_s_marks_stand_on_their_own_halves",
        "tests/layout/answer/test_answer.py::test_marks_on_a_backed_edge_are_those_of_a_backed_solid",
    ),
    "a valley's hollow told like a hip's crown": (
        f"{MARK}::test_a_valley_s_hollow_does_not_read_like_a_hip_s_crown",
        f"{WORDS}::test_the_words_alone_give_the_plane",
    ),
    "the long point of two cheeks on a face": (
        f"{MARK}::test_two_cheeks_have_their_long_point_between_the_faces",
        "tests/layout/answer/test_gap_places.py::test_a_gap_opens_where_it_is_said_to",
    ),
    "two hands of a cut with one answer": (
        f"{MARK}::test_a_joint_whose_second_cheek_alone_has_a_side_has_two_hands",
        f"{WORDS}::test_the_words_alone_give_the_plane",
    ),
    "half a side of an octagon over another run than the table's": (
        "tests/lessons/test_table.py::test_half_a_side_stands_over_the_run_that_the_table_names",
    ),
    "a level claim taken for a plumb one; 'wrong by 1/32' at a limit of 1/32": (
        "tests/lessons/settle/test_settle.py::test_level_is_not_plumb_though_both_lie_at_45",
        "tests/readers/test_gaps.py::test_the_writer_of_gaps",
    ),
    "lessons that say of every roof what holds in one, or name the wrong place or way": (
        "tests/readers/test_lesson_words.py::test_the_steps_give_the_plane",
        "tests/readers/test_pictures.py::test_marks_copied_from_the_picture_are_the_planes",
        "tests/readers/test_pictures.py::test_a_gap_is_drawn_as_wide_and_as_steep_as_it_is",
        "tests/readers/test_no_formula.py::*",
        "tests/layout/answer/test_gap_places.py::"
        "test_a_notch_gapes_at_its_inside_corner_and_a_point_between_the_faces",
        "tests/readers/test_faults_seen.py::test_what_the_course_once_said_it_says_no_more",
        "tests/readers/test_faults_seen.py::test_a_hip_s_run_is_worked_with_as_it_is_said",
    ),
    "a collar tie told to tilt 45; sawing before the template is wrapped": (
        "tests/lessons/course/test_bound.py::test_a_setting_of_one_roof_is_refused",
        "tests/lessons/course/test_lesson.py::"
        "test_a_collar_tie_that_is_told_to_tilt_is_refused_by_lesson_check",
        "tests/lessons/pages/test_yard.py::test_the_template_is_wrapped_before_anything_is_sawn",
    ),
    "nonsense on real stock without a word, and 15 read as inches": (
        f"{MARK}::test_what_no_board_has_room_for_is_said",
        f"{MARK}::test_what_can_be_taken_two_ways_is_refused",
        f"{MARK}::test_a_job_with_a_bare_size_is_refused_by_every_command",
        "tests/lessons/test_table.py::test_a_valley_is_not_dropped",
    ),
}


@cache
def functions_of(path: str) -> set[str]:
    tree = ast.parse((HERE / path).read_text("utf-8"))
    return {node.name for node in tree.body if isinstance(node, ast.FunctionDef)}


def test_every_fault_has_its_tests():
    assert len(SEEN_BY) == 12
    for fault, tests in SEEN_BY.items():
        for test in tests:
            path, _, name = test.partition("::")
            known = functions_of(path)
            assert name == "*" or name in known, f"{fault}: {test} is gone"


SOME = ("hip-plumb-cut", "number-is-not-the-tilt")


@cache
def course(*more: str) -> str:
    """Every lesson as it is printed, or a few of them, in one line."""
    import contextlib
    import io

    from lessons.course.lesson import catalog

    out = io.StringIO()
    with contextlib.redirect_stdout(out):
        for name in catalog() if LONG else SOME:
            assert run(["lesson", name, *more]) == 0
    return " ".join(out.getvalue().split())


NO_MORE = [
    r"\bleans? (?:out )?over the waste",
    r"farther along",
    r"through that point \(the middle\)",
    r"the one place where the number belongs",
    r"tilt(?:ed)? 0°; (?:below the shoe )?the blade (?:leans|runs)",
    r"17 over 17",
    r"\b25\.2°",
    r"\bmitre\b|\bcentre\b",
]


@pytest.mark.parametrize("pattern", NO_MORE)
def test_what_the_course_once_said_it_says_no_more(pattern):
    assert re.search(pattern, course()) is None


def test_a_hip_s_run_is_worked_with_as_it_is_said():
    """A hip at 8 in 12 climbs 8 on 16.97: 25.24 degrees, where 17 would make 25.20."""
    text = course()
    assert "25.24°" in text
    # Where a sum is done with the run, it is done with 16.97; 17 is laid on the square.
    for found in re.finditer(r"(?:over|by|times) 17\b(?!\.)(?! on)(?! \d)", text):
        pytest.fail(text[max(0, found.start() - 80) : found.end() + 40])


def test_forty_five_at_every_pitch_is_said_of_equal_pitches_alone():
    """With other pitches or corners no lesson says that the tilt stays, or is half the corner."""
    text = course("--pitch", "8", "--other-pitch", "11")
    for words in ("at every pitch", "The tilt stays", "half the corner", "is not in the tilt"):
        assert words not in text, words
