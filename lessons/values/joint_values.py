"""The values of a joint beyond its first plane: the mistakes, the second plane, the other roof."""

from dataclasses import replace

from layout.answer.answer import Answer
from layout.answer.answer import answer as answered
from layout.errors import LayoutError
from layout.tools.setting import RipByHand
from lessons.mistakes.cut_mistakes import mistakes
from lessons.values.mark_values import edge_angle, edge_leans, edge_number, face_angle, hand, tilt
from lessons.values.sense_values import blade_on_steadier_face, start
from lessons.values.value import value


def mistake_name(text: str) -> str:
    """The name of a known mistake. Raises LayoutError for any other."""
    if text not in mistakes():
        raise LayoutError(f"no mistake is called {text!r}; use one of {', '.join(mistakes())}")
    return text


@value("length", mistake_name)
def price(answer: Answer, mistake: str) -> float:
    """The gap that a known mistake, by name, leaves on this cut; 0 where it costs nothing here."""
    made = mistakes()[mistake_name(mistake)].made_on(answer)
    return made.price_in if made else 0.0


@value("angle", mistake_name)
def wrong_tilt(answer: Answer, mistake: str) -> float:
    """The tilt that a known mistake, by name, sets on this cut."""
    setting = mistakes()[mistake].settings(answer)
    tilt_deg = getattr(setting, "tilt_deg", None)
    if tilt_deg is None:
        raise LayoutError(f"the mistake {mistake!r} sets no tilt on {answer.question.entry.name}")
    return float(tilt_deg)


@value("word")
def mate(answer: Answer) -> str:
    """What the cut lies against, with its article: the hip, this roof's common."""
    return answer.plane.mate_words


@value("word")
def second_mate(answer: Answer) -> str:
    """What the joint's second plane lies against, with its article."""
    return mate(_second(answer))


@value("word")
def second_hand(answer: Answer) -> str:
    """The side the second cheek faces."""
    return hand(_second(answer))


@value("angle")
def second_tilt(answer: Answer) -> float:
    """The saw's tilt for the second plane, with the shoe on a wide face."""
    return tilt(_second(answer))


@value("word")
def second_blade(answer: Answer) -> str:
    """What the blade does below a shoe on the second cheek's steadier face."""
    return blade_on_steadier_face(_second(answer))


@value("word")
def second_start(answer: Answer) -> str:
    """Where to start on the second cheek's steadier face."""
    return start(_second(answer))


@value("angle")
def second_edge_angle(answer: Answer) -> float:
    """The second plane's edge mark, from square across."""
    return edge_angle(_second(answer))


@value("number")
def second_edge_number(answer: Answer) -> float:
    """Across 12 on one arm, the second plane's number along the other."""
    return edge_number(_second(answer))


@value("word")
def second_edge_leans(answer: Answer) -> str:
    """The end toward which the left end of the second plane's edge mark leans."""
    return edge_leans(_second(answer))


def _second(answer: Answer) -> Answer:
    if not answer.others:
        raise LayoutError(f"{answer.question.entry.name} has only one plane")
    return answer.others[0]


@value("angle")
def other_tilt(answer: Answer) -> float:
    """The tilt of the same cut in the other roof."""
    return tilt(_in_the_other_roof(answer))


@value("angle")
def other_face_angle(answer: Answer) -> float:
    """The face mark of the same cut in the other roof, from square across."""
    return face_angle(_in_the_other_roof(answer))


@value("number")
def other_edge_number(answer: Answer) -> float:
    """The side-cut number of the same cut in the other roof."""
    return edge_number(_in_the_other_roof(answer))


def _in_the_other_roof(answer: Answer) -> Answer:
    asked = answer.question
    return answered(replace(asked, pitch=asked.other_pitch, other_pitch=asked.pitch))


@value("length")
def gauge_across(answer: Answer) -> float:
    """How far in from the arris the line on the edge is gauged, for a rip."""
    return _gauges(answer).across_in


@value("length")
def gauge_drop(answer: Answer) -> float:
    """How far down from the arris the line on the face is gauged, for a rip."""
    return _gauges(answer).drop_in


@value("word")
def gauge_face(answer: Answer) -> str:
    """The face toward which a rip falls."""
    return "right" if _gauges(answer).right > 0 else "left"


def _gauges(answer: Answer) -> RipByHand:
    gauges = answer.hand_setting(as_read=False)
    if not isinstance(gauges, RipByHand):
        raise LayoutError(f"{answer.question.entry.name} is no rip: nothing is gauged along it")
    return gauges


@value("length")
def second_gauge_drop(answer: Answer) -> float:
    """How far down from the arris the second line on the face is gauged, for a rip."""
    return gauge_drop(_second(answer))
