"""A reader of words: it has English sentences and a board, and rebuilds the plane from them.

It knows a board's axes (x to the head, y from the right face to the left, z from the bottom edge
to the top), a framing square, a circular saw and a miter saw as any carpenter knows them, and
nothing else: no import from what wrote the words. A sentence that it does not know, or that it
can take two ways, is refused; two sentences of one sheet that give two planes are refused too.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np

HEAD = {"head": 1.0, "foot": -1.0}
OUT = {
    "left face": np.array([0.0, 1.0, 0.0]),
    "right face": np.array([0.0, -1.0, 0.0]),
    "top edge": np.array([0.0, 0.0, 1.0]),
    "bottom edge": np.array([0.0, 0.0, -1.0]),
    "head": np.array([1.0, 0.0, 0.0]),
    "foot": np.array([-1.0, 0.0, 0.0]),
}
"""The way out of the board at each surface and end that has a name."""
READ_OFF = 2e-4
"""Angles are printed to a hundredth of a degree: 1.7e-4 radians at most between two readings."""
LOOSE = 0.02
"""Numbers on the square and gauge lines are printed to a sixteenth or a thirty-second."""


class UnreadError(AssertionError):
    """A sentence that means nothing to the reader."""


class TwoReadingsError(AssertionError):
    """A sentence that can be taken two ways, or two sentences that say two things."""


NOTCH_OPENS_AT = "bottom edge"
"""A bird's mouth is open at the bottom edge, and is sawn from there."""
TWO_WAYS = (
    (r"\bleans? (?:out )?over\b", "the part of the saw above the shoe, or the part below"),
    (r"\bleans? in under\b", "the part of the saw above the shoe, or the part below"),
    (r"\bblade leans (?:toward|to) the (?:head|foot)\b", "its top, or its lower edge"),
    (r"\bfarther along\b", "toward the head, or toward the foot"),
    (r"\b(?:on|to|from) the other side\b", "of the line, of the board, or of the saw"),
    (r"\bthe waste side of the saw\b", "the wide side of its shoe, or the side of its blade"),
    (r"(?<!sliding )\bbevel [\d.]+°", "the saw's tilt, or an angle off the edge"),
    (r"\bfrom (?:the )?(?:left|right) to (?:the )?(?:left|right)\b", "the board's, or yours"),
)
"""What a carpenter can take two ways, and which two."""
ONE_WAY_AFTER_ALL = (r"above the board the saw leans over the (?:kept wood|waste)",)
"""Said beside what the blade does below, of the part above by name: one reading."""


@dataclass
class Pass:
    """One way to run the circular saw, as it was read."""

    surface: str
    tilt: float
    below: str | None = None
    toward: str | None = None
    wide: str | None = None
    body: str | None = None
    starts: dict[str, str] = field(default_factory=dict)


@dataclass
class PlaneRead:
    """One plane as it was read: its marks, its passes, its normals and what each came from."""

    face_deg: float | None = None
    face_top: str | None = None
    edge_deg: float | None = None
    edge_left: str | None = None
    faces: str | None = None
    number: float | None = None
    bevel: dict[str, float] = field(default_factory=dict)
    tilt: float | None = None
    passes: list[Pass] = field(default_factory=list)
    miter: dict[str, object] = field(default_factory=dict)
    long_point: tuple[str, float, str] | None = None
    rip: dict[str, object] = field(default_factory=dict)
    out_of_reach: bool = False
    on_edge: list[tuple[str, float]] = field(default_factory=list)
    backed: list[tuple[str, float, float]] = field(default_factory=list)
    """Face of the bevel, angle from square across it [deg], shift of its left end: + head."""
    rough_deg: float | None = None
    shift: float | None = None
    waste_end: str | None = None
    waste_edge: str | None = None
    mate: str | None = None
    faces_first: str | None = None
    normal: np.ndarray | None = None


@dataclass
class Sheet:
    """What a whole answer says: its hand, its board, the side of the waste, its planes."""

    saw: str | None = None
    hand: str | None = None
    size: tuple[float, float] | None = None
    notch: bool = False
    place: str | None = None
    edge_named: str | None = None
    by_saw: bool = True
    up_face: str | None = None
    own_side: tuple[str, str] | None = None
    planes: list[PlaneRead] = field(default_factory=list)


def one_reading(text: str) -> None:
    """Refuse words that can be taken two ways."""
    rest = text
    for pattern in ONE_WAY_AFTER_ALL:
        rest = re.sub(pattern, "", rest)
    for pattern, ways in TWO_WAYS:
        if found := re.search(pattern, rest):
            raise TwoReadingsError(f"{found[0]!r} can be {ways}: {text!r}")


def number(text: str) -> float:
    """8 1/2 as 8.5; shy and strong are left out."""
    total = 0.0
    for part in text.replace("shy", "").replace("strong", "").split():
        top, _, bottom = part.partition("/")
        total += float(top) / float(bottom or 1)
    return total


# ---- what the words build ---------------------------------------------------------------


