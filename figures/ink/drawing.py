"""A drawing: strokes, areas and labels in inches, x to the right and y up. Values, no ink yet.

Nothing here knows a page or a file. A drawing is made at the board's true size, put to scale
with `scaled`, placed with `moved` and `turned`, joined with `+`, printed by `figures.files.press`.
Areas are painted first, strokes over them, labels last; what lies behind something else is not
painted over but cut out of the drawing with `without`.

    square = Drawing(
        strokes=(Stroke(((0, 0), (12, 0)), "cut", gid="plumb-cut"),),
        areas=(Area(shapely.box(0, 0, 12, 1), "waste"),),
        labels=(Label("WASTE", 6, 0.5, ha="center", va="center"),),
    )
    sheet = square.scaled(0.25).moved(2, 3)
    collisions(sheet)                        nothing may lie across a label
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, field, replace
from functools import cached_property
from itertools import pairwise
from math import cos, hypot, radians, sin
from typing import Any, Literal, TypeAlias, TypeVar

import numpy as np
import shapely
import shapely.affinity

from figures.ink.lettering import text_size
from figures.ink.pens import FILLS, MARKS, Point, pen
from layout.errors import SheetError

Polygon: TypeAlias = Any
"""A shapely Polygon or MultiPolygon, in inches."""
Box = tuple[float, float, float, float]
"""Left, bottom, right, top [in]."""

_EXACT = 1e-9
_NO_TURN = 2.5e-16
"""A sine or cosine as small as this is nothing but rounding."""
_Part = TypeVar("_Part", "Stroke", "Area", "Label")


@dataclass(frozen=True)
class Stroke:
    """A line through points [in], drawn with a named pen; `gid` becomes its id in an SVG.

    `start_in` is how far along the pen's dash pattern the first point lies [in on paper]: zero
    for a line that is whole, set by clipping so that dashes agree where pages meet.
    """

    points: tuple[Point, ...]
    pen: str
    gid: str | None = None
    start_in: float = 0.0

    def __post_init__(self) -> None:
        pen(self.pen)
        if len(self.points) < 2:
            raise SheetError(f"a {self.pen} stroke needs two points or more, got {self.points}")


@dataclass(frozen=True)
class Area:
    """A shapely polygon filled by name, see `figures.ink.pens.FILLS`; no outline of its own."""

    polygon: Polygon
    fill: str
    gid: str | None = None

    def __post_init__(self) -> None:
        if self.fill not in FILLS:
            raise SheetError(f"no fill is called {self.fill!r}: use one of {', '.join(FILLS)}")


@dataclass(frozen=True)
class Label:
    """Words at a point [in]: `ha` and `va` say which part of the words stands there.

    `rotation_deg` turns counterclockwise about that point. A `halo` clears the paper behind
    the words, for words that stand on hatching. Lines are parted by a line feed.
    """

    text: str
    x: float
    y: float
    size_pt: float = 10.0
    ha: Literal["left", "center", "right"] = "left"
    va: Literal["bottom", "center", "top"] = "bottom"
    rotation_deg: float = 0.0
    bold: bool = False
    gid: str | None = None
    halo: bool = False
    colour: str = "#000000"


def label_box(label: Label, clearance_in: float = 0.0) -> Polygon:
    """The rectangle that a label covers on paper, turned with it, grown by a clearance [in]."""
    if not label.rotation_deg:
        return shapely.box(*_level_sides(label, clearance_in))
    corners = label_corners(label, clearance_in)
    return shapely.polygons([*corners, corners[0]])


def label_corners(label: Label, clearance_in: float = 0.0) -> tuple[Point, ...]:
    """The corners of `label_box`, the lower right one first, counterclockwise [in]."""
    left, bottom, right, top = _level_sides(label, clearance_in)
    flat = ((right, bottom), (right, top), (left, top), (left, bottom))
    if not label.rotation_deg:
        return flat
    x0, y0, turn = label.x, label.y, radians(label.rotation_deg)
    c, s = (0.0 if abs(part) < _NO_TURN else part for part in (cos(turn), sin(turn)))
    dx, dy = x0 - x0 * c + y0 * s, y0 - x0 * s - y0 * c
    return tuple((c * x - s * y + dx, s * x + c * y + dy) for x, y in flat)


def label_boxes(labels: Sequence[Label], clearance_in: float = 0.0) -> list[Polygon]:
    """The rectangles of several labels, made at once."""
    if len(labels) < 2 or any(label.rotation_deg for label in labels):
        return [label_box(label, clearance_in) for label in labels]
    sides = np.array([_level_sides(label, clearance_in) for label in labels])
    return list(shapely.box(*sides.T))


def _level_sides(label: Label, clearance_in: float) -> Box:
    """The sides of a label's rectangle before it is turned [in]."""
    width, height = text_size(label.text, label.size_pt, label.bold)
    left = label.x - {"left": 0.0, "center": width / 2, "right": width}[label.ha]
    bottom = label.y - {"bottom": 0.0, "center": height / 2, "top": height}[label.va]
    c = clearance_in
    return left - c, bottom - c, left + width + c, bottom + height + c


