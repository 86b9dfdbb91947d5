"""Questions and measures that the tests of the teaching views share."""

from math import atan2, degrees, hypot

from figures.ink.drawing import Drawing, Stroke
from layout.answer.answer import Answer, answer
from layout.answer.question import ask
from layout.cuts import End, Hand, catalogue
from layout.quantity import read_pitch

Spec = tuple[str, End, Hand]
CUTS: list[Spec] = [
    (name, end, hand)
    for name, entry in catalogue().items()
    for end in entry.ends
    for hand in (Hand if entry.two_hands else (Hand.LEFT,))
]
"""Every cut of the catalogue, at every end, for every hand that differs."""
NAMES = [f"{name}-{end}-{hand.value}" for name, end, hand in CUTS]


def answers(spec: Spec, pitch: str = "7 in 12", **more) -> list[Answer]:
    """The answers about every plane of a cut's joint."""
    name, end, hand = spec
    first = answer(ask(name, end=end, hand=hand, pitch=read_pitch(pitch), **more))
    return [first, *first.others]


def one(name: str, pitch: str = "7 in 12", hand: str = "left", **more) -> Answer:
    """The answer about the first plane of a cut."""
    return answer(ask(name, pitch=read_pitch(pitch), hand=Hand(hand), **more))


def strokes(drawing: Drawing, gid: str) -> list[Stroke]:
    """Every stroke with an id."""
    return [stroke for stroke in drawing.strokes if stroke.gid == gid]


def stroke(drawing: Drawing, gid: str) -> Stroke:
    """The one stroke with an id."""
    (found,) = strokes(drawing, gid)
    return found


def words(drawing: Drawing, gid: str) -> str:
    """What the one label with an id says."""
    (found,) = (label for label in drawing.labels if label.gid == gid)
    return found.text


def lean_deg(line: Stroke) -> float:
    """The acute angle between a stroke and the upright [deg]."""
    (x0, y0), (x1, y1) = line.points[0], line.points[-1]
    return degrees(atan2(abs(x1 - x0), abs(y1 - y0)))


def length_in(line: Stroke) -> float:
    """From the first to the last point of a stroke [in]."""
    (x0, y0), (x1, y1) = line.points[0], line.points[-1]
    return hypot(x1 - x0, y1 - y0)


def scale_of(drawing: Drawing) -> float:
    """Inches on paper for an inch of wood, read from the words of the drawing."""
    said = words(drawing, "scale")
    if said == "FULL SIZE":
        return 1.0
    above, below = said.split(" : ")
    return float(above) / float(below)


def arcs(drawing: Drawing) -> list[Stroke]:
    """The arcs of all angles that are dimensioned."""
    return [line for line in drawing.strokes if line.pen == "dimension" and len(line.points) > 3]