def unit(v: np.ndarray) -> np.ndarray:
    return v / np.linalg.norm(v)


def face_line(plane: PlaneRead) -> np.ndarray:
    """The line on a wide face, up the depth: its top toward an end of the board."""
    assert plane.face_deg is not None
    a = np.radians(plane.face_deg)
    return np.array([np.sin(a) * HEAD.get(plane.face_top or "", 0.0), 0.0, np.cos(a)])


def edge_line(plane: PlaneRead) -> np.ndarray:
    """The line on an edge, from right to left: its left end toward an end of the board."""
    assert plane.edge_deg is not None
    a = np.radians(plane.edge_deg)
    return np.array([np.sin(a) * HEAD.get(plane.edge_left or "", 0.0), np.cos(a), 0.0])


def out_of_kept(normal: np.ndarray, plane: PlaneRead) -> np.ndarray:
    """The normal turned to the side on which the words say the waste lies."""
    toward = OUT.get(plane.waste_end or plane.waste_edge or "", np.zeros(3))
    if plane.waste_edge is not None and plane.faces is not None:
        toward = toward + OUT[f"{plane.faces} face"]  # the waste of a bevel is a whole arris
    side = float(normal @ toward)
    if abs(side) < 1e-9:
        raise UnreadError("the words do not tell the waste from the kept wood")
    return normal if side > 0 else -normal


def swept(one: Pass, line: np.ndarray, plane: PlaneRead) -> np.ndarray:
    """The plane that a saw's blade sweeps: its line, and where its lower edge runs in."""
    up = OUT[one.surface]
    square = unit(np.cross(line, up))
    upright = out_of_kept(square, plane)
    t = np.radians(one.tilt)
    if one.below is None:
        if t > READ_OFF:
            raise UnreadError(f"a tilt of {one.tilt} with no word of which way the blade runs")
        down = -up
    else:
        way = upright if one.below == "waste" else -upright
        down = -up * np.cos(t) + way * np.sin(t)
        if one.toward is None or float(down @ OUT[one.toward]) < 1e-6:
            raise TwoReadingsError(f"the blade runs under the {one.below}, yet toward {one.toward}")
    return out_of_kept(unit(np.cross(line, down)), plane)


def travels(one: Pass, line: np.ndarray, plane: PlaneRead) -> None:
    """Each saw starts where its wide side comes to ride where the words say, over its low edge."""
    up = OUT[one.surface]
    to_waste = out_of_kept(unit(np.cross(line, up)), plane)
    for kind, start in one.starts.items():
        if kind == "tilts-both-ways":
            continue
        if kind == "only":
            if one.wide is None and one.below is None:
                continue  # a notch: every saw starts at its open edge
            raise UnreadError(f"no saw starts at the {start} without a word of which saw it is")
        ahead = line if float(line @ OUT[start]) < 0 else -line
        left = np.cross(up, ahead)
        wide = left if kind == "blade-right" else -left
        rides = "waste" if float(wide @ to_waste) > 0 else "kept wood"
        if one.wide is not None and rides != one.wide:
            raise TwoReadingsError(f"a {kind} saw from the {start} rides on the {rides}")
        if one.below is not None and rides != one.below:
            raise TwoReadingsError(f"a {kind} saw from the {start} tilts under the {rides}")
    if one.wide is not None and one.below is not None and one.wide != one.below:
        raise TwoReadingsError(f"the blade runs under the {one.below}, away from the wide side")
    if one.body is not None and one.body == one.below:
        raise TwoReadingsError("the saw leans over the wood under which its blade runs")


def mitered(plane: PlaneRead) -> np.ndarray:
    """The plane of a miter saw's blade, from how board, table and blade are said to stand."""
    said = plane.miter
    right = OUT["head"] * (1.0 if said["head"] == "right" else -1.0)
    away, up = OUT[str(said["fence"])], -OUT[str(said["down"])]
    if np.linalg.det([right, away, up]) < 0:
        raise UnreadError("no board lies so")
    turn = np.radians(float(said["table"])) * {"left": -1, "right": 1}.get(str(said["turn"]), 0)
    lean = np.radians(float(said["tilt"])) * {"left": -1, "right": 1}.get(str(said["lean"]), 0)
    front = -away * np.cos(turn) + right * np.sin(turn)
    across = right * np.cos(turn) + away * np.sin(turn)
    top = up * np.cos(lean) + across * np.sin(lean)
    normal = unit(np.cross(front, top))
    side = right if said["waste"] == "right" else -right
    return normal if float(normal @ side) > 0 else -normal


