"""The live page's door: forged hosts and origins, keys, paths, bodies, markup, two starts."""

import asyncio
import contextlib
import http.client
import json
import os
import shutil
import signal
import socket
import subprocess
import time
from collections import Counter
from concurrent.futures import ThreadPoolExecutor
from random import Random
from urllib.parse import quote, urlencode

import pytest

from lessons.live.folder import NAME
from lessons.live.guard import LARGEST_BODY, MOST_OPEN, Door, Guard
from lessons.live.job_text import FIELDS
from tests.counts import LONG, count

EVIL = "</script><img src=x onerror=alert(1)><b onmouseover=x>'\"{{7*7}}"


def raw(served, lines, body=b""):
    """The first line of the answer to a request written by hand."""
    host, port = "127.0.0.1", int(served.base.rsplit(":", 1)[1])
    with socket.create_connection((host, port), timeout=30) as wire:
        wire.sendall("\r\n".join([*lines, "", ""]).encode() + body)
        answer = http.client.HTTPResponse(wire)
        answer.begin()
        return answer.status


def test_the_address_stands_on_a_line_of_its_own(served):
    assert served.told[0].startswith("http://127.0.0.1:")
    assert " " not in served.told[0]
    status, headers, _ = served.ask(f"/?key={served.key}", key="")
    assert status == 303
    assert headers["Location"] == "/"
    cookie = headers["Set-Cookie"]
    assert "HttpOnly" in cookie
    assert "samesite=strict" in cookie.lower()


@pytest.mark.parametrize(
    ("path", "key"),
    [("/", ""), ("/marks", "guess"), ("/?key=guess", ""), ("/class", "x" * 500), ("/?key=é", "")],
)
def test_without_the_key_nothing_is_shown(served, path, key):
    status, _, body = served.ask(quote(path, safe="/?=&"), key=key)
    assert status == 403
    assert b"square" not in body.replace(b"squaresaw live", b"")


@pytest.mark.parametrize(
    "host",
    ["evil.example", "evil.example:80", "127.0.0.1", "localhost:1", "127.0.0.1:{port}.x", ""],
)
def test_a_forged_host_is_refused(served, host):
    port = served.base.rsplit(":", 1)[1]
    lines = ["GET /marks HTTP/1.1", f"Host: {host.format(port=port)}"]
    assert raw(served, [*lines, f"Cookie: squaresaw={served.key}", "Connection: close"]) in (
        400,
        421,
    )


@pytest.mark.parametrize("origin", ["http://evil.example", "null", "https://127.0.0.1", "file://"])
def test_another_origin_is_refused(served, origin):
    assert served.ask("/marks", Origin=origin)[0] == 403
    assert served.ask("/marks", Sec_Fetch_Site="cross-site")[0] == 403
    assert served.ask("/marks", Origin=served.base)[0] == 200


@pytest.mark.parametrize(
    "path",
    [
        "/look/../pages.py",
        "/look/%2e%2e%2fpages.py",
        "/look/pages.py",
        "/marks/..%2f..%2fetc%2fpasswd",
        "/marks/--help",
        "/drawing/../../x.svg",
        "/drawing/nothing.svg?cut=hip-jack",
        "/drawing/plan.svg?cut=--help",
        "/learn/..%2f..%2fx",
        "/learn/-o",
        "/bench/--output=x",
        "/roof/..%2f..%2fetc%2fpasswd",
        "/settle?cut=../../x&one=saw+45",
        "/class/course.pdf?lesson=../x",
        "//evil.example/",
    ],
)
def test_no_path_leads_out(served, path):
    assert served.ask(path)[0] in (404, 422)


@pytest.mark.parametrize(
    ("address", "leads"),
    [
        ("http://127.0.0.1:5/marks/hip-jack?pitch=7+in+12&key=x", "/marks/hip-jack?pitch=7+in+12"),
        (" /settle?one=saw+45 ", "/settle?one=saw+45"),
        ("http://10.0.0.1:8/roof/my%20porch.toml", "/roof/my%20porch.toml"),
        ("http://evil.example/elsewhere", None),
        ("//evil.example//marks", None),
        ("/marks/../class", None),
        ("/marks/%2e%2e/class", None),
        ("javascript:alert(1)", None),
        ("http://[", None),
        ("", None),
    ],
)
def test_an_address_that_was_sent_opens_here(served, address, leads):
    status, headers, _ = served.ask(f"/open?{urlencode({'address': address})}")
    assert (status, headers["Location"]) == ((422, None) if leads is None else (303, leads))


