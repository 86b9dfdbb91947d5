"""Which room may know which, and what a room may load.

Imports go one way: lessons, figures, layout; and one way between the rooms inside each of them.
"""

import ast
import subprocess
import sys
from functools import cache
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
ORDER = {
    "layout": (
        "errors vector quantity stock records usual",
        "plane cuts tools answer length framing job",
    ),
    "figures": ("", "ink place wood page pictures wrap packet files"),
    "lessons": ("__main__", "say jobs mistakes values course settle drill pages bench live cli"),
}
"""For each room the files at its top, which every inner room may know, and then its inner rooms
from the bottom up: a room knows itself and those before it."""
ROOMS = tuple(ORDER)
DRAWING = {"matplotlib", "pypdf", "PIL", "typer"}
AREAS = {"shapely"}
WHOLE_ROOF = "layout.framing"
"""The one part of layout that lays areas over one another; a single cut must answer without."""
COMMANDS = "lessons/cli/commands"

FILES = [path for room in ROOMS for path in sorted((ROOT / room).rglob("*.py"))]
LAYOUT = [path for path in FILES if path.relative_to(ROOT).parts[0] == "layout"]


def named(path):
    """A file's module name."""
    return ".".join(path.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__")


@cache
def parsed(path):
    """A file's syntax, read once for all that is asked of it."""
    return ast.parse(path.read_text())


@cache
def imported(path):
    """The modules that a file imports, wherever in it, by full name."""
    return tuple(_imported(path))


def _imported(path):
    for node in ast.walk(parsed(path)):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: write imports in full, not as {'.' * node.level}"
            yield from (f"{node.module}.{alias.name}" for alias in node.names)


def floor(module):
    """Where a module stands, from the bottom up: the room, then the room inside it."""
    room, *inner = module.split(".")
    top, rooms = (names.split() for names in ORDER[room])
    if not inner or inner[0] in top:
        return ROOMS.index(room), -1
    assert inner[0] in rooms, f"{module}: {inner[0]} is no room of {room}; enter it in ORDER"
    return ROOMS.index(room), rooms.index(inner[0])


def wrong_imports(path):
    """What a file imports from a room above its own."""
    here = named(path)
    if here == "lessons.__main__":
        return []
    known = [name for name in imported(path) if name.split(".")[0] in ROOMS]
    return [name for name in known if floor(name) > floor(here)]


def importing(paths, wrong):
    """Each file of `paths` that imports what is `wrong`, with those of its imports."""
    found = {named(path): [name for name in imported(path) if wrong(name)] for path in paths}
    return {name: imports for name, imports in found.items() if imports}


def test_rooms_know_only_those_below():
    assert len(FILES) > 300
    assert {named(path): found for path in FILES if (found := wrong_imports(path))} == {}
    assert importing(FILES, lambda name: name.split(".")[0] == "tests") == {}


def test_an_arrow_against_the_order_is_seen(tmp_path, monkeypatch):
    for room, line in (
        ("layout/plane", "from layout.tools.saw import Saw"),
        ("layout/answer", "import figures"),
        ("figures/ink", "from figures.page import sheet"),
        ("lessons/say", "from lessons.cli.main import run"),
    ):
        (tmp_path / room).mkdir(parents=True)
        (tmp_path / room / "new.py").write_text(line + "\n")
        monkeypatch.setattr("tests.test_architecture.ROOT", tmp_path)
        assert wrong_imports(tmp_path / room / "new.py"), line


def test_layout_draws_nothing():
    one_cut = [path for path in LAYOUT if not named(path).startswith(WHOLE_ROOF)]
    assert len(LAYOUT) > len(one_cut) > 50
    assert importing(LAYOUT, lambda name: name.split(".")[0] in DRAWING) == {}
    assert importing(one_cut, lambda name: name.split(".")[0] in AREAS) == {}


@pytest.mark.parametrize("room", [path.parent for path in FILES if path.name == "__init__.py"])
def test_every_room_says_what_it_holds(room):
    said = ast.get_docstring(parsed(room / "__init__.py"))
    assert said
    if len(room.relative_to(ROOT).parts) == 2 and room.name not in ("cuts", "framing"):
        assert "May import:" in said
        assert "Start reading at" in said


def names_given():
    """Every class and type, private or not, and every file: what it is called, and where.

    An `__init__` and a `__main__` have no name of their own, and the file of a command is named as
    what it runs.
    """
    for path in FILES:
        for node in parsed(path).body:
            if isinstance(node, ast.ClassDef):
                yield f"class {node.name.lstrip('_')}", named(path)
            elif isinstance(node, ast.Assign) and isinstance(node.value, ast.Subscript):
                name = ast.unparse(node.targets[0]).lstrip("_")
                if name.isidentifier() and name[0].isupper() and not name.isupper():
                    yield f"class {name}", named(path)
        if not path.stem.startswith("__") and path.parent != ROOT / COMMANDS:
            yield f"file {path.stem}", named(path)


def test_no_two_things_have_one_name():
    known = {}
    for name, where in names_given():
        assert name not in known, f"{name} stands in {known[name]} and in {where}; rename one"
        known[name] = where


def test_pyplot_is_used_nowhere():
    """It keeps a state of its own, and a test of one figure would change the next."""
    assert importing(FILES, lambda name: "pyplot" in name) == {}


def test_an_answer_loads_neither_matplotlib_nor_shapely():
    """In a fresh process: all of layout but the whole roof, and one answer read from it."""
    code = """
import importlib, pkgutil, sys, layout
for module in pkgutil.walk_packages(layout.__path__, "layout."):
    if not module.name.startswith(("layout.framing", "layout.job.job_roof")):
        importlib.import_module(module.name)
from layout.answer.answer import answer
from layout.answer.question import ask
assert answer(ask("hip-jack")).agree
loaded = {name.split(".")[0] for name in sys.modules}
assert not loaded & {"matplotlib", "shapely", "figures", "lessons"}, loaded
"""
    subprocess.run([sys.executable, "-c", code], cwd=ROOT, check=True)
