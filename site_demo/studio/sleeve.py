"""A nine-pocket page: clear plastic, three pockets by three, welded, with holes at the left.

Measures in card px (1/300 in), the middle of the nine pockets at (0, 0); a pocket is a little
larger than a card (common practice, no source).
"""

import numpy as np

from .camera import projected
from .grain import cloud
from .line import along, box, ellipse
from .sheet import blurred, filled

Array = np.ndarray

PITCH = (822.0, 1108.0)
STRIP = 210.0


def pocket_middle(column: int, row: int) -> tuple[float, float]:
    """Where the middle of a pocket lies, columns and rows from 0 at the top left."""
    return (column - 1) * PITCH[0], (row - 1) * PITCH[1] + 8


def page_outline() -> Array:
    """The whole page with its binding strip."""
    half = (PITCH[0] * 1.5 + 26, PITCH[1] * 1.5 + 34)
    return box(-half[0] - STRIP, -half[1], half[0], half[1])


def seen(matrix: Array, outline: Array, fine: int) -> Array:
    """An outline of the page as it lies in a picture drawn `fine` times as large."""
    return projected(matrix, along(outline, 40, True)) * fine


def under_page(picture: Array, matrix: Array, fine: int) -> None:
    """The plastic behind the cards, in place: it pales the table and throws a thin shadow."""
    size = (picture.shape[1], picture.shape[0])
    page = filled(size, seen(matrix, page_outline(), fine))
    picture *= (1 - 0.25 * np.roll(blurred(page, 7), (7, 5), (0, 1)) * (1 - page))[:, :, None]
    holes = filled(size, *[seen(matrix, ellipse(-PITCH[0] * 1.5 - 140, y, 42, 42), fine)
                           for y in (-1240, 0, 1240)])
    picture += (0.84 - picture) * ((page - holes) * 0.10)[:, :, None]


def over_page(picture: Array, matrix: Array, fine: int, rng) -> None:
    """The plastic before the cards, in place: welds between the pockets, and soft reflections."""
    size = (picture.shape[1], picture.shape[0])
    page = filled(size, seen(matrix, page_outline(), fine))
    half = (PITCH[0] * 1.5, PITCH[1] * 1.5)
    welds = [box(x - 6, -half[1], x + 6, half[1]) for x in (-half[0], -PITCH[0] / 2, PITCH[0] / 2,
                                                            half[0])]
    welds += [box(-half[0], y - 6, half[0], y + 6) for y in (-PITCH[1] / 2, PITCH[1] / 2, half[1])]
    seam = filled(size, *[seen(matrix, weld, fine) for weld in welds])
    picture += (0.95 - picture) * (seam * 0.30)[:, :, None]
    picture *= (1 - 0.20 * np.clip(blurred(seam, 3) - seam, 0, 1))[:, :, None]
    down, across = np.mgrid[0:size[1], 0:size[0]].astype(np.float32)
    bend = 90 * cloud(size, size[0] / 3, rng, 2)
    gleam = np.exp(-(((across * 0.8 + down * 0.6 + bend - size[0] * 0.9) / (size[0] * 0.05)) ** 2))
    wrinkle = np.clip(cloud(size, size[0] / 9, rng, 3, (2, 1)) - 1.7, 0, 1)
    picture += (1 - picture) * (page * (0.07 * gleam + 0.07 * wrinkle + 0.015))[:, :, None]
