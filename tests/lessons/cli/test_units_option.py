"""`--units metric` says the same lengths in millimeters, in every command that prints lengths.

The conversions are this file's: 25.4 mm to the inch, a run of 300 mm where an inch square has 12.
"""

import json
import re
from math import sqrt

import pytest

from lessons.cli.main import COMMANDS, commands, run

INCHES = re.compile(r"\d(?:/\d+)? in\b(?! 300)|\d'-|\binch")
SAYS_NO_LENGTH = {"cuts", "class", "check", "bench", "live", "job", "packet"}
"""A packet takes the units of its job; the page of `bench` and `live` has a switch of its own."""


def said(capsys, *arguments):
    assert run(list(arguments)) == 0
    return capsys.readouterr().out


def options_of(name):
    """A command's options: each with whether it is a flag, and the word for its value."""
    app = commands([name])
    import typer.main

    made = typer.main.get_command(app)
    made = getattr(made, "commands", {name: made})[name]
    return {
        spelled: (bool(one.is_flag), one.metavar)
        for one in made.params
        for spelled in one.opts
        if spelled.startswith("--")
    }


def test_an_option_has_one_meaning_in_all_commands():
    known = {}
    for name in COMMANDS:
        for spelled, meaning in options_of(name).items():
            first, where = known.setdefault(spelled, (meaning, name))
            assert first == meaning, f"{spelled}: {first} in {where}, {meaning} in {name}"


@pytest.mark.parametrize("name", [one for one in COMMANDS if one not in SAYS_NO_LENGTH])
def test_what_prints_lengths_takes_units(name):
    assert "--units" in options_of(name)


@pytest.mark.parametrize(
    "arguments",
    [
        ("mark", "hip-jack", "--pitch", "9"),
        ("mark", "hip-backing", "--pitch", "9"),
        ("mark", "common-seat", "--pitch", "9", "--stock", "2x8"),
        ("length", "hip", "--run", "12' 6\"", "--pitch", "9"),
        ("jacks", "--pitch", "9"),
        ("settle", "hip-jack", "--pitch", "9", "--claim", "plumb 9 in 12, saw 39"),
        ("read", "hip-jack", "--pitch", "9", "--face", "9 in 12", "--edge", "8 3/8 on 12"),
    ],
    ids=" ".join,
)
def test_metric_has_no_inch_left(capsys, arguments):
    # What somebody claims is said back on the run of 12 on which it was said.
    said_back = ("CLAIM", "I heard", "instead", "looks like", "LOOKS LIKE")
    text = said(capsys, *arguments, "--units", "metric")
    ours = [line for line in text.splitlines() if not line.strip().startswith(said_back)]
    assert not [line for line in ours if INCHES.search(line)]
    assert "mm" in text


def test_mark_in_millimeters(capsys):
    found = json.loads(said(capsys, "mark", "hip-jack", "--pitch", "9", "--json"))
    text = said(capsys, "mark", "hip-jack", "--pitch", "9", "--units", "metric")
    assert "300 on the blade, 225 on the tongue" in text
    number = found["edge_mark"]["number_on_12"] * 25
    assert f"side-cut number {number:.0f} on 300 (exact {number:.1f})" in text
    # A 45 degree cheek is as far ahead as the board is thick, along a level board; the slope
    # stretches that by 15/12: from plane geometry.
    assert f"{round(1.5 * 15 / 12 * 25.4 * 2) / 2:g} mm past the left face" in text


def test_a_hips_length_in_millimeters(capsys):
    text = said(capsys, "length", "hip", "--run", "3600mm", "--pitch", "9", "--units", "metric")
    # The hip's level run is the diagonal of 3600 by 3600, its rise 9/12 of 3600.
    long_mm = sqrt(2 * 3600**2 + 2700**2)
    assert f"THEORETICAL {long_mm:.1f} mm" in text
    assert f"{long_mm / 3.6:.1f} for every 1000 mm" in text
    assert "12 of 424 and 225:" in text  # 3600 = 12 steps of 300
