"""A card's four sides to a fraction of a pixel.

Across each side, profiles are read along the normal, projected on the colour
that tells inside from outside, and searched for their steepest place; a line
is then fitted robustly to the places found. Rounded corners and fingers are
outliers to such a line: the sharp corner is where the lines meet. Sides are
worked on many at a time, since each by itself is only a few thousand numbers.
"""

from dataclasses import dataclass
from functools import cache

import cv2
import numpy as np

from swapboard.photo.geometry import is_convex, meet, side_lengths, signed_area

PROFILES = 96
ENDS = 0.07
"""Share of a side at each end left out: rounded corners reach that far."""

AT_ONCE = 8
"""Quadrilaterals whose profiles are held in memory together."""


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
        (moved,) = fit_once(picture, quad[None], reach, profiles)
        if moved is None:
            return fit
        fit, quad = moved, moved.quad
    return fit


def fit_once(
    picture: np.ndarray, quads: np.ndarray, reach: float, profiles: int = PROFILES
) -> list[Fit | None]:
    """One round of `fit_sides` for each of many quadrilaterals [n, 4, 2]."""
    quads = np.asarray(quads, dtype=np.float64).reshape(-1, 4, 2)
    lines, told = np.zeros((len(quads), 4, 3)), np.zeros((len(quads), 4, 3))
    for at in range(0, len(quads), AT_ONCE):
        some = slice(at, at + AT_ONCE)
        sides = np.stack([quads[some], np.roll(quads[some], -1, axis=1)], axis=2)
        fitted = _fit_lines(picture, sides.reshape(-1, 2, 2), reach, profiles)
        lines[some], told[some] = (values.reshape(-1, 4, 3) for values in fitted)
    return [_moved(*one, reach) for one in zip(quads, lines, told, strict=True)]


def _moved(quad: np.ndarray, lines: np.ndarray, told: np.ndarray, reach: float) -> Fit | None:
    moved = meet(lines)
    if moved is None or not is_convex(moved) or not _near(moved, quad, reach):
        return None
    return Fit(moved, *told.T)


def _near(moved: np.ndarray, quad: np.ndarray, reach: float) -> bool:
    limit = 3 * reach + 0.02 * float(side_lengths(quad).max())
    return bool(np.abs(moved - quad).max() < limit) and signed_area(moved) > 0


def _fit_lines(
    picture: np.ndarray, sides: np.ndarray, reach: float, count: int
) -> tuple[np.ndarray, np.ndarray]:
    """Lines [n, 3] of sides [n, 2, 2] (from, to); the share of profiles on each, their spread
    and the contrast, [n, 3]. Where no line holds it is the side's own, told as 0."""
    along = sides[:, 1] - sides[:, 0]
    inward = np.column_stack([-along[:, 1], along[:, 0]]) / np.hypot(*along.T)[:, None]
    lines = np.column_stack([inward, -(inward * sides[:, 0]).sum(axis=1)])
    told = np.zeros((len(sides), 3))
    shares = np.linspace(ENDS, 1 - ENDS, count)
    feet = sides[:, :1] + shares[:, None] * along[:, None]
    height, width = picture.shape[:2]
    framed = ((feet > 1) & (feet < (width - 1, height - 1))).all(axis=2)
    seen = framed.sum(axis=1)
    for number in np.unique(seen[seen >= 8]):
        group = np.flatnonzero(seen == number)
        there = feet[group][framed[group]].reshape(len(group), number, 2)
        profiles, offsets = _read_profiles(picture, there, inward[group], reach)
        steps, places = _steepest(profiles, offsets, reach)
        points = there + places[..., None] * inward[group, None]
        fitted, near = robust_lines(points, steps, tolerance=max(reach / 8, 0.6))
        on = near.sum(axis=1)
        fitted[(fitted[:, :2] * inward[group]).sum(axis=1) < 0] *= -1
        away = np.abs(_distances(points, fitted))
        values = on / count, _median_of(away, near), _median_of(steps, near)
        held = on >= 6
        lines[group[held]] = fitted[held]
        told[group[held]] = np.column_stack(values)[held]
    return lines, told


def _read_profiles(
    picture: np.ndarray, feet: np.ndarray, inward: np.ndarray, reach: float
) -> tuple[np.ndarray, np.ndarray]:
    """Colours across sides, from outside to inside: float32 [n, feet, m, channels], offsets [m].

    `feet` [n, feet, 2]; `inward` [n, 2] the sides' normals.
    """
    spacing = max(reach / 24, 0.25)
    steps = int(np.ceil(reach / spacing))
    offsets = np.arange(-steps, steps + 1) * spacing
    points = feet[:, :, None] + offsets[:, None] * inward[:, None, None] - 0.5
    points = points.reshape(-1, len(offsets), 2).astype(np.float32)
    colours = cv2.remap(picture, points, None, cv2.INTER_LINEAR, borderMode=cv2.BORDER_REPLICATE)
    return colours.reshape(*feet.shape[:2], len(offsets), -1).astype(np.float32), offsets


def _steepest(
    profiles: np.ndarray, offsets: np.ndarray, reach: float
) -> tuple[np.ndarray, np.ndarray]:
    """Contrast [n, feet] and sub-sample offset [n, feet] of the steepest place of each profile."""
    spacing = float(offsets[1] - offsets[0])
    blur = max(reach / 10 / spacing, 1.0)
    smooth = [cv2.GaussianBlur(one, (0, 0), sigmaX=blur, sigmaY=0.8) for one in profiles]
    slope = np.gradient(np.stack(smooth), axis=2)
    colours = _telling_colours(slope)
    size = np.stack([one @ colour for one, colour in zip(slope, colours, strict=True)])
    # An edge near the first guess is likelier than an equal one far from it.
    size = np.maximum(size, 0) * (1 - 0.35 * np.abs(offsets) / reach)
    best = np.clip(size.argmax(axis=2), 1, len(offsets) - 2)[..., None]
    around = np.take_along_axis(size, best + np.array([-1, 0, 1]), axis=2)
    left, middle, right = np.moveaxis(around, 2, 0)
    bend = left - 2 * middle + right
    shift = np.where(np.abs(bend) > 1e-9, 0.5 * (left - right) / np.where(bend == 0, 1, bend), 0)
    places = offsets[best[..., 0]] + np.clip(shift, -0.5, 0.5) * spacing
    return middle * blur * 2.5, places


