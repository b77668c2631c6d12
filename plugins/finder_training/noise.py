"""Smooth and rough random fields that grounds, art and light are made of."""

import cv2
import numpy as np

Random = np.random.Generator


def cloud(width: int, height: int, cells: float, rng: Random, channels: int = 1) -> np.ndarray:
    """float32 [height, width, channels], about -1 to 1, `cells` soft spots along the long side."""
    step = max(width, height) / cells
    shape = (max(int(height / step), 1) + 2, max(int(width / step), 1) + 2, channels)
    coarse = rng.normal(size=shape).astype(np.float32) * 0.5
    wide = cv2.resize(coarse, (width, height), interpolation=cv2.INTER_CUBIC)
    return wide.reshape(height, width, channels)


def layered(width: int, height: int, cells: float, rng: Random, layers: int = 4) -> np.ndarray:
    """Clouds in octaves (Perlin, "An image synthesizer", 1985), float32 [height, width, 1]."""
    total = np.zeros((height, width, 1), np.float32)
    for layer in range(layers):
        total += cloud(width, height, cells * 2**layer, rng) * 0.6**layer
    return total


def speckle(width: int, height: int, rng: Random, channels: int = 1) -> np.ndarray:
    """float32 [height, width, channels], every pixel of its own, standard deviation 1.

    One field is drawn once and shifted: drawing a million normals costs more than a scene.
    """
    top, left = int(rng.integers(0, 97)), int(rng.integers(0, 97))
    field = _field()[top : top + height, left : left + width, :channels]
    return field[::-1] if rng.random() < 0.5 else field


_kept: list[np.ndarray] = []


def _field() -> np.ndarray:
    if not _kept:
        drawn = np.random.default_rng(5).normal(size=(2200, 2200, 3))
        _kept.append(drawn.astype(np.float32))
    return _kept[0]


def any_colour(rng: Random, low: float = 10, high: float = 245) -> np.ndarray:
    """A colour float64 [3], grey and muted ones as often as vivid ones."""
    grey = rng.uniform(low, high)
    return np.clip(grey + rng.normal(size=3) * rng.choice([4, 20, 60]), low, high)


def ink(colour: np.ndarray) -> tuple[int, int, int]:
    """The colour as OpenCV draws with it."""
    return tuple(int(v) for v in colour)
