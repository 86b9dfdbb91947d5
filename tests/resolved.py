"""Problems of a printed sheet solved once more, from the words on the sheet alone.

The plane comes from `second_way` (plain world points), a value from the closed form that the
trade's books use; nothing is read from `layout` or `lessons`. All angles in degrees, all lengths
in inches. To let a lesson ask for another value, give it a function under its name here.
"""

import re
import unicodedata
from dataclasses import dataclass, replace
from math import atan, atan2, degrees, hypot, radians, tan

import numpy as np

from tests.second_way import Roof, direction, second_way


def plain(text: str) -> str:
    """The text on one line, drawn fractions as typed ones."""
    text = re.sub(
        "([⁰¹²³⁴⁵⁶⁷⁸⁹]+)⁄([₀₁₂₃₄₅₆₇₈₉]+)",
        lambda m: unicodedata.normalize("NFKC", f"{m[1]}/{m[2]}"),
        text,
    )
    return " ".join(text.replace("\u00a0", " ").replace("\ufffe", "-").split())


def number(text: str) -> float:
    """8 1/2 as 8.5."""
    total = 0.0
    for part in text.split():
        top, _, bottom = part.partition("/")
        total += float(top) / float(bottom or 1)
    return total


GIVEN = re.compile(
    r"(?P<cut>[a-z-]+), (?P<end>head|foot); pitch (?P<pitch>[^;]+)"
    r"(?:; other roof (?P<other>[^;]+))?(?:; (?P<corner>(?:inside )?corner [\d.]+°))?"
    r"(?:; board rolled (?P<roll>[-\d.]+)°)?(?:; (?P<hand>left|right) hand)?"
    r"; board (?P<board>[^;]+?)\.?"
)


@dataclass(frozen=True)
class Given:
    """What a problem's line of givens says."""

    cut: str
    end: str
    a: float
    b: float
    w_deg: float
    hand: float
    thickness: float
    depth: float

    @property
    def roof(self) -> Roof:
        return Roof(self.a, self.b, self.w_deg)

    @property
    def stick(self):
        return second_way(self.cut, self.end, self.roof, self.hand)

    @property
    def normal(self):
        return self.stick.normals[0]

    @property
    def exchanged(self) -> "Given":
        """The same cut in the other roof."""
        return replace(self, a=self.b, b=self.a)


def rise(text: str) -> float:
    """Rise on a run of 1."""
    if text.endswith(("deg", "°")):
        return tan(radians(float(text.removesuffix("deg").removesuffix("°"))))
    up, _, run = text.partition(" in ")
    return number(up) / number(run)


def read_given(text: str) -> Given:
    match = GIVEN.fullmatch(text.strip())
    assert match is not None, text
    assert match["roll"] is None, "a rolled board has no second way"
    corner = match["corner"] or "corner 90°"
    w_deg = float(corner.split()[-1].rstrip("°"))
    if corner.startswith("inside"):
        w_deg = 360.0 - w_deg
    size = re.search(r"\(([\d /]+) x ([\d /]+)(?: in)?\)", match["board"])
    assert size is not None, match["board"]
    a = rise(match["pitch"])
    return Given(
        match["cut"],
        match["end"],
        a,
        rise(match["other"]) if match["other"] else a,
        w_deg,
        -1.0 if match["hand"] == "right" else 1.0,
        number(size[1]),
        number(size[2]),
    )


# ---- values ------------------------------------------------------------------------------


def face_deg(n):
    return degrees(atan2(abs(n[2]), abs(n[0])))


def edge_deg(n):
    return degrees(atan2(abs(n[1]), abs(n[0])))


def tilt_deg(n):
    return degrees(atan2(abs(n[1]), hypot(n[0], n[2])))


def edge_tilt_deg(n):
    return degrees(atan2(abs(n[2]), hypot(n[0], n[1])))


