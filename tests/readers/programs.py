"""Other people's programs that read our files; a test skips in plain words where one is absent."""

import json
import os
import shutil
import subprocess
from pathlib import Path

import numpy as np
import pytest

_SCRIPTS = Path(__file__).parent / "scripts"
_SECONDS = 120


def program(name, package):
    """Path of a program, or skip."""
    found = shutil.which(name)
    if found is None:
        pytest.skip(f"{name} is not here (Debian: apt-get install {package}): nothing was read")
    return found


def run(command, home, **more):
    """Run a program with an empty home, so that no one's settings matter; its whole result."""
    env = {
        "PATH": os.environ["PATH"],
        "HOME": str(home),
        "XDG_RUNTIME_DIR": str(home),
        "QT_QPA_PLATFORM": "offscreen",
        "LANG": "C.UTF-8",
        **more,
    }
    words = [str(c) for c in command]
    return subprocess.run(words, env=env, cwd=home, capture_output=True, timeout=_SECONDS)


def freecad(script, file, home):
    """What a script of ours, run inside FreeCAD, tells of a file."""
    command = program("freecadcmd", "freecad freecad-python3")
    told = home / "told.json"
    done = run([command, _SCRIPTS / script], home, READ_FILE=str(file), TELL_FILE=str(told))
    assert told.exists(), (done.stdout + done.stderr).decode(errors="replace")[-2000:]
    return json.loads(told.read_text(encoding="utf-8"))


def ink(pdf, home, dpi=100, darker_than=200):
    """Page size, and left, top, right, bottom of all that is drawn on page 1 (mm)."""
    command = program("pdftoppm", "poppler-utils")
    raw = run([command, "-r", dpi, "-gray", "-singlefile", pdf], home).stdout
    kind, size, _, grey = raw.split(b"\n", 3)
    assert kind == b"P5"
    wide, high = (int(n) for n in size.split())
    rows, columns = np.nonzero(np.frombuffer(grey, np.uint8).reshape(high, wide) < darker_than)
    assert len(rows), "an empty page"
    mm = 25.4 / dpi
    box = (columns.min() * mm, rows.min() * mm, (columns.max() + 1) * mm, (rows.max() + 1) * mm)
    return (wide * mm, high * mm), box
