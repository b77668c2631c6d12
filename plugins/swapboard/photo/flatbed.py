"""Whether a card lies on a scanner's glass: straight before it, under a lid of one plain grey.

Two cards that touch look there just as one that lies open; and makers scan several at once.
"""

from collections.abc import Sequence

import cv2
import numpy as np

from swapboard.photo.geometry import side_lengths
from swapboard.photo.nearby import grown
from swapboard.photo.shrinking import working_copy

GLASS = ((0.009, 0.012, 10.0), (0.006, 0.008, 14.0))
"""How far sides across from each other may differ, as a logarithm, and corners be off a right
angle, as its cosine, on a scanner's glass: a photo held by hand is tilted by more. And levels of
255 by which a lid's colours differ from place to place, but for a few in a hundred: by more, the
straighter it lies. (Of two scans by other hands 10 and 10.0; of a card on grey paper 12, but .010
off a right angle.)"""

RING = (0.03, 0.1)
"""Of the card's length, from where to where about it the lid is looked at."""

GREY = 24.0
"""Levels of 255 by which a lid's red, green and blue differ: lids are white, grey or black (common
practice, no source)."""

SHRUNK = 600
"""px: the picture's longer side on a copy that is fine enough for that."""


def is_scanned(
    picture: np.ndarray, quad: np.ndarray, halves: Sequence[np.ndarray] = ()
) -> bool:
    """Whether what has these corners [4, 2] px was scanned, in a picture uint8 [h, w, 3]; `halves`
    of it, cards that may not lie quite straight beside each other, say how square it is."""
    plain = min(_plain_enough(one) for one in halves or (quad,))
    return plain > 0 and _is_under_lid(picture, quad, plain)


def _plain_enough(quad: np.ndarray) -> float:
    """By how many levels a lid's colours may differ about what is so square; 0 if it was seen at
    a slant."""
    uneven, slant = _off_square(quad)
    return max((plain for square, upright, plain in GLASS
                if uneven < square and slant < upright), default=0.0)


def _off_square(quad: np.ndarray) -> tuple[float, float]:
    """How far sides across from each other differ, and how far corners are off a right angle."""
    sides = np.roll(quad, -1, axis=0) - quad
    lengths = side_lengths(quad)
    turns = (sides * np.roll(sides, 1, axis=0)).sum(axis=1) / (lengths * np.roll(lengths, 1))
    return float(np.abs(np.log(lengths[:2] / lengths[2:])).max()), float(np.abs(turns).max())


def _is_under_lid(picture: np.ndarray, quad: np.ndarray, plain: float) -> bool:
    small, scale = working_copy(picture, SHRUNK)
    calm = cv2.GaussianBlur(small, (0, 0), 2)
    ring = np.zeros(calm.shape[:2], np.uint8)
    for border, value in zip(RING[::-1], (1, 0), strict=True):
        cv2.fillConvexPoly(ring, np.round(grown(quad, border) * scale).astype(np.int32), value)
    seen = calm[ring > 0].astype(np.float64)
    if not len(seen):
        return False
    low, high = np.percentile(seen, (5, 95), axis=0)
    return bool((high - low).max() < plain and np.ptp(np.median(seen, axis=0)) < GREY)
