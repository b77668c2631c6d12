"""Exact by trial: deal from a shuffled deck, and begin anew at the first card that may not be.

Every order of the deck is equally likely and every table comes from equally many of
them, so a table that is let through is uniform (pairing model: B. Bollobás, 1980).
"""

from swapboard.dealing.face import Block
from swapboard.dealing.stream import Stream


def draw_by_rejection(block: Block, stream: Stream, most_cards: int) -> list[list[int]] | None:
    """The givers of each taker, each table equally likely; None after `most_cards`.

    The deck holds each giver's number once for each of their ones, in order; a card
    is drawn from the places not yet drawn and put at their end. After a trial that
    failed the deck stays as it lies. A trial that has begun is ended even so.
    """
    deck = [i for i, ones in enumerate(block.row_sums) for _ in range(ones)]
    below, allowed = stream.below, block.allowed
    drawn = 0
    while drawn < most_cards:
        last = len(deck)
        dealt = []
        for k, needed in enumerate(block.column_sums):
            givers: list[int] = []
            for _ in range(needed):
                place = below(last)
                last -= 1
                drawn += 1
                giver = deck[place]
                deck[place], deck[last] = deck[last], giver
                if giver in givers or not allowed[giver][k]:
                    break
                givers.append(giver)
            if len(givers) < needed:
                break
            dealt.append(givers)
        else:
            return dealt
    return None
