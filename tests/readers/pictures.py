"""A reader of pictures: it takes from a written SVG what a carpenter takes from the sheet.

On which side of the cut line lie kept wood, waste, hatching, the saw blade below the shoe, the
wide side, the motor and the words; which way each saw goes; what is laid on which arm of the
square. All that is compared with a plane's own normal, by this file's own geometry: it imports
nothing that draws and nothing that computes a cut.

Board axes: x toward the head, y from the right face to the left, z from the bottom edge up.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass
from itertools import combinations, product
from math import asin, atan2, degrees, hypot, sqrt
from typing import Any

import shapely

from tests.readers.svg import MisreadError, Paper, Point, read_svg

Vector = tuple[float, float, float]
OUT: dict[str, Vector] = {
    "right face": (0.0, -1.0, 0.0),
    "left face": (0.0, 1.0, 0.0),
    "top edge": (0.0, 0.0, 1.0),
    "bottom edge": (0.0, 0.0, -1.0),
}
SIDES = {"face": ("bottom edge", "top edge"), "edge": ("right face", "left face")}
ANGLE_DEG, NEAR_IN, SLIGHT = 0.25, 0.24, 1e-9
"""How far an angle may be off, how near hatching lies to the line it belongs to."""
KINDS = ("blade-right", "blade-left")
WIDE_IN = {"blade": 2.0, "tongue": 1.5}
"""The arms of a framing square (NAVEDTRA 14044)."""


@dataclass(frozen=True)
class Planes:
    """A joint as the reader is told it: every plane's normal, which planes bound one removal of
    wood together, and the plane that the picture is about."""

    normals: tuple[Vector, ...]
    removals: tuple[tuple[int, ...], ...] = ((0,),)
    index: int = 0

    @property
    def normal(self) -> Vector:
        return self.normals[self.index]

    @property
    def single(self) -> bool:
        return len(self.normals) == 1


@dataclass(frozen=True)
class Surface:
    """A surface on the paper: `along` +1 where the head is at the right, `across` +1 where the
    second axis (z on a face, y on an edge) runs up the paper."""

    name: str
    along: float
    across: float

    @property
    def axis(self) -> int:
        return 2 if "face" in self.name else 1

    def on_paper(self, vector: Vector) -> Point:
        """A direction of the board as it lies on the paper."""
        return self.along * vector[0], self.across * vector[self.axis]


def surface(paper: Paper, name: str) -> Surface:
    """The surface as it lies: the arrow says where the head is, the rest follows from outside.

    With the eye outside, x cross the second axis points at the eye or away from it.
    """
    (arrow,) = paper.fills["to-head"]
    along = _points(arrow)
    head = [said for said in paper.words if said.text == "HEAD"]
    middle = _middle(arrow)
    if len(head) != 1 or (head[0].middle[0] - middle[0]) * along < 0:
        raise MisreadError("the word HEAD does not stand at the arrow's tip")
    toward = {"right face": 1.0, "left face": -1.0, "top edge": 1.0, "bottom edge": -1.0}[name]
    return Surface(name, along, along * toward)


def check_mark(paper: Paper, on: Surface, mark: str, waste: str, planes: Planes) -> None:
    """The line runs as the plane does, and the hatching beside it lies on the waste's side.

    Every hatched point is waste: beyond all planes of one removal of the joint, by the lines that
    stand on this surface. Beside a line there is hatching, but where the joint's other plane runs
    along it, or an arris.
    """
    start, end = paper.line(mark)
    out = on.on_paper(planes.normal)
    size = hypot(*out)
    off = degrees(
        asin(min(1.0, abs(_dot(_unit(_minus(end, start)), (out[0] / size, out[1] / size)))))
    )
    if off > ANGLE_DEG:
        raise MisreadError(f"the {mark} is {off:.2f} degrees off the plane on the {on.name}")
    # Two bevels that meet on one line share it: what lies beside the one lies beside the other.
    others = [
        other
        for other in other_lines(paper, mark)
        if max(_off_line(spot, (start, end)) for spot in other) > 0.01
    ]
    beside = [
        _dot(_minus(point, start), out) / size
        for line in paper.hatch[waste]
        for point in (*line, _middle(line))
        if _from_ends(point, start, end) > 0
        and _distance(point, start, end) < NEAR_IN
        and all(_distance(point, start, end) < _distance(point, *other) for other in others)
    ]
    outs = {i: on.on_paper(n) for i, n in enumerate(planes.normals)}
    wasted = wastes(paper, mark, outs, planes)
    if not beside and not planes.single:
        size_in = 0.1 / size
        spots = [
            (
                start[0] + share * (end[0] - start[0]) + size_in * out[0],
                start[1] + share * (end[1] - start[1]) + size_in * out[1],
            )
            for share in (0.2, 0.35, 0.5, 0.65, 0.8)
        ]
        if not any(
            _on_wood(paper, spot, mark) and all(w(spot, -0.02) for w in wasted) for spot in spots
        ):
            return
    if not beside or (planes.single and min(beside) > -0.02 and max(beside) < 0.02):
        raise MisreadError(f"nothing is hatched beside the {mark} on the {on.name}")
    points = [point for line in paper.hatch[waste] for point in (*line, _middle(line))]
    if not any(all(each(point, 0.02) for point in points) for each in wasted):
        raise MisreadError(f"kept wood is hatched beside the {mark} on the {on.name}")


def other_lines(paper: Paper, mark: str) -> list[tuple[Point, Point]]:
    """The lines of the joint's other planes; one that touches a corner alone leaves none."""
    pieces = [max(combinations(line, 2), key=_apart) for line in paper.lines[f"{mark}-2"]]
    lines: list[tuple[Point, Point]] = []
    for piece in sorted((one for one in pieces if _apart(one) > 0.01), key=_apart, reverse=True):
        whole = [line for line in lines if max(_off_line(end, line) for end in piece) < 0.005]
        if whole:  # a dash of a chain line
            lines.remove(whole[0])
            piece = max(combinations((*whole[0], *piece), 2), key=_apart)
        lines.append(piece)
    return lines