@dataclass(frozen=True)
class Drawing:
    """Strokes, areas and labels in inches, x right, y up."""

    strokes: tuple[Stroke, ...] = ()
    areas: tuple[Area, ...] = ()
    labels: tuple[Label, ...] = field(default=())

    def __add__(self, other: "Drawing") -> "Drawing":
        return Drawing(
            self.strokes + other.strokes, self.areas + other.areas, self.labels + other.labels
        )

    def __bool__(self) -> bool:
        return bool(self.strokes or self.areas or self.labels)

    def moved(self, dx_in: float, dy_in: float) -> "Drawing":
        """The drawing moved to the right and up [in]."""
        return self._mapped((1.0, 0.0, 0.0, 1.0, dx_in, dy_in))

    def turned(self, angle_deg: float) -> "Drawing":
        """The drawing turned counterclockwise about the origin; labels turn with it.

        A label that would read upside down is turned once more within its own box.
        """
        c, s = cos(radians(angle_deg)), sin(radians(angle_deg))
        if angle_deg % 90 == 0:
            c, s = round(c), round(s)
        turned = self._mapped((c, -s, s, c, 0.0, 0.0))
        labels = tuple(
            _upright(replace(label, rotation_deg=label.rotation_deg + angle_deg))
            for label in turned.labels
        )
        return replace(turned, labels=labels)

    def scaled(self, factor: float) -> "Drawing":
        """The drawing at another size about the origin; words keep their size on paper."""
        return self.stretched(factor, factor)

    def stretched(self, x_factor: float, y_factor: float) -> "Drawing":
        """The drawing with x and y multiplied; words and line widths keep theirs."""
        return self._mapped((x_factor, 0.0, 0.0, y_factor, 0.0, 0.0))

    def bounds(self, *, words: bool = True) -> Box:
        """Left, bottom, right and top of all there is [in]; `words` counts the labels in.

        Raises SheetError for a drawing with nothing in it.
        """
        if words not in self._sides:
            self._sides[words] = self._found_sides(words)
        return self._sides[words]

    @cached_property
    def _sides(self) -> dict[bool, Box]:
        """What `bounds` has found: it is asked again and again."""
        return {}

    def _found_sides(self, words: bool) -> Box:
        spots = [spot for stroke in self.strokes for spot in stroke.points]
        if words:
            spots += [corner for label in self.labels for corner in label_corners(label)]
        boxes = []
        if spots:
            points = np.array(spots)
            boxes.append((*points.min(axis=0), *points.max(axis=0)))
        filled = [area.polygon for area in self.areas if not area.polygon.is_empty]
        if filled:
            boxes.append(tuple(shapely.total_bounds(filled)))
        sides = np.array(boxes) if boxes else np.full((1, 4), np.nan)
        if not np.isfinite(sides).all():
            raise SheetError("there is nothing in the drawing, or a point of it is no number")
        left, bottom = (float(side) for side in sides[:, :2].min(axis=0))
        right, top = (float(side) for side in sides[:, 2:].max(axis=0))
        return left, bottom, right, top

    def shapes(self, *, words: bool = True) -> list[Any]:
        """Every stroke, area and, with `words`, every label's box as shapely geometry."""
        shapes: list[Any] = []
        if self.strokes:
            # One call for all lines: there are thousands where something is hatched.
            counts = [len(stroke.points) for stroke in self.strokes]
            points = np.array([point for stroke in self.strokes for point in stroke.points])
            belongs = np.repeat(np.arange(len(counts)), counts)
            shapes += list(shapely.linestrings(points, indices=belongs))
        shapes += [area.polygon for area in self.areas]
        return shapes + label_boxes(self.labels) if words else shapes

    def clipped(self, box: Box, *, part_labels: bool = False) -> "Drawing":
        """The part of the drawing inside a box; a label stays only if it is whole inside it.

        `part_labels` keeps the labels that lie partly inside too, for a page that cuts them.
        """
        window = shapely.box(*box)
        grow = -_EXACT if part_labels else _EXACT
        grown = shapely.box(box[0] - grow, box[1] - grow, box[2] + grow, box[3] + grow)
        stays = grown.intersects if part_labels else grown.covers
        return Drawing(
            _cut_strokes(self.strokes, lambda lines: shapely.intersection(lines, window)),
            _cut_areas(self.areas, lambda polygon: shapely.intersection(polygon, window)),
            tuple(label for label in self.labels if stays(label_box(label))),
        )

    def without(self, region: Polygon) -> "Drawing":
        """The drawing with everything under a region cut away, words that touch it left out."""
        shapely.prepare(region)
        return Drawing(
            _cut_strokes(self.strokes, lambda lines: shapely.difference(lines, region)),
            _cut_areas(self.areas, lambda polygon: shapely.difference(polygon, region)),
            tuple(label for label in self.labels if not region.intersects(label_box(label))),
        )

    def _mapped(self, by: tuple[float, float, float, float, float, float]) -> "Drawing":
        """The drawing with x' = a x + b y + e and y' = c x + d y + f, by a, b, c, d, e, f."""
        a, b, c, d, e, f = by
        strokes = []
        if self.strokes:
            # All points at once: most drawings are moved or scaled many times.
            x, y = np.array([spot for stroke in self.strokes for spot in stroke.points]).T
            spots = list(
                zip((a * x + b * y + e).tolist(), (c * x + d * y + f).tolist(), strict=True)
            )
            first = 0
            for stroke in self.strokes:
                last = first + len(stroke.points)
                strokes.append(_with(stroke, points=tuple(spots[first:last])))
                first = last
        polygons: Any = ()
        if self.areas:

            def moved(ends: Any) -> Any:
                x, y = ends.T
                return np.stack([a * x + b * y + e, c * x + d * y + f], axis=-1)

            polygons = shapely.transform([area.polygon for area in self.areas], moved)
        return Drawing(
            tuple(strokes),
            tuple(
                _with(area, polygon=polygon)
                for area, polygon in zip(self.areas, polygons, strict=True)
            ),
            tuple(
                _with(
                    label,
                    x=a * label.x + b * label.y + e,
                    y=c * label.x + d * label.y + f,
                )
                for label in self.labels
            ),
        )


