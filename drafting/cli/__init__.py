"""The command line: arguments to one call, and an exit code.

0 done; 1 a finding or failed check needs a person; 2 refused, nothing written; 3 the tool failed.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence

DONE, NEEDS_A_PERSON, REFUSED, FAILED, INTERRUPTED = 0, 1, 2, 3, 130


def main(argv: Sequence[str] | None = None) -> int:
    """Run one verb and give its exit code."""
    import os

    from drafting.cli.arguments import parse
    from drafting.errors import DraftingError, Refused, visible

    try:
        wanted = parse(sys.argv[1:] if argv is None else list(argv))
    except SystemExit as done:
        return int(done.code or 0)
    try:
        return int(wanted.run()(wanted.options))
    except Refused as refused:
        return _refuse(refused, wanted.options.json)
    except DraftingError as failed:
        print(visible(f"drafting: {failed}"), file=sys.stderr)
        return FAILED
    except KeyboardInterrupt:
        print("drafting: interrupted; nothing half-written was left", file=sys.stderr)
        return INTERRUPTED
    except BrokenPipeError:
        return DONE
    except Exception as wrong:
        import traceback

        if os.environ.get("DRAFTING_TRACE"):
            traceback.print_exc()
        what = f"{type(wrong).__name__}: {wrong}"
        print(
            visible(
                f"drafting: the tool itself failed ({what}); nothing half-written was left. "
                "Set DRAFTING_TRACE=1 and run it again to see where."
            ),
            file=sys.stderr,
        )
        return FAILED


def _refuse(refused: object, as_json: bool) -> int:
    from drafting.errors import Refused

    assert isinstance(refused, Refused)
    if as_json:
        from drafting.cli.say import print_json

        rows = [
            {
                "file": f.file,
                "line": f.line,
                "column": f.column,
                "code": f.code,
                "field": f.field,
                "message": f.message,
            }
            for f in refused.faults
        ]
        print_json({"schema": 1, "errors": rows})
    for fault in refused.faults:
        print(fault, file=sys.stderr)
    return REFUSED