def face_numbers(given):
    """The face mark's rise and run (or 12 and less), as far as they fit the square's arms."""
    slope, mark = stick_slope_deg(given), face_deg(given.normal)
    if min(abs(mark - slope), abs(90 - mark - slope)) < 1e-6:
        run = line_run(given) if is_line(given) else 12.0
        rise = run * tan(radians(slope))
        return (rise, run) if abs(mark - slope) < 1e-6 else (run, rise)
    t = tan(radians(mark))
    return (12 * t, 12.0) if t <= 1 else (12.0, 12 / t)


def is_line(given):
    """Whether the stick runs up the hip or valley, and not up a roof."""
    (x, y, _), (u, v, _) = given.stick.head, given.roof.line
    return abs(x * v - y * u) < 1e-9 * hypot(x, y) * hypot(u, v)


def line_run(given):
    """Level run of the hip or valley while the own common runs 12."""
    x, y, _ = given.roof.line
    return 12 * hypot(x, y) / abs(y)


def line_slope_deg(given):
    return degrees(atan(12 * given.a / line_run(given)))


def stick_slope_deg(given):
    head = given.stick.head
    return degrees(atan2(head[2], hypot(head[0], head[1])))


def plan_deg(given):
    """Angle in plan between the stick and the plane of the joint."""
    ((u, v, _), _), (x, y, _) = given.stick.planes[0], given.stick.head
    return degrees(atan2(abs(x * u + y * v), abs(x * v - y * u)))


def shortening(given):
    """Level, along the stick: half the mate's thickness over the sine of the plan angle (NAV)."""
    return given.thickness / 2 / np.sin(radians(plan_deg(given)))


def cosine(angle_deg):
    return float(np.cos(radians(angle_deg)))


def bevel_deg(given, roof_normal):
    """Angle between the square edge of a stick up the hip or valley and a roof."""
    along = given.roof.line / np.linalg.norm(given.roof.line)
    level = np.cross([0.0, 0.0, 1.0], along)
    up = np.cross(along, level / np.linalg.norm(level))
    across = np.dot(roof_normal, level / np.linalg.norm(level))
    return degrees(atan2(abs(across), abs(np.dot(roof_normal, up))))


def drop(given):
    """Plumb drop of an unbacked hip: the fall of the steeper side over half the thickness (GRI
    paragraph 26, and Hodgson's unequal pitch A for two different sides)."""
    x, y, _ = given.roof.line
    across = np.array([-y, x]) / hypot(x, y)
    falls = (np.dot(-n[:2] / n[2], across) for n in (own_normal(given), other_normal(given)))
    return given.thickness / 2 * max(abs(fall) for fall in falls)


def gap(given, made):
    """How far a cut with this normal gapes against the joint's plane over the whole section."""
    n = np.array(given.normal)
    corners = [
        np.array([-(made[1] * y + made[2] * z) / made[0], y, z])
        for y in (0.0, given.thickness)
        for z in (0.0, given.depth)
    ]
    reach = [float(np.dot(n, corner)) for corner in corners]
    return max(reach) - min(reach)


def sawn(given, face_slope, tilt, over_waste):
    """The normal of a blade along a face line that runs `face_slope` = dx/dz, tilted."""
    end = np.sign(given.normal[0])
    upright = end * np.array([1.0, 0.0, -face_slope]) / hypot(1.0, face_slope)
    lean = np.sin(radians(tilt)) * np.array([0.0, -1.0 if over_waste else 1.0, 0.0])
    return upright * np.cos(radians(tilt)) + lean


def price(given, mistake):
    """The gap of a known mistake; only those that the course asks for."""
    n = given.normal
    tilts = {"side-number-as-tilt": 90 - edge_deg(n), "edge-mark-as-tilt": edge_deg(n)}
    assert mistake in tilts, f"no second price for {mistake}"
    return gap(given, sawn(given, -n[2] / n[0], tilts[mistake], n[1] < 0))


def some_run(given):
    """The run of a drill: 8 ft and half a foot for each inch of rise."""
    return 96 + 6 * round(12 * given.a)


