"""Exact by bounds: each card as likely as a bound on the deals left allows, else begun anew.

Every card's row of the matrix of cards and places has as many ones as places are left to
it, r; the number of deals left is at most the product of h(r) / e over all cards (L. M.
Bregman, 1973, in a form by M. Huber, Algorithmica 44, 2006). Over the cards that may go
to one place this bound adds up to no more than the bound before it, where
h(r) ≥ h(r - 1) exp(1 / h(r - 1)): with t the sum of their 1 / h(r - 1) it comes to at most
e t exp(-t) of it, and that is at most 1. So a card can be drawn by the bounds after it,
and what is missing to the bound before is a trial that failed. Along one deal all these
shares come to the same, one by the bound of the beginning; so every deal that is let
through is equally likely. Where few cells are forbidden to many, trials are few.
"""

from swapboard.dealing.face import Block
from swapboard.dealing.stream import Stream

# h(0), and e rounded down, both in parts of 2^14.
ONE, E = 16_384, 44_536


def draw_by_bounds(block: Block, stream: Stream, most_work: int) -> list[list[int]] | None:
    """The givers of each taker, each table equally likely; None after `most_work`.

    For each card the work is the givers that are weighed times the cards still to be dealt,
    of which the bound is made. A trial that has begun is ended even so, but none is begun
    that could be more than all of it.
    """
    trials = _Trials(block)
    cards = sum(block.row_sums)
    if len(block.givers) * cards * cards > most_work:
        return None
    while trials.work < most_work:
        if dealt := trials.next(stream):
            return dealt
    return None


def bounds(most: int) -> list[int]:
    """h(r) for r from 0 to `most`, in parts of 2^14, rounded up at each step: with
    x = 1 / h(r - 1), exp(x) < 1 + x + x² / 2 + x³ / (6 - 3x / 2)."""
    found = [ONE]
    for _ in range(most):
        h = found[-1]
        square, cube = -(-(ONE**2) // (2 * h)), -(-2 * ONE**3 // (12 * h * h - 3 * h * ONE))
        found.append(h + ONE + square + cube)
    return found


class _Trials:
    """Trials at one block: `may[k]` are the givers allowed to taker k, `room` the places
    open to each card of a giver before the first is dealt."""

    def __init__(self, block: Block) -> None:
        self.block = block
        self.may = [
            [i for i, row in enumerate(block.allowed) if row[k]] for k in range(len(block.takers))
        ]
        self.room = [
            sum(places for places, may in zip(block.column_sums, row, strict=True) if may)
            for row in block.allowed
        ]
        self.bounds = bounds(max(self.room))
        self.work = 0

    def next(self, stream: Stream) -> list[list[int]] | None:
        """One trial: the givers of each taker, or None where it failed."""
        left, room = list(self.block.row_sums), list(self.room)
        dealt, cards = [], sum(left)
        for may, needed in zip(self.may, self.block.column_sums, strict=True):
            givers: list[int] = []
            for rest in range(needed - 1, -1, -1):
                those = [i for i in may if left[i] and i not in givers]
                self.work += len(those) * cards
                giver = self._one(those, left, room, rest, stream)
                if giver is None:
                    return None
                for i in those:
                    room[i] -= 1
                # Nobody gets two of one giver: all of this taker's places close at once.
                room[giver] -= rest
                left[giver] -= 1
                cards -= 1
                givers.append(giver)
            dealt.append(givers)
        return dealt

    def _one(self, those, left, room, rest: int, stream: Stream) -> int | None:
        """A giver, as likely as the share of the bound that is left after it."""
        h = self.bounds
        before = after = 1
        for i in those:
            before *= h[room[i]] ** left[i]
            after *= h[room[i] - 1] ** left[i]
        number = stream.below(before)
        for i in those:
            cards, places = left[i], room[i] - 1
            others = after // h[places] ** cards
            number -= cards * E * others * h[places - rest] ** (cards - 1)
            if number < 0:
                return i
        return None
