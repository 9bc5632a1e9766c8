"""Run the command line: ``python -m drafting``, or the installed command."""

import os
import sys
from typing import Any, NoReturn


class _Stream:
    """A stream that does not change the exit code when its reader is gone or its disk is full."""

    def __init__(self, stream: Any) -> None:
        self.stream = stream if stream is not None else open(os.devnull, "w")  # noqa: SIM115
        self.broken = ""

    def write(self, text: str) -> int:
        """Write, as long as anything can be written."""
        if not self.broken:
            try:
                self.stream.write(text)
            except (OSError, ValueError) as wrong:
                self.broken = getattr(wrong, "strerror", None) or "closed"
        return len(text)

    def flush(self) -> None:
        """Flush, as long as anything can be written."""
        if not self.broken:
            try:
                self.stream.flush()
            except (OSError, ValueError) as wrong:
                self.broken = getattr(wrong, "strerror", None) or "closed"

    def __getattr__(self, name: str) -> Any:
        return getattr(self.stream, name)


def run() -> NoReturn:
    """Run one verb; when it is done, end the process there and then.

    All files are closed and child processes are done by then; taking the modules apart one by one,
    as an interpreter does before it ends, takes a quarter as long again as a drawing. What failed
    ends the long way: a child process may have to be stopped.
    """
    _settle_process()
    from drafting.cli import DONE, NEEDS_A_PERSON, main

    out, told = _Stream(sys.stdout), _Stream(sys.stderr)
    sys.stdout, sys.stderr = out, told
    code = main()
    out.flush()
    if out.broken not in ("", "Broken pipe"):
        told.write(f"drafting: not all could be printed on stdout: {out.broken}\n")
    told.flush()
    if code not in (DONE, NEEDS_A_PERSON):
        sys.stdout, sys.stderr = out.stream, told.stream
        raise SystemExit(code)
    os._exit(code)


def _settle_process() -> None:
    """Set what belongs to the whole process; a program that calls us keeps its own settings."""
    import gc

    # A decimal.py or an email.py beside the spec is not the library's.
    here = os.getcwd() if os.path.isdir(".") else ""
    if sys.path and sys.path[0] in ("", here):
        sys.path.append(sys.path.pop(0))
    # Our matrices have a few columns: threads for them cost more than they give.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    gc.set_threshold(400_000, 50, 50)  # a short life: collecting cost 8 % of a drawing
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")


if __name__ == "__main__":
    run()
