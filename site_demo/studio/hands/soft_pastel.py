"""Soft pastel: crumbling sticks on dark toothed paper, colour broken over colour."""

import cv2
import numpy as np

from ..cartoon import Cartoon, patch, rounding
from ..grain import cloud, paper, speckle, tooth
from ..sheet import blurred, colour, over, torn

Array = np.ndarray
Random = np.random.Generator


def pastelled(art: Cartoon, seed: int, stock: str = "#3a3540", lively: float = 0.09) -> Array:
    """The design in pastel: each piece in strokes along its angle, the paper grinning through.

    `lively` is how far neighbouring strokes stray in colour.
    """
    rng = np.random.default_rng(seed)
    sheet = paper(art.size, colour(stock), rng, 0.05)
    teeth = tooth(art.size, rng, 3.4)
    margin = np.zeros(art.size[::-1], np.float32)
    margin[26:-26, 26:-26] = 1
    margin = torn(margin, cloud(art.size, 40, rng, 5), 5.0)
    for one in art.pieces:
        where, mask = patch(art.size, one.outlines, 30)
        size = (mask.shape[1], mask.shape[0])
        edge = torn(mask, cloud(size, 20, rng, 4), 2.6) if min(size) > 24 else mask
        strokes = streaks(size, one.angle, rng)
        caught = np.clip(1.5 * (strokes * 0.26 + 1.27 - teeth[where] * 1.1), 0, 1)
        tint = strayed(colour(one.tint), strokes, size, rng, lively)
        tint = tint * (1 - 0.7 * one.shade * rounding(mask))[:, :, None]
        over(sheet[where], np.clip(tint, 0, 1), blurred(edge, 1.3) * caught * margin[where])
    dust = 1 + 0.035 * speckle(art.size, 1.1, rng)
    return np.clip(sheet * dust[:, :, None], 0, 1)


def strayed(tint: Array, strokes: Array, size, rng: Random, lively: float) -> Array:
    """The tint with warmer and cooler strokes beside one another, [height, width, 3]."""
    warm = cloud(size, 26, rng, 3, (3, 1))[:, :, None] * np.array([1.0, 0.1, -0.9], np.float32)
    light = (strokes + 0.7 * cloud(size, 120, rng, 3))[:, :, None]
    return (tint + lively * 0.55 * warm + lively * 0.6 * light).astype(np.float32)


def streaks(size: tuple[int, int], angle: float, rng: Random) -> Array:
    """Broad marks of the side of a stick along `angle` degrees, standard deviation near 1."""
    side = int(np.hypot(*size)) + 8
    field = cloud((side, side), 15, rng, 3, (14, 1))
    turn = cv2.getRotationMatrix2D((side / 2, side / 2), -angle, 1)
    turn[:, 2] += (size[0] / 2 - side / 2, size[1] / 2 - side / 2)
    return cv2.warpAffine(field, turn, size, borderMode=cv2.BORDER_REFLECT)
