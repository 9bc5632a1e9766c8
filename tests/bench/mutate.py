"""Would the tests notice? One operator or number of a room is changed at a time, in a copy.

    python -m tests.bench.mutate drafting/calc --sample 60 --seed 1

Changed are arithmetic (+ to -, * to /, ...), comparisons (turned into their opposite), and/or/not,
signs, and numbers (a tenth more; whole ones by one). Left alone are types, texts, places in
sequences, sample sizes and numbers below 0.001, which are slacks. Only the room's own tests run,
with a time limit, until the first that fails. What no test can notice because nothing changes
stands in ``EQUIVALENT`` with the reason, and is not counted. Exit code 1 below the room's share.
"""

from __future__ import annotations

import argparse
import ast
import os
import random
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from tests.bench.equivalent import EQUIVALENT

ROOT = Path(__file__).resolve().parents[2]
_WHOLE = (
    "model/test_kept_cylinders.py",
    "model/test_mounts_at_ends.py",
    "model/test_shown_is_built.py",
)
ROOMS: dict[str, tuple[float, tuple[str, ...]]] = {
    "drafting/calc": (0.9, ("calc", "validation")),
    "drafting/checks": (0.9, ("checks",)),
    "drafting/settle": (0.8, ("settle", "told/test_length_stack.py", *_WHOLE)),
    "drafting/shape": (
        0.8,
        ("shape", "drawing/test_section.py", "drawing/test_project.py", _WHOLE[0]),
    ),
    "drafting/model": (
        0.8,
        (
            *_WHOLE,
            "model/test_mounts_on_barrel.py",
            "model/test_reasons.py",
            "model/test_thresholds.py",
            "model/test_port_seats.py",
            "model/test_pins.py",
            "model/test_turning.py",
            "model/test_hose_room.py",
            "model/test_sane.py",
            "model/test_mounts.py",
            "model/test_feet.py",
            "model/test_overlaps.py",
        ),
    ),
}
"""For each room the share that must be caught, and its tests, the quickest first."""

_SWAPS: dict[type[ast.AST], type[ast.AST]] = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
    ast.Pow: ast.Mult,
    ast.Mod: ast.Mult,
    ast.FloorDiv: ast.Mult,
    ast.Lt: ast.GtE,
    ast.GtE: ast.Lt,
    ast.Gt: ast.LtE,
    ast.LtE: ast.Gt,
    ast.Eq: ast.NotEq,
    ast.NotEq: ast.Eq,
    ast.Is: ast.IsNot,
    ast.IsNot: ast.Is,
    ast.In: ast.NotIn,
    ast.NotIn: ast.In,
    ast.And: ast.Or,
    ast.Or: ast.And,
}
_SMALLEST = 1e-3


@dataclass(frozen=True)
class Mutation:
    """One changed statement of one file; ``text`` is the whole changed file."""

    file: str
    line: int
    old: str
    new: str
    changed: str
    text: str

    @property
    def key(self) -> str:
        """Give the name that it keeps while lines move."""
        return f"{self.file}: {self.old} => {self.new}"


def mutations(file: Path) -> Iterator[Mutation]:
    """Yield every mutation of a file."""
    tree = ast.parse(file.read_text(encoding="utf-8"))
    name = file.relative_to(ROOT).as_posix()
    for statement, node in list(_places(tree, tree)):
        old = _first_lines(statement)
        for attribute, value in _changes(node):
            before = getattr(node, attribute)
            setattr(node, attribute, value)
            new, text = _first_lines(statement), ast.unparse(tree)
            yield Mutation(name, node.lineno, old, new, _said(before, value), text)
            setattr(node, attribute, before)


def _places(node: ast.AST, statement: ast.AST) -> Iterator[tuple[ast.AST, ast.expr]]:
    """Yield the expressions that may change, with the statement around each."""
    for name, value in ast.iter_fields(node):
        if name in ("annotation", "returns", "decorator_list", "slice"):
            continue
        for child in value if isinstance(value, list) else [value]:
            if isinstance(child, ast.AST) and not _is_example(child):
                inside = child if isinstance(child, ast.stmt) else statement
                if isinstance(child, ast.expr):
                    yield inside, child
                yield from _places(child, inside)


def _is_example(node: ast.AST) -> bool:
    """Tell whether it is a mount's sample of sizes: any sizes would do."""
    return isinstance(node, ast.AnnAssign) and ast.unparse(node.target) == "example"