def difference(given, spacing):
    """A jack one space farther along the eave reaches 1/tan(plan angle) as far in (NAV)."""
    level = number(spacing.removesuffix(" in")) / tan(radians(plan_deg(given)))
    return level / cosine(stick_slope_deg(given))


def start(given, wide_at_left):
    """The edge where a saw starts on the face away from the cheek, its wide side on the kept
    wood: with u out of the face and t the way it goes, u x t points to the left of it."""
    n = given.normal
    u = np.array([0.0, -np.sign(n[1]), 0.0])
    kept = np.array([-np.sign(n[0]), 0.0, 0.0])
    for name, t in (("bottom edge", [0.0, 0.0, 1.0]), ("top edge", [0.0, 0.0, -1.0])):
        if np.dot(np.cross(u, t), kept if wide_at_left else -kept) > 0:
            return name
    raise AssertionError(given)


def under(cheek_face):
    return "under the waste" if cheek_face else "under the kept wood"


WORDS = {
    # The cheek's own face holds the short point: there the blade comes out under the waste.
    "wood_under_left_face": lambda g: under(g.normal[1] > 0),
    "wood_under_right_face": lambda g: under(g.normal[1] < 0),
    "toward_under_left_face": lambda g: (
        "head" if (g.normal[0] > 0) == (g.normal[1] > 0) else "foot"
    ),
    "steadier_face": lambda g: "right face" if g.normal[1] > 0 else "left face",
    "start_blade_left": lambda g: start(g, wide_at_left=False),
}
"""The words that a drill asks for; common practice, no source."""


def own_normal(given):
    return np.array([0.0, -given.a, 1.0])


def other_normal(given):
    return np.append(-given.b * given.roof.other_in[:2], 1.0)


VALUES = {
    "face_angle": lambda g: face_deg(g.normal),
    "face_bevel": lambda g: 90 - face_deg(g.normal),
    "edge_angle": lambda g: edge_deg(g.normal),
    "edge_bevel": lambda g: 90 - edge_deg(g.normal),
    "tilt": lambda g: tilt_deg(g.normal),
    "edge_tilt": lambda g: edge_tilt_deg(g.normal),
    "edge_number": lambda g: 12 / tan(radians(edge_deg(g.normal))),
    "second_tilt": lambda g: tilt_deg(g.stick.normals[1]),
    "second_edge_angle": lambda g: edge_deg(g.stick.normals[1]),
    "second_edge_number": lambda g: 12 / tan(radians(edge_deg(g.stick.normals[1]))),
    "other_tilt": lambda g: tilt_deg(g.exchanged.normal),
    "other_face_angle": lambda g: face_deg(g.exchanged.normal),
    "other_edge_number": lambda g: 12 / tan(radians(edge_deg(g.exchanged.normal))),
    "longer_by": lambda g: g.thickness * tan(radians(edge_deg(g.normal))),
    "runs_down_face": lambda g: g.depth * tan(radians(face_deg(g.normal))),
    "slope": lambda g: degrees(atan(g.a)),
    "stick_slope": stick_slope_deg,
    "rise": lambda g: 12 * g.a,
    "other_rise": lambda g: 12 * g.b,
    "own_run": lambda g: line_run(g) if is_line(g) else 12.0,
    "line_run": line_run,
    "line_slope": line_slope_deg,
    "common_row": lambda g: hypot(12, 12 * g.a),
    "line_row": lambda g: hypot(line_run(g), 12 * g.a),
    "common_length": lambda g, run: run * hypot(1, g.a),
    "line_length": lambda g, run: run / 12 * hypot(line_run(g), 12 * g.a),
    "plan_angle": plan_deg,
    "plan_turn": lambda g: 90 - plan_deg(g),
    "half_thickness": lambda g: g.thickness / 2,
    "shortening": shortening,
    "shortening_along": lambda g: shortening(g) / cosine(stick_slope_deg(g)),
    "plumb_depth": lambda g: g.depth / cosine(stick_slope_deg(g)),
    "notch": lambda g: g.depth / 4,
    "seat": lambda g: g.depth / 4 / cosine(90 - stick_slope_deg(g)),
    "heel": lambda g: g.depth / 4 / cosine(stick_slope_deg(g)),
    "height_above_plate": lambda g: 0.75 * g.depth / cosine(stick_slope_deg(g)),
    "backing": lambda g: bevel_deg(g, own_normal(g)),
    "other_backing": lambda g: bevel_deg(g, other_normal(g)),
    "drop": drop,
    "price": price,
    "common_length_there": lambda g: some_run(g) * hypot(1, g.a),
    "line_length_there": lambda g: some_run(g) / 12 * hypot(line_run(g), 12 * g.a),
    "line_run_there": lambda g: some_run(g) / 12 * line_run(g),
    "half_ridge_along": lambda g: 0.75 / cosine(stick_slope_deg(g)),
    "tail_length": lambda g, over: number(over.removesuffix(" in")) / cosine(stick_slope_deg(g)),
    "common_difference": difference,
    "short_point_back": lambda g: (
        shortening(g) / cosine(stick_slope_deg(g))
        + g.thickness * tan(radians(edge_deg(g.normal))) / 2
    ),
    "half_cheek": lambda g: g.thickness / 2 * tan(radians(edge_deg(g.normal))),
    "both_shortenings_along": lambda g: 2 * shortening(g) / cosine(stick_slope_deg(g)),
    "gauge_drop": lambda g: abs(g.normal[1] / g.normal[2]) * g.thickness / 2,
}
"""The closed form of each value: angles from the plane's normal, lengths by Pythagoras from rise
and run, as the handbooks do (NAVEDTRA 14044 ch. 2, Griffith 1916). A mark's numbers on the square
are in `face_numbers`."""


