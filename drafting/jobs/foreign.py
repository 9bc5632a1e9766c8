"""Files from elsewhere are read in a child process, with limits of size, time and memory.

A file that carries a spec may have been through any program since, or may be a trap: a parser that
grows without end then ends with its child, and the person is told.
"""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

from drafting.errors import Fault, Refused
from drafting.files import read_regular

LARGEST = 64_000_000
"""Bytes of a file that is looked into."""
SECONDS = 30
MEMORY = 1_500_000_000
"""Bytes of memory for the child, where the system can limit it (not on Windows)."""
_CHILD = "import sys; sys.path[:] = {path!r}; from drafting.jobs.foreign import serve; serve()"


def carried_text(path: Path) -> str:
    """Give the text that travels in an output; raises Refused in plain words."""
    data = read_regular(path, LARGEST)
    if not data:
        raise _refused(path, "not-readable", "is empty; the file was not written to its end")
    suffix = path.suffix.lower()
    if suffix not in readers():
        known = ", ".join(sorted(readers()))
        raise _refused(path, "no-such-output", f'"{path.suffix}" is no output; known: {known}')
    try:
        done = subprocess.run(
            [sys.executable, "-c", _CHILD.format(path=sys.path), suffix],
            input=data,
            capture_output=True,
            timeout=SECONDS,
            creationflags=getattr(subprocess, "CREATE_NO_WINDOW", 0),
        )
    except subprocess.TimeoutExpired:
        message = f"could not be read within {SECONDS} s: it is damaged, or not what it says it is"
        raise _refused(path, "not-readable", message) from None
    try:
        answer = json.loads(done.stdout)
    except ValueError:
        answer = {"failed": "damaged"}
    if isinstance(answer.get("text"), str):
        return str(answer["text"])
    raise _refused(path, *_WORDS[answer.get("failed", "damaged")])


_WORDS = {
    "none": ("no-spec", "carries no spec: it was made or saved by another program"),
    "locked": ("locked", "is locked with a password; save it without one and try again"),
    "damaged": (
        "not-readable",
        "is damaged or cut short: nothing can be read out of it; try another of the files that "
        "were made with it",
    ),
}


def serve() -> None:
    """Read one file from stdin and answer on stdout: the child's whole life."""
    try:
        import resource

        resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    except (ImportError, ValueError, OSError):
        pass  # the time limit still holds
    data = sys.stdin.buffer.read()
    out, sys.stdout = sys.stdout, sys.stderr  # libraries print what they like
    answer: dict[str, str]
    try:
        text = readers()[sys.argv[1]](data)
        answer = {"failed": "none"} if text is None else {"text": text}
    except Exception as wrong:  # foreign files fail in every way there is
        locked = "decrypt" in type(wrong).__name__.lower() or "password" in str(wrong).lower()
        answer = {"failed": "locked" if locked else "damaged"}
    out.write(json.dumps(answer))
    out.flush()


def readers() -> dict[str, Callable[[bytes], str | None]]:
    """Give what reads the text out of each kind of output."""
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
    from drafting.spec.bundle import bundle

    cylinders = json.loads(data).get("cylinders", [])
    text, shop = (cylinders[0].get(k) if cylinders else None for k in ("spec_text", "shop_text"))
    if not isinstance(text, str):
        return None
    return bundle(text, str(cylinders[0].get("shop_file")), shop) if shop else text


def _refused(path: Path, code: str, message: str) -> Refused:
    return Refused([Fault(str(path), 1, 1, code, "", message)])
