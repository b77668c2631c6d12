"""All of it: a market in, disjoint swaps and how good they are out."""

import numpy as np

from swapboard.matching.arcs import Arcs, arcs_of
from swapboard.matching.effort import Effort
from swapboard.matching.exchanges import Exchanges
from swapboard.matching.first_level import First, first_level
from swapboard.matching.objective import (
    FEWEST,
    LIKING,
    MOVED,
    PARCELS,
    RINGS,
    fairness,
    table_of,
)
from swapboard.matching.rows import rows_of
from swapboard.matching.search import Part, parts_of, reach
from swapboard.matching.types import Level, Market, Move, Parcel, Proposals, Swap

SHORTEST, LONGEST = 2, 4
_MOST_FAIRNESS = 99


def match(market: Market, rings: int = 3, seconds: float = 60.0) -> Proposals:
    """The best disjoint swaps of two makers, or of rings of up to `rings` (2 to 4).

    The levels are those of `objective`, each held before the next is looked at.
    `seconds` says how much to search, counted in steps of the search and not by the
    clock, so that the same market gives the same proposals on every machine; what is
    not proven by then is given with its bound, and `proven` is False from that level
    on. Only where the clock shows so many seconds first is the search cut short, and
    `late` says that another run might find something else.
    Pairs with wants for more than one card are NP-hard, and so are rings of at most
    three (Abraham, Blum & Sandholm 2007; Biró, Manlove & Rizzi 2009, "Maximum weight
    cycle packing in directed graphs, with application to kidney exchange programs").
    """
    if not SHORTEST <= rings <= LONGEST:
        raise ValueError(f"rings must be {SHORTEST} to {LONGEST} (got {rings})")
    effort = Effort.of(seconds)
    arcs = arcs_of(market)
    rows = rows_of(market, arcs)
    exchanges = Exchanges(market, arcs, rings)
    first = first_level(market, exchanges, rows, effort)
    parts = parts_of(table_of(market, arcs, first.columns), rows, first.taken)
    levels = [
        Level(MOVED, "most", first.moved, first.bound, first.moved == first.bound),
        *_later_levels(first, parts, rings, effort),
    ]
    taken = np.zeros(len(first.columns), dtype=bool)
    for part in parts:
        taken[part.numbers] = part.taken
    swaps = swaps_of(market, arcs, first.columns[taken])
    return Proposals(rings, swaps, tuple(levels), effort.late)


def _later_levels(first: First, parts: list[Part], rings: int, effort: Effort) -> list[Level]:
    known = first.complete and first.moved == first.bound
    for part in parts:
        part.held[MOVED] = part.value(MOVED)
        part.proven = known
    names = [RINGS] * (rings > 2) + [LIKING, PARCELS]
    names += [fairness(count) for count in range(1, _MOST_FAIRNESS)]
    levels: list[Level] = []
    for name in names:
        reached = reach(parts, name, effort.part(0.5))
        bound = reached.bound if known else None
        if name == RINGS and not reached.value:
            bound, reached_proven = 0, first.moved == first.bound
        else:
            reached_proven = reached.proven
        if not reached.value and not bound and name not in (RINGS, LIKING, PARCELS):
            break
        goal = "fewest" if name in FEWEST else "most"
        levels.append(Level(name, goal, reached.value, bound, reached_proven))
        known = known and reached.proven
    return levels


def swaps_of(market: Market, arcs: Arcs, columns: np.ndarray) -> tuple[Swap, ...]:
    """Columns as swaps: those that go round the same makers are one swap of n for n."""
    rings: dict[tuple[int, ...], list[tuple[int, ...]]] = {}
    makers = [seat.maker for seat in market.seats]
    source = [makers[seat] for seat in arcs.source.tolist()]
    for column in columns.tolist():
        steps = [arc for arc in column if arc >= 0]
        lowest = min(range(len(steps)), key=lambda at: source[steps[at]])
        steps = steps[lowest:] + steps[:lowest]
        rings.setdefault(tuple(source[arc] for arc in steps), []).append(tuple(steps))
    swaps = []
    for ring, exchanges in sorted(rings.items(), key=lambda item: (len(item[0]), item[0])):
        exchanges.sort()
        takers = ring[1:] + ring[:1]
        swaps.append(Swap(tuple(
            Parcel(market.makers[giver], market.makers[taker],
                   tuple(_move(market, arcs, exchange[at]) for exchange in exchanges))
            for at, (giver, taker) in enumerate(zip(ring, takers, strict=True))
        )))
    return tuple(swaps)


def _move(market: Market, arcs: Arcs, arc: int) -> Move:
    card, wish = int(arcs.card[arc]), market.wishes[int(arcs.wish[arc])]
    owner = market.owner[card]
    return Move(market.cards[card], market.makers[owner], market.makers[wish.maker], wish.want)
