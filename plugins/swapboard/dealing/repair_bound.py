"""What no repair can do without, however it is found: a bound that only adds up.

Every card of a giver is given a price, and every aim that was settled before a weight.
At these prices each envelope is filled as cheaply as can be, by itself; all of them
together cost no more than any repair does (Lagrangian relaxation: H. Everett, 1963;
M. L. Fisher, 1981). Prices may be any; whole numbers, so that nothing is rounded.
"""

from collections.abc import Mapping
from heapq import nsmallest

from swapboard.dealing.repair_task import SHORT, TOUCHED, Cell, Task
from swapboard.dealing.rules import Maker


def bound_of(
    task: Task, weights: Mapping[str, int], settled: Mapping[str, int], prices: Mapping[Maker, int]
) -> tuple[int, list[Cell]]:
    """The least that a repair can weigh, and the cells that the cheapest envelopes used.

    `weights` are those of the aims, none below 0; `settled` the most that some of them
    may come to, whose weight is taken off again; `prices` of givers, none below 0. It is
    in the unit of the weights. O(cells), each with a heap of one envelope.
    """
    offers: dict[Maker, list[tuple[int, int, Cell]]] = {taker: [] for taker in task.takers}
    for cell, parts in task.cells.items():
        price = prices.get(cell[0], 0)
        offers[cell[1]] += [
            (price + sum(weights.get(aim, 0) for aim in aims), most, cell) for most, aims in parts
        ]
    total = -sum(prices.get(giver, 0) * len(task.piles[giver]) for giver in task.givers)
    total -= sum(weights.get(aim, 0) * most for aim, most in settled.items())
    held = _held(task, prices)
    used: list[Cell] = []
    for taker in task.takers:
        cost, cells = _cheapest(offers[taker], task.due[taker], weights.get(SHORT, 0))
        if taker in task.quiet:
            as_it_is = held.get(taker, 0)
            cost += weights.get(TOUCHED, 0)
            if as_it_is <= cost:
                cost, cells = as_it_is, []
        total += cost
        used += cells
    return total, used


def _held(task: Task, prices: Mapping[Maker, int]) -> dict[Maker, int]:
    """What lies in each envelope now, at these prices."""
    held: dict[Maker, int] = {}
    for (giver, taker), count in task.now.items():
        held[taker] = held.get(taker, 0) + prices.get(giver, 0) * count
    return held


def _cheapest(offers: list[tuple[int, int, Cell]], due: int, short: int) -> tuple[int, list[Cell]]:
    """The cheapest `due` cards of one envelope; each that it lacks costs `short`."""
    cost, cells = 0, []
    # Each offer holds a card at least, so no more than `due` of them are needed.
    for price, most, cell in nsmallest(due, offers, key=lambda offer: offer[0]):
        if price >= short or not due:
            break
        taken = min(most, due)
        cost += price * taken
        due -= taken
        cells.append(cell)
    return cost + due * short, cells
