r"""Words in a STEP file: how they are encoded, and how the spec travels in the header.

ISO 10303-21 strings hold printable ASCII; an apostrophe and a backslash are doubled, everything
else is ``\X\HH``, ``\X2\HHHH…\X0\`` (UTF-16) or ``\X4\HHHHHHHH…\X0\``. The spec's text stands in
``FILE_DESCRIPTION`` as strings of at most 256 characters (the standard's limit there) behind one
that tells how many there are. Reading needs no kernel.
"""

from __future__ import annotations

import re

_LONGEST = 256
_FOLLOWS = "Specification (TOML) in {} strings:"
_STRING = re.compile(r"'((?:[^']|'')*)'")
_CODE = re.compile(
    r"''|\\\\|\\X\\([0-9A-F]{2})|\\X2\\([0-9A-F]*)\\X0\\|\\X4\\([0-9A-F]*)\\X0\\|\\S\\(.)|\\P[A-I]\\"
)
_FOREIGN = re.compile(r"['\\]|[\x00-\x1f\x7f-\xff]|[\u0100-\uffff]+|[\U00010000-\U0010ffff]+")
_BEFORE_END = re.compile(r"''(?=[,)])")
_BY_CODE = r"\\X\\27"


def to_string(text: str) -> str:
    """Give a text as a string of a STEP file, with its apostrophes.

    One before a comma or a bracket is written by its code: the kernel reads it as the end.
    """
    return f"'{_BEFORE_END.sub(_BY_CODE, _FOREIGN.sub(_encoded, text))}'"


def from_string(inner: str) -> str:
    """Give the text of a STEP string, handed over without its outer apostrophes."""
    return _CODE.sub(_decoded, inner)


def _encoded(found: re.Match[str]) -> str:
    run = found[0]
    if run in "'\\":
        return run + run
    if run <= "\xff":
        return f"\\X\\{ord(run):02X}"
    if run < "\U00010000":
        return "\\X2\\" + "".join(f"{ord(c):04X}" for c in run) + "\\X0\\"
    return "\\X4\\" + "".join(f"{ord(c):08X}" for c in run) + "\\X0\\"


def _decoded(found: re.Match[str]) -> str:
    byte, utf16, utf32, shifted = found.groups()
    if byte is not None:
        return chr(int(byte, 16))
    if utf16 is not None:
        return bytes.fromhex(utf16).decode("utf-16-be")
    if utf32 is not None:
        return bytes.fromhex(utf32).decode("utf-32-be")
    if shifted is not None:
        return chr(ord(shifted) + 128)
    return found[0][0] if found[0] in ("''", "\\\\") else ""


def spec_strings(spec_text: str) -> list[str]:
    """Give the texts to put into ``FILE_DESCRIPTION``, each within the standard's limit."""
    chunks: list[str] = []
    for line in spec_text.splitlines(keepends=True):
        for piece in _short(line):
            if chunks and len(to_string(chunks[-1] + piece)) <= _LONGEST:
                chunks[-1] += piece
            else:
                chunks.append(piece)
    return [_FOLLOWS.format(len(chunks)), *chunks]


def _short(line: str) -> list[str]:
    """Cut a long line; 20 characters of any script stay within the limit when encoded."""
    if len(to_string(line)) <= _LONGEST:
        return [line]
    return [line[i : i + 20] for i in range(0, len(line), 20)]


def spec_from_step(data: bytes) -> str | None:
    """Give the spec's text from a STEP file as it was written, or None when it carries none."""
    head = data.partition(b"FILE_NAME")[0].decode("ascii", "replace")
    texts = [from_string(s) for s in _STRING.findall(head.partition("FILE_DESCRIPTION")[2])]
    texts = texts[:-1]  # the implementation level
    follows = re.compile(re.escape(_FOLLOWS).replace(r"\{\}", r"(\d+)"))
    for i, text in enumerate(texts):
        found = follows.fullmatch(text)
        if found and len(texts) > i + int(found[1]):
            return "".join(texts[i + 1 : i + 1 + int(found[1])])
    return None
