"""Change the code in one place at a time and see whether a test notices.

    python -m tests.mutants --seed 20 --layout 300 --elsewhere 150 --jobs 2

One operator, sign, function, order of arguments, constant or field is changed in a copy;
only tests that reach the changed line run (one run of the suite under `coverage` finds them,
kept in a file). A mutant that every test lets pass has survived: a test is missing,
or the mutant is equal in effect, which is argued in EQUAL below. Unchanged controls must survive.
The seed is chosen after the tests are frozen. No test depends on this script.
"""

import argparse
import ast
import concurrent.futures
import copy
import json
import random
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).parents[1]
LAYOUT = ("layout",)
ELSEWHERE = (
    "figures/wrap",
    "figures/page",
    "figures/ink/scale.py",
    "figures/ink/correction.py",
    "lessons/settle",
    "lessons/drill/grading.py",
)
SECONDS = 120
"""For one mutant's tests; a mutant that makes them run on has been noticed."""
EQUAL: dict[tuple[str, str], str] = {}
"""Mutants equal in effect: (file, change) to the argument why."""

SWAPPED_NAMES = {
    "sin": "cos", "cos": "sin", "max": "min", "min": "max", "all": "any", "any": "all",
    "floor": "ceil", "ceil": "floor", "own": "other", "other": "own", "left": "right",
    "right": "left", "head": "foot", "foot": "head", "long_in": "short_in",
    "short_in": "long_in", "thickness_in": "depth_in", "depth_in": "thickness_in",
}  # fmt: skip
SWAPPED_OPERATORS: dict[type[ast.AST], type[ast.AST]] = {
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult, ast.Lt: ast.GtE,
    ast.GtE: ast.Lt, ast.Gt: ast.LtE, ast.LtE: ast.Gt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq,
    ast.And: ast.Or, ast.Or: ast.And,
}  # fmt: skip


@dataclass(frozen=True)
class Mutant:
    """One change: the file, the line it stands on, what was and what is, and the whole new text."""

    file: str
    line: int
    change: str
    text: str


def mutants_of(path: Path) -> Iterator[Mutant]:
    """Every change of one file, inside its functions."""
    source = path.read_text("utf-8")
    tree = ast.parse(source)
    for function in ast.walk(tree):
        if isinstance(function, ast.FunctionDef):
            for node in ast.walk(function):
                for change in changes_of(node):
                    yield made(path, source, node, change)


def changes_of(node: ast.AST) -> Iterator[ast.AST]:
    """The node as it would stand after each change that fits it."""
    if isinstance(node, ast.BinOp | ast.BoolOp) and type(node.op) in SWAPPED_OPERATORS:
        changed = copy.deepcopy(node)
        changed.op = SWAPPED_OPERATORS[type(node.op)]()  # type: ignore[assignment]
        yield changed
    elif isinstance(node, ast.Compare) and type(node.ops[0]) in SWAPPED_OPERATORS:
        changed = copy.deepcopy(node)
        changed.ops[0] = SWAPPED_OPERATORS[type(node.ops[0])]()  # type: ignore[assignment]
        yield changed
    elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub | ast.Not):
        yield copy.deepcopy(node.operand)
    elif isinstance(node, ast.Constant) and type(node.value) in (int, float):
        yield ast.Constant(node.value + 1)
    elif isinstance(node, ast.Attribute) and node.attr in SWAPPED_NAMES:
        changed = copy.deepcopy(node)
        changed.attr = SWAPPED_NAMES[node.attr]
        yield changed
    elif isinstance(node, ast.Name) and node.id in ("max", "min", "all", "any"):
        yield ast.Name(SWAPPED_NAMES[node.id], node.ctx)
    elif isinstance(node, ast.IfExp):
        yield ast.IfExp(node.test, node.orelse, node.body)
    elif isinstance(node, ast.Call):
        if len(node.args) >= 2 and not any(isinstance(a, ast.Starred) for a in node.args[:2]):
            changed = copy.deepcopy(node)
            changed.args[0], changed.args[1] = changed.args[1], changed.args[0]
            yield changed
        if len([k for k in node.keywords if k.arg]) >= 2:
            changed = copy.deepcopy(node)
            first, second = changed.keywords[:2]
            first.value, second.value = second.value, first.value
            yield changed


def made(path: Path, source: str, node: ast.AST, change: ast.AST) -> Mutant:
    """The file's text with one node written anew, in brackets, in its place."""
    start, end = position(source, node, "col_offset"), position(source, node, "end_col_offset")
    new = ast.unparse(ast.fix_missing_locations(change))
    if isinstance(change, ast.expr):
        new = f"({new})"
    was = " ".join(source[start:end].split())
    line: int = node.lineno  # type: ignore[attr-defined]
    file = str(path.relative_to(ROOT))
    return Mutant(file, line, f"{was} => {new}", source[:start] + new + source[end:])


def position(source: str, node: ast.AST, column: str) -> int:
    """Where a node begins or ends in the text; the tree counts columns in UTF-8 bytes."""
    line = node.lineno if column == "col_offset" else node.end_lineno  # type: ignore[attr-defined]
    lines = source.splitlines(keepends=True)
    before = lines[line - 1].encode()[: getattr(node, column)].decode()
    return sum(map(len, lines[: line - 1])) + len(before)


