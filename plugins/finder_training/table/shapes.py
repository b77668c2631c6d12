"""Colours that go together and outlines that grounds, things and light share."""

import cv2
import numpy as np

from finder_training.noise import Random


def palette(rng: Random, count: int) -> list[np.ndarray]:
    """Colours float64 [3] that go together: one family of hues, or any, of one liveliness."""
    hue, spread = rng.uniform(0, 180), float(rng.choice([12, 40, 180]))
    lively, pale = rng.choice([25, 80, 150, 220]), rng.uniform(60, 250)
    made = np.empty((1, count, 3), np.uint8)
    made[0, :, 0] = (hue + rng.uniform(-spread, spread, count) / 2) % 180
    made[0, :, 1] = np.clip(lively + rng.normal(size=count) * 25, 0, 255)
    made[0, :, 2] = np.clip(pale + rng.normal(size=count) * 45, 25, 252)
    return list(cv2.cvtColor(made, cv2.COLOR_HSV2RGB)[0].astype(np.float64))


def leaf_shape(at: np.ndarray, long: float, wide: float, way: float) -> np.ndarray:
    """The outline [18, 2] int32 px, times 16, of a leaf that begins at `at`."""
    share = np.linspace(0, 1, 9)
    side = wide * np.sin(np.pi * share**0.8)
    along = np.concatenate([share, share[::-1]]) * long
    across = np.concatenate([side, -side[::-1]])
    spin = np.array([[np.cos(way), np.sin(way)], [-np.sin(way), np.cos(way)]])
    return ((np.column_stack([along, across]) @ spin + at) * 16).astype(np.int32)
