"""Cross stitch: a design counted out in squares, each crossed with two strands."""

import cv2
import numpy as np

from ..cartoon import Cartoon
from ..grain import cloud
from ..sheet import blurred, colour

Array = np.ndarray

CELL = 12


def crossed(art: Cartoon, seed: int, cloth: str = "#efe7d6", bare: tuple[str, ...] = ()) -> Array:
    """The design in cross stitch on even-weave cloth, CELL px a stitch.

    Where the design shows its ground, or a tint in `bare`, the cloth is left unsewn.
    """
    rng = np.random.default_rng(seed)
    width, height = art.size
    columns, rows = width // CELL, height // CELL
    plate, tints = art.labels()
    counted = commonest(plate, columns, rows, len(tints))
    sheet = aida(art.size, cloth, rng)
    open_tints = {0, *[number for number, tint in enumerate(tints) if tint in bare]}
    sewn = ~np.isin(counted, list(open_tints))
    lut = np.array([colour(tint) for tint in tints], np.float32)
    left, top = (width - columns * CELL) // 2, (height - rows * CELL) // 2
    part = sheet[top:top + rows * CELL, left:left + columns * CELL]
    grow = np.ones((CELL, CELL), np.float32)
    where = np.kron(sewn.astype(np.float32), grow)
    dye = np.kron(lut[counted].transpose(2, 0, 1), grow).transpose(1, 2, 0)
    part *= (1 - 0.32 * blurred(where, 2.5))[:, :, None]
    for rising in (True, False):
        cover, shine = strand(rising)
        cover = np.tile(cover, (rows, columns)) * where
        shine = np.tile(shine, (rows, columns))
        jitter = np.kron(rng.normal(0, 0.045, (rows, columns)).astype(np.float32), grow)
        body = dye * (0.80 + 0.32 * shine + jitter)[:, :, None]
        part *= (1 - 0.22 * np.roll(cover, (1, 1), (0, 1)) * (not rising))[:, :, None]
        part += (np.clip(body, 0, 1) - part) * cover[:, :, None]
    return np.clip(blurred(sheet, 0.45), 0, 1)


def commonest(plate: Array, columns: int, rows: int, count: int) -> Array:
    """The colour number that fills most of each square, [rows, columns]; the lower on a tie."""
    share = [cv2.resize((plate == number).astype(np.float32), (columns, rows),
                        interpolation=cv2.INTER_AREA) for number in range(count)]
    return np.argmax(np.stack(share), 0)


def strand(rising: bool) -> tuple[Array, Array]:
    """One leg of the cross in its square: how it covers and how light lies on it, [CELL, CELL]."""
    y, x = np.mgrid[0:CELL * 4, 0:CELL * 4].astype(np.float32) / (CELL * 4)
    across = (x - y) if not rising else (x + y - 1)
    lengthwise = (x + y - 1) if not rising else (x - y)
    cover = np.clip((0.235 - np.abs(across)) * 14, 0, 1)
    cover *= np.clip((1.02 - np.abs(lengthwise)) * 9, 0, 1)
    twist = 0.5 + 0.5 * np.cos(2 * np.pi * (lengthwise * 3.5 + across * 3))
    shine = np.clip(1 - np.abs(across + 0.04) / 0.24, 0, 1) * (0.72 + 0.28 * twist)
    return tuple(cv2.resize(one, (CELL, CELL), interpolation=cv2.INTER_AREA)
                 for one in (cover, shine))


def aida(size: tuple[int, int], cloth: str, rng) -> Array:
    """Even-weave cloth in blocks of four threads with a hole at each corner."""
    y, x = np.mgrid[0:size[1], 0:size[0]].astype(np.float32)
    left, top = size[0] % CELL // 2, size[1] % CELL // 2
    u, v = ((x - left) % CELL) / CELL, ((y - top) % CELL) / CELL
    hole = np.exp(-(np.minimum(u, 1 - u) ** 2 + np.minimum(v, 1 - v) ** 2) / 0.012)
    thread = 0.06 * np.cos(2 * np.pi * u * 4) * np.sign(np.sin(2 * np.pi * v * 2 + 0.3))
    thread += 0.05 * np.cos(2 * np.pi * v * 4)
    shade = 0.95 + thread - 0.30 * hole + 0.02 * cloud(size, 260, rng, 3)
    return np.clip(colour(cloth) * shade[:, :, None], 0, 1).astype(np.float32)
