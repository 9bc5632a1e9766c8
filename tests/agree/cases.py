"""Whole spec files of every mount, construction, gland, action and port: what 2D = 3D is proved on.

A case is one file. One end or one choice differs from a plain cylinder at a time; ``clock`` turns
what can turn in it: every port, the seat of a foot, the rod's pin.
"""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping
from copy import deepcopy
from dataclasses import dataclass
from typing import Any

from tests.agree.mount_variants import VARIANTS
from tests.model.mount_specs import EVERY, example, in_mm, written
from tests.mount_words import PINNED

Tables = dict[str, Any]
SHELLS = ("welded", "tie rod")
ALONG = ("trunnion", "flange", "foot")
PLACES = ("base", "middle", "rod end")
SQUARE_DERIVES = ("shoulders", "width", "plate", "bolts", "seat_height", "outside")
"""Example sizes that a square body has no room for: they are left to the rules there."""
EYE = {"mount": "pin eye", "pin": 1.25, "hole": 1.266, "width": 1.5}
CLEVIS = {"mount": "clevis", "pin": 1.25, "hole": 1.266, "gap": 1.5625, "width": 3.25}
TUBE = {"mount": "cross tube", "pin": 1.25, "hole": 1.266, "left": 2, "right": 1.5}
BALL = {"mount": "ball swivel", "pin": 1.25, "hole": 1.25}
SPADE = {"mount": "spade eye", "pin": 1.25, "hole": 1.266, "bushing": 1.5, "width": 1.25}
PORTS = (
    "SAE-8",
    "1/2 NPT",
    "3/8 NPTF",
    "G 1/2",
    "Rc 3/8",
    "M22x1.5 ISO 6149",
    "flange 3/4 code 61",
    "flange 1/2 code 62",
    "G 3/8 DIN 3852-2",
)
"""One size of each family of the spec format."""
CLOCKS = (0, 35, 90, 200)
VIEWS = ("side", "top", "end")
WIDE = bool(os.environ.get("DRAFTING_WIDE"))
GATE = (
    "welded: SAE-8, facing rod",
    "tie rod: G 1/2, facing base",
    "tie rod: flange 3/4 code 61",
    "tie rod: angles at both ends",
    "welded: clevis, pins with keeper plate",
    "tie rod: ram",
    "tie rod: cap turned 90",
    "welded: gland bolted",
)
"""What the gate takes besides the mounts."""


@dataclass(frozen=True, slots=True)
class Case:
    """A spec file in tables; sizes in inches, written in ``units``."""

    name: str
    tables: Mapping[str, Any]
    units: str = "in"

    @property
    def turns(self) -> bool:
        """Tell whether anything in it turns with the clock."""
        return self.text(0) != self.text(90)

    def text(self, clock: int = 0) -> str:
        """Give the file, turned to a clock angle in degrees as far as things turn."""
        lines = ["title = 'Sluice gate of Harrow Brook'", f"units = '{self.units}'"]
        for name, table in _turned(self.tables, clock).items():
            for one in table if isinstance(table, list) else [table]:
                lines.append(f"[[{name}]]" if isinstance(table, list) else f"[{name}]")
                lines += [f"{k} = {written(self._in_units(k, v))}" for k, v in one.items()]
        return "\n".join(lines) + "\n"

    def _in_units(self, key: str, value: Any) -> Any:
        return value if self.units == "in" or key in ("turned", "cap_turned") else in_mm(value)


def _turned(tables: Mapping[str, Any], clock: int) -> Tables:
    """Turn ports, foot and rod pin; ports of a square head by the nearest quarter."""
    out: Tables = deepcopy(dict(tables))
    square = out["cylinder"].get("construction") == "tie rod"
    for name in ("base_port", "rod_port", "extra_port"):
        table = out.get(name, [])
        for port in table if isinstance(table, list) else [table]:
            turn = 90 * round(clock / 90) if square else clock
            at = port.pop("at", 0)
            if at is not None:
                port["clock"] = f"{(at + turn) % 360} deg"
    if out["body_mount"]["mount"] == "foot":
        out["body_mount"]["clock"] = f"{(180 + clock) % 360} deg"
    if out["rod_mount"]["mount"] in PINNED:
        out["rod_mount"]["turned"] = clock
    return out


