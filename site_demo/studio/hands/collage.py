"""Collage: torn and cut papers, glued one over another."""

import cv2
import numpy as np

from ..grain import cloud, fibres, paper, speckle
from ..sheet import blurred, colour, filled, over, shifted, torn

Array = np.ndarray
Random = np.random.Generator


class Collage:
    """A backing card and the papers glued on so far."""

    def __init__(self, size: tuple[int, int], seed: int, backing: str = "#d8cdb8"):
        self.size = size
        self.rng = np.random.default_rng(seed)
        self.sheet = paper(size, colour(backing), self.rng, 0.03)

    def glue(self, sheet: Array, outline, rim: float = 7.0, lift: float = 1.0, ragged: float = 3.0,
             clear: float = 0.0) -> None:
        """Glue a torn piece of `sheet`: white fibres show `rim` px along the tear.

        `lift` is how far it stands off (its shadow), `clear` how much shows through it.
        """
        mask = outline if getattr(outline, "shape", ())[:1] == (self.size[1],) else filled(
            self.size, outline)
        noise = cloud(self.size, 46, self.rng, 6)
        whole = torn(mask, noise, ragged)
        self.shade(whole, lift)
        if rim > 0:
            uneven = np.clip(rim * (0.75 + 0.6 * cloud(self.size, 60, self.rng, 4)), 0.4, None)
            apart = cv2.distanceTransform((whole > 0.5).astype(np.uint8), cv2.DIST_L2, 5)
            core = np.clip((apart - uneven) * 0.8 + 0.3 * speckle(self.size, 1, self.rng), 0, 1)
            white = paper(self.size, colour("#f4efe4"), self.rng, 0.06)
            over(self.sheet, white, whole * (1 - clear * 0.5))
            whole = whole * core
        over(self.sheet, sheet, whole * (1 - clear))

    def snip(self, sheet: Array, outline, lift: float = 0.8) -> None:
        """Glue a piece cut with scissors: clean edges."""
        self.glue(sheet, outline, 0, lift, 0.5)

    def shade(self, mask: Array, lift: float) -> None:
        """The soft shadow and the hard line under a piece."""
        near = shifted(blurred(mask, 1.4), 1.5 * lift, 2.0 * lift)
        far = shifted(blurred(mask, 6.0), 3.5 * lift, 5.0 * lift)
        self.sheet *= (1 - 0.30 * near - 0.22 * far)[:, :, None]

    def plain(self, tint: str, rough: float = 0.03) -> Array:
        """Dyed paper with clouding and fibres."""
        sheet = paper(self.size, colour(tint), self.rng, rough)
        sheet *= 1 + 0.03 * cloud(self.size, 260, self.rng, 4)[:, :, None]
        return sheet * fibres(self.size, self.rng, 240, 0.10)[:, :, None]

    def painted(self, tint: str, other: str, scale: float = 150.0,
                stretch: tuple[float, float] = (4, 1)) -> Array:
        """Paste paper: one colour combed through another."""
        field = 1 / (1 + np.exp(-2.2 * cloud(self.size, scale, self.rng, 5, stretch)))
        sheet = colour(tint) + (colour(other) - colour(tint)) * field[:, :, None]
        return sheet * (1 + 0.03 * speckle(self.size, 1.0, self.rng)[:, :, None])

    def ledger(self, tint: str = "#efe3c6", ink: str = "#5a6f8f", gap: float = 25.0) -> Array:
        """An old account book: ruled lines, a red margin, rows of made-up handwriting."""
        sheet = self.plain(tint)
        marks = np.zeros(self.size[::-1], np.uint8)
        for y in np.arange(gap, self.size[1], gap):
            cv2.line(marks, (0, int(y)), (self.size[0], int(y)), 90, 1, cv2.LINE_AA)
            x = self.rng.uniform(10, 60)
            while x < self.size[0]:
                word = self.rng.integers(3, 10)
                steps = np.arange(word * 6)
                points = np.stack([x + steps * 1.5, y - 5 - 4.5 * np.sin(steps * 1.3) *
                                   self.rng.uniform(0.4, 1.4, len(steps))], 1)
                cv2.polylines(marks, [np.int32(points * 16)], False, 210, 1, cv2.LINE_AA, 4)
                x += word * 9 + self.rng.uniform(12, 40)
        return over(sheet, colour(ink), marks.astype(np.float32) / 255 * 0.75)

    def striped(self, tint: str, stripe: str, gap: float = 18.0, angle: float = 0.0,
                width: float = 0.4) -> Array:
        """Printed stripes."""
        y, x = np.mgrid[0:self.size[1], 0:self.size[0]].astype(np.float32)
        across = x * np.sin(np.radians(angle)) + y * np.cos(np.radians(angle))
        wave = np.abs((across / gap) % 1 - 0.5) * 2
        mask = np.clip((wave - (1 - width)) * gap / 2 + 0.5, 0, 1)
        worn = np.clip(1.05 - 0.25 * np.clip(cloud(self.size, 40, self.rng, 5), 0, 2), 0, 1)
        return over(self.plain(tint), colour(stripe), mask * worn)

    def dotted(self, tint: str, dot: str, gap: float = 22.0, radius: float = 5.0) -> Array:
        """Printed dots in staggered rows."""
        y, x = np.mgrid[0:self.size[1], 0:self.size[0]].astype(np.float32)
        x = x + (np.floor(y / gap) % 2) * gap / 2
        apart = np.hypot(x % gap - gap / 2, y % gap - gap / 2)
        return over(self.plain(tint), colour(dot), np.clip(radius - apart + 0.5, 0, 1))
