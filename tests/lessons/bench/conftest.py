"""One browser, and one page of a few cuts, for all tests of the bench.

In the default suite the page has a few cuts and few of their sliders' steps; in the long run
it has all cuts, each with all its steps.
"""

import pytest

from lessons.bench import steps
from lessons.bench.page import place_id
from lessons.cli.main import run
from tests.counts import LONG
from tests.in_browser import Watched

CUTS = () if LONG else ("valley-jack", "common-seat", "hip-backing")
"""The cuts on the tested page: all of them in the long run."""
PLACES = [place for place in steps.places() if not CUTS or place[0].name in CUTS]
IDS = [place_id(*place) for place in PLACES]

AT_ONCE = """
window.requestAnimationFrame = draw => { queueMicrotask(() => draw(performance.now())); return 1; };
window.cancelAnimationFrame = () => {};
"""
"""Frames that are drawn as soon as they are asked for: no test waits for a clock."""


@pytest.fixture(scope="session", autouse=True)
def _fewer_steps():
    """The default suite's share of the sliders' steps: 2, 8 and 14 in 12, and 60 to 150 by 30."""
    if LONG:
        yield
        return
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(steps, "RISES", steps.RISES[::12])
        patch.setattr(steps, "CORNERS_DEG", steps.CORNERS_DEG[::6])
        yield


@pytest.fixture(scope="session")
def bench_file(tmp_path_factory, _fewer_steps):
    path = tmp_path_factory.mktemp("bench") / "bench.html"
    assert run(["bench", *CUTS, "-o", str(path)]) == 0
    return path


@pytest.fixture
def opened(a_browser, bench_file):
    """Opens the bench, offline; nothing may be said on the console, or asked of a network."""
    watched = []

    def open_bench(size=(1280, 900), scheme="light", at="", quiet=True, at_once=False, **more):
        one = Watched(a_browser, size, scheme, **more)
        one.context.set_offline(True)
        one.quiet = quiet
        if at_once:
            one.page.add_init_script(AT_ONCE)
        watched.append(one)
        one.page.goto(bench_file.as_uri() + at)
        one.page.wait_for_selector("html[data-ready]")
        return one.page

    yield open_bench
    for one in watched:
        one.context.close()
        if one.quiet:
            assert one.said == []
        asked = {url.split("#")[0] for url in one.asked if not url.startswith("blob:")}
        assert asked == {bench_file.as_uri()}
