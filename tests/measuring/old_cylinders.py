"""Legal specs as old cylinders on a bench: readings with tools, noise, wear and slips.

Every error here is one that happens at a bench (common practice): pins and holes wear, chrome goes,
a tube's mouth is belled, a rod is not pushed home, an adapter stays in the port, the ends get mixed
up in one round. Noise stays within the stated limits of the tools.
"""

from __future__ import annotations

import random
import re
from collections import Counter
from dataclasses import dataclass, field
from functools import cache

from drafting.measuring.letters import letters
from drafting.measuring.measure import measure
from drafting.model.catalog import mounts_by_end
from drafting.model.load import load
from drafting.spec.check import read_spec
from drafting.standards.bands import known_threads
from drafting.standards.ports import parse_port
from drafting.standards.sizes import usual_sizes
from drafting.standards.threads import parse_thread
from tests.mount_words import BODY, EYES, PINNED, ROD

LIMIT = {"tape": {"in": 25.4 / 16, "mm": 1.0}, "caliper": 0.05, "inside": 0.1, "tube": 0.15}
ROUND_TO = {"tape": {"in": 25.4 / 16, "mm": 1.0}, "caliper": {"in": 0.0254, "mm": 0.02}}
NAMES = {"plate.0": ("plate", "plate.x"), "plate.1": ("plate.across",),
         "bolts.pitch.0": ("bolts.pitch.x",), "bolts.pitch.1": ("bolts.pitch.across",),
         "position": ("from_closed_end",)}  # fmt: skip


def usual(kind: str, mm: float, inch: bool, most: float) -> float:
    own = [u.mm for u in usual_sizes(kind) if u.inch == inch and u.mm <= most]
    return min(own, key=lambda x: abs(x - mm))


def common(text: str, rng: random.Random, odd: float = 0.1) -> str:
    """Bring rod and pins to sizes that a builder would buy, but for a share of ``odd`` ones."""
    inch = 'units = "in"' in text
    unit = 25.4 if inch else 1.0
    bore = float(re.search(r"^bore = (.*)$", text, re.M)[1]) * unit

    def new(kind: str, size: str, most: float) -> str:
        mixed = odd > 0 and rng.random() < 0.03
        return f"{usual(kind, float(size) * unit, inch != mixed, most) / unit:.6f}"

    out, pin, was = [], 0.0, 0.0
    for line in text.splitlines():
        key, _, value = line.partition(" = ")
        if key == "rod" and rng.random() >= odd:
            line = f"rod = {new('rod', value, 0.72 * bore)}"
        elif key == "pin" and rng.random() >= odd:
            was = float(value)
            pin = float(new("pin", value, 1e9))
            line = f"pin = {pin:.6f}"
        elif key in ("hole", "bushing", "gap", "width", "throat") and was:
            grown = pin + (float(value) - was) if key == "hole" else float(value) * pin / was
            line = f"{key} = {grown:.4f}"
        elif key == "mount":
            was = 0.0
        out.append(line)
    return "\n".join(out) + "\n"


@dataclass
class Old:
    """An old cylinder: its drawing (``spec``), the readings, and the truth behind each letter."""

    spec: str
    readings: str
    truth: dict[str, float | str]
    done_to_it: list[str] = field(default_factory=list)


def old(spec: str, seed: int, sound: bool = False) -> Old:
    """Read a cylinder at the bench; ``sound`` leaves out all wear and slips."""
    rng = random.Random(seed)
    c = load(read_spec(spec.encode(), mounts=mounts_by_end()))
    made = _Bench(c, rng, sound)
    return Old(spec, made.text(), made.truth, made.done)


