"""Alcohol ink: colour that runs on slick paper, pools, and dries with a dark crinkled edge."""

import cv2
import numpy as np

from ..grain import cloud, speckle
from ..line import ribbon
from ..sheet import blurred, colour, filled, glazed, over

Array = np.ndarray


class AlcoholInk:
    """A sheet of slick white paper and the ink on it so far."""

    def __init__(self, size: tuple[int, int], seed: int, stock: str = "#fbfaf6"):
        self.size = size
        self.rng = np.random.default_rng(seed)
        self.sheet = np.ones((*size[::-1], 3), np.float32) * colour(stock)
        self.stock = stock

    def pool(self, tint: str, mask: Array, strength: float = 1.0, run: float = 60.0,
             rings: int = 3, fade: float = 0.6) -> None:
        """Flood `mask` with ink that runs `run` px: each time it stopped it left a ring.

        `fade` is how pale the middle dries.
        """
        height, width = mask.shape
        y, x = np.mgrid[0:height, 0:width].astype(np.float32)
        x += cloud(self.size, run * 3, self.rng, 5) * run * 0.5
        y += cloud(self.size, run * 3, self.rng, 5) * run * 0.5
        bent = cv2.remap(mask, x, y, cv2.INTER_LINEAR, borderMode=cv2.BORDER_REPLICATE)
        inside = cv2.distanceTransform((bent > 0.5).astype(np.uint8), cv2.DIST_L2, 5)
        whole = np.clip(inside * 0.7, 0, 1)
        density = whole * (1 - fade * np.clip(inside / (run * 1.3), 0, 1))
        density += whole * np.exp(-inside / 3.0) * 0.9
        for ring in range(1, rings + 1):
            at = inside - run * 0.34 * ring - 5 * cloud(self.size, 40, self.rng, 3)
            density += np.exp(-np.abs(at) / 1.8) * 0.42 / ring * whole
            density += np.clip(-at / 30, 0, 1) * 0.10 * whole
        density *= 1 + 0.10 * cloud(self.size, 90, self.rng, 4)
        glazed(self.sheet, colour(tint), np.clip(density, 0, 3) * strength)

    def blots(self, tint: str, places, strength: float = 0.8, run: float = 24.0) -> None:
        """Drops that spread where they fell: (x, y, radius) each."""
        y, x = np.mgrid[0:self.size[1], 0:self.size[0]].astype(np.float32)
        mask = np.zeros(self.size[::-1], np.float32)
        for px, py, radius in places:
            mask = np.maximum(mask, (np.hypot(x - px, y - py) < radius).astype(np.float32))
        self.pool(tint, mask, strength, run, 2, 0.5)

    def cleared(self, places, soft: float = 0.9) -> None:
        """Drops of pure alcohol push the ink away: pale cells with dark rims."""
        y, x = np.mgrid[0:self.size[1], 0:self.size[0]].astype(np.float32)
        for px, py, radius in places:
            apart = np.hypot(x - px, y - py)
            apart += 0.10 * radius * cloud(self.size, radius * 1.6 + 8, self.rng, 3)
            lift = np.clip((radius - apart) / 4, 0, 1) * soft
            over(self.sheet, colour(self.stock), lift * np.clip(1.1 - 0.5 * apart / radius, 0, 1))
            glazed(self.sheet, colour("#7f8a99"), np.exp(-np.abs(apart - radius) / 2.0) * 0.55)

    def drawn(self, tint: str, *outlines, cover: float = 0.95) -> None:
        """Shapes in opaque pen, over dry ink."""
        mask = filled(self.size, *outlines)
        sheen = 1 + 0.05 * speckle(self.size, 1.2, self.rng)
        over(self.sheet, colour(tint) * sheen[:, :, None], mask * cover)

    def thread(self, tint: str, lines, width: float = 3.0) -> None:
        """Fine pen lines, points each."""
        self.drawn(tint, *[ribbon(np.asarray(line, float), width, (0.7, 0.3)) for line in lines])

    def done(self) -> Array:
        """The sheet as it dried, slightly grained."""
        return np.clip(blurred(self.sheet, 0.5)
                       * (1 + 0.008 * speckle(self.size, 0.9, self.rng))[:, :, None], 0, 1)
