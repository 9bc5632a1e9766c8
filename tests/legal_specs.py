"""Random legal specs: every draw must be accepted, drawn and closed.

Sizes are proportions of the bore that a builder could make (common practice); lengths are generous
enough that the floors of the stack fit. The text is written here by hand, not by the package.
"""

from __future__ import annotations

from hypothesis import strategies as st

from tests.mount_words import EYES, takes

CLOCKS = ['"12:00"', '"1:30"', '"3:00"', '"4:30"', "6", '"35 deg"', '"200 deg"', "9", '"10:30"']
SIDE_CLOCKS = ['"12:00"', "3", "6", "9"]
PORTS_IN = ["SAE-4", "SAE-6", "1/4 NPT", "3/8 NPT", "SAE-8"]
PORTS_MM = ["G 1/4", "G 3/8", "M14x1.5 ISO 6149", "M18x1.5 ISO 6149"]


def line(key, value):
    return f"{key} = {value}"


def number(value, unit):
    """A size in the file's unit, from millimetres."""
    return f"{value / (25.4 if unit == 'in' else 1.0):.4f}"


@st.composite
def pin_mount(draw, word, bore, rod, unit):
    pin = draw(st.floats(0.6, 0.95)) * rod
    hole = pin + draw(st.floats(0.0, 0.4))
    lines = [line("pin", number(pin, unit)), line("hole", number(hole, unit))]
    if word == "clevis":
        gap = draw(st.floats(0.9, 1.3)) * pin
        width = gap + 2 * draw(st.floats(0.45, 0.7)) * pin
        lines += [line("gap", number(gap, unit)), line("width", number(width, unit))]
        if draw(st.booleans()):
            lines.append(line("throat", number(1.1 * pin, unit)))
    elif not takes(word, "left") or draw(st.integers(0, 3)):
        lines.append(line("width", number(draw(st.floats(0.5, 1.1)) * bore, unit)))
    else:
        lines.append(line("left", number(0.5 * bore, unit)))
        lines.append(line("right", number(draw(st.floats(0.3, 0.5)) * bore, unit)))
    if word != "clevis" and draw(st.integers(0, 3)) == 0:
        lines.append(line("bushing", number(1.25 * hole, unit)))
    return lines


@st.composite
def body_mount(draw, word, bore, rod, unit):
    if word in EYES:
        return draw(pin_mount(word, bore, rod, unit))
    if word in ("trunnion", "flange", "foot"):
        places = ["base", "rod end", "middle"]
        return [line("position", f'"{draw(st.sampled_from(places))}"')]
    return []


@st.composite
def rod_mount(draw, word, bore, rod, unit):
    if word in EYES:
        return draw(pin_mount(word, bore, rod, unit))
    return []


@st.composite
def legal_specs(draw, body=None, rod=None, construction=None):
    """One spec file as text; ``body``, ``rod`` and ``construction`` fix mounts and shell."""
    unit = draw(st.sampled_from(["in", "mm"]))
    metric = draw(st.sampled_from([40, 50, 63, 80, 100, 125, 160]))
    inch = draw(st.sampled_from([1.5, 2, 2.5, 3, 3.5, 4, 5, 6]))
    bore = metric if unit == "mm" else inch * 25.4
    thick = draw(st.floats(0.4, 0.7)) * bore
    stroke = draw(st.floats(0.3, 14.0)) * bore
    spare = draw(st.floats(0.0, 3.0)) * bore
    retracted = stroke + 6.5 * bore + 80 + spare
    body = body or draw(st.sampled_from(EYES))
    rod = rod or draw(st.sampled_from(EYES))
    construction = construction or "welded"
    seen = draw(st.sampled_from(["rod", "base"]))
    lines = [
        'title = "Trial"',
        f'units = "{unit}"',
        "[cylinder]",
        line("construction", f'"{construction}"'),
        line("bore", number(bore, unit)),
        line("rod", number(thick, unit)),
        line("clock_seen_from", f'"{seen}"'),
    ]
    pair = draw(
        st.sampled_from(
            [("stroke", "retracted"), ("stroke", "extended"), ("retracted", "extended")]
        )
    )
    sizes = {"stroke": stroke, "retracted": retracted, "extended": retracted + stroke}
    lines += [line(word, number(sizes[word], unit)) for word in pair]
    if draw(st.booleans()):
        lines.append(line("working_pressure", '"140 bar"'))
    if draw(st.integers(0, 4)) == 0:
        lines.append(line("stop_tube", number(0.4 * bore, unit)))
    if construction == "welded":
        kinds = ["threaded", "cap", "bolted", "snap ring", "wire ring"]
        lines.append(line("gland", f'"{draw(st.sampled_from(kinds))}"'))
    lines += ["[body_mount]", line("mount", f'"{body}"')]
    lines += draw(body_mount(body, bore, thick, unit))
    lines += ["[rod_mount]", line("mount", f'"{rod}"')]
    lines += draw(rod_mount(rod, bore, thick, unit))
    if rod in EYES:
        lines.append(line("turned", draw(st.sampled_from(["0", "90", "35"]))))
    ports = PORTS_IN if unit == "in" else PORTS_MM
    if bore < 55:
        ports = ports[:2]
    clocks = CLOCKS if construction == "welded" else SIDE_CLOCKS
    for table in ("base_port", "rod_port"):
        if draw(st.integers(0, 5)):
            lines += [
                f"[{table}]",
                line("thread", f'"{draw(st.sampled_from(ports))}"'),
                line("clock", draw(st.sampled_from(clocks))),
            ]
    lines += ["[drawing]", 'date = "2026-11-25"']
    return "\n".join(lines) + "\n"
