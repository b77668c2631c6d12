"""Scratchboard: white clay under black ink, light drawn with a blade."""

import numpy as np

from ..cartoon import Cartoon, brightness, patch, rounding
from ..grain import cloud, speckle
from ..line import curve, ribbon
from ..sheet import blurred, colour, stamped

Array = np.ndarray
Random = np.random.Generator


def scratched(art: Cartoon, seed: int, clay: str = "#f2efe6", black: str = "#121316",
              wash: dict[str, str] | None = None, reach: float = 11.0) -> Array:
    """The design scratched out of black: strokes along each piece's angle, closer where lighter.

    A piece blackens what lies behind it. `wash` colours the clay of some tints afterwards.
    """
    rng = np.random.default_rng(seed)
    bare = np.zeros(art.size[::-1], np.float32)
    tinted = np.ones((*art.size[::-1], 3), np.float32) * colour(clay)
    for one in art.pieces:
        where, mask = patch(art.size, one.outlines, 10)
        bare[where] *= 1 - mask
        light = brightness(one.tint) ** 1.5 * (1 - 2.2 * one.shade * rounding(mask)) * mask
        bare[where] = np.maximum(bare[where], hairs(light, one.angle, reach, rng))
        if one.line > 0:
            edge = np.clip((mask - blurred(mask, 3.0)) * 4 - 0.3, 0, 1)
            bare[where] *= 1 - blurred(edge, 0.8)
        if wash and one.tint in wash:
            tinted[where] += (colour(wash[one.tint]) - tinted[where]) * mask[:, :, None]
    ink = colour(black) * (1 + 0.10 * speckle(art.size, 1.2, rng)
                           + 0.06 * cloud(art.size, 240, rng, 3))[:, :, None]
    bare *= np.clip(0.94 + 0.07 * speckle(art.size, 0.8, rng), 0, 1)
    return np.clip(ink + (tinted - ink) * np.clip(bare, 0, 1)[:, :, None], 0, 1)


def hairs(light: Array, angle: float, reach: float, rng: Random) -> Array:
    """Short tapering scratches, [height, width]: the more the lighter, white solid."""
    height, width = light.shape
    plate = np.zeros((height, width), np.uint8)
    ys, xs = np.nonzero(light > 0.06)
    if len(xs) == 0:
        return light * 0
    count = int(light[ys, xs].sum() / (reach * 1.0))
    chance = light[ys, xs] / light[ys, xs].sum()
    for pick in rng.choice(len(xs), size=count, p=chance):
        way = np.radians(angle + rng.normal(0, 7))
        long = reach * rng.uniform(0.6, 1.5)
        step = np.array([np.cos(way), np.sin(way)]) * long / 2
        at = np.array([xs[pick], ys[pick]], float)
        bow = np.array([-step[1], step[0]]) * rng.normal(0, 0.12)
        line = curve([at - step, at + bow, at + step], step=5)
        stamped(plate, ribbon(line, rng.uniform(1.0, 1.9), (0.2, 0.2)))
    inside = blurred((light > 0.02).astype(np.float32), 1.0)
    solid = np.clip((light - 0.93) * 14, 0, 1)
    return np.maximum(plate.astype(np.float32) / 255 * inside, solid)
