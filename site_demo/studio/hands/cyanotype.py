"""Cyanotype: paper brushed with iron salts, blue where the sun reached it."""

import numpy as np

from ..grain import cloud, paper, speckle, tooth
from ..sheet import blurred, colour, filled, torn

Array = np.ndarray


class Cyanotype:
    """A coated sheet, and how much light each place has had."""

    def __init__(self, size: tuple[int, int], seed: int):
        self.size = size
        self.rng = np.random.default_rng(seed)
        self.light = np.ones(size[::-1], np.float32)

    def lay(self, pieces, dense: float = 0.95, lift: float = 1.2, double: float = 0.0) -> None:
        """Lay things on the sheet: `dense` how little light they pass, `lift` px of blur where
        they do not lie flat, `double` px that they moved during the exposure."""
        mask = filled(self.size, *[outline for one in pieces for outline in one.outlines])
        soft = blurred(mask, lift)
        if double > 0:
            soft = 0.62 * soft + 0.38 * np.roll(soft, (int(double), int(double * 0.6)), (0, 1))
        self.light *= 1 - soft * dense

    def veil(self, mask: Array, dense: float = 0.35) -> None:
        """Hold back part of the light behind `mask`: glass, lace, thin petals."""
        self.light *= 1 - mask * dense

    def washed(self, deep: str = "#0f2f63", mid: str = "#2e66a8", stock: str = "#f1efe4") -> Array:
        """The sheet developed in water and dried, float32 [height, width, 3]."""
        rng, size = self.rng, self.size
        sheet = paper(size, colour(stock), rng, 0.03)
        coat = self.coating()
        uneven = 1 + 0.10 * cloud(size, 260, rng, 4) + 0.05 * cloud(size, 26, rng, 3, (1, 9))
        dose = np.clip(self.light * uneven + 0.02 * speckle(size, 1.2, rng), 0, 1.25)
        dose *= 1 - 0.10 * (tooth(size, rng, 3.0) - 0.5)
        blue = np.clip(dose * coat, 0, 1)[:, :, None]
        pale = sheet + (colour(mid) - sheet) * np.clip(blue * 1.7, 0, 1)
        print_of = pale + (colour(deep) - pale) * np.clip((blue - 0.42) * 1.6, 0, 1)
        return np.clip(print_of, 0, 1).astype(np.float32)

    def coating(self) -> Array:
        """Where the brush spread the salts: strokes that run out unevenly at the edges."""
        width, height = self.size
        y, x = np.mgrid[0:height, 0:width].astype(np.float32)
        ends = 40 + 16 * cloud((1, height), 26, self.rng, 4)
        other = 40 + 16 * cloud((1, height), 26, self.rng, 4)
        inside = np.minimum(np.minimum(x - ends, width - other - x), np.minimum(y, height - y) - 34)
        bristle = 5 * cloud(self.size, 7, self.rng, 3, (30, 1))
        mask = (inside + bristle > 0).astype(np.float32)
        return blurred(torn(mask, cloud(self.size, 14, self.rng, 3), 1.5), 0.8)
