"""How the specs that travel in a file are found, for each kind of file."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Sequence

from drafting.spec.bundle import Carried, bundle

_STATED = re.compile(
    rb"(?:input_sha256[\s\"':=\0]{0,20}(?:9\s{1,9}\$CUSTOMPROPERTY\s{1,9}1\s{1,9})?"
    rb"|SHA-256 of the input: )([0-9a-f]{64})"
)
"""How the files state the hash; DXF has a tag of its own for the value."""
_ENDS = {
    ".pdf": b"%%EOF",
    ".svg": b"</svg>",
    ".html": b"</html>",
    ".dxf": b"EOF",
    ".step": b"END-ISO-10303-21;",
    ".stp": b"END-ISO-10303-21;",
    ".png": b"IEND",
    ".json": b"}",
}
"""What stands in the last bytes of a whole file."""
_TAIL = 1024


def specs_in(suffix: str, data: bytes) -> Sequence[Carried]:
    """Give every spec that travels in a file; a file may be damaged in every way there is."""
    return readers()[suffix](data)


def cut_short(suffix: str, data: bytes) -> bool:
    """Tell whether the end of a file is missing."""
    if suffix == ".glb":
        return len(data) < 12 or len(data) < int.from_bytes(data[8:12], "little")
    return suffix in _ENDS and _ENDS[suffix] not in data[-_TAIL:]


def readers() -> dict[str, Callable[[bytes], Sequence[Carried]]]:
    """Give what reads each kind of output."""
    from drafting.drawing.write.carry import (
        spec_from_dxf,
        spec_from_png,
        spec_from_svg,
        specs_from_pdf,
    )
    from drafting.solids.carry_step import spec_from_step
    from drafting.told.size_list import spec_from_list
    from drafting.viewing.one_file import spec_from_html

    def one(read: Callable[[bytes], str | None]) -> Callable[[bytes], Sequence[Carried]]:
        def carried(data: bytes) -> Sequence[Carried]:
            text = read(data)
            return () if text is None else (Carried(text, _stated(data)),)

        return carried

    return {
        ".svg": one(spec_from_svg),
        ".pdf": specs_from_pdf,
        ".dxf": one(spec_from_dxf),
        ".step": one(spec_from_step),
        ".stp": one(spec_from_step),
        ".glb": one(_from_glb),
        ".png": one(spec_from_png),
        ".csv": one(spec_from_list),
        ".html": one(spec_from_html),
        ".json": _from_json,
    }


def _stated(data: bytes) -> str:
    found = _STATED.search(data)
    return found[1].decode() if found else ""


def _from_glb(data: bytes) -> str | None:
    from drafting.solids.write_glb import read_glb_json

    text = read_glb_json(data).get("asset", {}).get("extras", {}).get("spec_text")
    return text if isinstance(text, str) else None


def _from_json(data: bytes) -> Sequence[Carried]:
    found = []
    for row in json.loads(data).get("cylinders", []):
        text, shop = row.get("spec_text"), row.get("shop_text")
        if isinstance(text, str):
            whole = bundle(text, str(row.get("shop_file")), shop) if shop else text
            found.append(Carried(whole, str(row.get("input_sha256") or "")))
    return found
