"""What people type for what the format calls otherwise: one small table, and how a value is put.

Case, hyphens, underscores and spaces of a word are one. What the trade says for it is taken and
told back (``Given.understood``); what has two readings is in ``TWO_READINGS`` and stays refused.
Synonyms are common practice.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Any

from drafting.factors import Misread
from drafting.spec.field import Field

SYNONYMS: dict[str, dict[str, str]] = {
    "units": {"in": "inch inches imperial",
              "mm": "millimetre millimeter millimetres millimeters metric"},
    "construction": {"welded": "weld welded-body", "tie rod": "tie-rods"},
    "action": {
        "double": "double-acting",
        "push": "single-acting-push",
        "pull": "single-acting-pull",
    },
    "return": {"spring": "spring-return", "load": "gravity load-return"},
    "gland": {"threaded": "screwed", "bolted": "flanged", "cap": "capped cap-nut"},
    "position": {"rod end": "head head-end rod", "base": "base-end cap-end blind-end"},
    "end": {"rod": "rod-end head head-end", "base": "base-end cap-end blind-end"},
    "facing": {"out": "outward outwards", "rod": "rod-end head-end", "base": "base-end cap-end"},
    "clock_seen_from": {"rod": "rod-end head-end", "base": "base-end cap-end blind-end"},
    "cushions": {"both": "both-ends", "none": "no"},
    "sheet": {"A": "letter ansi-a 8.5x11", "B": "tabloid ledger ansi-b 11x17", "C": "ansi-c 17x22",
              "D": "ansi-d 22x34", "E": "ansi-e 34x44"},
    "projection": {"third": "third-angle", "first": "first-angle"},
}  # fmt: skip
"""By field: what the format calls it, and what else is typed (words apart by hyphens here).

