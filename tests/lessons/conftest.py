"""One browser for every test of a page, and what many commands make alike made once."""

import pickle

import pytest

from figures.wrap.template import Template
from layout.framing.roof import frame
from tests.counts import LONG
from tests.in_browser import CHROMIUM, chromium


def once(make, told=lambda *given: given):
    """`make` for every new thing it is given, and what it made for a thing it was given before.

    `told` is what tells one thing from another. What cannot be pickled is made each time.
    """
    kept = {}

    def made(*given):
        try:
            key = pickle.dumps(told(*given))
        except (AttributeError, TypeError, pickle.PicklingError):
            return make(*given)
        if key not in kept:
            kept[key] = make(*given)
        return kept[key]

    return made


def _of_template(one):
    return one.answer, one.setup, one.surfaces, one.backed, one.version, one.marks


FRAMED, CHOSEN = once(frame), once(Template.chosen, _of_template)


@pytest.fixture(scope="module", autouse=True)
def _made_once():
    """In the default suite a roof is framed, and the sheets of a template are laid out, once for
    all commands of a process that ask for the same: both have tests of their own elsewhere, for
    which nothing is kept."""
    if LONG:
        yield
        return
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("layout.job.job_roof.frame", FRAMED)
        patch.setattr("lessons.cli.commands.roof.frame", FRAMED)
        patch.setattr(Template, "chosen", CHOSEN)
        yield


@pytest.fixture(scope="session")
def a_browser():
    if not CHROMIUM.exists():
        pytest.skip(f"no {CHROMIUM}: install Debian's package chromium")
    with chromium() as browser:
        yield browser
