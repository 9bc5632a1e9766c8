"""Rows of the data that stand there only where somebody gave them: no line asks for them."""

from __future__ import annotations

from collections.abc import Iterator

from drafting.model.cylinder import Cylinder
from drafting.told.data_sheet import Said
from drafting.told.facts import elsewhere
from drafting.told.printed import sized

_ROWS: tuple[tuple[str, tuple[tuple[str, str], ...]], ...] = (
    ("Mass moved", (("duty.mass", "{}"),)),
    ("Load", (("duty.load_guided", "{}guided along the stroke"),)),
    ("Pressure at work", (("duty.pressure", "{}"),)),
    ("Back pressure", (("duty.return_pressure", "{}"),)),
    ("Acceleration", (("duty.acceleration", "{}"),)),
    ("Stopped within", (("duty.stopping_distance", "{}"),)),
    ("Friction", (("duty.friction", "{} of the load"),)),
    ("Oil from rod side", (("duty.rod_side", "{}"),)),
    ("Factor of safety", (("duty.safety_factor", "{}"),)),
    ("Gland", (("cylinder.gland", "{}"), ("cylinder.gland_thread", "{}"),
               ("cylinder.gland_engaged", "{} engaged"))),
    ("Gland holds", (("cylinder.gland_rating", "{}"),)),
    ("Tie rods", (("cylinder.tie_rod", "{}"), ("cylinder.tie_rod_preload", "preload {}"))),
    ("Room for the spring", (("cylinder.spring_space", "{}"),)),
    ("Base cap weld", (("cylinder.base_weld", "leg {}"), ("cylinder.base_groove", "groove {}"))),
    *((f"{label} mount weld", ((f"{end}_mount.weld_leg", "leg {}"),
                               (f"{end}_mount.weld_run", "run {}")))
      for end, label in (("body", "Base"), ("rod", "Rod"))),
    *((f"{label} mount bolts", ((f"{end}_mount.bolts.thread", "{}"),
                                (f"{end}_mount.bolts.grade", "{}")))
      for end, label in (("body", "Base"), ("rod", "Rod"))),
    *((f"{label} bearing", ((f"{end}_mount.bearing_outside", "OD {}"),
                            (f"{end}_mount.bearing_rating", "carries {}")))
      for end, label in (("body", "Base"), ("rod", "Rod"))),
    ("Machine at base end", (("body_mount.ear", "{ear} {} thick"),)),
    ("Machine at rod end", (("rod_mount.ear", "{ear} {} thick"),
                            ("rod_mount.held", "{}held from turning"))),
    ("Pin material", (("cylinder.pin_material", "{}"),)),
    ("Mount material", (("cylinder.mount_material", "{}"),)),
    ("Gland material", (("cylinder.gland_material", "{}"),)),
    ("Tie rod material", (("cylinder.tie_rod_material", "{}"),)),
    ("Weld metal", (("cylinder.weld_material", "{}"),)),
)  # fmt: skip
"""A label, and each field with the words round what was typed."""


def if_said(c: Cylinder, dimensions: str, fractions: int) -> Iterator[tuple[str, Said]]:
    """Give the rows of which somebody gave at least one field, a label and what is said."""
    for label, fields in _ROWS:
        if elsewhere(c) and fields[0][0].startswith("body_mount."):
            label = label.replace("Base", "Body")
        words = [
            form.format(said, ear=_ear(c, name))
            for name, form in fields
            if (said := _said(c, name, dimensions, fractions)) is not None
        ]
        if words:
            yield label, Said(", ".join(words), names=tuple(name for name, _ in fields))


def _ear(c: Cylinder, name: str) -> str:
    """Say what the machine has round an end's pin: an eye in a clevis, else two ears."""
    return "eye" if c.mounts.get(name.partition("_")[0]) == "clevis" else "ears"


def _said(c: Cylinder, name: str, dimensions: str, fractions: int) -> str | None:
    """Give what was typed, of a yes or no what goes before its words; None where nothing was."""
    given = c.spec.get(name)
    if given is None:
        return None
    if isinstance(given.value, bool):
        return "" if given.value else "not "
    if given.unit == "mm" and isinstance(given.value, float):
        return sized(c.tolerances, name, given.value, dimensions, fractions)
    return given.typed
