"""Change the code in one place at a time and see whether a test notices.

    python -m tests.mutants --seed 20 --layout 300 --elsewhere 150 --jobs 2

One operator, sign, function, order of arguments, constant or field is changed in a copy; then the
tests that reach the changed line run, the quickest first, until one fails. One run of the suite
under `coverage` finds them and is kept in a file as long as nothing changes; ends are written down
as they come, and the same command goes on where it was stopped. A mutant that the tests let pass
has survived: a test is missing, or the mutant is equal in effect, which is argued in
`equal_mutants.toml`.
Unchanged controls must survive. The seed is chosen after the tests are frozen. No test depends on
this script.
"""

import argparse
import ast
import copy
import json
import os
import random
import tempfile
import time
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from tests.mutant_trials import Collected, Passes, Reach, copied, end, reaching, suite, tested, warm

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
EQUAL: list[dict[str, str]] = tomllib.loads(
    (ROOT / "tests" / "equal_mutants.toml").read_text("utf-8")
)["equal"]
"""Mutants equal in effect: the file, the change, what the line holds, and the argument why."""

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

SYMMETRIC = {
    "broadcast", "dot", "gcd", "hypot", "max", "maximum", "min", "minimum", "mitre", "multiply",
}  # fmt: skip
"""Functions whose first two arguments may change places: that changes nothing and is not drawn."""


@dataclass(frozen=True)
class Mutant:
    """One change: the file, the line it stands on, what was and what is, and the whole new text."""

    file: str
    line: int
    change: str
    text: str


def places_of(path: Path) -> Iterator[tuple[Path, ast.expr, ast.AST]]:
    """Every expression of one file inside its functions, with each change that fits it."""
    for function in ast.walk(ast.parse(path.read_text("utf-8"))):
        if not isinstance(function, ast.FunctionDef):
            continue
        for node in (node for statement in function.body for node in ast.walk(statement)):
            if isinstance(node, ast.expr):
                for change in changes_of(node):
                    yield path, node, change


def stands(source: str, node: ast.expr) -> bool:
    """True where the node is found at its place in the text: inside an f-string it is not."""
    text = ast.get_source_segment(source, node)
    try:
        alone = ast.parse(f"({text})", mode="eval").body
    except SyntaxError:
        return False
    return ast.dump(alone) == ast.dump(node)


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
        starred = any(isinstance(argument, ast.Starred) for argument in node.args[:2])
        alike = len(node.args) >= 2 and ast.dump(node.args[0]) == ast.dump(node.args[1])
        symmetric = starred or alike or called(node) in SYMMETRIC
        if len(node.args) >= 2 and not symmetric:
            changed = copy.deepcopy(node)
            changed.args[0], changed.args[1] = changed.args[1], changed.args[0]
            yield changed
        if len([k for k in node.keywords if k.arg]) >= 2:
            changed = copy.deepcopy(node)
            first, second = changed.keywords[:2]
            first.value, second.value = second.value, first.value
            yield changed


def called(call: ast.Call) -> str:
    """The last word of what is called: `hypot` of `np.hypot`."""
    return getattr(call.func, "attr", "") or getattr(call.func, "id", "")


def made(path: Path, node: ast.expr, change: ast.AST) -> Mutant:
    """The file's text with one node written anew, in brackets, in its place."""
    source = path.read_text("utf-8")
    start, end = position(source, node, "col_offset"), position(source, node, "end_col_offset")
    new = ast.unparse(ast.fix_missing_locations(change))
    if isinstance(change, ast.expr):
        new = f"({new})"
    was = " ".join(source[start:end].split())
    file = str(path.relative_to(ROOT))
    return Mutant(file, node.lineno, f"{was} => {new}", source[:start] + new + source[end:])


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
    every = [place for path in files for place in places_of(path)]
    rng.shuffle(every)
    seen: set[tuple[Path, int]] = set()
    taken = []
    for path, node, change in every:
        if len(taken) == number:
            break
        if (path, node.lineno) not in seen and stands(path.read_text("utf-8"), node):
            mutant = made(path, node, change)
            if parses(mutant.text):
                seen.add((path, node.lineno))
                taken.append(mutant)
    return taken


def parses(text: str) -> bool:
    """False for a change that is no Python, such as one inside a pattern."""
    try:
        ast.parse(text)
    except SyntaxError:
        return False
    return True


