"""Four cards pushed together, two by two, have a card's proportion: 5 × 7 in of 2.5 × 3.5 in."""

from dataclasses import replace

import numpy as np
import pytest

from swapboard.photo.blocks import parted_blocks
from swapboard.photo.looking import Looks
from swapboard.photo.refining import Refined

INCH = 60


def card(x: float, y: float, wide: float, tall: float, tight: float = 0.99) -> Refined:
    """What looks like a card of so many inches, so far from the picture's corner."""
    quad = INCH * np.array([[x, y], [x + wide, y], [x + wide, y + tall], [x, y + tall]], float)
    return Refined(quad, tight, 0.99, 0.0, np.ones(4), 0.0, 0.2, 0.3)


BLOCK, SINGLE, PAIR = card(1, 1, 5, 7), card(8, 1, 2.5, 3.5), card(8, 6, 5, 3.5)


class Laid(Looks):
    """Looks that see a card as sure as that wherever they are asked, if in one of the places."""

    def __init__(self, *looked: Refined, places: int = 9, tight: float = 0.8) -> None:
        self.size, self.looked = (20 * INCH, 15 * INCH), [*looked]
        self.left, self.tight = places, tight

    def reading(self, quad):
        self.left -= 1
        return replace(SINGLE, quad=quad, tight=self.tight) if self.left >= 0 else None


def sizes(looked: list[Refined]) -> list[tuple[float, float]]:
    return sorted({tuple(np.round(np.sort(np.ptp(one.quad, axis=0)) / INCH, 2)) for one in looked})


@pytest.mark.parametrize("beside, cards", [(SINGLE, 5), (PAIR, 6)], ids=["card", "pair"])
def test_a_block_of_the_size_of_four_others_is_four_cards(beside, cards):
    """And what has the size of two is two."""
    looked = parted_blocks(Laid(BLOCK, beside), None)
    assert len(looked) == cards and sizes(looked) == [(2.5, 3.5)]


@pytest.mark.parametrize("looks", [
    Laid(BLOCK), Laid(BLOCK, card(8, 1, 3, 4.2)), Laid(BLOCK, card(8, 1, 5, 7)),
    Laid(BLOCK, SINGLE, places=3), Laid(BLOCK, SINGLE, tight=0.4),
    Laid(BLOCK, SINGLE, card(11, 1, 2.5, 3.5), card(14, 1, 2.5, 3.5)),
], ids=["alone", "another size", "as large", "a bare quarter", "unlikely", "among more"])
def test_a_large_card_stays_one(looks):
    """Unless all its quarters look like cards, and one of their size lies there; among more cards
    their common size tells."""
    before = list(looks.looked)
    assert parted_blocks(looks, None) == before
