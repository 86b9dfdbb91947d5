"""What stands in an SVG of ours, in inches with y up: named lines, filled shapes, and words.

Knows the file format alone: paths of `M`, `l` and `z`, words with their length. A leader (three
points that end beside some words) gives the place that the words point at.
"""

import re
import xml.etree.ElementTree as ET
from collections import defaultdict
from dataclasses import dataclass, field
from math import hypot

SVG = "{http://www.w3.org/2000/svg}"
PT_PER_IN = 72.0
NUMBER = re.compile(r"-?(?:\d+\.\d+|\.\d+|\d+)")
BESIDE_IN = 0.09
"""A leader ends this near to the words it belongs to."""
Point = tuple[float, float]


class MisreadError(AssertionError):
    """A picture that says something else than it should, or can be taken two ways."""


@dataclass(frozen=True)
class Said:
    """Words on the paper: their box, and what a leader points them at."""

    text: str
    left: float
    bottom: float
    right: float
    top: float
    tip: Point | None = None

    @property
    def middle(self) -> Point:
        return (self.left + self.right) / 2, (self.bottom + self.top) / 2

    @property
    def place(self) -> Point:
        """What the words name: the leader's tip, else where they stand."""
        return self.tip or self.middle


@dataclass
class Paper:
    """Lines by name and by pen, filled shapes by name, hatching by name, and all words."""

    lines: dict[str, list[list[Point]]] = field(default_factory=lambda: defaultdict(list))
    hatch: dict[str, list[list[Point]]] = field(default_factory=lambda: defaultdict(list))
    fills: dict[str, list[list[Point]]] = field(default_factory=lambda: defaultdict(list))
    words: list[Said] = field(default_factory=list)

    def part(self, prefix: str) -> "Paper":
        """What is named under a prefix such as `right-face.above.`, without it, and its words.

        Words belong to the part whose lines they, or what they point at, are nearest to.
        """
        own = Paper()
        for mine, all_of in (
            (own.lines, self.lines),
            (own.hatch, self.hatch),
            (own.fills, self.fills),
        ):
            for name, lines in all_of.items():
                if name.startswith(prefix):
                    mine[name.removeprefix(prefix)] += lines
        boxes = self._boxes()
        for said in self.words:
            if min(boxes, key=lambda each: _outside(said.place, boxes[each])) == prefix:
                own.words.append(said)
        return own

    def _boxes(self) -> dict[str, tuple[float, float, float, float]]:
        """The box of every part that has two names before its own."""
        points: dict[str, list[Point]] = defaultdict(list)
        for all_of in (self.lines, self.fills):
            for name, lines in all_of.items():
                *before, _ = name.split(".")
                if len(before) == 2:
                    points[".".join(before) + "."] += [p for line in lines for p in line]
        return {name: _box(found) for name, found in points.items()}

    def line(self, name: str) -> tuple[Point, Point]:
        """Both ends of the one line with a name."""
        lines = self.lines.get(name, [])
        if not lines:
            raise MisreadError(f"there is no line {name!r}")
        points = [point for line in lines for point in line]
        pairs = ((p, q) for p in points for q in points)
        return max(pairs, key=lambda pair: hypot(*_minus(*pair)))

    def words_with(self, text: str) -> list[Said]:
        """All words that read exactly so."""
        return [said for said in self.words if said.text == text]

    def one(self, text: str) -> Said:
        """The one place where words read so."""
        found = self.words_with(text)
        if len(found) != 1:
            raise MisreadError(f"{text!r} stands {len(found)} times")
        return found[0]


def read_svg(text: str) -> Paper:
    """Everything on the paper."""
    paper, leaders = Paper(), []
    root = ET.fromstring(text)
    for path in root.iter(f"{SVG}path"):
        kind, name = path.get("class", ""), _bare(path.get("data-mark", ""))
        lines = _lines(path.get("d", ""))
        if kind == "pen-hatch":
            paper.hatch[name] += lines
        elif kind.startswith("pen-"):
            if kind == "pen-dimension" and not name:
                leaders += [line for line in lines if len(line) == 3]
            paper.lines[name or kind] += lines
        else:
            paper.fills[name or kind] += lines
    for each in root.iter(f"{SVG}text"):
        paper.words.append(_said(each, leaders))
    return paper


def _bare(name: str) -> str:
    """A mark's name without its place on a composed page."""
    return re.sub(r"^p\d+[ab]?\.", "", name)


def _lines(d: str) -> list[list[Point]]:
    found = []
    for start in d.split("M")[1:]:
        numbers = [float(number) / PT_PER_IN for number in NUMBER.findall(start)]
        x, y = numbers[0], -numbers[1]
        line = [(x, y)]
        for dx, dy in zip(numbers[2::2], numbers[3::2], strict=True):
            x, y = x + dx, y - dy
            line.append((x, y))
        found.append(line)
    return found


def _said(each: ET.Element, leaders: list[list[Point]]) -> Said:
    x, y = float(each.get("x", 0)) / PT_PER_IN, -float(each.get("y", 0)) / PT_PER_IN
    wide, size = (float(each.get(key, 0)) / PT_PER_IN for key in ("textLength", "font-size"))
    text = "".join(each.itertext()).replace("\xa0", " ")
    box = (x, y - 0.24 * size, x + wide, y + 0.76 * size)
    tip = None
    if "rotate" not in each.get("transform", ""):
        for line in leaders:
            end = line[-1]
            beside = min(abs(end[0] - box[0]), abs(end[0] - box[2])) < BESIDE_IN
            if beside and box[1] - 0.05 < end[1] < box[3] + 0.05:
                tip = line[0]
    return Said(text, *box, tip)


def _box(points: list[Point]) -> tuple[float, float, float, float]:
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def _outside(point: Point, box: tuple[float, float, float, float]) -> float:
    """How far a point lies outside a box; 0 inside."""
    dx = max(box[0] - point[0], 0.0, point[0] - box[2])
    dy = max(box[1] - point[1], 0.0, point[1] - box[3])
    return hypot(dx, dy)


def _minus(p: Point, q: Point) -> Point:
    return p[0] - q[0], p[1] - q[1]
