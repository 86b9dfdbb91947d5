"""One browser, and one page of a few cuts, for all tests of the bench."""

import pytest

from lessons.cli.main import run
from tests.counts import LONG
from tests.in_browser import Watched

CUTS = () if LONG else ("valley-jack", "common-seat", "hip-backing")
"""The cuts on the tested page: all of them in the long run."""


@pytest.fixture(scope="session")
def bench_file(tmp_path_factory):
    path = tmp_path_factory.mktemp("bench") / "bench.html"
    assert run(["bench", *CUTS, "-o", str(path)]) == 0
    return path


@pytest.fixture
def opened(a_browser, bench_file):
    """Opens the bench, offline; nothing may be said on the console, or asked of a network."""
    watched = []

    def open_bench(size=(1280, 900), scheme="light", at="", quiet=True, **more):
        one = Watched(a_browser, size, scheme, **more)
        one.context.set_offline(True)
        one.quiet = quiet
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