def answer(named: str, given: Given) -> float | str:
    """The value that a lesson names, `common_length(12 ft)` or `tilt`."""
    if named in WORDS:
        return WORDS[named](given)
    name, _, inside = named.removesuffix(")").partition("(")
    arguments = [part.strip() for part in inside.split(",")] if inside else []
    assert name in VALUES, f"{name} has no second solution: write one in tests/resolved.py"
    return float(VALUES[name](given, *arguments))


# ---- a finished layout ---------------------------------------------------------------------

PAIR = (
    r"(?P<blade>[\d /]+) on the blade, (?P<tongue>[\d /]+) on the tongue,"
    r" marked along the (?P<arm>\w+)"
)
FACE = re.compile(
    rf"Face mark: (?:{PAIR}|square across)(?:; its top slants toward the (?P<end>\w+))?\."
)
EDGE = re.compile(
    rf"Edge mark: (?:{PAIR}|square across)(?:; its left end slants toward the (?P<end>\w+))?\."
)
SAW = re.compile(
    r"(?:Saw|A saw that (?:tilts so far|cuts so deep)),"
    r" shoe on the (?P<shoe>right|left) face, along (?:the face mark|a line (?:square across|"
    r"(?P<line>[\d.]+)° from square across, its top toward the (?P<end>head|foot))):"
    r" tilt (?P<tilt>[\d.]+)°;"
    r" (?:below the shoe the blade runs in (?P<leans>under the waste|under the kept wood), toward"
    r" the (?P<toward>head|foot)|the blade stands square to its shoe)\."
)
MITRE = re.compile(
    r"(?:Miter saw|A miter saw that (?:turns so far|takes a board so deep)),"
    r" board standing on its edge: table (?P<table>[\d.]+)°, tilt (?P<tilt>[\d.]+)°\."
)
GAUGE = re.compile(
    r"Gauge lines: (?P<across>[\d /]+) in across the (?P<edge>top|bottom) edge,"
    r" (?P<drop>[\d /]+) in down the (?P<low>right|left) face\."
)
RIP = re.compile(
    r"Saw, along the gauge line: tilt (?P<tilt>[\d.]+)°, low at the (?P<low>\w+) face\."
)
SIXTEENTH_DEG = 0.45
"""What two numbers read to the sixteenth can be off in angle."""