class _Bench:
    def __init__(self, c, rng, sound):
        self.c, self.rng, self.sound = c, rng, sound
        self.units = c.spec.units
        self.done: list[str] = []
        self.mounts = (c.mounts["body"], c.mounts["rod"])
        self.known = letters(*self.mounts)
        self.truth = {}
        for x in self.known:
            value = self.value(x.field)
            if value and x.letter not in ("S", "F"):
                self.truth[x.letter] = value
        face, n = c.stations.gland_face, c.lengths
        if sound or rng.random() < 0.8:
            along = {"T": face, "K": n.retracted - face, "L": n.extended - face, "S": n.stroke}
            self.truth |= {x: v for x, v in along.items() if along["K"] > 1.0}
        self.truth["X"] = c.stations.barrel_end - c.stations.closed_end
        self.part = {x: self.as_made(x, v) for x, v in self.truth.items()}

    def value(self, name):
        table, _, rest = name.partition(".")
        for n in (*NAMES.get(rest, ()), rest):
            found = self.c.value(f"{table}.{n}")
            if found is not None and isinstance(found.value, float):
                return found.value
        found = self.c.value(name)
        return found.value if found is not None and name.endswith("thread") else None

    def as_made(self, letter, nominal):
        if isinstance(nominal, str):
            thread = parse_thread(nominal)
            return thread.major_mm if self.mounts[1] == "male thread" else thread.bore_mm
        lo, hi = {"C": (0.0, 0.08), "E": (-0.06, 0.0), "P": (-0.09, 0.0)}.get(letter[0], (0, 0))
        return nominal + self.rng.uniform(lo, hi)

    def noise(self, limit):
        return min(max(self.rng.gauss(0, limit / 2), -limit), limit)

    def reading(self, tool, true, inside=False, tube=False):
        limit = LIMIT["tape"][self.units] if tool == "tape" else LIMIT["inside" if inside else
                "tube" if tube else "caliper"]  # fmt: skip
        step = ROUND_TO[tool][self.units]
        return round((true + self.noise(limit - step / 2)) / step) * step

    def slip(self, what, odds):
        if self.sound or self.rng.random() >= odds:
            return False
        self.done.append(what)
        return True

    # --- letters --------------------------------------------------------------------------------

    def repeats(self, x):
        true = self.part[x.letter]
        n = 2 if x.kind != "bore" else 4
        at = [true] * n
        rng = self.rng
        if x.kind == "pin" and self.slip("pin worn", 0.15):
            places = range(n) if rng.random() < 0.2 else [rng.randrange(n)]
            for k in places:
                at[k] -= rng.uniform(0.03, 0.9)
        if x.kind == "hole" and self.slip("hole pulled", 0.1):
            at[rng.randrange(n)] += rng.uniform(0.1, 1.5)
        if x.kind == "rod" and self.slip("chrome gone", 0.15):
            if rng.random() < 0.5:
                at = [a - rng.uniform(0.0, 0.05) for a in at]
            else:
                at[rng.randrange(n)] -= rng.uniform(0.05, 0.3)
        if x.kind == "bore" and self.slip("bell-mouth", 0.1):
            for k in (0, 1):
                at[k] += rng.uniform(0.05, 0.6)
        inside = x.kind in ("hole", "bore")
        return [self.reading(x.tool, a, inside, x.kind == "tube") for a in at]

    def length(self, letter):
        """Over the outer edges of holes or trunnion pins, or from face to face."""
        ends = {"T": "1", "K": "2", "L": "2", "S": ""}.get(letter, "12")
        edges = sum(self.part[d] / 2 for d in self.rounds() if d[-1] in ends)
        at = [self.truth[letter] + edges] * 2
        if self.slip("not to the stop", 0.06):
            short = self.rng.uniform(2.0, 25.0)
            move = 0.0 if letter == "T" else short if letter in "AK" else -short
            for k in (0, 1) if self.rng.random() < 0.4 else (self.rng.randrange(2),):
                at[k] += move
        if letter in "AB" and self.slip("an inch burned", 0.03):
            at = [a + 25.4 for a in at]
        return [self.reading("tape", a) for a in at]

    def over(self, letter):
        if letter == "S":
            return False
        end = "1" if letter == "T" else "2"
        return any(d[-1] == end for d in self.rounds())

    def rounds(self):
        found = []
        for n, mount in enumerate(self.mounts, 1):
            name = {"trunnion": "P", "foot": "H"}.get(mount, "H" if mount in PINNED else "")
            if name:
                found.append(f"{name}{n}")
        return found

    # --- the file -------------------------------------------------------------------------------

    def text(self):
        tables = {"tape": {}, "caliper": {}}
        ways = "_outer" if self.rounds() else ""
        for x in self.known:
            if x.letter not in self.part:
                continue
            if x.letter in ("A", "B", "S", "T", "K", "L"):
                over = ways if x.letter in "AB" or self.over(x.letter) else ""
                tables["tape"][x.letter + over] = self.length(x.letter)
            else:
                tables[x.tool][x.letter] = self.repeats(x)
        if self.slip("ends mixed up in one round", 0.06):
            self.mix(tables["caliper"])
        unit = 25.4 if self.units == "in" else 1.0
        spec = self.c.spec
        lines = ['title = "Old one"', f'units = "{self.units}"', "hard_stop = true"]
        sizes = [v for x, v in self.truth.items() if x in ("E", "P1", "P2")]
        own = {u.mm for k in ("rod", "pin") for u in usual_sizes(k) if u.inch == (unit > 1)}
        if all(any(abs(v - mm) < 0.01 for mm in own) for v in sizes) and self.rng.random() < 0.5:
            lines.append(f'system = "{"inch" if unit > 1 else "metric"}"')
        lines += [f'clock_seen_from = "{spec.word("cylinder.clock_seen_from") or "rod"}"']
        lines += [f'construction = "{spec.word("cylinder.construction") or "welded"}"']
        for n, end in enumerate(("body", "rod")):
            lines += [f"[{end}_mount]", f'mount = "{self.mounts[n]}"', *self.seen(end, n)]
        for tool, read in tables.items():
            lines.append(f"[{tool}]")
            for key, values in read.items():
                shown = ", ".join(f"{v / unit:.4f}" for v in values)
                lines.append(f"{key} = [{shown}]")
        for port in ("base_port", "rod_port"):
            lines += self.port(port)
        return "\n".join(lines) + "\n"

    def mix(self, read):
        for key in [k for k in read if k[-1] == "1" and f"{k[0]}2" in read]:
            one, two = read[key], read[f"{key[0]}2"]
            one[1], two[1] = two[1], one[1]

    def seen(self, end, n):
        mount, table = self.mounts[n], f"{end}_mount"
        lines = []
        if mount in ("flange", "foot"):
            words = ("seat", "position") if end == "body" else ("seat",)
            for word in words:
                found = self.c.value(f"{table}.{word}")
                if found is not None:
                    lines.append(f'{word} = "{found.value}"')
            lines.append(f"bolts = {int(self.c.value(f'{table}.bolts.count').value)}")
        if mount in ("male thread", "female thread"):
            thread = parse_thread(str(self.truth["M2"]))
            lines.append(f'pitch = "{self.pitch(thread.pitch_mm, thread.metric)}"')
        if end == "rod":
            lines.append(f"turned = {self.c.spec.number('rod_mount.turned') or 0:g}")
        return lines

    def pitch(self, mm, metric):
        """Ten threads counted and measured, or by some hands a gauge alone."""
        if self.slip("pitch by gauge alone", 0.3):
            return f"{mm:g} mm" if metric else f"{25.4 / mm:.4g} tpi"
        return f"10 over {10 * mm + self.noise(0.15):.2f} mm"

    def port(self, table):
        typed = self.c.spec.word(f"{table}.thread")
        if typed is None:
            return []
        port = parse_port(typed)
        self.truth[table] = port.spelling
        clock = self.c.spec.number(f"{table}.clock") or 0.0
        lines = [f"[{table}]", f'clock = "{clock:g} deg"']
        if self.slip("adapter left in", 0.06):
            other = self.rng.choice(known_threads())
            said = self.rng.choice(['adapter = "in"', ""])
            pitch = f'pitch = "{other.pitch_mm:.4f} mm"'
            return [*lines, said, f'female = "{sum(other.female) / 2:.3f} mm"', pitch]
        lines.append('adapter = "out"')
        known = next((k for k in known_threads() if k.port == port.spelling), None)
        if known is None or self.rng.random() < 0.5:
            return [*lines, f'thread = "{typed}"']
        female = self.reading("caliper", sum(known.female) / 2)
        metric = abs(known.pitch_mm * 8 - round(known.pitch_mm * 8)) < 1e-6
        pitch = self.pitch(known.pitch_mm, metric)
        taper = f"taper = {str(known.taper).lower()}"
        return [*lines, f'female = "{female:.3f} mm"', f'pitch = "{pitch}"', taper]