def test_no_value_passes_for_an_option(served, tmp_path):
    out = tmp_path / "out.pdf"
    for name in ("pitch", "stock", "corner", "hand", "printed", "paper", "printer"):
        query = urlencode({name: f"8 in 12 --output={out}"})
        assert served.ask(f"/marks/hip-jack/sheet.pdf?{query}")[0] in (200, 422)
        query = urlencode({name: f"--output={out}"})
        assert served.ask(f"/marks/hip-jack/sheet.pdf?{query}")[0] in (200, 422)
    assert not out.exists()
    assert list(served.folder.iterdir()) == []


def through(door, sent, within_s=0.05):
    """Status of a request through the door alone, whose body comes as `sent` says it."""

    async def page(scope, receive, send):
        await receive()
        await send({"type": "http.response.start", "status": 200, "headers": []})

    async def asked():
        told = []

        async def send(message):
            told.append(message)

        scope = {
            "type": "http", "method": "POST", "path": "/marks", "raw_path": b"/marks",
            "query_string": b"", "headers": [
                (b"host", f"127.0.0.1:{door.port}".encode()),
                (b"cookie", f"squaresaw={door.key}".encode()),
            ],
        }  # fmt: skip
        await Guard(page, door, body_within_s=within_s)(scope, sent, send)
        return told[0]["status"]

    # In a thread of its own: Playwright's loop may run in this one.
    with ThreadPoolExecutor(1) as alone:
        return alone.submit(lambda: asyncio.run(asked())).result()


def test_slow_and_endless_bodies_are_cut_off():
    door, sent = Door(1), 0

    async def never():
        await asyncio.sleep(60)

    async def drops():
        await asyncio.sleep(0.02)
        return {"type": "http.request", "body": b"x", "more_body": True}

    async def endless():
        nonlocal sent
        sent += 65_536
        return {"type": "http.request", "body": b"x" * 65_536, "more_body": True}

    async def gone():
        return {"type": "http.disconnect"}

    async def short():
        return {"type": "http.request", "body": b"find=hip", "more_body": False}

    assert through(door, never) == 408
    assert through(door, drops) == 408
    assert through(door, endless, 5.0) == 413
    assert sent < 2 * LARGEST_BODY, "it is not read to its end"
    assert through(door, gone) == 413
    assert through(door, short) == 200


def test_a_learner_who_asks_too_fast_is_told_to_wait(monkeypatch):
    clock = [0.0]
    monkeypatch.setattr("lessons.live.guard.time.monotonic", lambda: clock[0])
    guard = Guard(None, Door(1))
    allowed = [guard._allowed("10.0.0.2") for _ in range(200)]
    assert (sum(allowed), allowed[:120]) == (120, [True] * 120), "so many at once, and no more"
    assert guard._allowed("10.0.0.3"), "another learner is not kept waiting"
    clock[0] = 1.0
    assert 18 <= sum(guard._allowed("10.0.0.2") for _ in range(100)) <= 20


def test_one_learner_waits_for_few_answers_at_once():
    """Whoever asks for many drawings at once keeps nobody else waiting."""
    door, waiting = Door(1, class_key="taught", class_hosts=("10.0.0.1",)), 0

    async def asked():
        nonlocal waiting
        made = asyncio.Event()

        async def page(scope, receive, send):
            nonlocal waiting
            waiting += 1
            await made.wait()
            await send({"type": "http.response.start", "status": 200, "headers": []})

        guard = Guard(page, door)

        async def one(client):
            told = []

            async def send(message):
                told.append(message)

            headers = [(b"host", b"10.0.0.1:1"), (b"cookie", b"squaresaw=taught")]
            scope = {
                "type": "http", "method": "GET", "path": "/marks", "raw_path": b"/marks",
                "query_string": b"", "headers": headers, "client": (client, 5),
            }  # fmt: skip
            await guard(scope, None, send)
            return told[0]["status"]

        many = [asyncio.ensure_future(one("10.0.0.2")) for _ in range(MOST_OPEN + 3)]
        other = asyncio.ensure_future(one("10.0.0.3"))
        while waiting < MOST_OPEN + 1:
            await asyncio.sleep(0)
        made.set()
        told = [await each for each in (*many, other, asyncio.ensure_future(one("10.0.0.2")))]
        assert not guard.open
        return told

    with ThreadPoolExecutor(1) as alone:
        told = alone.submit(lambda: asyncio.run(asked())).result()
    assert told == [200] * MOST_OPEN + [429] * 3 + [200, 200]


