"""Rubber stamping: one carved block pressed again and again, never inked twice alike."""

import numpy as np

from ..cartoon import Cartoon, Motif
from ..grain import cloud, paper, speckle
from ..sheet import blurred, colour, filled, glazed

Array = np.ndarray


class StampedCard:
    """A card and the stamps on it so far. In a stamp's motif a piece of the tint "carve" is cut
    away; every other piece prints."""

    def __init__(self, size: tuple[int, int], seed: int, stock: str = "#ecdcc0"):
        self.size = size
        self.rng = np.random.default_rng(seed)
        self.sheet = paper(size, colour(stock), self.rng, 0.04)

    def press(self, motif: Motif, ink: str, x: float, y: float, scale: float = 1.0,
              turn: float = 0.0, flip: bool = False, fresh: float = 1.0) -> None:
        """Press a stamp at (x, y); `fresh` is how much ink is left on it, 0 to 1."""
        placed = Cartoon(self.size, "#ffffff")
        placed.place(motif, x, y, scale, turn + self.rng.normal(0, 1.5), flip)
        points = np.vstack([one for made in placed.pieces for one in made.outlines])
        low = np.clip(points.min(0) - 26, 0, np.array(self.size) - 4).astype(int)
        high = np.clip(points.max(0) + 26, low + 4, self.size).astype(int)
        size = (int(high[0] - low[0]), int(high[1] - low[1]))
        block = np.zeros(size[::-1], np.float32)
        for one in placed.pieces:
            mask = filled(size, *[outline - low for outline in one.outlines])
            block = block * (1 - mask) if one.tint == "carve" else np.maximum(block, mask)
        self.ink(self.sheet[low[1]:high[1], low[0]:high[0]], block, ink, fresh)

    def ink(self, part: Array, block: Array, tint: str, fresh: float) -> None:
        """What comes off the block, in place: a patchy middle, a squeezed rim, chatter about it."""
        size = (block.shape[1], block.shape[0])
        rim = np.clip(block - blurred(block, 5.0), 0, 1) * 0.7
        patchy = 0.86 + 0.13 * cloud(size, 46, self.rng, 4) + 0.10 * speckle(size, 1.3, self.rng)
        gaps = np.clip(speckle(size, 1.8, self.rng) - 1.9 + 0.9 * (1 - fresh), 0, 1)
        film = blurred(block, 0.6) * np.clip(patchy * (0.5 + 0.5 * fresh) - gaps, 0, 1.2) + rim
        far = blurred(block, 11.0) * (1 - block)
        ridges = np.clip(cloud(size, 9, self.rng, 2, (7, 1)) - 1.75 + far * 1.2, 0, 1) * (far > 0.1)
        glazed(part, colour(tint), np.clip(film * 1.15 + ridges * 0.5, 0, 1.6))

    def rule(self, tint: str, outlines, fresh: float = 0.9) -> None:
        """Print plain shapes in one go: borders, ground lines."""
        self.ink(self.sheet, filled(self.size, *outlines), tint, fresh)


def carved(*outlines) -> Motif:
    """A piece cut away from a stamp."""
    from ..cartoon import piece

    return [piece("carve", *outlines)]
