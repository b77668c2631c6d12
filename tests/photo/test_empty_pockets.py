"""What is told of what was seen: pages with empty pockets, and what is hardly a card."""

from functools import cache

import numpy as np
import pytest

from photo.pages import Page, page
from swapboard.disk.finder import find_cards
from swapboard.photo.find import Found
from swapboard.photo.geometry import intersection_over_union
from swapboard.photo.learned import Seen
from swapboard.photo.plane import Lying
from swapboard.photo.refining import Refined
from swapboard.photo.telling import likely_enough
from swapboard.photo.verdict import judge_seen

PAGES = range(8)
FEW = 0.08
"""The share of good crops that may be told as doubtful."""


@cache
def answered(seed: int) -> tuple[Page, tuple[Found, ...]]:
    """A page with four to seven cards, and what is found on it."""
    drawn = page(seed, cards=4 + seed % 4)
    return drawn, find_cards(drawn.picture)


@pytest.mark.parametrize("seed", PAGES)
def test_no_empty_pocket_is_answered(seed):
    """Of a page with some empty pockets just the cards are answered."""
    drawn, found = answered(seed)
    crops = [np.array(card.corners) for card in found]
    assert len(crops) == len(drawn.quads)
    for quad in drawn.quads:
        assert any(intersection_over_union(crop, quad) > 0.9 for crop in crops)


def test_few_of_the_cards_on_pages_are_doubtful():
    doubtful = [card.doubtful for seed in PAGES for card in answered(seed)[1]]
    assert np.mean(doubtful) <= FEW


def told_of(*cards: tuple[float, float]) -> list[int]:
    """Which of the cards with these shares of `tight` and these differences in area are told."""
    seen, lying, found = [], [], []
    for place, (tight, unlike) in enumerate(cards):
        quad = np.array([[0, 0], [100, 0], [100, 140], [0, 140]], float) + (120 * place + 20, 60)
        held = np.full(4, 0.98)
        refined = Refined(quad, tight, tight, 0.05, held, 0.001, 0.2, 0.3)
        seen.append(Seen(refined, quad, None, 0.0, False))
        lying.append(Lying(1.4, unlike))
        found.append(judge_seen(np.zeros((300, 900, 3), np.uint8), seen[-1], [], lying[-1]))
    told = likely_enough(seen, found, lying, (900, 300))
    return [found.index(card) for card, _ in told]


def test_what_is_hardly_a_card_is_told_only_where_no_card_is_sure():
    """Alone it may be the card, badly seen; beside a card it is a detail of the table."""
    assert told_of((0.5, 0.2)) == [0]
    assert told_of((0.5, 0.2), (0.999, 0.0)) == [1]
    assert told_of((0.001, 0.0)) == []
    assert told_of((0.97, 0.0), (0.999, 0.0)) == [0, 1]
