"""The two methods are two constructions: break either one and the agreement is gone."""

import ast
from pathlib import Path

import numpy as np
import pytest

import layout.tools.hand
import layout.tools.saw
from layout.answer.answer import Answer
from layout.answer.question import ask
from layout.cuts import Hand, catalogue
from layout.quantity import read_pitch
from layout.tools.saw import SawLimits
from layout.vector import facing, unit, vector

ROOT = Path(__file__).parents[2] / "layout"
VECTOR_ALGEBRA = "layout.vector"


def answers():
    """Every plane of every cut, both hands, in a roof where no two numbers are alike."""
    for name, entry in catalogue().items():
        corner = {"valley": 260.0, "nothing": 90.0}.get(entry.meets, 100.0)
        for end in entry.ends:
            for hand in Hand:
                question = ask(
                    name,
                    pitch=read_pitch("7 in 12"),
                    other_pitch=read_pitch("9 in 12"),
                    corner_deg=corner,
                    hand=hand,
                    end=end,
                )
                cuts = question.joint.cuts(question.stock)
                for plane_index in range(len(cuts)):
                    yield Answer(question, cuts, plane_index, limits=SawLimits())


def rips():
    return [a for a in answers() if a.is_rip]


def compound():
    return [a for a in answers() if not a.is_rip and a.hand is not None]


def bevelled():
    """Cuts that have both a face mark aslant and a tilt."""
    return [a for a in compound() if a.face.lean]


def test_both_methods_are_sound_for_every_cut():
    for each in answers():
        assert each.by_hand.sound
        assert each.by_saw.sound


def wrong_hand_swaps_the_numbers(monkeypatch):
    right = layout.tools.hand.edge_line
    monkeypatch.setattr(layout.tools.hand, "edge_line", lambda m, o, lean: right(o, m, lean))


def wrong_hand_leans_the_edge_mark_the_other_way(monkeypatch):
    right = layout.tools.hand.edge_line
    monkeypatch.setattr(layout.tools.hand, "edge_line", lambda m, o, lean: right(m, o, -lean))


def wrong_hand_leaves_the_edge_square(monkeypatch):
    monkeypatch.setattr(layout.tools.hand, "edge_line", lambda m, o, lean: vector(0.0, 1.0, 0.0))


def wrong_hand_leaves_the_face_square(monkeypatch):
    monkeypatch.setattr(layout.tools.hand, "face_line", lambda m, o, lean: vector(0.0, 0.0, 1.0))


def wrong_hand_adds_the_lines(monkeypatch):
    monkeypatch.setattr(
        layout.tools.hand,
        "plane_through",
        lambda face, edge, waste: unit(facing(face + edge, waste)),
    )


def wrong_saw_tilts_to_the_other_side(monkeypatch):
    right = layout.tools.saw.plane_from_face
    monkeypatch.setattr(
        layout.tools.saw,
        "plane_from_face",
        lambda line, top, tilt, w, h: right(line, top, tilt, -w, h),
    )


def wrong_saw_tilts_by_the_complement(monkeypatch):
    right = layout.tools.saw.plane_from_face
    monkeypatch.setattr(
        layout.tools.saw,
        "plane_from_face",
        lambda line, top, tilt, w, h: right(line, top, 90 - np.asarray(tilt), w, h),
    )


def wrong_saw_forgets_the_tilt(monkeypatch):
    right = layout.tools.saw.plane_from_face
    monkeypatch.setattr(
        layout.tools.saw,
        "plane_from_face",
        lambda line, top, tilt, w, h: right(line, top, 0.0, w, h),
    )


def wrong_saw_follows_a_line_that_leans_the_other_way(monkeypatch):
    right = layout.tools.saw.plane_from_face
    monkeypatch.setattr(
        layout.tools.saw,
        "plane_from_face",
        lambda line, top, tilt, w, h: right(line, -top, tilt, w, h),
    )


def wrong_saw_measures_the_tilt_along_the_board(monkeypatch):
    """Not square to the mark but along the edge: the tangent grows by 1 / cos of the mark."""
    right = layout.tools.saw.plane_from_face

    def along(line, top, tilt, w, h):
        tangent = np.tan(np.radians(tilt)) / np.cos(np.radians(line))
        return right(line, top, np.degrees(np.arctan(tangent)), w, h)

    monkeypatch.setattr(layout.tools.saw, "plane_from_face", along)


