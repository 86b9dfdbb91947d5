"""What is loaded when: commands that do not draw must start at once."""

import subprocess
import sys

import pytest

LOADED = "import sys; print(*sorted({{'matplotlib', 'shapely', 'pypdf'}} & set(sys.modules)))"


@pytest.mark.parametrize(
    ("statement", "loaded"),
    [
        ("import figures", ""),
        (
            "from figures.ink import pens, paper, correction, lettering",
            "",
        ),
        (
            "from figures.files import press; from figures.page import sheet, tiling",
            "shapely",
        ),
    ],
)
def test_nothing_is_loaded_before_it_is_used(statement, loaded):
    code = f"{statement}; " + LOADED.format()
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == loaded