def wastes(
    paper: Paper, mark: str, outs: dict[int, Point], planes: Planes
) -> list[Callable[[Point, float], bool]]:
    """Whether a point is waste, in each way in which the other lines can be the other planes'.

    `outs` are the planes' normals on the paper. A plane that leaves no line here bounds nothing.
    """
    own = paper.line(mark)
    others = other_lines(paper, mark)
    fitting = [
        [i for i, out in outs.items() if i != planes.index and _along(line, out)] for line in others
    ]
    if not all(fitting):
        raise MisreadError(f"a second {mark} runs along none of the joint's planes")
    return [
        _waste_of({planes.index: own, **dict(zip(chosen, others, strict=True))}, outs, planes)
        for chosen in product(*fitting)
        if len(set(chosen)) == len(chosen)
    ]


def _waste_of(
    lines: dict[int, tuple[Point, Point]], outs: dict[int, Point], planes: Planes
) -> Callable[[Point, float], bool]:
    groups = [[i for i in group if i in lines] for group in planes.removals]

    def waste(point: Point, slack: float) -> bool:
        over = {
            i: _dot(_minus(point, line[0]), outs[i]) / hypot(*outs[i]) for i, line in lines.items()
        }
        return any(group and all(over[i] > -slack for i in group) for group in groups)

    return waste


def _along(line: tuple[Point, Point], out: Point) -> bool:
    size = hypot(*out)
    if size < SLIGHT:
        return False
    across = abs(_dot(_unit(_minus(line[1], line[0])), (out[0] / size, out[1] / size)))
    return degrees(asin(min(1.0, across))) < ANGLE_DEG


def _apart(pair: tuple[Point, Point]) -> float:
    return hypot(*_minus(*pair))


