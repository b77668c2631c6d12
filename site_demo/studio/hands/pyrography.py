"""Pyrography: lines and dots burnt into a thin slip of pale wood."""

import numpy as np

from ..grain import cloud, speckle, wood
from ..line import along, ribbon, wobble
from ..sheet import blurred, colour, stamped
from .tones import Study

Array = np.ndarray
Random = np.random.Generator


def burnt(study: Study, seed: int, upright_grain: bool = True, light: str = "#e6c898",
          dark: str = "#c79c63") -> Array:
    """The study burnt into lime wood: scorched shading, dots, then deep lines with a halo."""
    rng = np.random.default_rng(seed)
    size = study.size
    if upright_grain:
        slip = wood(size[::-1], colour(light), colour(dark), rng, 46).transpose(1, 0, 2).copy()
    else:
        slip = wood(size, colour(light), colour(dark), rng, 46)
    scorch = blurred(study.tone, 3.0) * (0.75 + 0.16 * cloud(size, 14, rng, 3))
    scorch *= 1 + 0.10 * speckle(size, 1.5, rng)
    dots = stipple(study, rng)
    deep = lines(study, rng)
    halo = blurred(deep, 6.0) * 0.5 + blurred(dots, 4.0) * 0.35
    heat = np.clip(scorch * 0.85 + halo, 0, 1.4)
    slip *= np.power(colour("#b5713a"), heat[:, :, None])
    char = np.clip(deep * (0.92 + 0.1 * cloud(size, 9, rng, 2)) + dots * 0.75
                   + np.clip(scorch - 0.5, 0, 1) * 2.6, 0, 1)
    slip += (colour("#2a1509") - slip) * (char * 0.92)[:, :, None]
    return np.clip(slip, 0, 1).astype(np.float32)


def stipple(study: Study, rng: Random) -> Array:
    """Dots of a round point, closer where the study is darker."""
    plate = np.zeros(study.size[::-1], np.uint8)
    places = rng.uniform(0, 1, (15000, 2)) * study.size
    dark = study.tone[places[:, 1].astype(int), places[:, 0].astype(int)]
    kept = rng.random(len(places)) < np.clip((dark - 0.10) * 1.3, 0, 0.8)
    for x, y in places[kept]:
        radius = rng.uniform(0.7, 1.7)
        angle = np.linspace(0, 2 * np.pi, 9)
        stamped(plate, np.stack([x + radius * np.cos(angle), y + radius * np.sin(angle)], 1))
    return blurred(plate.astype(np.float32) / 255, 0.6)


def lines(study: Study, rng: Random) -> Array:
    """The contours, with a deeper pit where the point rested at each end."""
    plate = np.zeros(study.size[::-1], np.uint8)
    for points, width in study.visible():
        line = wobble(along(points, 4), 0.6, 12, rng)
        places = np.arange(0, len(line) + 9, 9)
        dwell = np.interp(np.arange(len(line)), places, rng.standard_normal(len(places)))
        stamped(plate, ribbon(line, width * np.clip(1 + 0.18 * dwell, 0.6, 1.5), (1.15, 1.0)))
    return blurred(plate.astype(np.float32) / 255, 0.8)
