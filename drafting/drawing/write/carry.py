"""The spec that travels inside every file, and how it is read back, byte for byte.

SVG holds it in ``<metadata>``, DXF in an XRECORD, both as base64 of its UTF-8 text, because XML and
DXF each change line ends and refuse some characters; PDF holds it as an attached file, PNG in a
text chunk.
"""

from __future__ import annotations

import re
from base64 import b64decode, b64encode
from collections.abc import Iterator, Mapping
from io import BytesIO, StringIO
from typing import Any
from xml.etree import ElementTree

from drafting.spec.bundle import Carried

NAMESPACE = "urn:cylinder-drafting:1"
DICTIONARY = "CYLINDER_DRAFTING"
ATTACHMENT = "spec.toml"
PNG_KEY = "spec"
PLATE_KEY = "spec "
"""What begins a comment of a DXF that carries a stretch of the spec."""
PIECE = "CylinderDrafting"
"""The page-piece dictionary of our own (ISO 32000-1, 14.5) that holds a page's spec."""
MOST_PAGES = 500
"""Pages of a PDF that are looked into."""
_LINE = 76
"""Characters of a line of the packed spec, as in mail (RFC 2045): a change touches few lines."""
_KEYS = ("tool", "input_sha256")


def pack(text: str) -> str:
    """Write any text in letters that every format keeps."""
    return b64encode(text.encode("utf-8", "surrogatepass")).decode("ascii")


def unpack(packed: str) -> str:
    """Read back what ``pack`` wrote."""
    return b64decode(packed).decode("utf-8", "surrogatepass")


def labels(meta: Mapping[str, str]) -> dict[str, str]:
    """Give the tool and the hash of the input, as far as a sheet states them."""
    return {k: meta[k] for k in _KEYS if meta.get(k)}


def svg_element(meta: Mapping[str, str]) -> ElementTree.Element | None:
    """Make the element that carries the spec in ``<metadata>``; None without a spec."""
    if "spec_text" not in meta:
        return None
    element = ElementTree.Element("spec", {"xmlns": NAMESPACE, "encoding": "base64"} | labels(meta))
    packed = pack(meta["spec_text"])
    element.text = "\n".join(
        ["", *(packed[i : i + _LINE] for i in range(0, len(packed), _LINE)), ""]
    )
    return element


def spec_from_svg(data: bytes) -> str | None:
    """Read the spec out of an SVG; None when it carries none."""
    # A document type could define entities that grow without end; our files have none.
    if b"<!DOCTYPE" in data[:4096]:
        return None
    try:
        found = ElementTree.fromstring(data).find(f".//{{{NAMESPACE}}}spec")
    except ElementTree.ParseError:
        return None
    return None if found is None else _unpacked(found.text or "")


def specs_from_pdf(data: bytes) -> list[Carried]:
    """Read every spec out of a PDF, each once, in the order of its pages.

    Each page holds its own, so that it stays where pages are taken out or put together; what was
    written before that is attached to the whole.
    """
    from pypdf import PdfReader

    reader = PdfReader(BytesIO(data))
    found = [c for page in reader.pages[:MOST_PAGES] for c in _on_page(page)]
    stated = re.search("input_sha256=([0-9a-f]{64})", str((reader.metadata or {}).get("/Keywords")))
    for content in () if found else reader.attachments.get(ATTACHMENT, ()):
        found.append(Carried(_text(content), stated[1] if stated else ""))
    return list(dict.fromkeys(found))


def _on_page(page: Any) -> Iterator[Carried]:
    own = page.get("/PieceInfo", {}).get(f"/{PIECE}")
    if own is not None:
        private = own["/Private"]
        yield Carried(_text(private["/Spec"].get_data()), str(private["/SHA256"]))


def _text(content: bytes) -> str:
    return content.decode("utf-8", "surrogatepass")


def spec_from_dxf(data: bytes) -> str | None:
    """Read the spec out of a DXF; None when it carries none."""
    import ezdxf
    from ezdxf.lldxf.const import DXFError

    found = re.findall(rb"^999\r?\n" + PLATE_KEY.encode() + rb"([A-Za-z0-9+/=]+)\r?$", data, re.M)
    if found:
        return _unpacked(b"".join(found).decode("ascii"))
    try:
        document = ezdxf.read(StringIO(data.decode("utf-8", "surrogateescape")))
    except (DXFError, OSError):
        return None
    try:
        record = document.rootdict[DICTIONARY]["SPEC"]
    except (KeyError, DXFError):
        return None
    return _unpacked("".join(tag.value for tag in record.tags if tag.code == 1))


def spec_from_png(data: bytes) -> str | None:
    """Read the spec out of a picture; None when it carries none."""
    from PIL import Image

    with Image.open(BytesIO(data), formats=("PNG",)) as picture:
        picture.load()  # texts may stand behind the dots
        packed = getattr(picture, "text", {}).get(PNG_KEY)
    return None if packed is None else _unpacked(packed)


def _unpacked(packed: str) -> str | None:
    try:
        return unpack(re.sub(r"\s+", "", packed))
    except ValueError:
        return None
