"""A drawing that stands in HTML: read back from its SVG, against the drawing it was made from."""

import re
import xml.etree.ElementTree as ET
from itertools import accumulate

import pytest
import shapely

from figures.files.inline import PAD_IN, drawing_svg
from figures.ink.drawing import Area, Drawing, Label, Stroke
from figures.ink.lettering import text_size
from figures.ink.pens import PENS
from layout.errors import SheetError

SVG = "{http://www.w3.org/2000/svg}"
DRAWING = Drawing(
    (
        Stroke(((-1.0, 2.0), (2.0, 2.0), (2.0, 5.123456)), "cut", "plumb-cut"),
        Stroke(((-1.0, 3.0), (2.0, 3.0)), "fold", "arris"),
    ),
    (Area(shapely.box(0, 2.5, 1, 4).difference(shapely.box(0.2, 3, 0.4, 3.5)), "steel", "square"),),
    (
        Label('9 1/4" & <more>', 0.0, 4.5, 12),
        Label("two\nlines", 1.5, 3.5, 9, "center", "center", 90.0, bold=True, colour="#d55e00"),
    ),
)


def drawn(drawing=DRAWING, **how):
    return ET.fromstring(drawing_svg(drawing, "A cut", "Plumb, 9 1/4 in", **how))


def points(path: str) -> list[list[tuple[float, float]]]:
    """The lines of a path's data, in points from the upper left corner."""
    lines = []
    for line in path.replace("z", "").split("M")[1:]:
        numbers = [float(n) for n in re.findall(r"-?(?:\d+\.?\d*|\.\d+)", line)]
        steps = zip(numbers[::2], numbers[1::2], strict=True)
        lines.append(list(accumulate(steps, lambda at, step: (at[0] + step[0], at[1] + step[1]))))
    return lines


def test_lines_stand_where_the_drawing_has_them():
    root = drawn()
    left, bottom, right, top = DRAWING.bounds()
    width, height = (float(part) for part in root.get("viewBox").split()[2:])
    assert width == pytest.approx((right - left + 2 * PAD_IN) * 72, abs=0.006)
    assert height == pytest.approx((top - bottom + 2 * PAD_IN) * 72, abs=0.006)
    (mark,) = (path for path in root.iter(f"{SVG}path") if path.get("data-mark") == "plumb-cut")
    assert mark.get("class") == "pen-cut"
    assert float(mark.get("stroke-width")) == pytest.approx(PENS["cut"].width_pt, abs=0.006)
    (line,) = points(mark.get("d"))
    for (x, y), (want_x, want_y) in zip(line, DRAWING.strokes[0].points, strict=True):
        assert x == pytest.approx((want_x - left + PAD_IN) * 72, abs=0.006)
        assert y == pytest.approx((top + PAD_IN - want_y) * 72, abs=0.006)


def test_rounding_never_adds_up_along_a_line():
    step = 1.004 / 72
    line = tuple((i * step, (i % 2) / 72) for i in range(400))
    (path,) = drawn(Drawing((Stroke(line, "visible"),))).iter(f"{SVG}path")
    (read,) = points(path.get("d"))
    assert read[-1][0] == pytest.approx(399 * 1.004 + PAD_IN * 72, abs=0.011)


def test_an_area_keeps_its_hole_and_its_class():
    (area,) = (path for path in drawn().iter(f"{SVG}path") if path.get("class") == "fill-steel")
    assert len(points(area.get("d"))) == 2
    assert area.get("d").count("z") == 2


def test_words_are_text_on_their_baselines_and_as_wide_as_measured():
    root = drawn()
    texts = {each.text: each for each in root.iter(f"{SVG}text")}
    assert set(texts) == {'9 1/4" & <more>', "two", "lines"}
    wide = texts['9 1/4" & <more>']
    assert float(wide.get("textLength")) == pytest.approx(
        text_size('9 1/4" & <more>', 12)[0] * 72, abs=0.006
    )
    # DejaVu Sans: the box of a label begins 0.24 em below the baseline.
    top = DRAWING.bounds()[3]
    assert float(wide.get("y")) == pytest.approx((top + PAD_IN - 4.5) * 72 - 0.24 * 12, abs=0.006)
    # Turned a quarter, words read upward: the first of two lines stands to the left.
    turned, second = texts["two"], texts["lines"]
    left = DRAWING.bounds()[0]
    middle, half_line = (1.5 - left + PAD_IN) * 72, 1.22 / 2 * 9
    for each, side in ((turned, -1), (second, 1)):
        baseline = middle + side * half_line + (0.5 - 0.24) * 9
        assert float(each.get("x")) == pytest.approx(baseline, abs=0.011)
        half_long = text_size(each.text, 9, bold=True)[0] * 36
        assert float(each.get("y")) == pytest.approx(
            (top + PAD_IN - 3.5) * 72 + half_long, abs=0.011
        )
    assert turned.get("transform").startswith("rotate(-90 ")
    assert turned.get("class") == "ink-d55e00"
    assert turned.get("font-weight") == "bold"


def test_it_is_told_in_words_and_ids_are_its_own():
    root = drawn(id_prefix="hip-3-")
    assert root.get("role") == "img"
    ids = [each.get("id") for each in root.iter() if each.get("id")]
    assert ids == ["hip-3-title", "hip-3-desc"]
    assert root.get("aria-labelledby") == "hip-3-title hip-3-desc"
    assert root.find(f"{SVG}desc").text == "Plumb, 9 1/4 in"


def test_waste_is_hatched_and_an_empty_drawing_refused():
    waste = Drawing(areas=(Area(shapely.box(0, 0, 2, 1), "waste"),))
    assert 'class="pen-hatch"' in drawing_svg(waste, "Waste")
    with pytest.raises(SheetError, match="nothing in the drawing"):
        drawing_svg(Drawing(), "Nothing")
