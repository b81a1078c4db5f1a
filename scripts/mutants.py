"""Change core lines one at a time and run the tests that stand by them: a change that no test notices is a gap.

Nothing in this tree is touched: each runner works in a copy. Lines are drawn evenly over the core with a fixed seed, one change
each; the tests that speak of the changed function come first, then all of its package, then what reaches it from elsewhere.

``python scripts/mutants.py --draw 300 --seed 1 --log FILE`` runs them, two at a time, and prints a table; with a log that is
there already it goes on where that ends. ``--table`` only prints the table of a log.
"""

from __future__ import annotations

import argparse
import ast
import json
import os
import random
import resource
import shutil
import subprocess
import sys
import tempfile
import tomllib
from collections import Counter
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import asdict, dataclass
from pathlib import Path
from queue import Queue

ROOT = Path(__file__).resolve().parent.parent
EQUIVALENT = ROOT / "scripts" / "equivalent_mutants.toml"
CORE = ("accuracy", "job/checks", "hinges", "sizes", "money", "setout", "survey", "dates", "boards")
"""Rooms of the core, those whose tests take least time first, and run in that order."""

LONGEST_S = 400
"""Tests that take so much processor time have noticed: the change made a loop without end. The longest room takes 130. [s]"""

COMPARED = {
    ast.Lt: ("<", "<="),
    ast.LtE: ("<=", "<"),
    ast.Gt: (">", ">="),
    ast.GtE: (">=", ">"),
    ast.Eq: ("==", "!="),
    ast.NotEq: ("!=", "=="),
    ast.In: (" in ", " not in "),
    ast.NotIn: (" not in ", " in "),
    ast.Is: (" is ", " is not "),
    ast.IsNot: (" is not ", " is "),
}
RECKONED = {
    ast.Add: ("+", "-"),
    ast.Sub: ("-", "+"),
    ast.Mult: ("*", "/"),
    ast.Div: ("/", "*"),
    ast.FloorDiv: ("//", "*"),
}
CALLED = {"min": "max", "max": "min", "any": "all", "all": "any", "floor": "ceil", "ceil": "floor"}


@dataclass(frozen=True)
class Change:
    """One change of a source file: what stands from one offset to another becomes something else."""

    path: str
    line: int
    start: int
    end: int
    before: str
    after: str
    within: str

    @property
    def package(self) -> str:
        """The room of the core that it is in."""
        return next(room for room in CORE if self.path.startswith(f"src/rodbook/{room}/"))

    @property
    def said(self) -> str:
        """Where and what, on one line."""
        return f"{self.path}:{self.line} {self.within}: {self.before.strip()} -> {self.after.strip()}"


