"""``drafting request --answers``: forms that came back, and the spec with the answers in it."""

from __future__ import annotations

from argparse import Namespace
from pathlib import Path

from drafting.asking.answers import Reply
from drafting.cli import DONE, NEEDS_A_PERSON
from drafting.cli.say import print_json, tell
from drafting.errors import Fault, Refused
from drafting.files import safe_name, write_all, write_new
from drafting.jobs.answers import read_replies
from drafting.reports.replies import replies_text
from drafting.told.rows import load_all


def read_answers(options: Namespace) -> int:
    """Read forms, say what changed, and write each answered spec; 1 where a person must look."""
    if len(options.specs) > 1:
        message = f"forms answer one spec; {len(options.specs)} were named"
        raise Refused([Fault("command line", 1, 1, "one-spec", "SPEC", message)])
    asked = load_all(options.specs, options.shop)[0] if options.specs else None
    c, replies = read_replies(options.answers, asked)
    folder = Path(options.output)
    files: dict[Path, bytes] = {}
    for r in replies:
        stem = safe_name(f"{c.name}-{r.builder or Path(r.file).stem}", f"{c.name}-answered")
        path = folder / f"{stem}.toml"
        while path in files:
            path = path.with_stem(f"{path.stem}-2")
        files[path] = r.spec.encode("utf-8", "surrogatepass")
    if options.force:
        write_all(files)
    else:
        for path, data in files.items():
            write_new(path, data)
    if options.json:
        print_json({"schema": 1, "builders": [_row(r) for r in replies],
                    "files": [p.as_posix() for p in files]})  # fmt: skip
    else:
        print(replies_text(replies), end="")
        spec = options.specs[0] if options.specs else "SPEC"
        for path in files:
            tell(f"wrote {path.as_posix()}: the spec with these answers; compare them with")
            tell(f"  drafting compare {spec} {path.as_posix()}")
    return _why(replies)


def _row(r: Reply) -> dict[str, object]:
    return {
        "file": r.file,
        "builder": r.builder,
        "quote": {k.lower().replace(" ", "_").replace(",", ""): v for k, v in r.quote},
        "changed": [
            {"field": k.field, "asked": k.asked, "answered": k.answered, "meets_machine": k.meets}
            for k in r.changed
        ],
        "answered": [{"field": a.field, "question": a.words, "value": a.value} for a in r.answered],
        "not_taken": [{"field": u.field, "value": u.value, "why": u.why} for u in r.unread],
        "compared": r.compared,
        "notes": r.notes,
        "spec": r.spec,
    }


def _why(replies: tuple[Reply, ...]) -> int:
    changed = sum(len(r.changed) for r in replies)
    unread = sum(len(r.unread) for r in replies)
    said = [f"{changed} changed"] * bool(changed) + [f"{unread} not taken"] * bool(unread)
    tell(f"exit 1: {', '.join(said)}" if said else "exit 0: nothing was changed")
    return NEEDS_A_PERSON if said else DONE
