"""The book in which each size of a cylinder is entered with its origin, as it is settled.

The one mutable thing of the model: it lives during ``load`` and is closed into frozen values,
findings and faults.
"""

from __future__ import annotations

from collections.abc import Callable

from drafting.errors import Fault
from drafting.records import dataclass
from drafting.spec.given import Given, Spec
from drafting.units import both
from drafting.values import Finding, Level, Origin, Unit, Value

COMMON = "common practice"
OPEN_SIZE = "open-size"
"""The finding of a typed size that the file calls a best guess."""


@dataclass(frozen=True, slots=True)
class Rule:
    """A size that was not typed: its value, the reason in one line, and who says so."""

    value: float
    why: str
    source: str = COMMON
    origin: Origin = "derived"
    said: str = ""
    """The value as people write it, where that is no number with its unit: an hour."""


class Ledger:
    """Takes sizes from the spec, or from a rule when they were not typed, and keeps the account."""

    def __init__(self, spec: Spec) -> None:
        self.spec = spec
        self.values: dict[str, Value] = {}
        self.findings: list[Finding] = []
        self.faults: list[Fault] = []

    def given(self, name: str, interface: bool = False) -> Given | None:
        """Give what was typed for a field and enter it, or None."""
        found = self.spec.get(name)
        if found and name not in self.values and not isinstance(found.value, tuple):
            self.enter_typed(found, name, found.value, interface)
        return found

    def enter_typed(
        self, found: Given, name: str, value: float | str | bool, interface: bool = False
    ) -> None:
        """Enter what was typed, or one of a typed pair under its own name, with its origin."""
        told = self.spec.origin(found.name)
        self.values[name] = Value(
            name,
            value,
            found.unit,
            found.typed,
            told.kind if told else "given",
            self.spec.where(found.name),
            "",
            interface,
            told.plus_minus if told else None,
        )
        if (
            told
            and told.kind == "open"
            and not any(f.code == OPEN_SIZE and f.field == found.name for f in self.findings)
        ):
            why = f": {told.note}" if told.note else ""
            self.find(
                OPEN_SIZE,
                "warning",
                found.name,
                f"{found.typed} is a best guess of several{why}; decide it before metal is cut",
            )

    def number(self, name: str, interface: bool = False) -> float | None:
        """Give a typed number in mm, MPa, N, kg, l/s or degrees, or None."""
        found = self.given(name, interface)
        return None if found is None else float(found.value)  # type: ignore[arg-type]

    def word(self, name: str, otherwise: str) -> str:
        """Give a typed word, or the default that the contract states."""
        found = self.given(name)
        return otherwise if found is None else str(found.value)

    def flag(self, name: str) -> bool:
        """Give a typed yes or no; left out is no."""
        found = self.given(name)
        return bool(found.value) if found is not None else False

    def size(
        self, name: str, rule: Rule | Callable[[], Rule], interface: bool = False, unit: Unit = "mm"
    ) -> float:
        """Give the typed size, else settle it by the rule and enter that with its reason."""
        typed = self.number(name, interface)
        if typed is not None:
            return typed
        settled = rule() if callable(rule) else rule
        self.enter(name, settled, interface, unit)
        return settled.value

    def enter(self, name: str, rule: Rule, interface: bool = False, unit: Unit = "mm") -> None:
        """Enter a settled size; a derived interface size is a finding to be confirmed."""
        self.values[name] = Value(
            name, rule.value, unit, None, rule.origin, rule.why, rule.source, interface
        )
        if interface and rule.origin != "given":
            self.find(
                "to-confirm",
                "warning",
                name,
                f"not typed; drawn as {rule.said or self._say(rule.value, unit)} "
                f"({rule.why}): to be confirmed on the machine",
                rule.source,
            )

    def say(self, mm: float) -> str:
        """Say a length in both units, the file's own first."""
        return both(mm, self.spec.units)

    def place(self, name: str, mm: float) -> str:
        """Say a place, and that nobody typed it where that is so."""
        return self.say(mm) + ("" if self.spec.has(name) else " (not typed: its usual place)")

    def compute(self, name: str, value: float | str, why: str, unit: Unit = "mm") -> None:
        """Enter what follows from other values."""
        self.values[name] = Value(name, value, unit, None, "computed", why)

    def _say(self, value: float, unit: Unit) -> str:
        return self.say(value) if unit == "mm" else f"{value:g} {unit}"

    def find(self, code: str, level: Level, field: str, message: str, source: str = "") -> None:
        """Enter a finding."""
        self.findings.append(Finding(code, level, field, message, source))

    def fault(self, code: str, field: str, message: str) -> None:
        """Enter a refusal at the place of the field in the file."""
        self.faults.append(self.spec.fault(code, field, message))
