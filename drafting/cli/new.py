"""``drafting new``: a file to start from (spec, duty, readings), or the spec inside an output."""

from __future__ import annotations

from argparse import Namespace
from pathlib import Path

from drafting.cli import DONE, NEEDS_A_PERSON
from drafting.cli.arguments import FORMATS
from drafting.cli.say import named_file, print_json, tell
from drafting.errors import Fault, Refused
from drafting.files import write_new
from drafting.model.catalog import ENDS


def run(options: Namespace) -> int:
    """Write a starter spec; an existing file is never written over without --force."""
    path, shop, code, then = spec_file(options.file), "", DONE, "draw it with: drafting draw {}"
    if options.duty or options.readings:
        text, then = _starter(options, path)
    elif options.source is not None:
        named_file("--from", options.source)
        from drafting.jobs.recover import spec_from
        from drafting.spec.bundle import unbundle

        found = spec_from(Path(options.source), options.name or "")
        text, _, shop = unbundle(found.text)
        if not found.untouched:
            tell(
                f"{options.source}: the spec inside does not go with the hash beside it: one of "
                "them was changed after the drawing was made; hold its sizes against the sheet"
            )
            code = NEEDS_A_PERSON
    elif options.name is not None:
        message = "--name says which of several specs --from takes; there is no --from"
        raise Refused([Fault("command line", 1, 1, "no-file", "--name", message)])
    else:
        from drafting.model.catalog import mount_types, mounts_by_end
        from drafting.spec.template import starter_spec

        kinds = mount_types()
        text = starter_spec(
            options.body,
            options.rod,
            options.units,
            mounts=mounts_by_end(),
            examples={
                "body_mount": kinds["body", options.body].example,
                "rod_mount": kinds["rod", options.rod].example,
            },
            short=options.short,
        )
    write_new(path, text.encode("utf-8"), options.force)
    if shop and options.shop:
        write_new(Path(options.shop), shop.encode("utf-8"), options.force)
        tell(f"wrote {options.shop}, the company defaults that it was drawn with")
    elif shop:
        tell(
            "it was drawn with company defaults, which travel with it; --shop FILE writes them too"
        )
    if options.json:
        print_json({"schema": 1, "file": str(path)})
    tell(f"wrote {path}; {then.format(path)}")
    return code


def spec_file(text: str) -> Path:
    """Give the spec file to write; one without an ending gets its own, a drawing's is refused."""
    named_file("FILE", text)
    path = Path(text)
    suffix = path.suffix.lower()
    if suffix.removeprefix(".") in (*FORMATS, "stp"):
        message = (
            f"{text} is called like a drawing, and new writes a spec; name it {path.stem}.toml. To "
            f"take the spec out of that file: drafting new {path.stem}.toml --from {text}"
        )
        raise Refused([Fault("command line", 1, 1, "no-spec", "FILE", message)])
    return path.with_name(f"{path.name}.toml") if not suffix and path.name else path


def _starter(options: Namespace, path: Path) -> tuple[str, str]:
    """Give the text of a duty or of readings to start from, and what to do with it."""
    if options.duty:
        from drafting.model.catalog import mount_types
        from drafting.sizing.starter import starter_duty

        for end in ENDS:
            if why := mount_types()[end, getattr(options, end)].not_sized:
                message = f"a duty cannot ask for it: {why}"
                raise Refused([Fault("command line", 1, 1, "not-sized", f"--{end}", message)])
        text = starter_duty(options.body, options.rod, options.units, str(path))
        return text, "size it with: drafting size {}"
    from drafting.measuring.starter import starter_readings

    text = starter_readings(options.body, options.rod, options.units, str(path))
    return text, "fill it in, or be asked: drafting measure {} --ask"
