"""What a known mistake answers where a lesson asks for a value.

The mistake's settings cut a plane. A value is read from that plane exactly as the right one is
read from the joint's, but only where the mistake itself would lead to it: a mistake in setting
the saw says nothing about the edge mark, one in marking says nothing about the tilt.
"""

from dataclasses import dataclass, replace

from layout.answer import Answer
from layout.errors import LayoutError
from layout.setting import ByHand, BySaw, BySawOnEdge, RipByHand, RipBySaw, Setting
from lessons.mistakes import Made, Mistake, mistakes
from lessons.values import values

FACE = frozenset({"face_angle", "face_bevel", "face_blade", "face_tongue", "face_leans"})
EDGE = frozenset(
    {"edge_angle", "edge_bevel", "edge_blade", "edge_tongue", "edge_number", "edge_leans"}
)
BLADE = frozenset({"blade_on_cheek_face", "blade_on_far_face"})
WOOD = frozenset({"longer_by", "runs_down_face"})
"""Values that are measured on the wood after any cut that ends it."""
SAID: dict[type[Setting], frozenset[str]] = {
    ByHand: FACE | EDGE | WOOD,
    BySaw: FACE | BLADE | WOOD | {"tilt", "edge_leans"},
    BySawOnEdge: EDGE | WOOD | {"edge_tilt"},
    RipByHand: frozenset(),
    RipBySaw: frozenset({"tilt"}),
}
"""The values that each kind of setting answers."""
SAME = 1e-9
"""A mistake whose value is this near the right one does not show in it."""


@dataclass(frozen=True)
class Wrong:
    """A mistake's answer to what is asked, and the gap that its cut leaves [inches]."""

    made: Made
    value: float | str

    @property
    def mistake(self) -> Mistake:
        """The mistake."""
        return self.made.mistake


def misread(right: Answer, setting: Setting) -> Answer:
    """The same question answered from the plane that a wrong setting cuts."""
    cuts = list(right.cuts)
    cuts[right.which] = replace(right.cut, normal=setting.normal)
    return replace(right, cuts=tuple(cuts))


def made_here(right: Answer) -> tuple[Made, ...]:
    """Every mistake that can be made on this cut and costs something, in the order of names."""
    made = []
    for name in sorted(mistakes()):
        try:
            one = mistakes()[name].made_on(right)
        except LayoutError:
            continue  # the roof the mistake would need cannot be framed
        if one is not None:
            made.append(one)
    return tuple(made)


def wrong_answers(
    right: Answer, name: str, arguments: tuple[str, ...] = ()
) -> tuple[Wrong, ...]:
    """What each known mistake answers when the value `name` is asked for.

    Left out are those that give the right value, or none.
    """
    if not any(name in said for said in SAID.values()):
        return ()
    read = values()[name].read
    true = read(right, *arguments)
    found = []
    for made in made_here(right):
        if name not in SAID[type(made.setting)]:
            continue
        try:
            value = read(misread(right, made.setting), *arguments)
        except LayoutError:
            continue  # that plane shows no such value: its mark runs square across
        if not same(value, true):
            found.append(Wrong(made, value))
    return tuple(found)


def same(one: float | str, other: float | str) -> bool:
    """Whether two values are one and the same."""
    if isinstance(one, str) or isinstance(other, str):
        return one == other
    return abs(one - other) <= SAME
