"""Collage: torn and cut papers, glued one over another.

A paper is a recipe: a function that makes as large a sheet as a piece needs.
"""

from collections.abc import Callable

import cv2
import numpy as np

from ..grain import cloud, fibres, paper, speckle
from ..sheet import blurred, colour, filled, over, shifted, torn

Array = np.ndarray
Paper = Callable[[tuple[int, int]], Array]
Random = np.random.Generator


class Collage:
    """A backing card and the papers glued on so far."""

    def __init__(self, size: tuple[int, int], seed: int, backing: str = "#d8cdb8"):
        self.size = size
        self.rng = np.random.default_rng(seed)
        self.sheet = paper(size, colour(backing), self.rng, 0.03)

    def glue(self, recipe: Paper, outline, rim: float = 7.0, lift: float = 1.0,
             ragged: float = 3.0) -> None:
        """Glue a torn piece: white fibres show `rim` px along the tear.

        `lift` is how far it stands off (its shadow).
        """
        self.paste(recipe, [outline], rim, lift, ragged)

    def snip(self, recipe: Paper, *outlines, lift: float = 0.8) -> None:
        """Glue pieces cut with scissors: clean edges."""
        self.paste(recipe, outlines, 0, lift, 0.5)

    def paste(self, recipe: Paper, outlines, rim: float, lift: float, ragged: float) -> None:
        """Glue pieces of one paper, working only on the part of the card about them."""
        points = np.vstack([np.asarray(outline, float) for outline in outlines])
        room = 24 + ragged * 3
        low = np.clip(points.min(0) - room, 0, np.array(self.size) - 2).astype(int)
        high = np.clip(points.max(0) + room, low + 2, self.size).astype(int)
        size = (int(high[0] - low[0]), int(high[1] - low[1]))
        part = self.sheet[low[1]:high[1], low[0]:high[0]]
        mask = filled(size, *[np.asarray(outline, float) - low for outline in outlines])
        whole = torn(mask, cloud(size, 46, self.rng, 6), ragged)
        self.shade(part, whole, lift)
        if rim > 0:
            whole = self.white_rim(part, whole, rim)
        over(part, recipe(size), whole)

    def white_rim(self, part: Array, whole: Array, rim: float) -> Array:
        """Lay the white core of a torn paper; returns where its coloured face is left."""
        size = (whole.shape[1], whole.shape[0])
        uneven = np.clip(rim * (0.75 + 0.6 * cloud(size, 60, self.rng, 4)), 0.4, None)
        apart = cv2.distanceTransform((whole > 0.5).astype(np.uint8), cv2.DIST_L2, 5)
        core = np.clip((apart - uneven) * 0.8 + 0.3 * speckle(size, 1, self.rng), 0, 1)
        over(part, paper(size, colour("#f4efe4"), self.rng, 0.06), whole)
        return whole * core

    def shade(self, part: Array, mask: Array, lift: float) -> None:
        """The soft shadow and the hard line under a piece."""
        near = shifted(blurred(mask, 1.4), 1.5 * lift, 2.0 * lift)
        far = shifted(blurred(mask, 6.0), 3.5 * lift, 5.0 * lift)
        part *= (1 - 0.30 * near - 0.22 * far)[:, :, None]

    def plain(self, tint: str, rough: float = 0.03) -> Paper:
        """Dyed paper with clouding and fibres."""
        def made(size):
            sheet = paper(size, colour(tint), self.rng, rough)
            sheet *= 1 + 0.03 * cloud(size, 260, self.rng, 4)[:, :, None]
            count = int(240 * size[0] * size[1] / 787500) + 1
            return sheet * fibres(size, self.rng, count, 0.10)[:, :, None]

        return made

    def painted(self, tint: str, other: str, scale: float = 150.0,
                stretch: tuple[float, float] = (4, 1)) -> Paper:
        """Paste paper: one colour combed through another."""
        def made(size):
            field = 1 / (1 + np.exp(-2.2 * cloud(size, scale, self.rng, 5, stretch)))
            sheet = colour(tint) + (colour(other) - colour(tint)) * field[:, :, None]
            return sheet * (1 + 0.03 * speckle(size, 1.0, self.rng)[:, :, None])

        return made

    def ledger(self, tint: str = "#efe3c6", ink: str = "#5a6f8f", gap: float = 25.0) -> Paper:
        """An old account book: ruled lines and rows of made-up handwriting."""
        def made(size):
            sheet = self.plain(tint)(size)
            marks = np.zeros(size[::-1], np.uint8)
            for y in np.arange(gap, size[1], gap):
                cv2.line(marks, (0, int(y)), (size[0], int(y)), 90, 1, cv2.LINE_AA)
                self.write(marks, y - gap * 0.16, gap)
            return over(sheet, colour(ink), marks.astype(np.float32) / 255 * 0.75)

        return made

    def write(self, marks: Array, y: float, gap: float) -> None:
        """One line of loops and strokes that look like writing and say nothing."""
        x = self.rng.uniform(4, 40)
        while x < marks.shape[1]:
            count = int(self.rng.integers(3, 9))
            t = np.arange(count * 9) / 9
            tall = np.interp(t, np.arange(count + 1), self.rng.choice([0.8, 0.8, 1.0, 2.1],
                                                                     count + 1))
            loop = gap * 0.13
            points = np.stack([x + t * gap * 0.36 + loop * np.cos(2 * np.pi * t) + tall * 1.2,
                               y - loop * tall * (1 + np.sin(2 * np.pi * t))], 1)
            cv2.polylines(marks, [np.int32(points * 16)], False, 205, 1, cv2.LINE_AA, 4)
            x += count * gap * 0.36 + self.rng.uniform(0.5, 1.6) * gap

    def striped(self, tint: str, stripe: str, gap: float = 18.0, angle: float = 0.0,
                width: float = 0.4) -> Paper:
        """Printed stripes."""
        def made(size):
            y, x = np.mgrid[0:size[1], 0:size[0]].astype(np.float32)
            across = x * np.sin(np.radians(angle)) + y * np.cos(np.radians(angle))
            wave = np.abs((across / gap) % 1 - 0.5) * 2
            mask = np.clip((wave - (1 - width)) * gap / 2 + 0.5, 0, 1)
            worn = np.clip(1.05 - 0.25 * np.clip(cloud(size, 40, self.rng, 5), 0, 2), 0, 1)
            return over(self.plain(tint)(size), colour(stripe), mask * worn)

        return made

    def dotted(self, tint: str, dot: str, gap: float = 22.0, radius: float = 5.0) -> Paper:
        """Printed dots in staggered rows."""
        def made(size):
            y, x = np.mgrid[0:size[1], 0:size[0]].astype(np.float32)
            x = x + (np.floor(y / gap) % 2) * gap / 2
            apart = np.hypot(x % gap - gap / 2, y % gap - gap / 2)
            return over(self.plain(tint)(size), colour(dot), np.clip(radius - apart + 0.5, 0, 1))

        return made
