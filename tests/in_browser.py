"""A real browser for the tests of pages: Debian's chromium, driven by Playwright.

The long run opens the browser that people have. The default suite opens the same engine without
its windows, Debian's chromium-headless-shell, where it is installed: it takes a third less time.
Where a machine has neither these tests are skipped, and those of accessibility where npm has not
installed axe-core (`npm ci` in tests/page_scripts does).
"""

from contextlib import contextmanager
from pathlib import Path

import pytest

from tests.counts import LONG

WHOLE, SHELL = Path("/usr/bin/chromium"), Path("/usr/bin/chromium-headless-shell")
CHROMIUM = SHELL if SHELL.exists() and not (LONG and WHOLE.exists()) else WHOLE
AXE = Path(__file__).parent / "page_scripts" / "node_modules" / "axe-core" / "axe.min.js"
QUIET = [
    "--no-sandbox",
    "--disable-gpu",
    "--in-process-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
"""As root Chromium needs no sandbox; it draws in a process less, and is kept from calling home."""

PATIENCE_MS = 280_000
"""How long a page may wait for a drawing of the live page: longer than its server does, so that a
machine that is busy with other things fails no test."""

needs_chromium = pytest.mark.skipif(
    not CHROMIUM.exists(), reason=f"no {WHOLE}: install Debian's package chromium"
)
needs_axe = pytest.mark.skipif(
    not AXE.exists(), reason="no axe-core: run npm ci in tests/page_scripts"
)


@contextmanager
def chromium(browser=CHROMIUM):
    sync_api = pytest.importorskip("playwright.sync_api", reason="no playwright: .[test] has it")
    with sync_api.sync_playwright() as playwright:
        opened = playwright.chromium.launch(executable_path=str(browser), args=QUIET)
        yield opened
        opened.close()


class Watched:
    """A page of its own context, with all that it said on the console and asked of a network."""

    def __init__(self, browser, size=(1280, 900), scheme="light", motion="reduce", **more):
        self.said, self.asked = [], []
        self.context = browser.new_context(
            viewport={"width": size[0], "height": size[1]},
            color_scheme=scheme,
            reduced_motion=motion,
            **more,
        )
        self.page = self.context.new_page()
        self.page.on("console", lambda message: self.said.append(message.text))
        self.page.on("pageerror", lambda error: self.said.append(str(error)))
        self.page.on("request", lambda request: self.asked.append(request.url))

    def again(self, size, scheme):
        """The same page, empty, at another size: a test that needs no context of its own is
        spared the start of one."""
        self.page.goto("about:blank")
        self.page.set_viewport_size({"width": size[0], "height": size[1]})
        self.page.emulate_media(color_scheme=scheme, reduced_motion="reduce", media="null")
        self.context.clear_cookies()
        self.said.clear()
        self.asked.clear()
        return self


def serious(page):
    """What axe-core finds serious or worse: its rule and the first element, for each."""
    if not page.evaluate("'axe' in window"):
        page.add_script_tag(path=str(AXE))
    found = page.evaluate(
        "axe.run(document, {resultTypes: ['violations']}).then(done => done.violations"
        ".filter(one => ['serious', 'critical'].includes(one.impact))"
        ".map(one => [one.id, one.nodes.length, one.nodes[0].html.slice(0, 160)]))"
    )
    return [tuple(one) for one in found]
