"""The true proportions of cards that lie on one table, from all of them together.

A small card shows too little perspective to tell how its table is tilted. All
cards in a photo show the same table: the tilt and the focal length are fitted
to every one at once, so that each becomes a rectangle again (metric
rectification by equal and by right angles; Liebowitz & Zisserman, "Metric
rectification for perspective images of planes", 1998), weighed against how
sharp corners are and what phones usually are.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import log

import numpy as np

from swapboard.photo.geometry import signed_area
from swapboard.photo.proportion import (
    USUAL_FOCAL_LENGTH,
    by_side_lengths,
    focal_in_pixels,
    proportion_of,
)

ERROR = 0.003
"""A corner's usual error, as a share of its card's long side, beside half a pixel."""

USUAL_TILT = 0.35
"""Radians: how far tables are usually tilted away from the camera."""

UNSURE_FOCAL, KNOWN_FOCAL = 0.25, 0.03
"""How far, relatively, the focal length may be off: a phone's taken for granted; told by Exif."""

ROUNDS = 12


@dataclass(frozen=True, slots=True)
class Lying:
    """How a card lies on its table, perspective removed: `proportion` long over short side
    (≥ 1); `unlike` how far its area is off the others' in the photo, as a logarithm (≥ 0)."""

    proportion: float
    unlike: float


def on_table(
    quads: Sequence[np.ndarray], likely: Sequence[bool], width: int, height: int,
    focal: float | None = None,
) -> list[Lying]:
    """Each card [4, 2] px as it lies on the table; `likely` ones are what others are held against.

    A single card's proportion is that of the closed form of `proportion_of`.
    """
    if len(quads) < 2:
        return [Lying(proportion_of(quad, width, height, focal), 0.0) for quad in quads]
    level = table_of(quads, width, height, focal).level(np.asarray(quads))
    areas = [max(abs(signed_area(quad)), 1e-9) for quad in level]
    return [
        Lying(by_side_lengths(quad), _unlike(areas, likely, at)) for at, quad in enumerate(level)
    ]


@dataclass(frozen=True, slots=True)
class Table:
    """A table as one camera sees it: `tilt` about x and y in radians, `focal` and `middle` px."""

    tilt: np.ndarray
    focal: float
    middle: np.ndarray

    def level(self, quads: np.ndarray) -> np.ndarray:
        """Quads [n, 4, 2] px as a camera sees them that looks straight down on the table."""
        return _turned(quads - self.middle, self.tilt, self.focal)

    def seen(self, level: np.ndarray) -> np.ndarray:
        """Levelled quads [n, 4, 2] as they are in the picture, px."""
        return _turned(level, -self.tilt, self.focal) + self.middle


def table_of(
    quads: Sequence[np.ndarray], width: int, height: int, focal: float | None = None
) -> Table:
    """The table on which cards [4, 2] px of a picture w × h px are rectangles."""
    middle = np.array([width / 2, height / 2])
    guess = focal or focal_in_pixels(USUAL_FOCAL_LENGTH, width, height)
    spread = UNSURE_FOCAL if focal is None else KNOWN_FOCAL
    fitted = _fitted(np.asarray(quads, dtype=np.float64) - middle, guess, spread)
    return Table(fitted[:2], _length(fitted, guess), middle)


def _unlike(areas: list[float], likely: Sequence[bool], at: int) -> float:
    others = [area for i, area in enumerate(areas) if likely[i] and i != at]
    return abs(log(areas[at] / float(np.median(others)))) if others else 0.0


def _fitted(quads: np.ndarray, focal: float, spread: float) -> np.ndarray:
    """Tilt about x and y in radians and the focal length's logarithm beside the guess.

    Gauss and Newton's steps, halved while they do not help; cards that fit badly count less
    and less (Huber's weights): they lie on something, or were seen wrong.
    """
    prior = np.array([USUAL_TILT, USUAL_TILT, spread])

    def off(at: np.ndarray) -> np.ndarray:
        return np.concatenate([_residuals(quads, at, focal).ravel(), at / prior])

    def cost(residuals: np.ndarray) -> float:
        size = np.abs(residuals)
        return float(np.where(size < 2, size**2, 4 * size - 4).sum())

    at = np.zeros(3)
    now = off(at)
    for _ in range(ROUNDS):
        slope = np.column_stack([(off(at + step) - now) / 1e-5 for step in np.eye(3) * 1e-5])
        weight = 1 / np.maximum(np.abs(now) / 2, 1)
        step = np.linalg.solve((slope * weight[:, None]).T @ slope, -(slope.T @ (weight * now)))
        step = np.clip(step, -0.3, 0.3)
        for _ in range(5):
            then = off(at + step)
            if cost(then) < cost(now):
                break
            step = step / 2
        else:
            break
        at, now = at + step, then
    return at


def _residuals(quads: np.ndarray, at: np.ndarray, focal: float) -> np.ndarray:
    """How far [n, 3] each card is from a rectangle, in corners' errors."""
    level = _turned(quads, at[:2], _length(at, focal))
    sides = np.roll(level, -1, axis=1) - level
    long = np.linalg.norm(np.roll(quads, -1, axis=1) - quads, axis=2).max(axis=1)
    own = np.linalg.norm(sides, axis=2).max(axis=1)
    error = (ERROR * own + 0.5 * own / long)[:, None]
    apart = (sides[:, 0] + sides[:, 2]) / 2
    across, down = (sides[:, 0] - sides[:, 2]) / 2, (sides[:, 1] - sides[:, 3]) / 2
    shorter = np.minimum(np.linalg.norm(across, axis=1), np.linalg.norm(down, axis=1))
    slant = (across * down).sum(axis=1) / np.linalg.norm(across, axis=1)
    slant = slant / np.linalg.norm(down, axis=1) * shorter
    return np.column_stack([apart, slant]) / error


def _length(at: np.ndarray, focal: float) -> float:
    return focal * float(np.exp(np.clip(at[2], -1.5, 1.5)))


def _turned(quads: np.ndarray, tilt: np.ndarray, length: float) -> np.ndarray:
    """Points about the picture's middle, px, as a camera of focal `length` turned by `tilt`
    sees them (Rodrigues' rotation of each ray)."""
    angle = float(np.hypot(tilt[0], tilt[1]))
    axis = np.array([tilt[0], tilt[1], 0.0]) / max(angle, 1e-12)
    rays = np.concatenate([quads, np.full((*quads.shape[:2], 1), length)], axis=2)
    turned = (rays * np.cos(angle) + np.cross(axis, rays) * np.sin(angle)
              + axis * (rays @ axis)[..., None] * (1 - np.cos(angle)))
    return length * turned[..., :2] / np.maximum(turned[..., 2:], 1e-3 * length)
