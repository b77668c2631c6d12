"""Quadrilaterals of a picture straightened, with some of what is around them."""

import cv2
import numpy as np

from swapboard.photo.geometry import side_lengths
from swapboard.photo.networks import MARGIN, WARP
from swapboard.photo.shrinking import FINE, halved


class Pyramid:
    """A picture and its halvings, made as they are needed."""

    def __init__(self, picture: np.ndarray) -> None:
        self._levels = [picture]

    def level_for(self, pixels: float, shown: float) -> tuple[np.ndarray, float]:
        """The smallest level on which what is `pixels` long, and `shown` px long, keeps `FINE` px
        for each of those."""
        halvings = int(max(np.floor(np.log2(max(pixels, 1) / (FINE * shown))), 0))
        while len(self._levels) <= halvings:
            self._levels.append(halved(self._levels[-1]))
        level = self._levels[halvings]
        return level, level.shape[0] / self._levels[0].shape[0]


def box_in_warp(size: tuple[int, int] = WARP, margin: float = MARGIN) -> np.ndarray:
    """Corners [4, 2] px, in a warp of `size` (w, h) px, of the quadrilateral it was made for."""
    wide, tall = size
    left, top = wide * margin / (1 + 2 * margin), tall * margin / (1 + 2 * margin)
    right, bottom = wide - left, tall - top
    return np.array([[left, top], [right, top], [right, bottom], [left, bottom]])


def tall_first(quad: np.ndarray) -> np.ndarray:
    """The corners begun such that left and right are the longer sides."""
    top, right, bottom, left = side_lengths(quad)
    return np.roll(quad, -1, axis=0) if top + bottom > right + left else quad


def straightened(
    pyramid: Pyramid, quad: np.ndarray, shown: tuple[int, int], margin: float
) -> tuple[np.ndarray, np.ndarray]:
    """What lies on a quadrilateral [4, 2] px of the picture, and a `margin` about it, uint8
    [h, w, 3] of `shown` (w, h) px, and the homography from its px to the picture's."""
    level, scale = pyramid.level_for(float(side_lengths(quad).max()), shown[1] / (1 + 2 * margin))
    box, (wide, tall) = box_in_warp(shown, margin), shown
    onto = cv2.getPerspectiveTransform(
        (quad * scale - 0.5).astype(np.float32), (box * FINE - 0.5).astype(np.float32))
    seen = cv2.warpPerspective(
        level, onto, (wide * FINE, tall * FINE), flags=cv2.INTER_LINEAR,
        borderMode=cv2.BORDER_REPLICATE)
    back = cv2.getPerspectiveTransform(box.astype(np.float32), quad.astype(np.float32))
    return cv2.resize(seen, shown, interpolation=cv2.INTER_AREA), back


def warp_of(
    pyramid: Pyramid, size: tuple[int, int], quad: np.ndarray,
    shown: tuple[int, int] = WARP, margin: float = MARGIN,
) -> tuple[np.ndarray, np.ndarray]:
    """The warp float32 [h, w, 4] of `shown` (w, h) px, and the homography from its px to the
    picture's: colours in 0–1, and 1 inside the frame."""
    seen, back = straightened(pyramid, quad, shown, margin)
    wide, tall = shown
    # Plane by plane, as the network reads it.
    planes = np.empty((4, tall, wide), np.float32)
    planes[:3] = cv2.dnn.blobFromImage(seen, 1 / 255)[0]
    planes[3] = _framed(back, shown, size)
    return planes.transpose(1, 2, 0), back


def _framed(
    back: np.ndarray, shown: tuple[int, int], size: tuple[int, int]
) -> np.ndarray:
    """Which px of a warp of `shown` (w, h) lie in a picture of `size`: bool [h, w], or [1, 1] where
    all do, as its corners tell."""
    x = np.arange(shown[0], dtype=np.float32) + 0.5
    y = (np.arange(shown[1], dtype=np.float32) + 0.5)[:, None]
    ends, depth = _lies_in(back, x[[0, -1]], y[[0, -1]], size)
    if ends.all() and depth.min() > 0:
        return ends[:1, :1]
    return _lies_in(back, x, y, size)[0]


def _lies_in(
    back: np.ndarray, x: np.ndarray, y: np.ndarray, size: tuple[int, int]
) -> tuple[np.ndarray, np.ndarray]:
    """Whether px of a warp at `x` [n] and `y` [m, 1] lie in a picture, and how deep: [m, n]."""
    depth = back[2, 0] * x + back[2, 1] * y + back[2, 2]
    across = (back[0, 0] * x + back[0, 1] * y + back[0, 2]) / depth
    down = (back[1, 0] * x + back[1, 1] * y + back[1, 2]) / depth
    return (across >= 0) & (down >= 0) & (across <= size[0]) & (down <= size[1]), depth
