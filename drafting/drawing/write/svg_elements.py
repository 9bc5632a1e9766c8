"""The elements of an SVG file, made by svgwrite without its checks: what we write is known.

Of the time that svgwrite takes to load nine tenths are ``urllib.request``, for a function that
fetches style sheets, and the patterns of a parser for its checks; here both wait until they are
called.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from functools import cache
from importlib import import_module
from types import ModuleType
from typing import Any
from xml.etree import ElementTree

_LATER = {
    "urllib.request": ("urlopen",),
    "svgwrite.data.svgparser": (
        "is_valid_transferlist",
        "is_valid_pathdata",
        "is_valid_animation_timing",
    ),
}
"""What svgwrite takes from modules that are loaded when somebody calls it."""
_WORDS = ("text", "title", "desc", "style", "spec")
"""Elements whose content is their text: a line end in it would be printed."""


@cache
def package() -> Any:
    """Give svgwrite."""
    absent = [] if "svgwrite" in sys.modules else [m for m in _LATER if m not in sys.modules]
    for module in absent:
        stand_in = sys.modules[module] = ModuleType(module)
        vars(stand_in).update({name: _when_called(module, name) for name in _LATER[module]})
    try:
        import svgwrite
    finally:
        for module in absent:
            del sys.modules[module]
    return svgwrite


def _when_called(module: str, name: str) -> Callable[..., Any]:
    def call(*given: Any, **named: Any) -> Any:
        return getattr(import_module(module), name)(*given, **named)

    return call


def drawing(wide: str, high: str, **attributes: str) -> Any:
    """Make the root: a drawing of a size, with further attributes."""
    made = package().Drawing(size=(wide, high), debug=False, **_known(attributes))
    made.elements.remove(made.defs)  # put back behind title, description and metadata
    return made


def group(**attributes: str) -> Any:
    """Make a group."""
    return package().container.Group(debug=False, **_known(attributes))


def path(track: str, **attributes: str) -> Any:
    """Make a path from its commands in one text."""
    return package().path.Path((track,), debug=False, **_known(attributes))


def text(words: str, **attributes: str) -> Any:
    """Make a line of lettering."""
    return package().text.Text(words, debug=False, **_known(attributes))


def rectangle(**attributes: str) -> Any:
    """Make a rectangle."""
    made = package().shapes.Rect(debug=False)
    made.attribs.clear()
    made.update(_known(attributes))
    return made


def named(kind: str, words: str, ident: str) -> Any:
    """Make a ``title`` or a ``desc``; ``ident`` is its id, or nothing."""
    made = {"title": package().base.Title, "desc": package().base.Desc}[kind](words)
    if ident:
        made.xml.set("id", ident)
    return made


def metadata(carried: ElementTree.Element) -> Any:
    """Make the metadata that carry an element."""
    return package().base.Metadata(carried)


def style(css: str) -> Any:
    """Make a style sheet."""
    return package().container.Style(css, debug=False)


def lines(root: Any) -> bytes:
    """Write the file, one element a line, so that a change shows as a change of few lines."""
    tree: ElementTree.Element = root.get_xml()
    for element in tree.iter():
        if element.tag in _WORDS:
            continue
        if len(element):
            element.text = "\n"
        for child in element:
            child.tail = "\n"
    xml = ElementTree.tostring(tree, encoding="unicode")
    return f'<?xml version="1.0" encoding="utf-8"?>\n{xml}\n'.encode()


def _known(attributes: dict[str, str]) -> dict[str, str]:
    """Leave out what is empty; ``font_size`` stands for font-size."""
    return {k: v for k, v in attributes.items() if v}
