"""Work on a stranger's file in a child process, with limits of time and memory."""

from __future__ import annotations

import subprocess
import sys

MEMORY = 1_500_000_000
"""Bytes of memory for a child, where the system can limit it (not on Windows)."""
_CHILD = "import sys; sys.path[:] = {path!r}; from {module} import serve; serve()"


class TooLate(Exception):
    """The child took longer than it was given; ``said`` is what it had answered by then."""

    def __init__(self, said: bytes) -> None:
        self.said = said
        super().__init__("too late")


def in_child(module: str, asked: bytes, seconds: float) -> bytes:
    """Run ``module.serve`` in a child, ``asked`` on its stdin; gives its stdout.

    Empty where the child broke down. Raises TooLate.
    """
    try:
        return subprocess.run(
            [sys.executable, "-c", _CHILD.format(path=sys.path, module=module)],
            input=asked,
            capture_output=True,
            timeout=seconds,
            creationflags=getattr(subprocess, "CREATE_NO_WINDOW", 0),
        ).stdout
    except subprocess.TimeoutExpired as slow:
        raise TooLate(slow.stdout or b"") from None


def limit_memory(most: int = MEMORY) -> None:
    """Limit this process, a child, where the system can; the time limit holds anyway."""
    try:
        import resource

        resource.setrlimit(resource.RLIMIT_AS, (most, most))
    except (ImportError, ValueError, OSError):
        pass
