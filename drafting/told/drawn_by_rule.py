"""The sizes that nobody gave, each with a reason of a few words; the whole one is in the report."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Sequence

from drafting.model.cylinder import Cylinder
from drafting.model.pins.details import pin_details
from drafting.model.ports.knobs import CUSHION_SCREW
from drafting.told.data_sheet import Ruled
from drafting.told.facts import elsewhere
from drafting.told.held import FIELDS, label_of
from drafting.told.ports_said import port_names
from drafting.told.printed import printed

_BOTH_WAYS = ("12:00", "6:00")
"""Hours that read the same from either end."""
LONGEST = 22
"""Characters of a reason on the sheet."""
SHORT = (
    ("gave way", "gave way to fit"),
    ("left over", "what is left"),
    ("rod bush shows", "rod bush shows"),
    ("before the length closed", "1/4 of the full gland"),
    ("of the bore is less", "the usual least"),
    ("as its port needs", "as its port needs"),
    ("as its trunnion needs", "as trunnion needs"),
    ("as its foot needs", "as foot needs"),
    ("and port beside it", "for mount and port"),
    ("1.8 of the bushing", "1.8 of the bushing"),
    ("1.8 of the hole", "1.8 of the hole"),
    ("twice the nose", "twice the nose"),
    ("0.35 of the bore", "0.35 of bore"),
    ("0.25 of the bore", "0.25 of bore"),
    ("0.9 of the bore", "0.9 of bore"),
    ("0.7 of the bore", "0.7 of bore"),
    ("0.13 of the bore", "0.13 of bore"),
    ("a quarter of the gland", "1/4 of gland"),
    ("half of the least that the gland", "half of least gland"),
    ("take the tap drill", "tap drill depth"),
    ("take bolt holes", "bolt hole depth"),
    ("as wide as the spotface", "spotface"),
    ("widest that the seat takes", "widest that fits"),
    ("pattern with a rim", "bolts with a rim"),
    ("side of the head or cap", "in head or cap"),
    ("side free of ports", "side free of ports"),
    ("half of outside", "half of outside"),
    ("throat plus the thread", "throat and thread"),
    ("throat plus a web", "throat and web"),
    ("hole and thread in the eye", "hole and thread"),
    ("stands against the plate", "against the plate"),
    ("heaviest tube", "heaviest stock tube"),
    ("lightest tube", "lightest, factor 4"),
    ("0.1 of the bore", "wall 0.1 of bore"),
    ("a cap one barrel wall", "one wall thick"),
    ("as large as the barrel", "as barrel"),
    ("room for a circle of bolts", "barrel and bolts"),
    ("gland lies inside", "inside the barrel"),
    ("rod bush 1.5", "1.5 of rod"),
    ("a boss of 1.5", "1.5 of pin"),
    ("a jam nut 0.55", "0.55 of thread"),
    ("1.25 of the thread engaged", "1.25 of thread"),
    ("over the ears, with end", "ears and end play"),
    ("at least ISO 2341", "ISO 2341 or more"),
    ("short of ISO 2341", "short of ISO 2341"),
    ("at least 0.16 of the pin", "0.16 of pin or more"),
    ("short of 0.16 of the pin", "short of 0.16 of pin"),
    ("at least the hole's own", "one hole or more"),
    ("short of the hole's own", "short of one hole"),
    ("ISO 2341", "ISO 2341"),
    ("ISO 1234", "ISO 1234"),
    ("ASME B18.8.1", "ASME B18.8.1"),
    ("machine's ears are not known", "ears of 0.6 of pin"),
    ("the typed length leaves", "what is left"),
    ("keeps the pin in with its end", "head, grip, ends"),
    ("a plate 0.2 of the pin", "0.2 of pin"),
    ("0.2 of the bore", "0.2 of bore"),
    ("half of the bore, at least three holes", "half of bore, 3 holes"),
    ("bolts plus 1.5 holes", "1.5 holes to edge"),
    ("tie rods clear the tube", "tie rods clear tube"),
    ("0.2 of the ball all round", "ring of 0.2 of ball"),
    ("ball and thread in the ring", "ball and thread"),
    ("as the bar is high", "as the bar is high"),
    ("port tube clears", "tube clears barrel"),
    ("holes and 1.5 holes", "1.5 holes to edge"),
    ("less 1.5 holes", "1.5 holes to edge"),
    ("heads clear of the barrel", "clear of barrel"),
    ("thread runs to the shoulder", "to the shoulder"),
    ("the bearing of this hole", "bearing for this hole"),
)
"""What a reason says somewhere, and how the sheet says it; empty: the report has it."""
_WORDS = {
    "boss": "boss Ø",
    "rod_stick_out": "rod stick-out",
    "tie_rod_diameter": "tie rod Ø",
    "barrel_outside": "barrel OD",
    "gland_outside": "gland OD",
    "breather": "breather Ø",
    "nut_recess": "nut recess Ø",
    "tie_rod_stand_out": "tie rods stand out",
    "jam_nut_thickness": "jam nut thickness",
    "diameter": "Ø",
    "head_diameter": "head Ø",
    "head_height": "head height",
    "from_closed_end": "closed end to datum",
    "hole_to_end": "hole to end",
}
_CODE = re.compile(r"[_/\\\[\]]|\.(?![0-9])")
"""A place in a file or a field's name, which no customer's paper shows."""
_PAD = "pad along"
"""What a flange port has for a boss: bolts and a rim."""
_PLACES = {
    "cylinder": "",
    "body_mount": "base",
    "rod_mount": "rod",
    "base_port": "base port",
    "rod_port": "rod port",
    "body_pin": "base pin",
    "rod_pin": "rod pin",
}
_PAIRS = {
    ("base", "rod"): "",
    ("body", "rod"): "",
    ("base port", "rod port"): "port ",
    ("base port 2", "rod port 2"): "port 2, ",
    ("base pin", "rod pin"): "pin ",
}


def drawn_by_rule(
    c: Cylinder, dimensions: str, fractions: int, said: Collection[str]
) -> tuple[Ruled, ...]:
    """Give the derived sizes that no other list has ``said``; what two places share is one row."""
    rows: dict[tuple[str, float, str], list[str]] = {}
    for v in c.values:
        if v.origin not in ("derived", "table") or v.unit != "mm" or v.name in said:
            continue
        if isinstance(v.value, float) and v.value:
            key = (_field(c, v.name), round(v.value, 6), short_reason(v.why))
            rows.setdefault(key, []).append(v.name)
    pins = (w for pin in pin_details(c.pins) for w in pin.wishes)
    drawn = {w.name for w in (*c.wishes, *pins)}  # the drawing says these as they are
    out = []
    for (field, size, reason), names in rows.items():
        number, _ = printed(names[0], size, dimensions, fractions, rough=drawn.isdisjoint(names))
        out.append(Ruled(tuple(names), _label(c, names, field), number, reason))
    return (*out, *_screws(c), *_port_bolts(c))


def _screws(c: Cylinder) -> Iterator[Ruled]:
    """Give the hours of the cushion screws, each end's where they differ, and from which side."""
    v = c.value(f"cylinder.{CUSHION_SCREW}")
    if v is None:
        return
    side = c.spec.word("cylinder.clock_seen_from") or "rod"
    both = "2x " * (c.action.cushions == "both")
    for words in str(v.value).split(", "):
        end, each, at = words.rpartition(" end ")
        label = f"{end} cushion screw" if each else f"{both}cushion screw"
        reason = short_reason(v.why) if at in _BOTH_WAYS else f"seen from {side}"
        yield Ruled((v.name,), label[:1].upper() + label[1:], at, reason)


