"""The first answer: the page with its style, its script, the form and the person's file in it.

A browser asks once and can paint; each further file that it had to ask for first cost it a frame.
"""

from __future__ import annotations

import json
from base64 import b64encode
from functools import cache
from hashlib import sha256
from pathlib import Path
from typing import Any

from drafting.web.bundle import bundle

_WEB = Path(__file__).parent
_PAGE = _WEB / "page"
_LENGTHS = _WEB.parent / "viewing" / "lengths.js"


def first(state: dict[str, Any]) -> str:
    """Give the page for the person's file as it is now."""
    before, behind = _around()
    told = json.dumps({"form": form_rows(), "state": state})
    return before + told.replace("<", "\\u003c") + behind  # nothing typed ends what holds it


@cache
def form_rows() -> dict[str, Any]:
    """Give what the form asks; it stays the same."""
    from drafting.web.form import form

    return form()


@cache
def script() -> str:
    """Give the page's own script. It is plain: a module would run behind an empty first frame."""
    return f"(() => {{\n{bundle(_PAGE / 'page.js', (_LENGTHS,))}}})();\n"


def script_source() -> str:
    """Give by what a browser's policy knows the page's own script, and lets no other one run."""
    return f"'sha256-{b64encode(sha256(script().encode()).digest()).decode()}'"


@cache
def _around() -> tuple[str, str]:
    """Give the page before and behind what is told in it."""
    html = (_PAGE / "page.html").read_text("utf-8")
    style = (_PAGE / "page.css").read_text("utf-8")
    before, _, behind = html.partition("{told}")
    return before.replace("{style}", style), behind.replace("{script}", script())