def ripped(plane: PlaneRead, size: tuple[float, float]) -> np.ndarray:
    """The plane of a rip, through its two lines along the board."""
    thickness, depth = size
    said = plane.rip

    def at(edge: str, face: str, from_face: float, from_edge: float) -> np.ndarray:
        y = from_face if face == "right face" else thickness - from_face
        z = depth - from_edge if edge == "top edge" else from_edge
        return np.array([0.0, y, z])

    edge = str(said["edge"])
    if "deep" in said:
        face = str(said["face"])
        first = at(edge, face, 0.0, 0.0)
        second = at(edge, face, float(said["across"]), float(said["deep"]))
    else:
        face = str(said["face"])
        if said.get("whole") == face or said.get("from", face) != face:
            raise TwoReadingsError("the two lines of the bevel do not belong together")
        first = at(edge, face, float(said["across"]), 0.0)
        second = at(edge, face, 0.0, float(said["down"]))
    return out_of_kept(unit(np.cross(OUT["head"], second - first)), plane)


def notch_waste(planes: list[PlaneRead]) -> None:
    """On which side of each line of a notch its waste lies.

    All lines run down from the inside corner; the waste lies between them.
    """
    ways = [-face_line(plane) for plane in planes]
    middle = sum(unit(way) for way in ways)
    for plane in planes:
        normal = unit(np.cross(face_line(plane), [0.0, 1.0, 0.0]))
        plane.waste_end = "head" if (normal[0] > 0) == (normal @ middle > 0) else "foot"


def settle(sheet: Sheet) -> Sheet:
    """Build every plane in each way that the words give, and refuse two planes for one cut."""
    if sheet.notch:
        notch_waste(sheet.planes)
    first = sheet.planes[0]
    if sheet.by_saw != bool(first.passes):
        raise TwoReadingsError("the verdict by saw and the passes of the saw do not go together")
    if sheet.place is not None and sheet.place != first.waste_end:
        raise TwoReadingsError(
            f"a cut at the {sheet.place}, its waste toward the {first.waste_end}"
        )
    edges = {sheet.edge_named, first.waste_edge, first.rip.get("edge")} - {None}
    if len(edges) > 1:
        raise TwoReadingsError(f"a bevel along two edges: {edges}")
    for plane in sheet.planes:
        found: list[tuple[str, np.ndarray, float]] = []
        if plane.rip:
            line = OUT["head"]
            if sheet.size is not None and "face" in plane.rip:
                found.append(("its gauged lines", ripped(plane, sheet.size), LOOSE))
        else:
            line = face_line(plane)
            if plane.rough_deg is not None:
                plane.edge_deg = plane.rough_deg
                both = unit(np.cross(line, edge_line(plane)))
                found.append(("its side-cut number", out_of_kept(both, plane), LOOSE))
            elif plane.edge_deg is not None:
                both = unit(np.cross(line, edge_line(plane)))
                found.append(("its marks", out_of_kept(both, plane), READ_OFF))
        for one in plane.passes:
            along = line
            if one.surface.endswith("edge") and not plane.rip:
                along = edge_line(plane)
            found.append((f"the saw on the {one.surface}", swept(one, along, plane), READ_OFF))
            travels(one, along, plane)
        if plane.miter:
            found.append(("the miter saw", mitered(plane), READ_OFF))
        if not found:
            raise UnreadError("no words fix this plane")
        exact = [normal for _, normal, loose in found if loose == READ_OFF]
        plane.normal = exact[-1] if exact else found[0][1]
        for name, normal, loose in found:
            if np.abs(normal - plane.normal).max() > 3 * loose:
                raise TwoReadingsError(f"{name} and {found[-1][0]} give two planes")
        check(plane, sheet)
    return sheet


def check(plane: PlaneRead, sheet: Sheet) -> None:
    """Whatever else is said of the plane is so."""
    n = plane.normal
    assert n is not None
    surfaces = [one.surface for one in plane.passes]
    if len(set(surfaces)) != len(surfaces):
        raise TwoReadingsError(f"two passes on one surface: {surfaces}")
    ridden = [(one.surface, one.tilt) for one in plane.passes]
    for said in plane.on_edge:
        if said not in ridden:
            raise TwoReadingsError(f"no pass with the shoe as it is said: {said}")
    starts = {start for one in plane.passes for start in one.starts.values()}
    if sheet.notch and starts - {NOTCH_OPENS_AT}:
        raise TwoReadingsError(f"a notch is sawn from its open edge, not from the {starts}")
    if len({face for face, _, _ in plane.backed}) != len(plane.backed):
        raise TwoReadingsError(f"two bevels at one face: {plane.backed}")
    side = "left" if n[1] > 1e-4 else "right" if n[1] < -1e-4 else None
    if plane.faces_first not in (None, side):
        raise TwoReadingsError(f"the first cut faces {plane.faces_first}, its settings {side}")
    if plane.faces != side:
        raise TwoReadingsError(f"the words say it faces {plane.faces}, its settings {side}")
    for name, end, part in (("face", plane.face_top, n[2]), ("edge", plane.edge_left, n[1])):
        if end is not None and abs(n[0]) > 1e-6 and -part / n[0] * HEAD[end] <= 0:
            raise TwoReadingsError(f"the {name} mark slants toward the {end}, its plane does not")
    if plane.number is not None and abs(12 * abs(n[0]) - plane.number * abs(n[1])) > 0.05:
        raise TwoReadingsError(f"a side-cut number of {plane.number} is another plane's")
    for name, degrees in plane.bevel.items():
        across = plane.face_deg if name == "face" else plane.edge_deg
        if across is None or abs(90 - across - degrees) > 0.011:
            raise TwoReadingsError(f"a sliding bevel of {degrees} is another line's")
    if plane.shift is not None and sheet.size is not None:
        off = -n[1] / n[0] * sheet.size[0] - plane.shift
        if abs(off) > 1 / 32 + 0.001:
            raise TwoReadingsError(f"the left face's mark does not lie {plane.shift} on")
    if plane.long_point is not None and sheet.size is not None:
        far, by, past = plane.long_point
        y, past_y = (place(name, sheet.size[0]) for name in (far, past))
        x = -(n[1] / n[0]) * (y - past_y) * HEAD[plane.waste_end or "head"]
        # The board's size is printed to a sixty-fourth, a line between faces to a thirty-second.
        if abs(x - by) > 0.002 + abs(n[1] / n[0]) / (32 if "line" in far + past else 128):
            raise TwoReadingsError(f"the long point lies {x:.3f} past, not {by}")


