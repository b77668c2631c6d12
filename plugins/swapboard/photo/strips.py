"""Colours read across a card's sides, from what is about it inwards."""

import cv2
import numpy as np

from swapboard.photo.geometry import side_lengths

STRETCHES, EACH = 8, 12
"""Into how many stretches each side is divided, and how many places are read in each."""

ENDS = 0.08
"""Of a side's length, what is left out at either end: corners may be round."""


def across_sides(picture: np.ndarray, quad: np.ndarray, at: np.ndarray) -> np.ndarray:
    """Mean colours float [4, len(at), 8, 3] of eight stretches along each side of a quadrilateral
    [4, 2] px in a picture uint8 [h, w, 3]; `at`: how far inwards, as shares of its length."""
    along = np.linspace(ENDS, 1 - ENDS, STRETCHES * EACH)[None, :, None]
    far = at[:, None, None] * float(side_lengths(quad).max())
    sides = np.roll(quad, -1, axis=0) - quad
    inward = np.column_stack([-sides[:, 1], sides[:, 0]]) / np.hypot(*sides.T)[:, None]
    places = np.concatenate([
        corner + along * side + far * normal
        for corner, side, normal in zip(quad, sides, inward, strict=True)]).astype(np.float32)
    seen = cv2.remap(picture, places[..., 0] - 0.5, places[..., 1] - 0.5, cv2.INTER_LINEAR,
                     borderMode=cv2.BORDER_REPLICATE)
    return seen.reshape(4, len(at), STRETCHES, EACH, 3).mean(axis=3)