def _on_wood(paper: Paper, spot: Point, mark: str) -> bool:
    """Whether a spot lies between the long sides of what is drawn, and nothing covers it."""
    if any(
        said.left - 0.1 < spot[0] < said.right + 0.1
        and said.bottom - 0.1 < spot[1] < said.top + 0.1
        for said in paper.words
    ):
        return False
    if any(shapely.Polygon(s).distance(shapely.Point(spot)) < 0.05 for s in paper.fills["square"]):
        return False
    sides = (mark.removesuffix("-mark"), "arris")
    ys = [p[1] for name in sides for line in paper.lines[name] for p in line]
    return min(ys) + 0.02 < spot[1] < max(ys) - 0.02


def check_word(paper: Paper, text: str, line: tuple[Point, Point], out: Point, side: str) -> None:
    """The words name a place on the waste's side (`out`) of a line, or on the other."""
    for said in paper.words_with(text):
        over = _dot(_minus(said.place, line[0]), out)
        if (over > 0) != (side == "waste"):
            raise MisreadError(f"{text!r} stands on the wrong side of the cut line")


def check_setting(svg: str, planes: Planes, *, kind: str | None = None) -> int:
    """Every setting picture on the paper against the plane; returns how many surfaces it shows."""
    whole, normal, single = read_svg(svg), planes.normal, planes.single
    count = 0
    for name, out in OUT.items():
        gid = name.replace(" ", "-")
        section, above = whole.part(f"{gid}.section."), whole.part(f"{gid}.above.")
        if not above.lines:
            continue
        count += 1
        m = _dot3(normal, out)
        below = "square" if abs(m) < SLIGHT else ("waste" if m > 0 else "kept")
        if section.lines:  # both faces from above are drawn without one
            _check_section(section, m, below, planes, out)
        notes = _check_notes(whole, name, below)
        on = surface(above, name)
        low, high = SIDES["face" if "face" in name else "edge"]
        _check_sides(above, on, low, high)
        mark = "face-mark" if "face" in name else "edge-mark"
        check_mark(above, on, mark, mark.replace("mark", "waste"), planes)
        line, to_waste = above.line(mark), on.on_paper(normal)
        if single:
            check_word(above, "WASTE", line, to_waste, "waste")
            check_word(above, name, line, to_waste, "kept")
        wide = _check_wide(above, line, to_waste, below)
        for each in KINDS if kind is None else (kind,):
            if f"a {each} saw would start in the inside corner" in notes:
                if any(each in name for name in above.fills):
                    raise MisreadError(f"an arrow for the {each} saw, which cannot start there")
                continue
            _check_travel(above, on, line, out, normal, wide, each, below)
    if not count:
        raise MisreadError("no saw is drawn on any surface")
    return count


def _check_section(section: Paper, m: float, below: str, planes: Planes, up: Vector) -> None:
    start, end = section.line("saw-cut")
    top, low = (start, end) if start[1] > end[1] else (end, start)
    hatched = [point for line in section.hatch["waste"] for point in line]
    if not hatched:
        raise MisreadError("the section hatches no waste")
    across = (-(low[1] - top[1]), low[0] - top[0])
    others = other_lines(section, "saw-cut")
    near = [
        point
        for point in hatched
        if _distance(point, top, low) < 0.3
        and all(_distance(point, top, low) < _distance(point, *other) for other in others)
    ]
    sides = [_dot(_minus(point, top), across) for point in near or hatched]
    waste = 1.0 if sum(sides) * across[0] > 0 else -1.0
    leaning = low[0] - top[0]
    seen = "square" if abs(leaning) < 1e-3 else ("waste" if leaning * waste > 0 else "kept")
    if seen != below:
        raise MisreadError(f"the saw blade below the shoe runs under the {seen}, not the {below}")
    # Every hatched point is waste, seen with the waste of this plane on that side.
    across3 = _minus3(planes.normal, tuple(m * part for part in up))  # type: ignore[arg-type]
    size = sqrt(_dot3(across3, across3))
    outs = {
        i: (waste * _dot3(n, across3) / size, _dot3(n, up)) for i, n in enumerate(planes.normals)
    }
    if not any(
        all(each(p, 0.02) for p in hatched) for each in wastes(section, "saw-cut", outs, planes)
    ):
        raise MisreadError("kept wood is hatched in the section")
    tilt = degrees(atan2(abs(leaning), top[1] - low[1]))
    if abs(tilt - degrees(asin(min(1.0, abs(m))))) > ANGLE_DEG:
        raise MisreadError(f"the saw blade is drawn at {tilt:.2f} degrees")
    under = [point for line in section.lines["blade-below"] for point in line]
    tip = min(under, key=lambda point: point[1])
    if below != "square" and (tip[0] - top[0]) * leaning < 0:
        raise MisreadError("the saw blade below the shoe leans off its own cut")
    shoe = [point[0] - top[0] for line in section.lines["shoe"] for point in line]
    # The motor stands to one side of the tilted saw blade, whatever lies plumb below it.
    motor = [
        _dot(_minus(p, top), across) * across[0] for line in section.lines["motor"] for p in line
    ]
    wide = 1.0 if max(shoe) > -min(shoe) else -1.0
    wanted = waste if below == "waste" else -waste
    if wide != wanted:
        raise MisreadError("the wide side of the shoe rides on the wrong wood in the section")
    if sum(motor) * wide < 0:
        raise MisreadError("the motor does not stand over the wide side of the shoe")
    if (section.one("wide side").place[0] - top[0]) * wide < 0:
        raise MisreadError("'wide side' names the narrow side of the shoe")
    for text, side in (("WASTE", waste), ("KEPT", -waste)):
        for said in section.words_with(text):
            over = _dot(_minus(said.place, top), across) * (1 if across[0] > 0 else -1)
            if over * side < 0:
                raise MisreadError(f"{text!r} stands on the wrong side of the cut in the section")