# --- judging what came of it ---------------------------------------------------------------------


@cache
def _special(kind: str, mm: float) -> bool:
    return not any(abs(u.mm - mm) <= 0.02 for u in usual_sizes(kind))


def wrong(o: Old, m) -> list[str]:
    """Give every size or word that is stated as known and is not the truth."""
    found = []
    for row in m.rows:
        letter, kind = row.letter.letter, row.letter.kind
        if row.confidence == "open" or letter not in o.truth:
            continue
        if any(letter in op.name.split(", ") for op in m.open):
            continue
        off = abs(row.taken_as_mm - o.truth[letter])
        room = 3 * row.uncertainty_mm + 0.15 * (row.letter.tool == "tape") + 0.02
        if kind in ("bore", "rod", "pin"):
            room = 0.2 if _special(kind, o.truth[letter]) else 0.02
        if kind == "tube":
            room = 0.6
        if off > room:
            found.append(f"{letter} taken as {row.taken_as_mm:.3f}, is {o.truth[letter]:.3f}")
    if m.done:
        spec = read_spec(m.spec.encode(), mounts=mounts_by_end())
        for table in ("base_port", "rod_port"):
            word = spec.word(f"{table}.thread")
            if word and parse_port(word).spelling != o.truth.get(table):
                found.append(f"{table} taken as {word}, is {o.truth.get(table)}")
        thread = spec.word("rod_mount.thread")
        if thread and parse_thread(thread).name != parse_thread(str(o.truth["M2"])).name:
            found.append(f"rod thread taken as {thread}, is {o.truth['M2']}")
    return found


