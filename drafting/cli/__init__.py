"""The command line: arguments to one call, and an exit code.

0 done; 1 a finding or failed check needs a person; 2 refused, nothing written; 3 the tool failed.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from drafting.errors import Refused

DONE, NEEDS_A_PERSON, REFUSED, FAILED, INTERRUPTED = 0, 1, 2, 3, 130


def main(argv: Sequence[str] | None = None) -> int:
    """Run one verb and give its exit code."""
    import os

    from drafting.errors import DraftingError, Refused, visible

    words = sys.argv[1:] if argv is None else list(argv)
    if not words:
        from drafting.cli.first import SCREEN

        print(SCREEN, end="")
        return DONE
    from drafting.cli.parsing import parse

    try:
        wanted = parse(words)
        return int(wanted.run()(wanted.options))
    except SystemExit as done:  # help was asked for
        return int(done.code or 0)
    except Refused as refused:
        return _refuse(refused, "--json" in words)
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


def _refuse(refused: Refused, as_json: bool) -> int:
    if as_json:
        from drafting.cli.say import error_rows, print_json

        print_json({"schema": 1, "errors": error_rows(refused.faults)})
    for fault in refused.faults:
        print(fault, file=sys.stderr)
    if refused.hint:
        print(refused.hint, file=sys.stderr)
    return REFUSED