def _check_notes(whole: Paper, name: str, below: str) -> str:
    """The words under the picture say what the picture shows; those words."""
    headings = [said for said in whole.words if said.text.startswith("Shoe on the ")]
    mine = [said for said in headings if said.text.startswith(f"Shoe on the {name}")]
    if len(mine) != 1:
        raise MisreadError(f"{len(mine)} headings name the {name}")
    floor = max(
        [s.middle[1] for s in headings if s.middle[1] < mine[0].middle[1] - 0.1], default=-99
    )
    text = " ".join(s.text for s in whole.words if floor < s.middle[1] < mine[0].middle[1])
    says = {
        "waste": "runs in under the waste" in text,
        "kept": "runs in under the kept wood" in text,
        "square": "stands square to its shoe" in text,
    }
    if [key for key, said in says.items() if said] != [below]:
        raise MisreadError(f"the words under the {name} do not say {below!r} alone")
    return text


def _check_sides(above: Paper, on: Surface, low: str, high: str) -> None:
    """The names of both sides stand where the surface, seen from outside, has them."""
    lines = above.lines["face"] + above.lines["arris"] + above.lines["edge"]
    ys = [point[1] for line in lines for point in line]
    middle = (max(ys) + min(ys)) / 2
    for text, way in ((low, -1.0), (high, 1.0)):
        for said in above.words_with(text):
            if (said.middle[1] - middle) * way * on.across < 0:
                raise MisreadError(f"the {text} of the {on.name} is named on the other side")


def _check_wide(above: Paper, line: tuple[Point, Point], to_waste: Point, below: str) -> float:
    """+1 where shoe and motor, seen from above, lie mostly on the waste's side of the line."""
    size = hypot(*to_waste)

    def over(name: str) -> list[float]:
        return [
            _dot(_minus(point, line[0]), to_waste) / size
            for each in above.lines[name]
            for point in each
        ]

    shoe, motor = over("shoe-outline"), over("motor")
    wide = 1.0 if max(shoe) > -min(shoe) else -1.0
    if wide != (1.0 if below == "waste" else -1.0):
        raise MisreadError("the wide side of the shoe rides on the wrong wood, seen from above")
    if sum(motor) * wide < 0:
        raise MisreadError("the motor, seen from above, is not over the wide side")
    if _dot(_minus(above.one("wide side").place, line[0]), to_waste) * wide < 0:
        raise MisreadError("'wide side' names the narrow side, seen from above")
    return wide


