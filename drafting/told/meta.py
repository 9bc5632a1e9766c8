"""What every file says of itself: title, tool, hash, and the spec that travels along."""

from __future__ import annotations

from pathlib import Path

from drafting.model.cylinder import Cylinder
from drafting.spec.given import Spec
from drafting.told.rows import TOOL


def meta(c: Cylinder) -> dict[str, str]:
    """Give what every file says of itself."""
    spec = c.spec
    words = {
        "title": spec.word("title") or "",
        "number": spec.word("number") or c.name,
        "revision": spec.word("revision") or "",
        "tool": TOOL,
        "spec_text": carried_text(spec),
        "input_sha256": spec.sha256,
        "date": _date(c),
    }
    words["revision_note"] = spec.word("revision_note") or ""
    for name in ("company", "drawn_by", "customer", "general_tolerance"):
        words[name] = spec.word(f"drawing.{name}") or ""
    return words


def carried_text(spec: Spec) -> str:
    """Give the text that travels in every file: the spec, with the company defaults behind it."""
    if spec.shop is None:
        return spec.text
    from drafting.spec.bundle import bundle

    return bundle(spec.text, Path(spec.shop.file).name, spec.shop.text)


def without_folders(spec: Spec, text: str) -> str:
    """Take the folders of the person's own machine out of words that name the spec or its shop."""
    for path in (spec.file, spec.shop.file if spec.shop else ""):
        base = path.replace("\\", "/").rpartition("/")[2]
        if base != path:
            text = text.replace(path, base)
    return text


def logo(spec: Spec) -> tuple[str, str] | None:
    """Give viewBox and path of the logo."""
    found = [spec.word(f"drawing.logo.{n}") for n in ("viewbox", "path")]
    return (found[0], found[1]) if found[0] and found[1] else None


def _date(c: Cylinder) -> str:
    """The spec's date, else SOURCE_DATE_EPOCH, else none: equal input gives equal bytes."""
    import os
    from datetime import UTC, datetime

    typed = c.spec.word("drawing.date")
    if typed:
        return typed
    epoch = os.environ.get("SOURCE_DATE_EPOCH", "")
    return datetime.fromtimestamp(int(epoch), UTC).date().isoformat() if epoch.isdigit() else ""
