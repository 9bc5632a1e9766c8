"""Files from elsewhere are read in a child process, with limits of size, time and memory.

A file that carries a spec may have been through any program since, or may be a trap: a parser that
grows without end then ends with its child, and the person is told.
"""

from __future__ import annotations

import json
import pickle
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from drafting.apart import TooLate, in_child, limit_memory
from drafting.errors import Fault, Refused
from drafting.files import read_regular
from drafting.jobs.carriers import cut_short, readers, specs_in
from drafting.jobs.in_sight import spec_in_sight
from drafting.spec.bundle import Carried

LARGEST = 64_000_000
"""Bytes of a file that is looked into."""
SECONDS = 30
FORM = "form"
"""The reader of fields, beside those of each ending."""
MOST_FIELDS, LONGEST = 2_000, 4_000
"""Fields of a form, and letters of one."""


def carried(path: Path) -> tuple[Carried, ...]:
    """Give every spec that travels in an output; raises Refused in plain words."""
    answer = _carried([path])[path]
    if isinstance(answer, Refused):
        raise answer
    return answer


def carried_texts(paths: Sequence[Path]) -> dict[Path, str | Refused]:
    """Give the one text that travels in each output, or in plain words why there is none.

    A file that is as we wrote it needs no parser and so no child.
    """
    open_ = {path: _in_sight(path) for path in paths}
    parsed = _carried([path for path, text in open_.items() if text is None])
    return {
        path: text if text is not None else _the_one(path, parsed[path])
        for path, text in open_.items()
    }


def _in_sight(path: Path) -> str | None:
    try:
        return spec_in_sight(path.suffix.lower(), read_regular(path, LARGEST))
    except Refused:  # it will be told by whoever looks closer
        return None


def _the_one(path: Path, answer: tuple[Carried, ...] | Refused) -> str | Refused:
    if isinstance(answer, Refused):
        return answer
    if len(answer) == 1:
        return answer[0].text
    return _refused(path, "several", f"carries the specs of {len(answer)} drawings")


def _carried(paths: Sequence[Path]) -> dict[Path, tuple[Carried, ...] | Refused]:
    found: dict[Path, tuple[Carried, ...] | Refused] = {}
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
            if failed in ("none", "damaged") and cut_short(path.suffix.lower(), ask[path]):
                failed = "short"
            code, words = _WORDS[failed]
            found[path] = _refused(path, code, words.format(SECONDS))
        else:
            found[path] = tuple(Carried(*pair) for pair in answer["specs"])
    return {path: found[path] for path in paths}


def form_fields(path: Path) -> dict[str, tuple[str, str]]:
    """Give what stands in each field of a PDF form, and what it asks; raises Refused."""
    answer = _answers({path: _looked_at(path)}, FORM).get(path, {"failed": "damaged"})
    if failed := answer.get("failed"):
        code, words = _NO_FORM if failed == "none" else _WORDS[failed]
        raise _refused(path, code, words.format(SECONDS))
    return {name: (put, asks) for name, put, asks in answer["fields"]}


def _looked_at(path: Path) -> bytes:
    """Read a file that may be one of our outputs; raises Refused."""
    data = read_regular(path, LARGEST)
    if not data:
        raise _refused(path, "empty", f"is empty: it was never written, or not copied; {_AGAIN}")
    if path.suffix.lower() not in readers():
        known = ", ".join(sorted(readers()))
        raise _refused(path, "no-such-output", f'"{path.suffix}" is no output; known: {known}')
    return data


def _answers(ask: Mapping[Path, bytes], reader: str = "") -> dict[Path, dict[str, Any]]:
    """Let one child read files, each by its ending; nothing of one that it did not come to."""
    if not ask:
        return {}
    late = False
    orders = pickle.dumps([(reader or p.suffix.lower(), data) for p, data in ask.items()])
    try:
        said = in_child(__name__, orders, SECONDS)
    except TooLate as slow:
        said, late = slow.said, True
    answers: dict[Path, dict[str, Any]] = {}
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
_AGAIN = "copy it again from where it came, or take another of the files that were made with it"
_WORDS = {
    "none": (
        "no-spec",
        "carries no spec: it was made by another program, or one that saved it dropped the spec; "
        "take another of the files that were made with it. The data sheet has at its foot the "
        "beginning of the input_sha256 that stands in their JSON",
    ),
    "late": (
        "not-readable",
        "could not be read within {} s: it is damaged, or not what it says it is; " + _AGAIN,
    ),
    "locked": (
        "locked",
        "is locked with a password; open it, save it without one, and try again with that",
    ),
    "short": ("cut-short", "is cut short: its end is missing; " + _AGAIN),
    "damaged": ("not-readable", "is damaged: nothing can be read out of it; " + _AGAIN),
}


def serve() -> None:
    """Read files from stdin and answer on stdout, a line each: the child's whole life."""
    limit_memory()
    orders = pickle.load(sys.stdin.buffer)  # from our own parent; what it holds is bytes
    out, sys.stdout = sys.stdout, sys.stderr  # libraries print what they like
    for suffix, data in orders:
        out.write(json.dumps(_answer(suffix, data)) + "\n")
        out.flush()


def _answer(reader: str, data: bytes) -> dict[str, Any]:
    try:
        if reader == FORM:
            fields = _fields(data)
            return {"fields": fields} if fields else {"failed": "none"}
        specs = [(c.text, c.sha256) for c in specs_in(reader, data)]
    except Exception as wrong:  # foreign files fail in every way there is
        words = f"{type(wrong).__name__} {wrong}".lower()
        locked = any(word in words for word in ("crypt", "password"))
        return {"failed": "locked" if locked else "damaged"}
    return {"specs": specs} if specs else {"failed": "none"}


def _fields(data: bytes) -> list[tuple[str, str, str]]:
    from io import BytesIO

    from pypdf import PdfReader

    found = PdfReader(BytesIO(data)).get_fields() or {}
    return [
        (name, str(field.get("/V") or "")[:LONGEST], str(field.get("/TU") or "")[:LONGEST])
        for name, field in list(found.items())[:MOST_FIELDS]
    ]


def _refused(path: Path, code: str, message: str) -> Refused:
    return Refused([Fault(str(path), 1, 1, code, "", message)])
