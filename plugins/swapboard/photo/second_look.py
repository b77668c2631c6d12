"""When edges and colours are asked too, and what of what they propose counts.

They take longer than the networks, and see cards in any pattern; but a card on printed cloth, or
one of whose pictures looks like the card, has edges that nobody can miss.
"""

import numpy as np

from swapboard.photo.geometry import overlap, signed_area
from swapboard.photo.readings import (
    SURE,
    WHOLLY,
    WITHIN,
    choose,
    is_sure,
    of_usual_size,
    open_like,
)
from swapboard.photo.refining import Refined

ENOUGH = 5
"""So many sure cards: for one more that is not, edges are not asked."""

PANEL, FILLED, DETAIL = 0.6, 0.85, 0.3
"""Of an open card's area, a panel at most; both of two at least; and a picture in one at most."""


def in_doubt(looked: list[Refined], lost: list[np.ndarray]) -> bool:
    """Whether a card is unsure, or one proposed came to nothing where none other lies."""
    chosen = [one for one, _ in choose(looked)]
    missed = any(
        all(overlap(quad, one.quad) < WITHIN * abs(signed_area(quad)) for one in chosen)
        for quad in lost
    )
    sure = [is_sure(one) for one in chosen]
    return not chosen or missed or (sum(sure) < ENOUGH and not all(sure))


def of_another_size(looked: list[Refined]) -> bool:
    """Whether what was found is of no usual size, and not a deck of it: part of a card, maybe."""
    chosen = [one for one, _ in choose(looked)]
    return len(chosen) < ENOUGH and not all(of_usual_size(one.quad) for one in chosen)


def in_open_card(quad: np.ndarray, looked: list[Refined]) -> bool:
    """Whether it is hardly more than a panel of what is likely a card that lies open."""
    area = abs(signed_area(quad))
    return any(
        min(one.tight, one.loose) > SURE and open_like(one.quad)
        and area < PANEL * signed_area(one.quad) and overlap(quad, one.quad) > WHOLLY * area
        for one in looked)


def around(looked: list[Refined], more: list[Refined]) -> list[Refined]:
    """Those of more readings that surely are open cards of which something that was found is only
    a part: no sheet or page on which cards lie."""
    return [one for one in more if is_sure(one) and of_usual_size(one.quad)
            and _has_parts(one, [part for part in looked if _is_within(part, one)])]


def _has_parts(one: Refined, within: list[Refined]) -> bool:
    """Whether what was found within a reading is its two panels, or in an open one a detail."""
    cards = [part for part in within if is_sure(part) and of_usual_size(part.quad)]
    if len(cards) == 2:
        return sum(signed_area(card.quad) for card in cards) > FILLED * signed_area(one.quad)
    details = all(signed_area(part.quad) < DETAIL * signed_area(one.quad) for part in within)
    return open_like(one.quad) and bool(within) and not cards and details


def _is_within(one: Refined, other: Refined) -> bool:
    area = signed_area(one.quad)
    return area < signed_area(other.quad) and overlap(one.quad, other.quad) > WITHIN * area
