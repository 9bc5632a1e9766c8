"""``drafting schema``: the JSON Schema of the spec file, for editors."""

from __future__ import annotations

from argparse import Namespace
from pathlib import Path

from drafting.cli import DONE
from drafting.cli.say import print_json, tell
from drafting.model.catalog import mounts_by_end
from drafting.spec.schema import json_schema, shop_schema


def run(options: Namespace) -> int:
    """Print the schema, or write it to a file."""
    schema = shop_schema() if options.shop else json_schema(mounts_by_end())
    if options.output:
        import json

        from drafting.files import write_all

        text = json.dumps(schema, ensure_ascii=False, indent=1) + "\n"
        write_all({Path(options.output): text.encode("utf-8")})
        tell(f"wrote {options.output}")
    else:
        print_json(schema)
    return DONE