def _check_travel(
    above: Paper,
    on: Surface,
    line: tuple[Point, Point],
    out: Vector,
    normal: Vector,
    wide: float,
    kind: str,
    below: str,
) -> None:
    """The arrow of a saw goes the way that keeps its wide side there.

    Facing along the travel, the wide side is at the left of a blade-right saw: left is out cross
    travel. A blade that stands square in a notch leaves the choice.
    """
    arrows = [
        (name, shape)
        for name, shapes in above.fills.items()
        if name.startswith("start-") and kind in name
        for shape in shapes
    ]
    if not arrows:
        raise MisreadError(f"no arrow says where a {kind} saw starts")
    if len(arrows) > 1 or "-and-" in arrows[0][0]:
        if below != "square":
            raise MisreadError(f"a {kind} saw could start at either end")
        return
    tail, tip = _arrow(arrows[0][1])
    m = _dot3(normal, out)
    inward = tuple(wide * (normal[i] - m * out[i]) for i in range(3))
    way = _cross(inward, out)  # left = out x travel, for a blade-right saw
    sign = 1.0 if kind == "blade-right" else -1.0
    wanted = on.on_paper((sign * way[0], sign * way[1], sign * way[2]))
    if _dot(_unit(_minus(tip, tail)), _unit(wanted)) < 0.99:
        raise MisreadError(f"the arrow of a {kind} saw points the wrong way")
    near, far = sorted(line, key=lambda end: hypot(*_minus(end, tip)))
    if (
        hypot(*_minus(near, tip)) > 0.15
        or hypot(*_minus(far, tip)) < hypot(*_minus(far, near)) - 0.05
    ):
        raise MisreadError(f"the arrow of a {kind} saw does not end where the line begins")
    said = [each for each in above.words if each.text == f"{kind} saw"]
    if said and min(hypot(*_minus(each.middle, tail)) for each in said) > min(
        hypot(*_minus(each.middle, far)) for each in said
    ):
        raise MisreadError(f"the words of a {kind} saw stand at the other end")


def check_faces(svg: str, planes: Planes) -> None:
    """The face and the edge folded out from it: both marks, both wastes, and what is named."""
    paper, normal, single = read_svg(svg), planes.normal, planes.single
    (heading,) = [s.text for s in paper.words if re.search(r"edge folded (up|down)", s.text)]
    found = re.match(r"(Right|Left) face, and the (top|bottom) edge folded (up|down)", heading)
    if found is None:
        raise MisreadError(f"the heading names no face and edge: {heading!r}")
    face, edge, fold = f"{found[1].lower()} face", f"{found[2]} edge", found[3]
    on_face = surface(paper, face)
    arris = sum(point[1] for line in paper.lines["arris"] for point in line)
    arris /= sum(len(line) for line in paper.lines["arris"])
    folded = 1.0 if paper.lines["edge"][0][0][1] > arris else -1.0
    if folded != (1.0 if fold == "up" else -1.0):
        raise MisreadError("the edge is not folded as the heading says")
    if on_face.across * (1.0 if edge == "top edge" else -1.0) != folded:
        raise MisreadError("the edge is folded out from the other arris")
    # Away from the arris the edge runs from this face to the other one.
    inward = 1.0 if face == "right face" else -1.0
    on_edge = Surface(edge, on_face.along, folded * inward)
    for on, mark in ((on_face, "face-mark"), (on_edge, "edge-mark")):
        if mark in paper.lines:
            check_mark(paper, on, mark, mark.replace("mark", "waste"), planes)
    for text, low_side in ((face, -folded), (edge, folded)):
        if (paper.one(text).place[1] - arris) * low_side < 0:
            raise MisreadError(f"{text!r} stands on the other side of the arris")
    if single and "face-mark" in paper.lines:
        out = on_face.on_paper(normal)
        check_word(paper, "WASTE", paper.line("face-mark"), out, "waste")
        check_word(paper, face, paper.line("face-mark"), out, "kept")
    if "face-mark" in paper.lines and "edge-mark" in paper.lines:
        ends = (paper.line("face-mark"), paper.line("edge-mark"))
        meet = min(hypot(*_minus(p, q)) for p in ends[0] for q in ends[1])
        if abs(normal[0]) > SLIGHT and meet > 0.02 and single:
            raise MisreadError("face mark and edge mark do not meet on the arris")


