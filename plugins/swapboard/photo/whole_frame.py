"""Pictures that are nothing but the card: scans and photos cropped before.

A camera's own proportions are 4:3, 3:2 and 16:9. A picture of 7:5 was almost
always made to fit a card, and what is found within it is a frame in its art.
"""

import numpy as np

from swapboard.photo.geometry import side_lengths, signed_area

NEAR = 0.012
"""How far, relatively, a picture's proportion may be off 7:5 and still tell."""

CARD_PROPORTION = 1.4


def is_whole_card(width: int, height: int, inner: list[np.ndarray]) -> bool:
    """Whether a picture w × h px is one card; `inner` are the sure cards found in it.

    It is, where its proportion says so, unless a card lies in it the way cards
    lie on tables: a little turned, or off the middle, or small, or several.
    """
    off = abs(max(width, height) / min(width, height) / CARD_PROPORTION - 1)
    if off > NEAR or len(inner) > 1:
        return False
    return not inner or _like_a_drawn_frame(inner[0], width, height)


def whole_frame(width: int, height: int) -> np.ndarray:
    """The picture's own corners [4, 2], clockwise from the top left."""
    return np.array([[0, 0], [width, 0], [width, height], [0, height]], dtype=np.float64)


def _like_a_drawn_frame(quad: np.ndarray, width: int, height: int) -> bool:
    """Parallel to the picture's sides, large and even all round; or along its border."""
    if _along_the_border(quad, width, height):
        return True
    if abs(signed_area(quad)) < 0.45 * width * height:
        return abs(signed_area(quad)) < 0.06 * width * height
    sides = np.roll(quad, -1, axis=0) - quad
    slant = np.minimum(np.abs(sides[:, 0]), np.abs(sides[:, 1])) / side_lengths(quad)
    (left, top), (right, bottom) = quad.min(axis=0), quad.max(axis=0)
    uneven = max(abs(left - (width - right)), abs(top - (height - bottom)))
    return bool(slant.max() < 0.012 and uneven < 0.06 * max(width, height))


def _along_the_border(quad: np.ndarray, width: int, height: int) -> bool:
    """Whether a side runs where the picture ends: no card's edge, or one just as well left out."""
    near = NEAR * max(width, height)
    low, high = quad < near, quad > np.array([width, height]) - near
    return any(bool((edge & np.roll(edge, -1, axis=0)).any()) for edge in (low, high))
