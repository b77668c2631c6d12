"""Quadrilaterals out of straight lines: cards whose outline is broken up.

Where a shadow falls across a card, or it shares colours with the table, no
region closes around it, yet its sides are still the longest straight lines
about. Segments are found by LSD (Grompone von Gioi et al., "LSD: a Line
Segment Detector", 2012), gathered into lines, and lines into quadrilaterals
that are ranked by how much of each side is covered by segments.
"""

from math import atan2, cos, sin

import cv2
import numpy as np

SHORTEST = 0.035
"""Of the long side of the picture: shorter segments are texture."""

MOST_LINES = 44
MOST_QUADS = 120
BINS = 160


def quads_of_lines(lab: np.ndarray) -> np.ndarray:
    """Quadrilaterals [n, 4, 2] in px, clockwise, best covered first; `lab` uint8 [h, w, 3]."""
    scale = min(1.0, 640 / max(lab.shape[:2]))
    reduced = cv2.resize(lab, None, fx=scale, fy=scale, interpolation=cv2.INTER_AREA)
    lines, covered, start, step = _lines(_segments(reduced), reduced.shape)
    if len(lines) < 4:
        return np.zeros((0, 4, 2))
    quads, sides = _combine(lines, reduced.shape)
    if len(quads) == 0:
        return np.zeros((0, 4, 2))
    cover = _cover(quads, sides, lines, covered, start, step)
    worth = cover.mean(axis=1) + cover.min(axis=1)
    keep = np.argsort(-worth.round(9), kind="stable")[:MOST_QUADS]
    return quads[keep[worth[keep] > 0.8]] / scale


def _segments(lab: np.ndarray) -> np.ndarray:
    """[n, 4] (x1, y1, x2, y2) long enough, from brightness and both colour channels."""
    detector = cv2.createLineSegmentDetector(cv2.LSD_REFINE_STD)
    shortest = SHORTEST * max(lab.shape[:2])
    found = []
    for index, channel in enumerate(cv2.split(lab)):
        # The colour channels span a quarter of their range in most pictures.
        seen = channel if index == 0 else cv2.convertScaleAbs(channel, alpha=3, beta=-256)
        segments = detector.detect(seen)[0]
        if segments is not None:
            segments = segments.reshape(-1, 4).astype(np.float64) + 0.5
            length = np.hypot(*(segments[:, 2:] - segments[:, :2]).T)
            found.append(segments[length > shortest])
    return np.concatenate(found) if found else np.zeros((0, 4))


def _lines(
    segments: np.ndarray, shape: tuple[int, ...]
) -> tuple[np.ndarray, np.ndarray, float, float]:
    """Lines [n, 3] (a, b, c) and which bins along each are covered, longest cover first."""
    reach = float(np.hypot(*shape[:2]))
    start, step = -reach, 2 * reach / BINS
    length = np.hypot(*(segments[:, 2:] - segments[:, :2]).T)
    order = np.argsort(-length.round(6), kind="stable")
    segments, free = segments[order], np.ones(len(segments), bool)
    lines, covers = [], []
    for i in range(len(segments)):
        if not free[i] or len(lines) >= 3 * MOST_LINES:
            continue
        line = _line(segments[i : i + 1])
        for _ in range(2):
            one = np.abs(segments[:, :2] @ line[:2] + line[2])
            other = np.abs(segments[:, 2:] @ line[:2] + line[2])
            mates = free & (np.maximum(one, other) < 2.2)
            mates[i] = True
            line = _line(segments[mates])
        free &= ~mates
        lines.append(line)
        covers.append(_covered(segments[mates], line, start, step))
    if not lines:
        return np.zeros((0, 3)), np.zeros((0, BINS), bool), start, step
    total = np.array([cover.sum() for cover in covers])
    keep = np.argsort(-total, kind="stable")[:MOST_LINES]
    return np.array(lines)[keep], np.array(covers)[keep], start, step


def _line(segments: np.ndarray) -> np.ndarray:
    """Total least squares through the segments' ends, weighted by their length."""
    weights = np.repeat(np.hypot(*(segments[:, 2:] - segments[:, :2]).T), 2)
    points = segments.reshape(-1, 2)
    middle = (weights[:, None] * points).sum(axis=0) / weights.sum()
    around = points - middle
    (xx, xy), (_, yy) = ((weights[:, None] * around).T @ around).tolist()
    along = atan2(2 * xy, xx - yy) / 2  # the principal axis of a 2 × 2 spread, in closed form
    a, b = -sin(along), cos(along)
    return np.array([a, b, -(a * float(middle[0]) + b * float(middle[1]))])


