"""Which of the cards found in a picture a post means."""

from collections.abc import Sequence

import numpy as np

from swapboard.photo.find import Found
from swapboard.photo.geometry import contains, signed_area


def card_at(
    found: Sequence[Found], size: tuple[int, int], at: tuple[float, float] | None
) -> Found | None:
    """The card under a point, or the surest where no point is given.

    `size` is (width, height) in px of the upright picture, `at` (x, y) as
    shares of it. Where cards lie over one another under the point the
    smallest is meant, being the one on top; ties go to the first in reading
    order. None where nothing was found, or nothing under the point.
    """
    if at is None:
        return max(found, key=lambda card: card.confidence, default=None)
    point = (at[0] * size[0], at[1] * size[1])
    under = [card for card in found if contains(np.array(card.corners), point)]
    return min(under, key=lambda card: abs(signed_area(np.array(card.corners))), default=None)


def middle_of(card: Found, size: tuple[int, int]) -> tuple[float, float]:
    """The point, as shares of the picture, where the card's diagonals cross."""
    a, b, c, d = (np.array(corner) for corner in card.corners)
    along, other = c - a, d - b
    cross = along[0] * other[1] - along[1] * other[0]
    start = b - a
    share = (start[0] * other[1] - start[1] * other[0]) / cross
    x, y = a + share * along
    return float(x / size[0]), float(y / size[1])
