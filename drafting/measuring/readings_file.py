"""The file of readings: what was read with which tool, under the letters of the worksheet.

    title     = "Orchard lift, off the old loader"
    units     = "in"                   # what a bare number means
    system    = "inch"                 # only if threads or the machine tell: inch | metric
    hard_stop = "yes"                  # or true: off the machine, to a hard stop, each time
    clock_seen_from = "rod"

    edges = "holes"                    # outer and inner edges are those of: holes | pins

    [body_mount]                       # words of the mounts, as in a spec
    mount = "cross tube"

    [rod_mount]
    mount  = "clevis"
    turned = 0

    [tape]                             # a letter, and what was read: once, or as often as it was
    A_outer = ["28 1/2", "28 1/2"]     # outer, inner: edges of the pins or holes; same: from edge
    B_outer = ["44 1/2", "44 1/2"]     # to edge on the base's side; bare A: centres, by eye

    [caliper]
    C  = [3.502, 3.501]
    E  = [1.749, 1.748]
    P1 = [1.249, 1.248]
    W1 = 3.5

    [micrometer]                       # the same letters, read truer
    E  = [1.7488, 1.7487]

    [base_port]
    clock   = "12:00"
    adapter = "out"                    # none | out: taken out | in: left in, and not the port
    female  = 0.69                     # or thread = "SAE-8", when it is known
    pitch   = "16 tpi"                 # or "1.5 mm", or ten threads: "10 over 15.9 mm"

    [uncertainty]                      # only when the tools differ from the usual ones
    tape = "1/32 in"

    [decided]                          # what a person settled, whatever the readings say
    E = "1 3/4 in"

Instead of a letter its name does as well: ``closed_outer``, ``bore``, ``body_pin``.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Literal

from drafting.errors import Fault, Refused
from drafting.factors import Misread
from drafting.measuring.letters import Letter, Tool, Way, letters, ways
from drafting.measuring.pitch import FORMS, read_pitch
from drafting.measuring.readings import Bench, Read, SeenPort
from drafting.measuring.tools import USUAL_MM
from drafting.model.catalog import mounts_by_end
from drafting.spec.field import Field, TableFields, flag, size, word, words
from drafting.spec.fields import TABLES as SPEC
from drafting.spec.given import Typed
from drafting.spec.kinds import nearest, read_value
from drafting.spec.mount_fields import mount_field
from drafting.spec.places import MENDED
from drafting.spec.places import Path as Keys
from drafting.spec.read import Document

SYSTEMS = ("inch", "metric")
PORTS: tuple[Literal["base_port", "rod_port"], ...] = ("base_port", "rod_port")
TOOLS: tuple[Tool, ...] = ("tape", "caliper", "micrometer")
WORDS: Mapping[str, tuple[str, ...]] = {
    "cylinder": ("construction", "action", "gland", "clock_seen_from"),
    "body_mount": ("mount", "position", "seat", "clock", "grease"),
    "rod_mount": ("mount", "seat", "turned", "grease"),
}
"""Fields of a spec that are seen, not measured; those of the cylinder stand at the file's top."""
YES: Mapping[str, bool] = {"yes": True, "no": False}
"""A person's words for what is true or false, as the worksheet has them."""
SIZE = size("reading", "what was read", "3.5")
ROOT: tuple[Field, ...] = (
    words("title", "what the cylinder is for", "Orchard lift", True),
    words("number", "drawing number of the spec", "SG-0417"),
    word("units", "what a bare number means", "in", "mm", required=True),
    word("system", "what its threads or the machine tell of the maker", *SYSTEMS),
    word("edges", "what outer and inner edges are the edges of", "holes", "pins"),
    flag("hard_stop", "true when closed and open were each read at a hard stop"),
)
END: tuple[Field, ...] = (
    Field("bolts", "count", "how many bolt holes", "4", least=1, most=64),
    word("first_hole", "a hole on 12 o'clock, or 12 o'clock between two", "on", "astride"),
    words("pitch", "pitch of the rod's thread", "12 tpi"),
)
PORT: tuple[Field, ...] = (
    Field("clock", "clock", "the hour that the port faces", '"12:00"'),
    words("thread", "the port, when it is known", "SAE-8"),
    size("female", "inside the port's thread crests", "0.69"),
    size("male", "over the thread of the fitting that came out", "0.745"),
    words("pitch", "pitch of the thread", "16 tpi"),
    flag("taper", "true when the thread is a taper"),
    Field("seat", "angle", "angle of the seat", '"37 deg"', bare=True),
    word("adapter", "was there an adapter in the port", "out", "none", "in"),
)