@dataclass(frozen=True)
class Collision:
    """A label and what lies across it: another label, or a stroke that must stay clear."""

    label: Label
    other: Label | Stroke

    def __str__(self) -> str:
        if isinstance(self.other, Label):
            return f"{self.label.text!r} overlaps {self.other.text!r}"
        return f"{self.label.text!r} lies on a {self.other.pen} line {self.other.gid or ''}".strip()


def collisions(
    drawing: Drawing,
    keep_clear: AbstractSet[str] = MARKS,
    clearance_in: float = 0.0,
) -> tuple[Collision, ...]:
    """Every pair of labels that overlap, and every label that lies across a line of a mark.

    `keep_clear` names the pens that no label may touch, `clearance_in` [in] the white that
    must be left round each label. Labels that only touch do not overlap.
    """
    labels = drawing.labels
    if not labels:
        return ()
    boxes = [label_box(label, clearance_in - _EXACT) for label in labels]
    tree = shapely.STRtree(boxes)
    found: list[Collision] = []
    for i, j in zip(*tree.query(boxes, predicate="intersects"), strict=True):
        if i < j:
            found.append(Collision(labels[i], labels[j]))
    marks = [stroke for stroke in drawing.strokes if stroke.pen in keep_clear]
    if marks:
        lines = [shapely.linestrings(stroke.points) for stroke in marks]
        for i, j in zip(*tree.query(lines, predicate="intersects"), strict=True):
            found.append(Collision(labels[j], marks[i]))
    return tuple(found)


