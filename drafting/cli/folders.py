"""Where files go: what a person names for them is looked at before any work is done."""

from __future__ import annotations

from collections.abc import Collection
from pathlib import Path

from drafting.cli.arguments import FORMATS
from drafting.cli.say import named_file
from drafting.errors import Fault, Refused


def a_folder(option: str, text: str, alone: Collection[str] = ()) -> Path:
    """Give the folder to write to; raises Refused for the name of a file, and for one below a file.

    ``alone`` are the formats that ``--formats`` writes without the others.
    """
    named_file(option, text)
    folder = Path(text)
    word = folder.suffix.lower().removeprefix(".")
    if word in (*FORMATS, "stp", "toml", "zip", "xlsx") and not folder.is_dir():
        only = f"; for the {word.upper()} alone: --formats {word}" if word in alone else ""
        raise _no_folder(
            option,
            f"{text} looks like a file; {option} names the folder, and the files have names of "
            f"their own, after the drawing's number{only}",
        )
    there = next((p for p in (folder, *folder.parents) if p.exists()), folder)
    if there.exists() and not there.is_dir():
        raise _no_folder(option, f"{there} is a file and no folder; name another with {option}")
    return folder


def _no_folder(option: str, message: str) -> Refused:
    return Refused([Fault("command line", 1, 1, "no-folder", option, message)])
