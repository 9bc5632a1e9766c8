"""Forms that came back from builders, read and held against what was asked."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from drafting.asking.answers import Reply, reply
from drafting.errors import Fault, Refused
from drafting.jobs.foreign import form_fields
from drafting.jobs.recover import older
from drafting.model.cylinder import Cylinder
from drafting.model.load import checked, load


def read_replies(
    paths: Sequence[str], asked: Cylinder | None
) -> tuple[Cylinder, tuple[Reply, ...]]:
    """Read forms; without the spec that was asked, the one inside the first form is taken.

    Raises Refused with all forms that cannot be read or answer another question.
    """
    faults: list[Fault] = []
    found: list[Reply] = []
    for path in paths:
        try:
            fields = form_fields(Path(path))
            asked = asked or older(Path(path))
            found.append(_compared(asked, reply(asked, fields, path, _faults)))
        except Refused as refused:
            faults += refused.faults
    if faults or asked is None:
        raise Refused(faults)
    return asked, tuple(found)


def _compared(asked: Cylinder, found: Reply) -> Reply:
    """Judge what the builder would make in place of what was asked, by the rules of replacement."""
    if not found.changed:
        return found
    from drafting.replacing.judge import compare
    from drafting.replacing.known import subject
    from drafting.replacing.summary import summary

    text = found.spec.encode("utf-8", "surrogatepass")
    offered = load(checked(text, "answered"))
    judged = compare(subject(asked), subject(offered))
    return replace(found, compared=summary(judged))


def _faults(text: str) -> Sequence[Fault]:
    try:
        load(checked(text.encode("utf-8", "surrogatepass"), "answered"))
    except Refused as refused:
        return refused.faults
    return ()
