"""Mutations that change nothing that could be seen, each with its reason; judged by hand."""

from __future__ import annotations

from collections.abc import Iterator

_FAR = "drafting/checks/would_do.py: {0} = {1} => {0} = {2}"
_FORCES, _DRAWN = (10.0, 100.0, 1000.0, 10000.0), (1.05, 1.1, 1.25, 1.5, 2.0)


def _steps_on_the_way() -> Iterator[str]:
    """Give the changes to where a search looks before its last step, which alone is its reach."""
    for name, steps in (("FORCES", _FORCES), ("DRAWN", _DRAWN)):
        for k, step in enumerate(steps[:-1]):
            changed = (*steps[:k], round(1.1 * step, 12), *steps[k + 1 :])
            yield _FAR.format(name, steps, changed)


EQUIVALENT: dict[str, str] = {
    **dict.fromkeys(_steps_on_the_way(), "a step on the way"),
    _FAR.format("STEPS", 22, 23): "finer than a part in a million",
    "drafting/checks/numbers.py: tie_rod_length: float = 0.0 => tie_rod_length: float = 0.1": ""
    "left out only where there are no tie rods, and then read by nothing",
    "drafting/checks/loads.py: if sign * force > 0.0 and (drag + inertia or sign * weight > "
    "0):     "
    "way = 'push' if sign > 0 else 'pull' => if sign * force > 0.0 and (drag + inertia or sign / "
    "weight > 0):     way = 'push' if sign > 0 else 'pull'": "sign is 1 or -1, and no weight with "
    "neither drag nor inertia is no force",
    "drafting/checks/steels.py: row = min(rows, key=lambda r: (0 if either else "
    "-len(_words(r.word('name'))), r.required('yield_mpa'))) => row = min(rows, key=lambda r: "
    "(1 if "
    "either else -len(_words(r.word('name'))), r.required('yield_mpa')))": "the same for every row",
    "drafting/checks/would_do.py: able.sort(key=lambda d: abs(float(d.would_do or 0.0) / "
    "d.taken[0] "
    "- 1) if d.taken else 0.0) => able.sort(key=lambda d: abs(float(d.would_do or 0.0) / "
    "d.taken[0] "
    "- 1) if d.taken else 0.1)": "a typed size is always taken as something",
    "drafting/checks/would_do.py: values = [i.low * r for x in _ratios(i, True) for r in "
    "(x, 1 / x)] => values = [i.low / r for x in _ratios(i, True) for r in (x, 1 / x)]": ""
    "up and down either way",
    "drafting/calc/column.py: for _ in range(24):     middle = (lo + hi) / 2 => "
    "for _ in range(25):     middle = (lo + hi) / 2": "one bisection more than 1e-7 of the span",
    "drafting/calc/column.py: return _edge(enough, bore / 100, bore) if enough(bore) else bore => "
    "return _edge(enough, bore / 101, bore) if enough(bore) else bore": "a search from a bit lower",
    "drafting/model/limits.py: widest[table] = max(widest.get(table, 0.0), reach(piece, "
    "widest.get(table, room / 2))) => widest[table] = max(widest.get(table, 0.0), reach(piece, "
    "widest.get(table, room / 3)))": "only a bound below which a reach need not be exact",
    "drafting/settle/stack.py: shares = {n: round(_share(n, sizes, length), 9) for n in sizes} => "
    "shares = {n: round(_share(n, sizes, length), 10) for n in sizes}": "noise is far below both",
    "drafting/model/mounts/lug.py: if nose <= half + SMALL:     return tongue(half, reach) => "
    "if nose <= half - SMALL:     return tongue(half, reach)": "a nose of half is the same outline",
}
