"""Cards of 2.5 × 3.5 in pushed together have their own proportion: two by two 5 × 7 in, three by
three 7.5 × 10.5 in."""

from dataclasses import replace

import numpy as np
import pytest

from swapboard.photo import filling
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
    """Looks that see a card as sure as that wherever one of its size would lie, in so many
    places, so many inches beside it."""

    def __init__(
        self, *looked: Refined, places: int = 9, tight: float = 0.8, off: float = 0.2
    ) -> None:
        self.size, self.looked = (20 * INCH, 15 * INCH), [*looked]
        self.left, self.tight, self.off = places, tight, off

    def reading(self, quad):
        if abs(np.ptp(quad, axis=0).min() / INCH - 2.5) > 0.1:
            return None
        self.left -= 1
        if self.left < 0:
            return None
        return replace(SINGLE, quad=quad + self.off * INCH, tight=self.tight)


def sizes(looked: list[Refined]) -> list[tuple[float, float]]:
    return sorted({tuple(np.round(np.sort(np.ptp(one.quad, axis=0)) / INCH, 2)) for one in looked})


@pytest.mark.parametrize("beside, cards", [(SINGLE, 5), (PAIR, 6)], ids=["card", "pair"])
def test_a_block_of_the_size_of_four_others_is_four_cards(beside, cards):
    """And what has the size of two is two."""
    looked = parted_blocks(Laid(BLOCK, beside), None)
    assert len(looked) == cards and sizes(looked) == [(2.5, 3.5)]


NINE = card(1, 1, 7.5, 10.5)


@pytest.mark.parametrize("missing, cards", [
    ((), 9), ((6,), 8), ((0, 8), 7), ((0, 6, 8), 1), ((4,), 1)])
def test_nine_places_of_which_most_are_cards_are_a_block(missing, cards):
    """Whatever else lies there; its middle is looked at first, and mostly is all that is."""

    class Nine(Laid):
        """Looks to which some of the nine places are bare."""

        def reading(self, quad):
            x, y = ((quad.mean(axis=0) / INCH - 1) // (2.5, 3.5)).astype(int)
            return None if x + 3 * y in missing else super().reading(quad)

    looks = Nine(NINE, places=10)
    looked = parted_blocks(looks, None)
    assert len(looked) == cards and (cards == 1 or sizes(looked) == [(2.5, 3.5)])
    assert 4 not in missing or looks.left == 10


@pytest.mark.parametrize("looks", [
    Laid(BLOCK), Laid(BLOCK, card(8, 1, 3, 4.2)), Laid(BLOCK, card(8, 1, 5, 7)),
    Laid(BLOCK, SINGLE, places=3), Laid(BLOCK, SINGLE, tight=0.4),
    Laid(BLOCK, SINGLE, off=0.5),
    Laid(BLOCK, SINGLE, card(11, 1, 2.5, 3.5), card(14, 1, 2.5, 3.5)),
], ids=["alone", "another size", "as large", "bare", "unlikely", "beside it", "among more"])
def test_a_large_card_stays_one(looks):
    """Unless all its quarters look like cards, and one of their size lies there; among more cards
    their common size tells."""
    before = list(looks.looked)
    assert parted_blocks(looks, None) == before


@pytest.mark.parametrize("block", [True, False])
def test_no_card_fills_a_picture_that_a_block_fills(monkeypatch, block):
    """Nine cards on a scanner's glass, laid edge to edge, have a card's proportion as a whole."""
    whole = replace(card(0, 0, 10, 14), tight=0.97)
    monkeypatch.setattr(filling, "refine", lambda *_, **__: whole)
    monkeypatch.setattr(filling, "cards_of_nine", lambda *_: [SINGLE] * 8 if block else [])
    seen = filling.filling_of(np.zeros((14 * INCH, 10 * INCH, 3), np.uint8), networks=object())
    assert (seen.filled, seen.at_once) == ((0.0, 0.0) if block else (0.97, 0.97))
