"""The most cards that move, and the columns among which every such choice is found."""

import functools
import math
from dataclasses import dataclass

import numpy as np

from swapboard.matching.annealing import annealed
from swapboard.matching.both_sides import from_both_sides
from swapboard.matching.circulation import circulation_bound, plain_bound
from swapboard.matching.columns import Columns
from swapboard.matching.effort import Effort
from swapboard.matching.exchanges import EVERY, Exchanges
from swapboard.matching.greedy import greedy
from swapboard.matching.local_cuts import Bounded
from swapboard.matching.neighbourhood import improved
from swapboard.matching.objective import MOVED, Table, part_of, table_of
from swapboard.matching.prices import Priced
from swapboard.matching.rows import Rows
from swapboard.matching.search import parts_of, pieces_of, reach
from swapboard.matching.types import Market

_FEW = 8_000  # so many columns are searched as they are
_MANY = 40_000  # more are never searched at once
_ALL = 2_000_000  # more are never written down: 100 MB, and three times that to price
_PROMISING = 25_000
_EXACT = 160_000  # columns of a programme that the simplex method is given
_GAPS = 100  # in a minute
_NEARBY = 200_000  # so many are looked through where one small gap after another is filled
_NEARLY = 0.03  # what a column may cost more than it moves, to be drawn by chance
_CROWDED = 40  # columns in a row, on the whole, from which on chance does better than prices


@dataclass(frozen=True, slots=True)
class First:
    """`taken` of `columns` move `moved` cards, and no choice moves more than `bound`.
    Where `complete`, every choice that moves as many is made of these columns."""

    columns: np.ndarray
    taken: np.ndarray
    moved: int
    bound: int
    complete: bool


def first_level(market: Market, exchanges: Exchanges, rows: Rows, effort: Effort) -> First:
    """Solve the first level, as far as the effort goes.

    Few columns are searched as they are. Many are priced first; a first answer is made
    from the prices, or by chance where every card can go many ways, and bettered gap
    after gap; what the prices do not rule out is then searched where it is little
    enough, which proves the answer or betters it. Where there are more columns than can
    be written down, a part drawn from all of them is searched.
    """
    plain = plain_bound(market, rows)
    columns = exchanges.within(np.zeros(exchanges.arcs.count), EVERY, _ALL)
    if columns is None:
        return _among_some(market, exchanges, rows, plain, effort)
    found = _by_parts(market, exchanges, rows, columns, effort.part(0.9), plain)
    if exchanges.complete:
        return found
    return _no_more(found, circulation_bound(market, exchanges.arcs, rows, effort))


def _by_parts(
    market: Market, exchanges: Exchanges, rows: Rows, columns: np.ndarray, effort: Effort,
    plain: int,
) -> First:
    """Parts of few columns as they are, each part of many by itself: no part hears of others."""
    pieces = pieces_of(table_of(market, exchanges.arcs, columns))
    few = [piece for piece in pieces if len(piece) <= _FEW]
    jobs = [(_search_many, piece) for piece in pieces if len(piece) > _FEW]
    jobs += [(_search, np.sort(np.concatenate(few)))] if few else []
    left, found = len(columns), []
    for job, piece in jobs:
        mine = effort.part(len(piece) / left)
        left -= len(piece)
        found.append(job(market, exchanges, rows, columns[piece], mine, plain))
    if not found:
        return First(columns, np.zeros(0, dtype=bool), 0, 0, True)
    return First(
        np.concatenate([one.columns for one in found]),
        np.concatenate([one.taken for one in found]),
        sum(one.moved for one in found),
        min(plain, sum(one.bound for one in found)),
        all(one.complete for one in found),
    )