def place(name: str, thickness: float) -> float:
    """How far from the right face a place lies."""
    if found := re.fullmatch(r"line ([\d /]+) in from the right face", name):
        return number(found[1])
    known = {"right face": 0.0, "left face": thickness, "middle of the thickness": thickness / 2}
    if name not in known:
        raise UnreadError(f"no place on a board is called {name!r}")
    return known[name]


# ---- the sentences ----------------------------------------------------------------------

DEG = r"([\d.]+)°"
LEN = r"(\d+(?: \d+/\d+)?|\d+/\d+)"
NUM = r"[\d /]+(?: shy| strong)?"
FACE = r"(left face|right face)"
SURFACE = r"(left face|right face|top edge|bottom edge)"
TOO_DEEP = (
    rf"out of reach: it takes (?:{LEN} in|more than any saw has) of saw blade below the shoe, this"
    rf" saw has {LEN} in, both measured along the blade"
)
TOO_FAR = rf"out of reach: a tilt of {DEG} is past the {DEG} this saw tilts"
ONLY_JUST = (
    rf"only just: it takes {LEN} in of saw blade, this saw has {LEN} in"
    r"(?:; try the depth on scrap)?"
)
Rule = tuple[str, Callable[[re.Match[str], Sheet, PlaneRead], None]]


def _set(**values: object) -> Callable[[re.Match[str], Sheet, PlaneRead], None]:
    def act(match: re.Match[str], sheet: Sheet, plane: PlaneRead) -> None:
        for name, value in values.items():
            setattr(plane, name, value)

    return act


def _hand(match: re.Match[str], sheet: Sheet, plane: PlaneRead) -> None:
    if match[1].lower() != match[2]:
        raise TwoReadingsError(match[0])
    sheet.hand = plane.faces = match[2]


def _title(match: re.Match[str], sheet: Sheet, plane: PlaneRead) -> None:
    """What the cut is called: no end and no edge in it but its own."""
    ends = re.findall(r"\b(?:head|foot)\b", match[0])
    edges = re.findall(r"\b(?:top|bottom) edge\b", match[0])
    if len(set(ends)) > 1 or len(set(edges)) > 1:
        raise TwoReadingsError(match[0])
    sheet.place = match[1] or (ends[0] if ends else None)
    sheet.edge_named = edges[0] if edges else None


def _laid(match: re.Match[str], sheet: Sheet, plane: PlaneRead) -> None:
    """Two numbers of the square lay the line that was named last, as near as they are read."""
    blade, tongue = number(match["blade"]), number(match["tongue"])
    along, other = (blade, tongue) if match["arm"] == "blade" else (tongue, blade)
    named = match.groupdict().get("where")
    face = named == "face" if named else plane.edge_deg is None
    degrees = plane.face_deg if face else plane.edge_deg
    if degrees is None or abs(np.degrees(np.arctan2(along, other)) - degrees) > 0.45:
        raise TwoReadingsError(f"the square lays another line than {degrees} degrees: {match[0]}")


def _two_faces(match: re.Match[str], sheet: Sheet, plane: PlaneRead) -> None:
    if match[1] is not None and match[1] == match[2]:
        raise TwoReadingsError(match[0])


def _backed(match: re.Match[str], sheet: Sheet, plane: PlaneRead) -> None:
    if match[2] is None:
        plane.backed.append((match[1], 0.0, 0.0))
        return
    plane.backed.append((match[1], float(match[2]), HEAD[match[3]]))


def _half_from_each(match: re.Match[str], sheet: Sheet, plane: PlaneRead) -> None:
    if plane.tilt is None or abs(float(match[1]) - plane.tilt) > 0.005:
        raise TwoReadingsError(f"{match[0]}, where the tilt was {plane.tilt}")