def _telling_colours(slope: np.ndarray) -> np.ndarray:
    """Unit colour vectors [n, channels] along which each side's edge is strongest.

    The offset at which the slopes, added along the whole side, are largest
    names it: art inside the card adds up to less than its straight edge.
    """
    middle = slope.shape[1] // 2
    along = np.partition(slope, middle, axis=1)[:, middle] + 0.25 * slope.mean(axis=1)
    best = np.linalg.norm(along, axis=2).argmax(axis=1)
    strongest = along[np.arange(len(along)), best]
    length = np.array([[np.linalg.norm(one)] for one in strongest])
    return np.where(length > 1e-6, strongest / np.maximum(length, 1e-6), slope.shape[3] ** -0.5)


def robust_lines(
    points: np.ndarray, weights: np.ndarray, tolerance: float
) -> tuple[np.ndarray, np.ndarray]:
    """The line most of each set's points lie on, then fitted to those with Tukey weights.

    `points` [sets, n, 2], `weights` [sets, n]; answers (a, b, c) [sets, 3] with
    a² + b² = 1, and which points lie within `tolerance`, [sets, n]. A set of which
    fewer than six do has nan for its line. Every pair out of a fixed choice of points
    is tried (no random sampling, so that the same picture always gives the same
    line); ties go to the first.
    """
    middle = _median_of(weights, np.ones(weights.shape, bool))
    weight = np.minimum(np.maximum(weights / (middle[:, None] + 1e-9), 0), 1.5)
    near = np.abs(_distances(points, _most_voted(points, weight, tolerance))) < tolerance
    lines, lost = None, np.zeros(len(points), bool)
    for _ in range(4):
        lost |= near.sum(axis=1) < 6
        lines = _weighted_lines(points, weight * near * _tukey(points, lines, tolerance))
        near = np.where(lost[:, None], near, np.abs(_distances(points, lines)) < tolerance)
    lines[lost] = np.nan
    return lines, near


def _most_voted(points: np.ndarray, weight: np.ndarray, tolerance: float) -> np.ndarray:
    """Of the lines [sets, 3] through two points each the one nearest to most, by weight."""
    first, second = _pairs(points.shape[1])
    x, y = points[..., 0], points[..., 1]
    across, down = x[:, second] - x[:, first], y[:, second] - y[:, first]
    length = np.maximum(np.hypot(across, down), 1e-9)
    a, b = -down / length, across / length
    lines = np.stack([a, b, -(a * x[:, first] + b * y[:, first])], axis=2)
    best = np.empty((len(points), 3))
    for i, through in enumerate(lines):
        # One set at a time: all at once would not stay in the processor's cache.
        votes = through[:, :2] @ points[i].T
        votes += through[:, 2:]
        votes *= 1 / tolerance
        np.square(votes, out=votes)
        np.subtract(1, votes, out=votes)
        best[i] = through[(np.maximum(votes, 0, out=votes) @ weight[i]).argmax()]
    return best


@cache
def _pairs(count: int) -> tuple[np.ndarray, np.ndarray]:
    """Every pair, not too near, out of up to 24 of so many points."""
    picks = np.linspace(0, count - 1, min(count, 24)).astype(int)
    first, second = np.triu_indices(len(picks), k=max(len(picks) // 5, 1))
    return picks[first], picks[second]


def _distances(points: np.ndarray, lines: np.ndarray) -> np.ndarray:
    """Signed distances [sets, n] of points [sets, n, 2] from their set's line (a, b, c)."""
    a, b, c = (lines[:, i, None] for i in range(3))
    return points[..., 0] * a + points[..., 1] * b + c


def _tukey(points: np.ndarray, lines: np.ndarray | None, tolerance: float) -> np.ndarray:
    if lines is None:
        return np.ones(points.shape[:2])
    share = _distances(points, lines) / (1.5 * tolerance)
    return np.where(np.abs(share) < 1, (1 - share**2) ** 2, 1e-6)


def _weighted_lines(points: np.ndarray, weights: np.ndarray) -> np.ndarray:
    """Total least squares for each set: (a, b, c) [sets, 3] with a² + b² = 1."""
    weights = weights + 1e-12
    middle = (weights[:, None] @ points)[:, 0] / weights.sum(axis=1, keepdims=True)
    around = points - middle[:, None]
    spread = (weights[..., None] * around).swapaxes(1, 2) @ around
    apart = spread[:, 0, 0] - spread[:, 1, 1]
    along = np.arctan2(2 * spread[:, 0, 1], apart) / 2  # their principal axis, in closed form
    a, b = -np.sin(along), np.cos(along)
    return np.array([a, b, -(a * middle[:, 0] + b * middle[:, 1])]).T


def _median_of(values: np.ndarray, chosen: np.ndarray) -> np.ndarray:
    """The median [n] of each row's chosen values; nan where none is."""
    ordered = np.sort(np.where(chosen, values, np.nan), axis=1)  # nan comes last
    count, rows = chosen.sum(axis=1), np.arange(len(values))
    return (ordered[rows, (count - 1) // 2] + ordered[rows, count // 2]) / 2
