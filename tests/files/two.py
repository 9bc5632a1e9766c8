"""Two files to write, and what a folder holds."""

from __future__ import annotations

from pathlib import Path


def listing(folder: Path) -> dict[str, bytes]:
    return {str(p.relative_to(folder)): p.read_bytes() for p in folder.rglob("*") if not p.is_dir()}


def two(folder: Path, word: bytes = b"new") -> dict[Path, bytes]:
    return {folder / "a.dxf": word + b" a", folder / "b.step": word + b" b"}