def _or_on_edge(match: re.Match[str], sheet: Sheet, plane: PlaneRead) -> None:
    plane.tilt = float(match[2])
    plane.on_edge.append((match[1], plane.tilt))


def _remains_on_edge(match: re.Match[str], sheet: Sheet, plane: PlaneRead) -> None:
    plane.on_edge.append((match[1], float(match[2])))


def _slope(match: re.Match[str], sheet: Sheet, plane: PlaneRead) -> None:
    plane.rip["slope"] = float(match[1])


def _edge_of_rip(match: re.Match[str], plane: PlaneRead, edge: str) -> None:
    if plane.rip.get("edge") != edge:
        raise TwoReadingsError(f"{match[0]}, but the bevel runs along the {plane.rip.get('edge')}")


def _line_on_edge(match: re.Match[str], sheet: Sheet, plane: PlaneRead) -> None:
    plane.rip.update({"across": number(match[1]), "from": match[2]})


def _whole_edge(match: re.Match[str], sheet: Sheet, plane: PlaneRead) -> None:
    _edge_of_rip(match, plane, match[1])
    assert sheet.size is not None
    plane.rip.update(across=sheet.size[0], whole=match[2])


def _line_on_face(match: re.Match[str], sheet: Sheet, plane: PlaneRead) -> None:
    _edge_of_rip(match, plane, match[3])
    plane.rip.update({"face": match[1], "down": number(match[2])})


def _hollow_from(match: re.Match[str], sheet: Sheet, plane: PlaneRead) -> None:
    _edge_of_rip(match, plane, match[1])
    plane.rip["face"] = match[2]


def _hollow_to(match: re.Match[str], sheet: Sheet, plane: PlaneRead) -> None:
    if plane.rip.get("face") != match[2]:
        raise TwoReadingsError(f"{match[0]}, but the hollow begins at the {plane.rip.get('face')}")
    plane.rip.update({"across": number(match[1]), "deep": number(match[3])})


def _one_saw_starts(match: re.Match[str], sheet: Sheet, plane: PlaneRead) -> None:
    if match[2] == match[3]:
        raise TwoReadingsError(match[0])
    plane.passes[-1].starts.update({match[2]: match[1]})


def _too_deep(match: re.Match[str], sheet: Sheet, plane: PlaneRead) -> None:
    plane.out_of_reach = True
    if match[1] is not None and number(match[1]) <= number(match[2]):
        raise TwoReadingsError(match[0])


def _too_far(match: re.Match[str], sheet: Sheet, plane: PlaneRead) -> None:
    plane.out_of_reach = True
    if (
        plane.tilt is None
        or abs(float(match[1]) - plane.tilt) > 0.005
        or plane.tilt <= float(match[2])
    ):
        raise TwoReadingsError(match[0])


def _no_saw(match: re.Match[str], sheet: Sheet, plane: PlaneRead) -> None:
    sheet.by_saw = False


def _second_hand(match: re.Match[str], sheet: Sheet, plane: PlaneRead) -> None:
    if match[1].lower() != match[2]:
        raise TwoReadingsError(match[0])
    sheet.hand = match[2]


def _mark(name: str) -> Callable[[re.Match[str], Sheet, PlaneRead], None]:
    def act(match: re.Match[str], sheet: Sheet, plane: PlaneRead) -> None:
        setattr(plane, f"{name}_deg", float(match[1]))
        if match.re.groups > 1 and match[2]:
            plane.number = float(match[3])

    return act


def _pass(match: re.Match[str], sheet: Sheet, plane: PlaneRead) -> None:
    assert plane.tilt is not None
    plane.passes.append(Pass(match[1], plane.tilt))


def _last(**names: int) -> Callable[[re.Match[str], Sheet, PlaneRead], None]:
    def act(match: re.Match[str], sheet: Sheet, plane: PlaneRead) -> None:
        for name, group in names.items():
            setattr(plane.passes[-1], name, match[group])

    return act


def _starts(match: re.Match[str], sheet: Sheet, plane: PlaneRead) -> None:
    one = plane.passes[-1]
    one.starts = {match[2]: match[1], match[4]: match[3]}
    if set(one.starts) != {"blade-left", "blade-right"}:
        raise TwoReadingsError(match[0])


def _miter(**names: int) -> Callable[[re.Match[str], Sheet, PlaneRead], None]:
    def act(match: re.Match[str], sheet: Sheet, plane: PlaneRead) -> None:
        plane.miter.update({name: match[group] for name, group in names.items()})

    return act


def _rip(**names: int | float | str) -> Callable[[re.Match[str], Sheet, PlaneRead], None]:
    def act(match: re.Match[str], sheet: Sheet, plane: PlaneRead) -> None:
        for name, group in names.items():
            said = match[group] if isinstance(group, int) else group
            measured = name in ("across", "down", "deep")
            plane.rip[name] = number(str(said)) if measured else said

    return act


def _nothing(match: re.Match[str], sheet: Sheet, plane: PlaneRead) -> None:
    """Words without a side, an end or an angle to set."""


