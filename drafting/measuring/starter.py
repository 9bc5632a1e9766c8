"""A file of readings to start from: every letter of the worksheet, waiting behind a ``#``."""

from __future__ import annotations

from drafting.measuring.letters import Letter, both_turn, letters, ways
from drafting.measuring.readings_file import PORT, PORTS, ROOT, TOOLS
from drafting.spec.kinds import example
from drafting.spec.write import quote

HEAD = """\
# Readings of an old cylinder, under the letters of its worksheet:
#   drafting worksheet --body "{body}" --rod "{rod}"
# Take the # away from what you have read, and write each reading as often as it was read.
# Then: drafting measure {file} -o mine.toml      or be asked, line by line: add --ask
"""
_COLUMN = 38


def starter_readings(body: str, rod: str, units: str, file: str) -> str:
    """Give the text of a readings file for two mounts; ``file`` is what it will be called."""
    lines = [HEAD.format(body=body, rod=rod, file=file).rstrip(), ""]
    lines += [f"title = {quote('Orchard lift, the old one')}", f'units = "{units}"']
    rest = [f for f in ROOT if f.name not in ("title", "units")]
    lines += [_line(f"{f.name} = {example(f, units)}", f.doc) for f in rest]
    lines.append(_line('clock_seen_from = "rod"', "the end from which hours are read: rod, base"))
    lines += ["", "[body_mount]", f"mount = {quote(body)}"]
    lines += ["", "[rod_mount]", f"mount = {quote(rod)}"]
    if both_turn(body, rod):
        lines.append(_line("turned = 0", "degrees between the two pins: 0 in line, 90 crossed"))
    known = letters(body, rod)
    for tool in TOOLS:
        mine = [x for x in known if x.tool == tool]
        lines += ["", f"[{tool}]", *map(_letter, mine)] if mine else []
    for port in PORTS:
        lines += ["", f"# [{port}]"]
        lines += [_line(f"{f.name} = {example(f, units)}", f.doc) for f in PORT]
    return "\n".join(lines) + "\n"


def _letter(x: Letter) -> str:
    """Give a letter's line, with room for two readings; an empty one is refused."""
    way = "_outer" if "outer" in ways(x) else ""
    return _line(f'{x.letter}{way} = ["", ""]', x.what + ("" if x.needed else " (if you can)"))


def _line(text: str, meaning: str) -> str:
    return f"{'# ' + text:{_COLUMN}} # {meaning}"