What is said for a mount stands with the mount (``Mount.also``)."""
TWO_READINGS: dict[str, dict[str, tuple[str, ...]]] = {
    "mount": {
        "thread": ("male thread", "female thread"),
        "threaded": ("male thread", "female thread"),
        "lug": ("pin eye", "foot"),
        "lugs": ("pin eye", "foot"),
        "pin": ("pin eye", "clevis", "cross tube"),
    },
    "action": {"single": ("push", "pull"), "singleacting": ("push", "pull")},
}
OTHERWISE = {
    "gland": "; for another kind write the one most like it and type its own sizes, gland_length, "
    "gland_outside and gland_projection, and what it holds, gland_rating"
}
"""By field: what would do for a word that has no place in the format."""
FIELDS = {"cylinder": {"closed": "retracted", "open": "extended"}}
"""By table: what the two lengths are called on the sheet."""
FIELD_HINTS = {
    "collapsed": "retracted",
    "closed_length": "retracted",
    "open_length": "extended",
    "travel": "stroke",
    "tube_od": "barrel_outside",
    "barrel_od": "barrel_outside",
    "od": "barrel_outside",
    "size": "thread",
    "port_size": "thread",
    "type": "thread",
    "orientation": "clock",
    "angle": "clock",
    "bearing": "bushing",
    "slot": "gap",
    "pressure": "working_pressure",
    "max_pressure": "working_pressure",
    "paint": "finish",
}
_ENDINGS = re.compile(r"_?(?:diameter|dia|length|size|thickness|width|od|id)$")
_HOURS = {"top": "12:00", "up": "12:00", "bottom": "6:00", "down": "6:00"}
_OCLOCK = re.compile(r"(1[0-2]|[1-9]) ?o.?clock")
_ROUND = re.compile(r"^\s*(?:[Øø⌀∅]|dia\.?(?= |[0-9.])|diameter )\s*", re.IGNORECASE)
_ROUND_BEHIND = re.compile(r"(?<=[0-9a-z.\"”″]) ?(?:dia(?:meter)?\.?|[Øø⌀])\s*$", re.IGNORECASE)
_THOUSANDS = re.compile(r"\s*([0-9]{1,3}(?:,[0-9]{3})+(?:\.[0-9]+)?) ?(psig?|lbf|lbs?)\.?\s*", re.I)
_POUNDS = re.compile(r"(.*[0-9.]) ?(?:lbs?|pounds?)\.?\s*", re.IGNORECASE)


def key_of(word: str) -> str:
    """Give a word without what people type in different ways."""
    return re.sub(r"[\s_.-]+", "", word.casefold())


def understood(field: Field, raw: Any) -> tuple[Any, str]:
    """Give a typed value as the format has it, and what to tell of it; untouched where it is so.

    Raises Misread for a word with two readings.
    """
    if not isinstance(raw, str):
        return raw, ""
    if field.kind == "word":
        return meant_word(field, raw)
    if field.kind == "word or length":
        word, told = meant_word(field, raw)
        if word in field.choices:
            return word, told
    if field.kind == "clock":
        return _clock(raw)
    if field.kind in ("length", "word or length", "pair or length"):
        bare = _ROUND_BEHIND.sub("", _ROUND.sub("", raw))
        return (bare, "") if bare != raw and bare[:1] in "0123456789.½¼¾⅛⅜⅝⅞" else (raw, "")
    if field.kind in ("force", "pressure"):
        return _quantity(field, raw)
    if field.kind == "count" and re.fullmatch(r"\s*[0-9]{1,9}\s*", raw):
        return int(raw), ""
    return raw, ""


def hinted(word: str, known: Iterable[str]) -> list[str]:
    """Give the known field that a word means by itself or without ``_diameter`` and the like."""
    names = tuple(known)
    plain = re.sub(r"[\s-]+", "_", word.casefold())
    meant = FIELD_HINTS.get(plain, "")
    return [n for n in (meant, plain, _ENDINGS.sub("", plain)) if n and n in names][:1]


def meant_word(field: Field, raw: str) -> tuple[str, str]:
    """Give the word of a field that is meant, and what to tell; raises Misread for two readings."""
    key, words = key_of(raw), field.choices
    same = next((w for w in words if key_of(w) == key), None)
    if same is not None:
        return same, ""
    table = SYNONYMS.get(field.name, {})
    also = [*field.also, *((other, w) for w, others in table.items() for other in others.split())]
    for other, word in also:
        if word in words and key == key_of(other):
            return word, f'"{raw}" is taken as "{word}"'
    two = [w for w in TWO_READINGS.get(field.name, {}).get(key, ()) if w in words]
    if len(two) > 1:
        meant = " or ".join(f'"{w}"' for w in two)
        raise Misread("two-readings", f'found "{raw}", which can be read as {meant}; write which')
    return raw, ""


def _clock(raw: str) -> tuple[str, str]:
    text = " ".join(raw.casefold().split())
    hour = _OCLOCK.fullmatch(text)
    if hour:
        return f"{hour[1]}:00", ""
    if text in _HOURS:
        return _HOURS[text], f'"{raw}" is taken as {_HOURS[text]}'
    if text in ("left", "right"):
        raise Misread(
            "two-readings",
            f'found "{raw}", which is 3 or 9 o\'clock by the end that one looks from; write the '
            'hour, and clock_seen_from = "rod" or "base"',
        )
    return raw, ""


def _quantity(field: Field, raw: str) -> tuple[str, str]:
    """Take commas between thousands in US units, and a pound as a force; told back."""
    notes = []
    thousands = _THOUSANDS.fullmatch(raw)
    text = raw
    if thousands:
        text = f"{thousands[1].replace(',', '')} {thousands[2]}"
        notes.append(f'the comma in "{raw.strip()}" is taken as one between thousands')
    pounds = _POUNDS.fullmatch(text) if field.kind == "force" else None
    if pounds:
        text = f"{pounds[1]} lbf"
        notes.append(f'"{raw.strip()}" is taken as pounds of force (lbf)')
    return text, "; ".join(notes)
