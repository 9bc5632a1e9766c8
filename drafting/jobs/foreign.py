"""Files from elsewhere are read in a child process, with limits of size, time and memory.

A file that carries a spec may have been through any program since, or may be a trap: a parser that
grows without end then ends with its child, and the person is told.
"""

from __future__ import annotations

import json
import pickle
import subprocess
import sys
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path

from drafting.errors import Fault, Refused
from drafting.files import read_regular

LARGEST = 64_000_000
"""Bytes of a file that is looked into."""
SECONDS = 30
FORM = "form"
"""The reader of fields, beside those of each ending."""
MOST_FIELDS, LONGEST = 2_000, 4_000
"""Fields of a form, and letters of one."""
MEMORY = 1_500_000_000
"""Bytes of memory for the child, where the system can limit it (not on Windows)."""
_CHILD = "import sys; sys.path[:] = {path!r}; from drafting.jobs.foreign import serve; serve()"


def carried_text(path: Path) -> str:
    """Give the text that travels in an output; raises Refused in plain words."""
    answer = carried_texts([path])[path]
    if isinstance(answer, Refused):
        raise answer
    return answer


def carried_texts(paths: Sequence[Path]) -> dict[Path, str | Refused]:
    """Give the text that travels in each output, or in plain words why there is none."""
    found: dict[Path, str | Refused] = {}
    ask: dict[Path, bytes] = {}
    for path in paths:
        try:
            ask[path] = _looked_at(path)
        except Refused as refused:
            found[path] = refused
    answers = _answers(ask)
    if len(answers) < len(ask):  # one that ends the child shall not speak for the others
        nothing = {"failed": "damaged"}
        answers = {path: _answers({path: data}).get(path, nothing) for path, data in ask.items()}
    for path, answer in answers.items():
        if failed := answer.get("failed"):
            code, words = _WORDS[failed]
            found[path] = _refused(path, code, words.format(SECONDS))
        else:
            found[path] = answer["text"]
    return {path: found[path] for path in paths}


def form_fields(path: Path) -> dict[str, tuple[str, str]]:
    """Give what stands in each field of a PDF form, and what it asks; raises Refused."""
    answer = _answers({path: _looked_at(path)}, FORM).get(path, {"failed": "damaged"})
    if failed := answer.get("failed"):
        code, words = _NO_FORM if failed == "none" else _WORDS[failed]
        raise _refused(path, code, words.format(SECONDS))
    return {name: (put, asks) for name, put, asks in json.loads(answer["text"])}


def _looked_at(path: Path) -> bytes:
    """Read a file that may be one of our outputs; raises Refused."""
    data = read_regular(path, LARGEST)
    if not data:
        raise _refused(path, "not-readable", "is empty; the file was not written to its end")
    if path.suffix.lower() not in readers():
        known = ", ".join(sorted(r for r in readers() if r != FORM))
        raise _refused(path, "no-such-output", f'"{path.suffix}" is no output; known: {known}')
    return data


def _answers(ask: Mapping[Path, bytes], reader: str = "") -> dict[Path, dict[str, str]]:
    """Let one child read files, each by its ending; nothing of one that it did not come to."""
    if not ask:
        return {}
    late = False
    try:
        said = subprocess.run(
            [sys.executable, "-c", _CHILD.format(path=sys.path)],
            input=pickle.dumps([(reader or p.suffix.lower(), data) for p, data in ask.items()]),
            capture_output=True,
            timeout=SECONDS,
            creationflags=getattr(subprocess, "CREATE_NO_WINDOW", 0),
        ).stdout
    except subprocess.TimeoutExpired as slow:
        said, late = slow.stdout or b"", True
    answers: dict[Path, dict[str, str]] = {}
    for path, line in zip(ask, said.splitlines(), strict=False):
        try:
            answers[path] = json.loads(line)
        except ValueError:  # cut short
            break
    if late and len(ask) == 1 and not answers:
        return {path: {"failed": "late"} for path in ask}
    return answers


_NO_FORM = (
    "no-form",
    "has no fields that are filled in: it was printed to a new file, or is no quote form; the form "
    "itself, saved, is what can be read",
)
_WORDS = {
    "none": ("no-spec", "carries no spec: it was made or saved by another program"),
    "late": (
        "not-readable",
        "could not be read within {} s: it is damaged, or not what it says it is",
    ),
    "locked": ("locked", "is locked with a password; save it without one and try again"),
    "damaged": (
        "not-readable",
        "is damaged or cut short: nothing can be read out of it; try another of the files that "
        "were made with it",
    ),
}


def serve() -> None:
    """Read files from stdin and answer on stdout, a line each: the child's whole life."""
    try:
        import resource

        resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    except (ImportError, ValueError, OSError):
        pass  # the time limit still holds
    orders = pickle.load(sys.stdin.buffer)  # from our own parent; what it holds is bytes
    out, sys.stdout = sys.stdout, sys.stderr  # libraries print what they like
    for suffix, data in orders:
        out.write(json.dumps(_answer(suffix, data)) + "\n")
        out.flush()


def _answer(suffix: str, data: bytes) -> dict[str, str]:
    try:
        text = readers()[suffix](data)
    except Exception as wrong:  # foreign files fail in every way there is
        locked = "decrypt" in type(wrong).__name__.lower() or "password" in str(wrong).lower()
        return {"failed": "locked" if locked else "damaged"}
    return {"failed": "none"} if text is None else {"text": text}


def readers() -> dict[str, Callable[[bytes], str | None]]:
    """Give what reads the text out of each kind of output."""
    from drafting.drawing.write.carry import (
        spec_from_dxf,
        spec_from_pdf,
        spec_from_png,
        spec_from_svg,
    )
    from drafting.solids.carry_step import spec_from_step
    from drafting.told.size_list import spec_from_list

    return {
        ".svg": spec_from_svg,
        ".pdf": spec_from_pdf,
        ".dxf": spec_from_dxf,
        ".step": spec_from_step,
        ".stp": spec_from_step,
        ".glb": _from_glb,
        ".png": spec_from_png,
        ".csv": spec_from_list,
        ".json": _from_json,
        FORM: _from_form,
    }


def _from_form(data: bytes) -> str | None:
    from io import BytesIO

    from pypdf import PdfReader

    found = PdfReader(BytesIO(data)).get_fields() or {}
    rows = [
        (name, str(field.get("/V") or "")[:LONGEST], str(field.get("/TU") or "")[:LONGEST])
        for name, field in list(found.items())[:MOST_FIELDS]
    ]
    return json.dumps(rows) if rows else None


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