def outcome(o: Old) -> tuple[str, list[str]]:
    """Give ``same``, ``again`` (something is open) or ``wrong`` with what is."""
    m = measure(o.readings.encode())
    bad = wrong(o, m)
    if bad:
        return "wrong", bad
    return ("same", []) if m.done else ("again", [f"{x.name}: {x.what}" for x in m.open])


def count(
    cases: int, sound: bool = False, start: int = 0
) -> tuple[Counter[str], list[str], Counter[str]]:
    """Try random cylinders; give the counts, what went wrong, and what was left open.

    ``start`` begins another row of cases.
    """
    from hypothesis import HealthCheck, Phase, given, seed, settings
    from hypothesis import strategies as st

    from tests.legal_specs import legal_specs

    counts: Counter[str] = Counter()
    why: Counter[str] = Counter()
    bad: list[str] = []
    seen: set[str] = set()
    pinned = st.sampled_from(EYES)
    mounts = st.tuples(pinned | st.sampled_from(BODY), pinned | st.sampled_from(ROD))
    specs = mounts.flatmap(lambda m: legal_specs(body=m[0], rod=m[1]))

    @seed(start)
    @settings(max_examples=cases, database=None, deadline=None,
              phases=[Phase.generate], suppress_health_check=list(HealthCheck))  # fmt: skip
    @given(specs, st.integers(0, 2**32 - 1))
    def one(text, number):
        rng = random.Random(number)
        text = common(text, rng, 0.0 if sound else 0.1)
        if sound or rng.random() < 0.8:
            text = _both_ports(text)
        try:
            o = old(text, number, sound)
        except Exception as refused:
            counts["no such cylinder"] += 1
            why[f"refused: {str(refused)[:60]}"] += 1
            return
        if o.readings in seen:
            return
        seen.add(o.readings)
        word, said = outcome(o)
        counts[word] += 1
        if word == "wrong":
            bad.append(f"{said} after {o.done_to_it}\n{o.readings}")
        else:
            why.update({re.sub(r"[0-9./]+", "#", s.split(":")[-1])[:50] for s in said})

    one()
    return counts, bad, why


def _both_ports(text):
    for table in ("base_port", "rod_port"):
        if f"[{table}]" not in text:
            thread = "SAE-6" if 'units = "in"' in text else "G 1/4"
            text += f'[{table}]\nthread = "{thread}"\nclock = 12\n'
    return text


if __name__ == "__main__":
    import sys

    wide, only_sound = int((sys.argv[1:] or ["2000"])[0]), "sound" in sys.argv
    begin = int(sys.argv[-1]) if len(sys.argv) > 2 and sys.argv[-1].isdigit() else 0
    total, errors, reasons = count(wide, only_sound, begin)
    print(dict(total))
    print("\n".join(e for e in errors[:6]))
    for reason, times in reasons.most_common(25):
        print(times, reason)
