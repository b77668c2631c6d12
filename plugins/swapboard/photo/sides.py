"""A card's four sides to a fraction of a pixel.

Across each side, profiles are read along the normal, projected on the colour
that tells inside from outside, and searched for their steepest place; a line
is then fitted robustly to the places found. Rounded corners and fingers are
outliers to such a line: the sharp corner is where the lines meet.
"""

from dataclasses import dataclass
from math import atan2, cos, sin

import cv2
import numpy as np

from swapboard.photo.geometry import is_convex, line_through, meet, side_lengths, signed_area

PROFILES = 96
ENDS = 0.07
"""Share of a side at each end left out: rounded corners reach that far."""


@dataclass(frozen=True, slots=True)
class Fit:
    """Four fitted sides.

    `quad` [4, 2] in px; `held` [4] is the share of profiles lying on the
    fitted line, `spread` [4] their median distance from it in px, `step` [4]
    the median contrast across the side in grey levels (0–255).
    """

    quad: np.ndarray
    held: np.ndarray
    spread: np.ndarray
    step: np.ndarray


def fit_sides(
    picture: np.ndarray, quad: np.ndarray, reaches: tuple[float, ...], profiles: int = PROFILES
) -> Fit | None:
    """Move a quadrilateral's sides onto the edges nearest them.

    `picture` uint8 or float32 [h, w, channels]; `quad` [4, 2] clockwise in px.
    One round per entry of `reaches`: how far, in px, sides are looked for to
    either side. A round that would leave a quadrilateral no longer convex, or
    far from where it began, ends the search. None where not even the first
    round holds. `profiles` are read across each side.
    """
    fit = None
    for reach in reaches:
        lines = [_fit_side(picture, quad, side, reach, profiles) for side in range(4)]
        moved = meet(np.array([line for line, *_ in lines]))
        if moved is None or not is_convex(moved) or not _near(moved, quad, reach):
            return fit
        quad = moved
        held, spread, step = (np.array(v) for v in zip(*(rest for _, *rest in lines), strict=True))
        fit = Fit(quad, held, spread, step)
    return fit


def _near(moved: np.ndarray, quad: np.ndarray, reach: float) -> bool:
    limit = 3 * reach + 0.02 * float(side_lengths(quad).max())
    return bool(np.abs(moved - quad).max() < limit) and signed_area(moved) > 0


def read_profiles(
    picture: np.ndarray, quad: np.ndarray, side: int, reach: float, count: int
) -> tuple[np.ndarray, np.ndarray, np.ndarray, np.ndarray]:
    """Colours across one side, from outside to inside.

    Answers (profiles [n, m, channels] float32, feet [n, 2], inward normal [2],
    offsets [m]); feet beyond the frame are left out, so n may be 0.
    """
    start, end = quad[side], quad[(side + 1) % 4]
    direction = (end - start) / np.hypot(*(end - start))
    inward = np.array([-direction[1], direction[0]])
    shares = np.linspace(ENDS, 1 - ENDS, count)
    feet = start + shares[:, None] * (end - start)
    height, width = picture.shape[:2]
    inside = (feet > 1).all(axis=1) & (feet[:, 0] < width - 1) & (feet[:, 1] < height - 1)
    feet = feet[inside]
    spacing = max(reach / 24, 0.25)
    steps = int(np.ceil(reach / spacing))
    offsets = np.arange(-steps, steps + 1) * spacing
    points = (feet[:, None, :] + offsets[None, :, None] * inward - 0.5).astype(np.float32)
    if len(feet) == 0:
        return np.zeros((0, len(offsets), 3), np.float32), feet, inward, offsets
    colours = cv2.remap(
        picture, points[..., 0], points[..., 1], cv2.INTER_LINEAR, borderMode=cv2.BORDER_REPLICATE
    )
    return colours.astype(np.float32), feet, inward, offsets


def _fit_side(
    picture: np.ndarray, quad: np.ndarray, side: int, reach: float, count: int
) -> tuple[np.ndarray, float, float, float]:
    """One side's line, the share of profiles on it, their spread and the contrast."""
    here = line_through(quad[side], quad[(side + 1) % 4])
    profiles, feet, inward, offsets = read_profiles(picture, quad, side, reach, count)
    if len(feet) < 8:
        return here, 0.0, 0.0, 0.0
    steps, places = _steepest(profiles, offsets, reach)
    points = feet + places[:, None] * inward
    line, near = robust_line(points, steps, tolerance=max(reach / 8, 0.6))
    if line is None or near.sum() < 6:
        return here, 0.0, 0.0, 0.0
    distance = np.abs(points[near] @ line[:2] + line[2])
    if line[:2] @ inward < 0:
        line = -line
    share = float(near.sum()) / count
    return line, share, float(np.median(distance)), float(np.median(steps[near]))


