"""Pictures that turn a saw or lay a square, read from the file and held against the plane."""

from dataclasses import replace

import numpy as np
import pytest

from figures.files.pictured import page_svg
from figures.ink.paper import read_paper
from figures.page.sheet import Page
from figures.pictures.both_faces import face_from_above
from figures.pictures.composed import picture_page
from figures.pictures.shoe import face_shoes
from figures.pictures.views import far_face_and_edge_views
from figures.wood.unfolded import stick
from lessons.mistakes.cut_mistakes import made_on
from tests.counts import count
from tests.readers import pictures as reader
from tests.readers.svg import MisreadError
from tests.views_of import CUTS, NAMES, answers, one

STEP = count(1, 8)
SPECS, SPEC_NAMES = CUTS[::STEP], NAMES[::STEP]
LETTER = read_paper("Letter")
OTHER = {"left": "right", "right": "left"}


def svg(answer, view, **more) -> str:
    return page_svg(picture_page(answer, view, LETTER, **more)).decode()


def planes(asked):
    return reader.Planes(
        tuple(tuple(float(part) for part in cut.normal) for cut in asked.cuts),
        asked.question.joint.removals,
        asked.plane_index,
    )


@pytest.mark.parametrize("spec", SPECS, ids=SPEC_NAMES)
def test_a_saw_set_by_the_picture_cuts_the_plane(spec):
    for asked in answers(spec)[: count(9, 1)]:
        shown = reader.check_setting(svg(asked, "saw"), planes(asked))
        assert shown >= 1


@pytest.mark.parametrize("spec", SPECS, ids=SPEC_NAMES)
def test_marks_copied_from_the_picture_are_the_planes(spec):
    for asked in answers(spec)[: count(9, 1)]:
        reader.check_faces(svg(asked, "faces"), planes(asked))


@pytest.mark.parametrize("spec", SPECS, ids=SPEC_NAMES)
def test_a_square_laid_by_the_picture_marks_the_plane(spec):
    for asked in answers(spec)[: count(9, 1)]:
        shown = reader.check_square(svg(asked, "square"), planes(asked))
        assert shown == 2 or asked.is_rip


@pytest.mark.parametrize("spec", SPECS, ids=SPEC_NAMES)
def test_a_gap_is_drawn_as_wide_and_as_steep_as_it_is(spec):
    for asked in answers(spec)[: count(9, 1)]:
        for made in made_on(asked)[: count(9, 1)]:
            read = reader.read_gap(svg(asked, "gap", wrong=made.setting))
            between = float(np.clip(asked.cut.normal @ made.setting.normal, -1, 1))
            wanted = min(np.degrees(np.arccos(between)), 180 - np.degrees(np.arccos(between)))
            assert min(read.angle_deg, 180 - read.angle_deg) == pytest.approx(wanted, abs=0.3)
            assert read.widest_in == pytest.approx(float(made.fit.widest_in), abs=0.01)


def test_one_saw_alone_is_read_too():
    for kind in ("blade-right", "blade-left"):
        from layout.tools.saw import SawKind

        asked = one("hip-jack", hand="right")
        asked = replace(asked, limits=replace(asked.limits, kind=SawKind(kind)))
        drawn = svg(asked, "saw")
        reader.check_setting(drawn, planes(asked), kind=kind)
        other = "blade-left" if kind == "blade-right" else "blade-right"
        with pytest.raises(MisreadError, match="no arrow"):
            reader.check_setting(drawn, planes(asked), kind=other)


def test_the_other_hand_is_not_taken_for_this_one():
    for view, check in (
        ("saw", reader.check_setting),
        ("faces", reader.check_faces),
        ("square", reader.check_square),
    ):
        asked, other = one("hip-jack", hand="left"), one("hip-jack", hand="right")
        check(svg(asked, view), planes(asked))
        with pytest.raises(MisreadError):
            check(svg(asked, view), planes(other))


@pytest.mark.parametrize("hand", ["left", "right"])
@pytest.mark.parametrize("name", ["hip-jack", "valley-jack", "purlin-square"][: count(3, 1)])
def test_each_face_from_above_says_and_shows_where_to_ride(name, hand):
    asked = one(name, hand=hand)
    for shoe in face_shoes(asked, stick(asked, kept_in=5.0, waste_in=3.0)):
        drawing = face_from_above(asked, shoe, (3.6, 3.0)).moved(0.5, 5.0)
        page = Page(LETTER, drawing, title="faces", given="", scale=None)
        drawn = page_svg(page).decode()
        assert reader.check_setting(drawn, planes(asked)) == 1
        with pytest.raises(MisreadError):
            reader.check_setting(drawn, planes(one(name, hand=OTHER[hand])))


@pytest.mark.parametrize("hand", ["left", "right"])
@pytest.mark.parametrize("name", ["hip-jack", "valley-jack", "purlin-square"][: count(3, 1)])
def test_the_far_face_and_edge_show_the_same_plane(name, hand):
    """Where a handsaw comes out: the marks there are those of the plane, and of no other hand."""
    asked = one(name, hand=hand)
    drawing = far_face_and_edge_views(asked, (7.0, 4.0)).moved(0.5, 5.0)
    drawn = page_svg(Page(LETTER, drawing, title="far", given="", scale=None)).decode()
    assert "Left face, and the bottom edge" in drawn
    reader.check_faces(drawn, planes(asked))
    with pytest.raises(MisreadError):
        reader.check_faces(drawn, planes(one(name, hand=OTHER[hand])))
