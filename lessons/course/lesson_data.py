"""What a lesson consists of: texts to fill, and the cut they are about."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from layout.cuts import End, Entry
from lessons.course.condition import ALWAYS, Condition
from lessons.course.named_text import NamedText

PICTURES = (
    "plan",
    "pictorial",
    "faces",
    "square-on-face",
    "square-on-edge",
    "saw-front",
    "unfolded",
    "wrong-tilt",
    "saw",
    "both-faces",
    "miter-saw",
    "along",
    "middle",
    "cross-read",
    "three-triangles",
    "stepping",
    "tail-stepping",
    "jack-row",
    "ridge-taken-off",
    "rule-across",
    "center-line",
    "far-faces",
    "other-end",
)
"""The pictures a lesson may ask for by name."""

MITER_MISTAKE = "flat-tilt-on-edge"

DrillKind = Literal["number", "choose", "find-error", "dispute", "mark"]


@dataclass(frozen=True)
class Step:
    """One thing to do or to know, the picture or table that shows it, and when it holds."""

    say: NamedText
    picture: str | None = None
    when: Condition = ALWAYS
    table: str | None = None


@dataclass(frozen=True)
class Warned:
    """A known mistake that the lesson warns of, by name, and what the lesson adds to it.

    `where` is the file and line that name it.
    """

    name: str
    say: NamedText | None
    when: Condition = ALWAYS
    where: str = ""


@dataclass(frozen=True)
class Drill:
    """A kind of problem: what is asked, the value that answers it, hints, and the reason.

    `when` tells in which roofs it can be asked.
    """

    kind: DrillKind
    ask: NamedText
    answer: str | None
    mistake: str | None
    hints: tuple[NamedText, ...]
    because: NamedText
    when: Condition = ALWAYS


@dataclass(frozen=True)
class Stated:
    """Settings that the lesson states outright, to be held against the joint.

    They are stated for the lesson's own roof and board with `given` in their place, or, where
    it has a `when`, for every roof in which that holds. `face` and `edge` are numbers on the
    square, the one marked along first; `tilt_deg` is the saw's [degrees]. `line` is where the
    file says so.
    """

    line: int
    given: Mapping[str, str]
    when: Condition | None
    face: tuple[float, float] | None
    edge: tuple[float, float] | None
    tilt_deg: float | None


@dataclass(frozen=True)
class Lesson:
    """A lesson as it stands in its file: texts to fill, and the cut they are about.

    `drawn` finds the lesson's numbers by drawing, `aside` by a formula for those who want one.
    With `on_roof`, which is like `given`, every problem is put on that roof and board.
    """

    name: str
    path: str
    number: int
    title: str
    entry: Entry
    end: End | None
    able: NamedText
    given: Mapping[str, str]
    situation: tuple[Step, ...]
    by_hand: tuple[Step, ...]
    by_saw: tuple[Step, ...]
    agree: tuple[Step, ...]
    warned: tuple[Warned, ...]
    drills: tuple[Drill, ...]
    cautions: tuple[NamedText, ...]
    words: Mapping[str, str]
    stated: tuple[Stated, ...] = ()
    drawn: tuple[Step, ...] = ()
    aside: tuple[Step, ...] = ()
    teach: "Teach | None" = None
    on_roof: Mapping[str, str] | None = None

    @property
    def heading(self) -> str:
        """Its place in the course and its title: what it is called on pages and in lists."""
        return f"{self.number}. {self.title}"

    @property
    def taught_miter(self) -> bool:
        """Whether the lesson warns of a mistake on the miter saw: it has taught that saw, and a
        layout may have a line of it."""
        return any(warned.name == MITER_MISTAKE for warned in self.warned)


@dataclass(frozen=True)
class Teach:
    """What the one who teaches a lesson needs: time, materials, what goes wrong, what to ask,
    and what to measure on the cut piece besides its marks."""

    minutes: int
    bring: NamedText
    watch: NamedText
    ask: NamedText
    grade: NamedText | None = None
