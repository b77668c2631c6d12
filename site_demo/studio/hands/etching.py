"""Etching: lines bitten into a plate, aquatint grain, and the dent of the plate in the paper."""

import numpy as np

from ..grain import cloud, paper, speckle
from ..line import box, ribbon
from ..sheet import blurred, colour, filled, shifted, stamped
from .ink_pen import hatching, outline
from .tones import Study

Array = np.ndarray
Random = np.random.Generator

LAYERS = ((0.16, 62, 7.0), (0.34, 60, 7.0), (0.5, -28, 6.5), (0.68, 14, 6.0), (0.84, -74, 5.0))
TINTS = (0.22, 0.42, 0.62, 0.82)


def etched(study: Study, seed: int, ink: str = "#2b1d14", stock: str = "#efe6d2",
           margin: float = 62.0, grain: float = 0.42) -> Array:
    """The study bitten in lines and in four steps of aquatint (`grain` 0 for none), then pulled."""
    rng = np.random.default_rng(seed)
    size = study.size
    sheet = paper(size, colour(stock), rng, 0.028)
    frame = filled(size, box(margin, margin, size[0] - margin, size[1] - margin))
    plate = np.zeros(size[::-1], np.uint8)
    for number, (threshold, angle, gap) in enumerate(LAYERS):
        for stroke in hatching(study, threshold, angle, gap, 0.5 * (number == 1), rng):
            stamped(plate, ribbon(stroke, rng.uniform(0.9, 1.6), (0.8, 0.6)))
    for points, width in study.visible():
        outline(plate, points, width * 0.85, rng)
    bitten = blurred(plate.astype(np.float32) / 255, 0.7)
    film = 0.06 + 0.03 * cloud(size, 300, rng, 3) + 0.02 * np.clip(speckle(size, 2, rng), 0, 2)
    total = np.clip(bitten * 0.93 + film + aquatint(study, rng) * grain, 0, 1) * frame
    sheet += (colour(ink) - sheet) * total[:, :, None]
    return np.clip(sheet * dent(frame)[:, :, None], 0, 1)


def aquatint(study: Study, rng: Random) -> Array:
    """Tone from resin dust: four bites, each darker, with a hard edge and a fine grain."""
    steps = sum((blurred(study.tone, 2) > level).astype(np.float32) for level in TINTS)
    dust = np.clip(0.72 + 0.42 * speckle(study.size, 1.2, rng), 0, 1.3)
    return blurred(steps / len(TINTS), 0.8) * dust


def dent(frame: Array) -> Array:
    """The light on the edge that the plate pressed into the paper, a multiplier."""
    soft = blurred(frame, 3.0)
    return 1 + 0.35 * (shifted(soft, 2, 2) - soft)
