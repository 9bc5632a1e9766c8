"""No formula is dead: the product calls it, or it is public and a printed case proves it."""

import ast
from pathlib import Path

from drafting.calc import PUBLIC
from tests.calc.test_dimensions import MODULES

ROOT = Path(__file__).parents[2]


def used_names(*folders: str) -> set[str]:
    """Names that are called or handed on; a definition or an import alone is no use."""
    names: set[str] = set()
    for folder in folders:
        for path in (ROOT / folder).rglob("*.py"):
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
                if isinstance(node, ast.Name):
                    names.add(node.id)
                elif isinstance(node, ast.Attribute):
                    names.add(node.attr)
    return names


def formulas() -> dict[str, str]:
    found = {}
    for module in MODULES:
        tree = ast.parse((ROOT / f"drafting/calc/{module}.py").read_text(encoding="utf-8"))
        for node in tree.body:
            if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
                found[f"{module}.{node.name}"] = node.name
    return found


def test_what_nothing_calls_is_declared_public():
    used = used_names("drafting")
    assert {full for full, name in formulas().items() if name not in used} == set(PUBLIC)


def test_what_is_public_is_held_against_print():
    tried = used_names("tests/validation", "tests/calc")
    assert {full for full in PUBLIC if full.split(".")[1] not in tried} == set()
