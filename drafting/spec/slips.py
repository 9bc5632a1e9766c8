"""What people mistype in a TOML file, told in plain words before the parser's own.

The parser stops at the first line that it cannot read. That line is diagnosed here and mended, so
that reading can go on and every fault of the file is told at once.
"""

from __future__ import annotations

import re

from drafting.records import dataclass
from drafting.spec.places import MENDED
from drafting.spec.slip_values import INVISIBLE, as_typed, value_slip, without_comment

_AT = re.compile(r"\(at line (\d+), column (\d+)\)")
_PAIR = re.compile(r"(\s*)([^=#]*?)\s*=\s*(.*)")
_HEADER = re.compile(r"\s*\[+\s*([^\]\[#]*?)\s*(?:\]|#|$)")
_NAME = re.compile(r"[A-Za-z0-9_-]+(\.[A-Za-z0-9_-]+)*")


@dataclass(frozen=True, slots=True)
class Slip:
    """A line that cannot be read: its place (from 1), what is wrong, and the line mended.

    ``mend`` is None when what follows cannot be trusted any more.
    """

    line: int
    column: int
    code: str
    field: str
    message: str
    mend: str | None = None


def diagnose(lines: list[str], error: Exception) -> Slip:
    """Say in plain words what the parser stumbled over."""
    if isinstance(error, RecursionError):
        deepest = max(range(len(lines)), key=lambda n: lines[n].count("[") + lines[n].count("{"))
        return Slip(deepest + 1, 1, "nested-too-deep", "", "lists within lists; four deep at most")
    reason = str(error).partition(" (at")[0]
    at = _AT.search(str(error))
    n = int(at[1]) - 1 if at else _last_line(lines, reason)
    line = lines[n]
    if "Unterminated string" in reason:
        return _open_block(lines)
    if reason.startswith(("Cannot", "Can not", "Duplicate")):
        return _twice(lines, n)
    if line.lstrip().startswith("["):
        return _bad_header(lines, n)
    opened = _open_list(lines, n)
    if opened is not None:
        return _in_list(lines, opened, n, at is None)
    pair = _PAIR.fullmatch(line)
    if pair is None:
        return _no_equals(lines, n)
    if at is None and pair[3][:1] in ("[", "{"):
        return _in_list(lines, n, n, True)
    if not _NAME.fullmatch(pair[2]) and pair[2][:1] not in ("'", '"'):
        return _bad_name(lines, n, pair)
    value = without_comment(pair[3])
    if value[:1] not in ("'", '"') and INVISIBLE.search(line):
        reason = "invisible character"
    code, message = value_slip(pair[2], value, reason)
    whole = value[:1] not in "[{" or value[-1:] in "]}" or not value
    mend = f'{pair[1]}{pair[2]} = "{MENDED}"' if whole else None
    return Slip(n + 1, pair.start(3) + 1, code, _dotted(lines, n, pair[2]), message, mend)


def _last_line(lines: list[str], reason: str) -> int:
    if reason.startswith("Exceeds the limit"):
        return next((n for n, t in enumerate(lines) if re.search(r"\d{1000}", t)), 0)
    return max((n for n, t in enumerate(lines) if t.strip()), default=0)


def _table_at(lines: list[str], n: int) -> tuple[str, int]:
    """Give the table that line n stands in, and the line of its header (-1: the root)."""
    for k in range(n, -1, -1):
        header = _HEADER.match(lines[k])
        if header and not _open_list_before(lines, k):
            return header[1], k
    return "", -1


def _open_list_before(lines: list[str], n: int) -> bool:
    return bool(re.match(r"\s*\[[^\]]*,", lines[n]))


def _dotted(lines: list[str], n: int, key: str) -> str:
    table, _ = _table_at(lines, n)
    return ".".join(x for x in (table, key.strip("\"' ")) if x and MENDED not in x)


def _twice(lines: list[str], n: int) -> Slip:
    header = _HEADER.match(lines[n])
    if header:
        name = header[1]
        first = next(
            (
                k
                for k in range(n)
                if (h := _HEADER.match(lines[k])) and (h[1] == name or h[1].startswith(name + "."))
            ),
            None,
        )
        where = f", first in line {first + 1}" if first is not None else " above as a field"
        column = lines[n].index("[") + 1
        return Slip(
            n + 1,
            column,
            "duplicate-table",
            name,
            f"[{name}] stands in the file twice{where}; put its fields together under one heading",
            f'["{MENDED}{n}"]',
        )
    pair = _PAIR.fullmatch(lines[n])
    if pair is None:
        return Slip(n + 1, 1, "duplicate-key", "", "a field is written twice; keep one of them")
    _, start = _table_at(lines, n)
    same = [
        k
        for k in range(start + 1, n)
        if (p := _PAIR.fullmatch(lines[k])) and p[2].strip("\"'") == pair[2].strip("\"'")
    ]
    where = f", first in line {same[0] + 1}" if same else ""
    return Slip(
        n + 1,
        pair.start(2) + 1,
        "duplicate-key",
        _dotted(lines, n, pair[2]),
        f"the field is written twice{where}; keep one of them",
        "" if same else None,
    )


