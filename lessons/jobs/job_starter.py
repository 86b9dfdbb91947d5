"""A new job file: every value with what it is, the usual one written in or commented out."""

from layout import usual
from layout.job.job import SECTIONS, WALL

WRITTEN: dict[str, str] = {
    "size": usual.SIZE,
    "pitch": usual.PITCH,
    "ends": usual.ENDS,
    "overhang": usual.OVERHANG,
    "rake-overhang": usual.RAKE_OVERHANG,
    "fascia": usual.FASCIA,
    "hip-way": "backed",
    "hip-head": "commons",
    "spacing": usual.SPACING,
    "start": "end common",
    "rafter": usual.RAFTER,
    "hip": usual.HIP,
    "valley": usual.VALLEY,
    "ridge": usual.RIDGE,
    "plate": usual.PLATE,
    "kind": "blade-left",
    "tilt-step": usual.TILT_STEP,
    "max-tilt": usual.MAX_TILT,
    "tolerance": usual.TOLERANCE,
    "units": "inch",
    "paper": usual.PAPER,
}
EXAMPLES: dict[str, str] = {
    "wing": "10' x 12'",
    "end-pitch": "12 in 12",
    "wing-pitch": "8 in 12",
    "wing-end": usual.WING_END,
    "seat": usual.SEAT,
    "wing-at": "0",
    "equal": "8 x 6'",
    "high-wall": "plate",
    "first": "16in",
    "blade-depth": "2 3/8",
    "printer": "shop",
}
WALLS: dict[str, str] = {
    "length": '"24 ft"',
    "turn": "90",
    "kind": '"eave"',
    "pitch": '"8 in 12"',
    "name": '"front"',
}


def starter(name: str) -> str:
    """A commented job file that frames the usual roof."""
    lines = [
        f"# {name}: one roof, said once for every command: squaresaw COMMAND ... --job {name}.toml",
        "# An option on the command line wins over this file. Lines that begin with # say nothing.",
        "# Take every measure from the approved drawings; local code and licensed practice govern.",
        "",
        f'name = "{name}"',
    ]
    for section, values in SECTIONS.items():
        lines += ["", f"[{section}]"]
        for key, what in values.items():
            lines.append(f"# {what}")
            off = "" if key in WRITTEN else "# "
            lines.append(f'{off}{key} = "{WRITTEN.get(key, EXAMPLES.get(key, ""))}"')
    lines += [
        "",
        "# In place of size, ends and wing: the walls as they are walked, building at the left.",
        "# [[wall]]",
    ]
    for key, what in WALL.items():
        lines += [f"# {what}", f"# {key} = {WALLS[key]}"]
    return "\n".join(lines) + "\n"
