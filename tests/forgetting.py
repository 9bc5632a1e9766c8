"""A fresh start within one process: what the drawing keeps between two sheets is forgotten."""

import sys

ROOMS = ("drafting.drawing.", "drafting.shape.")


def forget() -> None:
    """Empty all that the drawing and the shapes under it keep."""
    for module in [m for name, m in sys.modules.items() if name.startswith(ROOMS)]:
        for kept in vars(module).values():
            if hasattr(kept, "cache_clear") and not isinstance(kept, type):
                kept.cache_clear()