class _Finder(ast.NodeVisitor):
    """Gathers every change of a module; texts, annotations, decorators and what is only raised stay as they are."""

    def __init__(self, path: str, source: str) -> None:
        self.path, self.source = path, source
        self.found: list[Change] = []
        self.names: list[str] = []
        starts = [0]
        for line in source.encode().splitlines(keepends=True):
            starts.append(starts[-1] + len(line))
        self.starts, self.bytes = starts, source.encode()

    def _at(self, line: int, column: int) -> int:
        return self.starts[line - 1] + column

    def _span(self, node: ast.expr) -> tuple[int, int]:
        return self._at(node.lineno, node.col_offset), self._at(node.end_lineno or 0, node.end_col_offset or 0)

    def _add(self, line: int, start: int, end: int, after: str) -> None:
        before = self.bytes[start:end].decode()
        self.found.append(Change(self.path, line, start, end, before, after, ".".join(self.names) or "module"))

    def _between(self, left: ast.expr, right: ast.expr, old: str, new: str) -> None:
        start, end = self._span(left)[1], self._span(right)[0]
        at = self.bytes[start:end].decode().find(old)
        if at >= 0:
            self._add(left.end_lineno or left.lineno, start + at, start + at + len(old), new)

    def _named(self, node: ast.FunctionDef | ast.ClassDef) -> None:
        self.names.append(node.name)
        for child in node.body:
            self.visit(child)
        self.names.pop()

    visit_FunctionDef = _named  # noqa: N815 - as the visitor is called
    visit_ClassDef = _named  # noqa: N815

    def visit_AnnAssign(self, node: ast.AnnAssign) -> None:
        """A field or a variable: its value alone."""
        if node.value is not None:
            self.visit(node.value)

    def visit_Raise(self, node: ast.Raise) -> None:
        """What is raised is told, not reckoned."""

    def visit_JoinedStr(self, node: ast.JoinedStr) -> None:
        """Sentences are tested as such."""

    def visit_If(self, node: ast.If) -> None:
        """The condition may be turned round."""
        if isinstance(node.test, ast.Name) and node.test.id == "TYPE_CHECKING":
            return
        start, end = self._span(node.test)
        self._add(node.lineno, start, end, f"not ({self.bytes[start:end].decode()})")
        self.generic_visit(node)

    def visit_Compare(self, node: ast.Compare) -> None:
        """A comparison turned."""
        left = node.left
        for op, right in zip(node.ops, node.comparators, strict=True):
            if type(op) in COMPARED:
                self._between(left, right, *COMPARED[type(op)])
            left = right
        self.generic_visit(node)

    def visit_BinOp(self, node: ast.BinOp) -> None:
        """One way of reckoning for another; texts and unions of types are left alone."""
        texts = any(
            isinstance(side, (ast.JoinedStr, ast.List, ast.Tuple)) or _is_text(side) for side in (node.left, node.right)
        )
        if type(node.op) in RECKONED and not texts:
            self._between(node.left, node.right, *RECKONED[type(node.op)])
        self.generic_visit(node)

    def visit_BoolOp(self, node: ast.BoolOp) -> None:
        """And for or."""
        old, new = (" and ", " or ") if isinstance(node.op, ast.And) else (" or ", " and ")
        self._between(node.values[0], node.values[1], old, new)
        self.generic_visit(node)

    def visit_UnaryOp(self, node: ast.UnaryOp) -> None:
        """A sign or a not left out."""
        start, end = self._span(node)
        inner, inner_end = self._span(node.operand)
        if isinstance(node.op, (ast.USub, ast.Not)):
            self._add(node.lineno, start, end, self.bytes[inner:inner_end].decode())
        self.generic_visit(node)

    def visit_Constant(self, node: ast.Constant) -> None:
        """A number moved, a truth turned."""
        value = node.value
        if isinstance(value, bool):
            self._add(node.lineno, *self._span(node), str(not value))
        elif isinstance(value, int):
            self._add(node.lineno, *self._span(node), str(value + 1))
        elif isinstance(value, float):
            self._add(node.lineno, *self._span(node), repr(value * 1.1 if value else 1.0))

    def visit_Call(self, node: ast.Call) -> None:
        """The least for the greatest."""
        name = node.func.id if isinstance(node.func, ast.Name) else getattr(node.func, "attr", "")
        if name in CALLED:
            end = self._span(node.func)[1]
            self._add(node.func.end_lineno or node.lineno, end - len(name), end, CALLED[name])
        self.generic_visit(node)

    def visit_Return(self, node: ast.Return) -> None:
        """A value changed where it is given back."""
        if isinstance(node.value, (ast.BinOp, ast.Call, ast.Attribute, ast.Name, ast.Subscript)):
            start, end = self._span(node.value)
            self._add(node.lineno, start, end, "None")
        self.generic_visit(node)


def _is_text(node: ast.expr) -> bool:
    return isinstance(node, ast.Constant) and isinstance(node.value, str)


def changes() -> list[Change]:
    """Every change of the core."""
    results: list[Change] = []
    for room in CORE:
        for path in sorted((ROOT / "src/rodbook" / room).rglob("*.py")):
            if path.name != "__init__.py":
                source = path.read_text("utf-8")
                finder = _Finder(str(path.relative_to(ROOT)), source)
                finder.visit(ast.parse(source))
                results += finder.found
    return results


def drawn(number: int, seed: int) -> list[Change]:
    """So many lines drawn evenly, each with one of its changes."""
    lines: dict[tuple[str, int], list[Change]] = {}
    for change in changes():
        lines.setdefault((change.path, change.line), []).append(change)
    choose = random.Random(seed)
    return [choose.choice(lines[place]) for place in choose.sample(sorted(lines), min(number, len(lines)))]


def _stages(change: Change) -> Iterator[list[str]]:
    """What tests are run, in order: those that speak of the function or its module, then all that stand by the package."""
    module = Path(change.path)
    room = Path("tests", *module.parts[2:-1])
    while not (ROOT / room).is_dir():
        room = room.parent
    names = {word.strip("_") for word in change.within.split(".")} | {module.stem}
    near = sorted(str(path.relative_to(ROOT)) for path in (ROOT / "tests" / module.parts[2]).rglob("test_*.py"))
    lines = [path for path in near if Path(path).stem == f"test_{module.stem}"]
    lines += [
        path
        for path in near
        if path not in lines and any(n in (ROOT / path).read_text("utf-8") for n in names if len(n) > 4)
    ]
    yield [change.path, *lines]
    yield [path for path in near if path not in lines]
    yield ["tests/published", "tests/independent", "tests/plan"]


def _bounded() -> None:
    resource.setrlimit(resource.RLIMIT_CPU, (LONGEST_S, LONGEST_S))


def _failed(copy: Path, tests: list[str]) -> str:
    """Run tests in a copy until one fails, and give its name; nothing where none does."""
    env = os.environ | {"PYTHONPATH": str(copy / "src"), "PYTHONDONTWRITEBYTECODE": "1"}
    done = subprocess.run(
        [
            sys.executable,
            "-m",
            "pytest",
            "-n",
            "0",
            "-x",
            "-q",
            "--no-header",
            "-p",
            "no:cacheprovider",
            "--tb=no",
            *tests,
        ],
        cwd=copy,
        env=env,
        capture_output=True,
        text=True,
        check=False,
        preexec_fn=_bounded,
    )
    if done.returncode in (0, 5):
        return ""
    answer = (line for line in done.stdout.splitlines() if line.startswith(("FAILED ", "ERROR ")))
    return next(answer, f"ended by {done.returncode}").split(" - ")[0]


