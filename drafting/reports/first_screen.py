"""The first screen of ``check``: what it is, the verdict, worst first, what to type, what to ask.

At most 100 columns, plain letters, and every verdict is a word; colour only comes on top of it.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Sequence

from drafting.checks.check import LoadCase
from drafting.checks.not_judged import STROKES
from drafting.checks.of_cylinder import Judgement
from drafting.checks.unused import UNUSED
from drafting.model.cylinder import Cylinder
from drafting.reports.check_names import in_a_list
from drafting.reports.to_type import ToType, as_toml, to_type
from drafting.reports.verdicts import COLOURS, SHOWN, Line, field_words, headline, judged, line
from drafting.reports.why_exit import TO_CONFIRM
from drafting.told.readings import plain, retold
from drafting.told.short import quantity, size
from drafting.values import Finding

WIDE = 100
NAME, DECIDES = 36, 34
"""Most columns for the check and for what decides it; longer ones go on in the next line."""
MOST_QUESTIONS, MOST_TO_TYPE, MOST_HELD = 7, 16, 6

Paint = Callable[[str, str], str]
"""Gives a text in the colour of a code."""


def plainly(text: str, code: str) -> str:
    """Give the text without colour."""
    return text


def first_screen(
    c: Cylinder, j: Judgement, alone: bool = True, paint: Paint = plainly
) -> list[str]:
    """Give the lines of the first screen of one cylinder; ``alone``: nothing follows it."""
    blocks = (
        _what_it_is(c, j),
        _verdict(c, j, paint),
        _people(j),
        _wrong((*c.findings, *j.findings), paint) + _measured(c),
        _table(c, j, paint),
        _judged_for(c, j),
        _to_type(c, j, MOST_TO_TYPE if alone else None),
        _ask_first(c, j),
        _more(j) if alone else [],
    )
    lines: list[str] = []
    for block in blocks:
        if block:
            lines += [*([""] if lines else []), *block]
    return lines


def _what_it_is(c: Cylinder, j: Judgement) -> list[str]:
    s, units, n = c.stations, c.spec.units, c.lengths
    title = f"{c.name}  {c.spec.word('title') or ''}".rstrip()
    pressure = j.numbers.highest_pressure
    typed = c.spec.get(pressure.name) if pressure else None
    sizes = [
        f"{size(s.bore, units)} bore",
        f"{size(s.rod, units)} rod",
        f"{size(n.stroke, units)} stroke",
        typed.typed if typed else "no pressure typed",
    ]
    by_code = {k.code: k.factor_from for k in j.checks}
    forces = [
        f"{way} {quantity(force, 'N', units)}"
        for way in ("push", "pull")
        if (force := by_code.get(way))
    ]
    lengths = [
        f"closed {quantity(n.retracted, 'mm', units)}",
        f"open {quantity(n.extended, 'mm', units)}",
    ]
    second = "   ".join([*lengths, *forces])
    first = "   ".join(sizes)
    gap = WIDE - len(title) - len(first)
    if gap >= 3:
        return [plain(f"{title}{' ' * min(gap, 11)}{first}"), plain(second)]
    return [*_wrap(title), plain(first), plain(second)]


def errors(c: Cylinder, j: Judgement) -> int:
    """Give how many findings say that sizes are wrong."""
    return sum(f.level == "error" for f in (*c.findings, *j.findings))


def _verdict(c: Cylinder, j: Judgement, paint: Paint) -> list[str]:
    word, sentence = headline(j.checks, errors(c, j))
    code = {"HOLDS": "32;1", "NOT CONFIRMED": "33;1", "NOT JUDGED": "33;1"}.get(word, "31;1")
    first, *rest = _wrap(f"{word}   {sentence}", " " * (len(word) + 3))
    return [first.replace(word, paint(word, code), 1), *rest]


def _people(j: Judgement) -> list[str]:
    return _wrap(j.cautions.refusal) if j.cautions.refusal else []


def _wrong(findings: Sequence[Finding], paint: Paint) -> list[str]:
    """Give errors and warnings; sizes to be confirmed only by name, in one entry."""
    lines: list[str] = []
    for level, word, code in (("error", "ERROR", "31;1"), ("warning", "WARNING", "33")):
        for f in findings:
            if f.level == level and f.code != TO_CONFIRM:
                first, *rest = _wrap(f"{word}  {f.field}: {f.message}", "    ")
                lines += [first.replace(word, paint(word, code), 1), *rest]
    confirm = [f.field for f in findings if f.code == TO_CONFIRM and f.level == "warning"]
    if confirm:
        lines += _wrap(f"TO BE CONFIRMED on the machine  {', '.join(confirm)}", "    ")
    unused = [f.field for f in findings if f.code == UNUSED]
    if unused:
        lines += _wrap(f"TYPED, BUT NOT USED by any check or drawing  {', '.join(unused)}", "    ")
    return lines


def _measured(c: Cylinder) -> list[str]:
    """Say how much of it was read off an old part; what is open is among the warnings."""
    count = sum(v.origin == "measured" for v in c.values)
    if not count:
        return []
    many = f"{count} value{'s' * (count > 1)}"
    return _wrap(f"MEASURED on an old part  {many}, M on the drawing; how well known: --full")


def _table(c: Cylinder, j: Judgement, paint: Paint) -> list[str]:
    checks = judged(j.checks)
    good = [k for k in checks if k.verdict == "holds"]
    shown = checks
    if len(good) > MOST_HELD and len(good) < len(checks):
        shown = tuple(k for k in checks if k.verdict != "holds")
    rows = [line(k, c.spec.units) for k in shown]
    if not rows:
        return []
    heads = Line("check", "factor", "asked", "verdict", "what decides")
    name = min(max(len(r.check) for r in (heads, *rows)), NAME)
    span = max(len(r.factor) for r in (heads, *rows))
    asked = max(len(r.asked) for r in (heads, *rows))
    decides = min(WIDE - 2 - name - span - asked - len("not known") - 4 * 2, DECIDES)
    told = [f"  {heads.check:<{name}}  {heads.factor:^{span}}  {heads.asked:>{asked}}  "
            f"{heads.verdict:<9}  {heads.decides}".rstrip()]  # fmt: skip
    for r in rows:
        names, why = _wrap(r.check, "  ", name), _wrap(r.decides, "", decides) if r.decides else []
        word = SHOWN.get(r.verdict, r.verdict)
        reason = f"{'':{len('not known') - len(word)}}  {why[0]}" if why else ""
        told.append(
            f"  {names[0]:<{name}}  {r.factor:>{span}}  {r.asked:>{asked}}  "
            f"{paint(word, COLOURS[r.verdict])}{reason}"
        )
        blank = " " * (span + asked + len("not known") + 6)
        for k in range(1, max(len(names), len(why))):
            left = names[k] if k < len(names) else ""
            right = why[k] if k < len(why) else ""
            told.append(f"  {left:<{name}}{blank}  {right}".rstrip())
    if shown is not checks:
        told += _wrap(f"  {len(good)} hold: {', '.join(in_a_list(k) for k in good)}", "    ")
    return told


def _judged_for(c: Cylinder, j: Judgement) -> list[str]:
    if not judged(j.checks):
        return []
    pressure = j.numbers.highest_pressure
    highest = pressure.value if pressure else 0.0
    cases = "; ".join(_case(case, c.spec.units, highest) for case in j.cases)
    lines = _wrap(f"Judged for    {cases}", " " * 14) if cases else []
    if not any(name.startswith("duty.") for name in c.spec.givens):
        lines += _wrap("No duty typed: what it must push or pull, what load, how it lies.")
    strokes = c.spec.number(STROKES)
    if strokes:
        lines += _wrap(f"Judged at rest: how {strokes:,.0f} strokes a day tire it is not judged.")
    usual = [k for k in judged(j.checks) if k.why_asked.startswith("common practice")]
    if usual and c.spec.get("duty.safety_factor") is None:
        lines += _wrap("Asked is the upper end of common practice; safety_factor is not typed.")
    return lines


def _case(case: LoadCase, units: str, highest: float) -> str:
    """Say a load case: its name, the force along the rod, what goes beyond the highest pressure."""
    said = retold(case.name, units)
    if case.rod:
        said += f" {quantity(abs(case.rod), 'N', units)}"
    if max(case.base, case.rod_side) > 1.001 * highest:
        side = "rod" if case.rod_side >= case.base else "base"
        where = "" if f"{side} side" in said else f" on the {side} side"
        said += f", {quantity(max(case.base, case.rod_side), 'MPa', units)}{where}"
    return f"{said} ({field_words(case.decided_by)} not typed)" if case.decided_by else said


def _to_type(c: Cylinder, j: Judgement, most: int | None) -> list[str]:
    every = to_type(c, j.checks)
    lines = _worth_most(every, most)
    if not lines:
        return []
    left = len(every) - len(lines)
    return [
        'Type what is true of yours; each line turns "depends" or "not known" into a verdict:',
        *(f"  {text}" for text in as_toml(lines, WIDE - 2)),
        *([f"  {left} more line{'s' * (left > 1)}: --full"] if left else []),
    ]


def _worth_most(lines: Sequence[ToType], most: int | None) -> list[ToType]:
    """Give the lines that decide most checks, in the order of the file."""
    kept = sorted(lines, key=lambda t: -t.decides)[:most]
    return [t for t in lines if t in kept]


def _questions(c: Cylinder, j: Judgement) -> list[str]:
    """Give what is asked first: what decides a verdict, then what decides safety and money."""
    typed = {t.field for t in to_type(c, j.checks)}
    deciding = {d.field for k in j.checks for d in k.depends_on}
    left = [q for q in j.questions if q.field not in typed]
    return [q.question for q in sorted(left, key=lambda q: (q.field not in deciding, -q.weight))]


def _ask_first(c: Cylinder, j: Judgement) -> list[str]:
    asked = [f"{n} {q}" for n, q in enumerate(_questions(c, j)[:MOST_QUESTIONS], 1)]
    head, half = "Ask first   ", (WIDE - 12) // 2
    lines: list[str] = []
    row = ""
    for q in asked:
        if row and len(row) <= half - 2 and len(q) <= half:
            lines.append(f"{row:<{half}}{q}")
            row = ""
        else:
            lines += [row] if row else []
            row = q
    lines += [row] if row else []
    return [plain(f"{head if k == 0 else ' ' * len(head)}{text}") for k, text in enumerate(lines)]


def _more(j: Judgement) -> list[str]:
    left = max(len(j.questions) - MOST_QUESTIONS, 0)
    more = f"{left} more questions, " if left else ""
    return [f"{more}every figure, its source and all cautions word for word: --full"]


def _wrap(text: str, indent: str = "", wide: int = WIDE) -> list[str]:
    """Break a text at spaces; lines after the first begin with ``indent``."""
    import textwrap

    return textwrap.wrap(plain(text), wide, subsequent_indent=indent, break_on_hyphens=False,
                         drop_whitespace=True) or [""]  # fmt: skip


def summary(judged_ones: Iterable[tuple[Cylinder, Judgement]]) -> Iterator[str]:
    """Give one line for each of several specs: its name and its verdict."""
    told = [(c.name, *headline(j.checks, errors(c, j))) for c, j in judged_ones]
    wide = max(len(name) for name, _, _ in told)
    for name, word, sentence in told:
        head = f"{name:<{wide}}  {word:<13}  "
        if len(head) + len(sentence) > WIDE:
            sentence = re.sub(r" \([^)]* decides \d+\)", "", sentence)
        yield from _wrap(head + sentence, " " * len(head))
