"""What is taken where nothing is said stands once: every command shows `layout.usual`'s own."""

import re
from pathlib import Path

from layout import usual

COMMANDS = sorted(Path(__file__).parents[3].glob("lessons/cli/commands/*.py"))
SAID = {
    value
    for name, value in vars(usual).items()
    if name.isupper() and isinstance(value, str) and value not in ("1/2", "hip")
}
"""Every usual value but two that are words of other things too."""


def test_no_command_writes_a_usual_value_again():
    assert len(COMMANDS) > 15
    for path in COMMANDS:
        defaults = re.findall(r'(?:\]|Option|str) = "([^"]*)"', path.read_text(encoding="utf-8"))
        assert not SAID & set(defaults), (path.name, SAID & set(defaults))
