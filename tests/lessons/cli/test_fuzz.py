"""Random command lines: done or refused in one short line, soon, in little memory, no half file.

The words are drawn from every command's own options, with values that fit, nearly fit, or fit
nothing. The same seed draws the same lines; the long run draws ten thousand.
"""

import random
import re
import resource
import time

import pytest

from layout.cuts import catalogue
from lessons.cli.main import run
from tests.counts import LONG, count

QUICK = ("mark", "settle", "table", "length", "jacks", "roof", "cuts", "lesson")
DRAWN = ("template", "roof", "settle", "table")
"""Those that draw a file are tried more rarely: a page costs a hundred answers."""
LINES = count(10_000, 110)
PAGES = count(500, 4)
VALUES = (
    *("8", "12", "7 1/2 in 12", "8/12", "33.7deg", "0.25", "24", "90deg", "-3", "1e9", "nan", "∞"),
    *("2x6", "2x12", "4x8", "38mm x 140mm", "1x1", "0x6", "2x", "50x150", "x", "2x6x8"),
    *("12'", "7' 6 1/2", "16in", "400mm", "3 1/2", "0", "1/0", "10000'", "5⅜", "½"),
    *("90", "135", "270", "60", "179.9", "180", "0.001", "360", "left", "right", "head", "foot"),
    *("hip", "gable", "hip,gable", "Letter", "A4", "roll-24", "1x1in", "inch", "metric", "json"),
    *("plumb 8 in 12, saw 45", "saw 45", "edge 8 1/2 on 12", "", " ", "\t", "\x00", "\x1b[2J"),
    *("24' x 16'", "24 x 16", "1' x 1'", "9999' x 1'", "-", "--", "'", '"', "💣", "a" * 2000),
)
SELF, MOST_S, MOST_KB = resource.RUSAGE_SELF, 10.0, 500_000
FLAGS = ("--json", "--csv", "--on-valley", "--backed", "--all-round", "--no-templates")
_options = {}


def options_of(command, capsys):
    """The options that a command's help names."""
    if command not in _options:
        assert run([command, "-h"]) == 0
        said = capsys.readouterr().out
        named = re.findall(r"^ +(?:-\w, )?(--[a-z-]+)", said, flags=re.MULTILINE)
        _options[command] = [name for name in named if name not in ("--help", "--output")]
    return _options[command]


def line(rng, command, options):
    """One command line: a subject, mostly right, and up to five options, mostly with a value."""
    words = [command]
    if command in ("mark", "settle", "template", "lesson"):
        words.append(rng.choice([*catalogue(), "hip jack", "", "\x00"]))
    elif command == "length":
        words.append(rng.choice(["common", "jack", "hip", "valley", "ridge"]))
    elif command == "table":
        words += rng.choices(VALUES[:8], k=rng.randrange(3))
    for name in rng.choices(options, k=rng.randrange(6)) if options else ():
        words.append(name)
        if name not in FLAGS and rng.random() < 0.95:
            words.append(rng.choice(VALUES))
    return words


def tried(words, capsys, folder):
    """Run one line; returns the exit code once everything else about it is as it must be."""
    before, before_kb = sorted(folder.iterdir()), resource.getrusage(SELF).ru_maxrss
    started = time.process_time()
    code = run(words)
    spent = time.process_time() - started
    said, error = capsys.readouterr()
    assert code in (0, 2), words
    assert spent < MOST_S, words
    assert resource.getrusage(SELF).ru_maxrss < before_kb + MOST_KB, words
    if code == 2:
        assert error.startswith("squaresaw: "), words
        lines = error.splitlines()
        # Where no claim was understood, each is answered on a line of its own.
        assert len(lines) == 1 or words[0] == "settle", words
        assert all(len(one) <= 300 for one in lines), words
        assert not said or words[0] == "settle", words
        assert sorted(folder.iterdir()) == before, words
    assert "\x1b" not in said + error, words
    assert "Traceback" not in said + error, words
    return code


@pytest.mark.parametrize("part", range(10))
def test_random_lines(part, capsys, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("SQUARESAW_DATA", str(tmp_path / "data"))
    rng = random.Random(f"lines {part}")
    codes = set()
    for _ in range(LINES // 10):
        command = rng.choice(QUICK)
        codes.add(tried(line(rng, command, options_of(command, capsys)), capsys, tmp_path))
    assert codes <= {0, 2}
    if LONG:  # eleven lines of the default suite may all be refused, a thousand may not
        assert codes == {0, 2}, "the draw tries both good and bad lines"


def test_random_pages(capsys, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("SQUARESAW_DATA", str(tmp_path / "data"))
    rng = random.Random("pages")
    for i in range(PAGES):
        command = rng.choice(DRAWN)
        words = line(rng, command, options_of(command, capsys))
        if command in ("roof", "settle", "table"):
            words = [w for w in words if w not in ("--json", "--csv")]
        out = tmp_path / f"{i}.{rng.choice(['pdf', 'svg', 'png', 'txt'])}"
        code = tried([*words, "-o", str(out)], capsys, tmp_path)
        assert out.exists() <= (code == 0), words