def _notch(match: re.Match[str], sheet: Sheet, plane: PlaneRead) -> None:
    sheet.notch = True


def _board(match: re.Match[str], sheet: Sheet, plane: PlaneRead) -> None:
    size = re.search(rf"{LEN} x {LEN} in\)?$", match[0])
    if size:
        sheet.size = (number(size[1]), number(size[2]))


def _point(match: re.Match[str], sheet: Sheet, plane: PlaneRead) -> None:
    plane.long_point = (match[1], float(match[2]), match[3])


def _shift(match: re.Match[str], sheet: Sheet, plane: PlaneRead) -> None:
    plane.shift = number(match[1]) * HEAD[match[2]]


def _first_plane(match: re.Match[str], sheet: Sheet, plane: PlaneRead) -> None:
    plane.mate, plane.faces_first = match[1], match[3]


def _next_plane(match: re.Match[str], sheet: Sheet, plane: PlaneRead) -> None:
    new = PlaneRead(waste_end=plane.waste_end, waste_edge=plane.waste_edge, faces=match[2])
    new.edge_deg = 0.0
    if match[3] is not None:
        new.rip = {"edge": plane.rip["edge"]}
        new.tilt = float(match[3])
    else:
        new.face_deg, new.tilt = float(match[4]), float(match[7])
        new.edge_deg = None
    if match[6] is not None:
        new.rough_deg = float(np.degrees(np.arctan2(12.0, number(match[6]))))
    elif match[5] is not None:
        new.edge_deg = 0.0
    new.mate = match[1]
    sheet.planes.append(new)


def _slants(match: re.Match[str], sheet: Sheet, plane: PlaneRead) -> None:
    if match[1]:
        plane.face_top = match[1]
    if match[2]:
        plane.edge_left = match[2]


def _roof_sides(match: re.Match[str], sheet: Sheet, plane: PlaneRead) -> None:
    if match[1] == match[3]:
        raise UnreadError(f"both roofs lie on one side: {match[0]!r}")
    sheet.own_side = match[1], match[2]