def _changes(node: ast.expr) -> Iterator[tuple[str, object]]:
    """Yield what of a node may change, and into what."""
    match node:
        case ast.BinOp(op=op) | ast.BoolOp(op=op) if type(op) in _SWAPS:
            yield "op", _SWAPS[type(op)]()
        case ast.Compare(ops=ops):
            for n, op in enumerate(ops):
                yield "ops", [*ops[:n], _SWAPS[type(op)](), *ops[n + 1 :]]
        case ast.UnaryOp(op=ast.Not(), operand=inner):
            yield "operand", ast.UnaryOp(ast.Not(), inner)
        case ast.UnaryOp(op=ast.USub()):
            yield "op", ast.UAdd()
        case ast.Constant(value=int() as whole) if not isinstance(whole, bool):
            yield "value", whole + 1
        case ast.Constant(value=float() as number) if not 0 < abs(number) < _SMALLEST:
            yield "value", round(1.1 * number, 12) or 0.1


def _said(before: object, after: object) -> str:
    """Name the operators or numbers of a change."""
    said = [
        " ".join(type(op).__name__ for op in (v if isinstance(v, list) else [v]))
        if not isinstance(v, int | float)
        else f"{v:g}"
        for v in (before, after)
    ]
    return " to ".join(said)


def _first_lines(statement: ast.AST) -> str:
    """Give a statement on one line, shortened."""
    return " ".join(ast.unparse(statement).splitlines()[:2])[:200]


class Copy:
    """A copy of the tree in which one file at a time is changed."""

    def __init__(self, folder: Path, tests: tuple[str, ...]) -> None:
        self.folder = folder
        for name in ("drafting", "tests", "specs"):
            shutil.copytree(
                ROOT / name, folder / name, ignore=shutil.ignore_patterns("__pycache__")
            )
        shutil.copy(ROOT / "pyproject.toml", folder)
        self.tests = [
            str(file.relative_to(folder))
            for t in tests
            for file in sorted((folder / "tests" / t).rglob("test_*.py")) or [folder / "tests" / t]
        ]
        started = time.monotonic()
        if self.run(limit=900.0) != "survived":
            raise SystemExit("the tests fail before anything is changed")
        self.limit = 3 * (time.monotonic() - started) + 20

    def run(self, limit: float, first: str = "") -> str:
        """Give "caught", "timed out" (caught too) or "survived"; tests named like it go first."""
        tests = sorted(self.tests, key=lambda t: first not in Path(t).name)
        command = [sys.executable, "-m", "pytest", "-x", "-q", "-n", "0", "-p", "no:cacheprovider"]
        try:
            done = subprocess.run(
                [*command, *tests],
                cwd=self.folder,
                timeout=limit,
                capture_output=True,
                env={**os.environ, "PYTHONDONTWRITEBYTECODE": "1"},
                check=False,
            )
        except subprocess.TimeoutExpired:
            return "timed out"
        return "caught" if done.returncode else "survived"

    def judge(self, mutation: Mutation) -> str:
        """Run the tests with one mutation, and take it back."""
        path = self.folder / mutation.file
        right = path.read_bytes()
        path.write_text(mutation.text, encoding="utf-8")
        try:
            return self.run(self.limit, Path(mutation.file).stem)
        finally:
            path.write_bytes(right)


def main() -> int:
    """Run a sample and print what survived."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    parser.add_argument("room", choices=ROOMS)
    parser.add_argument("--sample", type=int, default=60)
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    share, tests = ROOMS[options.room]
    every = [m for f in sorted((ROOT / options.room).rglob("*.py")) for m in mutations(f)]
    possible = [m for m in every if m.key not in EQUIVALENT]
    sample = random.Random(options.seed).sample(possible, min(options.sample, len(possible)))
    caught = 0
    with tempfile.TemporaryDirectory() as folder:
        copy = Copy(Path(folder), tests)
        for mutation in sample:
            verdict = copy.judge(mutation)
            caught += verdict != "survived"
            if verdict == "survived":
                print(
                    f"{mutation.file}:{mutation.line}: {mutation.changed}\n"
                    f"  {mutation.old}\n  {mutation.new}",
                    flush=True,
                )
    left_out = len(every) - len(possible)
    print(f"{options.room}: {caught} of {len(sample)} caught, seed {options.seed}; ", end="")
    print(f"{len(every)} possible, {left_out} named equivalent")
    return int(caught < share * len(sample))


if __name__ == "__main__":
    raise SystemExit(main())