def check_square(svg: str, planes: Planes) -> int:
    """Both squares on the paper: the numbers on their arms, and the mark along the right one."""
    count, normal = 0, planes.normal
    for part in _squares(svg):
        name = next(s.text for s in part.words if s.text.startswith("Square on the "))
        name = name.removeprefix("Square on the ")
        on = surface(part, name)
        mark = "face-mark" if "face" in name else "edge-mark"
        check_mark(part, on, mark, mark.replace("mark", "waste"), planes)
        count += 1
        if "mark-number" in part.fills:
            _check_numbers(part, mark, normal, on)
    return count


def _squares(svg: str) -> list[Paper]:
    """One paper for each square: their marks have the same names, their places differ."""
    parts = []
    for place in ("p1.", "p2."):
        other = "p2." if place == "p1." else "p1."
        only = re.sub(rf'<path [^>]*data-mark="{re.escape(other)}[^>]*/>', "", svg)
        paper = read_svg(only)
        if "square" not in paper.fills:
            continue
        heads = sorted(
            (s for s in paper.words if s.text.startswith(("Square on the", "Gauge on the"))),
            key=lambda said: -said.middle[1],
        )
        own = heads[0] if place == "p1." else heads[-1]
        floor = max([s.middle[1] for s in heads if s.middle[1] < own.middle[1] - 0.1], default=-99)
        paper.words = [s for s in paper.words if floor + 0.05 < s.middle[1] <= own.middle[1] + 0.05]
        parts.append(paper)
    return parts


def _check_numbers(part: Paper, mark: str, normal: Vector, on: Surface) -> None:
    spots = {name: _middle(part.fills[f"{name}-number"][0]) for name in ("mark", "other")}
    line = part.line(mark)
    scale = _scale(part)
    if _off_line(spots["mark"], line) > 0.03:
        raise MisreadError("the number that is marked along does not lie on the mark")
    (along,) = {s.text for s in part.words if s.text.startswith("mark along the ")}
    laid: dict[str, tuple[float, str]] = {}
    for said in part.words:
        found = re.fullmatch(r"(.+) on the (blade|tongue)", said.text)
        if not found or said.tip is None:
            continue
        near = min(spots, key=lambda name: hypot(*_minus(said.tip, spots[name])))
        if near in laid:
            raise MisreadError("both numbers point at one spot")
        laid[near] = _number(found[1]), found[2]
    if set(laid) != {"mark", "other"}:
        raise MisreadError("a number on the square names no spot")
    if along != f"mark along the {laid['mark'][1]}":
        raise MisreadError(f"{along!r}, but the mark runs along the other arm")
    _check_arms(part, spots, laid, scale)
    apart = hypot(*_minus(spots["mark"], spots["other"])) / scale
    if abs(apart - hypot(laid["mark"][0], laid["other"][0])) > 0.12:
        raise MisreadError("the two numbers do not lie as far apart as the square has them")
    # The angle that these numbers lay is the plane's own, to the sixteenths they are read in.
    wanted = degrees(atan2(abs(normal[on.axis]), abs(normal[0])))
    if abs(degrees(atan2(laid["mark"][0], laid["other"][0])) - wanted) > 0.5:
        raise MisreadError("the numbers lay another angle than the plane's")


