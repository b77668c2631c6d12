"""Colours and papers of cards, and one colour laid over another."""

import cv2
import numpy as np

from finder_training.noise import Random, any_colour

MOODS = {
    "pale": ((0.04, 0.3), (0.82, 1.0)), "dark": ((0.2, 0.8), (0.08, 0.42)),
    "muted": ((0.1, 0.4), (0.35, 0.8)), "bright": ((0.55, 0.95), (0.6, 1.0)),
    "whole": ((0.2, 0.95), (0.15, 1.0)), "earth": ((0.25, 0.7), (0.25, 0.85)),
    "grey": ((0.0, 0.08), (0.1, 0.95)),
}
"""Saturation and value, from and to, of each mood."""


def paper(rng: Random) -> np.ndarray:
    """A colour that cards are made of: mostly white and cream, now and then any."""
    roll = rng.random()
    if roll < 0.65:
        return np.clip(rng.uniform(215, 255) + rng.uniform(-8, 6, 3), 0, 255)
    if roll < 0.8:
        return np.array([1.0, 0.93, 0.8]) * rng.uniform(190, 245)
    return rng.uniform(8, 60, 3) if roll < 0.9 else any_colour(rng)


def white(rng: Random) -> np.ndarray:
    """Paper as one draws on: white, off-white, cream."""
    yellow = 0.14 * rng.random() ** 3
    return rng.uniform(226, 255) * np.array([1.0, 1 - 0.3 * yellow, 1 - yellow])


def blank(width: int, height: int, colour: np.ndarray) -> np.ndarray:
    """One colour all over, uint8 [height, width, 3]."""
    return np.full((height, width, 3), np.clip(colour, 0, 255).astype(np.uint8), np.uint8)


def palette(rng: Random, count: int, mood: str = "") -> list[np.ndarray]:
    """Colours float64 [3] that go together: of one mood, of near or opposite hues."""
    mood = mood or list(MOODS)[int(rng.integers(len(MOODS)))]
    saturation, value = MOODS[mood]
    spread = (0.05, 0.15, 0.4, 1.0)[int(rng.integers(4))]
    middle = rng.uniform(0.02, 0.12) if mood == "earth" else rng.random()
    spread = 0.12 if mood == "earth" else spread
    hues = middle + rng.uniform(-0.5, 0.5, count) * spread
    if rng.random() < 0.3:
        hues[::3] += 0.5
    return [rgb(h, rng.uniform(*saturation), rng.uniform(*value)) for h in hues]


def rgb(hue: float, saturation: float, value: float) -> np.ndarray:
    """0–255 float64 [3] of hue (in turns), saturation and value (0–1)."""
    at = (np.array([5.0, 3.0, 1.0]) + hue * 6) % 6
    away = np.clip(np.minimum(at, 4 - at), 0, 1)
    return 255 * value * (1 - saturation * away)


def dark_ink(rng: Random) -> tuple[int, int, int]:
    """Black, sepia, blue-black or any deep colour, as OpenCV draws with it."""
    roll = rng.random()
    tone = rng.uniform(5, 60, 1).repeat(3) if roll < 0.5 else rng.uniform(5, 120, 3)
    return tuple(int(v) for v in tone)


def one_of(rng: Random, things: list):
    """One of the things, as OpenCV takes it if it is a colour."""
    chosen = things[int(rng.integers(len(things)))]
    return tuple(int(v) for v in chosen) if isinstance(chosen, np.ndarray) else chosen


def blend(card: np.ndarray, colour: np.ndarray, mask: np.ndarray) -> None:
    """Opaque paint where `mask` [h, w] is 1, on a float32 card in place."""
    card += (np.asarray(colour, np.float32) - card) * mask[..., None]


def glaze(card: np.ndarray, colour: np.ndarray, mask: np.ndarray) -> None:
    """Clear paint that darkens what is below, on a float32 card in place."""
    card *= 1 - mask[..., None] * (1 - np.asarray(colour, np.float32) / 255)


def done(card: np.ndarray) -> np.ndarray:
    """The float card as uint8."""
    return np.clip(card, 0, 255).astype(np.uint8)


def ramp(colours: list[np.ndarray], rng: Random, hard: bool = False) -> np.ndarray:
    """uint8 [256, 3] that runs round through the colours, in steps if `hard`."""
    stops = np.array([*colours, colours[0]], np.float32)[None]
    way = cv2.INTER_NEAREST if hard else cv2.INTER_LINEAR
    table = cv2.resize(stops, (256, 1), interpolation=way)[0]
    return np.roll(np.clip(table, 0, 255).astype(np.uint8), int(rng.integers(256)), axis=0)


def through(table: np.ndarray, field: np.ndarray, turns: float) -> np.ndarray:
    """The colours of a `ramp` where `field` [h, w] runs `turns` times through it from 0 to 1."""
    return table[(field * (256 * turns)).astype(np.int64) & 255]
