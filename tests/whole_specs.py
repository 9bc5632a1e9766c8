"""Random spec files that use the whole format: every field now and then, in every way of writing.

Sizes are proportions of bore and rod that a builder could make (common practice). Whether ports and
mounts stand clear of each other only the closed stack can tell, so that a few files are refused for
that. ``whole_spec_fields.py`` counts what is drawn how often.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from random import Random
from typing import Any

from hypothesis import strategies as st

from drafting.errors import Refused
from drafting.model.catalog import mounts_by_end
from drafting.model.load import load
from drafting.spec.check import read_spec
from drafting.spec.field import Field
from drafting.spec.fields import TABLES
from tests.mount_words import BODY, PINNED, ROD
from tests.whole_mounts import body_mount, rod_mount
from tests.whole_values import Sizes, clock, text_value

BORES_MM = (32, 40, 50, 63, 80, 100, 125, 160, 200, 250)
BORES_IN = (1.5, 2, 2.5, 3, 3.25, 3.5, 4, 5, 6, 8)
GLANDS = ("threaded", "cap", "bolted", "snap ring", "wire ring")
PORTS = {
    "small": ("SAE-4", "7/16-20 UNF ORB", "1/8 NPT", "1/4 NPTF", "G 1/8", "G 1/4", "Rc 1/8",
              "M10x1 ISO 6149", "M14x1.5 ISO 6149", "G 1/8 DIN 3852-2"),
    "middle": ("SAE-6", "SAE-8", "3/8 NPT", "1/2 NPT", "3/8 NPTF", "G 3/8", "G 1/2", "Rc 3/8",
               "M18x1.5 ISO 6149", "M22x1.5 ISO 6149", "G 3/8 DIN 3852-2"),
    "large": ("SAE-12", "SAE-16", "3/4 NPT", "3/4 NPTF", "G 3/4", "Rc 3/4", "M27x2 ISO 6149",
              "M33x2 ISO 6149", "flange 1/2 code 61", "flange 3/4 code 61", "flange 1/2 code 62"),
}  # fmt: skip
TIE_RODS = {32: "M6x1", 50: "M8x1.25", 80: "M12x1.25", 125: "M16x1.5", 300: "M24x2"}
PLACES = ("base", "middle", "rod end")
OTHER_SIDE = {"rod": "base", "base": "rod"}
SPACE = frozenset(
    {
        "bolts-open",
        "left-over",
        "off-barrel",
        "outlet-behind-port",
        "port-hits",
        "port-off-barrel",
        "port-opens",
        "port-over-edge",
        "parts-overlap",
        "ports-overlap",
        "retracted-too-short",
    }
)
"""Refusals that only the closed stack can tell: no fault of a file that was drawn by lot."""


WORDS = {
    "": {"contact": "R. Hale", "wanted": "mid March", "ship_to": "the mill, east gate"},
    "duty": {
        "speed": "out in 4 s",
        "side_load": "none",
        "environment": "road salt",
        "seconds_out": 8,
        "seconds_in": 6,
    },
}


def whole_specs(**fixed: str) -> st.SearchStrategy[str]:
    """Give spec files as text; ``body``, ``rod`` and ``construction`` fix mounts and shell."""
    return st.integers(0, 2**48).map(lambda seed: spec(Random(seed), **fixed))


def spec(rng: Random, body: str = "", rod: str = "", construction: str = "") -> str:
    """Draw one spec file."""
    s = Sizes(rng, rng.choice(("in", "mm")))
    bore = rng.choice(BORES_MM) if s.unit == "mm" else rng.choice(BORES_IN) * 25.4
    thick = bore * rng.choice((0.4, 0.5, 0.56, 0.63, 0.7))
    construction = construction or rng.choice(("welded", "welded", "tie rod"))
    body, rod = body or rng.choice(BODY), rod or rng.choice(ROD)
    tables: dict[str, Any] = {
        "": root(s),
        "cylinder": cylinder(s, bore, thick, construction),
        "body_mount": {"mount": body, **body_mount(s, body, bore, thick, construction)},
        "rod_mount": {"mount": rod, **rod_mount(s, rod, bore, thick)},
        **ports(s, bore, construction),
    }
    for end, word in (("body", body), ("rod", rod)):
        if word in PINNED and rng.random() < 0.4:
            tables[f"{end}_pin"] = pin(s, 0.7 * thick)
    if rng.random() < 0.5:
        tables["duty"] = duty(s)
    tables["drawing"] = drawing(s)
    if rng.random() < 0.3:
        place_ports(s, tables)
    if rng.random() < 0.2:
        tables["origin"] = origins(s, tables)
    for name, table in tables.items():
        for one in table if isinstance(table, list) else [table]:
            tolerances(s, TABLES[name].fields, one)
    return written(tables)


def origins(s: Sizes, tables: Mapping[str, Any]) -> list[dict[str, Any]]:
    """Draw where one or two of the typed sizes came from."""
    rng = s.rng
    typed = ["cylinder.bore", *(f"{t}.mount" for t in ("body_mount", "rod_mount"))]
    typed += [f"cylinder.{n}" for n in ("stroke", "retracted") if n in tables["cylinder"]]
    out = []
    for name in rng.sample(typed, rng.randint(1, 2)):
        one = {"field": name, "from": rng.choice(("measured", "open", "builder"))}
        s.maybe(one, 0.6, plus_minus=s.exact(rng.uniform(0.02, 2.0)))
        s.maybe(one, 0.5, note="read twice, at a hard stop")
        out.append(one)
    return out


def root(s: Sizes) -> dict[str, Any]:
    """Draw the file's head."""
    out = {"title": "Trial of Harrow Brook", "units": s.unit}
    s.maybe(out, 0.5, number=f"HB-{s.rng.randrange(1000, 9999)}")
    s.maybe(out, 0.3, revision=s.rng.choice("ABCD"), quantity=s.rng.randint(1, 40))
    s.maybe(out, 0.2, matched_set=True)
    s.maybe(out, 0.3, notes=["Primer only", "Ports plugged for transport"][: s.rng.randint(1, 2)])
    s.maybe(out, 0.1, revision_note="Second port moved")
    own = Random(str(out))  # words of no weight: what is drawn after them stays as it was
    out |= {k: v for k, v in WORDS[""].items() if own.random() < 0.1}
    return out


