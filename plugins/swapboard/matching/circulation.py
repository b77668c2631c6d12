"""Rings of any length: each seat gives as many cards as it gets, and nothing else is asked.

Where no card has wants of its own this is a circulation in a network (Ford &
Fulkerson 1962, "Flows in Networks"), whose linear programme has whole answers; it
bounds pairs and rings of every length. With wants of cards it is still a bound.
"""

import math

import numpy as np

from swapboard.matching.arcs import Arcs
from swapboard.matching.effort import Effort
from swapboard.matching.program import solver
from swapboard.matching.rows import Rows
from swapboard.matching.types import Market


def circulation_bound(market: Market, arcs: Arcs, rows: Rows, effort: Effort) -> int:
    """The most cards that could move in rings of any length; if time runs out first,
    what wants and cards alone allow."""
    bound = plain_bound(market, rows)
    if not arcs.count or effort.over():
        return bound
    import highspy

    seats = len(market.seats)
    highs = solver(effort.left())
    model = highspy.HighsLp()
    model.num_row_ = rows.count() + seats
    model.sense_ = highspy.ObjSense.kMaximize
    model.row_lower_ = np.concatenate((np.full(rows.count(), -np.inf), np.zeros(seats)))
    model.row_upper_ = np.concatenate((rows.most.astype(float), np.zeros(seats)))
    highs.passModel(model)
    none = rows.count()
    table = np.column_stack((rows.of_arc, none + arcs.source, none + arcs.target))
    value = np.ones(table.shape)
    value[:, 4] = -1.0
    used = np.ones(table.shape, dtype=bool)
    used[:, :4] = rows.of_arc < none
    start = np.concatenate(([0], np.cumsum(used.sum(axis=1))))[:-1]
    highs.addCols(
        arcs.count, np.ones(arcs.count), np.zeros(arcs.count), np.ones(arcs.count),
        int(used.sum()), start.astype(np.int32), table[used].astype(np.int32), value[used],
    )
    highs.run()
    if highs.getModelStatus() != highspy.HighsModelStatus.kOptimal:
        return bound
    return min(bound, math.floor(highs.getInfo().objective_function_value + 1e-6))


def plain_bound(market: Market, rows: Rows) -> int:
    """What each maker can give and can take, the smaller of both, summed."""
    makers = len(market.makers)
    give, take = np.zeros(makers, dtype=np.int64), np.zeros(makers, dtype=np.int64)
    wanted = {card for wish in market.wishes for card in wish.cards}
    for card in wanted:
        give[market.owner[card]] += market.copies[card]
    for wish in market.wishes:
        take[wish.maker] += min(wish.want.up_to, len(wish.cards))
    return int(np.minimum(np.minimum(give, take), np.array(market.room, dtype=np.int64)).sum())
