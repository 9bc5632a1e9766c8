"""Show a file with the program that the person's system shows such files with."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path


def show(path: Path) -> str:
    """Open the file; gives why it could not be opened, or an empty text."""
    try:
        if sys.platform == "win32":
            os.startfile(path)
            return ""
        word = "open" if sys.platform == "darwin" else "xdg-open"
        subprocess.Popen(
            [word, str(path.absolute())],
            stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            start_new_session=True,
        )
    except OSError as wrong:
        return f"{path.as_posix()} cannot be shown from here: {wrong.strerror or wrong}"
    return ""
