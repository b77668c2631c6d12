"""Where in a picture cards may be: many quadrilaterals, some of them right.

Four sources, each failing where another works: levels of brightness and
colour, distance to the colours of the picture's border, closed edges, and
straight lines.
"""

import cv2
import numpy as np

from swapboard.photo.geometry import corner_cosines, is_convex, side_lengths, signed_area
from swapboard.photo.lines import quads_of_lines

SMALLEST_AREA = 0.004
"""Share of the picture: a card of 100 px in one of 1600."""

LARGEST_AREA = 0.97

OBLIQUE = float(np.cos(np.radians(50)))
"""Cosine of a corner as far from square as a card's looks at a tilt of some 45°."""


def propose(small: np.ndarray) -> np.ndarray:
    """Quadrilaterals [n, 4, 2] in px, clockwise, that may be cards.

    `small` uint8 [h, w, 3] sRGB, about 1000 px long. In a fixed order.
    """
    lab = cv2.cvtColor(small, cv2.COLOR_RGB2LAB)
    calm = cv2.medianBlur(lab, 5)
    masks = [*_level_masks(calm), *_ground_masks(calm), *_edge_masks(calm)]
    quads: list[np.ndarray] = []
    for mask in masks:
        quads.extend(quads_in(mask))
    quads.extend(quad for quad in quads_of_lines(calm) if plausible(quad))
    return _without_twins(np.array(quads).reshape(-1, 4, 2))


def quads_in(mask: np.ndarray) -> list[np.ndarray]:
    """The shapes of a mask uint8 [h, w] that nearly are quadrilaterals."""
    area = mask.shape[0] * mask.shape[1]
    outlines, _ = cv2.findContours(mask, cv2.RETR_LIST, cv2.CHAIN_APPROX_SIMPLE)
    quads = []
    for outline in outlines:
        # Most outlines are specks: their box tells that before any hull is made.
        wide, tall = (0, 0) if len(outline) < 4 else cv2.boundingRect(outline)[2:]
        if (wide - 1) * (tall - 1) <= SMALLEST_AREA * area:
            continue
        hull = cv2.convexHull(outline)
        size = cv2.contourArea(hull)
        if not SMALLEST_AREA * area < size < LARGEST_AREA * area or len(hull) < 4:
            continue
        quad = cv2.approxPolyN(hull, 4, ensure_convex=True).reshape(-1, 2).astype(np.float64)
        if len(quad) != 4:
            continue
        quad = quad + 0.5
        quad = quad if signed_area(quad) > 0 else quad[::-1]
        if size > 0.86 * signed_area(quad) and plausible(quad):
            quads.append(quad)
    return quads


def plausible(quad: np.ndarray) -> bool:
    """True for what a card can look like at a tilt of up to some 45°."""
    if not is_convex(quad):
        return False
    top, right, bottom, left = side_lengths(quad).tolist()
    across, down = (top + bottom) / 2, (right + left) / 2
    return (
        bool(np.abs(corner_cosines(quad)).max() < OBLIQUE)
        and max(across, down) < 3.2 * min(across, down)
        and max(top, bottom) < 1.8 * min(top, bottom)
        and max(left, right) < 1.8 * min(left, right)
    )


def _level_masks(lab: np.ndarray) -> list[np.ndarray]:
    """Each channel cut at levels that split its values evenly, both ways round."""
    masks = []
    kernel = np.ones((3, 3), np.uint8)
    for channel in cv2.split(lab):
        levels = np.unique(np.percentile(channel, (8, 20, 32, 44, 56, 68, 80, 90)).astype(int))
        otsu, _ = cv2.threshold(channel, 0, 255, cv2.THRESH_OTSU)
        for level in sorted({*levels.tolist(), int(otsu)}):
            mask = cv2.compare(channel, int(level), cv2.CMP_GT)
            for way in (mask, cv2.bitwise_not(mask)):
                masks.append(cv2.morphologyEx(way, cv2.MORPH_OPEN, kernel, iterations=2))
    return masks


def _ground_masks(lab: np.ndarray) -> list[np.ndarray]:
    """What differs from the colours along the picture's border, at several levels."""
    distance = ground_distance(lab)
    kernel = np.ones((5, 5), np.uint8)
    masks = []
    for level in (6, 10, 15, 22, 32, 48):
        mask = cv2.compare(distance, level, cv2.CMP_GT)
        closed = cv2.morphologyEx(mask, cv2.MORPH_CLOSE, kernel)
        masks.append(cv2.morphologyEx(closed, cv2.MORPH_OPEN, kernel, iterations=2))
    return masks


def ground_distance(lab: np.ndarray, colours: int = 4) -> np.ndarray:
    """uint8 [h, w]: distance in Lab (8-bit) to the nearest colour of the border.

    The border's colours are `colours` means found by k-means from fixed
    starting points along its brightness, so the same picture gives the same.
    """
    margin = max(min(lab.shape[:2]) // 40, 2)
    border = np.concatenate(
        [
            lab[:margin].reshape(-1, 3),
            lab[-margin:].reshape(-1, 3),
            lab[:, :margin].reshape(-1, 3),
            lab[:, -margin:].reshape(-1, 3),
        ]
    ).astype(np.float32)
    border = border[:: max(len(border) // 4000, 1)]
    order = np.argsort(border[:, 0], kind="stable")
    means = border[order[np.linspace(0, len(border) - 1, colours + 2).astype(int)[1:-1]]]
    for _ in range(8):
        apart = (border.T[:, None] - means.T[:, :, None]) ** 2
        nearest = apart.sum(axis=0).argmin(axis=0)
        means = np.array(
            [
                border[nearest == i].mean(axis=0) if np.any(nearest == i) else means[i]
                for i in range(colours)
            ]
        )
    channels = [channel.astype(np.float32) for channel in cv2.split(lab)]
    nearest = None
    for mean in means:
        apart = sum((channel - of) ** 2 for channel, of in zip(channels, mean, strict=True))
        nearest = apart if nearest is None else np.minimum(nearest, apart, out=nearest)
    return np.clip(np.sqrt(nearest), 0, 255).astype(np.uint8)


def _edge_masks(lab: np.ndarray) -> list[np.ndarray]:
    """Regions closed off by edges, at several strengths."""
    masks = []
    for low, high in ((8, 24), (20, 60), (40, 120)):
        edges = np.zeros(lab.shape[:2], np.uint8)
        for channel in cv2.split(lab):
            edges |= cv2.Canny(channel, low, high)
        for size in (3, 7):
            kernel = np.ones((size, size), np.uint8)
            thick = cv2.morphologyEx(edges, cv2.MORPH_CLOSE, kernel)
            masks.append(thick)
            masks.append(cv2.bitwise_not(cv2.dilate(thick, np.ones((3, 3), np.uint8))))
    return masks


def _without_twins(quads: np.ndarray, nearer: float = 3.0) -> np.ndarray:
    """Leave out those whose corners all lie within `nearer` px of an earlier one's."""
    kept, count = np.empty((len(quads), 8)), 0
    for corners in from_uppermost_left(quads).reshape(-1, 8):
        if not (np.abs(kept[:count] - corners).max(axis=1) <= nearer).any():
            kept[count] = corners
            count += 1
    return kept[:count].reshape(-1, 4, 2)


def from_uppermost_left(quads: np.ndarray) -> np.ndarray:
    """The same quadrilaterals [n, 4, 2], each begun at the corner of the least x + y."""
    first = quads.sum(axis=2).argmin(axis=1)
    turned = (first[:, None] + np.arange(4)) % 4
    return quads[np.arange(len(quads))[:, None], turned]