def _check_arms(
    part: Paper, spots: dict[str, Point], laid: dict[str, tuple[float, str]], scale: float
) -> None:
    """Each number lies on steel, on an arm as wide as the one it is said to be on."""
    steel = shapely.union_all([shapely.Polygon(shape) for shape in part.fills["square"]])
    for name, other in (("mark", "other"), ("other", "mark")):
        spot, number = spots[name], laid[name][0]
        if steel.distance(shapely.Point(spot)) > 0.03:
            raise MisreadError("a number of the square lies beside the steel")
        heel = _heel(spot, number * scale, spots[other], laid[other][0] * scale, steel)
        inward = _unit(_minus(heel, spot))
        step = (0.6 if number > 3.2 else -0.6) * scale
        at = (spot[0] + step * inward[0], spot[1] + step * inward[1])
        across = (-inward[1], inward[0])
        chord = shapely.LineString(
            [
                (at[0] - 3 * across[0], at[1] - 3 * across[1]),
                (at[0] + 3 * across[0], at[1] + 3 * across[1]),
            ]
        ).intersection(steel)
        pieces = [piece for piece in shapely.get_parts(chord) if piece.length > 0.02]
        near = min(pieces, key=lambda piece: piece.distance(shapely.Point(at)))
        if abs(near.length / scale - WIDE_IN[laid[name][1]]) > 0.15:
            raise MisreadError(f"a number said to be on the {laid[name][1]} is on the other arm")


def _heel(spot: Point, leg: float, other: Point, other_leg: float, steel: Any) -> Point:
    """The square's heel: a leg from one number and a leg from the other, on the steel."""
    long = hypot(*_minus(other, spot))
    along = (leg**2 - other_leg**2 + long**2) / (2 * long)
    off = sqrt(max(0.0, leg**2 - along**2))
    way = _unit(_minus(other, spot))
    base = spot[0] + along * way[0], spot[1] + along * way[1]
    corners = [(base[0] - s * off * way[1], base[1] + s * off * way[0]) for s in (1.0, -1.0)]
    return min(corners, key=lambda corner: float(steel.distance(shapely.Point(corner))))


@dataclass(frozen=True)
class Gap:
    """A gap as it is drawn: the angle between cut and mate [degrees], and how wide [in]."""

    angle_deg: float
    widest_in: float


def read_gap(svg: str) -> Gap:
    """The true picture of a gap, after it was seen that board, gap and mate lie in this order."""
    paper = read_svg(svg)
    made, mate = paper.line("made-cut"), paper.line("mate-face")
    x = mate[0][0]
    if abs(mate[1][0] - x) > 1e-3:
        raise MisreadError("the mate's surface does not stand upright on the paper")
    strip = [p[0] for line in paper.hatch["mate-section"] for p in line]
    enlarged = paper.lines.get("mate-face-enlarged")
    edge = enlarged[0][0][0] - 0.5 if enlarged else 1e9
    if min(p for p in strip if p < edge) < x - 0.01:
        raise MisreadError("the mate is hatched on the board's side of its surface")
    if max(p[0] for p in made) > x + 0.01:
        raise MisreadError("the cut reaches into its mate")
    # What is enlarged stands at the right: its own board begins beyond this mate.
    board = [s for s in paper.words if s.text == "board" and s.middle[0] < x + 0.45]
    if len(board) != 1 or board[0].place[0] > x:
        raise MisreadError("'board' does not stand on the board's side")
    widest = max(x - p[0] for p in made)
    gap = [p for shape in paper.fills.get("gap", []) for p in shape]
    if widest > 0.01:
        if not gap:
            raise MisreadError("a gap is open and none is shaded")
        if max(p[0] for p in gap) > x + 0.01 or min(p[0] for p in gap) < x - widest - 0.01:
            raise MisreadError("the gap is shaded where there is none")
    for said in paper.words_with("touches here"):
        if said.place[0] < edge and hypot(said.place[0] - x, 0.0) > 0.06:
            raise MisreadError("'touches here' names no place on the mate")
    if enlarged:
        _read_enlarged(paper, made, widest)
    way = _minus(made[1], made[0])
    return Gap(degrees(atan2(abs(way[0]), abs(way[1]))), widest / _scale(paper))


