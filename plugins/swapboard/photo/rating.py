"""Which proposals hold: rated by what is on either side of their sides.

A card's side parts two colours along its whole length. What is asked of a
proposal is how much of each side does so, how clearly, and only then, as a
tie-breaker, whether its proportion is a card's.
"""

from dataclasses import dataclass, replace

import cv2
import numpy as np

from swapboard.photo.geometry import signed_area
from swapboard.photo.proportion import proportion_of
from swapboard.photo.proposals import from_uppermost_left
from swapboard.photo.sides import fit_once

ALONG = np.linspace(0.09, 0.91, 40)
"""Where along a side colours are compared; rounded corners lie beyond."""

BEYOND = np.linspace(-0.1, -0.02, 10)
"""Where beyond a corner the side should not go on."""

OVERRUN_COST = 0.3

APART = 3.0
"""px of the working copy between a side and the colours compared."""

FAR_APART = 7.0
"""px, likewise: over a line drawn on one ground the colours are the same again."""

CLEAR = 5.0
"""Difference in 8-bit Lab from which two colours count as told apart."""

ALIKE = 8
"""Of those that far as many as this may be readings of one card, so that none crowds others out."""

FITTED = 56
"""Proposals that are fitted and rated a second time."""

CARD_PROPORTION = 1.4


@dataclass(frozen=True, slots=True)
class Rated:
    """A proposal and what was measured of it.

    `quad` [4, 2] in px of the working copy; `support` [4] the share of each
    side that parts two colours; `contrast` [4] by how much (8-bit Lab);
    `overrun` how far sides run on beyond the corners, 0–1; `surround` the
    spread of the colours around it (8-bit Lab); `proportion` long over short;
    `held` how well all four sides are supported, `score` that with contrast
    and proportion, both 0–1.
    """

    quad: np.ndarray
    support: np.ndarray
    contrast: np.ndarray
    overrun: float
    surround: float
    proportion: float
    held: float
    score: float


def best_rated(small: np.ndarray, quads: np.ndarray) -> list[Rated]:
    """The best of the proposals, fitted to the edges nearest them, best first."""
    lab = cv2.GaussianBlur(cv2.cvtColor(small, cv2.COLOR_RGB2LAB), (0, 0), 0.8)
    begun = [rated.quad for rated in _unlike(sorted(rate(lab, quads), key=_best_first))]
    fits = fit_once(lab, np.array(begun), reach=5.0, profiles=40)
    fitted = [quad if fit is None else fit.quad for quad, fit in zip(begun, fits, strict=True)]
    return sorted(rate(lab, np.array(fitted).reshape(-1, 4, 2)), key=_best_first)


def _unlike(rated: list[Rated], nearer: float = 5.0) -> list[Rated]:
    """The first `FITTED` of which no two have all corners within `nearer` px: a fit joins them."""
    kept: list[Rated] = []
    quads = np.empty((FITTED, 8))
    turned = from_uppermost_left(np.array([one.quad for one in rated]).reshape(-1, 4, 2))
    for one, corners in zip(rated, turned, strict=True):
        if len(kept) == FITTED:
            break
        size = float(np.sqrt(abs(signed_area(corners))))
        apart = np.abs(quads[: len(kept)] - corners.ravel()).max(axis=1)
        if np.sum(apart < 0.3 * size) < ALIKE and not (apart <= nearer).any():
            quads[len(kept)] = corners.ravel()
            kept.append(replace(one, quad=corners))
    return kept


def _best_first(rated: Rated) -> tuple[float, float, float, float]:
    x, y = rated.quad.mean(axis=0).tolist()
    return -round(rated.score, 9), -abs(signed_area(rated.quad)), y, x


def rate(lab: np.ndarray, quads: np.ndarray) -> list[Rated]:
    """Each quadrilateral [n, 4, 2] measured on the working copy in 8-bit Lab."""
    if len(quads) == 0:
        return []
    inner, outer, whole = _beside(lab, quads, APART, ALONG)
    direction = np.median(np.where(whole[..., None], inner - outer, 0), axis=2, keepdims=True)
    direction /= np.linalg.norm(direction, axis=3, keepdims=True) + 1e-6
    parts, along = _parts(lab, quads, direction, ALONG)
    support = parts.mean(axis=2)
    contrast = np.median(np.where(whole, along, 0), axis=2)
    overrun = _overrun(lab, quads, direction, contrast)
    surround = _surround(lab, quads)
    height, width = lab.shape[:2]
    proportion = np.array([proportion_of(quad, width, height) for quad in quads])
    held = _held(support) - OVERRUN_COST * overrun
    score = _score(held, contrast, proportion)
    plain = (values.tolist() for values in (overrun, surround, proportion, held, score))
    return [Rated(*one) for one in zip(quads, support, contrast, *plain, strict=True)]


