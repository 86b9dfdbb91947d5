"""Numbers printed in handbooks, against what `layout` reads off its planes.

Each `_cuts.csv` in this folder names its source, its columns and its tolerances. Lengths of rafters
are not here. Known misprints of the sources are left out, as each file says.
"""

import csv
from pathlib import Path

import numpy as np
import pytest

from layout.cuts import catalogue
from layout.plane.corner import Corner
from layout.quantity import read_number, read_pitch
from layout.stock import Stock, read_stock

FOLDER = Path(__file__).parent


def roof(row):
    own = read_pitch(f"{row['rise']} in {row['run'] or 12}")
    other = own
    if row["other_rise"]:
        other = read_pitch(f"{row['other_rise']} in {row['other_run']}")
    return Corner(own.slope_deg, other.slope_deg, float(row["corner_deg"] or 90))


def first_cut(name, row):
    stock = read_stock(catalogue()[name].stock)
    if row["thickness_in"]:
        stock = Stock("as printed", float(row["thickness_in"]), stock.depth_in)
    return catalogue()[name].joint(roof(row)).cuts(stock)[0]


def from_length(cut):
    return 90 - float(cut.edge_mark_deg)


def backing_setback(row):
    """Level from the middle of the hip to where its pitch has fallen by the plumb drop."""
    corner, cut = roof(row), first_cut("hip-backing", row)
    heights = cut.corners()[:, 2]
    plumb_drop = np.ptp(heights) / np.cos(np.radians(corner.line_slope_deg))
    return plumb_drop / corner.line_rise


def tail_setback(row):
    """Level along the hip from its point back to the end of the cheek on the face."""
    corner, cut = roof(row), first_cut("hip-tail", row)
    along = abs(cut.left_lean) * float(row["thickness_in"]) / 2
    return along * np.cos(np.radians(corner.line_slope_deg))


READINGS = {
    "roof_angle_deg": lambda row: read_pitch(f"{row['rise']} in {row['run']}").slope_deg,
    "pitch_rise_on_12": lambda row: read_pitch(row["rise"]).rise_in_12,
    "hip_run_on_12": lambda row: 12 * roof(row).unit_run,
    "hip_run_of_6": lambda row: 6 * roof(row).unit_run,
    "hip_run_feet": lambda row: float(row["run"]) * roof(row).unit_run,
    "hip_rise_on_12": lambda row: 12 * roof(row).line_rise,
    "hip_slope_deg": lambda row: 90 - float(first_cut("hip-seat", row).face_mark_deg),
    "jack_side_number": lambda row: first_cut("hip-jack", row).edge_number,
    "jack_side_deg": lambda row: from_length(first_cut("hip-jack", row)),
    "jack_tilt_deg": lambda row: first_cut("hip-jack", row).face_tilt_deg,
    "hip_side_deg": lambda row: from_length(first_cut("hip-ridge-single", row)),
    "roof_board_deg": lambda row: float(first_cut("roof-board", row).face_mark_deg),
    "polygon_mitre_deg": lambda row: float(first_cut("fascia-plumb", row).edge_mark_deg),
    "polygon_mitre_on_12": lambda row: 144 / first_cut("fascia-plumb", row).edge_number,
    "backing_setback": backing_setback,
    "tail_setback": tail_setback,
}


def tables():
    for path in sorted(FOLDER.glob("*_cuts.csv")):
        lines = path.read_text().splitlines()
        head = [line for line in lines if line.startswith("#")]
        assert any(line.startswith("# source:") for line in head), f"{path.name} names no source"
        assert any(line.startswith("# tolerance:") for line in head), f"{path.name}: tolerance?"
        for row in csv.DictReader(line for line in lines if not line.startswith("#")):
            label = f"{path.stem}: {row['quantity']}, {row['section']}"
            yield pytest.param(row, id=label)


@pytest.mark.parametrize("row", list(tables()))
def test_a_printed_number_is_met_within_its_tolerance(row):
    printed = (
        read_number(row["printed"])
        if row["printed"]
        else np.degrees(np.arctan2(read_number(row["held"]), read_number(row["cut_on"])))
    )
    assert row["unit"]
    assert READINGS[row["quantity"]](row) == pytest.approx(printed, abs=float(row["tolerance"]))


def test_every_reading_is_used():
    used = {parameter.values[0]["quantity"] for parameter in tables()}
    assert used == set(READINGS)
