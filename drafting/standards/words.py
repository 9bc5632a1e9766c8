"""How the trade's words for threads and ports are brought to one spelling and found in a table.

A table's TOML holds patterns: regular expressions in capitals in which ``{column}`` stands for
what the column holds (``{size/major_mm}``: a plain size, compared with the number in a column) and
``<part>`` for a piece from the entry's own ``parts``.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from fractions import Fraction
from functools import cache

from drafting.standards.table import Row
from drafting.units import format_inch, without_glyphs

SIZE = r"(?:[0-9]+ [0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]+(?:\.[0-9]+)?)"
TPI = r"[0-9]+(?:\.[0-9]+| 1/2)?"
SHAPES = {
    "thread": rf"(?:M[0-9]+(?:\.[0-9]+)?X[0-9]+(?:\.[0-9]+)?|{SIZE}-{TPI})",
    "tpi": TPI,
    "dash": "[0-9]+",
}
"""How a column's words look in typed text; every other column holds a size."""

_SAME = str.maketrans(
    {"″": '"', "”": '"', "“": '"', "⁄": "/", "∕": "/", "×": "x", "*": "x"}
    | dict.fromkeys("‐‑–—−", "-")
    | dict.fromkeys("()", " ")
)
_NUMBER = re.compile(r"([0-9]+) ([0-9]+)/([0-9]+)|([0-9]+)/([0-9]+)|([0-9]+(?:\.[0-9]+)?)")
_PLACE = re.compile(r"\{(\w+)(?:/(\w+))?\}")
_GROUP = re.compile(r"\([^()]*\)[?*]?|\{[^}]*\}|\[[^]]*\][?*]?")
_OPTIONAL = re.compile(r".[?*]")
_WORD = re.compile(r"[A-Z0-9]+")
_FILL = re.compile(r"\{(\w+)(?::([^}]*))?\}")


def tidy(text: str) -> str:
    """Bring a typed word to capitals, plain signs, single blanks: ``1-1/16"`` is ``1 1/16``."""
    text = without_glyphs(text).translate(_SAME).upper().replace("''", '"')
    text = re.sub(r"(?<=[0-9])\s*(?:\"|INCH\b|IN\b\.?)", " ", text)
    text = " ".join(text.split())
    text = re.sub(r"(?<=[0-9]),(?=[0-9])", ".", text)
    text = re.sub(r"(?<=[0-9]) ?X ?(?=[0-9])", "X", text)
    text = re.sub(r" ?/ ?", "/", text)
    text = re.sub(r"\bM (?=[0-9])", "M", text)
    text = re.sub(r"(?<=\w) - (?=\w)|(?<=[0-9]) -(?=[0-9])|(?<=[0-9])- (?=\w)", "-", text)
    text = re.sub(r"(?<![-#0-9/.X])([0-9]+)-([0-9]+/[0-9]+)", r"\1 \2", text)
    text = re.sub(r"(?<=[0-9])\.0+(?![0-9])", "", text)
    return text.strip(" -") if text.endswith("-") else text


def magnitude(text: str) -> float:
    """Give the first number of a word: ``1 1/16-12`` is 1.0625, ``M22x1.5`` is 22, ``-8`` is 8."""
    found = _NUMBER.search(text)
    if not found:
        raise ValueError(f'no number in "{text}"')
    whole, top, bottom, t, b, plain = found.groups()
    try:
        if plain:
            return float(plain)
        return float(int(whole or 0) + Fraction(int(top or t), int(bottom or b)))
    except ZeroDivisionError:
        raise ValueError(f'"{text}" divides by zero') from None


def match(pattern: str, parts: Mapping[str, str], text: str) -> dict[str, str] | None:
    """Give what a tidy text says for each ``shape/column`` of a pattern, or None.

    Keys are columns; a key ``thread`` must agree word for word, any other by its number.
    """
    for name, part in parts.items():
        pattern = pattern.replace(f"<{name}>", part)
    if not all(word in text for word in _fixed(pattern)):
        return None
    expression, columns = _compiled(pattern)
    found = expression.fullmatch(text)
    if not found:
        return None
    said = {columns.get(k, k): v for k, v in found.groupdict().items() if v is not None}
    return None if any(re.search(r"/0+(?![0-9])", v) for v in said.values()) else said


def pick(rows: Iterable[Row], said: Mapping[str, str]) -> tuple[Row, ...]:
    """Give the rows that agree with everything that was said."""
    return tuple(r for r in rows if all(_agrees(r, c, t) for c, t in said.items()))


def fill(template: str, row: Row) -> str:
    """Put a row's words into a template; inches come as fractions, ``{c:-2B}`` loses that end."""
    return _FILL.sub(lambda m: _word(row, m[1]).removesuffix(m[2] or ""), template)


def _word(row: Row, column: str) -> str:
    value = row.cells[column]
    if isinstance(value, float) and column.endswith("_in"):
        return format_inch(value * 25.4, 64)
    return row.word(column)


def _agrees(row: Row, column: str, text: str) -> bool:
    cell = row.word(column)
    if re.search(r"X|[0-9]-[0-9]", text) or not text[0].isdigit():
        return tidy(cell) == tidy(text)
    try:
        return abs(magnitude(cell) - magnitude(text)) < 1e-9
    except ValueError:
        return False


@cache
def _fixed(pattern: str) -> tuple[str, ...]:
    """Give words that a text must have to match: few patterns are worth compiling for one text."""
    while (bare := _GROUP.sub(" ", pattern)) != pattern:
        pattern = bare
    if "|" in pattern:
        return ()
    return tuple(_WORD.findall(_OPTIONAL.sub(" ", pattern)))


@cache
def _compiled(pattern: str) -> tuple[re.Pattern[str], dict[str, str]]:
    columns: dict[str, str] = {}

    def group(m: re.Match[str]) -> str:
        shape, column = m[1], m[2] or m[1]
        columns[shape] = column
        return f"(?P<{shape}>{SHAPES.get(shape, SIZE)})"

    return re.compile(_PLACE.sub(group, pattern)), columns
