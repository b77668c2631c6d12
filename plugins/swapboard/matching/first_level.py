"""The most cards that move, and the columns among which every such choice is found."""

import math
import time
from dataclasses import dataclass

import numpy as np

from swapboard.matching.circulation import circulation_bound, plain_bound
from swapboard.matching.exchanges import EVERY, Exchanges
from swapboard.matching.greedy import greedy
from swapboard.matching.neighbourhood import improved
from swapboard.matching.objective import MOVED, part_of, table_of
from swapboard.matching.prices import Priced, priced
from swapboard.matching.rows import Rows
from swapboard.matching.search import parts_of, reach
from swapboard.matching.types import Market

_FEW = 12_000  # so many columns are searched as they are
_MANY = 40_000  # more are never searched at once
_ALL = 2_000_000  # more are never written down: 100 MB, and three times that to price
_PROMISING = 25_000
_NEARBY = 200_000  # so many are looked through where one small gap after another is filled
_WHOLE = 80_000  # so many are searched at once where the prices leave little undecided
_UNDECIDED = 6_000
_SOME = 1e-6


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

    Few columns are searched as they are. Many are priced first; a first answer is
    bettered among those that look promising, and then those that the prices do not
    rule out are searched, which proves the answer or betters it. Where there are more
    than can be written down, a part drawn from all of them is searched.
    """
    now = time.monotonic()
    plain = plain_bound(market, rows)
    zero = np.zeros(exchanges.arcs.count)
    columns = exchanges.within(zero, EVERY, _ALL)
    if columns is None:
        return _among_some(market, exchanges, rows, plain, until)
    if len(columns) <= _FEW:
        found = _search(market, exchanges, rows, columns, until, plain)
    else:
        found = _search_many(market, exchanges, rows, columns, until, plain)
    if exchanges.complete:
        return found
    limit = until + 0.1 * (until - now)
    return _no_more(found, circulation_bound(market, exchanges.arcs, rows, limit))


def _among_some(
    market: Market, exchanges: Exchanges, rows: Rows, plain: int, until: float
) -> First:
    columns = exchanges.some(_ALL // 8)
    quick = greedy(columns, rows)
    table = table_of(market, exchanges.arcs, columns)
    if table.length[quick].sum() < plain:
        found = _search_many(market, exchanges, rows, columns, until, plain)
    else:
        found = First(columns[quick], np.ones(quick.sum(), dtype=bool), plain, plain, False)
    return _no_more(found, plain)


def _search_many(
    market: Market, exchanges: Exchanges, rows: Rows, columns: np.ndarray, until: float,
    plain: int,
) -> First:
    now = time.monotonic()
    prices = priced(rows, columns, now + 0.45 * (until - now))
    bound = min(plain, math.floor(prices.bound + 1e-6))
    order = np.argsort(-prices.share, kind="stable")
    columns = columns[order]
    prices = Priced(prices.bound, prices.share[order], prices.gain[order])
    taken = greedy(columns, rows, by_length=False)
    undecided = int(((prices.share > _SOME) & (prices.share < 1 - _SOME)).sum())
    if len(columns) <= _WHOLE and undecided <= _UNDECIDED:
        return _search_whole(market, exchanges, rows, columns, prices, until, bound, taken)
    return _search_nearby(market, exchanges, rows, columns, prices, until, bound, taken)


def _search_whole(
    market: Market, exchanges: Exchanges, rows: Rows, columns: np.ndarray, prices: Priced,
    until: float, bound: int, taken: np.ndarray,
) -> First:
    """First what the prices take a share of, then what they let go free, then all."""
    for promising in (prices.share > _SOME, prices.gain >= -_SOME):
        now = time.monotonic()
        part = taken | promising
        first = _search(
            market, exchanges, rows, columns[part], now + 0.45 * (until - now), bound, taken[part]
        )
        taken[part] = first.taken
    return _search(market, exchanges, rows, columns, until, bound, taken)


def _search_nearby(
    market: Market, exchanges: Exchanges, rows: Rows, columns: np.ndarray, prices: Priced,
    until: float, bound: int, taken: np.ndarray,
) -> First:
    """Gap after gap, then what the prices do not rule out where that is little enough."""
    table = table_of(market, exchanges.arcs, columns)
    rank = np.argsort(np.argsort(-prices.gain, kind="stable"))
    nearby = taken | (rank < _NEARBY)
    enough = 0.1 * time.monotonic() + 0.9 * until
    taken[nearby] = improved(part_of(table, nearby), rows, taken[nearby], bound, enough)
    promising = taken | (rank < _PROMISING)
    for _ in range(2):
        moved = int(table.length[taken].sum())
        left = taken | (prices.gain >= moved - prices.bound - 1e-4)
        if left.sum() > _MANY:
            break
        found = _search(market, exchanges, rows, columns[left], until, bound, taken[left])
        if found.moved == moved or found.moved == found.bound:
            return found
        taken[left] = found.taken
    moved = int(table.length[taken].sum())
    promising |= taken
    return First(columns[promising], taken[promising], moved, bound, False)


def _no_more(found: First, bound: int) -> First:
    """What was found among some columns only, under a bound that holds for all."""
    return First(found.columns, found.taken, found.moved, bound, False)


def _search(
    market: Market, exchanges: Exchanges, rows: Rows, columns: np.ndarray, until: float,
    bound: int, known: np.ndarray | None = None,
) -> First:
    taken = greedy(columns, rows, known)
    parts = parts_of(table_of(market, exchanges.arcs, columns), rows, taken)
    reached = reach(parts, MOVED, until)
    for part in parts:
        taken[part.numbers] = part.taken
    return First(columns, taken, reached.value, min(bound, reached.bound), True)
