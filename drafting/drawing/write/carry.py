"""The spec that travels inside every file, and how it is read back, byte for byte.

SVG holds it in ``<metadata>``, DXF in an XRECORD, both as base64 of its UTF-8 text, because XML and
DXF each change line ends and refuse some characters; PDF holds it as an attached file, PNG in a
text chunk.
"""

from __future__ import annotations

import re
from base64 import b64decode, b64encode
from collections.abc import Mapping
from io import BytesIO, StringIO
from xml.etree import ElementTree

NAMESPACE = "urn:cylinder-drafting:1"
DICTIONARY = "CYLINDER_DRAFTING"
ATTACHMENT = "spec.toml"
PNG_KEY = "spec"
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


def spec_from_pdf(data: bytes) -> str | None:
    """Read the spec out of a PDF; None when it carries none."""
    from pypdf import PdfReader
    from pypdf.errors import PyPdfError

    try:
        files = PdfReader(BytesIO(data)).attachments.get(ATTACHMENT)
    except (PyPdfError, ValueError, KeyError):
        return None
    return files[0].decode("utf-8", "surrogatepass") if files else None


def spec_from_dxf(data: bytes) -> str | None:
    """Read the spec out of a DXF; None when it carries none."""
    import ezdxf
    from ezdxf.lldxf.const import DXFError

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
