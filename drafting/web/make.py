"""What the page makes of a spec's text to be taken away, and what it takes in."""

from __future__ import annotations

from pathlib import Path
from tempfile import TemporaryDirectory

from drafting.errors import Fault, Refused
from drafting.web.look import loaded

KINDS = (".toml", ".svg", ".pdf", ".dxf", ".step", ".stp", ".glb", ".png", ".csv", ".html", ".json")
"""Endings of what can be opened."""


def drawn(text: str, word: str) -> tuple[str, bytes]:
    """Give the file of a format, or a ZIP where there are several: its name and its bytes."""
    from drafting.asking.package import zipped
    from drafting.jobs.draw import How, draw_cylinder
    from drafting.solids.beside import keep

    keep()
    c = loaded(text)
    files = dict(draw_cylinder(c, How((word,))).files)
    if len(files) == 1:
        return next(iter(files.items()))
    return f"{c.name}-{word}.zip", zipped(files)


def package(text: str) -> tuple[str, bytes]:
    """Give what is sent to builders, as a ZIP."""
    from drafting.jobs.request import package as packed
    from drafting.jobs.request import requests

    made = [(d.cylinder.name, files) for d, files in requests([loaded(text)])]
    whole = packed(made)
    return whole.name, whole.data


def opened(name: str, data: bytes) -> str:
    """Give the spec in a file that was dropped; raises Refused in plain words.

    It is read in a child with limits, out of a folder of its own; its name gives the ending alone.
    """
    ending = next((k for k in KINDS if name.lower().endswith(k)), "")
    if not ending:
        known = ", ".join(KINDS)
        raise Refused([Fault(name[:80], 1, 1, "no-such-output", "", f"no ending of {known}")])
    if ending == ".toml":
        from drafting.spec.read import read_document

        return read_document(data, name[:80]).text
    from drafting.jobs.recover import spec_from

    with TemporaryDirectory(prefix="drafting-") as folder:
        path = Path(folder) / f"dropped{ending}"
        path.write_bytes(data)
        try:
            return spec_from(path).text
        except Refused as refused:
            told = [f"{f.code}: {f.message}" for f in refused.faults]
            raise Refused([Fault(name[:80], 1, 1, "not-readable", "", "; ".join(told))]) from None