MARK: dict[str, list[Rule]] = {
    "": [
        (r"[a-z-]+(?:, at the (head|foot)|, along the board)?: .*", _title),
        (r".*; board .*", _board),
        (
            r"(LEFT|RIGHT)-HAND (?:cut|rip): stand at the foot, look toward the head;"
            r" the (?:cheek|bevel) faces (left|right)\.",
            _hand,
        ),
        (
            r"(LEFT|RIGHT)-HAND cut: stand at the foot, look toward the head; the cheek against"
            r" [a-z' ]+ faces (left|right)\. The cut against [a-z' ]+ runs square through"
            r" the thickness\.",
            _second_hand,
        ),
        (r"No hand: the cut runs square through the thickness\.", _nothing),
        (
            r"Seen from the foot, this roof \([^()]+\) lies on the (left|right) of the"
            r" (hip|valley), the other \([^()]+\) on its (left|right)\.",
            _roof_sides,
        ),
        (
            r"In place the (left|right) face looks up\.",
            lambda m, s, p: setattr(s, "up_face", m[1]),
        ),
        (
            r"The waste lies on the (head|foot) side of the marks\.",
            lambda m, s, p: setattr(p, "waste_end", m[1]),
        ),
        (
            r"The waste lies on the (top|bottom) edge's side of the bevel\.",
            lambda m, s, p: setattr(p, "waste_edge", f"{m[1]} edge"),
        ),
        (r"The waste is the notch between both marks, open at the bottom edge\.", _notch),
    ],
    "FACE MARK": [
        (rf"{DEG} from square across", _mark("face")),
        (r"square across", _set(face_deg=0.0)),
    ],
    "slants": [
        (r"its top toward the (head|foot)", lambda m, s, p: setattr(p, "face_top", m[1])),
        (r"its left end toward the (head|foot)", lambda m, s, p: setattr(p, "edge_left", m[1])),
    ],
    "EDGE MARK": [
        (
            rf"{DEG} from square across(; side-cut number [\d /]+ on 12 \(exact ([\d.]+)\))?",
            _mark("edge"),
        ),
        (r"square across", _set(edge_deg=0.0)),
    ],
    "square": [
        (
            rf"(?P<blade>{NUM}) on the blade, (?P<tongue>{NUM}) on the tongue; mark along the"
            r" (?P<arm>blade|tongue)",
            _laid,
        ),
        (r"(?:square across|straight along), nearer than any two numbers lay it", _nothing),
    ],
    "off edge": [
        (
            rf"sliding bevel {DEG} off the edge \(not a saw setting\)",
            lambda m, s, p: p.bevel.update(
                {"edge" if p.edge_deg is not None else "face": float(m[1])}
            ),
        )
    ],
    "finer": [
        (
            rf"on the (?P<where>face|edge): (?P<blade>{NUM}) on the blade, (?P<tongue>{NUM}) on the"
            r" tongue; mark along the (?P<arm>blade|tongue)",
            _laid,
        )
    ],
    "backed": [
        (
            rf"if the top edge is backed: on the bevel at the {FACE} draw (?:a line square across|"
            rf"{DEG} from square across, its left end toward the (head|foot))",
            _backed,
        )
    ],
    "RIP": [
        (
            r"a bevel along the (top edge|bottom edge); its lines run along the board",
            _rip(edge=1),
        )
    ],
    "on edge": [
        (rf"a line {LEN} in from the {FACE}", _line_on_edge),
        (rf"the arris \(sharp edge\) of the (top edge|bottom edge) and {FACE}", _whole_edge),
    ],
    "on face": [
        (
            rf"a line on the {FACE}, {LEN} in \([\d.]+\) from the (top edge|bottom edge)",
            _line_on_face,
        )
    ],
    "starts": [
        (
            rf"at the arris \(sharp edge\) of the (top edge|bottom edge) and {FACE}",
            _hollow_from,
        )
    ],
    "ends": [
        (
            rf"{LEN} in from the {FACE}, the hollow is {LEN} in \([\d.]+\) deep",
            _hollow_to,
        )
    ],
    "slope": [(rf"{DEG} from square to the face", _slope)],
    "SAW": [
        (
            rf"tilt {DEG} \(the saw's bevel setting\), shoe on a wide face, along"
            r" (?:the face mark|its gauged line|the arris)",
            lambda m, s, p: setattr(p, "tilt", float(m[1])),
        )
    ],
    "pass": [
        (
            rf"below the shoe the blade runs in under the (kept wood|waste), toward the"
            rf" (head|foot|{SURFACE[1:-1]})",
            _last(below=1, toward=2),
        ),
        (r"the blade stands square to its shoe", _nothing),
        (
            r"wide side of the shoe on the (kept wood)(?:: the steadier way)?",
            _last(wide=1),
        ),
        (
            r"wide side of the shoe on the (waste)"
            r"(?:, which must be held up|: clamp a board flush beside it)?",
            _last(wide=1),
        ),
        (
            r"wide side of the shoe on the (kept wood): tilt the saw to that side",
            _nothing,
        ),
        (r"above the board the saw leans over the (kept wood|waste)", _last(body=1)),
        (
            rf"start at the ({SURFACE[1:-1]}|head|foot) with a (blade-left|blade-right) saw,"
            rf" at the ({SURFACE[1:-1]}|head|foot) with a (blade-left|blade-right) saw",
            _starts,
        ),
        (
            rf"start at the ({SURFACE[1:-1]}|head|foot)",
            lambda m, s, p: p.passes[-1].starts.update({s.saw or "only": m[1]}),
        ),
        (r"start at the end of the line that puts the wide side on the kept wood", _nothing),
        (
            r"start at the (bottom edge) with a (blade-left|blade-right) saw; a"
            r" (blade-left|blade-right) saw would start in the inside corner: use a handsaw",
            _one_saw_starts,
        ),
        (r"this saw would start in the inside corner: use a handsaw", _nothing),
    ],
    "or": [
        (
            rf"shoe on the {SURFACE}, tilt {DEG}",
            _or_on_edge,
        )
    ],
    "stop": [
        (r"saw to the inside corner, no farther; finish with a handsaw", _nothing),
        (
            r"set the saw blade [\d /]+ in below the shoe, measured square to the shoe(?: with the"
            r" blade tilted)?, no deeper: it must end at the inside corner",
            _nothing,
        ),
    ],
    "reach": [
        (TOO_DEEP, _too_deep),
        (TOO_FAR, _too_far),
        (ONLY_JUST, _nothing),
        (r"try the depth on scrap", _nothing),
    ],
    "remains": [
        (
            r"saw along (?:the face mark and the edge mark|the gauged lines) with a handsaw",
            _nothing,
        ),
        (
            rf"mark both faces and saw half from each, tilt {DEG}, {LEN} in of saw blade below"
            r" the shoe, measured along the blade",
            _half_from_each,
        ),
        (
            rf"the left face's mark lies {LEN} in nearer the (head|foot) than the right face's"
            r" mark",
            _shift,
        ),
        (r"both faces' marks lie at one place along the board", _nothing),
        (ONLY_JUST, _nothing),
        (r"try the depth on scrap", _nothing),
        (
            rf"run the shoe on the {SURFACE}, along the edge mark, tilt {DEG}",
            _remains_on_edge,
        ),
    ],
    "MITER SAW": [
        (
            rf"board (?:flat|on edge): {SURFACE} down, {SURFACE} against the fence",
            _miter(down=1, fence=2),
        ),
        (r"head to your (left|right), waste at your (left|right)", _miter(head=1, waste=2)),
        (
            rf"table (?:square|{DEG} to your (left|right)); (?:blade upright|tilt {DEG}, blade"
            r" leaning to your (left|right))",
            lambda m, s, p: p.miter.update(
                table=m[1] or 0.0, turn=m[2], tilt=m[3] or 0.0, lean=m[4]
            ),
        ),
        (
            rf"(?:flat|on edge): out of reach: a (?:tilt of|table at) {DEG} is past the {DEG} this"
            r" saw (?:tilts|turns)",
            _nothing,
        ),
    ],
    "LONG POINT": [
        (
            r"(?:on the|between the faces, on the) (.+?), .*\(([\d.]+)\) past the (.+?),"
            r" measured along the board",
            _point,
        )
    ],
    "face": [
        (r"the mark runs .* along the board over the depth", _nothing),
        (
            r"the mark is .* long on (?:either face|the (right|left) face, .* on the (right|left)),"
            r" from the bottom edge to the inside corner",
            _two_faces,
        ),
    ],
    "FIRST CUT": [
        (r"against ([a-z' ]+?)(?:, the (cheek|bevel) faces (left|right))?", _first_plane)
    ],
    "example": [
        (
            r"this depth of the notch is an example, and so is the mark's length; your roof's own"
            r" are on the stick's sheet: squaresaw roof --stick NAME",
            _nothing,
        ),
    ],
    "SECOND CUT": [
        (
            rf"against ([a-z' ]+?)(?:, the (?:cheek|bevel) faces (left|right))?:"
            rf" (?:rip, tilt {DEG}|face {DEG}, (edge square|edge ([\d /]+(?: shy| strong)?)"
            rf" on 12), tilt {DEG})",
            _next_plane,
        ),
        (
            r"(?:face mark's top toward the (head|foot))?(?:; )?"
            r"(?:edge mark's left end toward the (head|foot))?",
            _slants,
        ),
    ],
    "BY HANDSAW": [
        (r"(?:fits|leaves .*?)(?:; as read .*)?", _nothing),
    ],
    "BY SAW": [
        (r"(?:fits; .*|leaves .*)", _nothing),
        (TOO_DEEP, _no_saw),
        (TOO_FAR, _no_saw),
    ],
    "BOTH CHEEKS": [
        (
            r"against both mates at once, as read: by handsaw (?:fits|leaves [^,]*)"
            r"(?:, by saw (?:fits|leaves .*))?",
            _nothing,
        )
    ],
}
MARK["THIRD CUT"] = MARK["SECOND CUT"]
PASSES = ("right face", "left face", "top edge", "bottom edge")
END_OF_SHEET = ("BOTH FIT", "TWO PLANES", "ONE PLANE", "BY HANDSAW: ")
OF_A_TOOL = re.compile(
    r"\b(?:head|foot|left|right|top|bottom|waste|kept|blade|tongue|shoe|motor|wide|table|front)\b",
    re.I,
)
GLOSSES = (
    "Blade-left: seen from behind the saw, the blade is to the left of the motor.",
    "Tilt your own saw, unplugged, and see that below the shoe the blade swings in under its wide"
    " side.",
    "Miter saw: you stand before it. Table to your left or right: its front swings there.",
    "Blade leaning to your left or right: its top leans there.",
)
"""What the words for the saws mean, as this reader takes them (common practice, no source)."""