def _parts(
    lab: np.ndarray, quads: np.ndarray, direction: np.ndarray, shares: np.ndarray
) -> tuple[np.ndarray, np.ndarray]:
    """Where [n, 4, samples] the side's line parts two colours its way, and by how much."""
    inner, outer, whole = _beside(lab, quads, APART, shares)
    far_inner, far_outer, _ = _beside(lab, quads, FAR_APART, shares)
    along = ((inner - outer) * direction).sum(axis=3)
    parted = np.linalg.norm(far_inner - far_outer, axis=3) > CLEAR
    return (along > CLEAR) & whole & parted, along


def _overrun(
    lab: np.ndarray, quads: np.ndarray, direction: np.ndarray, contrast: np.ndarray
) -> np.ndarray:
    """How far [n] sides run on beyond the corners, 0–1: the mean of the worst two ends.

    The sides of a card end at its corners. Where they go on, the side across
    is a line drawn within the card, or all is a pattern of the table.
    """
    ends = []
    for shares in (BEYOND, 1 - BEYOND):
        parts, along = _parts(lab, quads, direction, shares)
        as_clear = along > 0.5 * contrast[..., None]
        ends.append((parts & as_clear).mean(axis=2))
    return np.sort(np.concatenate(ends, axis=1), axis=1)[:, -2:].mean(axis=1)


def _surround(lab: np.ndarray, quads: np.ndarray) -> np.ndarray:
    """Mean distance [n] of the colours 10–22 px outside from their median."""
    rings = [_colours(lab, quads, -apart, ALONG[::2])[0] for apart in (10, 16, 22)]
    colours = np.concatenate(rings, axis=2).reshape(len(quads), -1, 3)
    middle = np.median(colours, axis=1, keepdims=True)
    return np.linalg.norm(colours - middle, axis=2).mean(axis=1)


def _held(support: np.ndarray) -> np.ndarray:
    """The weakest sides count most: three sides are easily found, the fourth decides."""
    ordered = np.sort(support, axis=1)
    return 0.4 * ordered.mean(axis=1) + 0.35 * ordered[:, 0] + 0.25 * ordered[:, 1]


def _score(held: np.ndarray, contrast: np.ndarray, proportion: np.ndarray) -> np.ndarray:
    second = np.sort(contrast, axis=1)[:, 1]
    clear = np.clip(np.log2(np.maximum(second, 1) / CLEAR) / 3, 0, 1)
    off = np.log(proportion / CARD_PROPORTION)
    return 0.75 * held + 0.1 * clear + 0.15 * np.exp(-((off / 0.12) ** 2))


def _beside(
    lab: np.ndarray, quads: np.ndarray, apart: float, shares: np.ndarray
) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Colours [n, 4, samples, 3] `apart` px inside and outside, and where both are in the frame."""
    inner, in_frame = _colours(lab, quads, apart, shares)
    outer, out_frame = _colours(lab, quads, -apart, shares)
    return inner, outer, in_frame & out_frame


def _colours(
    lab: np.ndarray, quads: np.ndarray, inward: float, shares: np.ndarray
) -> tuple[np.ndarray, np.ndarray]:
    """Colours float32 [n, 4, samples, 3] `inward` px of the sides, and which are in the frame."""
    sides = np.roll(quads, -1, axis=1) - quads
    normals = np.stack([-sides[..., 1], sides[..., 0]], axis=-1)
    normals = normals / np.linalg.norm(normals, axis=-1, keepdims=True)
    places = quads[:, :, None] + shares[:, None] * sides[:, :, None] + inward * normals[:, :, None]
    x, y = np.moveaxis(np.floor(places).astype(int), 3, 0)
    height, width = lab.shape[:2]
    within = (x >= 0) & (y >= 0) & (x < width) & (y < height)
    at = y.clip(0, height - 1) * width + x.clip(0, width - 1)
    return lab.reshape(-1, lab.shape[2]).take(at, axis=0).astype(np.float32), within