def cylinder(s: Sizes, bore: float, thick: float, construction: str) -> dict[str, Any]:
    """Draw barrel, rod, lengths and what is said of them; lengths leave room for any mount."""
    rng = s.rng
    stroke = bore * rng.uniform(0.5, 12.0)
    stop = bore * rng.uniform(0.1, 0.8) if rng.random() < 0.2 else 0.0
    action = rng.choice(("double", "double", "double", "push", "pull"))
    spring = action != "double" and rng.random() < 0.5
    packed = 0.4 * stroke if spring else 0.0
    retracted = stroke + stop + packed + 7.5 * bore + 110 + bore * rng.uniform(0.0, 3.0)
    out: dict[str, Any] = {"bore": s.exact(bore), "rod": s.exact(thick)}
    if construction == "tie rod" or rng.random() < 0.5:
        out["construction"] = construction
    lengths = {"stroke": stroke, "retracted": retracted, "extended": retracted + stroke}
    left = rng.choice((*lengths, None))
    out |= {k: s.exact(v) for k, v in lengths.items() if k != left}
    if stop:
        out["stop_tube"] = s.size(stop)
    if action != "double" or rng.random() < 0.2:
        out["action"] = action
    if action != "double":
        out["return"] = "spring" if spring else "load"
        if spring:
            out["spring_space"] = s.size(packed)
            out["spring_force"] = "400 N packed, 150 N relaxed"
    if action == "push" and rng.random() < 0.4:
        out["piston"] = "displacement"
    elif rng.random() < 0.2:
        out["piston"] = "sealed"
    s.maybe(out, 0.3, cushions=rng.choice(("none", "base", "rod", "both")))
    s.maybe(out, 0.8, clock_seen_from=rng.choice(("rod", "base")))
    s.maybe(out, 0.3, rod_keyed=rng.random() < 0.5)
    s.maybe(out, 0.2, base_thickness=s.size(bore * rng.uniform(0.4, 0.6) + 12))
    s.maybe(out, 0.1, rod_stick_out=s.size(0.2 * bore + 12))
    s.maybe(out, 0.2, piston_length=s.size(bore * rng.uniform(0.6, 0.9) + 10))
    if construction == "tie rod":
        _tie_rod(s, out, bore, thick)
    else:
        _welded(s, out, bore)
    _said(s, out)
    return out


