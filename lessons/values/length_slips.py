"""The slips on the way to a length."""

from math import cos, radians, tan

from layout.answer.answer import Answer
from lessons.values import course_values as course
from lessons.values import joint_values as joint
from lessons.values import length_values as lengths
from lessons.values import mark_values as marks
from lessons.values.slips import slip


def _ratio(answer: Answer) -> float:
    """What a length along the board is to the same length level."""
    return 1.0 / cos(radians(answer.stick_slope_deg))


slip(
    "common_length_there",
    "run-as-length",
    "The run is taken for the length.",
    "The rafter slopes, so it is longer for every step.",
    course.some_run,
    factor=True,
)
slip(
    "common_length_there line_length_there",
    "span-stepped-off",
    "The whole span is stepped off.",
    "A rafter covers half the span.",
    lambda answer: 2 * course.common_length_there(answer),
)
slip(
    "line_length_there",
    "common-row-on-hip",
    "The common's number is taken for the hip.",
    "For each step of the common the hip runs farther.",
    course.common_length_there,
)
slip(
    "line_length_there",
    "run-as-length",
    "The run is taken for the length.",
    "The rafter slopes, so it is longer for every step.",
    course.some_run,
)
slip(
    "common_difference",
    "spacing-as-difference",
    "The spacing is taken for the difference.",
    "The spacing is level. Up the slope each jack grows by more.",
    lambda _, spacing_in: spacing_in,
)
slip(
    "common_difference",
    "level-of-the-slope",
    "The two numbers change places.",
    "What is level stretches along the slope; it does not shrink.",
    lambda answer, spacing_in: spacing_in**2 / lengths.common_difference(answer, spacing_in),
)
slip(
    "tail_length",
    "run-as-length",
    "The overhang is given as it is.",
    "The overhang is level; along the slope the tail is longer.",
    lambda _, overhang_in: overhang_in,
)
slip(
    "tail_length",
    "level-of-the-slope",
    "The two numbers change places.",
    "What is level stretches along the slope; it does not shrink.",
    lambda answer, overhang_in: overhang_in / _ratio(answer),
)
slip(
    "price",
    "gap-along-the-face",
    "The gap is measured along the far face.",
    "A gap is measured square to the cut that fits.",
    lambda answer, mistake: (
        joint.price(answer, mistake) / cos(radians(float(answer.cut.face_tilt_deg)))
    ),
)
slip(
    "runs_down_face",
    "wrong-arm-on-face",
    "Rise and run change places.",
    "A plumb mark goes the rise along the board for each run across it; a level mark the run for"
    " each rise.",
    lambda answer: answer.question.stock.depth_in**2 / marks.runs_down_face(answer),
)
slip(
    "runs_down_face",
    "length-for-run",
    "The length of the mark itself is given.",
    "Asked for is how far it runs along the board's edge.",
    lambda answer: (answer.question.stock.depth_in**2 + marks.runs_down_face(answer) ** 2) ** 0.5,
)
slip(
    "longer_by",
    "wrong-arm-on-edge",
    "The two numbers of the edge mark change places.",
    "The mark runs the twelve along the board for the side-cut number across it.",
    lambda answer: answer.question.stock.thickness_in**2 / marks.longer_by(answer),
    factor=True,
)
slip(
    "longer_by",
    "thickness-for-run",
    "The thickness is given.",
    "That would be a mark at half a right angle.",
    lambda answer: answer.question.stock.thickness_in,
)
slip(
    "half_cheek",
    "whole-thickness",
    "The whole thickness is taken.",
    "Each cheek goes from the center to one face: half the thickness.",
    lambda answer: 2 * course.half_cheek(answer),
    factor=True,
)
slip(
    "half_cheek",
    "wrong-arm-on-edge",
    "The two numbers of the edge mark change places.",
    "The mark runs the twelve along the board for the side-cut number across it.",
    lambda answer: (answer.question.stock.thickness_in / 2) ** 2 / course.half_cheek(answer),
    factor=True,
)
slip(
    "shortening",
    "whole-thickness",
    "The whole thickness of the hip is taken, straight.",
    "The length runs to the center of the hip: half of it comes off, along the slant.",
    lambda answer: answer.question.stock.thickness_in,
)
slip(
    "shortening",
    "whole-diagonal",
    "The whole hip is taken on the slant.",
    "The length runs to the center of the hip: half of that comes off.",
    lambda answer: 2 * lengths.shortening(answer),
    factor=True,
)
slip(
    "shortening_along",
    "shortening-along-the-slope",
    "The level shortening is given.",
    "Along the slope the same shortening takes more.",
    lengths.shortening,
    factor=True,
)
slip(
    "shortening_along",
    "whole-diagonal",
    "The whole thickness is taken, on the slant.",
    "Half of it comes off: from the center to the side.",
    lambda answer: 2 * lengths.shortening_along(answer),
    factor=True,
)
slip(
    "half_ridge_along",
    "shortening-along-the-slope",
    "The level measure is given.",
    "Along the slope the same level measure takes more.",
    course.half_ridge,
    factor=True,
)
slip(
    "half_ridge_along",
    "whole-thickness",
    "The whole ridge is taken.",
    "The length runs to the center of the ridge: half of it comes off.",
    lambda answer: 2 * course.half_ridge_along(answer),
    factor=True,
)
slip(
    "half_ridge_along",
    "level-of-the-slope",
    "The two numbers change places.",
    "What is level stretches along the slope; it does not shrink.",
    lambda answer: course.half_ridge(answer) / _ratio(answer),
)
slip(
    "both_shortenings_along",
    "one-end-alone",
    "One end alone is shortened.",
    "A cripple meets a valley below and a hip above: both take off.",
    lengths.shortening_along,
    factor=True,
)
slip(
    "both_shortenings_along",
    "shortening-along-the-slope",
    "The level measure is given.",
    "Along the slope the same level measure takes more.",
    lambda answer: 2 * lengths.shortening(answer),
    factor=True,
)
slip(
    "seat",
    "heel-for-seat",
    "The heel is given: the length is divided by the run.",
    "The seat is level. Divide by the rise.",
    lengths.heel,
)
slip(
    "heel",
    "seat-for-heel",
    "The seat is given: the length is divided by the rise.",
    "The heel is plumb. Divide by the run.",
    lengths.seat,
)
slip(
    "seat heel",
    "notch-square",
    "The notch is given, square to the edge.",
    "Seat and heel cross it on a slant, so both are longer.",
    lengths.notch,
)
slip(
    "seat",
    "run-for-length",
    "The run is taken in place of the rafter's length.",
    "Seat and notch make the rafter's own triangle: length to rise.",
    lambda answer: lengths.notch(answer) / tan(radians(answer.stick_slope_deg)),
)
slip(
    "heel",
    "rise-for-length",
    "The rise is taken in place of the rafter's length.",
    "Heel and notch make the rafter's own triangle: length to run.",
    lambda answer: lengths.notch(answer) * tan(radians(answer.stick_slope_deg)),
)
slip(
    "height_above_plate",
    "heel-for-height",
    "The heel is given.",
    "The height above plate is what is left above the seat.",
    lengths.heel,
)
slip(
    "height_above_plate",
    "depth-for-plumb-depth",
    "The heel is taken off the depth square to the edge.",
    "Both are measured plumb: take it off the plumb depth.",
    lambda answer: answer.question.stock.depth_in - lengths.heel(answer),
)
slip(
    "drop",
    "whole-thickness",
    "The whole thickness is taken.",
    "Each arris lies half a thickness from the center of the edge.",
    lambda answer: 2 * lengths.drop(answer),
    factor=True,
)
slip(
    "drop",
    "roof-rise-for-fall",
    "The roof's rise is taken for its fall beside the hip.",
    "Square to the hip the roof falls less than straight down its slope.",
    lambda answer: lengths.half_thickness(answer) * lengths.rise(answer) / 12.0,
    factor=True,
)
slip(
    "gauge_drop",
    "plumb-for-square",
    "The plumb drop is given.",
    "The gauge is run square to the edge; plumb the drop is more.",
    lengths.drop,
)
slip(
    "short_point_back",
    "long-point-for-short",
    "The half of the edge mark is taken off.",
    "That is the long point. The short point lies farther back.",
    lambda answer: 2 * lengths.shortening_along(answer) - course.short_point_back(answer),
)
slip(
    "short_point_back",
    "no-shortening",
    "Nothing is taken off for the hip.",
    "The length runs to the center of the hip; the wood ends at its side.",
    lambda answer: course.short_point_back(answer) - lengths.shortening_along(answer),
)
slip(
    "short_point_back",
    "shortening-along-the-slope",
    "The level shortening is laid along the edge.",
    "Along the slope the same shortening takes more.",
    lambda answer: (
        course.short_point_back(answer)
        - lengths.shortening_along(answer)
        + lengths.shortening(answer)
    ),
)
