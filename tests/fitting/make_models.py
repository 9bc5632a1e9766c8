"""The frames of the sample machines as STEP: ``python -m tests.fitting.make_models``.

Each frame is drawn in the plane of its arm: x to the right, the model's Z up, the pins along Y. The
arm stands where the travel starts. Plates are plain; what matters is where they are.
"""

from __future__ import annotations

from pathlib import Path

import cadquery as cq

from drafting.fitting.machine import Hinge, read_machine
from drafting.fitting.travel import carried, place, span

MACHINES = Path(__file__).parent.parent.parent / "specs" / "machines"


def ears(at, pin, gap, ear, wide, deep, angle=0.0):
    """Two ears with a hole about a point of the plane, ``deep`` down from it at an angle."""
    both = cq.Workplane("XZ")
    x, z = at
    for y in (gap / 2, -gap / 2 - ear):
        plate = (
            cq.Workplane("XZ", origin=(x, y + ear, z))
            .circle(wide / 2)
            .extrude(ear)
            .union(
                cq.Workplane("XZ", origin=(x, y + ear, z))
                .center(0, -deep / 2)
                .rect(wide, deep)
                .extrude(ear)
            )
            .cut(cq.Workplane("XZ", origin=(x, y + ear + 1, z)).circle(pin / 2).extrude(ear + 2))
        )
        plate = plate.rotate((x, 0, z), (x, 1, z), -angle)
        both = both.union(plate) if both.vals() else plate
    return both


def bar(a, b, high, thick, y=0.0):
    """A flat bar from one point of the plane to another."""
    dx, dz = b[0] - a[0], b[1] - a[1]
    long = (dx * dx + dz * dz) ** 0.5
    from math import atan2, degrees

    return (
        cq.Workplane("XY")
        .box(long, thick, high, centered=(False, True, True))
        .rotate((0, 0, 0), (0, 1, 0), -degrees(atan2(dz, dx)))
        .translate((a[0], y, a[1]))
    )


def frame(way, base_gap, rod_gap, pin, ear, extra=(), wide=1.7):
    """A frame with ears at the base pin and an arm with ears at the rod pin, by name."""
    start = place(way, span(way)[0])
    base, rod = start.base, start.rod
    parts = {
        "base ears": ears(base, pin, base_gap, ear, wide * pin, 3.2 * pin),
        "arm ears": ears(rod, pin, rod_gap, ear, 1.7 * pin, 2.2 * pin, 180.0),
    }
    floor = base[1] - 3.2 * pin
    parts["floor"] = cq.Workplane("XY").box(8 * pin, 6 * pin, 12).translate(
        (base[0], 0, floor - 6)
    )  # fmt: skip
    top = rod[1] + 2.2 * pin
    if isinstance(way, Hinge):
        hinge = way.at
        end = carried(way, way.loads[0].at, way.start)
        parts["arm"] = bar((hinge[0], top + 20), (end[0], top + 20), 40, 30)
    else:
        parts["carriage"] = (
            cq.Workplane("XY").box(300, 160, 40).translate((rod[0] + 125, 0, top + 20))
        )
    parts.update(extra)
    return parts


def write(name, parts):
    """Write named solids as one assembly."""
    whole = cq.Assembly(name=name)
    for word, solid in parts.items():
        whole.add(solid, name=word)
    whole.export(str(MACHINES / f"{name}.step"))


def main() -> None:
    """Write all four."""
    tail = read_machine(str(MACHINES / "wagon-tailboard.toml")).way
    beam = cq.Workplane("XY").box(60, 220, 60).translate((35, 0, -160))
    write("wagon-tailboard", frame(tail, 32, 27, 30.2, 15, {"cross beam": beam}))
    slide = read_machine(str(MACHINES / "saw-carriage.toml")).way
    rail = cq.Workplane("XY").box(1500, 20, 30).translate((700, 72, -20))
    write("saw-carriage", frame(slide, 77.8, 65.1, 32.2, 12.7, {"rail": rail}, 1.45))
    latch = read_machine(str(MACHINES / "lock-latch.toml")).way
    start = place(latch, 0)
    lug = cq.Workplane("XZ", origin=(start.base[0], 9.525, start.base[1])).circle(20).extrude(
        19.05).cut(cq.Workplane("XZ", origin=(start.base[0], 20, start.base[1])).circle(
            9.6).extrude(40))  # fmt: skip
    top = cq.Workplane("XZ", origin=(start.rod[0], 9.525, start.rod[1])).circle(20).extrude(
        19.05).cut(cq.Workplane("XZ", origin=(start.rod[0], 20, start.rod[1])).circle(
            9.6).extrude(40))  # fmt: skip
    arm = bar((0, 0), (start.rod[0] * 0.5, start.rod[1] * 0.5), 30, 19.05)
    write("lock-latch", {"base lug": lug, "arm lug": top, "arm": arm})
    bins = read_machine(str(MACHINES / "bin-arms.toml")).way
    write("bin-arms", frame(bins, 21, 21, 25, 12))


if __name__ == "__main__":
    main()