def _welded(s: Sizes, out: dict[str, Any], bore: float) -> None:
    rng = s.rng
    wall = bore * rng.uniform(0.07, 0.13) + 2.0
    if rng.random() < 0.4:
        s.maybe(out, 1.0, **rng.choice((
            {"wall": s.exact(wall)}, {"barrel_outside": s.exact(bore + 2 * wall)},
        )))  # fmt: skip
    gland = rng.choice(GLANDS)
    s.maybe(out, 0.8, gland=gland)
    length = bore * rng.uniform(0.8, 1.1) + 20
    s.maybe(out, 0.2, gland_length=s.size(length))
    s.maybe(out, 0.2, gland_projection=s.size(0.2 * bore) if rng.random() < 0.7 else 0)
    s.maybe(out, 0.1, gland_outside=s.size(1.4 * bore + 8))
    s.maybe(out, 0.1, gland_thread=f"M{bore + 2:.0f}x2", gland_engaged=s.size(0.3 * bore))
    s.maybe(out, 0.1, gland_rating=rng.choice(("300 kN", "60000 lbf")))
    s.maybe(out, 0.1, base_weld=s.size(0.1 * bore))
    s.maybe(out, 0.1, base_groove=s.size(0.06 * bore))


def _tie_rod(s: Sizes, out: dict[str, Any], bore: float, thick: float) -> None:
    rng = s.rng
    s.maybe(out, 0.2, gland="tie rod")
    s.maybe(out, 0.3, square=s.size(1.75 * bore + 12))
    s.maybe(out, 0.3, tie_rod=next(t for b, t in TIE_RODS.items() if bore <= b))
    s.maybe(out, 0.3, cap_turned=rng.choice((0, 90, 180, 270)))
    s.maybe(out, 0.1, gland_outside=s.size(1.6 * thick))
    s.maybe(out, 0.2, tie_rod_preload=rng.choice(("30 kN", "7000 lbf")))
    s.maybe(out, 0.2, tie_rod_material=rng.choice(("4140", "1045 cold drawn", "600 MPa")))


def _said(s: Sizes, out: dict[str, Any]) -> None:
    """Draw pressures, the room, and words for the data sheet."""
    rng = s.rng
    bar = rng.choice((70, 100, 140, 160, 210))
    for name, factor in (("working", 1.0), ("relief", 1.1), ("proof", 1.5)):
        s.maybe(out, 0.5, **{f"{name}_pressure": s.pressure(bar * factor)})
    s.maybe(out, 0.1, largest_outside=s.size(400))
    for name in ("pin_material", "mount_material", "rod_material", "barrel_material"):
        s.maybe(out, 0.15, **{name: rng.choice(("C45E", "E355", "1020", "4140"))})
    s.maybe(out, 0.1, gland_material=rng.choice(("ductile iron", "1045 cold drawn")))
    s.maybe(out, 0.1, weld_material=rng.choice(("E70", "E60", "400 MPa")))
    s.maybe(out, 0.2, seals="polyurethane", fluid="ISO VG 46", finish="primer")
    s.maybe(out, 0.2, temperature=rng.choice(("80 degC", "180 degF")))
    s.maybe(out, 0.1, rod_finish="hard chrome", bare="ports and pins", marking="number on the base")


