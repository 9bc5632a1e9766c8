"""What was found for parts is kept, part by part, though it is found for many at once.

Arrays cost as much for one part as for ten: those that are not known yet are done in one go.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Sequence
from threading import Lock
from typing import Generic, TypeVar

_Key = TypeVar("_Key", bound=Hashable)
_Found = TypeVar("_Found")


class _EachKept(Generic[_Key, _Found]):
    def __init__(self, find: Callable[[Sequence[_Key]], Sequence[_Found]], most: int) -> None:
        self._find, self._most = find, most
        self._kept: dict[_Key, _Found] = {}
        self._lock = Lock()

    def __call__(self, keys: Sequence[_Key]) -> list[_Found]:
        """Give what belongs to each key, in their order."""
        with self._lock:
            kept = {k: self._kept.pop(k) for k in dict.fromkeys(keys) if k in self._kept}
        new = [k for k in dict.fromkeys(keys) if k not in kept]
        if new:
            kept.update(zip(new, self._find(new), strict=True))
        with self._lock:
            self._kept.update(kept)  # to the end: the first of the dictionary goes first
            for k in list(self._kept)[: -self._most]:
                del self._kept[k]
        return [kept[k] for k in keys]

    def cache_clear(self) -> None:
        """Forget all."""
        with self._lock:
            self._kept.clear()


def each_kept(
    most: int,
) -> Callable[[Callable[[Sequence[_Key]], Sequence[_Found]]], _EachKept[_Key, _Found]]:
    """Keep the ``most`` last used results of a function from keys to one result for each."""
    return lambda find: _EachKept(find, most)