def line_deg(match) -> float:
    if match["arm"] is None:
        return 0.0
    blade, tongue = number(match["blade"]), number(match["tongue"])
    along, other = (blade, tongue) if match["arm"] == "blade" else (tongue, blade)
    return degrees(atan2(along, other))


def fits(text: str, given: Given) -> bool:
    """Whether a line of a layout is right for this roof and board."""
    n = given.normal
    if match := FACE.fullmatch(text):
        return _mark_fits(match, face_deg(n), -n[2] / n[0])
    if match := EDGE.fullmatch(text):
        return _mark_fits(match, edge_deg(n), -n[1] / n[0])
    if match := SAW.fullmatch(text):
        # The cheek faces the side that ny points to; below a shoe on that face the blade runs in
        # under the waste, and so toward the end cut off.
        leans = toward = None
        if abs(n[1]) >= 1e-9:
            over = (n[1] < 0) == (match["shoe"] == "right")
            leans = "under the waste" if over else "under the kept wood"
            toward = "head" if over == (n[0] > 0) else "foot"
        said = match["leans"], match["toward"]
        if match["line"] is not None:
            top = "head" if -n[2] / n[0] > 0 else "foot"
            if abs(float(match["line"]) - face_deg(n)) > 0.13 or match["end"] != top:
                return False
        return abs(float(match["tilt"]) - tilt_deg(n)) <= 0.13 and said == (leans, toward)
    if match := GAUGE.fullmatch(text) or RIP.fullmatch(text):
        return _bevel_fits(match, n)
    match = MITRE.fullmatch(text)
    assert match is not None, text
    return (
        abs(float(match["table"]) - edge_deg(n)) <= 0.13
        and abs(float(match["tilt"]) - edge_tilt_deg(n)) <= 0.13
    )


def gaps(lines: dict[str, str], given: Given) -> list[float]:
    """The gap of every plane that the layout's lines put there: by hand, by saw, on edge."""
    face = edge = 0.0
    made = {}
    end = np.sign(given.normal[0])
    for text in lines.values():
        if match := FACE.fullmatch(text):
            face = tan(radians(line_deg(match))) * (1 if match["end"] == "head" else -1)
        elif match := EDGE.fullmatch(text):
            edge = tan(radians(line_deg(match))) * (1 if match["end"] == "head" else -1)
            made["hand"] = end * direction(np.array([1.0, -edge, -face]))
        elif match := SAW.fullmatch(text):
            over = (match["leans"] == "under the waste") == (match["shoe"] == "right")
            made["saw"] = sawn(given, face, float(match["tilt"]), over)
        elif match := MITRE.fullmatch(text):
            table, tilt = (radians(float(match[name])) for name in ("table", "tilt"))
            slope = tan(table) * np.sign(edge)
            upright = end * direction(np.array([1.0, -slope, 0.0]))
            up = np.sign(given.normal[2]) * np.array([0.0, 0.0, 1.0])
            made["mitre"] = upright * np.cos(tilt) + up * np.sin(tilt)
    return [gap(given, one) for one in made.values()]


def _bevel_fits(match, n) -> bool:
    """A bevel that leans toward +y is low at the left face."""
    if match["low"] != ("left" if n[1] > 0 else "right"):
        return False
    parts = match.groupdict()
    if "tilt" in parts:
        return abs(float(match["tilt"]) - tilt_deg(n)) <= 0.13
    drop = number(match["across"]) * abs(n[1] / n[2])
    return abs(number(match["drop"]) - drop) <= 1 / 64 + 1e-9


def _mark_fits(match, true_deg: float, lean: float) -> bool:
    if abs(line_deg(match) - true_deg) > SIXTEENTH_DEG:
        return False
    return true_deg < 1e-6 or match["end"] == ("head" if lean > 0 else "foot")


def said_in(answer: str, text: str) -> bool:
    """Whether a text gives an answer away, as a number or word that stands by itself."""
    return re.search(rf"(?<![\w/.]){re.escape(answer)}(?![\w/]| \d+/\d)", text) is not None
