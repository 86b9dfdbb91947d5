"""Files that were damaged: a lesson, a job, claims. Read, or refused in one short line; never more.

A good file loses a line, has one twice, gets other letters, other values or an end before its
end. The same number damages the same way; the long run makes ten thousand files.
"""

import random
import resource
import time

import pytest

from lessons.cli.main import run
from tests.counts import drawn
from tests.small_lessons import CHEEK

FILES = {"lesson": drawn(5000, 12), "job": drawn(4000, 15), "claims": drawn(1000, 2)}
"""Claims are judged in many roofs: one file of them takes what many of the others do."""
MOST_S, MOST_KB = 10.0, 500_000
JOB = """name = "yard"
[roof]
size = "10' x 8'"
pitch = "8 in 12"
ends = "hip,gable"
overhang = "12in"
[layout]
spacing = "24in"
[stock]
rafter = "2x6"
"""
CLAIMS = """hip-jack, pitch 8: the side-cut number is the saw's angle
hip-jack, pitch 8, corner 135: half the corner on the saw
common-ridge, pitch 6: plumb 6, saw square
"""
HOSTILE = (
    *('"inf"', '"nan"', "[]", "{}", "true", "-1", "0", "9" * 5000, '"' + "a" * 5000 + '"', "1e400"),
    *("[" * 3000, "{a=" * 500, '"\\u001b[2J"', "1979-05-27", '"{tilt:deg}"', '"{nothing}"', "'''"),
    *('"=1+1"', '"<b>"', '"../../x"', '""', "\x00", "\ud800", "\ufeff", "\u202e", "💣", "[x]\n"),
)
LESSON, JOB_FILE, CLAIM_LINES = "yard-cheek.toml", "yard.toml", "said.txt"
KINDS = {
    "lesson": (CHEEK, LESSON, ("lesson", "yard-cheek", "--catalog", ".")),
    "job": (JOB, JOB_FILE, ("job", "check", JOB_FILE)),
    "claims": (CLAIMS, CLAIM_LINES, ("settle", "hip-jack", "--claims-from", CLAIM_LINES)),
}


def damaged(rng: random.Random, text: str) -> bytes:
    """The text with one to three faults, as it would lie on the disk."""
    for _ in range(rng.randint(1, 3)):
        lines = text.splitlines(keepends=True) or ["\n"]
        at = rng.randrange(len(lines))
        match rng.randrange(7):
            case 0:
                del lines[at]
            case 1:
                lines.insert(at, lines[at])
            case 2:
                key, equals, _ = lines[at].partition("=")
                lines[at] = f"{key}{equals}{rng.choice(HOSTILE)}\n"
            case 3:
                cut = rng.randrange(len(lines[at]))
                lines[at] = lines[at][:cut] + rng.choice(HOSTILE) + lines[at][cut:]
            case 4:
                cut = rng.randrange(len(lines[at]))
                lines[at] = lines[at][:cut] + chr(rng.randrange(1, 0x3000)) + lines[at][cut + 1 :]
            case 5:
                lines = lines[: at + 1]
            case _:
                other = rng.randrange(len(lines))
                lines[at], lines[other] = lines[other], lines[at]
        text = "".join(lines)
    raw = text.encode("utf-8", "surrogatepass")
    if rng.random() < 0.1:
        cut = rng.randrange(len(raw) + 1)
        raw = raw[:cut] + bytes([rng.randrange(256)]) + raw[cut + 1 :]
    return raw


@pytest.mark.parametrize("kind", KINDS)
def test_a_damaged_file_is_read_or_refused_in_one_line(kind, capsys, tmp_path, monkeypatch):
    text, name, command = KINDS[kind]
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("SQUARESAW_DATA", str(tmp_path / "data"))
    codes = []
    (tmp_path / name).write_text(text, encoding="utf-8")
    codes.append(run(list(command)))  # as it is: nothing is wrong with it
    capsys.readouterr()
    before_kb = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    for number in FILES[kind]:
        (tmp_path / name).write_bytes(damaged(random.Random(f"{kind} {number}"), text))
        before = sorted(tmp_path.iterdir())
        started = time.process_time()
        codes.append(run(list(command)))
        assert time.process_time() - started < MOST_S
        out, error = capsys.readouterr()
        assert "Traceback" not in out + error
        assert "\x1b" not in out + error
        assert codes[-1] in (0, 2)
        assert sorted(tmp_path.iterdir()) == before
        if codes[-1] == 2 and kind != "claims":
            assert error.startswith("squaresaw: ")
            assert error.count("\n") == 1
        assert all(len(one) <= 301 for one in error.splitlines())
    assert codes[0] == 0
    assert 2 in codes or kind == "claims"
    assert resource.getrusage(resource.RUSAGE_SELF).ru_maxrss < before_kb + MOST_KB
