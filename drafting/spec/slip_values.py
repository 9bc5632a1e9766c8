"""What people mistype behind an equals sign, and what would do."""

from __future__ import annotations

import re

_CURLY = str.maketrans({"“": '"', "”": '"', "„": '"', "‘": "'", "’": "'"})
INVISIBLE = re.compile("[\u00a0\u200b\u202f\ufeff]")
_LONGEST = 200
_YES_NO = ("true", "false", "yes", "no", "on", "off")


def value_slip(key: str, v: str, reason: str) -> tuple[str, str]:
    """Give code and message for a value that is no TOML."""
    if not v:
        return "no-value", "nothing stands after the =; write a value, or leave the line out"
    if len(v) > _LONGEST:
        return "too-long", f"{len(v)} characters that TOML cannot read; write the value anew"
    if v[0] == "=":
        return "no-value", f"one = is enough: {key} = {as_typed(v.lstrip('= '))}"
    if v[0] in "[{":
        return (
            "in-list",
            f"found {v}; in a list or in braces the entries are parted by commas, all on one line, "
            'and what is no plain number is put in quotes: ["3 1/2", 6]',
        )
    if "character" in reason and not _open(v):
        return "invisible-character", "an invisible character stands in this line; retype it"
    if v.translate(_CURLY) != v and v[0] not in "\"'":
        inside = v.translate(_CURLY).strip("\"'")
        return (
            "curly-quotes",
            f"found {v} with curly quotes from a word processor; put it in quotes that are "
            f"straight: {key} = {_quoted(inside)}",
        )
    if v[0] in "\"'":
        return _string_slip(key, v, reason)
    if re.fullmatch(r"\S*[,;]", v):
        return "stray-mark", f"drop the {v[-1]} at the end of the line: {key} = {v[:-1]}"
    return _bare_slip(key, v)


def _bare_slip(key: str, v: str) -> tuple[str, str]:
    if re.fullmatch(r"[+-]?\d+,\d+.*", v):
        if re.search(r",\d{3}", v):
            whole, point = as_typed(v.replace(",", "")), as_typed(v.replace(",", "."))
            return "decimal-comma", f"found {v}; write {key} = {whole}, or {point} if that is meant"
        point = as_typed(v.replace(",", "."))
        return "decimal-comma", f"found {v}; write a point in place of the comma: {key} = {point}"
    if re.fullmatch(r"\.\d+", v):
        return "bare-point", f"found {v}; write a zero before the point: {key} = 0{v}"
    if re.fullmatch(r"\d+\.", v):
        return "bare-point", f"found {v}; write no point without digits after it: {key} = {v[:-1]}"
    if re.fullmatch(r"0\d+(\.\d*)?", v):
        return "leading-zero", f"found {v}; write {key} = {v.lstrip('0').rstrip('.')}"
    if v.lower() in _YES_NO:
        meant = "true" if v.lower() in ("true", "yes", "on") else "false"
        return "not-yes-or-no", f"found {v}; write {key} = {meant}, in small letters"
    hour = re.fullmatch(r"(\d+):(\d\d)", v)
    if hour and not 1 <= int(hour[1]) <= 12:
        return "not-a-clock", f'found {v}; hours go from 1 to 12; put it in quotes: {key} = "1:30"'
    return "put-in-quotes", f"found {v}; put it in quotes: {key} = {_quoted(v)}"


def _string_slip(key: str, v: str, reason: str) -> tuple[str, str]:
    mark = v[0]
    inside, tail = v[1:].rstrip(mark), v[1:].partition(mark)[2].strip()
    if _open(v):
        return (
            "open-string",
            f"the closing quote is missing; put it in quotes on both sides: {key} = "
            f"{_quoted(inside)}",
        )
    if mark == '"' and "\\" in v and not tail:
        return (
            "backslash",
            "a backslash within double quotes has a meaning of its own; use / in its place, or "
            f"put it in single quotes: {key} = '{v[1:-1]}'",
        )
    if tail and re.match(r"[\d.\s]", v[1:]) and v[-1] in "\"'" and v[1:-1].count(mark) >= 1:
        return (
            "inch-mark",
            f"found {v}, in which the mark of the size ends the quotes; put it in quotes with the "
            f"unit in letters: {key} = {_quoted(v[1:-1])}"
            + (f", or in single quotes: {key} = '{v[1:-1]}'" if "'" not in v[1:-1] else ""),
        )
    if tail:
        return (
            "outside-quotes",
            f"found {v}; put all of it in quotes: {key} = {_quoted(v[1:].replace(mark, '', 1))}",
        )
    return "toml", f"found {v}: {reason}"


def _open(v: str) -> bool:
    return v[0] in "\"'" and v[0] not in v[1:]


def as_typed(text: str) -> str:
    """Give a value as it would be typed: a plain number as it is, anything else in quotes."""
    plain = re.fullmatch(r"-?(0|[1-9]\d*)(\.\d+)?|true|false", text)
    return text if plain or text[:1] in "[{" else _quoted(text)


def _quoted(text: str) -> str:
    """Give a value as it would be typed: feet and inch marks in letters, in double quotes."""
    text = text.strip().strip("\"'") if text[:1] in "\"'" else text.strip()
    if re.match(r"[\d.½¼¾⅓⅔⅛⅜⅝⅞]", text):
        text = re.sub(r"''|[\"″”]", " in", text)
        text = re.sub(r"(\d)\s*['′’]\s*-?\s*", r"\1 ft ", text)
    text = " ".join(text.split()).replace('"', "")
    return f'"{text}"'


def without_comment(v: str) -> str:
    """Give the value without the comment behind it; a # within quotes is no comment."""
    mark = ""
    for i, c in enumerate(v):
        if mark:
            mark = "" if c == mark else mark
        elif c in "\"'" and not v[:i].strip().rstrip("[{,= "):
            mark = c
        elif c == "#":
            return v[:i].strip()
    head, found, _ = v.rpartition(" #")
    return (head if found and mark else v).strip()
