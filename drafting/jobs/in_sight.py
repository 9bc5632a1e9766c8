"""The spec of a file that is as our writers left it, found by search alone.

Drawing again looks into what lies in the folder. A parser of foreign files needs a child process
and its imports, which cost more than the drawing; our own files lie open to a search that is linear
in their bytes. Where anything is otherwise than our writers put it, the answer is None and the
parsers have the word: a file that another program saved, joined or added to is never judged here.
"""

from __future__ import annotations

import re
from binascii import Error

from drafting.drawing.write.carry import ATTACHMENT, DICTIONARY, NAMESPACE, PIECE, unpack
from drafting.jobs.carriers import cut_short

_HEAD = 1_000_000
"""Bytes within which the header of a STEP file ends."""
_SVG = re.compile(
    rb'<spec xmlns="%s" encoding="base64"(?: \w+="[^"<>]*")*>([A-Za-z0-9+/=\n\r]+)</spec>'
    % NAMESPACE.encode()
)
_HIDDEN = re.compile(rb"<!(?!\[CDATA\[@font-face)")
"""What may hide an element from a parser, or make one: none of it but the letters is ours."""
_DXF = re.compile(rb"AcDbXrecord\r?\n280\r?\n1\r?\n((?:  1\r?\n[A-Za-z0-9+/=]+\r?\n)+)  0\r?\n")
_CODE = re.compile(rb"^  1\r?\n", re.M)
_PDF = re.compile(
    rb"/%s <<\s/LastModified \(D:\w+\) /Private <<\s"
    rb"/SHA256 \([0-9a-f]{64}\) /Spec (\d{1,9}) 0 R\s>>" % PIECE.encode()
)
_STREAM = (
    rb"^%s 0 obj\n<<\n/Length (\d{1,9}) /Params <<\n/Size \d{1,9}\n>> /Type /EmbeddedFile\n>>\n"
    rb"stream\n"
)


def spec_in_sight(suffix: str, data: bytes) -> str | None:
    """Give the one spec that lies open in a file, None where it has to be parsed."""
    find = {".svg": _in_svg, ".dxf": _in_dxf, ".pdf": _in_pdf, ".step": _in_step}.get(suffix)
    if find is None or cut_short(suffix, data):
        return None
    try:
        return find(data)
    except (ValueError, Error, OverflowError):
        return None


def _in_svg(data: bytes) -> str | None:
    found = _SVG.findall(data)
    if len(found) != 1 or data.count(NAMESPACE.encode()) != 1 or _HIDDEN.search(data):
        return None
    return _unpacked(found[0])


def _in_dxf(data: bytes) -> str | None:
    found = _DXF.findall(data)
    if len(found) != 1 or data.count(DICTIONARY.encode()) != 1:
        return None
    return _unpacked(_CODE.sub(b"", found[0]))


def _in_pdf(data: bytes) -> str | None:
    """A second end means that something was added; then any page may be another drawing's."""
    found = _PDF.findall(data)
    if len(set(found)) != 1 or data.count(PIECE.encode()) != len(found):
        return None
    if data.count(b"%%EOF") != 1 or data.count(f"/F ({ATTACHMENT})".encode()) != 1:
        return None
    streams = list(re.finditer(_STREAM % found[0], data, re.M))
    if len(streams) != 1:
        return None
    start, length = streams[0].end(), int(streams[0][1])
    if not data[start + length :].lstrip(b"\r\n").startswith(b"endstream"):
        return None
    return data[start : start + length].decode("utf-8", "surrogatepass")


def _in_step(data: bytes) -> str | None:
    from drafting.solids.carry_step import spec_from_step

    head, name, _ = data[:_HEAD].partition(b"FILE_NAME")
    return spec_from_step(head + name) if name else None


def _unpacked(packed: bytes) -> str:
    return unpack(b"".join(packed.split()).decode("ascii"))
