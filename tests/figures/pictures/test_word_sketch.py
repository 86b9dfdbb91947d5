"""The sketches of the glossary: every word that can be drawn, its arrow on what it names."""

import pytest
import shapely

from figures.pictures.word_sketch import SKETCHES, word_sketch
from lessons.course.glossary import glossary

DRAWN = ("arris", "backing", "blade", "cheek", "crown", "drop", "heel", "kerf", "seat", "shoe",
         "tongue")  # fmt: skip


def test_every_word_that_can_be_drawn_is_and_is_explained():
    assert sorted(SKETCHES) == sorted(DRAWN)
    assert set(DRAWN) <= {term.word for term in glossary()}


@pytest.mark.parametrize("word", DRAWN)
def test_the_arrow_ends_at_the_heavy_lines_and_the_word_stands_beside(word):
    drawing = word_sketch(word)
    heavy = [stroke for stroke in drawing.strokes if stroke.gid == word]
    assert heavy
    named = shapely.union_all([shapely.LineString(stroke.points) for stroke in heavy])
    tip = shapely.Point(SKETCHES[word].tip)
    inside = shapely.convex_hull(named).buffer(0.04)
    assert inside.covers(tip)
    assert [label.text for label in drawing.labels] == [word]
    left, bottom, right, top = drawing.bounds()
    assert right - left < 2.2
    assert top - bottom < 1.2
    assert drawing.labels[0].size_pt >= 8
