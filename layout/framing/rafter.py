"""Commons, jacks and cripples: rafters that run straight up one face, cut by what bounds it."""

from collections.abc import Sequence
from dataclasses import dataclass

from layout.framing.carrier import Carrier, pruned
from layout.framing.face import Face
from layout.framing.stick import CatalogueCut, CutPlane, Stick, WasteRegion, plane_at
from layout.plane.pose import lay
from layout.stock import Stock
from layout.vector import Z, dot


@dataclass(frozen=True)
class Edge:
    """A hip, valley or ridge along a face, over a stretch of positions on its eave [inches].

    Rafters whose middle lies from `low_in` to `high_in` are laid to it. Its plane bounds every
    rafter of the set: where two edges meet in an outward corner, a rafter that straddles it is
    cut by both, and elsewhere the second plane passes it by.
    """

    line: Carrier
    low_in: float
    high_in: float


def rafter(
    face: Face,
    edges: Sequence[Edge],
    position_in: float,
    stock: Stock,
) -> Stick:
    """The rafter whose middle stands at a position on the face's eave.

    A rafter that rises from the eave has its datum on the building line; one that rises from a
    valley, over the valley's line. Its working name is its place.
    """
    head_edge = _edge_at(edges, position_in, "head")
    foot_edge = _edge_at(edges, position_in, "foot")
    start = 0.0 if foot_edge is None else foot_edge.line.run_in(face, position_in)
    on_plate = foot_edge is None
    removals: list[WasteRegion] = [(edge.line.mate_plane(face),) for edge in edges]
    removals += foot_cuts(face)
    run = 0.0 if head_edge is None else head_edge.line.run_in(face, position_in) - start
    return on_face(face, position_in, start, run, stock, removals, on_plate)


def on_face(
    face: Face,
    position_in: float,
    start_in: float,
    run_in: float,
    stock: Stock,
    removals: Sequence[WasteRegion],
    on_plate: bool,
) -> Stick:
    """A board straight up a face at a position on its eave, its top edge in the roof.

    Its datum is `start_in` of level run from the building line, its theoretical length the
    `run_in` from there up the slope.
    """
    pose = lay(face.upslope, Z)
    datum = face.lifted(face.on_eave(position_in, start_in))
    origin = datum - stock.thickness_in / 2 * pose.left - stock.depth_in * pose.up
    stretch = 1.0 / float(dot(face.upslope, face.inward))
    stick = Stick(
        f"{face.name} at {position_in:g} in",
        "common",
        face.name,
        stock,
        pose,
        origin,
        tuple(removals),
        run_in * stretch,
        on_plate,
    )
    stick = pruned(stick)
    return stick.called(stick.name, role_of(stick))


def foot_cuts(face: Face) -> tuple[WasteRegion, WasteRegion]:
    """A rafter's tail behind the fascia, and its bird's mouth on the plate."""
    return (_tail(face),), _notch(face)


def without_notch(stick: Stick) -> tuple[WasteRegion, ...]:
    """A rafter's removals but for its bird's mouth."""
    return tuple(r for r in stick.removals if all(p.says != "common-seat" for p in r))


def planed(hip: Carrier, face: Face) -> CutPlane:
    """The roof beyond a hip, under which a common at the hip's top must keep its corner.

    Half its thickness lies beyond the hip's line; where that roof is the steeper, its top
    arris would stick out there.
    """
    other = hip.other if face is hip.own else hip.own
    return plane_at(other.normal, other.lifted(other.origin), "planed corner", "head")


def role_of(stick: Stick) -> str:
    """The trade's name for a rafter, from the sticks it really meets."""
    met = {plane.says for plane in stick.planes}
    if "hip-jack" in met or "valley cheek" in met:
        return "cripple jack" if "valley-jack" in met else "hip jack"
    return "valley jack" if "valley-jack" in met else "common"


def _edge_at(edges: Sequence[Edge], position_in: float, end: str) -> Edge | None:
    for edge in edges:
        if (edge.line.kind == "valley") == (end == "foot") and (
            edge.low_in <= position_in <= edge.high_in
        ):
            return edge
    return None


def _tail(face: Face) -> CutPlane:
    cut = "common-tail-plumb"
    asked = CatalogueCut(cut, face.pitch, face.pitch, 90.0, "foot")
    return plane_at(-face.inward, face.origin - face.tail_run_in * face.inward, cut, "foot", asked)


def _notch(face: Face) -> WasteRegion:
    seat = CatalogueCut("common-seat", face.pitch, face.pitch, 90.0, "foot")
    heel = CatalogueCut("common-heel", face.pitch, face.pitch, 90.0, "head")
    return (
        plane_at(-Z, face.origin, "common-seat", "foot", seat),
        plane_at(face.inward, face.origin, "common-heel", "foot", heel),
    )