def test_large_and_slow_bodies_are_cut_off_on_the_wire(served):
    cookie = f"Cookie: squaresaw={served.key}"
    host = f"Host: {served.base.removeprefix('http://')}"
    lines = ["POST /marks HTTP/1.1", host, cookie, "Connection: close"]
    assert raw(served, [*lines, "Content-Length: 100000000"]) == 413
    assert raw(served, [*lines, "Content-Length: -1"]) in (400, 413)
    chunk = b"10000\r\n" + b"x" * 65536 + b"\r\n"
    many = count(1600, 40)  # 100 MB in the long run
    with contextlib.suppress(BrokenPipeError, ConnectionResetError):  # cut off while it is sent
        assert raw(served, [*lines, "Transfer-Encoding: chunked"], chunk * many) == 413
    if LONG:
        began = time.monotonic()
        assert raw(served, [*lines, "Content-Length: 50"], b"one=") == 408
        assert time.monotonic() - began < 20
    assert served.ask("/alive")[0] == 200
    assert served.ask("/marks?find=" + "x" * 5000)[0] == 414


def test_markup_in_every_field_is_only_text(served):
    names = ("pitch", "other_pitch", "corner", "stock", "hand", "end", "roll", "saw", "tolerance")
    more = ("find", "one", "other", "lesson", "learner", "sheets", "seed", "paper", "printed")
    for page in ("/marks/hip-jack", "/settle", "/marks", "/learn", "/class", "/progress"):
        query = urlencode(dict.fromkeys((*names, *more), EVIL))
        status, text = served.text(f"{page}?{query}")
        assert status in (200, 422), page
        only_text(text)
    post = {"Content_Type": "application/x-www-form-urlencoded", "Origin": served.base}

    def sent(path, **fields):
        status, _, body = served.ask(path, "POST", urlencode(fields).encode(), **post)
        assert status in (200, 201, 303, 422), (path, status)
        only_text(body.decode())

    sent("/roof/new", name="evil")
    sent("/roof/new", name=EVIL)
    sent("/class/results", results=f"learner,lesson,right\n{EVIL},two-runs,no\n")
    sent("/class/results", results=EVIL)
    sent("/class/roll.pdf", names="", lesson=EVIL, seed=EVIL)
    answer = {"lesson": "two-runs", "kind": "number", "tries": "1", "hints": "0"}
    sent("/progress/answered", **answer, drill=EVIL, answered=EVIL, mistakes=EVIL, learner=EVIL)
    assert served.ask("/progress/answered", "POST", b"lesson=nowhere&kind=number", **post)[0] == 422
    only_text(served.text("/progress")[1])
    file = served.folder / "evil.toml"
    assert file.exists()
    file.write_text(f"name = {json.dumps(EVIL)}\n[roof]\npitch = {json.dumps(EVIL)}\n")
    status, text = served.text("/roof/evil.toml")
    assert status == 422
    only_text(text)
    for key in FIELDS if LONG else FIELDS[:2]:
        status, text = served.text(f"/roof/evil.toml?{urlencode({key: EVIL})}")
        assert status in (200, 422)
        only_text(text)
    file.unlink()


def only_text(page):
    """Nothing of the hostile text stands in a page as markup, and no template worked it out."""
    assert "<img src=x" not in page
    assert "<b onmouseover" not in page
    assert "{{7*7}}" in page or "49" not in page


