"""Which proposals hold: rated by what is on either side of their sides.

A card's side parts two colours along its whole length. What is asked of a
proposal is how much of each side does so, how clearly, and only then, as a
tie-breaker, whether its proportion is a card's.
"""

from dataclasses import dataclass

import cv2
import numpy as np

from swapboard.photo.geometry import signed_area
from swapboard.photo.proportion import proportion_of
from swapboard.photo.sides import fit_sides

SAMPLES = 40
ENDS = 0.09
APART = 3.0
"""px of the working copy between a side and the colours compared."""

FAR_APART = 7.0
"""px, likewise: over a line drawn on one ground the colours are the same again."""

CLEAR = 5.0
"""Difference in 8-bit Lab from which two colours count as told apart."""

FITTED = 64
"""Proposals that are fitted and rated a second time."""

CARD_PROPORTION = 1.4


@dataclass(frozen=True, slots=True)
class Rated:
    """A proposal and what was measured of it.

    `quad` [4, 2] in px of the working copy; `support` [4] the share of each
    side that parts two colours; `contrast` [4] by how much (8-bit Lab);
    `outside` [3] the colour around it; `proportion` long over short; `score`
    about 0–1, higher is better.
    """

    quad: np.ndarray
    support: np.ndarray
    contrast: np.ndarray
    outside: np.ndarray
    proportion: float
    score: float


def best_rated(small: np.ndarray, quads: np.ndarray) -> list[Rated]:
    """The best of the proposals, fitted to the edges nearest them, best first."""
    lab = cv2.GaussianBlur(cv2.cvtColor(small, cv2.COLOR_RGB2LAB), (0, 0), 0.8)
    first = sorted(rate(lab, quads), key=_best_first)[:FITTED]
    fitted = []
    for rated in first:
        fit = fit_sides(lab, rated.quad, (5.0, 3.0))
        fitted.append(rated.quad if fit is None else fit.quad)
    again = rate(lab, np.array(fitted).reshape(-1, 4, 2))
    return sorted(again, key=_best_first)


def _best_first(rated: Rated) -> tuple[float, float, float, float]:
    x, y = rated.quad.mean(axis=0)
    return -round(rated.score, 9), -abs(signed_area(rated.quad)), float(y), float(x)


def rate(lab: np.ndarray, quads: np.ndarray) -> list[Rated]:
    """Each quadrilateral [n, 4, 2] measured on the working copy in 8-bit Lab."""
    if len(quads) == 0:
        return []
    inner, outer, whole = _colours_beside(lab, quads, APART)
    far_inner, far_outer, _ = _colours_beside(lab, quads, FAR_APART)
    parted = np.linalg.norm(far_inner - far_outer, axis=3) > CLEAR
    step = inner - outer
    direction = np.median(np.where(whole[..., None], step, 0), axis=2, keepdims=True)
    direction /= np.linalg.norm(direction, axis=3, keepdims=True) + 1e-6
    along = (step * direction).sum(axis=3)
    support = ((along > CLEAR) & whole & parted).mean(axis=2)
    contrast = np.median(np.where(whole, along, 0), axis=2)
    outside = np.median(outer.reshape(len(quads), -1, 3), axis=1)
    height, width = lab.shape[:2]
    rated = []
    for i, quad in enumerate(quads):
        proportion = proportion_of(quad, width, height)
        score = _score(support[i], contrast[i], proportion)
        rated.append(Rated(quad, support[i], contrast[i], outside[i], proportion, score))
    return rated


def _score(support: np.ndarray, contrast: np.ndarray, proportion: float) -> float:
    ordered = np.sort(support)
    held = 0.4 * ordered.mean() + 0.35 * ordered[0] + 0.25 * ordered[1]
    clear = float(np.clip(np.log2(max(np.sort(contrast)[1], 1) / CLEAR) / 3, 0, 1))
    off = abs(np.log(proportion / CARD_PROPORTION))
    prior = float(np.exp(-((off / 0.12) ** 2)))
    return float(0.75 * held + 0.1 * clear + 0.15 * prior)


def _colours_beside(
    lab: np.ndarray, quads: np.ndarray, apart: float
) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Colours [n, 4, samples, 3] `apart` px inside and outside, and where both are in the frame."""
    starts, ends = quads, np.roll(quads, -1, axis=1)
    sides = ends - starts
    normals = np.stack([-sides[..., 1], sides[..., 0]], axis=-1)
    normals = normals / np.linalg.norm(normals, axis=-1, keepdims=True)
    shares = np.linspace(ENDS, 1 - ENDS, SAMPLES)
    feet = starts[:, :, None] + shares[None, None, :, None] * sides[:, :, None]
    inside = feet + apart * normals[:, :, None]
    outside = feet - apart * normals[:, :, None]
    height, width = lab.shape[:2]

    def read(points: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        x, y = np.floor(points[..., 0]).astype(int), np.floor(points[..., 1]).astype(int)
        within = (x >= 0) & (y >= 0) & (x < width) & (y < height)
        return lab[y.clip(0, height - 1), x.clip(0, width - 1)].astype(np.float32), within

    (inner, in_1), (outer, in_2) = read(inside), read(outside)
    return inner, outer, in_1 & in_2
