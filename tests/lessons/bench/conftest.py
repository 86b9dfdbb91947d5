"""One browser, and one page of a few cuts, for all tests of the bench.

In the default suite the page has a few cuts and few of their sliders' steps; in the long run
it has all cuts, each with all its steps, or those alone that the chosen tests are about.
"""

import re

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


def cuts_asked_for(chosen):
    """The cuts of the chosen tests; none, for all of them, where one test needs the whole page."""
    places = [
        item.callspec.params.get("place") if hasattr(item, "callspec") else None
        for item in chosen
        if "bench_file" in item.fixturenames
    ]
    return () if None in places else tuple(dict.fromkeys(entry.name for entry, _ in places))


@pytest.fixture(scope="session")
def bench_file(request, tmp_path_factory, _fewer_steps):
    path = tmp_path_factory.mktemp("bench") / "bench.html"
    cuts = CUTS or cuts_asked_for(request.session.items)
    assert run(["bench", *cuts, "-o", str(path)]) == 0
    return path


@pytest.fixture(scope="session")
def plain_page(a_browser):
    """One offline page for every test that needs nothing but its size and scheme."""
    one = Watched(a_browser)
    one.context.set_offline(True)
    yield one
    one.context.close()


@pytest.fixture(scope="session")
def quick_page(a_browser):
    """Such a page whose frames are drawn at once."""
    one = Watched(a_browser)
    one.context.set_offline(True)
    one.page.add_init_script(AT_ONCE)
    yield one
    one.context.close()


@pytest.fixture
def opened(a_browser, plain_page, bench_file, request):
    """Opens the bench, offline; nothing may be said on the console, or asked of a network."""
    watched, own = [], []

    def open_bench(size=(1280, 900), scheme="light", at="", quiet=True, at_once=False, **more):
        if not more and not watched:
            shared = request.getfixturevalue("quick_page") if at_once else plain_page
            one = shared.again(size, scheme)
        else:
            one = Watched(a_browser, size, scheme, **more)
            one.context.set_offline(True)
            if at_once:
                one.page.add_init_script(AT_ONCE)
            own.append(one)
        one.quiet = quiet
        watched.append(one)
        one.page.goto(bench_file.as_uri() + at)
        one.page.wait_for_selector("html[data-ready]")
        return one.page

    yield open_bench
    for one in watched:
        if one in own:
            one.context.close()
        else:
            one.page.evaluate("localStorage.clear()")
        if one.quiet:
            assert one.said == []
        asked = {re.split("[#?]", url)[0] for url in one.asked if not url.startswith("blob:")}
        assert asked <= {bench_file.as_uri(), "about:blank"}
        assert bench_file.as_uri() in asked