def why_equal(mutant: Mutant) -> str:
    """The argument why a mutant is equal in effect; empty where there is none."""
    lines = (ROOT / mutant.file).read_text("utf-8").splitlines()
    return next(
        (
            row["why"]
            for row in EQUAL
            if (row["file"], row["change"]) == (mutant.file, mutant.change)
            and row.get("where", "") in lines[mutant.line - 1]
        ),
        "",
    )


def results(path: Path) -> dict[tuple[str, int, str], str]:
    """How the mutants ended that were tried before, by file, line and change."""
    if not path.exists():
        return {}
    rows = [json.loads(line) for line in path.read_text("utf-8").splitlines()]
    return {(row["file"], row["line"], row["change"]): row["end"] for row in rows}


def work(
    passes: Passes,
    tree: Path,
    mutants: list[Mutant],
    reach: Reach,
    given: argparse.Namespace,
    out: Path,
) -> None:
    """Try every mutant that falls to one job, and write each end down as it comes."""
    for mutant in mutants:
        start = time.monotonic()
        how = end(passes, tree, mutant.file, mutant.text, reach, mutant.line, given)
        row = {"file": mutant.file, "line": mutant.line, "change": mutant.change, "end": how}
        with out.open("a", encoding="utf-8") as file:
            file.write(json.dumps(row | {"seconds": round(time.monotonic() - start, 1)}) + "\n")


def main() -> None:
    """Draw, change, run, and print one table and the survivors."""
    asked = argparse.ArgumentParser(description="See whether tests notice changed code.")
    asked.add_argument("--seed", type=int, required=True)
    asked.add_argument("--layout", type=int, default=300)
    asked.add_argument("--elsewhere", type=int, default=150)
    asked.add_argument("--controls", type=int, default=5)
    asked.add_argument("--jobs", type=int, default=2)
    asked.add_argument("--most", type=float, default=60.0, help="seconds of tests for a mutant")
    kept = Path(tempfile.gettempdir())
    asked.add_argument("--after", type=float, default=0.0, help="go on after so many, if it lives")
    asked.add_argument("--anew", action="store_true", help="import what has survived anew")
    asked.add_argument("--reach", type=Path, default=kept / "reach.json")
    asked.add_argument("--results", type=Path, default=None, help="lines of JSON; read again")
    given = asked.parse_args()
    out = given.results or kept / f"mutants-{given.seed}.jsonl"
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
    warm()
    with tempfile.TemporaryDirectory() as folder:
        trees = [copied(ROOT, Path(folder) / str(job)) for job in range(given.jobs)]
        reach = reaching(ROOT, trees, given.reach)
        known = results(out)
        going_on = ("survived", "unreached") if given.after else ()
        left = [one for one in (*controls, *whole) if known.get(key(one), "") in ("", *going_on)]
        running = []
        for job in range(given.jobs):
            child = os.fork()
            if not child:
                tree, share = trees[job], left[job :: given.jobs]
                lent = Collected(
                    lambda passes, tree=tree, share=share: work(  # type: ignore[misc]
                        passes, tree, share, reach, given, out
                    )
                )
                try:
                    suite(tree, tested(tree), [lent])
                finally:
                    os._exit(0)
            running.append(child)
        for child in running:
            os.waitpid(child, 0)
    ends = results(out)
    print(f"seed {given.seed}, {time.monotonic() - started:.0f} s, {out}")
    held = [ends[key(one)] for one in controls]
    print(f"controls survived: {held.count('survived')} of {len(held) - held.count('unreached')}")
    for name, mutants in drawn_in.items():
        whys = [why_equal(mutant) for mutant in mutants]
        counted = [ends[key(m)] for m, why in zip(mutants, whys, strict=True) if not why]
        killed = counted.count("killed")
        share = killed / len(counted) if counted else 1.0
        equal = len(mutants) - len(counted)
        print(f"{name}: {len(mutants)} drawn, {equal} equal, {killed} killed ({share:.0%})")
        for mutant, why in zip(mutants, whys, strict=True):
            if ends[key(mutant)] != "killed":
                end = ends[key(mutant)]
                argued = f" (equal: {why})" if why else ""
                print(f"  {end} {mutant.file}:{mutant.line} {mutant.change}{argued}")


def key(mutant: Mutant) -> tuple[str, int, str]:
    """What names a mutant in the file of results."""
    return mutant.file, mutant.line, mutant.change


if __name__ == "__main__":
    main()
