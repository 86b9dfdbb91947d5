"""A bare drawing as SVG, to stand in a page of HTML: no page round it, words as real text.

Lines, areas and words carry a class each (`pen-cut`, `fill-steel`, `ink-0072b2`), so that a
style sheet can recolour them for a dark screen; without one they are black on nothing. Words
are squeezed to the width they were placed with, whatever font the reader has. Sizes are points,
to a hundredth (0.004 mm): a picture to study, never to measure from.
"""

from collections.abc import Iterable, Iterator
from math import atan2, cos, degrees, radians, sin
from typing import Any
from xml.sax.saxutils import escape

from figures.ink.drawing import Area, Drawing, Label, Stroke
from figures.ink.hatch import hatched
from figures.ink.lettering import DESCENT_EM, LINE_EM, line_width_em
from figures.ink.pens import BLACK, FILLS, PT_PER_IN, Point, pen, pieces

PAD_IN = 0.05
"""Clear margin round the drawing, so that no line is cut along its middle [in]."""
FONTS = "sans-serif"


def drawing_svg(drawing: Drawing, title: str, description: str = "", id_prefix: str = "") -> str:
    """The drawing as an SVG element, as large as its own bounds.

    `title` names it and `description` says it in words, for those who cannot see it; `id_prefix`
    keeps their ids apart from those of other drawings in one file. Raises SheetError for a
    drawing with nothing in it.
    """
    inked = hatched(drawing)
    left, bottom, right, top = inked.bounds()
    paper = inked.moved(PAD_IN - left, -top - PAD_IN)
    width, height = right - left + 2 * PAD_IN, top - bottom + 2 * PAD_IN
    told = f'<title id="{id_prefix}title">{escape(title)}</title>'
    by = f"{id_prefix}title"
    if description:
        told += f'<desc id="{id_prefix}desc">{escape(description)}</desc>'
        by += f" {id_prefix}desc"
    return "\n".join(
        (
            f'<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-labelledby="{by}"'
            f' viewBox="0 0 {_pt(width)} {_pt(height)}"'
            f' width="{_pt(width)}pt" height="{_pt(height)}pt">',
            told,
            *_areas(paper.areas),
            *_strokes(paper.strokes),
            *_labels(paper.labels),
            "</svg>",
        )
    )


def _areas(areas: Iterable[Area]) -> Iterator[str]:
    import shapely

    for area in areas:
        colour = FILLS[area.fill]
        rings: list[Any] = [
            ring
            for polygon in shapely.get_parts(area.polygon)
            if polygon.geom_type == "Polygon"
            for ring in (polygon.exterior, *polygon.interiors)
        ]
        path = "".join(f"{_path(ring.coords[:-1])}z" for ring in rings)
        yield f'<path class="fill-{area.fill}"{_mark(area.gid)} fill="{colour}" d="{path}"/>'


def _strokes(strokes: Iterable[Stroke]) -> Iterator[str]:
    """One path for the lines of a pen and a mark, heavy lines over narrow ones."""
    groups: dict[tuple[str, str | None], list[str]] = {}
    for stroke in strokes:
        drawn = pieces(stroke.points, pen(stroke.pen), stroke.start_in)
        groups.setdefault((stroke.pen, stroke.gid), []).extend(_path(line) for line in drawn)
    for (name, gid), lines in sorted(groups.items(), key=lambda item: pen(item[0][0]).width_mm):
        with_pen = pen(name)
        yield (
            f'<path class="pen-{name}"{_mark(gid)} fill="none" stroke="{with_pen.colour}"'
            f' stroke-width="{_number(with_pen.width_pt)}" stroke-linejoin="round"'
            f' d="{"".join(lines)}"/>'
        )


def _labels(labels: Iterable[Label]) -> Iterator[str]:
    """Every line of words on its own baseline, as wide as it was measured."""
    written = [line for label in labels for line in _lines(label)]
    if written:
        yield f'<g class="words" font-family="{FONTS}">'
        yield from written
        yield "</g>"


def _lines(label: Label) -> Iterator[str]:
    lines = label.text.split("\n")
    em = label.size_pt / PT_PER_IN
    height = em * (1.0 + LINE_EM * (len(lines) - 1))
    below = {"bottom": 0.0, "center": height / 2, "top": height}[label.va]
    c, s = cos(radians(label.rotation_deg)), sin(radians(label.rotation_deg))
    bold = ' font-weight="bold"' if label.bold else ""
    colour = label.colour.lstrip("#")
    ink = "" if label.colour == BLACK else f' class="ink-{colour}" fill="#{colour}"'
    for down, line in enumerate(lines):
        if not line.strip():
            continue
        width = line_width_em(line, label.bold) * em
        dx = -{"left": 0.0, "center": width / 2, "right": width}[label.ha]
        dy = -below + em * (DESCENT_EM + LINE_EM * (len(lines) - 1 - down))
        x, y = label.x + c * dx - s * dy, label.y + s * dx + c * dy
        turn = ""
        if label.rotation_deg:
            # SVG's y runs down, so its angles run clockwise.
            angle = _number(-degrees(atan2(s, c)))
            turn = f' transform="rotate({angle} {_pt(x)} {_pt(-y)})"'
        yield (
            f'<text{ink}{bold} x="{_pt(x)}" y="{_pt(-y)}" font-size="{_number(label.size_pt)}"'
            f' textLength="{_pt(width)}" lengthAdjust="spacingAndGlyphs"{turn}>'
            f"{escape(line)}</text>"
        )


def _mark(gid: str | None) -> str:
    """The name of a mark: the same one may stand on several lines, so it is no id."""
    return f' data-mark="{escape(gid)}"' if gid else ""


def _path(points: Iterable[Point]) -> str:
    """A line through points, after the first as steps from one to the next."""
    done_x = done_y = 0
    parts = []
    for x, y in points:
        # Whole hundredths of a point, so that rounding never adds up along the line.
        at_x, at_y = round(x * PT_PER_IN * 100), round(-y * PT_PER_IN * 100)
        parts.append(f"{_number((at_x - done_x) / 100)} {_number((at_y - done_y) / 100)}")
        done_x, done_y = at_x, at_y
    return f"M{parts[0]}l{' '.join(parts[1:])}".replace(" -", "-")


def _pt(value_in: float) -> str:
    return _number(value_in * PT_PER_IN)


def _number(value: float) -> str:
    text = f"{value:.2f}".rstrip("0").rstrip(".").replace("0.", ".", 1 if abs(value) < 1 else 0)
    return "0" if text in ("-0", "") else text
