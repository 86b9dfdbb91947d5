"""One browser for every test of a page: Playwright runs once in a process."""

import pytest

from tests.in_browser import CHROMIUM, chromium


@pytest.fixture(scope="session")
def a_browser():
    if not CHROMIUM.exists():
        pytest.skip(f"no {CHROMIUM}: install Debian's package chromium")
    with chromium() as browser:
        yield browser
