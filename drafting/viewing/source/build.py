"""Make three-viewer.js anew: one classic script of viewer.mjs and what it takes of three.js.

    python drafting/viewing/source/build.py

Needs Node.js with npm, and the npm registry. Nothing of this is needed to use or test the tool: the
script is committed, with the licence of three.js (MIT) in LICENSE-three.txt.
"""

from __future__ import annotations

import shutil
import subprocess
import tempfile
from pathlib import Path

HERE = Path(__file__).parent
OUT = HERE.parent / "three-viewer.js"
COMMAND = (
    "npx esbuild viewer.mjs --bundle --minify --format=iife --global-name=Solid "
    "--target=es2020 --legal-comments=none --charset=ascii"
)


def main() -> None:
    """Bundle in a folder of its own, and write script and licence."""
    with tempfile.TemporaryDirectory() as folder:
        for name in ("viewer.mjs", "package.json"):
            shutil.copy(HERE / name, folder)
        npm = shutil.which("npm") or "npm"
        subprocess.run([npm, "install", "--silent"], cwd=folder, check=True)
        npx = shutil.which("npx") or "npx"
        made = subprocess.run(
            [npx, *COMMAND.split()[1:]], cwd=folder, check=True, capture_output=True, text=True
        ).stdout
        OUT.write_text(made, encoding="ascii", newline="\n")
        licence = Path(folder, "node_modules", "three", "LICENSE").read_text(encoding="utf-8")
        (HERE.parent / "LICENSE-three.txt").write_text(licence, encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