def _with(part: _Part, **fields: Any) -> _Part:
    """A part with other fields, made without its checks: what it keeps has passed them."""
    made = object.__new__(type(part))
    made.__dict__.update(part.__dict__)
    made.__dict__.update(fields)
    return made


def _upright(label: Label) -> Label:
    """The same words in the same box, read from below or from the right."""
    angle = (label.rotation_deg + 180.0) % 360.0 - 180.0
    if -90.0 + _EXACT < angle <= 90.0 + _EXACT:
        return replace(label, rotation_deg=angle)
    ha: dict[str, Any] = {"left": "right", "right": "left"}
    va: dict[str, Any] = {"bottom": "top", "top": "bottom"}
    return replace(
        label,
        rotation_deg=(angle + 360.0) % 360.0 - 180.0,
        ha=ha.get(label.ha, label.ha),
        va=va.get(label.va, label.va),
    )


def _cut_areas(areas: Iterable[Area], operation: Callable[[Polygon], Polygon]) -> tuple[Area, ...]:
    kept = []
    for area in areas:
        polygon = operation(area.polygon)
        if shapely.equals(polygon, area.polygon):
            kept.append(area)
        elif shapely.area(polygon) > 0:
            kept.append(replace(area, polygon=polygon))
    return tuple(kept)


def _cut_strokes(
    strokes: tuple[Stroke, ...], operation: Callable[[Any], Any]
) -> tuple[Stroke, ...]:
    """Each stroke cut segment by segment, so that its order and its dashes are kept."""
    if not strokes:
        return ()
    segments = np.array(
        [pair for stroke in strokes for pair in pairwise(stroke.points)],
        dtype=float,
    )
    lines = shapely.linestrings(segments)
    cut = operation(lines)
    ends = np.cumsum([len(stroke.points) - 1 for stroke in strokes])
    starts = np.concatenate([[0], ends[:-1]])
    whole = np.logical_and.reduceat(shapely.equals_exact(lines, cut), starts)
    gone = np.logical_and.reduceat(shapely.is_empty(cut), starts)
    result: list[Stroke] = []
    for at in np.flatnonzero(~gone).tolist():
        if whole[at]:
            result.append(strokes[at])
        else:
            own = slice(starts[at], ends[at])
            result.extend(_rejoined(strokes[at], segments[own], cut[own]))
    return tuple(result)


def _rejoined(stroke: Stroke, segments: Any, cut: Any) -> Iterator[Stroke]:
    """The pieces that are left of one stroke, joined again where they still meet."""
    run: list[Point] = []
    run_start = along = stroke.start_in
    for (start, end), left in zip(segments, cut, strict=True):
        dx, dy = float(end[0] - start[0]), float(end[1] - start[1])
        length = hypot(dx, dy)
        parts = []
        for part in shapely.get_parts(left):
            if part.geom_type != "LineString" or part.is_empty:
                continue
            ends = [(float(x), float(y)) for x, y in part.coords]
            ends.sort(key=lambda p: (p[0] - start[0]) * dx + (p[1] - start[1]) * dy)
            parts.append((hypot(ends[0][0] - start[0], ends[0][1] - start[1]), ends))
        for into, ends in sorted(parts):
            if not run or run[-1] != ends[0]:
                if len(run) > 1:
                    yield replace(stroke, points=tuple(run), start_in=run_start)
                run, run_start = [ends[0]], along + into
            run.append(ends[-1])
        along += length
    if len(run) > 1:
        yield replace(stroke, points=tuple(run), start_in=run_start)
