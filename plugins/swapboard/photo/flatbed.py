"""Whether a card lies on a scanner's glass: straight before it, under a lid of one plain grey.

Two cards that touch look there just as one that lies open; and makers scan several at once.
"""


import cv2
import numpy as np

from swapboard.photo.geometry import side_lengths
from swapboard.photo.nearby import grown
from swapboard.photo.shrinking import working_copy

SQUARE, UPRIGHT = 0.009, 0.012
"""How far sides across from each other may differ, as a logarithm, and corners be off a right
angle, as its cosine, on a scanner's glass; a photo held by hand is tilted by more."""

RING = (0.03, 0.1)
"""Of the card's length, from where to where about it the lid is looked at."""

PLAIN, GREY = 10.0, 24.0
"""Levels of 255 by which a lid's colours differ from place to place, but for a few in a hundred;
and by which its red, green and blue do: lids are white, grey or black (common practice, no
source)."""

SHRUNK = 600
"""px: the picture's longer side on a copy that is fine enough for that."""


def is_scanned(picture: np.ndarray, quad: np.ndarray) -> bool:
    """Whether what has these corners [4, 2] px was scanned, in a picture uint8 [h, w, 3]."""
    return _is_square(quad) and _is_under_lid(picture, quad)


def _is_square(quad: np.ndarray) -> bool:
    sides = np.roll(quad, -1, axis=0) - quad
    lengths = side_lengths(quad)
    uneven = np.abs(np.log(lengths[:2] / lengths[2:]))
    turns = (sides * np.roll(sides, 1, axis=0)).sum(axis=1) / (lengths * np.roll(lengths, 1))
    return bool(uneven.max() < SQUARE and np.abs(turns).max() < UPRIGHT)


def _is_under_lid(picture: np.ndarray, quad: np.ndarray) -> bool:
    small, scale = working_copy(picture, SHRUNK)
    calm = cv2.GaussianBlur(small, (0, 0), 2)
    ring = np.zeros(calm.shape[:2], np.uint8)
    for border, value in zip(RING[::-1], (1, 0), strict=True):
        cv2.fillConvexPoly(ring, np.round(grown(quad, border) * scale).astype(np.int32), value)
    seen = calm[ring > 0].astype(np.float64)
    if not len(seen):
        return False
    low, high = np.percentile(seen, (5, 95), axis=0)
    return bool((high - low).max() < PLAIN and np.ptp(np.median(seen, axis=0)) < GREY)
