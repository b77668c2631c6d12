"""The published sizes of a cut card."""

from collections.abc import Sequence
from math import gcd

import cv2
import numpy as np

WIDTHS = (240, 320, 480, 960)
"""px, across: for a list on a phone up to one card filling a screen."""

JPEG_WIDTH = 480
"""px: the one picture for browsers that do not know AVIF."""


def sizes_for(width: int, height: int) -> tuple[tuple[int, int], ...]:
    """(width, height) of each published size, smallest first, never upscaled.

    Each of `WIDTHS` is rounded down to a whole multiple of the proportion, so
    that every size has exactly that of the cut card; those wider than the cut
    card are left out. A card narrower than them all is published as it is.
    """
    common = gcd(width, height)
    across, down = width // common, height // common
    fitting = {at_most // across for at_most in WIDTHS if across * (at_most // across) <= width}
    times = sorted(n for n in fitting if n > 0) or [common]
    return tuple((across * n, down * n) for n in times)


def jpeg_size(sizes: Sequence[tuple[int, int]]) -> tuple[int, int]:
    """The size of the JPEG among the published ones: the widest within `JPEG_WIDTH`."""
    return max((size for size in sizes if size[0] <= JPEG_WIDTH), default=sizes[0])


def derive(card: np.ndarray) -> tuple[np.ndarray, ...]:
    """The cut card uint8 [h, w, 3] in each published size, smallest first.

    Each size is averaged down from the next larger one.
    """
    height, width = card.shape[:2]
    made: list[np.ndarray] = []
    larger = card
    for size in reversed(sizes_for(width, height)):
        if (larger.shape[1], larger.shape[0]) != size:
            larger = cv2.resize(larger, size, interpolation=cv2.INTER_AREA)
        made.append(larger)
    return tuple(reversed(made))