def _steepest(
    profiles: np.ndarray, offsets: np.ndarray, reach: float
) -> tuple[np.ndarray, np.ndarray]:
    """Contrast [n] and sub-sample offset [n] of the steepest place of each profile."""
    spacing = float(offsets[1] - offsets[0])
    blur = max(reach / 10 / spacing, 1.0)
    smooth = cv2.GaussianBlur(
        profiles.reshape(len(profiles), len(offsets), -1), (0, 0), sigmaX=blur, sigmaY=0.8
    ).reshape(profiles.shape)
    slope = np.gradient(smooth, axis=1)
    colour = _telling_colour(slope)
    size = np.maximum(slope @ colour, 0)
    # An edge near the first guess is likelier than an equal one far from it.
    size = size * (1 - 0.35 * np.abs(offsets) / reach)
    best = np.clip(size.argmax(axis=1), 1, len(offsets) - 2)
    rows = np.arange(len(size))
    left, middle, right = size[rows, best - 1], size[rows, best], size[rows, best + 1]
    bend = left - 2 * middle + right
    shift = np.where(np.abs(bend) > 1e-9, 0.5 * (left - right) / np.where(bend == 0, 1, bend), 0)
    places = offsets[best] + np.clip(shift, -0.5, 0.5) * spacing
    return middle * blur * 2.5, places


def _telling_colour(slope: np.ndarray) -> np.ndarray:
    """Unit colour vector [channels] along which the side's edge is strongest.

    The offset at which the slopes, added along the whole side, are largest
    names it: art inside the card adds up to less than its straight edge.
    """
    along = np.sort(slope, axis=0)[len(slope) // 2] + 0.25 * slope.mean(axis=0)
    strongest = along[np.linalg.norm(along, axis=1).argmax()]
    length = float(np.linalg.norm(strongest))
    return strongest / length if length > 1e-6 else np.ones(slope.shape[2]) / slope.shape[2] ** 0.5


def robust_line(
    points: np.ndarray, weights: np.ndarray, tolerance: float
) -> tuple[np.ndarray | None, np.ndarray]:
    """The line most points lie on, then fitted to those with Tukey weights.

    Every pair out of a fixed choice of points is tried (no random sampling, so
    that the same picture always gives the same line); ties go to the first.
    """
    picks = np.linspace(0, len(points) - 1, min(len(points), 24)).astype(int)
    first, second = np.triu_indices(len(picks), k=max(len(picks) // 5, 1))
    one, other = points[picks[first]], points[picks[second]]
    direction = other - one
    length = np.maximum(np.hypot(direction[:, 0], direction[:, 1]), 1e-9)
    normals = np.column_stack([-direction[:, 1], direction[:, 0]]) / length[:, None]
    distance = np.abs(normals @ points.T - np.sum(normals * one, axis=1)[:, None])
    weight = weights / (np.median(weights) + 1e-9)
    weight = np.clip(weight, 0, 1.5)
    votes = (np.maximum(1 - (distance / tolerance) ** 2, 0) * weight).sum(axis=1)
    best = int(votes.argmax())
    near = distance[best] < tolerance
    line = None
    for _ in range(4):
        if near.sum() < 6:
            return None, near
        line = _weighted_line(points, weight * near * _tukey(points, line, tolerance))
        near = np.abs(points @ line[:2] + line[2]) < tolerance
    return line, near


def _tukey(points: np.ndarray, line: np.ndarray | None, tolerance: float) -> np.ndarray:
    if line is None:
        return np.ones(len(points))
    share = (points @ line[:2] + line[2]) / (1.5 * tolerance)
    return np.where(np.abs(share) < 1, (1 - share**2) ** 2, 1e-6)


def _weighted_line(points: np.ndarray, weights: np.ndarray) -> np.ndarray:
    """Total least squares: (a, b, c) with a² + b² = 1."""
    weights = weights + 1e-12
    middle = (weights[:, None] * points).sum(axis=0) / weights.sum()
    around = points - middle
    (xx, xy), (_, yy) = ((weights[:, None] * around).T @ around).tolist()
    along = atan2(2 * xy, xx - yy) / 2  # the principal axis of a 2 × 2 spread, in closed form
    a, b = -sin(along), cos(along)
    return np.array([a, b, -(a * float(middle[0]) + b * float(middle[1]))])
