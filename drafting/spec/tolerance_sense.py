"""Whether a typed tolerance can belong to its size."""

from __future__ import annotations

from drafting.errors import Fault
from drafting.spec.given import Given, Spec
from drafting.units import both

MARK = ".tolerance."
_LENGTHS = ("retracted", "stroke", "extended")


def size_of(name: str) -> str:
    """Give the size that ``rod_mount.tolerance.hole`` belongs to: ``rod_mount.hole``."""
    return name.replace(MARK, ".", 1)


def reference_length(spec: Spec) -> str:
    """Give the one of the three lengths that follows from the others."""
    left_out = (n for n in ("extended", "stroke", "retracted") if not spec.has(f"cylinder.{n}"))
    return next(left_out, "extended")


def tolerance_faults(spec: Spec, broken: frozenset[str]) -> list[Fault]:
    """Give every tolerance without a size of its own, or beside all sense for it."""
    faults = []
    for name, given in spec.givens.items():
        if MARK in name and size_of(name) not in broken:
            message = _wrong(spec, size_of(name), given)
            if message:
                faults.append(spec.fault("tolerance-off", name, message))
    return faults


def _wrong(spec: Spec, size: str, given: Given) -> str:
    from drafting.spec.tolerance import read_tolerance

    table, _, field = size.rpartition(".")
    if size == f"cylinder.{reference_length(spec)}":
        others = " and ".join(n for n in _LENGTHS if n != field)
        return (
            f"{field} follows from {others}: a reference size carries no tolerance; "
            "tolerate the other two"
        )
    owner = spec.get(size)
    if owner is None:
        return f"[{table}] has no {field} that it could belong to; type the size too"
    values = owner.value if isinstance(owner.value, tuple) else (owner.value,)
    sizes = [float(v) for v in values if isinstance(v, int | float)]
    if not sizes:
        return f"{field} = {owner.typed} is no size; type a distance, or leave the tolerance out"
    read = read_tolerance(given.typed, spec.units)
    least = min(abs(v) for v in sizes)
    if read.limits is not None:
        low, high = read.limits
        off = [v for v in sizes if not low - 1e-6 <= v <= high + 1e-6]
        if off:
            return (
                f"{field} {both(off[0], spec.units)} lies outside its limits "
                f"{both(low, spec.units)} to {both(high, spec.units)}"
            )
    elif read.deviations is not None:
        most = max(abs(d) for d in read.deviations)
        if most > least / 2:
            return (
                f"a deviation of {both(most, spec.units)} is more than half of {field} "
                f"{both(least, spec.units)}: check the number and the unit"
            )
    return ""
