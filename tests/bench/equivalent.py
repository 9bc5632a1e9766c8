"""Mutations that change nothing that could be seen, each with its reason; judged by hand."""

EQUIVALENT: dict[str, str] = {
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