def ports(s: Sizes, bore: float, construction: str) -> dict[str, Any]:
    """Draw the ports: their places are left to the rules, or typed where a port surely fits."""
    rng = s.rng
    out: dict[str, Any] = {}
    sides = {end: 90.0 * rng.randrange(4) for end in ("base", "rod")}
    for end, side in sides.items():
        if rng.random() < 0.85:
            out[f"{end}_port"] = _port(s, end, bore, construction, side)
    if "base_port" in out and rng.random() < 0.3:
        end = rng.choice(("base", "rod"))
        plain = rng.random() < 0.4
        extra = _port(s, end, min(bore, 40.0), construction, sides[end] + 180, plain)
        out["extra_port"] = [{"end": end, **extra}]
    return out


def _port(
    s: Sizes, end: str, bore: float, construction: str, at: float, plain: bool = False
) -> dict[str, Any]:
    rng = s.rng
    kind = "small" if bore < 60 else "middle" if bore < 110 else rng.choice(("middle", "large"))
    word = rng.choice(PORTS[kind])
    out: dict[str, Any] = {"thread": word}
    square = construction == "tie rod"
    hour = 90 * round(at / 90) if square else (at + rng.choice((0, 30, 45))) % 360
    s.maybe(out, 0.95, clock=clock(rng, hour))
    flange = word.startswith("flange")
    along = not flange and not plain and rng.random() < 0.25
    if along:
        out["facing"] = OTHER_SIDE[end] if rng.random() < 0.8 else end
        out["height"] = s.size(30 + 0.2 * bore)
    else:
        s.maybe(out, 0.2, facing="out")
        s.maybe(out, 0.2, height=s.size(14 + 0.1 * bore))
    plugged = rng.random() < 0.15
    s.maybe(out, 1.0 if plugged else 0.1, plugged=plugged)
    if not flange and not plugged and rng.random() < 0.25:
        out["fitting"] = rng.choice(("straight", "90"))
        s.maybe(out, 0.5, fitting_clock=clock(rng, 90 * rng.randrange(4)))
        s.maybe(out, 0.5, hose_bend=s.size(rng.uniform(150, 300)))
    return out


def pin(s: Sizes, size: float) -> dict[str, Any]:
    """Draw a loose pin."""
    rng = s.rng
    out: dict[str, Any] = {}
    s.maybe(out, 0.8, supplied=rng.random() < 0.7)
    held = rng.choice(("spring clip", "cotter", "two cotters", "keeper plate"))
    s.maybe(out, 0.8, retention=held)
    if "retention" in out:
        headed = {"two cotters": False, "keeper plate": rng.random() < 0.5}.get(held, True)
        s.maybe(out, 0.3, head=headed)
    grip = 12 * size + 200
    s.maybe(out, 0.15, grip=s.size(grip), length=s.size(1.2 * grip + 120))
    if out.get("retention") != "keeper plate":
        s.maybe(out, 0.2, hole=s.exact(max(0.12 * size, 2.0)))
    return out


