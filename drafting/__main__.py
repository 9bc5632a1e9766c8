"""Run the command line: ``python -m drafting``, or the installed command."""

import gc
import os
import sys
from typing import NoReturn

from drafting.cli import DONE, FAILED, NEEDS_A_PERSON, main


def run() -> NoReturn:
    """Run one verb; when it is done, end the process there and then.

    All files are closed and child processes are done by then; taking the modules apart one by one,
    as an interpreter does before it ends, takes a quarter as long again as a drawing. What failed
    ends the long way: a child process may have to be stopped.
    """
    _settle_process()
    code = main()
    if code not in (DONE, NEEDS_A_PERSON):
        raise SystemExit(code)
    try:
        sys.stdout.flush()
        sys.stderr.flush()
    except BrokenPipeError:
        pass  # the reader has gone, as ``head`` does: what it wanted it has
    except OSError:
        raise SystemExit(FAILED) from None
    os._exit(code)


def _settle_process() -> None:
    """Set what belongs to the whole process; a program that calls us keeps its own settings."""
    # Our matrices have a few columns: threads for them cost more than they give.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    gc.set_threshold(400_000, 50, 50)  # a short life: collecting cost 8 % of a drawing
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")


if __name__ == "__main__":
    run()