def plain(shell: str = "welded", **tables: Any) -> Tables:
    """Give a cylinder without mounts and ports; tables given here are laid over it."""
    cylinder: Tables = {
        "construction": shell,
        "bore": 3.5,
        "rod": 1.75,
        "stroke": 16,
        "retracted": 32,
        "clock_seen_from": "rod",
    }
    if shell == "welded":
        cylinder["barrel_outside"] = 4
    out: Tables = {
        "cylinder": cylinder,
        "body_mount": {"mount": "none"},
        "rod_mount": {"mount": "plain"},
    }
    for name, table in tables.items():
        out[name] = {**out[name], **table} if name == "cylinder" else table
    return out


def cases() -> tuple[Case, ...]:
    """Give every case."""
    found = (*_mounts(), *_variants(), *_typed(), *_feet(), *_shells(), *_ports(), *_pins())
    assert len({c.name for c in found}) == len(found)
    return found


def gate() -> tuple[Case, ...]:
    """Give the cases of the gate: every mount on both shells, and a few others."""
    mounts = {f"{shell}: {end} {word}" for shell in SHELLS for end, word in EVERY}
    return tuple(c for c in cases() if c.name in mounts or c.name in GATE)


def view_runs(wide: bool = WIDE) -> list[tuple[Case, int, str]]:
    """Give (case, clock, view): in turn, so that neighbours differ in both."""
    out = []
    for k, case in enumerate(cases() if wide else gate()):
        first = (k + k // 4) % 4
        chosen = [j for j in range(4) if j == first or (wide and case.turns)]
        out += [(case, CLOCKS[j], VIEWS[(k + j) % 3]) for j in chosen]
    return out


def half_runs(wide: bool = WIDE) -> list[tuple[Case, int]]:
    """Give (case, clock) of the half sections: every third case of the gate, or all."""
    chosen = cases() if wide else gate()[::3]
    return [(case, CLOCKS[(k + k // 4) % 4]) for k, case in enumerate(chosen)]


def _mounts() -> Iterator[Case]:
    for shell in SHELLS:
        for end, word in EVERY:
            sizes = example(end, word)
            if shell == "tie rod" and end == "body" and word in ALONG:
                sizes = {k: v for k, v in sizes.items() if k not in SQUARE_DERIVES}
            mount = {f"{end}_mount": {"mount": word, **sizes}}
            yield Case(f"{shell}: {end} {word}", plain(shell, **mount))
        for word in ALONG:
            for place in PLACES:
                table = {"mount": word, "position": place}
                yield Case(f"{shell}: {word}, {place}", plain(shell, body_mount=table))


def _variants() -> Iterator[Case]:
    for name, (end, word, sizes) in VARIANTS.items():
        yield Case(f"welded: {name}", plain(**{f"{end}_mount": {"mount": word, **sizes}}))


def _typed() -> Iterator[Case]:
    """Mounts with every size typed, and flanges with every seat and pattern of holes."""
    grown = {"pin": 1.25, "hole": 1.266, "bushing": 1.5, "grease": True, "outside": 2.75}
    bare = {k: v for k, v in grown.items() if k != "grease"}
    eye = {**grown, "nose": 1.5, "offset": 2}
    forked = {**bare, "gap": 1.5, "width": 3.5, "throat": 1.6, "nose": 1.5, "offset": 3}
    swivel = {
        **{k: v for k, v in grown.items() if k not in ("bushing", "outside")},
        "hole": 1.25,
        "outside": 2.8,
        "offset": 3,
        "width": 1,
        "ball_width": 1.2,
    }
    for end in ("body", "rod"):
        for word, sizes in (
            ("pin eye", {**eye, "left": 0.75, "right": 0.75, "width": 1.5}),
            ("cross tube", {**grown, "nose": 1.375, "width": 3, "left": 1.75, "offset": 1.375}),
            ("clevis", forked),
            ("ball swivel", swivel),
            ("spade eye", {**bare, "nose": 1.5, "offset": 2, "width": 1}),
        ):
            mount = {f"{end}_mount": {"mount": word, **sizes}}
            yield Case(f"welded: {end} {word}, sizes typed", plain(**mount), "mm")
    screwed = {"thread": "1-12 UNF", "thread_length": 1.5, "adjustment": 0.25, "jam_nut": True}
    for word, sizes in (
        ("pin eye", {**eye, "offset": 3.5, "width": 1.5}),
        ("clevis", {**forked, "offset": 3.75}),
        ("ball swivel", {**swivel, "offset": 4}),
    ):
        mount = {"mount": word, **sizes, **screwed, "flats": 1.5}
        yield Case(f"tie rod: rod {word}, screwed on", plain("tie rod", rod_mount=mount))
    for k, first in enumerate(("on", "astride")):
        bolts = {"count": 4 + 2 * k, "hole": 0.656, "circle": 6.5, "first_hole": first}
        for seat in ("base side", "rod side"):
            flange = {"mount": "flange", "plate": 8, "bolts": bolts, "seat": seat, "thickness": 1}
            for place in ("base", 9):
                mount = {**flange, "position": place}
                offset = {"offset": 0.5} if place == "base" else {}
                name = f"welded: flange at {place}, {seat}, holes {first}"
                yield Case(name, plain(body_mount={**mount, **offset}))
            rod = {**flange, "plate": 5, "bolts": {**bolts, "circle": 3.75}, "offset": 0.5}
            yield Case(f"welded: rod flange, {seat}, holes {first}", plain(rod_mount=rod))
    square = {"plate": [5, 5], "bolts": {"count": 4, "hole": 0.656, "pitch": [3.75, 3.75]}}
    flange = {"mount": "flange", **square}
    yield Case("tie rod: rod flange, square", plain("tie rod", rod_mount=flange))
    trunnion = {"mount": "trunnion", "pin": 1.5, "shoulders": 5, "width": 9, "outside": 2.5}
    yield Case(
        "welded: trunnion at a distance",
        plain(body_mount={**trunnion, "position": 8, "grease": True}),
    )
    bare = {"mount": "trunnion", "pin": 1.5, "shoulders": 5.5, "width": 9, "position": "rod end"}
    yield Case(
        "tie rod: trunnion pins on the head's sides",
        plain("tie rod", cylinder={"square": 5.5}, body_mount=bare),
    )
    thread = {"thread": "1 1/4-12 UNF", "thread_length": 1.5, "flats": 1.5}
    for word, more in (("male thread", {"shoulder": 2}), ("female thread", {})):
        mount = {"mount": word, **thread, **more}
        yield Case(f"tie rod: {word} with flats", plain("tie rod", rod_mount=mount))
    yield Case("welded: plain with flats", plain(rod_mount={"mount": "plain", "flats": 1.5}))


def _feet() -> Iterator[Case]:
    """Lugs and angles; from closed end to head's face it is 21.5 in."""
    long = {"base_thickness": 2, "piston_length": 2, "gland_length": 2, "gland_projection": 0.5}
    plate = {"mount": "foot", "plate": [2, 7], "thickness": 0.75, "seat_height": 3.25}
    for name, position, count, pitch in (
        ("angles at both ends", -1.25, 4, 24),
        ("lugs at both ends", 1.25, 4, 19),
        ("an angle at the base", -1.25, 2, 1),
        ("an angle at the rod end", 22.75, 2, 1),
        ("a lug", 8, 2, 1),
    ):
        bolts = {"count": count, "hole": 0.656, "pitch": [pitch, 5.5]}
        foot = {**plate, "position": position, "bolts": bolts}
        for shell in SHELLS:
            if shell == "tie rod" or ("rod end" not in name and "angles" not in name):
                yield Case(f"{shell}: {name}", plain(shell, cylinder=long, body_mount=foot))


def _shells() -> Iterator[Case]:
    """Glands with cushions, stop tube and actions spread over them; ports on all of them."""
    both = {"base_port": {"thread": "SAE-8"}, "rod_port": {"thread": "SAE-8"}}
    for gland in ("threaded", "cap", "bolted", "snap ring", "wire ring"):
        yield Case(f"welded: gland {gland}", plain(cylinder={"gland": gland}, **both))
    yield Case(
        "welded: gland within the barrel",
        plain(cylinder={"gland_projection": 0, "stop_tube": 2}, **both),
    )
    for shell in SHELLS:
        for ends in ("base", "rod", "both"):
            yield Case(f"{shell}: cushions {ends}", plain(shell, cylinder={"cushions": ends}))
        yield Case(f"{shell}: stop tube", plain(shell, cylinder={"stop_tube": 2}, **both))
        for action in ("push", "pull"):
            port = {("base" if action == "push" else "rod") + "_port": {"thread": "SAE-8"}}
            yield Case(f"{shell}: {action}", plain(shell, cylinder={"action": action}, **port))
            spring = {"action": action, "return": "spring", "spring_space": 3}
            yield Case(f"{shell}: {action}, spring", plain(shell, cylinder=spring, **port))
        ram = {"action": "push", "piston": "displacement", "rod": 3}
        yield Case(f"{shell}: ram", plain(shell, cylinder=ram, base_port={"thread": "SAE-8"}))
    for turn in (90, 180, 270):
        table = {"cap_turned": turn, "cushions": "both"}
        turned = {**both, "base_port": {"thread": "SAE-8", "at": None}}
        yield Case(f"tie rod: cap turned {turn}", plain("tie rod", cylinder=table, **turned))
    typed = {"square": 5, "tie_rod": "1/2-20 UNF", "barrel_outside": 4, "gland": "tie rod"}
    yield Case("tie rod: sizes typed", plain("tie rod", cylinder=typed, **both))


def _ports() -> Iterator[Case]:
    for shell in SHELLS:
        for k, thread in enumerate(PORTS):
            other = PORTS[(k + 3) % len(PORTS)]
            ports = {"base_port": {"thread": thread}, "rod_port": {"thread": other, "at": 90}}
            yield Case(f"{shell}: {thread}", plain(shell, **ports), "mm" if k % 2 else "in")
        for k, thread in enumerate(t for t in PORTS if not t.startswith("flange")):
            facing = ("rod", "base")[k % 2]
            end = ("base", "rod")[k % 2]
            tube = {f"{end}_port": {"thread": thread, "facing": facing, "height": 1.2}}
            yield Case(f"{shell}: {thread}, facing {facing}", plain(shell, **tube))
        extra = [
            {"end": "base", "thread": "SAE-8", "at": 180, "plugged": True},
            {"end": "rod", "thread": "G 3/8", "at": 90},
        ]
        port = {"thread": "SAE-8"}
        yield Case(
            f"{shell}: extra ports",
            plain(shell, base_port=port, rod_port={**port, "height": 1}, extra_port=extra),
        )


def _pins() -> Iterator[Case]:
    ends = (CLEVIS, EYE, TUBE, BALL, SPADE)
    held = ("keeper plate", "cotter", "two cotters", "spring clip", "cotter")
    for shell in SHELLS:
        for k, (one, retention) in enumerate(zip(ends, held, strict=True)):
            other = ends[(k + 1) % 5]
            pin = {"supplied": True, "retention": retention}
            rod = dict(other)
            if "left" in rod:
                rod = {**rod, "left": 1.5, "right": 1}
            tables = {"body_mount": one, "rod_mount": rod, "body_pin": pin, "rod_pin": pin}
            yield Case(f"{shell}: {one['mount']}, pins with {retention}", plain(shell, **tables))
