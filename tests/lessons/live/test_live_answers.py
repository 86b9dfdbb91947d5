"""What the live page says, against the commands, for many drawn questions; and under load."""

import html
import json
import re
import statistics
import threading
import time
import unicodedata
from random import Random
from urllib.parse import urlencode

import pytest

from layout.cuts import catalogue
from layout.quantity import read_pitch, write_degrees, write_fraction
from lessons.cli.main import run
from tests.counts import LONG, count


def plain(text):
    return " ".join(text.split())


def said(body):
    """The words of a page's copy text."""
    return html.unescape(re.search(r'<pre id="said" hidden>(.*?)</pre>', body, re.DOTALL)[1])


def drawn(rng):
    entry = rng.choice(list(catalogue().values()))
    filled = {"pitch": f"{rng.randrange(4, 37) / 2:g} in 12"}
    if rng.random() < 0.4:
        filled["other_pitch"] = f"{rng.randrange(4, 37) / 2:g}"
    if rng.random() < 0.3:
        filled["corner"] = str(rng.randrange(40, 175))
    if rng.random() < 0.5:
        filled["stock"] = rng.choice(["2x4", "2x8", "38mm x 140mm", "4x6", "1 1/2 x 7 1/4"])
    if entry.two_hands and rng.random() < 0.5:
        filled["hand"] = "right"
    return entry.name, filled


def test_numbers_and_words_are_the_commands(served, capsys):
    rng = Random(1618)
    answered = 0
    for _ in range(count(300, 15)):
        cut, filled = drawn(rng)
        status, body = served.text(f"/marks/{cut}?{urlencode(filled)}")
        options = [f"--{name.replace('_', '-')}={text}" for name, text in filled.items()]
        capsys.readouterr()
        code = run(["mark", cut, *options])
        out, err = capsys.readouterr()
        if code:
            assert status == 422
            assert (
                html.escape(err.removeprefix("squaresaw: ").strip())
                .replace("&#x27;", "&#39;")
                .replace("&quot;", "&#34;")
                in body
            )
            continue
        answered += 1
        assert status == 200
        assert said(body) == out.rstrip("\n")
        assert run(["mark", cut, *options, "--json"]) == 0
        told = json.loads(capsys.readouterr().out)
        numbers = re.findall(r"<dd>(.*?)</dd>", body)[:3]
        assert numbers == [
            write_degrees(told["face_mark"]["from_square_deg"]),
            write_degrees(told["edge_mark"]["from_square_deg"]),
            write_degrees(told["saw"]["on_face"]["tilt_deg"]),
        ]
    assert answered > count(150, 6)


CLAIMS = (
    ("plumb 12 in 12, saw 45", "plumb 12 in 12, edge 12 on 12"),
    ("plumb 8 in 12, saw 30", "the jack is 14 3/8 shorter than the next"),
    ("fifty on the saw", "it was a nice day"),
)


@pytest.mark.parametrize(("one", "other"), CLAIMS[: count(3, 1)])
def test_claims_are_settled_as_the_command_settles_them(served, capsys, one, other):
    """The same words, and a picture for each claim that makes a cut."""
    query = urlencode({"cut": "hip-jack", "pitch": "12", "one": one, "other": other})
    status, body = served.text(f"/settle?{query}")
    assert status == 200
    asked = ["settle", "hip-jack", "--pitch=12", f"--claim={one}", f"--claim={other}"]
    capsys.readouterr()
    assert run(asked) == 0
    out = capsys.readouterr().out
    found = re.search(r'<div class="words-list">(.*?)</div>\s*</section>', body, re.DOTALL)[1]
    text = plain(html.unescape(re.sub(r"<[^>]+>", " ", found)))
    assert text == plain(out)
    assert run([*asked, "--json"]) == 0
    claims = json.loads(capsys.readouterr().out)["claims"]
    cuts = [number for number, claim in enumerate(claims, 1) if claim["normal"] is not None]
    drawn = [html.unescape(source) for source in re.findall(r'src="(/settle/cut[^"]+)"', body)]
    assert [int(source[-1]) for source in drawn] == cuts
    for number, source in zip(cuts, drawn, strict=True):
        status, headers, svg = served.ask(source)
        assert (status, headers["Content-Type"]) == (200, "image/svg+xml")
        gap = claims[number - 1]["gap_in"]
        words = unicodedata.normalize("NFKC", re.sub(r"<[^>]+>", " ", svg.decode()))
        if gap > 1 / 64:
            assert write_fraction(gap, 64) in words.replace("\N{FRACTION SLASH}", "/")
    assert served.ask(f"/settle/cut.svg?{query}&claim=3")[0] == 404


def memory_kb(process):
    with open(f"/proc/{process.pid}/status") as file:
        return int(re.search(r"VmRSS:\s+(\d+)", file.read())[1])


@pytest.mark.skipif(not LONG, reason="two minutes of load: in the long run alone")
def test_thirty_learners_at_once(served, serve):
    """Loopback only: each a question every two seconds for two minutes, a third drawings.

    The floor is one mark alone, asked of a second server that has nobody else to answer, all the
    while the first one is under load: what else the machine does slows both alike.
    """
    drawings = [
        f"/drawing/{name}.svg?{urlencode({'cut': cut, 'pitch': f'{pitch} in 12'})}"
        for name in ("pictorial", "square-on-face", "square-on-edge", "plan")
        for cut in ("hip-jack", "valley-jack")
        for pitch in (4, 6, 8, 10, 12)
    ]
    assert len(drawings) == 40
    quiet = serve()
    for each in (served, quiet):
        assert each.ask("/marks/hip-jack?pitch=2")[0] == 200
    before, ends = memory_kb(served.process), time.monotonic() + 120
    took, alone, wrong, halfway = [], [], [], []

    def mark_of(server, rise, times):
        began = time.perf_counter()
        status, text = server.text(f"/marks/hip-jack?pitch={rise}")
        times.append(time.perf_counter() - began)
        if status != 200 or str(read_pitch(str(rise))) not in said(text):
            wrong.append((rise, status))

    def learner(seed):
        rng = Random(seed)
        while time.monotonic() < ends:
            began = time.perf_counter()
            if rng.random() < 1 / 3:
                status, _, body = served.ask(rng.choice(drawings))
                if status != 200 or not body.startswith(b"<svg"):
                    wrong.append(("drawing", status))
            else:
                mark_of(served, rng.randrange(40, 360) / 20, took)
            if not halfway and time.monotonic() > ends - 60:
                halfway.append(memory_kb(served.process))
            time.sleep(max(0.0, 2.0 - (time.perf_counter() - began)))

    def alone_meanwhile():
        rise = 2.0
        while time.monotonic() < ends:
            rise += 1 / 32
            mark_of(quiet, rise, alone)
            time.sleep(1.0)

    threads = [threading.Thread(target=learner, args=(seed,)) for seed in range(30)]
    threads.append(threading.Thread(target=alone_meanwhile))
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    after = memory_kb(served.process)
    slowest = sorted(took)[int(0.95 * len(took))]
    single = statistics.median(alone)
    ratio = slowest / single
    print(
        f"\nload: {len(took)} marks; alone meanwhile {single * 1000:.0f} ms ({len(alone)}), slowest"
        f" twentieth {slowest * 1000:.0f} ms, {ratio:.1f} times; memory {before}, {halfway},"
        f" {after} kB; wrong {wrong[:5]}"
    )
    assert wrong == []
    assert len(took) > 600
    assert len(alone) > 30
    assert ratio < 20
    assert after < 1.25 * halfway[0]
