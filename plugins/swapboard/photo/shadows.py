"""A card's own shadow, where it was taken for the card.

A dark card's shadow ends on the table in a clearer line than the card does in
its shadow. A shadow is the table again, darker by one factor in all colours,
and falls to one side: on one side of a card, or on two that meet.
"""

import cv2
import numpy as np

from swapboard.photo.geometry import is_convex, line_through, meet, side_lengths
from swapboard.photo.sides import fit_sides

WIDEST, NARROWEST = 0.036, 0.006
"""Of the card's long side: shadows wider or narrower than that are not looked for."""

HELD = 0.85
"""Of the card's own edge within the shadow, the share that must lie on one line."""

DARKER = (-1.1, -0.1)
"""Logarithms of a shadow's brightness beside the table's."""

ONE_FACTOR = 0.22
"""How far, as logarithms, a shadow's colours may be off one factor for all three."""

CLEAR = 14.0
"""Grey levels between the shadow and the card within it."""

ACROSS = np.linspace(0.12, 0.88, 48)


def without_shadow(picture: np.ndarray, quad: np.ndarray) -> np.ndarray:
    """The quadrilateral [4, 2] px, clockwise, without the card's shadow along one or two sides."""
    long = float(side_lengths(quad).max())
    reach = (WIDEST - NARROWEST) / 2 * long
    inset = _moved_in(quad, NARROWEST * long + reach)
    fit = None if inset is None or reach < 2 else fit_sides(picture, inset, (reach,))
    if fit is None:
        return quad
    shaded = [
        fit.held[side] > HELD and _is_shadow(picture, quad, fit.quad, side, long)
        for side in range(4)
    ]
    if not any(shaded) or (shaded[0] and shaded[2]) or (shaded[1] and shaded[3]):
        return quad
    lines = [
        line_through(one[side], one[(side + 1) % 4])
        for side, one in enumerate(fit.quad if dark else quad for dark in shaded)
    ]
    moved = meet(np.array(lines))
    return quad if moved is None or not is_convex(moved) else moved


def _moved_in(quad: np.ndarray, by: float) -> np.ndarray | None:
    lines = np.array([line_through(quad[i], quad[(i + 1) % 4]) for i in range(4)])
    lines[:, 2] -= by
    moved = meet(lines)
    return None if moved is None or not is_convex(moved) else moved


def _is_shadow(
    picture: np.ndarray, outer: np.ndarray, inner: np.ndarray, side: int, long: float
) -> bool:
    """Whether what lies between two quads' sides is the table darkened, and no card."""
    far = outer[side] + ACROSS[:, None] * (outer[(side + 1) % 4] - outer[side])
    near = inner[side] + ACROSS[:, None] * (inner[(side + 1) % 4] - inner[side])
    width = np.linalg.norm(near - far, axis=1)
    if not NARROWEST * long < np.median(width) < WIDEST * long:
        return False
    table, shadow, card = (
        _colours(picture, far + share * (near - far)) for share in (-0.6, 0.55, 1.6))
    darker = np.median(np.log((shadow + 4) / (table + 4)), axis=0)
    clear = np.linalg.norm(np.median(card - shadow, axis=0))
    one_factor = float(darker.max() - darker.min()) < ONE_FACTOR
    return bool(one_factor and DARKER[0] < darker.mean() < DARKER[1] and clear > CLEAR)


def _colours(picture: np.ndarray, points: np.ndarray) -> np.ndarray:
    at = (points[None] - 0.5).astype(np.float32)
    return cv2.remap(picture, at, None, cv2.INTER_LINEAR,
                     borderMode=cv2.BORDER_REPLICATE)[0].astype(np.float64)
