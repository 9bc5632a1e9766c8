"""A spec file as bytes -> TOML data, and the place of every value in it."""

from __future__ import annotations

import re
import tomllib
from decimal import Decimal
from hashlib import sha256
from pathlib import Path
from typing import Any

from drafting.errors import Fault, Refused
from drafting.records import dataclass
from drafting.spec.content import STDIN, decoded, loaded
from drafting.spec.places import Path as Keys
from drafting.spec.places import Place, find_places

DEEPEST = 4
"""Tables of a spec nest at most this deep; of a machine file, whose loads have tables, deeper."""
LONGEST_LINE = 10_000
"""A line has at most this many characters; the parser's time grows with their square."""
_LONG_KEY = re.compile(r"""(?:\.\s{0,9}["']?[\w-]{1,80}["']?\s{0,9}){20}""")
"""A key of so many parts is no spec's; the parser's time grows with their square."""
_MOST_SLIPS = 30
_MENDABLE = 100_000
"""Only the first slip is told of a larger text: it is read anew after each."""


@dataclass(frozen=True, slots=True)
class Document:
    """What a file says, before any field is judged. ``faults`` are lines that TOML cannot read."""

    file: str
    text: str
    sha256: str
    data: dict[str, Any]
    places: dict[Keys, Place]
    faults: tuple[Fault, ...]


def read_document(source: Path | str | bytes, file: str = "", deepest: int = DEEPEST) -> Document:
    """Read a file (a path), or the content itself (bytes); raises Refused.

    Slips that can be set aside are kept in ``faults``, so that the rest is judged in the same pass.
    """
    named = "stdin.toml" if str(source) == STDIN else str(source)
    file = file or ("spec.toml" if isinstance(source, bytes) else named)
    content = source if isinstance(source, bytes) else loaded(Path(source), file)
    text = decoded(content, file)
    data, mended, faults = _parse(text.replace("\r\n", "\n"), file)
    places = find_places(mended)
    deep = _too_deep(data, deepest)
    if deep is not None:
        place = places.get(deep)
        line, column = (place.line, place.column) if place else (1, 1)
        name = ".".join(str(k) for k in deep)
        faults.append(
            Fault(file, line, column, "nested-too-deep", name, f"nested more than {deepest} deep")
        )
        raise Refused(faults)
    return Document(file, text, sha256(content).hexdigest(), data, places, tuple(faults))


def _parse(text: str, file: str) -> tuple[dict[str, Any], str, list[Fault]]:
    """Read the TOML; each line that cannot be read is told, mended and passed over."""
    lines = text.split("\n")
    for n, line in enumerate(lines, 1):
        if len(line) > LONGEST_LINE:
            message = f"the line has {len(line)} characters; a spec has at most {LONGEST_LINE}"
            raise Refused([Fault(file, n, 1, "too-long", "", message)])
        if _LONG_KEY.search(line):
            message = f"nested more than {DEEPEST} deep"
            raise Refused([Fault(file, n, 1, "nested-too-deep", "", message)])
    faults: list[Fault] = []
    mended: dict[int, int] = {}
    while True:
        whole = "\n".join(lines)
        try:
            return tomllib.loads(whole + "\n", parse_float=Decimal), whole, faults
        except (ValueError, RecursionError) as error:
            from drafting.spec.slips import diagnose

            slip = diagnose(lines, error)
            times = mended.get(slip.line, 0)
            if times == 0 or slip.code.startswith("duplicate"):
                faults.append(
                    Fault(file, slip.line, slip.column, slip.code, slip.field, slip.message)
                )
            most = _MOST_SLIPS if len(text) < _MENDABLE else 1
            if slip.mend is None or times > 1 or len(faults) >= most:
                raise Refused(faults) from error
            mended[slip.line] = times + 1
            lines[slip.line - 1] = slip.mend if times == 0 else ""


def _too_deep(data: dict[str, Any], deepest: int) -> Keys | None:
    """Give the path of something nested deeper than allowed."""
    stack: list[tuple[Keys, Any]] = [((), data)]
    while stack:
        path, value = stack.pop()
        if isinstance(value, dict | list):
            if len(path) > deepest:
                return path
            pairs = value.items() if isinstance(value, dict) else enumerate(value)
            stack.extend(((*path, k), v) for k, v in pairs)
    return None
