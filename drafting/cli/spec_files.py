"""Which files are meant by the words that stand where specs stand."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import Path

from drafting.cli.say import tell
from drafting.errors import Fault, Refused
from drafting.spec.content import STDIN
from drafting.spec.given import SHOP_FILE

MOST = 1000
"""Files of one pattern."""


def specs_among(words: Sequence[str]) -> list[str]:
    """Give the spec files that are meant, each once; raises Refused for a folder, with its files.

    ``a`` is ``a.toml`` where only that is there. ``*.toml`` is read here for shells that hand it on
    as it stands. The file of company defaults (``*.toml`` names it too) is left out, and told.
    """
    paths = list(dict.fromkeys(p for word in words for p in _meant(word)))
    specs = [p for p in paths if Path(p).name != SHOP_FILE]
    for path in paths:
        if path in specs:
            continue
        if not specs:
            message = "this file gives company defaults; name a spec file that they stand under"
            raise _refused(path, "no-spec", message)
        tell(f"{path}: company defaults, no spec; they stand under the specs beside them")
    return specs


def _meant(word: str) -> Iterable[str]:
    if word == STDIN:
        return [word]
    path = Path(word)
    try:
        if path.is_dir():
            raise _refused(word, "no-file", f"this is a folder; {_inside(word)}")
        if path.exists():
            return [word]
    except (OSError, ValueError):
        return [word]  # reading it will say what is wrong with the name
    if any(sign in word for sign in "*?["):
        return _matching(word)
    if not path.suffix and Path(f"{word}.toml").is_file():
        tell(f"{word}: taken as {word}.toml")
        return [f"{word}.toml"]
    return [word]


def _matching(pattern: str) -> list[str]:
    from glob import glob

    found = sorted(glob(pattern))[: MOST + 1]
    if not found or len(found) > MOST:
        many = f"more than {MOST} files" if found else "no file"
        raise _refused(pattern, "no-file", f"{many} of that pattern; check the folder")
    return found


def _inside(folder: str) -> str:
    """Say how the specs of a folder are named."""
    every = f"{folder.rstrip('/')}/*.toml"
    try:
        names = sorted(p.name for p in Path(folder).glob("*.toml") if p.name != SHOP_FILE)
    except OSError:
        names = []
    if not names:
        return "there is no spec file (.toml) in it"
    some = ", ".join(names[:3]) + (", ..." if len(names) > 3 else "")
    return f'name a file in it ({some}), or all: "{every}"'


def _refused(file: str, code: str, message: str) -> Refused:
    return Refused([Fault(file, 1, 1, code, "", message)])
