"""What the cases cover, told from the spec files themselves; writes COVERAGE.md.

``python -m tests.agree.coverage`` writes the table anew. What must be covered comes from the
package's own lists of words, so that a new mount, port standard or word is missed until a case
has it.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from drafting.model.catalog import mount_types, mounts_by_end
from drafting.model.load import load
from drafting.spec.check import read_spec
from drafting.spec.field import TableFields
from drafting.spec.fields import CYLINDER, PIN_FIELDS, PORT_FIELDS
from drafting.spec.given import Spec
from drafting.spec.mount_fields import MOUNT_FIELDS
from drafting.standards.port_thread import families
from drafting.standards.ports import parse_port
from tests.agree.cases import (
    ALONG,
    CLOCKS,
    PLACES,
    SHELLS,
    Case,
    cases,
    half_runs,
    view_runs,
)
from tests.mount_words import PINNED

Point = tuple[str, str, str]
"""What is asked, what of it, and with which: ("mount", "body trunnion, base", "tie rod")."""
PAGE = Path(__file__).parent / "COVERAGE.md"
CHOICES = ("gland", "action", "piston", "return", "cushions", "cap_turned")


def spec_of(case: Case, clock: int = 0) -> Spec:
    """Read a case's file."""
    return read_spec(case.text(clock).encode(), mounts=mounts_by_end(), file="case.toml")


# --- what must be covered ------------------------------------------------------------------------


def wanted() -> list[Point]:
    """Give every point that some case must cover, with nothing known of the cases."""
    points: list[Point] = []
    for shell in SHELLS:
        for (end, word), kind in mount_types().items():
            points.append(("mount", f"{end} {word}", shell))
            points += [("field", f"{end} {word}: {f}", "") for f in kind.fields]
            points += [("field", f"{end} {word}: {f}", "") for f in kind.rod_fields if end == "rod"]
        points += [("place", f"{word}, {place}", shell) for word in ALONG for place in PLACES]
        points += [("port", name, shell) for name in _families()]
        points += [("facing", facing, shell) for facing in _words(PORT_FIELDS, "facing")]
        points += [("port is", what, shell) for what in ("plugged", "extra, base", "extra, rod")]
        points += [("stop tube", "with", shell)]
        for name in ("action", "piston", "return", "cushions"):
            points += [(name, w, shell) for w in _words(CYLINDER, name)]
    points += [("place", f"{word}, a distance", "welded") for word in ALONG]
    for gland in _words(CYLINDER, "gland"):
        points.append(("gland", gland, "tie rod" if gland == "tie rod" else "welded"))
    points += [("cap_turned", str(turn), "tie rod") for turn in (0, 90, 180, 270)]
    points += [("seat", f"{end}, {w}", "") for end in ("body", "rod") for w in _seats()]
    points += [("bolts", w, "") for w in ("circle, on", "circle, astride", "pitch")]
    points += [("foot", w, "") for w in ("2 bolts", "4 bolts", *_FEET)]
    for end in ("body", "rod"):
        points += [("pin", f"{end}, {w}", "") for w in _words(PIN_FIELDS, "retention")]
    points += [("pinned", word, "") for word in PINNED]
    points += [("units", u, "") for u in ("in", "mm")]
    return list(dict.fromkeys(points))


_FEET = ("side lugs", "end angles", "side lug", "base angle", "rod angle")


def _words(table: TableFields | tuple[object, ...], name: str) -> tuple[str, ...]:
    fields = table.fields if isinstance(table, TableFields) else table
    return tuple(str(w) for f in fields if f.name == name for w in f.choices)


def _seats() -> tuple[str, ...]:
    return tuple(str(w) for w in MOUNT_FIELDS["seat"].choices)


# --- what a case covers --------------------------------------------------------------------------


