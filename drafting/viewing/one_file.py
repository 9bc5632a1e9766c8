"""Everything of one drawing in one HTML file: it opens from a memory stick and asks for nothing.

Scripts are held to by their hashes (Content Security Policy, level 3), files inside are packed, and
the page prints as its sheets. The spec can be read back, as out of every output.
"""

from __future__ import annotations

import gzip
import json
import re
from base64 import b64decode, b64encode
from collections.abc import Mapping, Sequence
from functools import cache
from hashlib import sha256
from html import escape
from pathlib import Path
from string import Template

from drafting.checks.of_cylinder import Judgement
from drafting.model.cylinder import Cylinder
from drafting.reports.verdicts import headline, judged, line
from drafting.told.meta import carried_text, meta, without_folders
from drafting.told.size_list import sizes
from drafting.units import both
from drafting.values import Finding
from drafting.viewing.still import still

HERE = Path(__file__).parent
_TYPES = {
    ".pdf": ("application/pdf", "drawing and data sheet, to print at 100 %"),
    ".dxf": ("image/vnd.dxf", "drawing for CAD"),
    "-retracted.step": ("model/step", "solid, retracted"),
    "-extended.step": ("model/step", "solid, extended"),
    ".glb": ("model/gltf-binary", "light 3D model"),
    ".csv": ("text/csv", "all sizes as a table"),
    ".toml": ("application/toml", "the spec"),
}
_PARTS = ("drawing", "solid", "verdicts", "findings", "sizes", "files", "spec", "cautions")
_XML = re.compile(rb"<\?xml[^>]*\?>\s*|<!DOCTYPE[^>]*>\s*")
_METADATA = re.compile(rb"<metadata>.*?</metadata>", re.DOTALL)
_CARRIED = re.compile(rb'<script type="text/plain" id="carried"[^>]*>([A-Za-z0-9+/=]*)</script>')
_WIDE, _HIGH = (re.compile(rb'<svg[^>]* %s="([0-9.]+)mm"' % w) for w in (b"width", b"height"))


def html_bytes(
    c: Cylinder,
    files: Mapping[str, bytes],
    findings: Sequence[Finding],
    judgement: Judgement,
) -> bytes:
    """Make the file from the other outputs by name (SVG pages, GLB, what is to be inside)."""
    stem = c.name
    packed = {n: d for n, d in files.items() if n.removeprefix(stem) in _TYPES}
    packed[f"{stem}.toml"] = carried_text(c.spec).encode("utf-8", "surrogatepass")
    pages = _pages(stem, files)
    about, n, units = meta(c), c.lengths, c.spec.units
    css = _text("one_file.css").replace("$print", _print(pages))
    viewer = _text("three-viewer.js")
    script = _text("lengths.js") + _text("one_file.js")
    told = {
        "units": units,
        "stroke_mm": round(n.stroke, 6),
        "retracted_mm": round(n.retracted, 6),
        "glb": _id(f"{stem}.glb") if f"{stem}.glb" in packed else "",
    }
    words = {
        "csp": _policy(viewer, script),
        "tool": escape(about["tool"]),
        "title": escape(f"{about['number']} {about['title']}".strip()),
        "number": escape(about["number"]),
        "name": escape(about["title"]),
        "css": css,
        "closed": escape(both(n.retracted, units)),
        "open": escape(both(n.extended, units)),
        "stroke": escape(both(n.stroke, units)),
        "nav": "".join(f'<a href="#{p}">{p}</a>' for p in _PARTS),
        "pages": _buttons(len(pages)),
        "sheets": "".join(
            f'<div class="p{k}"{" hidden" if k else ""} tabindex="-1">{svg.decode()}</div>'
            for k, svg in enumerate(pages)
        ),
        "still": still(c.parts),
        "verdicts": _verdicts(judgement, units, findings),
        "findings": _findings(c, (*findings, *judgement.findings)),
        "sizes": _sizes(c),
        "files": _files(stem, packed),
        "spec": escape(c.spec.text.lstrip("\ufeff")),
        "cautions": "".join(f"<p>{escape(w)}</p>" for w in judgement.cautions.texts),
        "hash": about["input_sha256"][:8],
        "payload": _payload(c, packed, told),
        "viewer": viewer,
        "script": script,
    }
    page = Template(_text("one_file.html")).substitute(words)
    return page.encode("utf-8", "xmlcharrefreplace")


def spec_from_html(data: bytes) -> str | None:
    """Read the spec out of the file; None when it carries none."""
    found = _CARRIED.search(data)
    try:
        return (
            b64decode(found[1], validate=True).decode("utf-8", "surrogatepass") if found else None
        )
    except ValueError:
        return None


@cache
def _text(name: str) -> str:
    return (HERE / name).read_text(encoding="utf-8")


def _policy(*scripts: str) -> str:
    hashes = " ".join(
        f"'sha256-{b64encode(sha256(s.encode()).digest()).decode()}'" for s in scripts
    )
    return (
        f"default-src 'none'; script-src {hashes}; style-src 'unsafe-inline'; img-src data: blob:; "
        "font-src data:; base-uri 'none'; form-action 'none'"
    )


