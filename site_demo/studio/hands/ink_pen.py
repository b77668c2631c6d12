"""Ink pen: contours, and hatching in layers that cross where it is darker."""

import numpy as np

from ..grain import paper
from ..line import along, ribbon, rotated, wobble
from ..sheet import blurred, colour, over, stamped
from .tones import Study, runs

Array = np.ndarray
Random = np.random.Generator

LAYERS = ((0.10, 38, 9.0), (0.30, 38, 9.0), (0.44, -34, 8.5), (0.60, 84, 8.0), (0.76, 8, 7.0),
          (0.88, -62, 6.0))


def penned(study: Study, seed: int, ink: str = "#1c2130", stock: str = "#f6f1e4",
           nib: float = 1.7) -> Array:
    """The study drawn in pen on smooth card: hatched by tone, then outlined."""
    rng = np.random.default_rng(seed)
    sheet = paper(study.size, colour(stock), rng, 0.012)
    plate = np.zeros(study.size[::-1], np.uint8)
    for number, (threshold, angle, gap) in enumerate(LAYERS):
        for stroke in hatching(study, threshold, angle, gap, 0.5 * (number == 1), rng):
            stamped(plate, ribbon(stroke, nib * rng.uniform(0.75, 1.1), (0.7, 0.35)))
    for points, width in study.visible():
        outline(plate, points, width, rng)
    inked = blurred(plate.astype(np.float32) / 255, 0.45)
    uneven = 0.94 + 0.05 * rng.standard_normal(inked.shape).astype(np.float32)
    return np.clip(over(sheet, colour(ink), np.clip(inked * uneven, 0, 1)), 0, 1)


def outline(plate: Array, points: Array, width: float, rng: Random) -> None:
    """A contour drawn with a springy nib: swelling, not quite steady."""
    line = wobble(along(points, 5), 0.7, 9, rng)
    places = np.arange(0, len(line) + 12, 12)
    swell = 1 + 0.28 * np.interp(np.arange(len(line)), places, rng.standard_normal(len(places)))
    stamped(plate, ribbon(line, width * np.clip(swell, 0.5, 1.7), (0.6, 0.4)))


def hatching(study: Study, threshold: float, angle: float, gap: float, phase: float, rng: Random):
    """Strokes of one layer: parallel lines, kept where the tone is darker than `threshold`."""
    width, height = study.size
    reach = np.hypot(width, height) / 2
    for offset in np.arange(-reach, reach, gap):
        offset += gap * phase + rng.normal(0, gap * 0.07)
        line = rotated(wobble(level(reach, offset), 0.8, 40, rng), angle)
        line += (width / 2, height / 2)
        inside = (line[:, 0] >= 4) & (line[:, 0] < width - 4) & (line[:, 1] >= 4) & (
            line[:, 1] < height - 4)
        x = np.clip(line[:, 0].astype(int), 0, width - 1)
        y = np.clip(line[:, 1].astype(int), 0, height - 1)
        dark = inside & (study.tone[y, x] + rng.normal(0, 0.012) > threshold)
        dark &= rng.random(len(line)) > 0.006
        for piece in runs(dark):
            if piece.stop - piece.start > 2:
                yield line[piece]


def level(reach: float, offset: float) -> Array:
    """A level line from -reach to reach at the height `offset`, a point every 4 px."""
    x = np.arange(-reach, reach, 4.0)
    return np.stack([x, np.full(len(x), offset)], 1)
