"""A hip's square top edge under two roofs, seen along the hip: what stands out of them."""

from math import radians, tan

import shapely
import shapely.affinity

from figures.ink.drawing import Area, Drawing, Polygon, Stroke
from figures.place.dimension import dimension
from figures.place.placing import Words, from_labels, in_area
from figures.place.room import Picture, Room, in_room
from figures.wood.unfolded import broken
from layout.answer.answer import Answer
from layout.answer.wording import size_words
from layout.length.drop import CarrierTop, hip_top

BODY_IN = 2.0
"""How much of the hip's depth is shown [in of wood]."""
BESIDE = 1.0
"""How far the roofs are shown beside the hip, in thicknesses."""


def proud_of_roofs(answer: Answer, room: Room) -> Drawing:
    """The hip seen along its length, both roofs falling away, from (0, 0) to the room [in].

    This roof lies at the left. Gids: `hip`, `own-roof`, `other-roof`, `proud` for the wood
    that stands out, `proud-value` on its dimension square to the edge. Raises SheetError for a
    room that is too small, RoofError where a roof does not fall away from the hip.
    """
    asked = answer.question
    backed = hip_top(asked.corner, asked.stock)
    plumb = hip_top(asked.corner, asked.stock, "dropped").lowered_in
    own, other, drop = (
        size_words(v, 64, metric=answer.metric)
        for v in (backed.own_rip_in, backed.other_rip_in, plumb)
    )
    toward_other = backed.other_rip_in >= backed.own_rip_in
    square = other if toward_other else own
    stands = f"Square to the edge the arris stands {square} out; measured plumb that is"
    if own != other:
        whose, less = ("the other roof", own) if toward_other else ("this roof", other)
        stands = (
            f"Square to the edge the arris toward {whose} stands {square} out, the other arris"
            f" {less}; measured plumb the first is"
        )
    notes = ["Seen along the hip: its section is true.", f"{stands} {drop}, the drop."]
    heading = f"A square edge stands {drop} proud, measured plumb"
    return in_room(heading, notes, room, lambda factor: _picture(backed, square, factor))


def _picture(top: CarrierTop, said: str, factor: float) -> Picture:
    half, side = top.thickness_in / 2, top.thickness_in * (0.5 + BESIDE)
    hip = shapely.box(-half, -BODY_IN, half, 0.0)
    own = (-side, -side * tan(radians(top.own_bevel_deg)))
    other = (side, -side * tan(radians(top.other_bevel_deg)))
    under = shapely.Polygon([own, (0.0, 0.0), other, (other[0], -20.0), (own[0], -20.0)])
    proud = shapely.difference(hip, under)
    drawing = Drawing(
        (
            Stroke(((-half, -BODY_IN), (-half, 0.0), (half, 0.0), (half, -BODY_IN)), "cut", "hip"),
            Stroke((own, (0.0, 0.0)), "visible", "own-roof"),
            Stroke(((0.0, 0.0), other), "visible", "other-roof"),
        ),
        tuple(
            Area(part, "gap", "proud")
            for part in shapely.get_parts(proud)
            if part.geom_type == "Polygon"
        ),
    ).scaled(factor)
    foot = -BODY_IN * factor
    drawing += broken((-half * factor, foot), (half * factor, foot), 0.05)
    right = top.other_rip_in >= top.own_rip_in
    rip, x = (top.other_rip_in, half) if right else (top.own_rip_in, -half)
    ends = ((x * factor, 0.0), (x * factor, -rip * factor))
    away = 0.5 if right else -0.5
    lines = dimension(*ends, f"{said}\nsquare to the edge", away, 10.0, "proud-value")
    drawn, words = from_labels(
        lines, (x * factor + away, -rip * factor / 2), ways=(0.0 if right else 180.0,)
    )
    return (
        Picture(drawing)
        + Picture(drawn, words)
        + Picture(
            Drawing(),
            (
                *in_area("hip", _scaled(shapely.intersection(hip, under), factor), 9.0, bold=True),
                _beside("this roof", own, factor),
                _beside("the other roof", other, factor),
            ),
        )
    )


def _beside(text: str, end: tuple[float, float], factor: float) -> Words:
    """A roof's name at the end of its line."""
    return Words(
        text, (end[0] * 0.9 * factor, end[1] * 0.9 * factor), 9.0, bold=True, ways=(-90.0,)
    )


def _scaled(region: Polygon, factor: float) -> Polygon:
    return shapely.affinity.scale(region, factor, factor, origin=(0, 0))
