"""A study in greys under the hands that shade: outlines to follow and how dark each place is."""

import numpy as np

from ..line import along
from ..sheet import blurred, filled

Array = np.ndarray


class Study:
    """Tone [height, width], 0 bare paper to 1 black, and the contours to draw.

    Shapes go on from the back to the front; one that stands in front hides the
    contours behind it, as `hidden` records for each contour.
    """

    def __init__(self, size: tuple[int, int], tone: float = 0.0):
        self.size = size
        self.tone = np.full(size[::-1], tone, np.float32)
        self.angle = np.zeros(size[::-1], np.float32)
        self.contours: list[tuple[Array, float, Array]] = []

    def shape(self, outline, tone=None, contour: float = 2.0, angle: float | None = None,
              soft: float = 0.0) -> Array:
        """Put a shape in front: `tone` a number or a field, `contour` px of line, 0 for none.

        `angle` turns the shading inside it, in degrees. Returns the shape's mask.
        """
        mask = filled(self.size, outline)
        self.put(mask if soft == 0 else blurred(mask, soft), tone, angle)
        if contour > 0:
            closed = np.vstack([outline, np.asarray(outline)[:1]])
            self.trace(closed, contour)
        return mask

    def put(self, mask: Array, tone, angle: float | None = None) -> None:
        """Set the tone where `mask` says and hide the contours behind it."""
        if tone is not None:
            self.tone += (tone - self.tone) * mask
            for points, _, hidden in self.contours:
                hidden |= self.under(mask, points) >= 0.5
        if angle is not None:
            self.angle = np.where(mask > 0.5, angle, self.angle)

    def line(self, points, width: float = 2.0) -> None:
        """Add an open line in front of everything so far."""
        self.trace(points, width)

    def trace(self, points, width: float) -> None:
        """Note a contour, a point every 3 px, none of them hidden yet."""
        line = along(points, 3)
        self.contours.append((line, width, np.zeros(len(line), bool)))

    def under(self, mask: Array, points: Array) -> Array:
        """The value of `mask` at each point; one outside the card takes the nearest within."""
        x = np.clip(points[:, 0].astype(int), 0, self.size[0] - 1)
        y = np.clip(points[:, 1].astype(int), 0, self.size[1] - 1)
        return mask[y, x]

    def shade(self, mask: Array, amount) -> None:
        """Darken (or lighten, below 0) within `mask`."""
        self.tone = np.clip(self.tone + mask * amount, 0, 1).astype(np.float32)

    def visible(self):
        """Each contour's pieces that nothing hides: (points, width)."""
        for points, width, hidden in self.contours:
            for piece in runs(~hidden):
                if piece.stop - piece.start > 1:
                    yield points[piece], width


def runs(flags: Array) -> list[slice]:
    """The stretches of a row of flags that are true."""
    edges = np.flatnonzero(np.diff(np.concatenate([[0], flags.astype(np.int8), [0]])))
    return [slice(a, b) for a, b in zip(edges[::2], edges[1::2], strict=True)]
