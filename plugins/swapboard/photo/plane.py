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
from math import exp, log

import cv2
import numpy as np

from swapboard.photo.geometry import NEXT, mean_sides, side_lengths, signed_area
from swapboard.photo.proportion import (
    OPEN_FROM,
    USUAL_FOCAL_LENGTH,
    by_side_lengths,
    focal_in_pixels,
    proportion_of,
)
from swapboard.photo.rating import CARD_PROPORTION

ERROR = 0.003
"""A corner's usual error, as a share of its card's long side, beside half a pixel."""

USUAL_TILT = 0.35
"""Radians: how far tables are usually tilted away from the camera."""

UNSURE_FOCAL, KNOWN_FOCAL = 0.25, 0.03
"""How far, relatively, the focal length may be off: a phone's taken for granted; told by Exif."""

ROUNDS = 12

STILL = 1e-6
"""Radians: a step as small as that is the last."""


@dataclass(frozen=True, slots=True)
class Lying:
    """How a card lies on its table, perspective removed.

    `proportion` long over short side (≥ 1); `unlike` how far its area is off the others' in the
    photo, as a logarithm (≥ 0); `spread` the proportion's standard error, relatively, from the
    corners' errors and from what is not known of the camera; `alike` how many sure cards there have
    its size, itself aside.
    """

    proportion: float
    unlike: float
    spread: float = 0.0
    alike: int = 0


def on_table(
    quads: Sequence[np.ndarray], likely: Sequence[bool], width: int, height: int,
    focal: float | None = None,
) -> list[Lying]:
    """Each card [4, 2] px as it lies on the table; `likely` ones are what others are held against.

    A single card's proportion is that of the closed form of `proportion_of`.
    """
    if len(quads) < 2:
        return [_alone(quad, width, height, focal) for quad in quads]
    table = table_of(quads, width, height, focal)
    level = table.level(np.asarray(quads))
    areas = [max(abs(signed_area(quad)), 1e-9) for quad in level]
    spreads = _spreads(np.asarray(quads), level, table)
    proportions = [by_side_lengths(quad) for quad in level]
    return [
        Lying(proportion, _unlike(areas, likely, at, proportion), float(spreads[at]))
        for at, proportion in enumerate(proportions)
    ]


def off_shape(
    quads: Sequence[np.ndarray], at: int, quad: np.ndarray, size: tuple[int, int],
    focal: float | None = None,
) -> float:
    """How far one of the cards [4, 2] px of a picture of `size` (w, h) px is off a card's own
    proportion, as a logarithm, where it has the corners `quad` in place of its own."""
    among = [*quads[:at], quad, *quads[at + 1 :]]
    lying = on_table(among, [True] * len(among), *size, focal)[at]
    return abs(log(lying.proportion / CARD_PROPORTION))


def _alone(quad: np.ndarray, width: int, height: int, focal: float | None) -> Lying:
    guess, unsure = _guessed(width, height, focal)

    def seen(corners: np.ndarray, length: float) -> float:
        return log(proportion_of(corners, width, height, length))

    proportion = seen(quad, guess)
    moves = np.eye(8).reshape(8, 4, 2) * _error(quad)
    errors = [seen(quad + move, guess) - proportion for move in moves]
    errors.append(seen(quad, guess * exp(unsure)) - proportion)
    return Lying(exp(proportion), 0.0, float(np.linalg.norm(errors)))


def _error(quad: np.ndarray) -> float:
    """A corner's usual error in px."""
    return ERROR * float(side_lengths(quad).max()) + 0.5


def _spreads(quads: np.ndarray, level: np.ndarray, table: "Table") -> np.ndarray:
    """Relative standard errors [n]: of each card's own sides, and of the table's tilt and focal."""
    proportions = np.log([by_side_lengths(quad) for quad in level])
    slopes = []
    for step in np.eye(3) * 1e-4:
        tilt, focal = table.tilt + step[:2], table.focal * exp(step[2])
        other = Table(tilt, focal, table.middle, table.unsure).level(quads)
        slopes.append((np.log([by_side_lengths(quad) for quad in other]) - proportions) / 1e-4)
    shared = np.einsum("in,ij,jn->n", slopes, table.unsure, slopes)
    own = [_error(quad) ** 2 * float((1 / side_lengths(quad) ** 2).sum()) / 2 for quad in quads]
    return np.sqrt(shared + own)


@dataclass(frozen=True, slots=True)
class Table:
    """A table as one camera sees it: `tilt` about x and y in radians, `focal` and `middle` px.

    `unsure` [3, 3]: the covariance of the tilt and of the focal length's logarithm.
    """

    tilt: np.ndarray
    focal: float
    middle: np.ndarray
    unsure: np.ndarray

    def level(self, quads: np.ndarray) -> np.ndarray:
        """Quads [n, 4, 2] px as a camera sees them that looks straight down on the table."""
        return _turned(quads - self.middle, self.tilt, self.focal)

    def size_of(self, quad: np.ndarray) -> np.ndarray:
        """(short, long) of a quad [4, 2] px as it lies on the table."""
        return np.sort(mean_sides(self.level(quad[None])[0]))

    def seen(self, level: np.ndarray) -> np.ndarray:
        """Levelled quads [n, 4, 2] as they are in the picture, px."""
        return _turned(level, -self.tilt, self.focal) + self.middle


