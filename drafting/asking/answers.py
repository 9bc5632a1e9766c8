"""What a builder's form says against what was asked: changed, tolerated, answered, priced."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence

from drafting.asking.asked import Asked, make_asked, sizes_asked
from drafting.asking.edit import written_in
from drafting.asking.form import IDENTITY, NOTES, QUOTE, identity
from drafting.errors import Fault, Refused
from drafting.factors import Misread
from drafting.model.cylinder import Cylinder
from drafting.records import dataclass
from drafting.spec.edit import field_of
from drafting.spec.kinds import read_value
from drafting.spec.tolerance_sense import MARK

_FIELD = re.compile(r"\(([a-z_]+(?:\.[a-z_]+)*)\)\s*$")
Fields = Mapping[str, tuple[str, str]]
"""By the name of a field what stands in it, and what it asks."""
MOST_LETTERS = 200


@dataclass(frozen=True, slots=True)
class Change:
    """A size or word that the builder has otherwise; ``meets``: it meets the machine."""

    field: str
    words: str
    asked: str
    answered: str
    meets: bool


@dataclass(frozen=True, slots=True)
class Answer:
    """What he says of a question or a tolerance; ``field`` is empty where no field takes it."""

    field: str
    words: str
    value: str


@dataclass(frozen=True, slots=True)
class Unread:
    """What he wrote and no spec takes as it stands, and why."""

    field: str
    value: str
    why: str


@dataclass(frozen=True, slots=True)
class Reply:
    """One form that came back; ``spec`` is the asked one with all in it that it takes.

    ``compared`` says in a line what the answered cylinder is in place of the asked one.
    """

    file: str
    builder: str
    quote: tuple[tuple[str, str], ...]
    notes: str
    changed: tuple[Change, ...]
    answered: tuple[Answer, ...]
    unread: tuple[Unread, ...]
    spec: str
    compared: str = ""


def reply(c: Cylinder, fields: Fields, file: str, loads: Callable[[str], Sequence[Fault]]) -> Reply:
    """Read a form's fields against the cylinder that was asked for.

    ``loads`` gives the faults of a spec's text. Raises Refused for a form of another drawing.
    """
    _is_of(c, fields, file)
    put = {name: " ".join(text.split()) for name, (text, _) in fields.items()}
    changed = tuple(_changes(c, put))
    answers = tuple(_answers(c, fields, put))
    wanted = {k.field: k.answered for k in changed}
    wanted |= {a.field: a.value for a in answers if a.field}
    builder = put.get("quote.builder", "")
    text, unread = _spec(c, wanted, builder, loads)
    quote = tuple((words, put[name]) for name, words in QUOTE if put.get(name))
    not_taken = {u.field for u in unread}
    answers = tuple(a for a in answers if not a.field or a.field not in not_taken)
    return Reply(file, builder, quote, fields.get(NOTES, ("", ""))[0].strip(), changed, answers,
                 tuple(unread), text)  # fmt: skip


def _is_of(c: Cylinder, fields: Fields, file: str) -> None:
    """Refuse a form of another drawing, revision or input."""
    faults = []
    for name, own, words in zip(IDENTITY, identity(c), _SAID, strict=True):
        theirs = fields.get(name, ("", ""))[0].strip()
        if theirs != own:
            found = f'"{theirs[:20]}"' if theirs else "none"
            message = (
                f"this form has {words} {found}, the drawing has "
                f'"{own[:20]}": it answers another question; ask for the form of this drawing'
            )
            faults.append(Fault(file, 1, 1, "another-drawing", name, message))
    if faults:
        raise Refused(faults)


_SAID = ("the drawing number", "revision", "the input hash")


def _changes(c: Cylinder, put: Mapping[str, str]) -> Iterator[Change]:
    for asked in (*sizes_asked(c), *make_asked(c)):
        theirs = put.get(asked.name, asked.text)
        if theirs and not _same(asked, theirs, c.spec.units):
            yield Change(asked.name, asked.words, asked.text, theirs, asked.meets)


def _same(asked: Asked, theirs: str, units: str) -> bool:
    """Tell whether it says the same: the same words, or the same size in other ones."""
    if theirs.casefold() == " ".join(asked.text.split()).casefold():
        return True
    field = field_of(asked.name)
    if asked.mm is None or field is None:
        return False
    try:
        value, _ = read_value(theirs, theirs, field, units)
    except Misread:
        return False
    return isinstance(value, int | float) and abs(float(value) - asked.mm) < 1e-3


def _answers(c: Cylinder, fields: Fields, put: Mapping[str, str]) -> Iterator[Answer]:
    for asked in sizes_asked(c):
        theirs = put.get(f"{asked.name}.tolerance", "")
        if asked.tolerance is not None and theirs and theirs != asked.tolerance:
            table, _, rest = asked.name.partition(".")
            yield Answer(f"{table}{MARK}{rest}", f"{asked.words}, tolerance", theirs)
    known = filter(None, (re.fullmatch(r"answer\.(\d{1,3})", name) for name in put))
    numbers = sorted(int(n[1]) for n in known)
    for n in numbers:
        if put[f"answer.{n}"]:
            asks = fields[f"answer.{n}"][1]
            found = _FIELD.search(asks)
            name = found[1] if found and field_of(found[1]) is not None else ""
            yield Answer(name, _FIELD.sub("", asks).strip(), put[f"answer.{n}"])


def _spec(
    c: Cylinder, wanted: Mapping[str, str], builder: str, loads: Callable[[str], Sequence[Fault]]
) -> tuple[str, list[Unread]]:
    """Give the spec with all that it takes; what makes it impossible is left out and told."""
    note = builder[:MOST_LETTERS]
    if not wanted:
        return c.spec.text, []
    text = written_in(c.spec.text, wanted, note)
    if not loads(text):
        return text, []
    taken: dict[str, str] = {}
    unread = []
    for name, value in wanted.items():
        faults = loads(written_in(c.spec.text, {**taken, name: value}, note))
        if faults:
            unread.append(Unread(name, value, faults[0].message))
        else:
            taken[name] = value
    return (written_in(c.spec.text, taken, note) if taken else c.spec.text), unread
