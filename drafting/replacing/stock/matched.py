"""A stock list that was judged."""

from __future__ import annotations

from drafting.records import dataclass
from drafting.replacing.known import Subject
from drafting.replacing.stock.listed import Stock
from drafting.replacing.stock.ranked import Ranking


@dataclass(frozen=True, slots=True)
class Matched:
    """A list that was judged. ``ranking`` gives its rows; close it when done.

    ``to_ask`` is what the list has no column for, and what was left out of the verdicts.
    """

    original: Subject
    stock: Stock
    ranking: Ranking
    to_ask: tuple[str, ...]
