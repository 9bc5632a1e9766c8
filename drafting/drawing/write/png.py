"""The drawing page as a picture of 150 dots an inch, for mail, chat and stock systems.

It is the page of the PDF, turned into dots by PDFium, whose package brings it along on every
system. The spec travels in a text chunk, as in every other output.
"""

from __future__ import annotations

from dataclasses import replace
from io import BytesIO

from drafting.drawing.sheet.sheet import Sheet
from drafting.drawing.write.carry import PNG_KEY, labels, pack
from drafting.drawing.write.pdf import pdf_bytes

DOTS = 150
"""Dots an inch."""
_GREYS = 32
"""Shades kept: letters stay smooth, and the file is a third of its size."""


def png_bytes(sheet: Sheet) -> bytes:
    """Draw the first page as a PNG of its true size at 150 dots an inch."""
    from PIL.PngImagePlugin import PngInfo
    from pypdfium2 import PdfDocument

    document = PdfDocument(pdf_bytes(replace(sheet, following=())))
    try:
        picture = document[0].render(scale=DOTS / 72).to_pil().convert("L")
    finally:
        document.close()
    told = PngInfo()
    for key, words in labels(sheet.meta).items():
        told.add_itxt(key, words)
    if "spec_text" in sheet.meta:
        told.add_itxt(PNG_KEY, pack(sheet.meta["spec_text"]), zip=True)
    out = BytesIO()
    small = picture.quantize(_GREYS)
    small.save(out, "PNG", dpi=(DOTS, DOTS), pnginfo=told, optimize=True)
    return out.getvalue()