def drawn(rng: random.Random, places: tuple[str, ...], number: int) -> list[Mutant]:
    """So many mutants from these places, no line twice."""
    files = [
        path
        for place in places
        for path in (
            [ROOT / place] if place.endswith(".py") else sorted((ROOT / place).rglob("*.py"))
        )
    ]
    every = [mutant for path in files for mutant in mutants_of(path)]
    rng.shuffle(every)
    seen: set[tuple[str, int]] = set()
    taken = []
    for mutant in every:
        if (mutant.file, mutant.line) not in seen and parses(mutant.text):
            seen.add((mutant.file, mutant.line))
            taken.append(mutant)
        if len(taken) == number:
            break
    return taken


def parses(text: str) -> bool:
    """False for a change that is no Python, such as one inside a pattern."""
    try:
        ast.parse(text)
    except SyntaxError:
        return False
    return True


def reaching(tree: Path, kept: Path) -> dict[str, dict[int, list[str]]]:
    """For each file and line the test functions that reach it, the quickest files first."""
    if kept.exists():
        found: dict[str, dict[str, list[str]]] = json.loads(kept.read_text())
        return {file: {int(at): tests for at, tests in of.items()} for file, of in found.items()}
    settings = tree / ".coveragerc"
    settings.write_text("[run]\ndynamic_context = test_function\nsource = layout,figures,lessons\n")
    run = [sys.executable, "-m", "coverage", "run", "-m", "pytest", "-q", "tests"]
    subprocess.run(run, cwd=tree, check=False, stdout=subprocess.DEVNULL)
    import coverage

    data = coverage.CoverageData(str(tree / ".coverage"))
    data.read()
    lines: dict[str, dict[int, list[str]]] = {}
    for measured in data.measured_files():
        file = str(Path(measured).relative_to(tree.resolve()))
        lines[file] = {
            at: sorted({node_of(name) for name in names if name})
            for at, names in data.contexts_by_lineno(measured).items()
        }
    kept.write_text(json.dumps(lines))
    return lines


def node_of(context: str) -> str:
    """A test function's name as coverage says it, as pytest takes it."""
    module, function = context.rsplit(".", 1)
    return f"{module.replace('.', '/')}.py::{function}"


def survives(tree: Path, mutant: Mutant, tests: list[str]) -> bool:
    """True where every test that reaches the line lets the change pass."""
    target = tree / mutant.file
    right = target.read_text("utf-8")
    target.write_text(mutant.text, "utf-8")
    run = [sys.executable, "-m", "pytest", "-q", "-x", "-p", "no:cacheprovider", *tests]
    try:
        done = subprocess.run(
            run, cwd=tree, check=False, capture_output=True, timeout=SECONDS
        ).returncode
    except subprocess.TimeoutExpired:
        return False
    finally:
        target.write_text(right, "utf-8")
    return done == 0


def main() -> None:
    """Draw, change, run, and print one table and the survivors."""
    asked = argparse.ArgumentParser(description="See whether tests notice changed code.")
    asked.add_argument("--seed", type=int, required=True)
    asked.add_argument("--layout", type=int, default=300)
    asked.add_argument("--elsewhere", type=int, default=150)
    asked.add_argument("--controls", type=int, default=5)
    asked.add_argument("--jobs", type=int, default=2)
    asked.add_argument("--reach", type=Path, default=Path(tempfile.gettempdir()) / "reach.json")
    given = asked.parse_args()
    rng = random.Random(given.seed)
    drawn_in = {
        "layout": drawn(rng, LAYOUT, given.layout),
        "elsewhere": drawn(rng, ELSEWHERE, given.elsewhere),
    }
    whole = [mutant for mutants in drawn_in.values() for mutant in mutants]
    controls = [
        Mutant(one.file, one.line, "unchanged", (ROOT / one.file).read_text("utf-8"))
        for one in rng.sample(whole, min(given.controls, len(whole)))
    ]
    started = time.monotonic()
    with tempfile.TemporaryDirectory() as folder:
        trees = [Path(folder) / str(job) for job in range(given.jobs)]
        for tree in trees:
            shutil.copytree(ROOT, tree, ignore=shutil.ignore_patterns(".git", ".venv", "*.pyc"))
        lines = reaching(trees[0], given.reach)
        free = list(trees)

        def tried(mutant: Mutant) -> str:
            tests = lines.get(mutant.file, {}).get(mutant.line, [])
            if not tests:
                return "unreached"
            tree = free.pop()
            try:
                return "survived" if survives(tree, mutant, tests) else "killed"
            finally:
                free.append(tree)

        with concurrent.futures.ThreadPoolExecutor(given.jobs) as pool:
            held = list(pool.map(tried, controls))
            ends = {name: list(pool.map(tried, some)) for name, some in drawn_in.items()}
    print(f"seed {given.seed}, {time.monotonic() - started:.0f} s")
    print(f"controls survived: {held.count('survived')} of {len(held) - held.count('unreached')}")
    for name, mutants in drawn_in.items():
        equal = [(m.file, m.change) in EQUAL for m in mutants]
        counted = [end for end, same in zip(ends[name], equal, strict=True) if not same]
        killed = counted.count("killed")
        share = killed / len(counted) if counted else 1.0
        print(f"{name}: {len(mutants)} drawn, {sum(equal)} equal, {killed} killed ({share:.0%})")
        for mutant, end, same in zip(mutants, ends[name], equal, strict=True):
            if end != "killed":
                why = f" (equal: {EQUAL[mutant.file, mutant.change]})" if same else ""
                print(f"  {end} {mutant.file}:{mutant.line} {mutant.change}{why}")


if __name__ == "__main__":
    main()