def bench_of(document: Document) -> Bench:
    """Judge a document as a file of readings; raises Refused with every fault in it."""
    return _Reader(document).bench()


class _Reader:
    def __init__(self, document: Document) -> None:
        self.document = document
        self.data = document.data
        self.faults: list[Fault] = list(document.faults)
        self.units: Literal["in", "mm"] = "in" if self.data.get("units") == "in" else "mm"

    def bench(self) -> Bench:
        own = {"body_mount", "rod_mount", *TOOLS, "base_port", "rod_port", "uncertainty", "decided"}
        top = (*ROOT, *(_spec_field("cylinder", w) for w in WORDS["cylinder"]))
        plain = {k: v for k, v in self.data.items() if k not in own}
        root = self.fields(TableFields("", "", top), plain, ())
        ends = {t: self.end(t) for t in ("body_mount", "rod_mount")}
        self.stop()
        body, rod = (str(ends[t]["mount"]) for t in ends)
        known = letters(body, rod)
        reads = tuple(r for tool in TOOLS for r in self.reads(tool, known))
        decided = self.decided(known)
        shows: dict[str, float] = {tool: USUAL_MM[tool][self.units] for tool in TOOLS}
        tools = TableFields(
            "uncertainty", "", tuple(size(t, "what it shows", "1/16") for t in TOOLS)
        )
        shows |= {k: float(v) for k, v in self.table(tools).items() if isinstance(v, float)}
        ports = tuple(self.ports())
        pitch = str(ends["rod_mount"].pop("pitch", ""))
        if pitch and read_pitch(pitch) is None:
            self.fault("not-a-pitch", ("rod_mount", "pitch"), _PITCH.format(pitch))
        self.stop()
        counts = {n: ends[t].pop("bolts", None) for n, t in enumerate(ends, 1)}
        bolts = {n: int(b) for n, b in counts.items() if isinstance(b, int)}
        seen = {f"cylinder.{w}": root[w] for w in WORDS["cylinder"] if w in root}
        seen |= {f"{t}.{w}": v for t, found in ends.items() for w, v in found.items()}
        return Bench(
            self.document.file,
            self.units,
            str(root["title"]),
            str(root.get("number", "")),
            str(root.get("system", "")),
            root.get("hard_stop") is True,
            str(root.get("edges", "holes")),
            body,
            rod,
            seen,
            bolts,
            pitch,
            reads,
            ports,
            shows,
            decided,
            known,
        )

    def stop(self) -> None:
        if self.faults:
            raise Refused(self.faults)

    # --- tables ---------------------------------------------------------------------------------

    def table(self, table: TableFields) -> dict[str, Typed]:
        data = self.data.get(table.name, {})
        if isinstance(data, dict):
            return self.fields(table, data, (table.name,))
        self.fault("not-a-table", (table.name,), f"write it under a heading [{table.name}]")
        return {}

    def end(self, name: str) -> dict[str, Typed]:
        if name not in self.data:
            text = f'the table [{name}] with mount = "..." is missing'
            self.fault("missing", (name,), text)
            return {}
        fields = (*(_spec_field(name, w) for w in WORDS[name]), *END[: 2 if name[0] == "b" else 3])
        found = self.table(TableFields(name, "", fields))
        mount = str(found.get("mount", ""))
        taken = mounts_by_end()[name].get(mount)
        takes = taken.fields if taken else ()
        for key in found:
            if key not in ("mount", "bolts", "first_hole", "pitch", *takes):
                text = f"{key} does not belong to the mount {mount}"
                self.fault("not-of-this-mount", (name, key), text)
        return found

    def ports(self) -> list[SeenPort]:
        found: list[SeenPort] = []
        for name in PORTS:
            if name in self.data:
                seen = self.table(TableFields(name, "", PORT))
                if read_pitch(str(seen.get("pitch", "1 mm"))) is None:
                    self.fault("not-a-pitch", (name, "pitch"), _PITCH.format(seen["pitch"]))
                found.append(SeenPort(name, seen))
        return found

    def fields(self, table: TableFields, data: dict[str, Any], path: Keys) -> dict[str, Typed]:
        values: dict[str, Typed] = {}
        for key, raw in data.items():
            found = table.field(key)
            if MENDED in key or raw == MENDED:
                continue
            if found is None:
                tip = nearest(key, (f.name for f in table.fields))
                self.fault("unknown-field", (*path, key), f"nothing is called {key}; {tip}")
            else:
                value = self.value(raw, found, (*path, key))
                if value is not None:
                    values[key] = value
        for f in table.fields:
            if f.required and f.name not in data:
                text = f"required: {f.doc}; for example {f.name} = {f.example}"
                self.fault("missing", (*path, f.name), text)
        return values

    def value(self, raw: Any, of: Field, at: Keys) -> Typed | None:
        if of.kind == "flag" and isinstance(raw, str) and raw.lower() in YES:
            return YES[raw.lower()]
        place = self.document.places.get(at)
        typed = raw if isinstance(raw, str) else place.raw if place else str(raw)
        try:
            return read_value(raw, typed, of, self.units)[0]
        except Misread as error:
            self.fault(error.code, at, str(error))
            return None

    # --- letters --------------------------------------------------------------------------------

    def reads(self, tool: Tool, known: tuple[Letter, ...]) -> list[Read]:
        data = self.data.get(tool, {})
        if not isinstance(data, dict):
            self.fault("not-a-table", (tool,), f"write the readings under a heading [{tool}]")
            return []
        found: list[Read] = []
        for key, raw in data.items():
            if MENDED in key or raw == MENDED:
                continue
            at: Keys = (tool, key)
            meant = self.letter(key, known, at)
            if meant is None:
                continue
            listed = raw if isinstance(raw, list) else [raw]
            places = [(*at, n) if isinstance(raw, list) else at for n in range(len(listed))]
            # a place may lie on either side of its datum, and a datum on the gland itself
            sized = meant[0].kind == "place" or meant[0].letter == "T"
            of = Field("reading", "length", "", "3.5", signed=True) if sized else SIZE
            values = [self.value(r, of, p) for r, p in zip(listed, places, strict=True)]
            good = tuple(float(v) for v in values if isinstance(v, int | float))
            if not listed:
                self.fault("empty", at, "no reading between the brackets; leave the line out")
            elif len(good) == len(listed):
                place = self.document.places.get(at)
                found.append(Read(*meant, tool, good, place.key_line if place else 1))
        return found

    def letter(
        self, key: str, known: tuple[Letter, ...], at: Keys, bare: bool = False
    ) -> tuple[Letter, Way] | None:
        for one in known:
            for way in ways(one):
                end = f"_{way}" if way else ""
                if key in (one.letter + end, one.name + end) and not (bare and way):
                    return one, way
        names = [x for one in known for x in (one.letter, one.name)]
        elsewhere = key[:1].isalpha() and key[-1:] in "12" and len(key) == 2
        text = f"nothing is called {key} here; {nearest(key, names)}"
        if elsewhere:
            here = ", ".join(f"{x.letter} ({x.what})" for x in known if x.letter[-1] == key[-1])
            text = f"the mount at this end has no {key}; it has {here}"
        self.fault("unknown-letter", at, text)
        return None

    def decided(self, known: tuple[Letter, ...]) -> dict[str, float]:
        data = self.data.get("decided", {})
        found: dict[str, float] = {}
        for key, raw in data.items() if isinstance(data, dict) else ():
            at: Keys = ("decided", key)
            meant = self.letter(key, known, at, bare=True)
            value = self.value(raw, Field("decided", "length", "", "3.5", signed=True), at)
            if meant and isinstance(value, int | float):
                found[meant[0].letter] = float(value)
        return found

    def fault(self, code: str, at: Keys, message: str) -> None:
        place = self.document.places.get(at) or self.document.places.get(at[:1])
        line, column = (place.key_line, place.key_column) if place else (1, 1)
        name = ".".join(str(k) for k in at)
        self.faults.append(Fault(self.document.file, line, column, code, name, message))


_PITCH = f'found "{{}}"; {FORMS}'


def _spec_field(table: str, name: str) -> Field:
    found = SPEC[table].field(name)
    assert found is not None
    return mount_field(found, mounts_by_end()[table]) if name == "mount" else found
