"""Quadrilaterals in a picture: order, area, overlap.

A quadrilateral is a float64 array [4, 2] of (x, y). The unit is the pixel and
pixel (0, 0) covers the square from (0, 0) to (1, 1), so that a whole picture
has the corners (0, 0), (w, 0), (w, h), (0, h). Clockwise is as seen on the
screen, where y points down.
"""

from collections.abc import Iterable

import cv2
import numpy as np

NEXT = np.array([1, 2, 3, 0])
"""Of four corners, which comes after each: much quicker than a roll, and asked thousands of times
for a photo."""

_BEFORE = np.array([3, 0, 1, 2])


def signed_area(quad: np.ndarray) -> float:
    """Area in px², positive where the corners run clockwise on the screen."""
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = quad.tolist()
    return 0.5 * ((cx - ax) * (dy - by) - (dx - bx) * (cy - ay))


def is_convex(quad: np.ndarray) -> bool:
    """True where all four turns go clockwise and none is flat."""
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = quad.tolist()
    return (
        (bx - ax) * (cy - by) - (by - ay) * (cx - bx) > 1e-9
        and (cx - bx) * (dy - cy) - (cy - by) * (dx - cx) > 1e-9
        and (dx - cx) * (ay - dy) - (dy - cy) * (ax - dx) > 1e-9
        and (ax - dx) * (by - ay) - (ay - dy) * (bx - ax) > 1e-9
    )


def is_within(quad: np.ndarray, size: tuple[int, int]) -> bool:
    """True where all four corners lie in a picture of `size` (w, h) px, to the pixel."""
    return bool((quad > -1).all() and (quad < np.array(size) + 1).all())


def side_lengths(quad: np.ndarray) -> np.ndarray:
    """Lengths [4] in px of the sides from corner i to corner i + 1."""
    x, y = (quad[NEXT] - quad).T
    return np.sqrt(x * x + y * y)


def corner_cosines(quad: np.ndarray) -> np.ndarray:
    """Cosines [4] of the inner angles: 0 is square, above it acute."""
    x, y = (quad[NEXT] - quad).T / side_lengths(quad)
    return -(x * x[_BEFORE] + y * y[_BEFORE])


def from_top_left(quad: np.ndarray) -> np.ndarray:
    """The same corners clockwise from the card's own top left.

    The picture's up is taken for the card's up: of the four readings the one
    turned least, between -45° and +45°. A tie (exactly 45°) goes to the
    upright reading, then to the corner farthest up, then farthest left.
    """
    quad = np.asarray(quad, dtype=np.float64).reshape(4, 2)
    if signed_area(quad) < 0:
        quad = quad[::-1]
    readings = [np.roll(quad, -turn, axis=0) for turn in range(4)]
    return min(readings, key=_turned)


def _turned(quad: np.ndarray) -> tuple[float, bool, float, float]:
    across = (quad[1] - quad[0]) + (quad[2] - quad[3])
    angle = abs(float(np.degrees(np.arctan2(across[1], across[0]))))
    return round(angle, 6), is_wide(quad), float(quad[0, 1]), float(quad[0, 0])


def is_wide(quad: np.ndarray) -> bool:
    """True where the card, read from its own top left, is wider than tall."""
    top, right, bottom, left = side_lengths(quad)
    return bool(top + bottom > right + left)


def overlap(one: np.ndarray, other: np.ndarray) -> float:
    """Area in px² that two convex quadrilaterals share."""
    area, _ = cv2.intersectConvexConvex(
        np.asarray(one, dtype=np.float32), np.asarray(other, dtype=np.float32)
    )
    return float(area)


def intersection_over_union(one: np.ndarray, other: np.ndarray) -> float:
    """Shared area over joint area of two convex quadrilaterals, 0–1 (Jaccard 1901)."""
    shared = overlap(one, other)
    joint = abs(signed_area(one)) + abs(signed_area(other)) - shared
    return shared / joint if joint > 0 else 0.0


def mean_sides(quad: np.ndarray) -> tuple[float, float]:
    """The mean lengths of top and bottom, and of the other two sides."""
    top, right, bottom, left = side_lengths(quad)
    return (top + bottom) / 2, (right + left) / 2


def contains(quad: np.ndarray, point: tuple[float, float]) -> bool:
    """True where the point lies in the convex clockwise quadrilateral or on its sides."""
    sides = quad[NEXT] - quad
    to_point = np.asarray(point, dtype=np.float64) - quad
    return bool(np.all(sides[:, 0] * to_point[:, 1] - sides[:, 1] * to_point[:, 0] >= -1e-9))


def meet(lines: np.ndarray) -> np.ndarray | None:
    """Corners [4, 2] where line i - 1 meets line i; None where neighbours are parallel.

    `lines` [4, 3] holds (a, b, c) of a·x + b·y + c = 0 for sides 0–3, side i
    running from corner i to corner i + 1.
    """
    (a, b, c), (d, e, f) = lines[_BEFORE].T, lines.T
    depth = a * e - b * d
    if np.abs(depth).min() < 1e-9:
        return None
    return np.column_stack([(b * f - c * e) / depth, (c * d - a * f) / depth])


def covered(quad: np.ndarray, others: Iterable[np.ndarray]) -> float:
    """The share of a quadrilateral [4, 2] that others, which lie side by side, lie on."""
    return sum(overlap(quad, one) for one in others) / max(abs(signed_area(quad)), 1e-9)


def line_through(one: np.ndarray, other: np.ndarray) -> np.ndarray:
    """(a, b, c) with a² + b² = 1 of the line through two points."""
    direction = other - one
    normal = np.array([-direction[1], direction[0]]) / np.hypot(*direction)
    return np.array([normal[0], normal[1], -float(normal @ one)])


def sides_of(quad: np.ndarray) -> np.ndarray:
    """Lines [4, 3] through the corners [4, 2] of a quadrilateral, as `meet` takes them."""
    return np.array([
        line_through(*ends) for ends in zip(quad, np.roll(quad, -1, axis=0), strict=True)])


def centred_rectangle(width: int, height: int, proportion: tuple[int, int]) -> np.ndarray:
    """The largest centred rectangle of `proportion` (across, down) in a picture."""
    across, down = proportion
    scale = min(width / across, height / down)
    half_w, half_h = across * scale / 2, down * scale / 2
    x, y = width / 2, height / 2
    return np.array(
        [
            [x - half_w, y - half_h],
            [x + half_w, y - half_h],
            [x + half_w, y + half_h],
            [x - half_w, y + half_h],
        ]
    )