def table_of(
    quads: Sequence[np.ndarray], width: int, height: int, focal: float | None = None
) -> Table:
    """The table on which cards [4, 2] px of a picture w × h px are rectangles."""
    middle = np.array([width / 2, height / 2])
    guess, unsure = _guessed(width, height, focal)
    fitted, covariance = _fitted(np.asarray(quads, dtype=np.float64) - middle, guess, unsure)
    return Table(fitted[:2], _length(fitted, guess), middle, covariance)


def _guessed(width: int, height: int, focal: float | None) -> tuple[float, float]:
    """The focal length in px, as told or as usual, and how far it may be off, relatively."""
    if focal is not None:
        return focal, KNOWN_FOCAL
    return focal_in_pixels(USUAL_FOCAL_LENGTH, width, height), UNSURE_FOCAL


def _unlike(
    areas: list[float], likely: Sequence[bool], at: int, proportion: float
) -> float:
    """How far its area is off the others', as a logarithm; an open card's has a panel's or more."""
    others = [area for i, area in enumerate(areas) if likely[i] and i != at]
    if not others:
        return 0.0
    panels = (1, 2, 3) if proportion >= OPEN_FROM else (1,)
    usual = float(np.median(others))
    return min(abs(log(areas[at] / usual / count)) for count in panels)


def _fitted(quads: np.ndarray, focal: float, spread: float) -> tuple[np.ndarray, np.ndarray]:
    """Tilt about x and y in radians and the focal length's logarithm beside the guess, with
    their covariance.

    Gauss and Newton's steps, halved while they do not help; cards that fit badly count less
    and less (Huber's weights): they lie on something, or were seen wrong.
    """
    prior = np.array([USUAL_TILT, USUAL_TILT, spread])

    def off(at: np.ndarray) -> np.ndarray:
        return np.concatenate([_residuals(quads, at, focal).ravel(), at / prior])

    def cost(residuals: np.ndarray) -> float:
        size = np.abs(residuals)
        size[:-3] = np.sqrt(np.where(size[:-3] < 2, size[:-3] ** 2, 4 * size[:-3] - 4))
        return float((size**2).sum())

    at = np.zeros(3)
    now = off(at)
    for _ in range(ROUNDS):
        slope = np.column_stack([(off(at + step) - now) / 1e-5 for step in np.eye(3) * 1e-5])
        weight = 1 / np.maximum(np.abs(now) / 2, 1)
        weight[-3:] = 1
        inverse = np.linalg.inv((slope * weight[:, None]).T @ slope)
        step = -inverse @ (slope.T @ (weight * now))
        step = np.clip(step, -0.3, 0.3)
        for _ in range(5):
            then = off(at + step)
            if cost(then) < cost(now):
                break
            step = step / 2
        else:
            break
        at, now = at + step, then
        if np.abs(step).max() < STILL:
            break
    return at, inverse


def _residuals(quads: np.ndarray, at: np.ndarray, focal: float) -> np.ndarray:
    """How far [n, 3] each card is from a rectangle, in corners' errors."""
    level = _turned(quads, at[:2], _length(at, focal))
    sides = level[:, NEXT] - level
    long, own = (_long(one).max(axis=1) for one in (quads[:, NEXT] - quads, sides))
    error = (ERROR * own + 0.5 * own / long)[:, None]
    apart = (sides[:, 0] + sides[:, 2]) / 2
    across, down = (sides[:, 0] - sides[:, 2]) / 2, (sides[:, 1] - sides[:, 3]) / 2
    wide, tall = _long(across), _long(down)
    slant = (across * down).sum(axis=1) / np.maximum(wide, tall)
    return np.column_stack([apart, slant]) / error


def _long(ways: np.ndarray) -> np.ndarray:
    """Lengths [...] of vectors [..., 2]."""
    return np.sqrt((ways * ways).sum(axis=-1))


def _length(at: np.ndarray, focal: float) -> float:
    return focal * float(np.exp(np.clip(at[2], -1.5, 1.5)))


def _turned(quads: np.ndarray, tilt: np.ndarray, length: float) -> np.ndarray:
    """Points about the picture's middle, px, as a camera of focal `length` turned by `tilt`
    sees them (Rodrigues' rotation of each ray)."""
    rotation, _ = cv2.Rodrigues(np.array([tilt[0], tilt[1], 0.0]))
    rays = np.concatenate([quads, np.full((*quads.shape[:2], 1), length)], axis=2)
    turned = rays @ rotation.T
    return length * turned[..., :2] / np.maximum(turned[..., 2:], 1e-3 * length)