def covered(case: Case) -> Iterator[Point]:
    """Give every point that a case covers."""
    spec = spec_of(case)
    c = load(spec)
    shell = spec.word("cylinder.construction") or "welded"
    for end, word in c.mounts.items():
        yield "mount", f"{end} {word}", shell
        for name in MOUNT_FIELDS:
            if spec.has(f"{end}_mount.{name}"):
                yield "field", f"{end} {word}: {name}", ""
        seat = c.value(f"{end}_mount.seat")
        if seat is not None:
            yield "seat", f"{end}, {seat.value}", ""
        yield from _bolts(spec, end)
    yield from _place(spec, c.mounts["body"], shell)
    feet = c.value("body_mount.feet")
    if feet is not None:
        yield "foot", str(feet.value), ""
        yield "foot", f"{c.value('body_mount.bolts.count').value:g} bolts", ""
    for name in CHOICES:
        found = spec.get(f"cylinder.{name}")
        usual = {"gland": "threaded" if shell == "welded" else "tie rod", "cap_turned": 0}
        field = next(f for f in CYLINDER.fields if f.name == name)
        otherwise = usual.get(name, field.choices[0] if field.choices else "")
        value = found.value if found is not None else otherwise
        yield name, f"{value:g}" if isinstance(value, float) else str(value), shell
    if spec.has("cylinder.stop_tube"):
        yield "stop tube", "with", shell
    for port in c.ports:
        yield "port", _family(port.thread.spelling), shell
        yield "facing", port.sizes.facing, shell
        if port.sizes.plugged:
            yield "port is", "plugged", shell
        if port.table.startswith("extra"):
            yield "port is", f"extra, {port.end}", shell
    for pin in c.pins:
        yield "pin", f"{pin.end_of}, {pin.retention}", ""
        yield "pinned", c.mounts[pin.end_of], ""
    yield "units", case.units, ""


def _bolts(spec: Spec, end: str) -> Iterator[Point]:
    t = f"{end}_mount.bolts"
    if spec.has(f"{t}.circle"):
        yield "bolts", f"circle, {spec.word(f'{t}.first_hole') or 'astride'}", ""
    elif spec.has(f"{t}.pitch"):
        yield "bolts", "pitch", ""


def _place(spec: Spec, word: str, shell: str) -> Iterator[Point]:
    at = spec.get("body_mount.position")
    if at is not None:
        place = at.value if isinstance(at.value, str) else "a distance"
        yield "place", f"{word}, {place}", shell


def _families() -> Iterator[str]:
    """Give every family of ports; four-bolt flanges by their code."""
    for family in families("port"):
        name = str(family.entry["family"])
        codes = dict.fromkeys(r.word("code") for r in family.table.rows) if name == "flange" else ()
        yield from [f"{name} code {code}" for code in codes] or [name]


def _family(spelling: str) -> str:
    thread = parse_port(spelling)
    code = thread.spelling.partition(" code ")[2]
    return f"{thread.family} code {code}" if code else thread.family


# --- the page ------------------------------------------------------------------------------------


def page() -> str:
    """Give the table as Markdown: each point with how many cases have it, and the first of them."""
    names: dict[Point, list[str]] = {point: [] for point in wanted()}
    count = 0
    for case in cases():
        count += 1
        for point in dict.fromkeys(covered(case)):
            names.setdefault(point, []).append(case.name)
    lines = [
        "# What is compared",
        "",
        "Every case is one spec file. Its drawn views are compared with the hidden-line views that",
        "the open-source solid kernel makes of its solids, its solids are read back from STEP and",
        "weighed, and its sheet is inspected. This table is written by `python -m",
        "tests.agree.coverage` and a test tells when it is stale.",
        "",
        f"{count} cases, at clock angles of {', '.join(map(str, CLOCKS))} degrees where something",
        f"turns. The wide run compares {len(view_runs(True))} outside views and "
        f"{len(half_runs(True))} half sections,",
        f"the gate {len(view_runs(False))} and {len(half_runs(False))}.",
        "",
        "| What | Which | Construction | Cases | The first |",
        "|---|---|---|---:|---|",
    ]
    for (what, which, shell), found in sorted(names.items()):
        first = found[0] if found else "none"
        lines.append(f"| {what} | {which} | {shell or 'any'} | {len(found)} | {first} |")
    return "\n".join(lines) + "\n"


def missing() -> list[Point]:
    """Give what no case covers."""
    have = {point for case in cases() for point in covered(case)}
    return [point for point in wanted() if point not in have]


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8", newline="\n")
