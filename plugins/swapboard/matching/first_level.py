"""The most cards that move, and the columns among which every such choice is found."""

import math
import time
from dataclasses import dataclass

import numpy as np

from swapboard.matching.circulation import circulation_bound, plain_bound
from swapboard.matching.exchanges import EVERY, Exchanges
from swapboard.matching.greedy import greedy
from swapboard.matching.objective import MOVED, table_of
from swapboard.matching.pricing import paying, priced
from swapboard.matching.rows import Rows
from swapboard.matching.search import parts_of, reach
from swapboard.matching.types import Market

_FEW = 25_000  # so many columns are searched as they are
_MANY = 150_000  # more are never searched at once


@dataclass(frozen=True, slots=True)
class First:
    """`taken` of `columns` move `moved` cards, and no choice moves more than `bound`.
    Where `complete`, every choice that moves as many is made of these columns."""

    columns: np.ndarray
    taken: np.ndarray
    moved: int
    bound: int
    complete: bool


def first_level(market: Market, exchanges: Exchanges, rows: Rows, until: float) -> First:
    """Solve the first level by `until` (a reading of time.monotonic()).

    Few columns are searched as they are. Of many, those that paid in the linear
    programme give a first answer; then all that its prices do not rule out are
    searched, which proves the answer or betters it.
    """
    few = exchanges.within(np.zeros(exchanges.arcs.count), EVERY, _FEW)
    if few is not None:
        found = _search(market, exchanges, rows, few, until)
        if exchanges.complete:
            return found
        return _no_more(found, circulation_bound(market, exchanges.arcs, rows, until + 5))
    return _search_many(market, exchanges, rows, until)


def _search_many(market: Market, exchanges: Exchanges, rows: Rows, until: float) -> First:
    now = time.monotonic()
    start, _ = paying(exchanges, np.ones(exchanges.arcs.count))
    quick = greedy(start, rows)
    bound = plain_bound(market, rows)
    if table_of(market, exchanges.arcs, start[quick]).length.sum() < bound:
        prices = priced(exchanges, rows, start, now + 0.5 * (until - now))
        start = prices.columns
    else:
        prices = None
    if exchanges.complete and prices:
        bound = min(bound, math.floor(prices.bound + 1e-6))
    else:
        bound = circulation_bound(market, exchanges.arcs, rows, until)
    now = time.monotonic()
    found = _search(market, exchanges, rows, start, now + 0.5 * (until - now))
    for _ in range(2):
        if prices is None or not exchanges.complete:
            break
        more = exchanges.within(prices.worth, prices.bound - found.moved + 1e-4, _MANY)
        if more is None:
            break
        columns, known = _with(more, found)
        better = _search(market, exchanges, rows, columns, until, known)
        found = First(better.columns, better.taken, better.moved, min(bound, better.bound), True)
        if found.moved == found.bound:
            return found
    return _no_more(found, bound)


def _no_more(found: First, bound: int) -> First:
    """What was found among some columns only, under a bound that holds for all."""
    return First(found.columns, found.taken, found.moved, bound, False)


def _with(columns: np.ndarray, found: First) -> tuple[np.ndarray, np.ndarray]:
    """Columns in one order whatever the search before, and which of them are taken."""
    both = np.concatenate((columns, found.columns[found.taken]))
    columns = np.unique(both, axis=0)
    known = {tuple(column) for column in found.columns[found.taken].tolist()}
    return columns, np.array([tuple(column) in known for column in columns.tolist()], dtype=bool)


def _search(
    market: Market, exchanges: Exchanges, rows: Rows, columns: np.ndarray, until: float,
    known: np.ndarray | None = None,
) -> First:
    taken = greedy(columns, rows, known)
    parts = parts_of(table_of(market, exchanges.arcs, columns), rows, taken)
    reached = reach(parts, MOVED, until)
    for part in parts:
        taken[part.numbers] = part.taken
    return First(columns, taken, reached.value, reached.bound, True)