def _port_bolts(c: Cylinder) -> Iterator[Ruled]:
    """Say how the bolts of flange ports lie: where there is no pad no size tells."""
    names = tuple(f"{p.table}.bolts" for p in c.ports if p.thread.is_flange)
    if names:
        yield Ruled(names, "Port bolts, long pitch", "along", "the cylinder's axis")


def short_reason(why: str) -> str:
    """Give a reason in at most ``LONGEST`` characters, or none: then the report has it."""
    for part, words in SHORT:
        if part in why:
            return words
    return why if len(why) <= LONGEST and not _CODE.search(why) else ""


def size_label(c: Cylinder, name: str) -> str:
    """Give a size's name as a person says it."""
    return _label(c, [name], _field(c, name))


def _field(c: Cylinder, name: str) -> str:
    table, _, field = name.partition(".")
    if table in ("body_mount", "rod_mount"):
        if field == "thickness":  # beside it stands the thickness of the base cap
            return "plate thickness"
        words = dict(FIELDS).get(field)
        if words:
            label = label_of(c, table.partition("_")[0], field, words)
            if label.startswith("Boss "):  # which no other mount has, wherever it stands
                return f"{c.mounts[table.partition('_')[0]]} boss Ø"
            return label[:1].lower() + label[1:]
    tubes = {p.table: p.part for p in c.ports if p.sizes.facing != "out"}
    if field == "height" and table in tubes:
        return f"axis off {tubes[table]}"
    if field == "boss" and any(p.table == table and p.thread.is_flange for p in c.ports):
        return _PAD
    return _WORDS.get(field, field.replace("_", " ").replace(".", " "))


def _label(c: Cylinder, names: Sequence[str], field: str) -> str:
    alone = ("closed end", "rod end", "mount's face", " boss Ø")
    if field.endswith(alone) or field.startswith("jam nut"):
        return field[:1].upper() + field[1:]
    places = tuple(p for n in names if (p := _place(c, n.partition(".")[0])))
    if places in _PAIRS:
        label = f"2x {_PAIRS[places]}{field}"
    elif len(places) > 2:
        label = f"{len(places)}x {'port ' * all('port' in p for p in places)}{field}"
    else:
        label = f"{' and '.join(places)} {field}".strip()
    return label[:1].upper() + label[1:]


def _place(c: Cylinder, table: str) -> str:
    if table.startswith("extra_port["):
        names = port_names(c)
        _, _, short = names[table].partition(" ")  # "port 2" will do where the other end has none
        alone = sum(other.endswith(short) for other in names.values()) == 1
        return short if alone else names[table].lower()
    if table == "body_mount" and elsewhere(c):
        return "body"
    return _PLACES.get(table, table.replace("_", " "))
