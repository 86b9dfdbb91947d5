"""What a claim that says nothing is told to say instead: the lines that this very cut has.

A jack's face is plumb and its edge slants; a common's edge is square; a hip's run is what men argue
about, so it is left open; a backing is a rip (common practice, no source).
"""

import pytest

from lessons.settle.ear.hearing import hear
from tests.lessons.settle.ear.test_readings import right


@pytest.mark.parametrize(
    ("cut", "said", "form"),
    [
        ("hip-jack", "fnord", "plumb N in 12, saw N"),
        ("hip-jack", "fnord edge", "plumb N in 12, edge N on 12"),
        ("hip-jack", "fnord edge saw", "plumb N in 12, saw N"),
        ("hip-jack", "table fnord", "board flat: table N, tilt N"),
        ("hip-jack", "always fnord", "always saw N"),
        ("hip-jack", "always fnord edge", "always edge N on 12"),
        ("hip-ridge", "fnord", "plumb N in N, saw N"),
        ("common-ridge", "fnord", "plumb N in 12, saw square"),
        ("common-ridge", "fnord edge", "plumb N in 12, saw square"),
        ("common-ridge", "table fnord", "board flat: table N, tilt 0"),
        ("common-seat", "fnord", "level N in 12, saw square"),
        ("hip-backing", "fnord", "rip, saw N"),
        ("hip-backing", "always fnord", "always rip, saw N"),
    ],
)
def test_the_form_has_the_lines_of_the_cut(cut, said, form):
    assert hear(said, right(cut)).form == form
