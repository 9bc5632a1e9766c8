"""Imports point one way: a lower layer never imports a higher one, siblings never each other."""

import ast
from pathlib import Path

ROOT = Path(__file__).parent.parent / "drafting"

LEVELS = [
    {"records"},
    {"errors", "values"},
    {"factors"},
    {"units", "files"},
    {"standards", "spec", "calc"},
    {"model"},
    {"checks", "drawing", "solids"},
    {"jobs"},
    {"reports"},
    {"api", "cli", "web", "__init__"},
    {"__main__"},
]
RANK = {name: k for k, level in enumerate(LEVELS) for name in level}


def arrows(root: Path) -> list[tuple[str, str]]:
    """Every import of the package's own modules, as (importing module, imported module)."""
    found = []
    for path in sorted(root.rglob("*.py")):
        here = ".".join(path.relative_to(root).with_suffix("").parts)
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.ImportFrom) and node.module:
                names = [node.module]
                if node.module == "drafting":
                    names = [f"drafting.{a.name}" for a in node.names]
            elif isinstance(node, ast.Import):
                names = [a.name for a in node.names]
            else:
                continue
            found += [
                (here, n.removeprefix("drafting.")) for n in names if n.startswith("drafting.")
            ]
    return found


def wrong(pairs: list[tuple[str, str]]) -> list[str]:
    """The imports that point up or sideways."""
    bad = []
    for here, there in pairs:
        a, b = here.split(".")[0], there.split(".")[0]
        if b not in RANK:
            continue
        if a != b and RANK[b] >= RANK[a]:
            bad.append(f"{here} imports {there}")
    return bad


def test_every_package_has_a_level():
    names = {p.stem if p.suffix == ".py" else p.name for p in ROOT.iterdir()}
    assert {n for n in names if not n.startswith("__py") and n != "py.typed"} <= RANK.keys()


def test_imports_point_one_way():
    assert wrong(arrows(ROOT)) == []


def test_the_rule_can_fail():
    assert wrong([("calc.force", "model.load")]) == ["calc.force imports model.load"]
    assert wrong([("spec.check", "standards.table")]) == ["spec.check imports standards.table"]


def test_no_circles_between_modules():
    edges: dict[str, set[str]] = {}
    modules = {".".join(p.relative_to(ROOT).with_suffix("").parts) for p in ROOT.rglob("*.py")}
    for here, there in arrows(ROOT):
        if there in modules and here != there:
            edges.setdefault(here, set()).add(there)
    assert circle(edges) == []
    assert circle({"a": {"b"}, "b": {"a"}}) != []


def circle(edges: dict[str, set[str]]) -> list[str]:
    """A circle in the graph, or an empty list."""
    done: set[str] = set()

    def walk(node: str, path: list[str]) -> list[str]:
        if node in path:
            return [*path[path.index(node) :], node]
        if node in done:
            return []
        for after in sorted(edges.get(node, ())):
            found = walk(after, [*path, node])
            if found:
                return found
        done.add(node)
        return []

    for start in sorted(edges):
        found = walk(start, [])
        if found:
            return found
    return []
