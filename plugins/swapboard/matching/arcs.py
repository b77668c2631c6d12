"""Which maker could mail which cards to which other, and for which want."""

from dataclasses import dataclass

import numpy as np

from swapboard.matching.types import Market


@dataclass(frozen=True, slots=True)
class Arcs:
    """Every (card, want, seat that it comes in at) that suits, one arc each.

    `card`, `wish`, `source`, `target` run along the arcs, which are sorted by
    source seat, then target seat, card and want; `maker` is the taker. A block is all arcs from one
    seat to another: `block` runs along the arcs, and block b has the arcs from
    `start[b]` to before `start[b + 1]` and goes from `block_source[b]` to
    `block_target[b]`.
    """

    card: np.ndarray
    wish: np.ndarray
    source: np.ndarray
    target: np.ndarray
    maker: np.ndarray
    weight: np.ndarray
    block: np.ndarray
    start: np.ndarray
    block_source: np.ndarray
    block_target: np.ndarray

    @property
    def count(self) -> int:
        """How many arcs there are."""
        return len(self.card)


def arcs_of(market: Market) -> Arcs:
    """All arcs of a market, less those to somebody who takes nothing now."""
    rows = _rows(market)
    seat = np.array(market.seat, dtype=np.int64)
    card, wish, target = rows
    source = seat[card] if len(card) else card
    order = np.lexsort((wish, card, target, source))
    card, wish, source, target = card[order], wish[order], source[order], target[order]
    takers = np.array([s.maker for s in market.seats], dtype=np.int64)
    weights = np.array([w.want.weight for w in market.wishes], dtype=np.int64)
    first = np.ones(len(card), dtype=bool)
    first[1:] = (source[1:] != source[:-1]) | (target[1:] != target[:-1])
    start = np.append(np.flatnonzero(first), len(card))
    return Arcs(
        card, wish, source, target,
        maker=takers[target] if len(card) else card,
        weight=weights[wish] if len(card) else card,
        block=np.cumsum(first) - 1,
        start=start,
        block_source=source[start[:-1]],
        block_target=target[start[:-1]],
    )


def _rows(market: Market) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    seats_of: dict[int, list[int]] = {}
    for number, seat in enumerate(market.seats):
        seats_of.setdefault(seat.maker, []).append(number)
    cards: list[np.ndarray] = []
    wishes: list[np.ndarray] = []
    targets: list[np.ndarray] = []
    for number, wish in enumerate(market.wishes):
        if market.room[wish.maker] <= 0:
            continue
        for seat in seats_of.get(wish.maker, ()):
            takes = market.seats[seat].takes
            found = wish.cards if takes is None else [c for c in wish.cards if c in takes]
            cards.append(np.array(found, dtype=np.int64))
            wishes.append(np.full(len(found), number, dtype=np.int64))
            targets.append(np.full(len(found), seat, dtype=np.int64))
    empty = [np.zeros(0, dtype=np.int64)]
    return tuple(np.concatenate(part or empty) for part in (cards, wishes, targets))
