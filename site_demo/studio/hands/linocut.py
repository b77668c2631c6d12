"""Linocut: ink rolled on a block from which the lights were carved."""

import numpy as np

from ..grain import cloud, paper, speckle
from ..line import curve, ribbon
from ..sheet import blurred, colour, filled, shifted, stamped, torn

Array = np.ndarray
Random = np.random.Generator


class Linocut:
    """A sheet of printing paper and the blocks pulled on it so far.

    A block starts inked all over (`block`), is carved with `clear`, `leave` and
    `gouge`, and is then `pull`ed.
    """

    def __init__(self, size: tuple[int, int], seed: int, stock: str = "#f1eadb",
                 margin: float = 34.0):
        self.size = size
        self.rng = np.random.default_rng(seed)
        self.sheet = paper(size, colour(stock), self.rng, 0.02)
        self.margin = margin

    def block(self) -> Array:
        """A fresh block, 1 where it will print, its sides cut by eye."""
        m, (w, h) = self.margin, self.size
        sides = np.array([[m, m], [w - m, m], [w - m, h - m], [m, h - m]])
        return filled(self.size, sides + self.rng.normal(0, 1.4, (4, 2)))

    def cut(self, outline, facets: float = 1.6) -> Array:
        """A mask with the slightly faceted edge that a knife leaves."""
        return torn(filled(self.size, outline), cloud(self.size, 16, self.rng, 3), facets)

    def clear(self, block: Array, mask: Array, chatter: float = 0.0, angle: float = 20.0) -> None:
        """Carve `mask` away; `chatter` leaves that share of ridges, along `angle` degrees."""
        keep = np.zeros_like(block)
        if chatter > 0:
            keep = self.ridges(angle, chatter) * (blurred(mask, 5) > 0.75)
        block *= 1 - mask * (1 - keep)

    def leave(self, block: Array, mask: Array) -> None:
        """Let `mask` stand and print."""
        np.maximum(block, mask, out=block)

    def ridges(self, angle: float, share: float) -> Array:
        """What a shallow gouge misses: broken ridges all along one direction."""
        c, s = np.cos(np.radians(angle)), np.sin(np.radians(angle))
        plate = np.zeros(self.size[::-1], np.uint8)
        for _ in range(int(share * 1500)):
            x, y = self.rng.uniform(0, self.size[0]), self.rng.uniform(0, self.size[1])
            reach, bow = self.rng.uniform(8, 34), self.rng.normal(0, 2)
            line = curve([(x, y), (x + reach / 2 * c - bow * s, y + reach / 2 * s + bow * c),
                          (x + reach * c, y + reach * s)], step=3)
            stamped(plate, ribbon(line, self.rng.uniform(1.0, 2.6), (0.1, 0.1)))
        return plate.astype(np.float32) / 255

    def gouge(self, block: Array, lines, width: float = 5.0) -> None:
        """Carve strokes: a gouge enters narrow, widens and lifts out."""
        plate = np.zeros(self.size[::-1], np.uint8)
        for line in lines:
            line = np.asarray(line, float)
            line = curve(line, step=4) if len(line) < 8 else line
            share = np.linspace(0, 1, len(line))
            swell = np.sin(np.pi * np.clip(share, 0.02, 0.98)) ** 0.55
            stamped(plate, ribbon(line, width * swell * self.rng.uniform(0.75, 1.2)))
        block *= 1 - plate.astype(np.float32) / 255

    def pull(self, block: Array, ink: str, offset: tuple[float, float] = (0, 0),
             cover: float = 1.0) -> None:
        """Print the block: ink thin in places, salty in the solids, squeezed at the edges."""
        print_of = shifted(blurred(block, 0.6), *offset)
        salt = np.clip(speckle(self.size, 0.9, self.rng) - 1.75, 0, 1) * 0.8
        salt *= np.clip(0.7 + cloud(self.size, 120, self.rng, 3) * 0.5, 0, 1.5)
        rolled = 1 - 0.05 * cloud(self.size, 160, self.rng, 4) * 0.7
        rolled += 0.025 * speckle(self.size, 1.3, self.rng)
        rim = np.clip(print_of - blurred(print_of, 3.0), 0, 1) * 0.25
        amount = np.clip(print_of * (1 - salt) * cover * rolled + rim * 0.2, 0, 1)
        tint = colour(ink) * (1 + 0.035 * cloud(self.size, 90, self.rng, 5)[:, :, None])
        tint = tint * (1 - rim[:, :, None] * 0.6)
        self.sheet += (tint * (0.94 * 1 + 0.06 * self.sheet) - self.sheet) * amount[:, :, None]
        np.clip(self.sheet, 0, 1, out=self.sheet)
