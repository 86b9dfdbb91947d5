"""Which room may know which: lessons, figures, layout, one way only; and what layout may load."""

import ast
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
ROOMS = ("layout", "figures", "lessons")
"""From the bottom up: a room knows itself and those before it."""
DRAWING = {"matplotlib", "pypdf", "PIL", "typer"}
AREAS = {"shapely"}
WHOLE_ROOF = ROOT / "layout" / "framing"
"""The one part of layout that lays areas over one another; a single cut must answer without."""
FILES = [path for room in ROOMS for path in sorted((ROOT / room).rglob("*.py"))]


def imported(path):
    """The modules that a file imports, wherever in it, by full name."""
    for node in ast.walk(ast.parse(path.read_text())):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: write imports in full, not as {'.' * node.level}"
            yield from (f"{node.module}.{alias.name}" for alias in node.names)


@pytest.mark.parametrize("path", FILES, ids=lambda path: str(path.relative_to(ROOT)))
def test_rooms_know_only_those_below(path):
    room = path.relative_to(ROOT).parts[0]
    above = ROOMS[ROOMS.index(room) + 1 :]
    wrong = [name for name in imported(path) if name.split(".")[0] in above]
    assert not wrong, f"{room} must not know {wrong}"
    assert not [name for name in imported(path) if name.split(".")[0] == "tests"]


@pytest.mark.parametrize("path", FILES, ids=lambda path: str(path.relative_to(ROOT)))
def test_layout_draws_nothing(path):
    if path.relative_to(ROOT).parts[0] == "layout":
        barred = DRAWING if path.is_relative_to(WHOLE_ROOF) else DRAWING | AREAS
        wrong = {name.split(".")[0] for name in imported(path)} & barred
        assert not wrong, f"layout is numbers only and must not load {wrong}"


@pytest.mark.parametrize("path", FILES, ids=lambda path: str(path.relative_to(ROOT)))
def test_pyplot_is_used_nowhere(path):
    """It keeps a state of its own, and a test of one figure would change the next."""
    assert not [name for name in imported(path) if "pyplot" in name]


def test_an_answer_loads_neither_matplotlib_nor_shapely():
    """In a fresh process: all of layout but the whole roof, and one answer read from it."""
    code = """
import importlib, pkgutil, sys, layout
for module in pkgutil.walk_packages(layout.__path__, "layout."):
    if not module.name.startswith("layout.framing"):
        importlib.import_module(module.name)
from layout.answer import answer
from layout.question import ask
assert answer(ask("hip-jack")).agree
loaded = {name.split(".")[0] for name in sys.modules}
assert not loaded & {"matplotlib", "shapely", "figures", "lessons"}, loaded
"""
    subprocess.run([sys.executable, "-c", code], cwd=ROOT, check=True)
