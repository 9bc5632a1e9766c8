"""What the file decides by itself: values that cannot stand beside each other."""

from __future__ import annotations

from functools import partial

from drafting.errors import Fault
from drafting.spec.given import Spec
from drafting.spec.tolerance_sense import tolerance_faults
from drafting.units import both

SAME_MM = 0.02
"""Sizes that differ by no more than this are the same size."""
AGREE_MM = 0.5
"""Three typed lengths may disagree by this much."""
_LENGTHS = ("stroke", "retracted", "extended")


def make_sense(spec: Spec, broken: frozenset[str]) -> list[Fault]:
    """Give every contradiction between typed values; ``broken`` names could not be read."""
    return [
        *_lengths(spec, broken),
        *_barrel(spec),
        *_action(spec, broken),
        *_tie_rod(spec),
        *(f for table in ("body_mount", "rod_mount") for f in _mount(spec, table, broken)),
        *(f for table in _ports(spec) for f in _port(spec, table)),
        *_logo(spec),
        *tolerance_faults(spec, broken),
        *_origins(spec, broken),
    ]


def _origins(spec: Spec, broken: frozenset[str]) -> list[Fault]:
    """Give a fault for each ``[[origin]]`` of a value that is not there, or told twice."""
    faults, seen = [], set(broken)
    for n, told in enumerate(spec.origins, 1):
        at = f"origin[{n}].field"
        if told.field in seen - broken:
            message = f"{told.field} has two origins; leave one of the [[origin]] tables out"
            faults.append(spec.fault("two-origins", at, message))
        elif told.field and told.field not in seen and told.field not in spec.givens:
            message = (
                f"{told.field} is not typed in this file, so that it has no origin to tell; "
                'write a dotted name such as "rod_mount.pin"'
            )
            faults.append(spec.fault("origin-of-nothing", at, message))
        seen.add(told.field)
    return faults


def _lengths(spec: Spec, broken: frozenset[str]) -> list[Fault]:
    names = [f"cylinder.{n}" for n in _LENGTHS]
    if not spec.has("cylinder") or any(n in broken for n in names):
        return []
    typed = {n: v for n in _LENGTHS if (v := spec.number(f"cylinder.{n}")) is not None}
    if len(typed) < 2:
        here = f"only {next(iter(typed))} is here" if typed else "none is here"
        return [
            spec.fault(
                "missing",
                "cylinder",
                f"two of stroke, retracted and extended are required; {here}",
            )
        ]
    say = {n: both(v, spec.units) for n, v in typed.items()}
    retracted, extended, stroke = (
        typed.get("retracted"),
        typed.get("extended"),
        typed.get("stroke"),
    )
    faults = []
    if retracted is not None and extended is not None and retracted >= extended:
        message = (
            f"retracted {say['retracted']} is not shorter than extended {say['extended']}; "
            "both run from datum to datum"
        )
        faults.append(spec.fault("lengths-disagree", "cylinder.retracted", message))
    if stroke is not None and extended is not None and stroke >= extended:
        message = (
            f"a stroke of {say['stroke']} leaves nothing of an extended length of "
            f"{say['extended']}; extended is the whole length, datum to datum"
        )
        faults.append(spec.fault("lengths-disagree", "cylinder.stroke", message))
    if not faults and stroke is not None and retracted is not None and extended is not None:
        travel = extended - retracted
        if abs(travel - stroke) > AGREE_MM:
            message = (
                f"extended {say['extended']} less retracted {say['retracted']} is "
                f"{both(travel, spec.units)}, but the stroke is {say['stroke']}; leave one out"
            )
            faults.append(spec.fault("lengths-disagree", "cylinder.extended", message))
    return faults


def _barrel(spec: Spec) -> list[Fault]:
    say = partial(both, units=spec.units)
    bore, rod, outside, wall = (
        spec.number(f"cylinder.{n}") for n in ("bore", "rod", "barrel_outside", "wall")
    )
    faults = []
    if bore is not None and rod is not None and rod >= bore - SAME_MM:
        message = f"a rod of {say(rod)} does not pass through a bore of {say(bore)}"
        faults.append(spec.fault("rod-too-thick", "cylinder.rod", message))
    if bore is not None and outside is not None and outside <= bore + SAME_MM:
        message = (
            f"an outside of {say(outside)} leaves no wall round a bore of {say(bore)}; "
            "bore is the inside diameter"
        )
        faults.append(spec.fault("no-wall", "cylinder.barrel_outside", message))
    elif bore is not None and outside is not None and wall is not None:
        meant = bore + 2 * wall
        if abs(meant - outside) > SAME_MM:
            message = (
                f"a bore of {say(bore)} and two walls of {say(wall)} make {say(meant)}, but "
                f"barrel_outside is {say(outside)}; leave one out"
            )
            faults.append(spec.fault("sizes-disagree", "cylinder.wall", message))
    whole, shown = spec.number("cylinder.gland_length"), spec.number("cylinder.gland_projection")
    if whole is not None and shown is not None and shown > whole + SAME_MM:
        message = (
            f"{say(shown)} shows of a gland that is {say(whole)} long; gland_length is the whole "
            "gland"
        )
        faults.append(spec.fault("sizes-disagree", "cylinder.gland_projection", message))
    return faults


