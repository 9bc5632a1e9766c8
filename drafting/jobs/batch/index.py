"""A run to look through: a page with a picture, sizes and links of each cylinder, and a table."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Iterator, Sequence
from html import escape
from pathlib import Path
from urllib.parse import quote

from drafting.jobs.batch.manifest import Entry
from drafting.told.size_list import as_text

PAGE, TABLE = "index.html", "index.csv"
SHOWN = ("cylinder.bore", "cylinder.rod", "cylinder.stroke", "cylinder.retracted",
         "cylinder.extended")  # fmt: skip
"""Sizes that every page shows; what else differs between its cylinders is shown beside them."""
MOST_COLUMNS = 10
HEAD = ("row", "name", "title", "verdict", "to do")


def table(entries: Sequence[Entry]) -> bytes:
    """Give every size (mm) and the mass (kg) of what was drawn, a cylinder a row, as CSV."""
    drawn = [e for e in entries if not e.faults]
    names = list(dict.fromkeys(n for e in drawn for n in e.sizes or {}))
    out = io.StringIO(newline="")
    rows = csv.writer(out)
    rows.writerow([*HEAD, "mass_kg", *(f"{n}_mm" for n in names), "fault"])
    for e in entries:
        sizes = e.sizes or {}
        told = "; ".join(f"{f}: {m}".lstrip(": ") for f, m in e.faults)
        said = [e.row, *map(as_text, (e.name, e.title, e.verdict, "; ".join(e.to_do)))]
        mass = "" if e.faults else f"{e.mass_kg:g}"
        rows.writerow([*said, mass, *(_mm(sizes.get(n)) for n in names), as_text(told)])
    return out.getvalue().encode("utf-8-sig")


def _mm(size: float | None) -> str:
    return "" if size is None else f"{size:.4f}".rstrip("0").rstrip(".")


def page(entries: Sequence[Entry], title: str) -> bytes:
    """Give the page: one file that needs nothing but the drawings beside it."""
    text = Path(__file__).with_name("index.html").read_text(encoding="utf-8")
    columns = _columns(entries)
    heads = "".join(
        f'<th>{escape(h)}<input aria-label="filter {escape(h)}"></th>'
        if h not in ("", "files")
        else f"<th>{h}<input hidden></th>"
        for h in ("", *HEAD, "files", "mass kg", *(_short(n) for n in columns))
    )
    body = "\n".join(_rows(entries, columns))
    failed = sum(bool(e.faults) for e in entries)
    said = f"{len(entries) - failed} drawn, {failed} not"
    for mark, words in (("TITLE", escape(title)), ("SAID", said), ("HEADS", heads), ("ROWS", body)):
        text = text.replace(f"<!--{mark}-->", words)
    return text.encode()


def _columns(entries: Iterable[Entry]) -> list[str]:
    """Give the sizes to show: those of every page, then what differs most often."""
    values: dict[str, set[float]] = {}
    for e in entries:
        for name, size in (e.sizes or {}).items():
            values.setdefault(name, set()).add(size)
    differ = sorted((n for n, v in values.items() if len(v) > 1), key=lambda n: -len(values[n]))
    shown = [n for n in SHOWN if n in values]
    return [*shown, *(n for n in differ if n not in shown)][:MOST_COLUMNS]


def _short(name: str) -> str:
    return f"{name.removeprefix('cylinder.').replace('_', ' ').replace('.', ' ')} mm"


def _rows(entries: Iterable[Entry], columns: Sequence[str]) -> Iterator[str]:
    for e in entries:
        files = {n.rpartition(".")[2]: n for n in reversed(e.files)}
        picture = files.get("svg") or files.get("png")
        opened = files.get("pdf") or picture
        shown = f'<img loading="lazy" alt="" src="{quote(picture)}">' if picture else ""
        if shown and opened:
            shown = f'<a href="{quote(opened)}">{shown}</a>'
        told = "; ".join(f"{f}: {m}".lstrip(": ") for f, m in e.faults) or "; ".join(e.to_do)
        sizes = e.sizes or {}
        verdict = "NOT DRAWN" if e.faults else e.verdict
        mass = "" if e.faults else f"{e.mass_kg:.4g}"
        links = " ".join(f'<a href="{quote(n)}">{escape(_ending(e.name, n))}</a>' for n in e.files)
        said = _cells(e.row, e.name, e.title, verdict, told)
        numbers = _cells(mass, *(_mm(sizes.get(n)) for n in columns))
        mark = ' class="failed"' if e.faults else ""
        yield f"<tr{mark}><td>{shown}</td>{said}<td>{links}</td>{numbers}</tr>"


def _cells(*words: object) -> str:
    return "".join(f"<td>{escape(str(w))}</td>" for w in words)


def _ending(name: str, file: str) -> str:
    return file.removeprefix(name).lstrip("-.")
