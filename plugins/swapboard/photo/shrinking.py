"""Pictures made smaller, quickly and without moiré."""

import cv2
import numpy as np

FINE = 2
"""Times finer than shown that pictures are read, so that detail does not turn into moiré."""


def working_copy(picture: np.ndarray, long: int) -> tuple[np.ndarray, float]:
    """The picture uint8 [h, w, 3] reduced to `long` px on its longer side, and the factor (≤ 1)."""
    height, width = picture.shape[:2]
    scale = min(1.0, long / max(height, width))
    if scale == 1.0:
        return picture, 1.0
    return shrunk(picture, (max(round(width * scale), 1), max(round(height * scale), 1))), scale


def shrunk(picture: np.ndarray, size: tuple[int, int]) -> np.ndarray:
    """The picture at `size` (w, h) px, which is no larger.

    Halved first while `FINE` px are left for each after that: halving is quick, and of what is left
    any mean is.
    """
    while min(picture.shape[1] / size[0], picture.shape[0] / size[1]) >= 2 * FINE:
        picture = halved(picture)
    return cv2.resize(picture, size, interpolation=cv2.INTER_AREA)


def halved(picture: np.ndarray) -> np.ndarray:
    """The picture half as wide and high, rounded down, but a px at least."""
    height, width = picture.shape[:2]
    half = max(width // 2, 1), max(height // 2, 1)
    return cv2.resize(picture, half, interpolation=cv2.INTER_AREA)