def _action(spec: Spec, broken: frozenset[str]) -> list[Fault]:
    if "cylinder.action" in broken or "cylinder.return" in broken:
        return []
    action = spec.word("cylinder.action") or "double"
    back = spec.word("cylinder.return")
    faults = []
    if action == "double" and back is not None:
        message = 'a double-acting cylinder has no return; write action = "push" or "pull"'
        faults.append(spec.fault("not-of-this-action", "cylinder.return", message))
    for name in ("cylinder.spring_space", "cylinder.spring_force"):
        if spec.has(name) and back != "spring":
            message = 'there is a spring only with return = "spring"'
            faults.append(spec.fault("not-of-this-action", name, message))
    if spec.word("cylinder.piston") == "displacement" and action != "push":
        message = 'a displacement ram only pushes; write action = "push"'
        faults.append(spec.fault("not-of-this-action", "cylinder.piston", message))
    return faults


def _tie_rod(spec: Spec) -> list[Fault]:
    construction = spec.word("cylinder.construction") or "welded"
    if construction == "tie rod":
        return []
    faults = [
        spec.fault(
            "not-of-this-construction",
            f"cylinder.{name}",
            f'{name} belongs to construction = "tie rod"',
        )
        for name in ("square", "tie_rod", "cap_turned")
        if spec.get(f"cylinder.{name}")
    ]
    if spec.word("cylinder.gland") == "tie rod":
        message = 'a gland held by tie rods belongs to construction = "tie rod"'
        faults.append(spec.fault("not-of-this-construction", "cylinder.gland", message))
    return faults


def _mount(spec: Spec, table: str, broken: frozenset[str]) -> list[Fault]:
    say = partial(both, units=spec.units)
    pin, hole, bushing, gap, width, shoulders = (
        spec.number(f"{table}.{n}") for n in ("pin", "hole", "bushing", "gap", "width", "shoulders")
    )
    faults = []

    def fault(code: str, name: str, message: str) -> None:
        faults.append(spec.fault(code, f"{table}.{name}", message))

    if pin is not None and hole is not None and hole < pin - 1e-9:
        fault("hole-too-small", "hole", f"a pin of {say(pin)} does not enter a hole of {say(hole)}")
    inside = hole if hole is not None else pin
    if bushing is not None and inside is not None and bushing <= inside + SAME_MM:
        fault(
            "no-wall",
            "bushing",
            f"a bushing of {say(bushing)} outside has no wall round {say(inside)}",
        )
    if gap is not None and width is not None and gap >= width - SAME_MM:
        fault(
            "no-ears",
            "gap",
            f"a gap of {say(gap)} leaves no ears within a width of {say(width)}; gap is between "
            "the ears, width is over them",
        )
    if shoulders is not None and width is not None and shoulders >= width - SAME_MM:
        fault(
            "no-pins",
            "shoulders",
            f"shoulders of {say(shoulders)} leave no trunnion pins within a width of {say(width)}; "
            "width is over the pins",
        )
    return faults + _bolts(spec, f"{table}.bolts", broken)


def _bolts(spec: Spec, table: str, broken: frozenset[str]) -> list[Fault]:
    if not spec.has(table):
        return []
    circle, pitch = spec.get(f"{table}.circle"), spec.get(f"{table}.pitch")
    if {f"{table}.circle", f"{table}.pitch"} & broken:
        return []
    if circle and pitch:
        message = "bolts lie on a circle or at a pitch, not both; leave one out"
        return [spec.fault("sizes-disagree", f"{table}.pitch", message)]
    if not circle and not pitch:
        message = "where the bolts lie is missing: circle = 6.5, or pitch = [4, 4]"
        return [spec.fault("missing", table, message)]
    hole, across = spec.number(f"{table}.hole"), spec.number(f"{table}.circle")
    if hole is not None and across is not None and hole >= across:
        message = f"a bolt hole of {both(hole, spec.units)} is larger than its bolt circle"
        return [spec.fault("sizes-disagree", f"{table}.hole", message)]
    return []


def _ports(spec: Spec) -> list[str]:
    extra = [f"extra_port[{n + 1}]" for n in range(spec.count("extra_port"))]
    return [t for t in ("base_port", "rod_port", *extra) if spec.has(t)]


def _port(spec: Spec, table: str) -> list[Fault]:
    outlet = spec.get(f"{table}.outlet_position")
    if outlet and (spec.word(f"{table}.facing") or "out") == "out":
        message = 'an outlet_position belongs to a port tube; write facing = "base" or "rod"'
        return [spec.fault("not-of-this-port", f"{table}.outlet_position", message)]
    return []


def _logo(spec: Spec) -> list[Fault]:
    """A path that lies wholly beside its viewBox would leave an empty field."""
    name = "drawing.logo.path"
    path, viewbox = spec.word(name), spec.word("drawing.logo.viewbox")
    if not path or not viewbox:
        return []
    from drafting.spec.svg_path import read_path, read_viewbox

    x, y, wide, high = read_viewbox(viewbox)
    points = [p for line in read_path(path) for p in line]
    lo, hi = (tuple(f(p[i] for p in points) for i in (0, 1)) for f in (min, max))
    if lo[0] <= x + wide and hi[0] >= x and lo[1] <= y + high and hi[1] >= y:
        return []
    reach = f"from {lo[0]:g} {lo[1]:g} to {hi[0]:g} {hi[1]:g}"
    message = f"the path reaches {reach}: nothing of it lies in the viewBox {viewbox}"
    return [spec.fault("not-a-path", name, message)]