def _pages(stem: str, files: Mapping[str, bytes]) -> list[bytes]:
    """Give the sheets as SVG elements; the spec inside them is once in the page already."""
    names = [f"{stem}.svg"]
    while (more := f"{stem}-sheet{len(names) + 1}.svg") in files:
        names.append(more)
    return [_METADATA.sub(b"", _XML.sub(b"", files[n])) for n in names]


def _print(pages: Sequence[bytes]) -> str:
    """Give the rules by which the page prints as its sheets, each on paper of its own size."""
    rules = []
    for k, svg in enumerate(pages):
        found = _WIDE.search(svg), _HIGH.search(svg)
        if all(found):
            wide, high = (float(f[1]) for f in found if f)
            rules.append(f"@page p{k}{{size:{wide}mm {high}mm;margin:0}}")
            rules.append(
                f"@media print{{.sheets>.p{k}{{page:p{k};width:{wide}mm;height:{high - 0.2}mm}}}}"
            )
    return "".join(rules) + (
        "@media print{body{background:#fff}header,footer,.bar,section:not(#drawing){display:none}"
        "main,section,.sheets{display:block;border:0;padding:0;margin:0;max-width:none;height:auto;"
        "overflow:visible}.sheets>div,.sheets>div[hidden]{display:block;position:static;"
        "transform:none!important;break-after:page}.sheets>div:last-child{break-after:auto}}"
    )


def _buttons(count: int) -> str:
    return "".join(
        f'<button type="button" data-page="{k}">{"drawing" if not k else f"sheet {k + 1}"}</button>'
        for k in range(count)
    )


def _verdicts(j: Judgement, units: str, findings: Sequence[Finding]) -> str:
    errors = sum(f.level == "error" for f in (*findings, *j.findings))
    word, sentence = headline(j.checks, errors)
    rows = []
    for k in judged(j.checks):
        row = line(k, units)
        cells = (row.check, row.factor, row.asked, row.verdict, row.decides)
        rows.append(_row(cells, (row.verdict or "").replace(" ", "-"), numbers=(1, 2)))
    head = "".join(f"<th>{w}</th>" for w in ("check", "factor", "asked", "verdict", "what decides"))
    table = f'<div class="wide"><table><tr>{head}</tr>{"".join(rows)}</table></div>' if rows else ""
    refusal = f"<p>{escape(j.cautions.refusal)}</p>" if j.cautions.refusal else ""
    return f"<p><b>{escape(word)}</b> {escape(sentence)}</p>{refusal}{table}"


def _findings(c: Cylinder, findings: Sequence[Finding]) -> str:
    order = {"error": 0, "warning": 1, "note": 2}
    rows = [
        f'<li class="{f.level}"><b>{f.level}</b> {escape(f.field)}: '
        f"{escape(without_folders(c.spec, f.message))}</li>"
        for f in sorted(findings, key=lambda f: order[f.level])
    ]
    return f"<ul>{''.join(rows)}</ul>" if rows else "<p>none</p>"


def _sizes(c: Cylinder) -> str:
    rows = [
        _row((s.words, both(s.mm, c.spec.units), s.tolerance, s.origin, s.why), "", numbers=(1, 2))
        for s in sizes(c)
    ]
    head = "".join(f"<th>{w}</th>" for w in ("size", "", "tolerance", "origin", "why"))
    return f'<div class="wide"><table><tr>{head}</tr>{"".join(rows)}</table></div>'


def _row(cells: Sequence[str], kind: str, numbers: Sequence[int] = ()) -> str:
    inner = "".join(
        f"<td{' class=n' if k in numbers else ''}>{escape(w)}</td>" for k, w in enumerate(cells)
    )
    return f'<tr class="{kind}">{inner}</tr>'


def _files(stem: str, packed: Mapping[str, bytes]) -> str:
    rows = []
    for end, (kind, words) in _TYPES.items():
        name = stem + end
        if name in packed:
            size = f"{max(len(packed[name]) // 1000, 1)} kB"
            rows.append(
                f'<li><button type="button" data-file="{_id(name)}" data-name="{escape(name)}" '
                f'data-type="{kind}">{escape(name)} <small>{words}, {size}</small></button></li>'
            )
    return "".join(rows)


def _payload(c: Cylinder, packed: Mapping[str, bytes], told: Mapping[str, object]) -> str:
    plain = b64encode(carried_text(c.spec).encode("utf-8", "surrogatepass")).decode()
    parts = [
        f'<script type="application/json" id="told">{json.dumps(told)}</script>',
        f'<script type="text/plain" id="carried" data-input_sha256="{c.spec.sha256}">'
        f"{plain}</script>",
    ]
    for name, data in packed.items():
        small = b64encode(gzip.compress(data, 9, mtime=0)).decode()
        parts.append(f'<script type="text/plain" id="{_id(name)}">{small}</script>')
    return "\n".join(parts)


def _id(name: str) -> str:
    return f"f{sha256(name.encode()).hexdigest()[:10]}"
