"""Gouache: flat opaque shapes, brush streaks, dry edges."""

import cv2
import numpy as np

from ..grain import cloud, paper, speckle
from ..line import along, curve, ribbon
from ..sheet import blurred, colour, over, stamped, torn

Array = np.ndarray
Random = np.random.Generator


class Gouache:
    """A toned sheet and the paint on it so far."""

    def __init__(self, size: tuple[int, int], seed: int, stock: str = "#e8dfcd"):
        self.size = size
        self.rng = np.random.default_rng(seed)
        self.sheet = paper(size, colour(stock), self.rng, 0.02)

    def lay(self, tint: str, outline, angle: float = 0.0, dry: float = 0.0,
            vary: float = 0.035, edge: float = 1.2) -> None:
        """Paint a shape in strokes along `angle` degrees; `dry` breaks the paint, 0 to 1."""
        self.dabs(tint, [outline], vary, angle, dry, edge)

    def dabs(self, tint: str, outlines, vary: float = 0.05, angle: float = 20.0, dry: float = 0.0,
             edge: float = 0.6) -> None:
        """Paint several shapes of one colour in one go.

        Only the part of the sheet about them is worked on: most shapes are small.
        """
        points = np.vstack([np.asarray(outline, float) for outline in outlines])
        low = np.clip(points.min(0) - 12, 0, np.array(self.size) - 2).astype(int)
        high = np.clip(points.max(0) + 12, low + 2, self.size).astype(int)
        size = (int(high[0] - low[0]), int(high[1] - low[1]))
        plate = np.zeros(size[::-1], np.uint8)
        for outline in outlines:
            stamped(plate, np.asarray(outline, float) - low)
        part = self.sheet[low[1]:high[1], low[0]:high[0]]
        mask = torn(plate.astype(np.float32) / 255, cloud(size, 26, self.rng, 4), edge)
        self.paint(part, colour(tint), mask, angle, dry, vary)

    def paint(self, part: Array, tint: Array, mask: Array, angle: float, dry: float,
              vary: float) -> None:
        """Cover `part` of the sheet, in place: bristle marks, a thin rim, gaps where dry."""
        size = (mask.shape[1], mask.shape[0])
        streaks = self.streaks(size, angle)
        uneven = streaks + 0.5 * cloud(size, 180, self.rng, 3)
        body = tint * (1 + vary * uneven + 0.012 * speckle(size, 1.0, self.rng))[:, :, None]
        rim = np.clip(mask - blurred(mask, 4.0), 0, 1) * 0.16
        body *= 1 - rim[:, :, None]
        if dry > 0:
            broken = streaks * 0.8 + 0.6 * speckle(size, 1.2, self.rng)
            mask = mask * np.clip((broken + 2.2 - dry * 3.4) * 1.4, 0, 1)
        over(part, np.clip(body, 0, 1), mask * 0.97)

    def streaks(self, size: tuple[int, int], angle: float) -> Array:
        """Bristle marks along `angle` degrees, mean 0 and standard deviation near 1."""
        side = int(np.hypot(*size)) + 8
        field = cloud((side, side), 9, self.rng, 3, (26, 1))
        turn = cv2.getRotationMatrix2D((side / 2, side / 2), -angle, 1)
        turn[:, 2] += (size[0] / 2 - side / 2, size[1] / 2 - side / 2)
        return cv2.warpAffine(field, turn, size, borderMode=cv2.BORDER_REFLECT)

    def stroke(self, tint: str, points, width: float, dry: float = 0.0,
               taper: tuple[float, float] = (0.5, 0.3)) -> None:
        """One stroke of a loaded brush."""
        line = curve(points, step=5) if len(points) < 12 else along(points, 5)
        heading = np.degrees(np.arctan2(*(line[-1] - line[0])[::-1]))
        self.lay(tint, ribbon(line, width, taper), heading, dry)
