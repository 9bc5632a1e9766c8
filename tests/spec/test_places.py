"""The place of each value, against texts built so that every place is known beforehand.

Random layouts of valid TOML (the standard library's own reader says that they are valid, and what
they hold); each value is a number that stands only once in the text.
"""

import tomllib
from collections.abc import Iterator

from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.spec.places import find_places

KEYS = st.sampled_from(["bore", "rod-end", "x1", '"quoted key"', "'single'", '"a.b"'])
BLANK = st.sampled_from(["", "\n", "# [no] table = 1\n", "   \n", '\t# it\'s "odd"\n'])
AROUND = st.sampled_from(["", " ", "  ", "\t"])
STRINGS = st.sampled_from(
    [
        '"plain"',
        "'3 1/2\"'",
        '"esc \\" ] } # = "',
        "'C:\\path'",
        '"""many\nlines = 1\n[x]\n"""',
        "'''it's\n[y]'''",
        '""""quoted" inside"""',
        "'''ends in a quote ''''",
        "true",
        "2026-11-25 10:00:00",
    ]
)


@st.composite
def values(draw: st.DrawFn, depth: int = 0) -> str:
    """A value in which every number is the marker @, replaced by a unique one later."""
    kind = draw(st.integers(0, 3 if depth < 2 else 1))
    if kind == 0:
        return "@"
    if kind == 1:
        return draw(STRINGS)
    inner = draw(st.lists(values(depth + 1), max_size=3))
    if kind == 2:
        gap = draw(st.sampled_from(["", " ", "\n", " # , ] note\n  "]))
        return "[" + "".join(f"{gap}{v}," for v in inner) + gap + "]"
    one_line = [v for v in inner if "\n" not in v]
    return "{" + ", ".join(f"k{n} = {v}" for n, v in enumerate(one_line)) + "}"


@st.composite
def texts(draw: st.DrawFn) -> str:
    lines = []
    for table in range(draw(st.integers(0, 4))):
        head = draw(
            st.sampled_from([f"[t{table}]", f"[t{table}.sub]", "[[many]]", "[[many.more]]"])
        )
        if table == 0 or (head == "[[many.more]]" and "[[many]]\n" not in "".join(lines)):
            head = ""
        lines.append(f"{head}\n" if head else "")
        for n in range(draw(st.integers(0, 4))):
            key = draw(KEYS).replace("key", f"key{table}{n}")
            key = f"{key}.n{table}{n}" if draw(st.booleans()) else f"k{table}{n}"
            a, b, tail = draw(AROUND), draw(AROUND), draw(st.sampled_from(["", " # note = 3"]))
            lines.append(f"{draw(BLANK)}{a}{key}{b}={a}{draw(values())}{b}{tail}\n")
    text = "".join(lines)
    count = text.count("@")
    for n in range(count):
        text = text.replace("@", str(700_000_000 + n), 1)
    return text


def numbers(value: object, path: tuple = ()) -> Iterator[tuple[tuple, int]]:
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from numbers(inner, (*path, key))
    elif isinstance(value, list):
        for n, inner in enumerate(value):
            yield from numbers(inner, (*path, n))
    elif isinstance(value, int) and not isinstance(value, bool):
        yield path, value


@settings(deadline=None)
@given(texts())
def test_every_number_is_found_where_it_stands(text: str) -> None:
    places = find_places(text)
    lines = text.split("\n")
    for path, number in numbers(tomllib.loads(text)):
        place = places[path]
        assert lines[place.line - 1][place.column - 1 :].startswith(str(number))
        assert place.raw == str(number)
        assert text.count(str(number)) == 1


def test_keys_tables_and_arrays_of_tables() -> None:
    text = 'a = 1\n\n[t]\n  b.c = [1,\n 22]\n[[m]]\nx = {y = 5, z = "w"}\n[[m]]\n[m.n]\nq = 7\n'
    places = find_places(text)
    assert (places["t",].line, places["t",].column) == (3, 1)
    assert (places["t", "b", "c"].line, places["t", "b", "c"].column) == (4, 9)
    assert (places["t", "b", "c"].key_line, places["t", "b", "c"].key_column) == (4, 3)
    assert (places["t", "b", "c", 1].line, places["t", "b", "c", 1].column) == (5, 2)
    assert (places["m", 0, "x", "z"].line, places["m", 0, "x", "z"].column) == (7, 17)
    assert places["m", 1].line == 8
    assert places["m", 1, "n", "q"].line == 10
