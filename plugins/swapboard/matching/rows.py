"""The limits that exchanges share: each card's copies, each want's number, each maker's room."""

from dataclasses import dataclass

import numpy as np

from swapboard.matching.arcs import Arcs
from swapboard.matching.types import Market


@dataclass(frozen=True, slots=True)
class Rows:
    """`of_arc` has for each arc the rows that it counts in, shape (arcs, 4), the row
    `len(most)` where there is none; `most` is each row's limit."""

    of_arc: np.ndarray
    most: np.ndarray

    def count(self) -> int:
        """How many rows there are."""
        return len(self.most)

    def owners(self, arcs: Arcs, market: Market) -> np.ndarray:
        """Whose each row is: a card's its maker's, all others the taker's."""
        seats = np.array([seat.maker for seat in market.seats], dtype=np.int64)
        owner = np.zeros(self.count() + 1, dtype=np.int64)
        owner[self.of_arc[:, 1:]] = arcs.maker[:, None]
        owner[self.of_arc[:, 0]] = seats[arcs.source]
        return owner[:-1]

    def of_columns(self, columns: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        """Rows of several columns in one line, and where each column begins in it."""
        table = np.concatenate((self.of_arc, np.full((1, 4), self.count())))
        rows = table[columns].reshape(len(columns), 16)
        used = rows < self.count()
        start = np.concatenate(([0], np.cumsum(used.sum(axis=1))))
        return rows[used], start


def rows_of(market: Market, arcs: Arcs) -> Rows:
    """The rows of a market: cards, then wants, then makers, then (where a card has
    copies) a row for each card and taker, since nobody gets a card twice."""
    copies = np.array(market.copies, dtype=np.int64)
    up_to = np.array([wish.want.up_to for wish in market.wishes], dtype=np.int64)
    room = np.array(market.room, dtype=np.int64)
    cards, wishes, makers = len(copies), len(up_to), len(room)
    of_arc = np.full((arcs.count, 4), -1, dtype=np.int64)
    of_arc[:, 0] = arcs.card
    of_arc[:, 1] = cards + arcs.wish
    of_arc[:, 2] = cards + wishes + arcs.maker
    again = np.flatnonzero(copies[arcs.card] > 1) if arcs.count else np.zeros(0, dtype=np.int64)
    _, pair = np.unique(arcs.card[again] * max(1, makers) + arcs.maker[again], return_inverse=True)
    of_arc[again, 3] = cards + wishes + makers + pair
    most = np.concatenate((copies, up_to, room, np.ones(len(np.unique(pair)), dtype=np.int64)))
    of_arc[of_arc < 0] = len(most)
    return Rows(of_arc, most)