def _bad_header(lines: list[str], n: int) -> Slip:
    line = lines[n]
    column = line.index("[") + 1
    marks = "[[" if line.lstrip().startswith("[[") else "["
    name = re.split(r"[\]#]", line.strip().lstrip("["))[0].strip().strip("\"'")
    fixed = re.sub(r"[^A-Za-z0-9_.]+", "_", name).strip("_").lower()
    if not fixed:
        return Slip(n + 1, column, "bad-heading", "", "a heading names a table: [cylinder]")
    whole = f"{marks}{fixed}{marks.replace('[', ']')}"
    return Slip(
        n + 1,
        column,
        "bad-heading",
        fixed,
        f"found {line.strip()}; a heading is one name in square brackets, alone on its line: "
        f"{whole}",
        whole,
    )


def _no_equals(lines: list[str], n: int) -> Slip:
    line = lines[n]
    column = len(line) - len(line.lstrip()) + 1
    found = re.fullmatch(r"\s*([A-Za-z0-9_.-]+)\s*[:\s]\s*(.+)", line)
    if found is None:
        return Slip(
            n + 1,
            column,
            "no-equals",
            "",
            f"found {line.strip()}; a line is a heading [table], name = value, or a # comment",
            "",
        )
    key, value = found[1], without_comment(found[2])
    return Slip(
        n + 1,
        column,
        "no-equals",
        _dotted(lines, n, key),
        f"found {line.strip()}; an = stands between name and value: {key} = {as_typed(value)}",
        f'{key} = "{MENDED}"',
    )


def _bad_name(lines: list[str], n: int, pair: re.Match[str]) -> Slip:
    name = re.sub(r"[^A-Za-z0-9_.]+", "_", pair[2]).strip("_").lower()
    tip = f"write {name} = ..." if name else "write name = value"
    return Slip(
        n + 1,
        pair.start(2) + 1,
        "bad-name",
        _dotted(lines, n, name),
        f"found {pair[2] or 'no name'} before the =; a name is letters and _ only: {tip}",
        f'{name} = "{MENDED}"' if name else "",
    )


def _open_list(lines: list[str], n: int) -> int | None:
    """Give the line in which a list begins that is still open at the start of line n."""
    for k in range(n - 1, -1, -1):
        pair = _PAIR.fullmatch(lines[k])
        if pair:
            v = re.sub(r"\"[^\"]*\"|'[^']*'", "", pair[3]).partition("#")[0]
            between = "".join(t.partition("#")[0] for t in lines[k + 1 : n])
            open_marks = v.count("[") + v.count("{") - v.count("]") - v.count("}")
            closed = between.count("]") + between.count("}") if open_marks > 0 else 0
            return k if v[:1] in "[{" and v and open_marks - closed > 0 else None
        if _HEADER.match(lines[k]) and not _open_list_before(lines, k):
            return None
    return None


def _in_list(lines: list[str], opened: int, n: int, ended: bool) -> Slip:
    """Tell of a list over several lines: it was never closed, or this entry cannot be read."""
    pair = _PAIR.fullmatch(lines[opened])
    assert pair is not None
    field = _dotted(lines, opened, pair[2])
    entry = without_comment(lines[n].strip()).rstrip(",")
    broken_off = _PAIR.fullmatch(lines[n]) or entry[:1] in ("", "[") or pair[3][0] == "{"
    if ended or broken_off:
        closing = "}" if pair[3][0] == "{" else "]"
        alone = n == opened + 1 and pair[3][0] == "[" and not ended
        return Slip(
            opened + 1,
            pair.start(3) + 1,
            "open-list",
            field,
            f"the closing {closing} is missing; write all of it on one line, ending in {closing}",
            f'{pair[2]} = "{MENDED}"' if alone else None,
        )
    bare = entry.rstrip("]} ")
    _, message = value_slip(pair[2], bare, "")
    message = message.replace(f"{pair[2]} = ", "")
    end = "]" if "]" in entry else ","
    column = len(lines[n]) - len(lines[n].lstrip()) + 1
    return Slip(n + 1, column, "in-list", field, message, f'"{MENDED}"{end}')


def _open_block(lines: list[str]) -> Slip:
    marks = [n for n, t in enumerate(lines) if t.count('"""') % 2 or t.count("'''") % 2]
    n = marks[-1] if marks else len(lines) - 1
    return Slip(
        n + 1, 1, "open-string", "", "the text that begins here with three quotes never ends"
    )
