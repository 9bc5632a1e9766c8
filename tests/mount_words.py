"""Words of the mounts for generators of spec files, as the folder of mounts gives them."""

from __future__ import annotations

from drafting.model.catalog import mount_types, mount_words, mounts_by_end

BODY = mount_words("body")
ROD = mount_words("rod")
PINNED = tuple(w for w in BODY if "hole" in mount_types()["body", w].fields)
"""Mounts with a loose pin through them."""


def takes(word: str, field: str, end: str = "body") -> bool:
    """Tell whether a mount takes a field."""
    taken = mounts_by_end()[f"{end}_mount"].get(word)
    return taken is not None and field in taken.fields


EYES = tuple(w for w in PINNED if not takes(w, "ball_width"))
"""Those whose hole is in their own metal or in a bushing."""