def duty(s: Sizes) -> dict[str, Any]:
    """Draw what the machine asks of it."""
    rng = s.rng
    values: Mapping[str, Callable[[], Any]] = {
        "pressure": lambda: s.pressure(rng.uniform(40, 140)),
        "flow": lambda: rng.choice(("11 gal/min", "42 L/min")),
        "push": lambda: rng.choice(("30 kN", "6000 lbf", "2 short tonf", "3 metric tonf")),
        "pull": lambda: rng.choice(("8 kN", "1500 lbf")),
        "mass": lambda: rng.choice(("400 kg", "900 lb")),
        "safety_factor": lambda: round(rng.uniform(1.5, 5.0), 1),
        "orientation": lambda: rng.choice(("horizontal", "vertical", "inclined")),
        "return_pressure": lambda: rng.choice(("50 psi", "4 bar")),
        "load_guided": lambda: rng.random() < 0.5,
        "rod_side": lambda: rng.choice(("open", "metered", "blocked")),
        "friction": lambda: round(rng.uniform(0.0, 0.2), 2),
        "acceleration": lambda: rng.choice(("0.5 m/s2", "0.1 g", "2 ft/s2")),
        "stopping_distance": lambda: s.size(25.0),
        "strokes_per_day": lambda: rng.randrange(1, 900),
        "lifts_people": lambda: rng.random() < 0.3,
    }
    out = {k: value() for k, value in values.items() if rng.random() < 0.5}
    if out.get("orientation") == "inclined":
        out["angle"] = rng.choice((30, -15, "45 deg"))
    own = Random(str(out))
    return out | {k: v for k, v in WORDS["duty"].items() if own.random() < 0.2}


def drawing(s: Sizes) -> dict[str, Any]:
    """Draw how the sheet looks."""
    rng = s.rng
    out: dict[str, Any] = {"date": "2026-11-25"}
    s.maybe(out, 0.1, sheet=rng.choice(("auto", "A1", "A0", "D", "E")))
    s.maybe(out, 0.4, projection=rng.choice(("third", "first")))
    s.maybe(out, 0.5, dimensions=rng.choice(("in", "mm", "in [mm]", "mm [in]")))
    s.maybe(out, 0.5, fractions=rng.choice((0, 2, 4, 8, 16, 32, 64)))
    s.maybe(out, 0.1, scale="auto")
    s.maybe(out, 0.3, breaks=rng.choice(("auto", "none")))
    s.maybe(out, 0.2, general_tolerance="ISO 2768-m")
    s.maybe(out, 0.3, company="Upper Lenn Water Board", drawn_by="M. Osk", customer="The mill")
    return out


def tolerances(s: Sizes, fields: Sequence[Field], table: dict[str, Any]) -> None:
    """Add tolerances to a few sizes that were typed, in a table and in the bolts within it."""
    if isinstance(table.get("bolts"), dict):
        inner = next(f for f in fields if f.name == "bolts")
        tolerances(s, inner.fields, table["bolts"])
    known = next((f for f in fields if f.name == "tolerance"), None)
    if known is None or s.rng.random() > 0.4:
        return
    lengths = ("extended", "stroke", "retracted")
    follows = next((n for n in lengths if n not in table), "extended")
    names = [f.name for f in known.fields if f.name in table and f.name != follows]
    names = [n for n in names if table[n] not in (0, *PLACES) and s.rng.random() < 0.5]
    if names:
        kinds = ("±0.5 mm", "+1/64 -0 in", "+0.3 -0 mm")
        table["tolerance"] = {n: s.rng.choice(kinds) for n in names}


def place_ports(s: Sizes, tables: dict[str, Any]) -> None:
    """Type where the ports lie, near where the rules put them in the same file."""
    try:
        ports = load(read_spec(written(tables).encode(), mounts=mounts_by_end(), file="")).ports
    except Refused:
        return
    for port in ports:
        name, _, number = port.table.partition("[")
        table = tables[name][int(number[:-1]) - 1] if number else tables[name]
        move = s.rng.uniform(-0.5, 0.5)
        s.maybe(table, 0.7, position=s.exact(port.x + move))
        if port.sizes.facing != "out":
            s.maybe(table, 0.7, outlet_position=s.exact(port.outlet + move))


# --- writing ------------------------------------------------------------------------------------


def written(tables: Mapping[str, Any]) -> str:
    """Write tables as TOML by hand, not by the package."""
    lines: list[str] = []
    for name, table in tables.items():
        for one in table if isinstance(table, list) else [table]:
            if name:
                lines.append(f"[[{name}]]" if isinstance(table, list) else f"[{name}]")
            lines += [f"{k} = {text_value(v)}" for k, v in one.items()]
    return "\n".join(lines) + "\n"