@pytest.mark.parametrize("part", range(count(5, 1)))
def test_fuzzed_forms_are_answered_or_refused(served, part):
    rng = Random(1800 + part)
    pieces = [
        "8 in 12",
        "8",
        "-1",
        "1e999",
        "nan",
        "½",
        "2x6",
        "\x00",
        "deg",
        "/",
        "270",
        "𝟠",
        EVIL,
    ]
    pages = ("/marks/hip-jack", "/marks/hip-seat", "/settle", "/marks", "/learn", "/class")
    names = (
        *("pitch", "other_pitch", "corner", "stock", "hand", "end", "roll", "one", "other", "cut"),
        *("find", "lesson", "saw", "tolerance", "tilt_step", "max_tilt", "blade_depth", "sheets"),
    )
    posts = ("/class/results", "/class/roll.pdf", "/progress/answered", "/roof/new")
    fields = ("results", "names", "lesson", "kind", "tries", "hints", "name", "learner", "mistakes")
    post = {"Content_Type": "application/x-www-form-urlencoded", "Origin": served.base}
    codes, begun = Counter(), set()
    for _ in range(count(2_000, 25)):
        known = fields if (sends := rng.random() < 0.3) else names
        form = {
            rng.choice(known): "".join(rng.choices(pieces, k=rng.randrange(1, 4)))
            for _ in range(rng.randrange(1, 5))
        }
        if sends:
            form.pop("name", None) if rng.random() < 0.9 else None
            body = urlencode(form).encode()
            body = body if rng.random() < 0.9 else bytes(rng.choices(range(256), k=60))
            path = rng.choice(posts)
            status, _, body = served.ask(path, "POST", body, **post)
            if status == 303:  # a plain name, by which a job was begun
                assert path == "/roof/new"
                assert NAME.fullmatch(f"{form['name']}.toml")
                begun.add(f"{form['name']}.toml")
        else:
            status, _, body = served.ask(f"{rng.choice(pages)}?{urlencode(form)}")
        codes[status] += 1
        assert status in (200, 303, 400, 422), (form, body)
        assert b"Traceback" not in body
    print(f"\nfuzzed: {dict(codes)}")
    assert {path.name for path in served.folder.iterdir()} == begun
    for name in begun:
        (served.folder / name).unlink()


def test_every_answer_carries_its_policy(served):
    for path in ("/", "/marks/hip-jack", "/nowhere", "/look/live.js", "/drawing/plan.svg?cut=x"):
        _, headers, _ = served.ask(path)
        policy = headers["Content-Security-Policy"]
        assert "default-src 'none'" in policy
        assert "unsafe" not in policy
        assert headers["X-Content-Type-Options"] == "nosniff"
        assert "Server" not in headers


def test_a_second_start_finds_the_first_and_ctrl_c_ends_it(serve):
    first = serve()
    second = serve()
    assert second.address == first.address
    assert second.process.wait(20) == 0
    state = first.data / "live.json"
    assert state.stat().st_mode & 0o077 == 0
    assert first.end() == 0
    assert not state.exists()
    assert "Traceback" not in first.process.stdout.read()
    third = serve()
    assert third.key != first.key


def children(pid):
    """The processes that a process has begun, by their ids."""
    told = subprocess.run(["ps", "-o", "pid=", "--ppid", str(pid)], capture_output=True, text=True)
    return [int(each) for each in told.stdout.split()]


@pytest.mark.skipif(shutil.which("ps") is None, reason="no ps here")
@pytest.mark.parametrize(
    "how", [signal.SIGKILL, signal.SIGTERM, signal.SIGINT][: count(3, 1)], ids=lambda how: how.name
)
def test_however_it_ends_no_process_is_left(serve, how):
    served = serve()
    assert served.ask("/marks/hip-jack")[0] == 200
    begun = children(served.process.pid)
    assert begun
    os.kill(served.process.pid, how)
    assert served.process.wait(30) == (-9 if how is signal.SIGKILL else 0)
    for _ in range(100):
        left = [pid for pid in begun if os.path.exists(f"/proc/{pid}")]
        if not left:
            break
        time.sleep(0.1)
    assert left == []


def test_a_class_sees_what_it_may_and_no_more(serve):
    shared = serve("--share")
    line = next(line for line in shared.told if line.startswith("class: "))
    base, key = line.removeprefix("class: ").split("/?key=")
    assert "can look" in " ".join(shared.told)
    assert shared.ask("/marks", base=base, key=key)[0] == 200
    assert shared.ask("/settle", base=base, key=key)[0] == 200
    assert shared.ask("/learn", base=base, key=key)[0] == 200
    for path in ("/class", "/roof", "/alive", "/class/worksheets.pdf"):
        assert shared.ask(path, base=base, key=key)[0] == 403
    assert shared.ask("/marks", "POST", b"x=1", base=base, key=key)[0] == 405
    assert shared.ask("/marks", base=base, key=shared.key)[0] == 403, (
        "the own key is for here alone"
    )
    assert shared.ask(f"/?key={shared.key}", base=base, key="")[0] == 403
    page = shared.text("/", base=base, key=key)[1]
    assert str(shared.folder) not in page
    assert shared.ask("/alive")[0] == 200


def test_a_folder_that_is_not_there_is_said_in_a_line(tmp_path, capsys):
    from lessons.cli.main import run

    assert run(["live", str(tmp_path / "nowhere"), "--no-open"]) == 2
    assert capsys.readouterr().err.startswith("squaresaw: there is no folder")
