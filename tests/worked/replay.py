"""The worked examples of ``specs/worked`` as they are replayed: each is a page from top to bottom.

A block ``toml FILE`` is what the reader types into that file, ``toml +FILE`` what he adds below it,
a block ``console`` what is typed behind ``$`` and what the terminal then shows.
``python -m tests.worked.replay --write`` writes what it shows today into the pages; read the
difference before it is kept.
"""

import os
import re
import shlex
import sys
from contextlib import chdir, redirect_stderr, redirect_stdout
from io import StringIO
from pathlib import Path
from tempfile import TemporaryDirectory

from drafting.cli import main

PAGES = Path(__file__).parents[2] / "specs" / "worked"
BLOCK = re.compile(r"^```(toml|console)(?: (\+?)(\S+))?\n(.*?)^```$", re.M | re.S)


def replay(page: str, folder: Path) -> str:
    """Give a page with what the terminal shows today, every step done in a folder."""
    with chdir(folder):
        return BLOCK.sub(_block, page)


def _block(found: re.Match[str]) -> str:
    kind, more, file, text = found.groups()
    if kind == "toml":
        before = Path(file).read_text(encoding="utf-8") if more else ""
        Path(file).write_text(before + text, encoding="utf-8")
        return found[0]
    typed = [line[2:] for line in text.splitlines() if line.startswith("$ ")]
    return "```console\n" + "".join(_shown(line) for line in typed) + "```"


def _shown(line: str) -> str:
    said, told = StringIO(), StringIO()
    argv = shlex.split(line)
    assert argv[0] == "drafting", line
    with redirect_stdout(said), redirect_stderr(told):
        main(argv[1:])
    lines = (said.getvalue() + told.getvalue()).splitlines()
    return f"$ {line}\n" + "".join(f"{x.rstrip()}\n" for x in lines)


def today(path: Path) -> str:
    """Give a page as it would be written today."""
    with TemporaryDirectory() as folder:
        return replay(path.read_text(encoding="utf-8"), Path(folder))


if __name__ == "__main__":
    os.environ.pop("SOURCE_DATE_EPOCH", None)
    for page in sorted(PAGES.glob("*.md")):
        now = today(page)
        if now != page.read_text(encoding="utf-8"):
            print(page.name)
            if "--write" in sys.argv:
                page.write_text(now, encoding="utf-8")
