"""The spec that a drawing or a solid was made from, taken back out of the file."""

from __future__ import annotations

from pathlib import Path

from drafting.jobs.foreign import carried_text
from drafting.model.cylinder import Cylinder
from drafting.model.load import checked, load, read
from drafting.spec.bundle import unbundle


def spec_from(path: Path) -> tuple[str, str, str]:
    """Give the spec that travels in an output, and name and text of the company defaults under it.

    The last two are empty where there were none. Raises Refused in plain words.
    """
    return unbundle(carried_text(path))


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
