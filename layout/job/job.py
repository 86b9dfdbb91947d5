"""A job's values as they were written: texts by name, and walls as they are walked.

A job holds texts, not measures: each command reads its own the way it reads its options, so a
wrong one is told in the same words. `layout.job.job_roof` frames it.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from difflib import get_close_matches

SECTIONS: dict[str, dict[str, str]] = {
    "roof": {
        "size": "length x width over the walls, such as 24' x 16'",
        "wing": "an L: length x width of the wing at the left end",
        "wing-at": "a T: the wing stands so far from the left corner",
        "equal": "equal walls in place of size: how many x how long, such as 8 x 6'",
        "pitch": "the main roof, such as 8 in 12",
        "end-pitch": "the hipped ends, where they differ",
        "wing-pitch": "the wing's sides, where they differ",
        "ends": "left and right end: hip, gable or bay, such as hip,gable",
        "wing-end": "hip or gable",
        "overhang": "level, to the outside of the fascia",
        "rake-overhang": "gables: level, to the outside of the rake board; 0 lays it on the wall",
        "fascia": "thickness of the fascia, and of rake boards",
        "seat": "level seat of a common; the plate's width where nothing is said",
        "hip-way": "backed, dropped or shifted",
        "hip-head": "commons (between two commons) or ridge (on its side)",
        "high-wall": "plate (rafters bear on it) or ledger (they are cut to it)",
    },
    "layout": {
        "spacing": "rafters on center",
        "start": "end common (jacks laid down from it) or corner (laid from the corner)",
        "first": "the first jack from each corner, where layout starts at the corner",
    },
    "stock": {
        "rafter": "commons and jacks: a name such as 2x6, or a real size",
        "hip": "hips",
        "valley": "valleys",
        "ridge": "ridges",
        "plate": "plates",
    },
    "saw": {
        "kind": "blade-left, blade-right or tilts-both-ways",
        "tilt-step": "division of its tilt scale, in degrees",
        "max-tilt": "how far it tilts, in degrees",
        "blade-depth": "saw blade below the shoe when it stands square",
        "tolerance": "widest gap that will do",
    },
    "print": {
        "units": "inch or metric",
        "paper": "Letter, Legal, Tabloid, A4, A3, a roll, or WxH",
        "printer": "the name under which a printer's correction is kept",
    },
}
"""Every value of a job by section, with what it is."""
WALL: dict[str, str] = {
    "length": "along its outside",
    "turn": "degrees at its end, plus to the left (90 at a square corner, -90 at an inside one)",
    "kind": "eave, gable or high",
    "pitch": "of the roof over this eave, where it differs",
    "name": "what the plan calls it",
}
CHOICES: dict[str, tuple[str, ...]] = {
    "hip-way": ("backed", "dropped", "shifted"),
    "hip-head": ("commons", "ridge"),
    "high-wall": ("plate", "ledger"),
    "start": ("end common", "corner"),
    "kind": ("blade-left", "blade-right", "tilts-both-ways"),
    "units": ("inch", "metric"),
}
WALL_KINDS = ("eave", "gable", "high")


@dataclass(frozen=True)
class Job:
    """One job: its `name`, the texts of its values by name, and its walls, if it names them."""

    name: str
    texts: Mapping[str, str] = field(default_factory=dict)
    walls: tuple[Mapping[str, str], ...] = ()

    def said(self, name: str, usual: str) -> str:
        """A value's text, or the usual one."""
        return self.texts.get(name, usual)

    def given(self, name: str) -> str | None:
        """A value's text, None where the job says nothing."""
        return self.texts.get(name)


def nearest_word(word: str, known: tuple[str, ...]) -> str:
    """An offer of the nearest known word, or of the first few of them."""
    near = get_close_matches(word, known, n=1, cutoff=0.5)
    some = ", ".join(known[:12]) + (" ..." if len(known) > 12 else "")
    return f"did you mean {near[0]!r}?" if near else f"give one of {some}"