HAND_WRONGS = [
    (wrong_hand_swaps_the_numbers, bevelled),
    (wrong_hand_leans_the_edge_mark_the_other_way, compound),
    (wrong_hand_leaves_the_edge_square, compound),
    (wrong_hand_leaves_the_face_square, bevelled),
    (wrong_hand_adds_the_lines, compound),
]
SAW_WRONGS = [
    (wrong_saw_tilts_to_the_other_side, compound),
    (wrong_saw_tilts_by_the_complement, bevelled),
    (wrong_saw_forgets_the_tilt, compound),
    (wrong_saw_follows_a_line_that_leans_the_other_way, bevelled),
    (wrong_saw_measures_the_tilt_along_the_board, bevelled),
]


@pytest.mark.parametrize(("break_it", "which"), HAND_WRONGS)
def test_breaking_the_hand_s_construction_is_seen(monkeypatch, break_it, which):
    """The hand's plane no longer fits; the saw's, built without it, still does."""
    break_it(monkeypatch)
    cases = which()
    assert len(cases) > 20
    for each in cases:
        assert not each.by_hand.sound
        assert not each.agree
        assert each.by_saw.sound


@pytest.mark.parametrize(("break_it", "which"), SAW_WRONGS)
def test_breaking_the_saw_s_construction_is_seen(monkeypatch, break_it, which):
    break_it(monkeypatch)
    cases = which()
    assert len(cases) > 20
    for each in cases:
        assert not each.by_saw.sound
        assert not each.agree
        assert each.by_hand.sound


def test_breaking_a_rip_is_seen(monkeypatch):
    gauged, tilted = layout.tools.hand.plane_along, layout.tools.saw.rip_from_face
    assert len(rips()) == 10
    with monkeypatch.context() as patch:
        patch.setattr(
            layout.tools.hand, "plane_along", lambda d, a, top, right: gauged(a, d, top, right)
        )
        assert not any(a.by_hand.sound for a in rips())
        assert all(a.by_saw.sound for a in rips())
    with monkeypatch.context() as patch:
        patch.setattr(
            layout.tools.saw, "rip_from_face", lambda t, top, right: tilted(t, top, -right)
        )
        assert not any(a.by_saw.sound for a in rips())
        assert all(a.by_hand.sound for a in rips())


def names_from(path):
    """Everything a file imports: (module, name)."""
    found = set()
    for node in ast.walk(ast.parse(path.read_text())):
        if isinstance(node, ast.ImportFrom):
            found |= {(node.module, alias.name) for alias in node.names}
        elif isinstance(node, ast.Import):
            found |= {(alias.name, "") for alias in node.names}
    return found


def test_the_two_files_share_nothing_but_vector_algebra():
    """Neither knows the other, the joint or the cut; what both know is arrays and vectors."""
    by_hand, by_saw = names_from(ROOT / "tools" / "hand.py"), names_from(ROOT / "tools" / "saw.py")
    for names, other in ((by_hand, "layout.tools.saw"), (by_saw, "layout.tools.hand")):
        modules = {module for module, _ in names}
        assert other not in modules
        assert modules <= {"numpy", "dataclasses", "enum", VECTOR_ALGEBRA, "layout.quantity"}
    shared = {(module, name) for module, name in by_hand & by_saw if module != "numpy"}
    assert all(module == VECTOR_ALGEBRA for module, _ in shared)
    ours = {name for module, name in by_hand if module == VECTOR_ALGEBRA}
    theirs = {name for module, name in by_saw if module == VECTOR_ALGEBRA}
    assert {"cross", "facing"} <= ours - theirs  # the hand turns a cross product to the waste
    assert "sin_cos" in theirs - ours  # the saw turns a blade by an angle


def test_the_two_files_call_nothing_alike_but_arrays():
    """No function of the one is called by the other, and no angle enters the hand's file."""
    hand_code, saw_code = ((ROOT / "tools" / name).read_text() for name in ("hand.py", "saw.py"))
    assert not {"sin", "cos", "tan", "arctan2", "radians", "degrees"} & attributes(hand_code)
    assert "cross" not in attributes(saw_code)
    defined = {
        node.name
        for code in (hand_code, saw_code)
        for node in ast.walk(ast.parse(code))
        if isinstance(node, ast.FunctionDef)
    }
    assert not {
        node.id
        for code in (hand_code, saw_code)
        for node in ast.walk(ast.parse(code))
        if isinstance(node, ast.Name) and node.id in defined
    }


def attributes(code):
    return {node.attr for node in ast.walk(ast.parse(code)) if isinstance(node, ast.Attribute)}
