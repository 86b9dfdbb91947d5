"""A live page in a process of its own, and a browser to open it in."""

import os
import signal
import subprocess
import sys
import urllib.error
import urllib.request
from dataclasses import dataclass
from pathlib import Path

import pytest

from tests.counts import LONG
from tests.in_browser import PATIENCE_MS, Watched

ROOT = Path(__file__).parents[3]


@dataclass
class Served:
    """A running server: its address with the key, its folder, its process."""

    process: subprocess.Popen
    address: str
    told: list
    folder: Path
    data: Path

    @property
    def base(self):
        return self.address.split("/?")[0]

    @property
    def key(self):
        return self.address.split("key=")[1]

    def ask(self, path, method="GET", body=None, key=None, base=None, **headers):
        """Status, headers and body of one request with the session's cookie."""
        told = {name.replace("_", "-"): text for name, text in headers.items()}
        key = self.key if key is None else key
        if key:
            told.setdefault("Cookie", f"squaresaw={key}")
        asking = urllib.request.Request((base or self.base) + path, body, told, method=method)
        opener = urllib.request.build_opener(_Stay)
        try:
            with opener.open(asking, timeout=280) as answer:
                return answer.status, answer.headers, answer.read()
        except urllib.error.HTTPError as error:
            return error.code, error.headers, error.read()

    def text(self, path, **more):
        status, _, body = self.ask(path, **more)
        return status, body.decode()

    def end(self):
        self.process.send_signal(signal.SIGINT)
        return self.process.wait(20)


class _Stay(urllib.request.HTTPRedirectHandler):
    def redirect_request(self, *_):
        return None


def start(folder, data, *more):
    environment = {**os.environ, "SQUARESAW_DATA": str(data), "PYTHONPATH": str(ROOT)}
    process = subprocess.Popen(
        [sys.executable, "-m", "lessons", "live", str(folder), "--no-open", *more],
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        cwd=folder,
        env=environment,
    )
    told = []
    for line in process.stdout:
        told.append(line.strip())
        if "Ctrl-C" in line or process.poll() is not None or "same page" in line:
            break
    return Served(process, told[0], told, Path(folder), Path(data))


@pytest.fixture(scope="session")
def served(tmp_path_factory):
    """One server for all tests that only ask."""
    home = tmp_path_factory.mktemp("live")
    (home / "jobs").mkdir()
    one = start(home / "jobs", home / "data")
    yield one
    assert one.end() == 0
    one.process.stdout.close()


@pytest.fixture(scope="session")
def plain_pages(a_browser):
    """Two pages, with scripts and without, for all tests that need nothing but a size and a scheme
    of their own; each finds its page empty. In the long run every test has a browser's first page.
    """
    kept = {}

    def page_of(script):
        if script not in kept:
            kept[script] = Watched(a_browser, java_script_enabled=script, accept_downloads=True)
        return kept[script]

    yield page_of
    for one in kept.values():
        one.context.close()


@pytest.fixture
def watched(a_browser, plain_pages):
    """Gives a page of a size, and takes it back empty."""
    given = []

    def begin(size, script=True, scheme="light", **more):
        if more or LONG:
            one = Watched(a_browser, size, scheme, java_script_enabled=script, **more)
        else:
            one = plain_pages(script).again(size, scheme)
        one.page.set_default_timeout(PATIENCE_MS)
        given.append((one, bool(more or LONG)))
        return one

    yield begin
    for one, own in given:
        if own:
            one.context.close()
        else:
            one.page.unroute_all()


@pytest.fixture
def serve(tmp_path):
    """Starts servers of a test's own, and ends them."""
    started = []

    def begin(*more, folder=None):
        place = folder or tmp_path / "jobs"
        place.mkdir(exist_ok=True)
        started.append(start(place, tmp_path / "data", *more))
        return started[-1]

    yield begin
    for one in started:
        if one.process.poll() is None:
            one.process.terminate()
            one.process.wait(20)
        one.process.stdout.close()
