"""A framed roof and its sticks in sentences: heights, sides, lengths, and what is left open."""

from layout.answer.wording import pitch_words
from layout.framing.cutlist import stick_row
from layout.framing.roof import TrainingRoof
from layout.framing.stick import Stick
from layout.framing.trim_words import has_gables
from layout.quantity import write_long, write_short

LEFT_TO_DRAWINGS = (
    "Species and grade of lumber, and whether these sizes carry the loads.",
    "Ridge as board or beam, its posts; ceiling ties and collar ties, and what resists thrust.",
    "Fasteners, connectors, hold-downs and bearing; compare seats and notches with local code.",
    "Sheathing, bracing while framing, and the order of raising.",
    "Ventilation, openings, and everything that this packet does not name.",
)


def left_to_drawings(roof: TrainingRoof) -> list[str]:
    """What geometry does not decide, said once."""
    return [
        "Left to the approved drawings, local code and licensed practice:",
        *(f"- {line}" for line in (*LEFT_TO_DRAWINGS, *rakes_left_open(roof))),
    ]


def rakes_left_open(roof: TrainingRoof) -> tuple[str, ...]:
    """Where gables overhang, that nothing here carries them: one sentence, else none."""
    if not (has_gables(roof) and roof.plan.rake_overhang_in):
        return ()
    return (
        "How the gables' overhang is carried: the ridge and every other stick here end flush with"
        " the gable wall.",
    )


def facts(roof: TrainingRoof, *, metric: bool = False) -> list[str]:
    """Heights over the plate, seats, pitches and overhangs of every side, in sentences."""
    lines = [_mouth_words(roof, metric=metric)]
    ridges = [stick for stick in roof.sticks if stick.role == "ridge"]
    for stick in ridges:
        top = float(stick.corners[:, 2].max())
        height = write_long(top, metric=metric)
        lines.append(f"Top of ridge {stick.name}: {height} above the top of the plates.")
    sides = dict.fromkeys(
        f"{face.name} {pitch_words(face.pitch, metric=metric)},"
        f" overhang {write_short(face.overhang_in, metric=metric)}"
        for face in roof.faces
    )
    thick = roof.plan.fascia_in
    fascia = f", which is {write_short(thick, metric=metric)} thick" if thick else ""
    lines.append(
        f"Sides: {'; '.join(sides)}. Overhangs are level, to the outside of the fascia{fascia}."
    )
    if has_gables(roof) and roof.plan.rake_overhang_in:
        over = write_short(roof.plan.rake_overhang_in, metric=metric)
        lines.append(f"Gables overhang {over}, level, to the outside of the rake board.")
    return lines


def _mouth_words(roof: TrainingRoof, *, metric: bool) -> str:
    """The commons' seats and heels, told by sides where unlike pitches make them unlike."""

    def say(value_in: float) -> str:
        return write_short(value_in, metric=metric)

    above = say(roof.plan.mouth.height_above_plate_in)
    height = f"height above plate {above} plumb at the outside of the wall"
    sides: dict[tuple[str, str], list[str]] = {}
    for face in roof.faces:
        mouth = roof.plan.mouth_of(face.pitch)
        sides.setdefault((say(mouth.seat_in), say(mouth.heel_in)), []).append(face.name)
    if len(sides) == 1:
        ((seat, heel),) = sides
        return f"Seat of the commons {seat} level; {height}; heel {heel} plumb."
    told = [
        f"on {', '.join(names)} seat {seat} level, heel {heel} plumb"
        for (seat, heel), names in sides.items()
    ]
    return f"Commons: {'; '.join(told)}; {height}."


def length_words(stick: Stick, *, metric: bool = False) -> str:
    """A stick's lengths in one sentence, with where they are measured from."""
    row = stick_row(stick).lengths

    def say(value_in: float) -> str:
        return write_long(value_in, metric=metric)

    ends = [f"long point {say(row.long_in)}", f"short point {say(row.short_in)}"]
    if abs(row.long_in - row.short_in) < 1e-6:
        ends = [f"length {say(row.long_in)}"]
    else:
        ends.insert(1, f"middle {say(row.centre_in)}")
    tail = f"; tail {say(row.tail_in)} more" if row.tail_in else ""
    start = (
        "from the plumb line over the outside of the wall"
        if stick.on_plate
        else "from cut to cut on one line"
    )
    return (
        f"Along the top edge, {start}: {', '.join(ends)}{tail}. Takes {say(row.blank_in)} of board"
    )