def _read_enlarged(paper: Paper, made: list[Point], widest: float) -> None:
    """What is enlarged is the same joint: its cut leans as the true one and is as much wider.

    A wedge stretched one way only would show another joint, and its mate standing another way.
    """
    large, (mate, *_) = paper.line("made-cut-enlarged"), paper.lines["mate-face-enlarged"]
    x = mate[0][0]
    if abs(mate[1][0] - x) > 1e-3:
        raise MisreadError("the enlarged mate does not stand upright on the paper")
    leans = [degrees(atan2(way[0], way[1])) % 180 for line in (made, large) for way in [_way(line)]]
    if abs((leans[0] - leans[1] + 90) % 180 - 90) > ANGLE_DEG:
        raise MisreadError("the enlarged cut stands at another angle to its mate: another joint")
    (said,) = [m for s in paper.words if (m := re.search(r"(\d+) times larger", s.text))]
    times = int(said[1])
    if abs(max(x - p[0] for p in large) - times * widest) > 0.01:
        raise MisreadError("the enlarged gap is not as many times wider as it says")


def _way(line: list[Point]) -> Point:
    return _minus(line[1], line[0])


def _scale(paper: Paper) -> float:
    (said,) = [m for s in paper.words if (m := re.fullmatch(r"(\d+) : (\d+)", s.text))]
    return float(said[1]) / float(said[2])


def _number(text: str) -> float:
    """A number on the square, with what strong and shy add or take."""
    text = text.removesuffix(" strong").removesuffix(" shy").replace("\u2044", "/")
    small = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉", "01234567890123456789")
    whole, _, fraction = text.translate(small).rpartition(" ") if "/" in text else (text, "", "")
    parts = fraction.split("/")
    return float(whole or 0) + (float(parts[0]) / float(parts[1]) if fraction else 0.0)


def _points(arrow: list[Point]) -> float:
    """+1 where an arrow points to the right: its head is the wide part."""
    tail, tip = _arrow(arrow)
    return 1.0 if tip[0] > tail[0] else -1.0


def _arrow(shape: list[Point]) -> tuple[Point, Point]:
    """Tail and tip of an arrow: the tip is the corner that stands alone at its end."""
    points = list(dict.fromkeys((round(x, 6), round(y, 6)) for x, y in shape))
    p, q = max(((a, b) for a in points for b in points), key=lambda ab: hypot(*_minus(*ab)))

    def mates(end: Point) -> int:
        return sum(1 for other in points if 0 < hypot(*_minus(other, end)) < 0.06)

    return (p, q) if mates(p) > mates(q) else (q, p)


def _middle(points: list[Point]) -> Point:
    xs, ys = zip(*points, strict=True)
    return (max(xs) + min(xs)) / 2, (max(ys) + min(ys)) / 2


def _distance(point: Point, start: Point, end: Point) -> float:
    way = _minus(end, start)
    share = _dot(_minus(point, start), way) / max(_dot(way, way), 1e-12)
    share = min(1.0, max(0.0, share))
    return hypot(point[0] - start[0] - share * way[0], point[1] - start[1] - share * way[1])


def _from_ends(point: Point, start: Point, end: Point) -> float:
    """How far along a line a point lies from the nearer end; less than 0 beyond it."""
    way = _minus(end, start)
    long = hypot(*way)
    along = _dot(_minus(point, start), way) / long
    return min(along, long - along)


def _off_line(point: Point, line: tuple[Point, Point]) -> float:
    way = _unit(_minus(line[1], line[0]))
    off = _minus(point, line[0])
    return abs(way[0] * off[1] - way[1] * off[0])


def _minus(p: Point, q: Point) -> Point:
    return p[0] - q[0], p[1] - q[1]


def _dot(p: Point, q: Point) -> float:
    return p[0] * q[0] + p[1] * q[1]


def _unit(p: Point) -> Point:
    size = hypot(*p)
    return p[0] / size, p[1] / size


def _minus3(p: Vector, q: Vector) -> Vector:
    return p[0] - q[0], p[1] - q[1], p[2] - q[2]


def _dot3(p: Vector, q: Vector) -> float:
    return sum(a * b for a, b in zip(p, q, strict=True))


def _cross(p: Vector, q: Vector) -> Vector:
    made = (p[1] * q[2] - p[2] * q[1], p[2] * q[0] - p[0] * q[2], p[0] * q[1] - p[1] * q[0])
    size = sqrt(_dot3(made, made))
    return made[0] / size, made[1] / size, made[2] / size
