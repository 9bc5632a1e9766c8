"""Forms filled in by programs that are not ours: pypdf, and PDFium as a browser's reader has it."""

from __future__ import annotations

import ctypes
from collections.abc import Mapping
from io import BytesIO

import pypdfium2
from pypdf import PdfReader, PdfWriter
from pypdfium2 import raw


def by_pypdf(data: bytes, values: Mapping[str, str]) -> bytes:
    writer = PdfWriter(clone_from=PdfReader(BytesIO(data)))
    for page in writer.pages:
        writer.update_page_form_field_values(page, dict(values), auto_regenerate=False)
    out = BytesIO()
    writer.write(out)
    return out.getvalue()


def by_pdfium(data: bytes, values: Mapping[str, str]) -> bytes:
    """Click into each field, take all that stands in it, and type."""
    places = places_of(data)
    document = pypdfium2.PdfDocument(data)
    document.init_forms()
    for name, text in values.items():
        n, (x0, y0, x1, y1) = places[name]
        page = document[n]
        form = page.formenv.raw
        raw.FORM_OnLButtonDown(form, page.raw, 0, (x0 + x1) / 2, (y0 + y1) / 2)
        raw.FORM_OnLButtonUp(form, page.raw, 0, (x0 + x1) / 2, (y0 + y1) / 2)
        raw.FORM_SelectAllText(form, page.raw)
        coded = ctypes.create_string_buffer(text.encode("utf-16-le") + b"\0\0")
        raw.FORM_ReplaceSelection(
            form, page.raw, ctypes.cast(coded, ctypes.POINTER(ctypes.c_ushort))
        )
        raw.FORM_ForceToKillFocus(form)
    out = BytesIO()
    document.save(out)
    return out.getvalue()


def places_of(data: bytes) -> dict[str, tuple[int, tuple[float, ...]]]:
    """Give page and box of every field, in the order of the file."""
    return {
        str(note.get_object()["/T"]): (n, tuple(float(v) for v in note.get_object()["/Rect"]))
        for n, page in enumerate(PdfReader(BytesIO(data)).pages)
        for note in page.get("/Annots", [])
    }
