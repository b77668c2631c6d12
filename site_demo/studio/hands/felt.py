"""Felt and cotton patches: fuzzy puffed pieces sewn on a cloth with stitches that show."""

import numpy as np

from ..cartoon import Cartoon, Piece, patch
from ..grain import cloud, speckle, weave
from ..line import along, ribbon
from ..sheet import blurred, colour, shifted, stamped, torn

Array = np.ndarray
Random = np.random.Generator


def sewn(art: Cartoon, seed: int, thread: str = "#f4ead2", prints: dict[str, str] | None = None,
         gap: float = 17.0) -> Array:
    """The design in felt on woven cloth, each larger piece held by a running stitch.

    `prints` makes a tint a printed cotton: its value is the colour of the print.
    """
    rng = np.random.default_rng(seed)
    shade = 0.8 + 0.2 * weave(art.size, 5.0, rng) + 0.02 * cloud(art.size, 220, rng, 3)
    sheet = np.clip(colour(art.ground) * shade[:, :, None], 0, 1).astype(np.float32)
    for one in art.pieces:
        where, mask = patch(art.size, one.outlines, 26)
        part = sheet[where]
        size = (mask.shape[1], mask.shape[0])
        fuzz = torn(mask, speckle(size, 1.3, rng), 0.9)
        part *= (1 - 0.45 * shifted(blurred(fuzz, 4.0), 3, 5)
                 - 0.2 * shifted(blurred(fuzz, 11.0), 5, 9))[:, :, None]
        pattern = prints.get(one.tint) if prints else None
        cloth = cotton(size, one.tint, pattern, rng) if pattern else nap(size, one.tint, rng)
        edge = np.clip(1 - blurred(fuzz, 5.0), 0, 1) * fuzz
        cloth *= (1 - 0.38 * edge)[:, :, None]
        part += (np.clip(cloth, 0, 1) - part) * np.clip(fuzz, 0, 1)[:, :, None]
        if mask.sum() > 1500 and one.line > 0:
            running_stitch(sheet, one, thread, gap, rng)
    return np.clip(sheet, 0, 1)


def nap(size: tuple[int, int], tint: str, rng: Random) -> Array:
    """Wool felt: matted fibres every way."""
    fibre = 0.045 * speckle(size, 1.1, rng) + 0.03 * cloud(size, 9, rng, 2, (4, 1))
    fibre += 0.03 * cloud(size, 9, rng, 2, (1, 4)) + 0.03 * cloud(size, 120, rng, 3)
    return colour(tint) * (1 + fibre)[:, :, None]


def cotton(size: tuple[int, int], tint: str, pattern: str, rng: Random) -> Array:
    """A thin cotton printed with sprigs in staggered rows."""
    shade = 0.86 + 0.14 * weave(size, 3.2, rng)
    y, x = np.mgrid[0:size[1], 0:size[0]].astype(np.float32)
    x = x + (np.floor(y / 26) % 2) * 13
    u, v = x % 26 - 13, y % 26 - 13
    petal = 4.2 + 2.6 * np.cos(5 * np.arctan2(v, u))
    mask = np.clip(petal - np.hypot(u, v) + 0.5, 0, 1)[:, :, None]
    cloth = colour(tint) + (colour(pattern) - colour(tint)) * mask
    return cloth * shade[:, :, None]


def running_stitch(sheet: Array, one: Piece, thread: str, gap: float, rng: Random) -> None:
    """Short stitches just inside each outline, every other one under the cloth."""
    size = (sheet.shape[1], sheet.shape[0])
    dips, plate, shine = (np.zeros(size[::-1], np.uint8) for _ in range(3))
    for outline in one.outlines:
        middle = outline.mean(0)
        reach = np.hypot(*(outline - middle).T).mean()
        if reach < 16:
            continue
        line = along(outline, gap / 2, closed=True)
        ahead = np.gradient(line, axis=0)
        ahead /= np.maximum(np.hypot(*ahead.T), 1e-6)[:, None]
        turn = np.sign(np.sum((outline[:, 0]) * np.roll(outline[:, 1], -1)
                              - np.roll(outline[:, 0], -1) * outline[:, 1]))
        line = line + np.stack([-ahead[:, 1], ahead[:, 0]], 1) * turn * 6.5
        for start, end in zip(line[::2], line[1::2], strict=False):
            start = start + rng.normal(0, 0.7, 2)
            stitch = np.linspace(start, start + (end - start) * 1.05, 4)
            stamped(dips, ribbon(stitch, 6.5))
            stamped(plate, ribbon(stitch, 3.6, (0.7, 0.7)))
            stamped(shine, ribbon(stitch - (0.4, 0.7), 1.3))
    sheet *= (1 - 0.3 * blurred(dips.astype(np.float32) / 255, 2.0))[:, :, None]
    mask = plate.astype(np.float32)[:, :, None] / 255
    lit = shine.astype(np.float32)[:, :, None] / 255
    sheet += (colour(thread) * (0.86 + 0.14 * lit) - sheet) * mask
