"""Watercolour: washes with hard edges, granulation, bleeding and backruns."""

import cv2
import numpy as np

from ..grain import cloud, paper, speckle, tooth
from ..sheet import blurred, colour, glazed, torn

Array = np.ndarray
Random = np.random.Generator


class Watercolour:
    """A sheet of cold-pressed paper and the washes laid on it so far."""

    def __init__(self, size: tuple[int, int], seed: int):
        self.size = size
        self.rng = np.random.default_rng(seed)
        self.sheet = paper(size, colour("#f7f2e6"), self.rng, 0.022)
        self.tooth = tooth(size, self.rng, 2.6)

    def wash(self, tint: str, mask: Array, strength: float = 1.0, edge: float = 0.5,
             grain: float = 0.35, ragged: float = 4.0, pool: float = 0.25) -> None:
        """Lay a wash on dry paper: its edge dries darker, pigment settles in the hollows.

        `ragged` px of unsteady outline, `pool` how unevenly the water lay.
        """
        outline = torn(mask, cloud(self.size, 70, self.rng, 5), ragged)
        inner = np.clip(blurred(outline, 2.2), 0, 1)
        rim = np.clip(outline - blurred(outline, 7.0), 0, 1) * outline
        pools = 1 + pool * cloud(self.size, 240, self.rng, 4)
        settled = 1 + grain * ((0.5 - self.tooth) * 1.5 + 0.16 * speckle(self.size, 1.1, self.rng))
        graded = np.where(mask > 0, mask, 1)
        density = np.clip(inner * graded * pools, 0, 3) * settled + rim * edge * 1.7 * graded
        glazed(self.sheet, colour(tint), np.clip(density, 0, 4) * strength)

    def bleed(self, tint: str, mask: Array, strength: float = 1.0, spread: float = 22.0) -> None:
        """Touch colour into wet paper: it creeps out in feathers and leaves no edge."""
        reach = blurred(mask, spread) + 0.6 * blurred(mask, spread * 0.35)
        height, width = reach.shape
        y, x = np.mgrid[0:height, 0:width].astype(np.float32)
        x += cloud(self.size, 60, self.rng, 5) * spread * 0.55
        y += cloud(self.size, 60, self.rng, 5) * spread * 0.55
        feathered = cv2.remap(reach, x, y, cv2.INTER_LINEAR, borderMode=cv2.BORDER_REPLICATE)
        settled = 1 + 0.5 * (0.5 - self.tooth)
        glazed(self.sheet, colour(tint), np.clip(feathered, 0, 2) * settled * strength)

    def backrun(self, mask: Array, strength: float = 0.35) -> None:
        """Let a drop of clear water push the pigment outwards: pale within, a crinkled dark rim."""
        bloom = torn(mask, cloud(self.size, 34, self.rng, 5), 7.0)
        rim = np.clip(bloom - blurred(bloom, 5.0), 0, 1)
        lift = blurred(bloom, 9.0) * strength
        self.sheet += (colour("#f7f2e6") - self.sheet) * (lift * 0.55)[:, :, None]
        glazed(self.sheet, colour("#8f9aa2"), rim * strength * 1.6)

    def lift(self, mask: Array, amount: float = 0.8, soft: float = 2.0) -> None:
        """Take colour off again with a damp brush."""
        where = blurred(mask, soft) * amount
        self.sheet += (colour("#f6f1e5") - self.sheet) * where[:, :, None]

    def spatter(self, tint: str, count: int, strength: float = 0.8, largest: float = 4.0) -> None:
        """Flick drops off the brush."""
        plate = np.zeros(self.size[::-1], np.uint8)
        for _ in range(count):
            x, y = self.rng.uniform(0, self.size[0]), self.rng.uniform(0, self.size[1])
            radius = largest * self.rng.uniform(0.2, 1) ** 2
            cv2.circle(plate, (int(x * 16), int(y * 16)), int(max(radius, 0.6) * 16), 255, -1,
                       cv2.LINE_AA, 4)
        drops = plate.astype(np.float32) / 255
        rim = np.clip(drops - blurred(drops, 1.6), 0, 1)
        glazed(self.sheet, colour(tint), (drops * 0.7 + rim) * strength)
