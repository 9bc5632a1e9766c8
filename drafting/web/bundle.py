"""The page's scripts as one: a browser asks once, not a dozen times.

Each module becomes a function that gives what it exports; the last one stands open. Of the language
of modules that is read which ours use: ``import { a, b } from "./x.js"`` on a line of its own, and
``export`` before const, class or function.
"""

from __future__ import annotations

import re
from pathlib import Path

_IMPORT = re.compile(r'^import \{ ([^}]*) \} from "\./([\w-]+)\.js";$', re.MULTILINE)
_EXPORT = re.compile(r"^export ((?:const|class|(?:async )?function\*?) (\$|\w+))", re.MULTILINE)


def bundle(main: Path, before: tuple[Path, ...] = ()) -> str:
    """Give a module and all that it imports as one script, plain scripts ``before`` it first."""
    texts = [p.read_text(encoding="utf-8") for p in before]
    done: dict[Path, None] = {}
    for path in _in_order(main, done):
        text = _IMPORT.sub(r"const { \1 } = from_\2;", path.read_text(encoding="utf-8"))
        names = ", ".join(name for _, name in _EXPORT.findall(text))
        text = _EXPORT.sub(r"\1", text)
        whole = path == main
        texts.append(
            text
            if whole
            else f"const from_{path.stem} = (() => {{\n{text}return {{ {names} }};\n}})();\n"
        )
    return "\n".join(texts)


def _in_order(path: Path, done: dict[Path, None]) -> list[Path]:
    """Give a module's imports, each before who imports it, and itself."""
    if path in done:
        return []
    done[path] = None
    needed = [path.with_name(f"{m[2]}.js") for m in _IMPORT.finditer(path.read_text("utf-8"))]
    return [*(p for n in needed for p in _in_order(n, done)), path]
