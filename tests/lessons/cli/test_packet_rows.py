"""A packet's and a roof's rows: the same as CSV and as JSON."""

import csv
import io
import json
from functools import cache

import pytest

from figures.packet.packet import Packet
from layout.framing.cutlist import piece_groups
from layout.job.job import Job
from layout.job.job_roof import framed
from lessons.cli import packet_rows
from lessons.cli.roof_lists import LISTS, list_rows
from lessons.cli.tabular import csv_text, json_lists


@cache
def roof():
    return framed(Job("yard", {"size": "16' x 10'", "spacing": "48in", "ends": "hip,gable"}))


def test_a_packets_csv_and_json_have_the_same_rows():
    marks = list(piece_groups(roof()))
    made = Packet((), (), dict.fromkeys(marks, 7), dict.fromkeys(marks, (20, 21)))
    told = packet_rows.contract(roof(), made)["sticks"]
    lines = list(csv.DictReader(io.StringIO(packet_rows.csv(roof(), made))))
    assert [line["name"] for line in lines] == [row["name"] for row in told]
    assert {line["name"] for line in lines} == set(roof().by_name)
    for line, row in zip(lines, told, strict=True):
        assert line["template_pages"] == " ".join(map(str, row["template_pages"]))
        for key in ("piece", "role", "stock", "hand", "mates", "sheet_page"):
            assert line[key] == str(row[key]), key
        for key in ("long_in", "centre_in", "short_in", "tail_in", "blank_in"):
            assert float(line[key]) == pytest.approx(row[key], abs=1e-9)


@pytest.mark.parametrize("name", LISTS)
def test_a_roofs_csv_and_json_have_the_same_rows(name):
    rows = list_rows(roof(), name)
    told = json.loads(json_lists({name: rows}))[name]
    lines = list(csv.DictReader(io.StringIO(csv_text(rows))))
    assert len(lines) == len(told) == len(rows) > 0
    for line, row in zip(lines, told, strict=True):
        assert set(line) == set(row)
        for key, text in line.items():
            value = row[key]
            if isinstance(value, float):
                assert float(text) == pytest.approx(value, abs=1e-9)
            else:
                assert text == ("" if value is None else str(value)), key
