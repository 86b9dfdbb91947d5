"""Rows of a packet, and of a roof: every stick with its planes, lengths and pages."""

from typing import TYPE_CHECKING

from layout.framing.cutlist import piece_groups, stick_row
from layout.framing.ends import datum_of, place_of
from layout.framing.roof import TrainingRoof
from layout.framing.stick import Stick
from layout.framing.trim import trim_rows, usual_courses
from layout.records import as_row
from lessons.cli.tabular import SCHEMA, csv_rows
from lessons.say.contract import JsonObject

if TYPE_CHECKING:
    from figures.packet.packet import Packet


def stick_json(stick: Stick, piece: str, sheet: int | None = None) -> JsonObject:
    """One stick: its row, its piece, the page of its sheet, and its planes in board axes.

    A plane's point lies on it, from the stick's own datum x = 0 [inches]; `removal` numbers the
    wood that it bounds with others.
    """
    at, words = datum_of(stick)
    return {
        **as_row(stick_row(stick)),
        "piece": piece,
        "sheet_page": sheet,
        "datum": {"x_in": at, "words": words},
        "planes": [
            {
                "removal": number,
                "place": place_of(stick, removal),
                "cut": plane.says,
                "mate": plane.mate or None,
                "normal": [float(part) for part in stick.cut(plane).normal],
                "point_in": [float(part) for part in stick.cut(plane).point],
            }
            for number, removal in enumerate(stick.removals)
            for plane in removal
        ],
    }


def sticks_json(roof: TrainingRoof, sheets: dict[str, int] | None = None) -> list[JsonObject]:
    """Every stick of a roof, in the order of its cut list's rows."""
    pages = sheets or {}
    return [
        stick_json(stick, piece, pages.get(piece))
        for piece, sticks in piece_groups(roof).items()
        for stick in sticks
    ]


def contract(roof: TrainingRoof, made: "Packet") -> JsonObject:
    """The whole packet as one object."""
    return {
        "schema": SCHEMA,
        "pages": len(made.pages),
        "trim": [as_row(row) for row in trim_rows(roof)],
        "courses": [as_row(row) for row in usual_courses(roof)],
        "parts": [{"name": name, "page": page} for name, page in made.parts],
        "sticks": [
            {**row, "template_pages": list(made.templates[row["piece"]])}
            for row in sticks_json(roof, made.sheets)
        ],
    }


def csv(roof: TrainingRoof, made: "Packet") -> str:
    """The same rows as CSV: a line a stick, its pages behind its lengths."""
    rows = [
        {
            **{key: value for key, value in row.items() if key not in ("planes", "datum")},
            "template_pages": " ".join(map(str, made.templates[row["piece"]])),
        }
        for row in sticks_json(roof, made.sheets)
    ]
    return csv_rows(rows)
