"""What a card lies on when it is photographed.

Each table is drawn as float32 [height, width, 3]; `scale` is its px per card px
(1/300 in), so that threads, grain and ruled lines keep their true size.
"""

import cv2
import numpy as np

from .grain import cloud, paper, speckle, weave, wood
from .sheet import colour

Array = np.ndarray
Random = np.random.Generator


def oak(size: tuple[int, int], scale: float, rng: Random) -> Array:
    """A table top of oiled oak, two planks with a seam."""
    width, height = size
    seam = int(height * rng.uniform(0.12, 0.2))
    parts = [wood((width, rows), colour("#b98a58"), colour("#7a4f2c"), rng, 62 * scale)
             for rows in (seam, height - seam)]
    parts[0] *= 0.93
    top = np.vstack(parts)
    top[max(seam - 2, 0):seam + 2] *= 0.45
    return top


def walnut(size: tuple[int, int], scale: float, rng: Random) -> Array:
    """A dark board, its grain down the picture."""
    plank = wood(size[::-1], colour("#6d4a34"), colour("#3a251a"), rng, 74 * scale)
    return np.ascontiguousarray(plank.transpose(1, 0, 2))


def linen(size: tuple[int, int], scale: float, rng: Random) -> Array:
    """An unbleached linen cloth with a soft fold or two."""
    threads = weave(size, 9.0 * scale, rng)
    folds = cloud(size, 900 * scale, rng, 2, (1.8, 0.7)) * 0.05
    shade = 0.77 + 0.22 * threads + folds
    return np.clip(colour("#cdbfa6") * shade[:, :, None], 0, 1).astype(np.float32)


def slate(size: tuple[int, int], scale: float, rng: Random) -> Array:
    """A slate slab: cleft relief lit from one side, pale scratches."""
    relief = cloud(size, 260 * scale, rng, 6, (1.6, 1)) + 0.5 * cloud(size, 40 * scale, rng, 4)
    lit = cv2.Sobel(relief, cv2.CV_32F, 1, 0) + cv2.Sobel(relief, cv2.CV_32F, 0, 1)
    shade = 1 + 0.35 * np.tanh(lit) * 0.5 + 0.05 * relief + 0.03 * speckle(size, 0.8, rng)
    slab = colour("#4a5157") * shade[:, :, None]
    for _ in range(14):
        x, y, angle = rng.uniform(0, size[0]), rng.uniform(0, size[1]), rng.uniform(0, np.pi)
        reach = rng.uniform(60, 420) * scale
        end = (int(x + reach * np.cos(angle)), int(y + reach * np.sin(angle)))
        scratch = np.zeros(size[::-1], np.uint8)
        cv2.line(scratch, (int(x), int(y)), end, 255, 1, cv2.LINE_AA)
        slab += scratch[:, :, None] / 255 * 0.06
    return np.clip(slab, 0, 1).astype(np.float32)


def cutting_mat(size: tuple[int, int], scale: float, rng: Random) -> Array:
    """A green cutting mat ruled in half inches, scored by use."""
    mat = np.repeat(colour("#2f6b5d")[None, None, :], size[0], 1).repeat(size[1], 0).copy()
    mottle = 0.035 * speckle(size, 0.7, rng) + 0.03 * cloud(size, 500 * scale, rng, 3)
    mat *= 1 + mottle[:, :, None]
    lines = np.zeros(size[::-1], np.uint8)
    for number in range(int(max(size) / (150 * scale)) + 1):
        at = int(number * 150 * scale + 31 * scale)
        thick = max(1, round((5 if number % 2 == 0 else 2) * scale))
        cv2.line(lines, (at, 0), (at, size[1]), 255 if number % 2 == 0 else 130, thick)
        cv2.line(lines, (0, at), (size[0], at), 255 if number % 2 == 0 else 130, thick)
    mat += (colour("#c9d8a8") - mat) * (lines / 255 * 0.62)[:, :, None]
    cuts = np.zeros(size[::-1], np.uint8)
    for _ in range(26):
        x, y, angle = rng.uniform(0, size[0]), rng.uniform(0, size[1]), rng.choice([0, np.pi / 2])
        angle += rng.normal(0, 0.06)
        reach = rng.uniform(200, 900) * scale
        cv2.line(cuts, (int(x), int(y)), (int(x + reach * np.cos(angle)),
                 int(y + reach * np.sin(angle))), int(rng.uniform(60, 200)), 1, cv2.LINE_AA)
    return np.clip(mat * (1 - cuts[:, :, None] / 255 * 0.3), 0, 1).astype(np.float32)


def painted_board(size: tuple[int, int], scale: float, rng: Random) -> Array:
    """Boards under blue chalk paint, brushed along and worn at the seams."""
    brush = cloud(size, 14 * scale, rng, 3, (30, 1)) * 0.022 + cloud(size, 420 * scale, rng) * 0.02
    board = colour("#7c99a6") * (1 + brush[:, :, None])
    y = np.arange(size[1]) / (520 * scale)
    seam = np.abs((y + 0.31) % 1 - 0.5) * 520 * scale
    near = np.exp(-seam / (14 * scale))[:, None] + np.zeros((1, size[0]))
    bare = np.clip((near * 1.4 + cloud(size, 60 * scale, rng, 5, (4, 1)) * 0.35 - 0.95) * 4, 0, 1)
    board += (colour("#b39878") - board) * bare[:, :, None] * 0.8
    board *= 1 - 0.62 * np.exp(-((seam / (3.2 * scale)) ** 2))[:, None, None]
    return np.clip(board, 0, 1).astype(np.float32)


def pale_paper(size: tuple[int, int], scale: float, rng: Random) -> Array:
    """A large sheet of grey-white cartridge paper, barely darker than a card."""
    return paper(size, colour("#d9d5cc"), rng, 0.03)


def felt(size: tuple[int, int], scale: float, rng: Random) -> Array:
    """Wine-red wool felt."""
    nap = 0.06 * speckle(size, 1.4 * scale, rng) + 0.05 * cloud(size, 30 * scale, rng, 4)
    nap += 0.04 * cloud(size, 500 * scale, rng, 2)
    return np.clip(colour("#7d3038") * (1 + nap[:, :, None]), 0, 1).astype(np.float32)


TABLES = {"oak": oak, "walnut": walnut, "linen": linen, "slate": slate,
          "cutting mat": cutting_mat, "painted board": painted_board,
          "pale paper": pale_paper, "felt": felt}