def _tried(change: Change, copy: Path) -> dict[str, object] | None:
    """Make the change in a copy, run its tests until one fails, and take it back.

    None where what failed fails without the change too: that says nothing, and is tried again another time.
    """
    target = copy / change.path
    kept, stamp = target.read_bytes(), target.stat()
    by = ""
    try:
        target.write_bytes(kept[: change.start] + change.after.encode() + kept[change.end :])
        for tests in _stages(change):
            if tests and (by := _failed(copy, tests)):
                break
    finally:
        target.write_bytes(kept)
        os.utime(target, ns=(stamp.st_atime_ns, stamp.st_mtime_ns))  # bytecode and compiled loops go by the time
        compiled = Path("src/rodbook/boards/kernels/__pycache__")
        if target.parent.name == "kernels" and (ROOT / compiled).is_dir():
            shutil.copytree(ROOT / compiled, copy / compiled, dirs_exist_ok=True)
    if by.startswith("FAILED ") and _failed(copy, [by.removeprefix("FAILED ")]):
        return None
    return asdict(change) | {"noticed": bool(by), "by": by[:160], "key": _key(change)}


def run(number: int, seed: int, log: Path, at_once: int) -> None:
    """Run all that the log has not yet, writing each down as it is done."""
    known = {json.loads(line)["key"] for line in log.read_text("utf-8").splitlines()} if log.exists() else set()
    todo = [change for change in drawn(number, seed) if _key(change) not in known]
    todo.sort(key=lambda change: CORE.index(change.package))
    with tempfile.TemporaryDirectory() as folder, log.open("a", encoding="utf-8") as out:
        copies: Queue[Path] = Queue()
        for n in range(at_once):
            copy = Path(folder, str(n))
            for part in ("src", "tests", "docs", "examples", "benchmarks", "scripts", "changelog.d"):
                if (ROOT / part).exists():
                    shutil.copytree(ROOT / part, copy / part)
            for name in ("pyproject.toml", "Makefile", "CONTRIBUTING.md", "README.md", "CHANGELOG.md"):
                shutil.copy(ROOT / name, copy / name)
            copies.put(copy)

        def one(change: Change) -> None:
            copy = copies.get()
            try:
                result = _tried(change, copy)
            finally:
                copies.put(copy)
            if result is not None:
                out.write(json.dumps(result) + "\n")
                out.flush()

        with ThreadPoolExecutor(at_once) as pool:
            list(pool.map(one, todo))


def _key(change: Change) -> str:
    return f"{change.path}:{change.line}:{change.start}:{change.after}"


def print_table(log: Path) -> None:
    """Print how many of each package were noticed, and name those that were not."""
    rows = [json.loads(line) for line in log.read_text("utf-8").splitlines()]
    text = tomllib.loads(EQUIVALENT.read_text("utf-8")).get("equivalent", []) if EQUIVALENT.exists() else []
    same = {(entry["path"], entry["within"], entry["before"], entry["after"]) for entry in text}
    count: Counter[tuple[str, str]] = Counter()
    survivors = []
    for row in rows:
        change = Change(**{name: row[name] for name in Change.__dataclass_fields__})
        is_same = (change.path, change.within, change.before.strip(), change.after.strip()) in same
        kind = "noticed" if row["noticed"] else "equivalent" if is_same else "missed"
        count[change.package, kind] += 1
        if kind == "missed":
            survivors.append(change.said)
    print(f"{'package':<14}{'drawn':>7}{'noticed':>9}{'equivalent':>12}{'missed':>8}")
    for room in (*CORE, "all"):
        own = {
            k: sum(n for (r, kind), n in count.items() if kind == k and room in (r, "all"))
            for k in ("noticed", "equivalent", "missed")
        }
        print(f"{room:<14}{sum(own.values()):>7}{own['noticed']:>9}{own['equivalent']:>12}{own['missed']:>8}")
    counted = sum(n for (_, kind), n in count.items() if kind != "equivalent")
    noticed = sum(n for (_, kind), n in count.items() if kind == "noticed")
    print(f"{noticed / max(1, counted):.1%} of those that change anything were noticed")
    for answer in sorted(survivors):
        print(f"  {answer}")


def main() -> None:
    """Read the words of the command."""
    reader = argparse.ArgumentParser(description=__doc__)
    reader.add_argument("--draw", type=int, default=300)
    reader.add_argument("--seed", type=int, default=1)
    reader.add_argument("--at-once", type=int, default=2)
    reader.add_argument("--log", type=Path, required=True)
    reader.add_argument("--table", action="store_true")
    given = reader.parse_args()
    if not given.table:
        run(given.draw, given.seed, given.log, given.at_once)
    print_table(given.log)


if __name__ == "__main__":
    main()