def _covered(segments: np.ndarray, line: np.ndarray, start: float, step: float) -> np.ndarray:
    along = np.array([-line[1], line[0]])
    first = (segments[:, :2] @ along - start) / step
    last = (segments[:, 2:] @ along - start) / step
    bins = np.arange(BINS) + 0.5
    low, high = np.minimum(first, last) - 0.5, np.maximum(first, last) + 0.5
    return ((bins > low[:, None]) & (bins < high[:, None])).any(axis=0)


def _combine(lines: np.ndarray, shape: tuple[int, ...]) -> tuple[np.ndarray, np.ndarray]:
    """Every two pairs of nearly parallel lines that enclose a likely quadrilateral.

    Answers quads [n, 4, 2] and the index [n, 4] of the line of each side.
    """
    angle = np.degrees(np.arctan2(lines[:, 1], lines[:, 0])) % 180
    i, j = np.triu_indices(len(lines), k=1)
    apart = _between(angle[i], angle[j])
    i, j = i[apart < 22], j[apart < 22]
    mean = np.degrees(
        np.angle(np.exp(2j * np.radians(angle[i])) + np.exp(2j * np.radians(angle[j]))) / 2
    )
    p, q = np.triu_indices(len(i), k=1)
    crossing = _between(mean[p] % 180, mean[q] % 180) > 52
    p, q = p[crossing], q[crossing]
    sides = np.column_stack([i[p], i[q], j[p], j[q]])
    distinct = (np.sort(sides, axis=1)[:, 1:] != np.sort(sides, axis=1)[:, :-1]).all(axis=1)
    return _enclosed(lines, sides[distinct], shape)


def _between(one: np.ndarray, other: np.ndarray) -> np.ndarray:
    """Angle in degrees, 0–90, between directions given modulo 180°."""
    apart = np.abs(one - other) % 180
    return np.minimum(apart, 180 - apart)


def _enclosed(
    lines: np.ndarray, sides: np.ndarray, shape: tuple[int, ...]
) -> tuple[np.ndarray, np.ndarray]:
    four = lines[sides]
    points = np.cross(np.roll(four, 1, axis=1), four)
    safe = (np.abs(points[..., 2]) > 1e-6).all(axis=1)
    sides = sides[safe]
    quads = points[safe][..., :2] / points[safe][..., 2:]
    ahead = np.roll(quads, -1, axis=1)
    area = (quads[..., 0] * ahead[..., 1] - quads[..., 1] * ahead[..., 0]).sum(axis=1) / 2
    turned = area < 0
    # Reversed corners 3, 2, 1, 0 have the sides 2, 1, 0, 3 between them.
    quads[turned] = quads[turned][:, ::-1]
    sides[turned] = sides[turned][:, [2, 1, 0, 3]]
    height, width = shape[:2]
    share = np.abs(area) / (width * height)
    low, high = quads.min(axis=1), quads.max(axis=1)
    margin = 0.08 * max(width, height)
    inside = (low > -margin).all(axis=1) & (high < (width + margin, height + margin)).all(axis=1)
    length = np.linalg.norm(np.roll(quads, -1, axis=1) - quads, axis=2)
    across, down = length[:, 0] + length[:, 2], length[:, 1] + length[:, 3]
    ratio = np.maximum(across, down) / np.maximum(np.minimum(across, down), 1e-9)
    even = (length.max(axis=1) < 2.6 * length.min(axis=1)) & (ratio < 2.4)
    keep = (share > 0.006) & (share < 0.96) & inside & even
    return quads[keep], sides[keep]


def _cover(
    quads: np.ndarray,
    sides: np.ndarray,
    lines: np.ndarray,
    covered: np.ndarray,
    start: float,
    step: float,
) -> np.ndarray:
    """Share [n, 4] of each side that lies on segments."""
    total = np.concatenate([np.zeros((len(lines), 1)), np.cumsum(covered, axis=1)], axis=1)
    along = np.column_stack([-lines[:, 1], lines[:, 0]])[sides]
    first = ((quads * along).sum(axis=2) - start) / step
    last = ((np.roll(quads, -1, axis=1) * along).sum(axis=2) - start) / step
    low = np.clip(np.round(np.minimum(first, last)), 0, BINS).astype(int)
    high = np.clip(np.round(np.maximum(first, last)), 0, BINS).astype(int)
    high = np.maximum(high, np.minimum(low + 1, BINS))
    return (total[sides, high] - total[sides, low]) / np.maximum(high - low, 1)
