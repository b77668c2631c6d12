"""Embroidery: threads over a woven ground, each stitch with its own light and shadow."""

import numpy as np

from ..grain import cloud, weave
from ..line import along, curve, ribbon
from ..sheet import blurred, colour, filled, over, shifted, stamped

Array = np.ndarray
Random = np.random.Generator


class Embroidery:
    """A stretched cloth and the stitches in it so far; thread lies over thread in order."""

    def __init__(self, size: tuple[int, int], seed: int, cloth: str = "#e9e0cc",
                 pitch: float = 6.5):
        self.size = size
        self.rng = np.random.default_rng(seed)
        threads = weave(size, pitch, self.rng)
        shade = 0.74 + 0.28 * threads + 0.02 * cloud(size, 240, self.rng, 3)
        self.sheet = np.clip(colour(cloth) * shade[:, :, None], 0, 1).astype(np.float32)

    def stitches(self, tint: str, lines, width: float = 5.0, puff: float = 1.0,
                 vary: float = 0.06) -> None:
        """Lay stitches of one thread, [count][points, 2]: shadow, body, twist and a lit ridge."""
        threads = [self.thread(line, width) for line in lines]
        if not threads:
            return
        points = np.vstack(threads)
        low = np.clip(points.min(0) - width - 14, 0, np.array(self.size) - 2).astype(int)
        high = np.clip(points.max(0) + width + 14, low + 2, self.size).astype(int)
        shadow, body, ridge, twist = (np.zeros((high - low)[::-1], np.uint8) for _ in range(4))
        for line in threads:
            line = line - low
            stamped(shadow, ribbon(line, width * 1.5, (0.7, 0.7)))
            stamped(body, ribbon(line, width, (0.6, 0.6)))
            lit = 0.55 + 0.45 * self.rng.random()
            stamped(ridge, ribbon(line - (0.6, 0.9), width * 0.38, (0.2, 0.2)), lit)
            self.gaps(twist, line, width)
        fields = [plate.astype(np.float32) / 255 for plate in (shadow, body, ridge, twist)]
        part = self.sheet[low[1]:high[1], low[0]:high[0]]
        self.lay(part, colour(tint), fields, puff, vary)

    def thread(self, line, width: float) -> Array:
        """A stitch's line with at least three points."""
        line = np.asarray(line, float)
        if len(line) > 2:
            return line
        return along(line, max(3, np.hypot(*(line[1] - line[0])) / 6))

    def gaps(self, twist: Array, line: Array, width: float) -> None:
        """The edges of the thread and the slant of its plies, as dark marks."""
        beside = ribbon(line, width)
        half = len(beside) // 2
        stamped(twist, ribbon(beside[:half], 1.1), 0.85)
        stamped(twist, ribbon(beside[half:], 1.1), 0.85)
        points = along(line, width * 0.85)
        ahead = np.gradient(points, axis=0)
        ahead /= np.maximum(np.hypot(*ahead.T), 1e-6)[:, None]
        side = np.stack([-ahead[:, 1], ahead[:, 0]], 1)
        for at, go, out in zip(points, ahead, side, strict=True):
            ply = np.array([at - out * width * 0.42 - go * width * 0.3,
                            at + out * width * 0.42 + go * width * 0.3])
            stamped(twist, ribbon(ply, 0.9), 0.4)

    def lay(self, part: Array, dye: Array, fields, puff: float, vary: float) -> None:
        """Composite one thread's plates on part of the cloth, in place."""
        shadow, body, ridge, twist = fields
        size = (body.shape[1], body.shape[0])
        cast = shifted(blurred(shadow, 2.2), 1.6 * puff, 2.6 * puff)
        part *= (1 - 0.42 * cast)[:, :, None]
        dye = dye * (1 + vary * cloud(size, 50, self.rng, 4)[:, :, None])
        dye = dye * (1 - 0.42 * blurred(twist, 0.5))[:, :, None]
        dye = dye + (1 - dye) * (0.34 * blurred(ridge, 0.7))[:, :, None]
        over(part, np.clip(dye, 0, 1), body)

    def stem(self, tint: str, points, width: float = 5.0, stitch: float = 26.0) -> None:
        """Stem stitch along a line: slanting stitches, each half over the last."""
        line = curve(points, step=3) if len(points) < 14 else along(points, 3)
        hop = max(2, int(stitch / 3))
        lines = []
        for start in range(0, max(1, len(line) - hop // 2), max(1, hop // 2)):
            piece = line[start:start + hop]
            if len(piece) > 3:
                ahead = piece[-1] - piece[0]
                side = np.array([-ahead[1], ahead[0]]) / max(np.hypot(*ahead), 1e-6)
                slant = np.linspace(-0.32, 0.32, len(piece))[:, None] * width * side
                lines.append(piece + slant)
        self.stitches(tint, lines, width)

    def satin(self, tint: str, spine, half_widths, slant: float = 0.5, width: float = 4.6,
              both: bool = True) -> None:
        """Satin stitch across a leaf or petal: from the spine outwards, laid side by side.

        `half_widths`, one number a spine point after resampling at the thread's width.
        """
        line = along(spine, width * 0.86)
        widths = np.interp(np.linspace(0, 1, len(line)), np.linspace(0, 1, len(half_widths)),
                           half_widths)
        ahead = np.gradient(line, axis=0)
        ahead /= np.maximum(np.hypot(*ahead.T), 1e-6)[:, None]
        side = np.stack([-ahead[:, 1], ahead[:, 0]], 1)
        lines = []
        for sign in (1, -1) if both else (1,):
            for at, go, out, reach in zip(line, ahead, side, widths, strict=True):
                reach = reach * self.rng.uniform(0.95, 1.04)
                if reach > 2.5:
                    lines.append(np.array([at, at + out * sign * reach + go * reach * slant]))
        self.stitches(tint, lines, width)

    def knots(self, tint: str, places, radius: float = 6.0) -> None:
        """French knots: a coil seen from above."""
        lines = []
        for x, y in places:
            turn = np.linspace(0, 3.6 * np.pi, 26) + self.rng.uniform(0, 6)
            grow = np.linspace(0.15, 0.75, 26) * radius
            lines.append(np.stack([x + grow * np.cos(turn), y + grow * np.sin(turn)], 1))
        self.stitches(tint, lines, radius * 0.62, 1.5)

    def filling(self, tint: str, outline, angle: float, width: float = 4.6,
                stitch: float = 44.0) -> None:
        """Long and short stitch: rows of stitches of uneven length fill a shape along `angle`."""
        mask = filled(self.size, outline)
        c, s = np.cos(np.radians(angle)), np.sin(np.radians(angle))
        reach = np.hypot(*self.size) / 2
        lines = []
        for across in np.arange(-reach, reach, width * 0.88):
            t = -reach + self.rng.uniform(0, stitch)
            while t < reach:
                length = stitch * self.rng.uniform(0.7, 1.25)
                steps = np.linspace(t, t + length, 14)
                points = np.stack([steps * c - across * s, steps * s + across * c], 1)
                points += np.array(self.size) / 2
                lines.extend(inside_pieces(points, mask))
                t += length
        self.stitches(tint, lines, width)


def inside_pieces(points: Array, mask: Array) -> list[Array]:
    """The stretch of a stitch inside `mask`, if it is long enough to sew."""
    x, y = points[:, 0].astype(int), points[:, 1].astype(int)
    fits = (x >= 0) & (y >= 0) & (x < mask.shape[1]) & (y < mask.shape[0])
    kept = np.zeros(len(points), bool)
    kept[fits] = mask[y[fits], x[fits]] > 0.5
    piece = points[kept]
    return [piece] if len(piece) > 2 else []
