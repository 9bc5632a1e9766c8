"""The spec that a drawing or a solid was made from, taken back out of the file."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

from drafting.errors import Fault, Refused
from drafting.model.cylinder import Cylinder
from drafting.model.load import checked, load, read
from drafting.spec.bundle import bundle, unbundle


def spec_from(path: Path) -> tuple[str, str, str]:
    """Give the spec that travels in an output, and name and text of the company defaults under it.

    The last two are empty where there were none. Raises Refused in plain words.
    """
    try:
        data = path.read_bytes()
    except OSError as wrong:
        raise _refused(path, "not-readable", f"cannot be read: {wrong.strerror}") from wrong
    reader = _readers().get(path.suffix.lower())
    if reader is None:
        known = ", ".join(sorted(_readers()))
        raise _refused(path, "no-such-output", f'"{path.suffix}" is no output; known: {known}')
    try:
        text = reader(data)
    except Exception as wrong:
        raise _refused(path, "not-readable", f"is damaged ({wrong})") from wrong
    if text is None:
        raise _refused(path, "no-spec", "carries no spec: it was made or saved by another program")
    return unbundle(text)


def _readers() -> dict[str, Callable[[bytes], str | None]]:
    from drafting.drawing.write.carry import spec_from_dxf, spec_from_pdf, spec_from_svg
    from drafting.solids.carry_step import spec_from_step

    return {
        ".svg": spec_from_svg,
        ".pdf": spec_from_pdf,
        ".dxf": spec_from_dxf,
        ".step": spec_from_step,
        ".stp": spec_from_step,
        ".glb": _from_glb,
        ".json": _from_json,
    }


def _from_glb(data: bytes) -> str | None:
    from drafting.solids.write_glb import read_glb_json

    text = read_glb_json(data).get("asset", {}).get("extras", {}).get("spec_text")
    return text if isinstance(text, str) else None


def _from_json(data: bytes) -> str | None:
    cylinders = json.loads(data).get("cylinders", [])
    text, shop = (cylinders[0].get(k) if cylinders else None for k in ("spec_text", "shop_text"))
    if not isinstance(text, str):
        return None
    return bundle(text, str(cylinders[0].get("shop_file")), shop) if shop else text


def _refused(path: Path, code: str, message: str) -> Refused:
    return Refused([Fault(str(path), 1, 1, code, "", message)])


def older(path: Path, shop: str | None = None) -> Cylinder:
    """Load the older drawing: a spec file, or any output that carries its spec; raises Refused."""
    if path.suffix.lower() == ".toml":
        return load(read(str(path), shop))
    text, shop_file, shop_text = spec_from(path)
    spec = checked(text.encode("utf-8", "surrogatepass"), str(path))
    if shop_text:
        from drafting.spec.shop import read_shop, under

        spec = under(spec, *read_shop(shop_text.encode("utf-8", "surrogatepass"), shop_file))
    return load(spec)
