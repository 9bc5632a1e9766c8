"""Whole cylinders told in plain facts, and kept beside the tests: what changed shows in a diff.

    python -m tests.model.kept_cylinders --write

writes ``kept/*.json`` anew. Lengths are rounded to 0.001 mm. A bare cylinder of each shell is kept
whole; of every other only what differs from it (null: what it lacks). A kept number proves nothing
by itself; it only makes sure that nobody changes one without looking at it.
"""

from __future__ import annotations

import json
import re
import sys
from collections.abc import Iterable
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

from drafting.model import sane
from drafting.model.cylinder import Cylinder
from drafting.settle.wishes import Callout
from drafting.shape.boxes import box_of
from drafting.shape.frame import X, Y
from drafting.shape.pieces import Part, Piece
from drafting.shape.volume import volume
from tests.agree.cases import SHELLS, Case, cases
from tests.model.mount_specs import measured, settled

KEPT = Path(__file__).parent / "kept"
PLAUSIBLE = KEPT / "plausible.json"
TURNED = 35
"""Degrees by which what can turn is turned, so that no axis is another one's double."""
Facts = dict[str, str]


def bare(shell: str) -> str:
    """Give the name of the case without mounts of its own."""
    return f"{shell}: rod plain"


CHOSEN = (
    "welded: (body|rod) ",
    "welded: .*(eye|tube|clevis|swivel|flange|trunnion|foot|angle|male|pins)",
    "welded: (gland|stop tube|pull|ram|extra|cushions both|SAE-8|G 1/2|flange 1/2)",
    "tie rod: (rod plain|body|rod flange|male|angles at both|rod clevis, screwed|sizes typed)",
    "tie rod: (G 1/2|flange 1/2|extra|cap turned 90|cushions both|pull, spring|ram|stop tube)",
    "tie rod: (trunnion, middle|flange, rod end|foot, middle|clevis, pins)",
)
"""What the names begin with of the cases that are kept."""


@cache
def kept_cases() -> tuple[Case, ...]:
    """Give the cases whose cylinders are kept."""
    return tuple(c for c in cases() if any(re.match(p, c.name) for p in CHOSEN))


def facts(c: Cylinder) -> Facts:
    """Tell a cylinder in facts by name: sizes, pieces, dimensions, marks, findings."""
    out: Facts = {}
    for v in c.values:
        if v.origin != "given":
            out[f"value {v.name}"] = f"{_said(v.value)} {v.unit}".strip() + f", {v.origin}"
    for part in (*c.parts, *c.phantoms):
        for piece in part.pieces:
            _enter(out, f"piece {part.name}: {piece.name}", _piece(part, piece))
    for wish in c.wishes:
        parts = [getattr(wish, f) for f in ("rank", "form", "note", "pose") if hasattr(wish, f)]
        if isinstance(wish, Callout):
            told = f"{' / '.join(wish.lines)} at {_said(wish.tip)} from {_said(wish.normal)}"
        else:
            place = next(getattr(wish, f) for f in ("a", "centre") if hasattr(wish, f))
            told = f"{_said(measured(wish))} at {_said(place)}"
        _enter(out, f"shown {wish.name}", f"{told} {_said(parts)}")
    for mark in c.symbols:
        fields = [getattr(mark, f) for f in mark.__dataclass_fields__ if f != "name"]
        _enter(out, f"mark {mark.name}", _said(fields))
    for f in c.findings:
        numbers = " ".join(re.findall(r"\d[\d./]*", f.message))
        _enter(out, f"finding {f.code} {f.field}", f"{f.level} {numbers}")
    for port in c.ports:
        where = [getattr(port, f) for f in ("x", "face") if hasattr(port, f)]
        out[f"port {port.sizes.table}"] = f"{_said(where)} at {_said(port.sizes.clock)}"
    for end, carried in c.carried.items():
        numbers = re.sub(r"\d+\.\d+", lambda x: _said(float(x[0])), str(carried))
        out[f"carried {end}"] = numbers
    out["stations"] = _said([getattr(c.stations, f) for f in c.stations.__dataclass_fields__])
    out["shares"] = _said(sorted(f"{n} {_said(s)}" for n, s in c.shares.items()))
    out["turned"] = _said(c.turned)
    return out


def _piece(part: Part, piece: Piece) -> str:
    alone = volume(Part("", part.owner, (replace(piece, cut=False),)))
    told = f"{'less ' if piece.cut else ''}{alone:.6g} mm3 in {_said(box_of(piece))}"
    f = piece.frame
    return told + ("" if f.x == X and f.y == Y else f" along {_said((f.x, f.y))}")


def _enter(out: Facts, name: str, told: str) -> None:
    """Enter what may come more than once under one name."""
    seen = sum(n == name or n.startswith(f"{name} #") for n in out)
    out[f"{name} #{seen + 1}" if seen else name] = told


def _said(value: Any) -> str:
    if isinstance(value, bool | str) or value is None:
        return str(value)
    if isinstance(value, float | int):
        text = f"{value:.3f}".rstrip("0").rstrip(".")
        return "0" if text == "-0" else text
    if isinstance(value, Iterable):
        return "(" + ", ".join(_said(v) for v in value) + ")"
    return str(value)


@cache
def told(case: Case | str) -> Facts:
    """Give the facts of a case, or of the case of that name."""
    found = next(c for c in cases() if c.name == case) if isinstance(case, str) else case
    return facts(settled(found.text(TURNED)))


def different(case: Case) -> dict[str, str | None]:
    """Give what differs from the bare cylinder of the same shell, all where it is that itself."""
    shell = case.name.partition(":")[0]
    base = {} if case.name == bare(shell) else told(bare(shell))
    mine = told(case.name)
    lacks: dict[str, str | None] = {n: None for n in base if n not in mine}
    return {**{n: s for n, s in mine.items() if base.get(n) != s}, **lacks}


def file_of(shell: str) -> Path:
    """Give the file of a shell."""
    return KEPT / f"{shell.replace(' ', '_')}.json"


@cache
def kept(shell: str) -> dict[str, dict[str, str | None]]:
    """Give what is kept of a shell's cylinders, by case."""
    found: dict[str, dict[str, str | None]] = json.loads(file_of(shell).read_text("utf-8"))
    return found


def rules() -> Facts:
    """Give what is held plausible of a size beside its neighbour, one line for each pair."""
    out: Facts = {}
    named = {n: v for n, v in vars(sane).items() if n.isupper()}
    for name, value in named.items():
        for r in value if isinstance(value, tuple) else (value,):
            if isinstance(r, sane.Rule):
                told = f"{r.least:g} to {r.most:g} times, {r.slack:g} mm to spare, {r.level}"
                _enter(out, f"{name} {r.size} beside {r.beside}", told)
        if name in ("BORES", "PRESSURES", "BARE_END"):
            out[name] = _said(value)
    return out


def write() -> None:
    """Write all anew."""
    KEPT.mkdir(exist_ok=True)
    for shell in SHELLS:
        every = {c.name: different(c) for c in kept_cases() if c.name.startswith(f"{shell}:")}
        text = json.dumps(every, indent=1, sort_keys=True, ensure_ascii=False)
        file_of(shell).write_text(text + "\n", "utf-8")
    text = json.dumps(rules(), indent=1, ensure_ascii=False)
    PLAUSIBLE.write_text(text + "\n", "utf-8")


if __name__ == "__main__":
    if sys.argv[1:] != ["--write"]:
        raise SystemExit(__doc__)
    write()
