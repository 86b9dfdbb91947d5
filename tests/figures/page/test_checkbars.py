"""The bars and the square that a ruler is laid on, read with a ruler: inches and centimeters."""

import pytest

from figures.ink.lettering import text_size
from figures.page.checkbars import NOTICE, check_bar, check_square


@pytest.mark.parametrize(
    ("way", "room", "inches", "centimeters"),
    [("across", 7.0, 6, 15), ("along", 9.0, 8, 20), ("along", 7.5, 7, 17), ("across", 5.0, 4, 10)],
)
def test_a_bar_has_a_tick_at_every_inch_above_and_at_every_fifth_centimeter_below(
    way, room, inches, centimeters
):
    """An inch is 25.4 mm exactly (international yard and pound agreement, 1959; from memory)."""
    ticks = [s.points for s in check_bar(way, room).strokes if s.points[0][0] == s.points[1][0]]
    above = sorted(a[0] for a, b in ticks if b[1] > a[1])
    below = sorted(a[0] * 2.54 for a, b in ticks if b[1] < a[1])
    assert above == pytest.approx(list(range(inches + 1)))
    fifths = [*range(0, centimeters, 5), centimeters]
    assert below == pytest.approx(fifths)
    (line,) = (s.points for s in check_bar(way, room).strokes if s.gid == f"check-bar-{way}")
    assert line[1][0] - line[0][0] == inches


def test_the_notice_fills_its_lines_at_the_size_that_it_is_lettered_in():
    """Each line keeps inside the square, and the next line's first word had no room on it."""
    square = check_square()
    (notice,) = (each for each in square.labels if each.text.startswith(NOTICE[:8]))
    assert notice.size_pt >= 8
    lines = notice.text.split("\n")
    room = 2.0 - 2 * notice.x
    for line, following in zip(lines, [*lines[1:], None], strict=True):
        assert text_size(line, notice.size_pt)[0] <= room
        if following is not None:
            longer = f"{line} {following.split(' ')[0]}"
            assert text_size(longer, notice.size_pt)[0] > room
