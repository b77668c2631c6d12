"""Graphite: soft strokes that catch the tooth of the paper, and a smudging finger."""

import numpy as np

from ..grain import cloud, paper, speckle, tooth
from ..line import along, ribbon, wobble
from ..sheet import blurred, colour, over, stamped
from .tones import Study

Array = np.ndarray
Random = np.random.Generator


def pencilled(study: Study, seed: int, stock: str = "#efebe0", lead: str = "#2e3036",
              smudge: float = 0.4) -> Array:
    """The study in graphite: strokes along its angles, rubbed a little, outlined last."""
    rng = np.random.default_rng(seed)
    sheet = paper(study.size, colour(stock), rng, 0.03)
    hollows = tooth(study.size, rng, 3.2)
    strokes = stroke_field(study, rng)
    worked = study.tone * (0.75 + 0.3 * strokes) + 0.05 * strokes * (study.tone > 0.04)
    caught = 1 / (1 + np.exp(-(worked * 1.65 - hollows * 0.95) * 7.5))
    caught *= np.clip(study.tone * 9, 0, 1)
    rubbed = blurred(study.tone, 3.5)
    density = (1 - smudge) * caught * (0.35 + 0.65 * study.tone) + smudge * rubbed * 0.9
    density += lines(study, rng) * (0.55 + 0.45 * (1 - hollows))
    density += 0.018 * np.clip(cloud(study.size, 200, rng, 3), 0, 2)
    return np.clip(over(sheet, colour(lead), np.clip(density, 0, 0.96)), 0, 1)


def stroke_field(study: Study, rng: Random) -> Array:
    """Directional noise, mean 0, that runs along the study's angle at every place."""
    total = np.zeros(study.size[::-1], np.float32)
    for angle in np.unique(study.angle):
        field = turned_noise(study.size, float(angle), rng)
        total = np.where(study.angle == angle, field, total)
    return total


def turned_noise(size: tuple[int, int], angle: float, rng: Random) -> Array:
    """Noise in long streaks at `angle` degrees."""
    import cv2

    side = int(np.hypot(*size)) + 8
    streaks = cloud((side, side), 5, rng, 2, (22, 1))
    turn = cv2.getRotationMatrix2D((side / 2, side / 2), -angle, 1)
    turn[:, 2] += (size[0] / 2 - side / 2, size[1] / 2 - side / 2)
    return cv2.warpAffine(streaks, turn, size, flags=cv2.INTER_LINEAR,
                          borderMode=cv2.BORDER_REFLECT)


def lines(study: Study, rng: Random) -> Array:
    """The contours, gone over twice with a blunt point."""
    plate = np.zeros(study.size[::-1], np.uint8)
    for points, width in study.visible():
        for _ in range(2):
            line = wobble(along(points, 5), 0.9, 14, rng)
            stamped(plate, ribbon(line, width * rng.uniform(0.7, 1.1), (0.3, 0.2)), 0.8)
    soft = blurred(plate.astype(np.float32) / 255, 0.9)
    return np.clip(soft * (0.9 + 0.2 * speckle(study.size, 1.0, rng)), 0, 1)
