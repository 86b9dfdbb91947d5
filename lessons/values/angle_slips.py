"""The slips on the way to an angle, a run or a number on the square."""

from math import atan, cos, degrees, radians

from layout.answer.answer import Answer
from lessons.values import course_values as course
from lessons.values import length_values as lengths
from lessons.values import mark_values as marks
from lessons.values.slips import slip, work_of


def _jack(answer: Answer) -> bool:
    return answer.question.entry.family == "jack"


def _on_deck(answer: Answer) -> bool:
    return answer.question.entry.family == "deck"


# ---- angles ------------------------------------------------------------------------------------

for _angle in ("face_angle", "stick_slope", "edge_bevel", "backing", "tilt"):
    slip(
        _angle,
        "from-the-other-leg",
        "The angle is measured from the wrong leg: from the edge in place of square across, or the"
        " other way around.",
        "The angle from one leg and the angle from the other make 90° together. Ask from which line"
        " the angle is asked for.",
        lambda answer, _of=_angle: 90.0 - work_of(_of)(answer),
    )
slip(
    "stick_slope face_angle",
    "twelve-for-seventeen",
    "The common's run is taken where the rafter's own run belongs.",
    "A hip or valley runs farther for the same rise, so it climbs more gently.",
    lambda answer: answer.question.pitch.slope_deg,
)
slip(
    "tilt",
    "whole-corner-as-tilt",
    "The whole corner is taken for the tilt.",
    "The hip splits the corner. From square across the jack it turns by its own part alone.",
    lambda answer: course.whole_corner(answer) if _jack(answer) else None,
)
slip(
    "tilt",
    "other-roof-for-this",
    "The two roofs are exchanged.",
    "The steep roof gains its height in the shorter run: the hip lies nearer its eave.",
    lambda answer: (
        degrees(atan(lengths.rise(answer) / lengths.other_rise(answer)))
        if _jack(answer) and lengths.rise(answer) != lengths.other_rise(answer)
        else None
    ),
)
slip(
    "tilt",
    "own-slope-for-the-deck",
    "The small roof's slope is set, where the deck's belongs.",
    "The foot lies on the deck, so the deck's slope tilts the saw.",
    lambda answer: answer.question.pitch.slope_deg if _on_deck(answer) else None,
)
slip(
    "tilt face_angle",
    "deck-for-the-small-roof",
    "The other roof's slope is taken.",
    "Ask which of the two roofs this mark follows.",
    lambda answer: answer.question.other_pitch.slope_deg if _on_deck(answer) else None,
)
slip(
    "backing",
    "hip-slope-as-backing",
    "The hip's slope is taken for the backing.",
    "The hip's slope is seen from the side of the hip, the backing along it.",
    lengths.line_slope,
)
slip(
    "backing",
    "roof-slope-as-backing",
    "The roof's slope is taken for the backing.",
    "The backing is seen square to the hip, where the roof is less steep.",
    lambda answer: answer.question.pitch.slope_deg,
)
slip(
    "edge_bevel",
    "edge-mark-for-bevel",
    "The angle from square across is given.",
    "A sliding bevel is set off the edge.",
    marks.edge_angle,
)
for _name, _does, _work in (
    ("tilt-for-bevel", "The saw's tilt is given.", marks.tilt),
    ("face-mark-for-bevel", "The face mark's angle is given.", marks.face_angle),
):
    slip("edge_bevel", _name, _does, "Ask where each angle is measured.", _work)

# ---- runs and numbers on the square ------------------------------------------------------------

slip(
    "own_run line_run",
    "common-run-for-hip",
    "The common's run is taken for the hip.",
    "The hip runs on a slant: from above it is the diagonal.",
    lambda _: 12.0,
)
slip(
    "own_run line_run",
    "two-runs-added",
    "The two sides of the square are added.",
    "The diagonal is shorter than the way around.",
    lambda _: 24.0,
)
slip(
    "line_run_there",
    "common-run-for-hip",
    "The common's run is taken for the hip.",
    "The hip runs on a slant: from above it is the diagonal.",
    course.some_run,
)
slip(
    "line_run_there",
    "two-runs-added",
    "The two sides of the square are added.",
    "The diagonal is shorter than the way around.",
    lambda answer: 2 * course.some_run(answer),
)
slip(
    "edge_number",
    "not-shrunk",
    "The number from above is taken as it is.",
    "From above the slope does not show. On the board the number shrinks, or across the slope it"
    " stretches.",
    lengths.plan_number,
)
slip(
    "edge_number",
    "stretched-for-shrunk",
    "The two lengths change places.",
    "An edge that climbs shrinks its number; one that lies along the eave stretches it.",
    lambda answer: lengths.plan_number(answer) ** 2 / marks.edge_number(answer),
)
slip(
    "edge_number",
    "table-number-at-a-skew-corner",
    "The number of the square's table is taken.",
    "The table's side-cut row is for one pitch and a square corner.",
    lambda answer: 144.0 / lengths.common_row(answer) if _jack(answer) else None,
)
slip(
    "edge_number",
    "other-roofs-pitch",
    "The other roof's pitch is used.",
    "Each roof has its own face mark and its own side-cut number.",
    lambda answer: (
        lengths.plan_number(answer) * cos(radians(answer.question.other_pitch.slope_deg))
    ),
)
slip(
    "edge_number",
    "both-roofs-exchanged",
    "The two roofs are exchanged throughout.",
    "Each roof has its own face mark and its own side-cut number.",
    lambda answer: (
        144.0 / lengths.plan_number(answer) * cos(radians(answer.question.other_pitch.slope_deg))
    ),
)
slip(
    "common_row",
    "rise-for-length",
    "Run and rise are added.",
    "The slope is shorter than the way around the corner of the triangle.",
    lambda answer: 12.0 + lengths.rise(answer),
)
slip(
    "common_row",
    "run-as-length",
    "The run is taken for the length.",
    "The rafter slopes, so it is longer than its run.",
    lambda _: 12.0,
)
