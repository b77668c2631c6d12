"""What pictures on walls, in windows and on their own show: land and sky, people."""

import cv2
import numpy as np

from finder_training.art.cards import scatter
from finder_training.noise import Random, any_colour, ink, layered
from finder_training.table.overlaid import SKINS

View = tuple[np.ndarray, list[np.ndarray]]
"""A picture [height, width, 3] and what in it is rectangular, [4, 2] px each."""


def box(made: np.ndarray, one: tuple, other: tuple, tone: np.ndarray,
        thick: int = -1) -> np.ndarray:
    """A rectangle px, in place; answers its corners."""
    (x, y), (right, bottom) = (int(one[0]), int(one[1])), (int(other[0]), int(other[1]))
    cv2.rectangle(made, (x, y), (right, bottom), ink(np.clip(tone, 0, 255)), thick, cv2.LINE_AA)
    return np.array([[x, y], [right, y], [right, bottom], [x, bottom]], float)


def bare(width: int, height: int, tone: np.ndarray) -> np.ndarray:
    """One tone all over, uint8 [height, width, 3]."""
    return np.full((height, width, 3), np.clip(tone, 0, 255), np.uint8)


def _sky(part: np.ndarray, rng: Random) -> None:
    """A sky, clear, clouded or at dusk, in place."""
    height, width = part.shape[:2]
    if min(height, width) < 2:
        return
    top, low = np.array([[[90, 140, 215], [200, 220, 240]], [[150, 155, 165], [205, 208, 212]],
                         [[60, 60, 120], [245, 160, 110]], [[15, 20, 40], [50, 60, 95]]], float)[
        int(rng.integers(4))]
    share = np.linspace(0, 1, height)[:, None, None]
    half = (max(width // 2, 2), max(height // 2, 2))
    white = np.clip(layered(*half, 4, rng, 2)[..., 0], 0, 1) * np.float32(rng.uniform(0, 70))
    white = cv2.resize(white, (width, height))[..., None]
    part[:] = np.clip(np.float32(top + (low - top) * share) + white, 0, 255)


def landscape(width: int, height: int, rng: Random) -> View:
    """Sky, hills, trees, water."""
    made = bare(width, height, np.zeros(3))
    _sky(made, rng)
    x, near = np.linspace(0, width, 60), np.array([70.0, 105, 55]) * rng.uniform(0.5, 1.4)
    levels = np.sort(rng.uniform(0.35, 0.9, int(rng.integers(2, 5))))
    for level in levels:
        waves = sum(np.sin(x / width * rng.uniform(3, 25) + rng.uniform(0, 6))
                    * rng.uniform(0, 0.03) for _ in range(3))
        points = np.column_stack([x, (level + waves) * height])
        tone = near + (np.array([150.0, 170, 195]) - near) * (1 - level) * rng.uniform(0.6, 1.2)
        points = np.vstack([points, [[width, height], [0, height]]]).astype(np.int32)
        cv2.fillPoly(made, [points], ink(np.clip(tone, 0, 255)), cv2.LINE_AA)
    for _ in range(int(rng.integers(0, 14))):
        at = np.array([rng.uniform(0, width), height * rng.uniform(levels[0], 1)])
        size, tone = height * rng.uniform(0.03, 0.2), near * rng.uniform(0.4, 0.9)
        cv2.line(made, tuple(at.astype(int)), (int(at[0]), int(at[1] - size)), (70, 50, 40),
                 max(int(size / 12), 1))
        for spot in at - (0, size) + rng.normal(size=(9, 2)) * size / 4:
            cv2.circle(made, tuple(spot.astype(int)), int(size / 4) + 1,
                       ink(np.clip(tone * rng.uniform(0.8, 1.3), 0, 255)), -1, cv2.LINE_AA)
    return made, []


def person(width: int, height: int, rng: Random) -> View:
    """A drawn head and shoulders before something plain or blurred."""
    made = bare(width, height, any_colour(rng, 40, 240))
    if rng.random() < 0.5:
        scatter(made, 8, rng, 0.6)
        made = cv2.blur(made, (max(width // 16, 1), max(width // 16, 1)))
    size = min(width, height) * rng.uniform(0.12, 0.28)
    at = np.array([width * rng.uniform(0.35, 0.65), height * rng.uniform(0.3, 0.5)])
    skin, hair = SKINS[int(rng.integers(6))], any_colour(rng, 10, 150)

    def disc(away: tuple, axes: tuple, tone: np.ndarray, turn: float = 0) -> None:
        middle = tuple((at + np.array(away) * size).astype(int))
        reach = (max(int(axes[0] * size), 1), max(int(axes[1] * size), 1))
        cv2.ellipse(made, middle, reach, turn, 0, 360, ink(np.clip(tone, 0, 255)), -1, cv2.LINE_AA)

    long = rng.uniform(0.0, 1.2)
    disc((0, long * 0.5), (1.15, 1.25 + long * 0.7), hair)
    disc((0, 3.1), (2.2, 1.6), any_colour(rng))
    disc((0, 1.35), (0.42, 0.75), skin * 0.85)
    disc((0, 0), (0.85, 1.15), skin)
    disc((0, -0.85), (0.85, 0.42), hair)
    for side in (-1, 1):
        disc((side * 0.33, -0.12), (0.16, 0.09), np.full(3, 245.0))
        disc((side * 0.33, -0.12), (0.07, 0.08), np.full(3, 30.0))
        disc((side * 0.35, -0.33), (0.2, 0.04), hair)
        disc((side * 0.5, 0.3), (0.17, 0.12), skin + (12, -14, -12))
    disc((0, 0.2), (0.1, 0.22), skin * 0.92)
    disc((0, 0.6), (0.27, 0.08), np.array([175.0, 80, 80]))
    return made, []
