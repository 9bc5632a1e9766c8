"""The spec that a drawing or a solid was made from, taken back out of the file."""

from __future__ import annotations

import tomllib
from collections.abc import Sequence
from pathlib import Path

from drafting.errors import Fault, Refused
from drafting.jobs.foreign import carried
from drafting.model.cylinder import Cylinder
from drafting.model.load import checked, load, read
from drafting.spec.bundle import Carried, unbundle


def spec_from(path: Path, name: str = "") -> Carried:
    """Give the spec that travels in an output, with the company defaults under it.

    Where there are several, ``name`` is the number or the title of the one that is meant; raises
    Refused with all of them where it names none. Raises Refused in plain words for other files.
    """
    specs = carried(path)
    names = [titled(c.text) for c in specs]
    if not name and len(specs) == 1:
        return specs[0]
    wanted = name.casefold().strip()
    meant = [
        c for c, own in zip(specs, names, strict=True) if wanted in {w.casefold() for w in own if w}
    ]
    if len(meant) == 1:
        return meant[0]
    raise Refused(
        [Fault(str(path), 1, 1, "several", "--name" if name else "", _which(name, names))]
    )


def _which(name: str, names: Sequence[tuple[str, str]]) -> str:
    known = "; ".join(f'{number or "no number"} "{title}"' for title, number in names)
    many = f"carries the specs of {len(names)} drawings" if len(names) > 1 else "carries one spec"
    asked = f'none or more than one is "{name}"; ' if name else ""
    return f"{many}: {known}; {asked}say which with --name NUMBER, or its title"


def titled(text: str) -> tuple[str, str]:
    """Give title and number of a spec that a file carries, empty where there is none."""
    try:
        data = tomllib.loads(unbundle(text)[0].lstrip("\ufeff"))
    except (ValueError, RecursionError):
        return "", ""
    return str(data.get("title", "")), str(data.get("number", ""))


def older(path: Path, shop: str | None = None, number: str = "") -> Cylinder:
    """Load the older drawing: a spec file, or any output that carries its spec; raises Refused.

    Of several that a file carries, the one of that ``number`` is taken.
    """
    if path.suffix.lower() == ".toml":
        return load(read(str(path), shop))
    several = number and len(carried(path)) > 1
    text, shop_file, shop_text = unbundle(spec_from(path, number if several else "").text)
    spec = checked(text.encode("utf-8", "surrogatepass"), str(path))
    if shop_text:
        from drafting.spec.shop import read_shop, under

        spec = under(spec, *read_shop(shop_text.encode("utf-8", "surrogatepass"), shop_file))
    return load(spec)
