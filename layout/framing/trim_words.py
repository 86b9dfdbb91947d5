"""Trim and roof boards in words: what the lists mean, and their cells for a printed table."""

from collections.abc import Callable, Sequence

from layout.framing.roof import TrainingRoof
from layout.framing.trim import CourseRow, TrimRow
from layout.quantity import write_degrees, write_feet

PrintedTable = tuple[list[str], list[list[str]]]
"""The heads of a table's columns, and its lines."""
Say = Callable[[float], str]
"""How a length is written [from inches]."""
FACING = "as seen from outside, facing that wall"
"""Where left and right are on a board of trim."""
COURSES = (
    "Course by course up the slope from over the outside of the wall, long edge down; square ends"
    f" at a rake. Left and right cut: {FACING}."
    " Over the eave lie whole courses and a strip down to the outside of the fascia: there each"
    " course below another changes as much the other way."
)


def trim_means(roof: TrainingRoof, say: Say = write_feet) -> str:
    """What the lengths of fascias and rake boards are, and where gables end."""
    told = f"Left and right end: {FACING}. Fascias: long point to long point on the outside."
    if not has_gables(roof):
        return told
    width = say(roof.plan.rake_width_in)
    told += (
        " Rake boards: along the edge, the same on both edges; each takes more board, here for a"
        f" width of {width}, which covers the rafters' plumb cut. A wider one takes more."
    )
    over = roof.plan.rake_overhang_in
    gables = "Gables have no overhang: a rake board lies on the gable wall."
    if over:
        gables = f"Gables overhang {say(over)}, level, to the outside of the rake board."
    return f"{told} {gables} A rake board runs to the outside of the fascia and covers its end."


def has_gables(roof: TrainingRoof) -> bool:
    """Whether any side of a roof ends over a gable."""
    return any(wall.kind == "gable" for wall in roof.surface.outline.walls)


def trim_table(rows: Sequence[TrimRow], say: Say = write_feet) -> PrintedTable:
    """Fascias and rake boards: their lengths, the board they take, and the cuts at their ends."""
    head = ["board", "side", "length", "takes", "left end", "right end"]
    lines = [
        [row.board, row.side, say(row.length_in), say(row.blank_in), row.left_end, row.right_end]
        for row in rows
    ]
    return head, _alike(lines, 1)


def course_table(rows: Sequence[CourseRow], say: Say = write_feet) -> PrintedTable:
    """Roof boards: the first course, what each course changes by, and the cuts at its ends."""
    head = ["side", "course", "at the eave", "each course", "courses", "over the eave"]
    head += ["left cut", "right cut"]
    lines = [
        [
            row.side,
            say(row.board_in),
            say(row.eave_in),
            ("+" if row.change_in > 0 else "") + say(row.change_in),
            str(row.courses),
            _over_eave(row, say),
            _board_cut(row.left_cut, row.left_mark_deg, row.left_tilt_deg),
            _board_cut(row.right_cut, row.right_mark_deg, row.right_tilt_deg),
        ]
        for row in rows
    ]
    return head, _alike(lines, 0)


def _alike(lines: Sequence[Sequence[str]], side: int) -> list[list[str]]:
    """Lines that differ in nothing but their side, whose cell is the one of this number, as one."""
    found: dict[tuple[str, ...], list[str]] = {}
    for line in lines:
        found.setdefault((*line[:side], *line[side + 1 :]), []).append(line[side])
    return [[*rest[:side], "; ".join(sides), *rest[side:]] for rest, sides in found.items()]


def _over_eave(row: CourseRow, say: Say) -> str:
    strip = f"a strip {say(row.strip_in)}" if row.strip_in else ""
    whole = str(row.overhang_courses) if row.overhang_courses else ""
    return " and ".join(part for part in (whole, strip) if part) or "-"


def _board_cut(name: str, mark_deg: float, tilt_deg: float) -> str:
    if name == "square":
        return name
    return f"{name}: face {write_degrees(mark_deg)}, tilt {write_degrees(tilt_deg)}"
