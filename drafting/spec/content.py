"""From a path to the text of a spec file, and what is told of a file that is none."""

from __future__ import annotations

import os
from pathlib import Path
from stat import S_ISREG

from drafting.errors import Fault, Refused

STDIN = "-"
"""In the place of a file: the standard input."""
LARGEST = 1_000_000
"""A spec file has at most this many bytes."""
_FLAGS = os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)
"""A pipe that nobody writes into does not hold the program up."""
_BOMS = {
    b"\xff\xfe\0\0": "UTF-32",
    b"\0\0\xfe\xff": "UTF-32",
    b"\xff\xfe": "UTF-16",
    b"\xfe\xff": "UTF-16",
}
_BEGINNINGS = {
    b"%PDF": "a PDF file",
    b"ISO-10303-21": "a STEP file",
    b"<?xml": "an SVG or XML file",
    b"<svg": "an SVG file",
    b"  0\nSECTION": "a DXF file",
    b"  0\r\nSECTION": "a DXF file",
    b"AutoCAD Binary DXF": "a DXF file",
    b"AC10": "a DWG file",
    b"glTF": "a GLB file",
    b"PK\x03\x04": "a ZIP file, or one of an office program",
    b"\xd0\xcf\x11\xe0": "a file of an office program",
    b"{\\rtf": "a file of a word processor",
    b"\x89PNG": "a picture",
    b"\xff\xd8\xff": "a picture",
}
_CARRIES = ("a PDF file", "a STEP file", "an SVG file", "an SVG or XML file", "a DXF file")


def loaded(path: Path, file: str) -> bytes:
    """Give the bytes of a regular file, or of the standard input for ``-``; raises Refused.

    ``file`` is what messages call it.
    """
    if str(path) == STDIN:
        return _standard_input(file)
    try:
        handle = os.open(path, _FLAGS)
        with open(handle, "rb") as stream:
            about = os.fstat(handle)
            if not S_ISREG(about.st_mode):
                raise _refused(file, "no-file", "this is a pipe or a device; name a file")
            if about.st_size > LARGEST:
                raise _refused(file, "too-large", _too_large(about.st_size))
            return stream.read(LARGEST + 1)
    except FileNotFoundError as error:
        raise _refused(file, "no-file", f"there is no such file{_neighbours(path)}") from error
    except IsADirectoryError as error:
        raise _refused(file, "no-file", "this is a folder; name a spec file in it") from error
    except PermissionError as error:
        what = (
            "this is a folder; name a spec file in it"
            if path.is_dir()
            else "you may not read this file; ask whoever owns it, or copy it"
        )
        raise _refused(file, "no-file", what) from error
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or "its name has a sign that no file name has"
        raise _refused(file, "no-file", f"the file cannot be read: {reason}") from error


def _standard_input(file: str) -> bytes:
    import sys

    content = b"" if sys.stdin is None else sys.stdin.buffer.read(LARGEST + 1)
    if not content:
        what = "nothing came in; hand a spec over, as in: drafting draw - < mine.toml"
        raise _refused(file, "no-file", what)
    return content


def decoded(content: bytes, file: str) -> str:
    """Give the text of a spec file; raises Refused for what is too large or no text in UTF-8."""
    if len(content) > LARGEST:
        raise _refused(file, "too-large", _too_large(len(content)))
    kind = next((k for begin, k in _BEGINNINGS.items() if content.startswith(begin)), None)
    if kind is not None:
        way = "; drafting new --from takes the spec out of a drawing" if kind in _CARRIES else ""
        raise _refused(file, "not-a-spec", f"this is {kind}, not a spec file in TOML{way}")
    wide = next((k for begin, k in _BOMS.items() if content.startswith(begin)), None)
    if wide is None and b"\0" in content[:4]:
        wide = "UTF-16"
    if wide is not None:
        again = f"the file is saved as {wide}; save it again with the encoding UTF-8"
        raise _refused(file, "encoding", again)
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise Refused([_not_utf8(content, error.start, file)]) from error
    if "\r" in text and "\n" not in text:
        again = "its lines end with a carriage return alone; save it again with line ends of today"
        raise _refused(file, "line-ends", again)
    return text


def _not_utf8(content: bytes, at: int, file: str) -> Fault:
    """Tell the first byte that is no UTF-8, and what it stands for in the usual code page."""
    before = content[:at].decode("utf-8-sig")
    line, column = before.count("\n") + 1, len(before) - before.rfind("\n")
    byte = content[at : at + 1]
    sign = byte.decode("cp1252", "ignore")
    was = f" (in Windows-1252 it is {sign})" if sign and sign.isprintable() else ""
    message = (
        f"the byte {byte[0]:02X} is no UTF-8{was}; save the file again with the encoding UTF-8"
    )
    return Fault(file, line, column, "encoding", "", message)


def _neighbours(path: Path) -> str:
    from difflib import get_close_matches

    try:
        stems = {p.stem.casefold(): p.name for p in path.parent.iterdir() if p.suffix == ".toml"}
    except OSError:
        return "; the folder is not there either"
    near = [stems[s] for s in get_close_matches(path.stem.casefold(), stems, 2, 0.6)]
    return f"; there is {' and '.join(near)}" if near else "; check the name and the folder"


def _too_large(size: int) -> str:
    return f"the file has {size:,} bytes; a spec has at most {LARGEST:,}"


def _refused(file: str, code: str, message: str) -> Refused:
    return Refused([Fault(file, 1, 1, code, "", message)])
