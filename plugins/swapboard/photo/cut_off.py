"""Cards that leave the picture so far that nothing can be said of their sides.

The proposer still sees what is left of them, and where the rest would lie. They
are told, so that a maker takes the photo again; they are never sure.
"""

from collections.abc import Sequence

import numpy as np

from swapboard.photo.geometry import from_top_left, is_convex, overlap, signed_area

LEAST, MOST = 0.1, 0.95
"""Of a card's area, in the picture: with less it is a neighbour's edge, with more not cut off."""

TAKEN = 0.3
"""Of what shows of it, on other cards: then it is one of them, seen badly."""


def cut_off(
    lost: Sequence[np.ndarray], found: Sequence[np.ndarray], size: tuple[int, int]
) -> list[np.ndarray]:
    """Of proposals [4, 2] px that came to nothing, the cards that the frame cuts.

    `lost` surest first; `found` are the cards that were found; `size` (w, h) px of the picture.
    """
    frame = np.array([[0, 0], [size[0], 0], size, [0, size[1]]], dtype=np.float64)
    told: list[np.ndarray] = []
    for quad in lost:
        if not is_convex(quad):
            continue
        shown = overlap(quad, frame)
        others = (overlap(quad, other) for other in (*found, *told))
        if LEAST < shown / signed_area(quad) < MOST and all(o < TAKEN * shown for o in others):
            told.append(from_top_left(quad))
    return told
