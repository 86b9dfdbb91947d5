"""A cut as some setting makes it, slid along its board until it touches its mate.

The view is along the line in which the plane that was cut and the plane of the mate meet: both
are seen edge-on there.
"""

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
import shapely

from figures.ink.drawing import Polygon
from figures.place.placing import largest
from figures.wood.drawn_solid import DrawnSolid
from figures.wood.projection import View
from figures.wood.unfolded import half_spaces, square_across, stick
from layout.answer.answer import Answer
from layout.tools.fit import SOUND_IN, Fit
from layout.tools.setting import Setting
from layout.vector import Array, X, Y, Z, cross, unit

THIN = 0.05
"""A wedge with less area than this share of its width squared is no wedge to look at."""
_SNAP = 1e-6
_FAR_IN = 1e3


@dataclass(frozen=True)
class StoodCut:
    """The made cut against its mate, in the view where both planes are seen edge-on.

    On the paper the mate's surface is the line r = 0 and the stick lies to its left. `corners`
    (4, 2) are the corners of the cut there, in the order of `Cut.corners` [in of wood]. `uncut`
    is the stick before this cut was made. `metric` has the gap written in millimeters.
    """

    view: View
    solid: DrawnSolid
    uncut: DrawnSolid
    corners: Array
    fit: Fit
    along: str
    metric: bool = False

    @property
    def widest(self) -> Array:
        """The corner at which the widest gap opens (2,) [in of wood]."""
        corner: Array = self.corners[int(np.argmax(self.fit.gaps_in))]
        return corner

    @property
    def contact(self) -> Array:
        """A corner at which the cut touches its mate (2,) [in of wood]."""
        corner: Array = self.corners[int(np.argmin(self.fit.gaps_in))]
        return corner

    @cached_property
    def wedge(self) -> Polygon:
        """The gap between the cut and its mate, seen edge-on [in of wood].

        A cut made for the other hand runs away from its mate: then the wood that is missing up
        to the mate is the gap.
        """
        feet = self.corners * np.array([0.0, 1.0])
        hull = shapely.MultiPoint(np.concatenate([self.corners, feet])).convex_hull
        widest = float(self.fit.widest_in)
        if shapely.area(hull) > THIN * widest**2 or self.solid.hollow:
            return hull
        before = shapely.box(-_FAR_IN, -_FAR_IN, 0.0, _FAR_IN)
        missing = shapely.intersection(self.view.silhouette(self.uncut), before)
        missing = missing.difference(self.view.silhouette(self.solid))
        thick = missing.buffer(-_SNAP, join_style="mitre").buffer(_SNAP, join_style="mitre")
        return hull if thick.is_empty else largest(thick)


def standing(answer: Answer, setting: Setting) -> StoodCut:
    """The cut that a setting makes, slid along the board until it touches its mate."""
    true_answer = answer.cut
    normal = np.asarray(setting.normal, dtype=float)
    made = replace(true_answer, normal=normal)
    line = cross(true_answer.normal, normal)
    if float(np.hypot.reduce(line)) < SOUND_IN:
        line = Y if square_across(true_answer.normal) else cross(true_answer.normal, Y)
    line = unit(line)
    up = cross(line, true_answer.normal)
    world_up = float(answer.question.joint.pose.to_world(up)[2])
    if world_up < -_SNAP or (abs(world_up) <= _SNAP and up @ (Z + Y) < 0):
        up = -up
    view = View(true_answer.normal, up)
    reach = made.reached() @ true_answer.normal
    if true_answer.runs_along:
        step = -float(reach.max() - true_answer.normal @ true_answer.point) * true_answer.normal
    else:
        step = (
            -float((reach.max() - true_answer.normal @ true_answer.point) / true_answer.normal[0])
            * X
        )
    level = float(true_answer.normal @ true_answer.point)
    shown = stick(answer, kept_in=40.0, waste_in=40.0)
    cuts = tuple(made if i == answer.plane_index else cut for i, cut in enumerate(answer.cuts))
    solid = DrawnSolid(
        {name: side.moved(step) for name, side in shown.solid.sides.items()},
        tuple(space.moved(step) for space in half_spaces(cuts)),
        shown.removals,
    )
    uncut = solid.without(answer.plane_index)
    corners = view.seen(made.reached() + step) - np.array([level, 0.0])
    along = "along the line in which both planes meet"
    for surface, name in ((Y, "face"), (Z, "edge")):
        mark = cross(true_answer.normal, surface)
        size = float(np.hypot.reduce(mark))
        if size > _SNAP and abs(abs(float(mark @ line)) / size - 1) < 1e-9:
            along = f"along the {name} mark" if not answer.is_rip else "along the board"
            break
    return StoodCut(
        view,
        _moved_to(solid, view, level),
        _moved_to(uncut, view, level),
        corners,
        answer.fit(setting),
        along,
        answer.metric,
    )


def _moved_to(solid: DrawnSolid, view: View, level: float) -> DrawnSolid:
    """The solid moved so that the mate's plane passes through the origin."""
    step = -level * view.right
    return DrawnSolid(
        {name: side.moved(step) for name, side in solid.sides.items()},
        tuple(cut.moved(step) for cut in solid.cuts),
        solid.removals,
    )