def _among_some(
    market: Market, exchanges: Exchanges, rows: Rows, plain: int, effort: Effort
) -> First:
    columns = exchanges.some(_ALL // 8)
    quick = greedy(columns, rows)
    table = table_of(market, exchanges.arcs, columns)
    if table.length[quick].sum() < plain:
        found = _search_many(market, exchanges, rows, columns, effort, plain)
    else:
        found = First(columns[quick], np.ones(quick.sum(), dtype=bool), plain, plain, False)
    return _no_more(found, plain)


def _search_many(
    market: Market, exchanges: Exchanges, rows: Rows, columns: np.ndarray, effort: Effort,
    plain: int,
) -> First:
    table = table_of(market, exchanges.arcs, columns)
    index, _ = rows.of_columns(columns)
    crowded = len(index) > _CROWDED * len(np.unique(index))
    bounded = None
    if len(columns) <= _EXACT:
        bounded = Bounded(table, rows, rows.owners(exchanges.arcs, market), effort)
        if not bounded.solve(effort.part(0.4)):
            bounded = None
    if bounded is not None and not crowded:
        taken = from_both_sides(bounded, effort.part(0.8))
        # Cuts hold for choices as good as this one, so the bound may be below what it moves.
        bound = max(math.floor(bounded.bound + 1e-6), int(table.length[taken].sum()))
        prices = bounded.prices
    else:
        prices = bounded.prices if bounded is not None else _stepped(rows, columns, effort)
        bound = min(plain, math.floor(prices.bound + 1e-6))
        taken = _by_chance(table, rows, prices, bound, effort)
    bound = min(plain, bound)
    return _what_is_left(market, exchanges, rows, columns, prices, effort, bound, taken)


def _stepped(rows: Rows, columns: np.ndarray, effort: Effort) -> Priced:
    from swapboard.matching.gradient import by_gradient

    return by_gradient(rows, columns, effort.part(0.4))


def _by_chance(
    table: Table, rows: Rows, prices: Priced, bound: int, effort: Effort
) -> np.ndarray:
    """By chance among what all but pays, then gap after gap."""
    columns = table.columns
    pays = np.flatnonzero(prices.gain >= -_NEARLY)
    pays = pays[np.argsort(-prices.share[pays], kind="stable")]
    taken = np.zeros(len(columns), dtype=bool)
    first = greedy(columns[pays], rows, by_length=False)
    taken[pays] = annealed(columns[pays], rows, first, bound, effort.part(0.8))
    rank = np.argsort(np.argsort(-prices.gain, kind="stable"))
    nearby = np.flatnonzero(taken | (rank < _NEARBY))
    near = Priced(prices.bound, prices.share[nearby], prices.gain[nearby], prices.price)
    some = part_of(table, nearby)
    places = Columns(some, rows)
    taken[nearby] = improved(
        some, rows, places, functools.partial(places.losses, near), taken[nearby], bound,
        effort.part(0.7), effort.steps(_GAPS),
    )
    return taken


def _what_is_left(
    market: Market, exchanges: Exchanges, rows: Rows, columns: np.ndarray, prices: Priced,
    effort: Effort, bound: int, taken: np.ndarray,
) -> First:
    """What the prices do not rule out, searched at once where that is little enough."""
    length = (columns >= 0).sum(axis=1)
    moved = int(length[taken].sum())
    left = taken | (prices.gain >= moved - prices.bound - 1e-4)
    few = left.sum() <= _MANY
    if few and moved >= bound:
        return First(columns[left], taken[left], moved, bound, True)
    if few:
        return _search(market, exchanges, rows, columns[left], effort, bound, taken[left])
    rank = np.argsort(np.argsort(-prices.gain, kind="stable"))
    promising = taken | (rank < _PROMISING)
    return First(columns[promising], taken[promising], moved, bound, False)


def _no_more(found: First, bound: int) -> First:
    """What was found among some columns only, under a bound that holds for all."""
    return First(found.columns, found.taken, found.moved, bound, False)


def _search(
    market: Market, exchanges: Exchanges, rows: Rows, columns: np.ndarray, effort: Effort,
    bound: int, known: np.ndarray | None = None,
) -> First:
    taken = greedy(columns, rows, known)
    parts = parts_of(table_of(market, exchanges.arcs, columns), rows, taken)
    reached = reach(parts, MOVED, effort)
    for part in parts:
        taken[part.numbers] = part.taken
    return First(columns, taken, reached.value, min(bound, reached.bound), True)
