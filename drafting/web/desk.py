"""What one run of the page works on: a file of the person's own, or none."""

from __future__ import annotations

from hashlib import sha256
from pathlib import Path
from threading import Lock
from typing import Any

MOST = 1_000_000
"""Bytes of a spec."""


class Desk:
    """A file that is read, watched by its mark, and written whole; without one nothing is."""

    def __init__(self, path: Path | None) -> None:
        self.path = path
        self.lock = Lock()

    def text(self) -> str:
        """Give what is in the file; empty where there is none."""
        if self.path is not None and self.path.exists():
            from drafting.files import read_regular

            return read_regular(self.path, MOST).decode("utf-8-sig", "replace")
        return ""

    def state(self) -> dict[str, Any]:
        """Give the file's name, its text, and by what it is known again."""
        text = self.text()
        return {"file": self.path.name if self.path else "", "text": text, "mark": mark(text)}

    def save(self, text: str, seen: str) -> dict[str, Any]:
        """Write the text whole or not at all; nothing where the file is not the one seen."""
        if self.path is None:
            return {"saved": False, "why": "no file was named when the page was started"}
        with self.lock:
            if self.path.exists() and mark(self.text()) != seen:
                return {"saved": False, "why": "changed", **self.state()}
            from drafting.files import write_all

            write_all({self.path: text.encode("utf-8", "surrogatepass")})
        return {"saved": True, **self.state()}


def mark(text: str) -> str:
    """Give by what a text is known again."""
    return sha256(text.encode("utf-8", "surrogatepass")).hexdigest()
