"""Four cards pushed together that were taken for one.

Two by two they have a card's own proportion. What tells is that a quarter of it has the size of
another card, or of half of what else lies there.
"""

from itertools import chain

import numpy as np

from swapboard.photo.geometry import intersection_over_union, mean_sides
from swapboard.photo.looking import Looks
from swapboard.photo.panels import FILL, halves_of
from swapboard.photo.plane import Table, table_of
from swapboard.photo.readings import PERHAPS, card_like, choose, is_likely
from swapboard.photo.refining import Refined

FEW = 3
"""Beside more cards their common size tells (`one_size`)."""

ALIKE = 0.06
"""How far, as a logarithm, sides of one size may differ."""


def parted_blocks(looks: Looks, focal: float | None) -> list[Refined]:
    """What was seen so far, blocks of four as their cards, and two beside one likewise;
    `focal` in px where known."""
    chosen = [one for one, _ in choose(looks.looked) if is_likely(one)]
    if not 2 <= len(chosen) <= FEW:
        return looks.looked
    table = table_of([one.quad for one in chosen], *looks.size, focal)
    for block in filter(lambda one: card_like(one.quad), chosen):
        quarters = list(chain.from_iterable(map(halves_of, halves_of(block.quad))))
        size = _size_of(quarters[0], table)
        for other in chosen:
            parts = _parts_of_size(other, size, table) if other is not block else []
            cards = _all_likely(looks, quarters + parts) if parts else []
            if cards:
                return _instead(looks.looked, [block.quad, other.quad], cards)
    return looks.looked


def _parts_of_size(one: Refined, size: np.ndarray, table: Table) -> list[np.ndarray]:
    """A card of that size itself, or the halves of two in one; nothing, if neither is."""
    for parts in ([one.quad], halves_of(one.quad)):
        if np.abs(np.log(_size_of(parts[0], table) / size)).max() < ALIKE:
            return parts
    return []


def _size_of(quad: np.ndarray, table: Table) -> np.ndarray:
    """(short, long) of a quad [4, 2] px as it lies on the table."""
    return np.sort(mean_sides(table.level(quad[None])[0]))


def _all_likely(looks: Looks, quads: list[np.ndarray]) -> list[Refined]:
    """What likely are cards on all of the quads [4, 2] px; nothing, if one is not."""
    cards: list[Refined] = []
    for quad in quads:
        card = looks.reading(quad)
        if card is None or min(card.tight, card.loose) < PERHAPS or not card_like(card.quad):
            return []
        if intersection_over_union(card.quad, quad) < FILL:
            return []
        cards.append(card)
    return cards


def _instead(
    looked: list[Refined], wholes: list[np.ndarray], cards: list[Refined]
) -> list[Refined]:
    kept = [one for one in looked
            if all(intersection_over_union(one.quad, whole) < FILL for whole in wholes)]
    return kept + cards
