"""Masks and compositing: points in, arrays out.

A mask is float32 [height, width], 0 outside to 1 inside, soft by one pixel at the edge.
"""

import cv2
import numpy as np

Array = np.ndarray
UPRIGHT = (750, 1050)
WIDE = (1050, 750)


def colour(code: str) -> Array:
    """'#rrggbb' as float32 [3]."""
    return np.array([int(code[i:i + 2], 16) for i in (1, 3, 5)], np.float32) / 255


def filled(size: tuple[int, int], *outlines) -> Array:
    """The mask of closed outlines, laid one over another; `size` is (width, height)."""
    plate = np.zeros((size[1], size[0]), np.uint8)
    for outline in outlines:
        points = np.int32(np.round((np.asarray(outline) - 0.5) * 16))
        cv2.fillPoly(plate, [points.reshape(-1, 1, 2)], 255, cv2.LINE_AA, 4)
    return plate.astype(np.float32) / 255


def stamped(plate: Array, outline, value: float = 1.0) -> None:
    """Draw one closed outline into a uint8 plate, in place, with `value` from 0 to 1."""
    points = np.int32(np.round((np.asarray(outline) - 0.5) * 16))
    cv2.fillPoly(plate, [points.reshape(-1, 1, 2)], int(value * 255), cv2.LINE_AA, 4)


def blurred(field: Array, px: float) -> Array:
    """A Gaussian blur of standard deviation `px`."""
    return cv2.GaussianBlur(field, (0, 0), px) if px > 0 else field


def over(picture: Array, paint, mask: Array) -> Array:
    """`paint`, a colour [3] or a picture, laid over `picture` where `mask` says, in place."""
    picture += (np.asarray(paint, np.float32) - picture) * mask[:, :, None]
    return picture


def glazed(picture: Array, tint: Array, density: Array) -> Array:
    """Transparent colour over `picture`, in place: light passes it once a unit of density."""
    picture *= np.power(np.clip(tint, 0.02, 1.0)[None, None, :], density[:, :, None])
    return picture


def shifted(field: Array, right: float, down: float) -> Array:
    """`field` moved by a part of a pixel or more; what comes in at the border repeats it."""
    matrix = np.float32([[1, 0, right], [0, 1, down]])
    return cv2.warpAffine(field, matrix, (field.shape[1], field.shape[0]),
                          borderMode=cv2.BORDER_REPLICATE)


def ramp(size: tuple[int, int], top: float, bottom: float) -> Array:
    """A field that goes evenly from `top` to `bottom`, [height, width]."""
    return np.repeat(np.linspace(top, bottom, size[1], dtype=np.float32)[:, None], size[0], 1)


def torn(field: Array, noise: Array, px: float) -> Array:
    """A mask with its edge moved in and out by `noise` (standard deviation 1) times `px`."""
    inside = cv2.distanceTransform((field > 0.5).astype(np.uint8), cv2.DIST_L2, 5)
    outside = cv2.distanceTransform((field <= 0.5).astype(np.uint8), cv2.DIST_L2, 5)
    return np.clip(inside - outside + noise * px + 0.5, 0, 1).astype(np.float32)
