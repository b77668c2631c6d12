"""Cut paper: sheets in tiers behind one another, each throwing its shadow on the next."""

import numpy as np

from ..grain import cloud, fibres, paper
from ..sheet import blurred, colour, filled, shifted, torn

Array = np.ndarray


class CutPaper:
    """A backing sheet and the tiers laid over it so far."""

    def __init__(self, size: tuple[int, int], seed: int, backing: str):
        self.size = size
        self.rng = np.random.default_rng(seed)
        self.sheet = self.stock(backing)

    def stock(self, tint: str) -> Array:
        """A whole sheet of coloured card."""
        made = paper(self.size, colour(tint), self.rng, 0.035)
        return made * fibres(self.size, self.rng, 160, 0.06)[:, :, None]

    def glow(self, x: float, y: float, reach: float, tint: str, strength: float = 0.9) -> None:
        """Light from behind the sheets: a warm patch about (x, y)."""
        down, across = np.mgrid[0:self.size[1], 0:self.size[0]].astype(np.float32)
        near = np.exp(-(((across - x) ** 2 + (down - y) ** 2) / (2 * reach**2)))
        self.sheet += (colour(tint) - self.sheet) * (near * strength)[:, :, None]

    def tier(self, tint: str, *outlines, holes=(), depth: float = 1.0) -> None:
        """Lay a sheet cut to `outlines` with `holes` in it, `depth` above what lies below."""
        mask = filled(self.size, *[np.asarray(one, float) for one in outlines])
        if len(holes):
            mask = mask * (1 - filled(self.size, *[np.asarray(one, float) for one in holes]))
        mask = torn(mask, cloud(self.size, 14, self.rng, 2), 0.5)
        near = shifted(blurred(mask, 2.0 * depth), 2.5 * depth, 3.5 * depth)
        far = shifted(blurred(mask, 9.0 * depth), 6.0 * depth, 10.0 * depth)
        self.sheet *= (1 - 0.34 * near - 0.30 * far)[:, :, None]
        lit = np.clip(mask - shifted(mask, 1.4, 1.6), 0, 1)
        face = self.stock(tint) * (1 + 0.35 * lit)[:, :, None]
        self.sheet += (face - self.sheet) * mask[:, :, None]
        np.clip(self.sheet, 0, 1, out=self.sheet)

    def motif(self, tint: str, pieces, depth: float = 0.7) -> None:
        """Lay a motif's whole silhouette as one tier."""
        self.tier(tint, *[outline for one in pieces for outline in one.outlines], depth=depth)
