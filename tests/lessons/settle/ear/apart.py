"""A claim's plane and gap worked out apart: from trade formulas, with nothing of the program's.

Board axes as everywhere: x to the head, y to the left face, z to the top edge. The cuts stand at
a square corner between equal pitches, left hand, on a 2x6 (1 1/2 by 5 1/2 in).
"""

from math import atan, atan2, cos, hypot, pi, radians, sin, sqrt, tan

THICK, DEEP = 1.5, 5.5
TOLERANCE = 1 / 32
Vector = tuple[float, float, float]


class Cut:
    """A cut by name: the slope of its stick, its end, and the joint's plane, out of the wood.

    A jack's cheek lies against the hip's side, 45 degrees in plan from its own line: its normal
    is (cos t, 1, -sin t) / sqrt 2 at a slope t. A hip climbs the same rise on sqrt 288.
    """

    def __init__(self, name: str, rise: float) -> None:
        run = sqrt(288) if name == "hip-ridge-single" else 12.0
        self.slope = atan(rise / run)
        self.pitch = atan(rise / 12)
        self.end = -1 if name in ("common-seat", "valley-jack") else 1
        c, s, r = cos(self.slope), sin(self.slope), sqrt(0.5)
        self.normal: Vector = {
            "common-ridge": (c, 0.0, -s),
            "common-seat": (-s, 0.0, -c),
            "valley-jack": (-r * c, r, r * s),
        }.get(name, (r * c, r, -r * s))
        self.cheek = self.normal[1] != 0
        self.lean = -1 if name == "common-seat" else 1

    @property
    def number(self) -> float:
        """The side-cut number: 12 cos(slope) for a cheek at 45 in plan."""
        return 12 * cos(self.slope)

    def gap(self, made: Vector) -> float:
        """The widest gap when the made plane is slid along the board against the joint's."""
        reach = []
        for y in (0.0, THICK):
            for z in (0.0, DEEP):
                x = -(made[1] * y + made[2] * z) / made[0]
                reach.append(self.normal[0] * x + self.normal[1] * y + self.normal[2] * z)
        return max(reach) - min(reach)


def plane(cut: Cut, means: dict[str, str]) -> Vector | None:
    """The plane that a meaning puts through the board; None where it says no tilt of a cheek."""
    side = -1 if means.get("cheek") == "right" else 1
    face, lean = face_angle(cut, means.get("face"))
    edge = edge_angle(cut, means.get("edge"))
    tilt = tilt_angle(cut, means.get("tilt"))
    if means.get("shoe") == "edge":
        assert tilt is not None
        own = pi / 2 - atan(cut.number / 12)
        across = own if edge is None else edge
        # Square to the edge line, leaned about it to the joint's side of the edge.
        down = -1 if cut.normal[2] < 0 else 1
        e = (cut.end * cos(across), side * sin(across), 0.0)
        return (e[0] * cos(tilt), e[1] * cos(tilt), down * sin(tilt))
    if tilt is None and edge is None:
        if cut.cheek:
            return None
        tilt = 0.0
    up = (lean * sin(face), 0.0, cos(face))
    if tilt is not None:
        w = (cut.end * cos(face), 0.0, -cut.end * lean * sin(face))
        return (w[0] * cos(tilt), side * sin(tilt), w[2] * cos(tilt))
    assert edge is not None
    along = (-side * cut.end * sin(edge), cos(edge), 0.0)
    cross = (
        up[1] * along[2] - up[2] * along[1],
        up[2] * along[0] - up[0] * along[2],
        up[0] * along[1] - up[1] * along[0],
    )
    size = hypot(*cross) * (cut.end if cross[0] > 0 else -cut.end)
    return (cross[0] / size, cross[1] / size, cross[2] / size)


def face_angle(cut: Cut, said: str | None) -> tuple[float, int]:
    """The face mark's angle from square across, and +1 where its top leans to the head."""
    if said is None:
        return (pi / 2 - cut.slope if cut.lean < 0 else cut.slope), cut.lean
    if said == "plumb":
        return cut.slope, 1
    if said == "square":
        return 0.0, 1
    if said.startswith("deg"):
        return radians(float(said[3:])), cut.lean
    if said.startswith("level"):
        rise, run = numbers(said[5:])
        return atan2(run, rise), -1
    if said.startswith("n"):
        mark, other = numbers(said[1:])
        return atan2(mark, other), cut.lean
    rise, run = numbers(said)
    return atan2(rise, run), 1


def edge_angle(cut: Cut, said: str | None) -> float | None:
    """The edge mark's angle from square across: 12 along, the number across."""
    if said is None:
        return None
    if said == "square":
        return 0.0
    if said == "own":
        return atan2(12, cut.number)
    if said.startswith("deg"):
        return radians(float(said[3:]))
    number, twelve = numbers(said)
    return atan2(twelve, number)


def tilt_angle(cut: Cut, said: str | None) -> float | None:
    """The tilt, or the angle that is taken for one."""
    if said is None:
        return None
    if said == "pitch":
        return cut.pitch
    if said == "number":
        return atan(cut.number / 12)
    if said == "number16":
        return atan(round(cut.number * 16) / 16 / 12)
    return radians(value(said))


def numbers(said: str) -> tuple[float, float]:
    """Two numbers with a slash between them: 8 1/2/12 is 8 1/2 and 12."""
    for at, sign in enumerate(said):
        left, right = said[:at], said[at + 1 :]
        if sign == "/" and whole(left) and whole(right) and not splits(left, right):
            return value(left), value(right)
    raise AssertionError(said)


def splits(left: str, right: str) -> bool:
    """Whether the slash is a fraction's own: 12/8 1/2 is 12 and 8 1/2, 8 1/2/12 no 8 1 and 2/12."""
    return (" " in left and "/" not in left) or right.count("/") > 1


def whole(said: str) -> bool:
    """Whether this is a number as it is written."""
    parts = said.split()
    return bool(parts) and all(
        part.replace("/", "", 1).replace(".", "", 1).isdigit() for part in parts
    )


def value(said: str) -> float:
    """The value of 8, 8.485 or 8 1/2."""
    total = 0.0
    for part in said.split():
        top, _, bottom = part.partition("/")
        total += float(top) / float(bottom or 1)
    return total


def backing_gap(rise: float, angle: float) -> float:
    """A hip's backing: both planes meet at the middle of the edge, half the thickness from a face.

    tan(backing) = rise / sqrt(rise^2 + 288); pressed on, the made bevel gapes at one side by what
    the angles differ over 3/4 in, seen square to the roof.
    """
    right = atan(rise / sqrt(rise**2 + 288))
    return 0.75 * abs(tan(angle) - tan(right)) * cos(right)
