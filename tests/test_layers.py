"""Imports point one way: a lower layer never imports a higher one, siblings never each other."""

import ast
from pathlib import Path

ROOT = Path(__file__).parent.parent / "drafting"

LEVELS = [
    {"records", "arrays", "undisturbed"},
    {"errors", "values"},
    {"factors"},
    {"more_units"},
    {"apart", "units", "files"},
    {"standards", "spec", "calc"},
    {"shape"},
    {"settle"},
    {"model"},
    {"told"},
    {"checks", "drawing", "solids"},
    {"asking", "measuring", "replacing", "sizing"},
    {"fitting"},
    {"reports"},
    {"viewing"},
    {"jobs"},
    {"web"},
    {"api", "cli", "__init__"},
    {"__main__"},
]
INNER = {
    "model": [{"mounts", "shells", "ports"}, {"pins"}],
    "drawing": [
        {"sheet"},
        {"project"},
        {"dimension"},
        {"lists"},
        {"views"},
        {"inspect"},
        {"compose"},
        {"write"},
    ],
    "drawing.write": [{"carry", "svg_elements"}, {"svg", "pdf", "dxf"}, {"png", "form"}],
}
"""Rooms inside a room, lowest first; a room's own files that are not named stand above them all."""


def ranks(levels: list[set[str]]) -> dict[str, int]:
    return {name: k for k, level in enumerate(levels) for name in level}


RANK = ranks(LEVELS)


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
    """The imports that point up or sideways, in the house and inside each of its rooms."""
    bad = []
    for here, there in pairs:
        if not allowed(RANK, here, there) or any(
            not allowed(ranks(levels), here[len(room) + 1 :], there[len(room) + 1 :])
            for room, levels in INNER.items()
            if here.startswith(f"{room}.") and there.startswith(f"{room}.")
        ):
            bad.append(f"{here} imports {there}")
    return bad


def allowed(rank: dict[str, int], here: str, there: str) -> bool:
    """Whether one room may import another; what has no rank of its own stands on top."""
    a, b = here.split(".")[0], there.split(".")[0]
    top = max(rank.values()) + 1
    return (
        a == b
        or rank.get(b, -1 if rank is RANK else top) < rank.get(a, top)
        or (a not in rank and b not in rank)
    )


def test_every_package_has_a_level():
    names = {p.stem if p.suffix == ".py" else p.name for p in ROOT.iterdir()}
    assert {n for n in names if not n.startswith("__py") and n != "py.typed"} <= RANK.keys()


def test_imports_point_one_way():
    assert wrong(arrows(ROOT)) == []


def test_the_rule_can_fail():
    assert wrong([("calc.force", "model.load")]) == ["calc.force imports model.load"]
    assert wrong([("spec.check", "standards.table")]) == ["spec.check imports standards.table"]
    assert wrong([("drawing.sheet.style", "drawing.views.view")]) != []
    assert wrong([("drawing.write.svg", "drawing.write.dxf.file")]) != []
    assert wrong([("model.pins.rules", "model.cylinder")]) != []
    assert wrong([("model.assemble", "model.pins.rules")]) == []
    assert wrong([("drawing.compose.page", "drawing.sheet.style")]) == []


def test_every_room_of_a_room_has_a_level():
    for room, levels in INNER.items():
        inside = {p.parent.name for p in (ROOT / room.replace(".", "/")).glob("*/__init__.py")}
        assert inside <= ranks(levels).keys(), room


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
