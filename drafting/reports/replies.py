"""What builders answered, for a person: what meets the machine first, then builder by builder."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from drafting.asking.answers import Change, Reply

WIDE = 100


def replies_text(replies: Sequence[Reply]) -> str:
    """Give the report of one or several forms."""
    return "\n".join(_lines(replies)) + "\n"


def _lines(replies: Sequence[Reply]) -> Iterator[str]:
    meeting = [(r, k) for r in replies for k in r.changed if k.meets]
    if meeting:
        yield (
            f"CHANGED WHERE IT MEETS THE MACHINE   {len(meeting)} sizes"
            if len(meeting) > 1
            else "CHANGED WHERE IT MEETS THE MACHINE   1 size"
        )
        for r, k in meeting:
            yield f"  {_who(r)}: {_change(k)}   do not order before this is settled"
    else:
        yield "Nothing that meets the machine was changed."
    if len(replies) > 1:
        yield ""
        yield from _table(replies)
    for r in replies:
        yield ""
        yield f"{_who(r)}   {r.file}"
        yield from _one(r)


def _who(r: Reply) -> str:
    return r.builder or r.file


def _change(k: Change) -> str:
    return f"{k.words}: asked {k.asked}, offers {k.answered}"


def _one(r: Reply) -> Iterator[str]:
    for words, said in r.quote:
        yield f"  {words:<26}{said}"
    for k in r.changed:
        yield f"  changed   {_change(k)}"
    for a in r.answered:
        yield f"  answered  {a.words}: {a.value}"
    for u in r.unread:
        yield f"  not taken {u.field}: {u.value}   {u.why}"
    if r.compared:
        yield f"  in place of what was asked: {r.compared}"
    if r.notes:
        yield "  notes     " + " ".join(r.notes.split())


def _table(replies: Sequence[Reply]) -> Iterator[str]:
    """Set builders beside each other: what each changes, states, answers, asks for."""
    words = list(dict.fromkeys(w for r in replies for w, _ in r.quote if w != "Builder"))
    rows = [("", [_who(r) for r in replies])]
    rows += [(w, [dict(r.quote).get(w, "-") for r in replies]) for w in words]
    rows.append(("Sizes changed", [str(len(r.changed)) for r in replies]))
    stated = [sum(".tolerance." in a.field for a in r.answered) for r in replies]
    rows.append(("Tolerances stated", [str(n) for n in stated]))
    answered = [len(r.answered) - n for r, n in zip(replies, stated, strict=True)]
    rows.append(("Questions answered", [str(n) for n in answered]))
    changed = {k.field: k for r in replies for k in r.changed}
    for field, k in changed.items():
        own = [{x.field: x.answered for x in r.changed}.get(field, "as asked") for r in replies]
        rows.append((f"{k.words} ({k.asked})", own))
    first = max(len(w) for w, _ in rows) + 2
    room = max((WIDE - first) // len(replies), 12)
    for label, cells in rows:
        yield f"{label:<{first}}" + "".join(f"{c[: room - 2]:<{room}}" for c in cells).rstrip()
