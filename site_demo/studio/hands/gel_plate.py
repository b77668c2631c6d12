"""Gel plate print: thin layers of paint lifted off a soft plate, leaves as masks and as ghosts."""

import cv2
import numpy as np

from ..grain import cloud, paper, speckle
from ..sheet import blurred, colour, filled, shifted, torn

Array = np.ndarray


class GelPlate:
    """A sheet of paper and the prints pulled on it so far."""

    def __init__(self, size: tuple[int, int], seed: int, stock: str = "#f2ede0"):
        self.size = size
        self.rng = np.random.default_rng(seed)
        self.sheet = paper(size, colour(stock), self.rng, 0.02)

    def plate(self, margin: float = 30.0) -> Array:
        """Where the plate printed: its rounded, slightly ragged slab, [height, width]."""
        whole = np.zeros(self.size[::-1], np.float32)
        m = int(margin)
        whole[m:-m, m:-m] = 1
        return torn(blurred(whole, 9) * 1.0, cloud(self.size, 60, self.rng, 5), 3.0)

    def shapes(self, motif_pieces) -> Array:
        """The mask of a motif's outlines, [height, width]."""
        outlines = [outline for one in motif_pieces for outline in one.outlines]
        return filled(self.size, *outlines)

    def pull(self, tint: str, mask: Array, cover: float = 0.85, other: str | None = None,
             angle: float = 8.0) -> None:
        """One layer: paint rolled in streaks, dimpled where the plate let go; `other` is rolled
        into it from below."""
        size = self.size
        height, width = size[1], size[0]
        roll = cloud((width, height), 40, self.rng, 4, (9, 1))
        turn = cv2.getRotationMatrix2D((width / 2, height / 2), -angle, 1.12)
        roll = cv2.warpAffine(roll, turn, size, borderMode=cv2.BORDER_REFLECT)
        dimple = np.clip(speckle(size, 2.2, self.rng) - 1.25, 0, 1.2)
        starved = np.clip(cloud(size, 130, self.rng, 5) - 1.0, 0, 1)
        film = mask * np.clip(cover + 0.07 * roll - 0.45 * dimple * (0.35 + starved)
                              - 0.28 * starved, 0, 1)
        tints = colour(tint) * (1 + 0.03 * roll)[:, :, None]
        if other:
            share = np.clip(np.linspace(-0.4, 1.4, height)[:, None] + 0.14 * roll, 0, 1)
            tints = tints + (colour(other) - tints) * share[:, :, None]
        laid = tints * (0.55 + 0.45 * self.sheet)
        self.sheet += (laid - self.sheet) * film[:, :, None]

    def ghost(self, tint: str, shape: Array, veins: Array | None = None,
              strength: float = 0.7) -> None:
        """What stayed on the plate round and under a leaf: a dark halo, its veins, a pale body."""
        apart = np.clip(blurred(shape, 7) - shape * 0.9, 0, 1) * 1.2
        body = shape * (0.24 + 0.14 * cloud(self.size, 12, self.rng, 3))
        film = np.clip(apart + body, 0, 1) * strength
        if veins is not None:
            film = np.clip(film + blurred(veins, 0.8) * shape * strength * 0.9, 0, 1)
        self.sheet += (colour(tint) - self.sheet) * film[:, :, None]

    def resist(self, shape: Array, tint: str, strength: float = 0.9) -> None:
        """A leaf lay on the plate: the layer below it shows, its edge lit by a thin line."""
        rim = np.clip(shape - shifted(blurred(shape, 2.0), 2, 2), 0, 1)
        tex = np.clip(0.9 + 0.1 * speckle(self.size, 1.4, self.rng), 0, 1)
        self.sheet += (colour(tint) - self.sheet) * (shape * tex * strength)[:, :, None]
        self.sheet *= (1 - 0.25 * rim)[:, :, None]

    def comb(self, gap: float, angle: float, width: float = 0.35) -> Array:
        """Lines scraped through wet paint, a mask [height, width]."""
        y, x = np.mgrid[0:self.size[1], 0:self.size[0]].astype(np.float32)
        across = x * np.sin(np.radians(angle)) + y * np.cos(np.radians(angle))
        across += 9 * cloud(self.size, 300, self.rng, 3)
        wave = np.abs((across / gap) % 1 - 0.5) * 2
        return np.clip((wave - (1 - width)) * gap / 2 + 0.5, 0, 1)
