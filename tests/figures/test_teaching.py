"""Every teaching view over the whole catalogue: nothing collides, all is in its room."""

from collections import Counter
from math import hypot

import numpy as np
import pytest

from figures.ink.drawing import Drawing, collisions
from figures.pictures.along import seen_along
from figures.pictures.edge_on import plan_of_joint
from figures.pictures.gap import gap_against_mate
from figures.pictures.middle import marks_through_middle
from figures.pictures.miter_saw import miter_saw
from figures.pictures.pictorial import pictorial
from figures.pictures.saw_front import saw_front
from figures.pictures.saw_setting import setting
from figures.pictures.square_laid import square_on_edge, square_on_face
from figures.pictures.views import face_and_edge_views
from layout.answer.senses import is_notch
from layout.errors import SheetError
from lessons.mistakes.cut_mistakes import made_on
from tests.counts import part_of
from tests.views_of import CUTS, answers

WIDE, SQUARE, TALL = (7.0, 4.0), (4.6, 4.4), (7.5, 8.4)
VIEWS = (
    face_and_edge_views,
    square_on_face,
    square_on_edge,
    saw_front,
    plan_of_joint,
    pictorial,
)
MORE = (setting, seen_along, marks_through_middle)
"""Pictures made of those above: a share of the catalogue in the default suite, all of it long."""
STEEP_AND_FLAT = [(spec, pitch) for spec in CUTS[::3] for pitch in ("0.5", "24")]


def each_view_of(cuts, every):
    """Every view of a share of cuts, another share for each view; all of them in the long run."""
    return [(view, cut) for at, view in enumerate(VIEWS) for cut in part_of(cuts, every, at)]


def told(value):
    """What a case is called: its view, its cut, its pitch."""
    if callable(value):
        return value.__name__
    return "-".join(str(getattr(part, "value", part)) for part in value)


LEAST_PT = 7.0
"""Lettering is never smaller than this on paper."""


def check(drawing: Drawing, room: tuple[float, float], said: str, *, hidden: bool = False) -> None:
    """Inside its room, nothing on anything, and a mark to be seen.

    `hidden` is for one plane of a notch in a pictorial: the wood before it may cover it whole.
    """
    left, bottom, right, top = drawing.bounds()
    inside = left > -1e-9 and bottom > -1e-9 and right < room[0] + 1e-9 and top < room[1] + 1e-9
    assert inside, f"{said} leaves its room: {drawing.bounds()}"
    assert not collisions(drawing), f"{said}: {[str(each) for each in collisions(drawing)]}"
    assert min(label.size_pt for label in drawing.labels) >= LEAST_PT
    ids = [each.gid for each in (*drawing.areas, *drawing.labels) if each.gid]
    ids += [gid for gid, _ in {(line.gid, line.pen) for line in drawing.strokes if line.gid}]
    # Hatched areas are drawn as strokes, which share one group.
    ids = [gid for gid in ids if not gid.endswith(("waste", "section"))]
    twice = [gid for gid, times in Counter(ids).items() if times > 1]
    assert not twice, f"{said} gives an id twice: {twice}"
    # On an edge, a rip's only line may be one that stays.
    marked = any(line.pen in {"cut", "stays"} for line in drawing.strokes)
    assert marked or hidden, f"{said} shows no mark"


@pytest.mark.parametrize(("view", "spec"), each_view_of(CUTS, 13), ids=told)
def test_every_cut_is_drawn_clear_and_inside_its_room(view, spec):
    for asked in answers(spec):
        hidden = view is pictorial and is_notch(asked) and asked.plane_index > 0
        check(view(asked, WIDE), WIDE, f"plane {asked.plane_index}", hidden=hidden)


@pytest.mark.parametrize("view", MORE, ids=lambda view: view.__name__)
@pytest.mark.parametrize("spec", part_of(CUTS, 21), ids=told)
def test_pictures_made_of_several_are_drawn_clear_too(view, spec):
    for asked in answers(spec):
        if view is seen_along and asked.is_rip:
            with pytest.raises(SheetError, match="bevel along the board"):
                view(asked, TALL)
        else:
            check(view(asked, TALL), TALL, f"plane {asked.plane_index}")


@pytest.mark.parametrize("spec", part_of(CUTS, 8, 3), ids=told)
def test_what_is_called_the_plan_shows_the_cut_as_long_as_it_is_seen_along_the_mark(spec):
    """Straight down, the cut's line runs from face to face at the tilt, at one scale with the
    view along the mark; in an elevation it would run over the depth."""
    for asked in answers(spec):
        if asked.is_rip or is_notch(asked):
            continue
        drawing = seen_along(asked, TALL)
        lines = {line.gid: line for line in drawing.strokes if line.gid}
        assert ("plan.trace" in lines) == any(label.text == "the plan" for label in drawing.labels)
        if "plan.trace" in lines:
            along, plan = (
                hypot(*np.subtract(*lines[gid].points)) for gid in ("along.saw-cut", "plan.trace")
            )
            assert plan == pytest.approx(along, rel=1e-6), spec


@pytest.mark.parametrize(("view", "steep"), each_view_of(STEEP_AND_FLAT, 13), ids=told)
def test_flat_and_steep_roofs_are_drawn_too(view, steep):
    spec, pitch = steep
    check(view(answers(spec, pitch)[0], SQUARE), SQUARE, f"{spec} at {pitch}")


@pytest.mark.parametrize("spec", part_of(CUTS[::3], 8, 1), ids=told)
def test_skew_corners_and_unequal_pitches_are_drawn_too(spec):
    from layout.quantity import read_pitch

    meets = answers(spec)[0].question.entry.meets
    corner = 250.0 if meets == "valley" else 110.0
    asked = answers(spec, "6 in 12", other_pitch=read_pitch("9 in 12"), corner_deg=corner)[0]
    for view in VIEWS:
        check(view(asked, WIDE), WIDE, f"{view.__name__} of {spec}")


@pytest.mark.parametrize("spec", part_of(CUTS, 9, 2), ids=told)
def test_every_mistake_is_drawn_against_the_mate(spec):
    for asked in answers(spec):
        settings = [made.setting for made in made_on(asked)[:1]]
        for made in (*settings, asked.hand_setting(as_read=True)):
            check(gap_against_mate(asked, made, WIDE), WIDE, f"{made}")


@pytest.mark.parametrize("where", ["face", "edge"])
@pytest.mark.parametrize("spec", part_of(CUTS[::2], 8), ids=told)
def test_the_miter_saw_is_drawn_for_all_but_bevels_along_the_board_and_notches(spec, where):
    asked = answers(spec)[0]
    if asked.is_rip or spec[0] in ("common-seat", "common-heel", "valley-tail"):
        with pytest.raises(SheetError, match=r"bevel along the board|notch"):
            miter_saw(asked, WIDE, where)
    else:
        check(miter_saw(asked, WIDE, where), WIDE, where)


@pytest.mark.parametrize("view", VIEWS, ids=lambda view: view.__name__)
def test_a_room_too_small_is_refused_in_one_line(view):
    with pytest.raises(SheetError, match="too small") as refused:
        view(answers(CUTS[0])[0], (1.5, 1.2))
    assert "\n" not in str(refused.value)