def read_mark(text: str, saw: str | None = None) -> Sheet:
    """Read the printed answer of one cut, each line by the rules of its own name.

    `saw` is the kind of saw that the reader holds, where the answer was asked for one.
    """
    plane = PlaneRead()
    sheet = Sheet(saw=saw, planes=[plane])
    name, ended = "", False
    for line in text.splitlines():
        ended = ended or line.startswith(END_OF_SHEET)
        if ended:
            if OF_A_TOOL.search(line) and line not in GLOSSES:
                raise UnreadError(f"after the verdicts it says {line!r}")
            continue
        if not line.strip():
            continue
        one_reading(line)
        label, said = _split(line)
        if label:
            name = label
        key = name
        if label in PASSES:
            _pass(re.match(r"(.*)", label), sheet, sheet.planes[-1])  # type: ignore[arg-type]
        if name in PASSES:
            key = "pass"
        _take(MARK, key, said, sheet)
    return settle(sheet)


def _split(line: str) -> tuple[str, str]:
    """The name in the margin, where there is one, and the words beside it."""
    known = [name for name in (*MARK, *PASSES) if name and name != "pass"]
    if line.startswith(" " * 12):
        return "", line.strip()
    for name in sorted(known, key=len, reverse=True):
        if line.strip().startswith(name + " ") and (line[0] == " ") == name.islower():
            return name, line.strip()[len(name) :].strip()
    return "", line.strip()


def _take(rules: dict[str, list[Rule]], key: str, said: str, sheet: Sheet) -> None:
    found = [(re.fullmatch(pattern, said), act) for pattern, act in rules[key]]
    taken = [(match, act) for match, act in found if match is not None]
    if not taken:
        raise UnreadError(f"under {key!r} it says {said!r}")
    if len(taken) > 1:
        raise TwoReadingsError(f"under {key!r} it says {said!r}, to be taken {len(taken)} ways")
    ((match, act),) = taken
    act(match, sheet, sheet.planes[-1])
