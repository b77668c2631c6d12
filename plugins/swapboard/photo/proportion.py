"""A card's true proportion from its four corners in one photograph.

Source: Zhengyou Zhang and Li-Wei He, "Whiteboard It! Convert Whiteboard
Content into an Electronic Document", Microsoft Research, 2002, sections
4.2–4.3 (also MSR-TR-2003-39): a rectangle seen by a pinhole camera with square
pixels and a known principal point gives its proportion in closed form, and
the focal length too where the view is oblique enough.
"""

from collections.abc import Sequence
from math import hypot, inf

import numpy as np

from swapboard.photo.geometry import side_lengths

Corners = Sequence[Sequence[float]]
"""Four (x, y) in ring order, as plain numbers: for so few, arrays take eight times as long."""

FULL_FRAME_DIAGONAL = 43.266615
"""mm: the diagonal of 24 × 36 mm film, to which "35 mm equivalent" refers."""

USUAL_FOCAL_LENGTH = 26.0
"""mm, 35 mm equivalent: the main camera of most phones (common practice, no source)."""

OPEN_FROM = 1.9
"""Long side over short: from there on, seen under some tilt, it may be a card that lies open."""

FRONTAL = 0.02
"""Below this much convergence of opposite sides a view counts as frontal: the
corners' own error would then decide the answer."""


def focal_in_pixels(equivalent: float, width: int, height: int) -> float:
    """Focal length in px of a picture w × h px from its 35 mm equivalent in mm."""
    return equivalent * float(np.hypot(width, height)) / FULL_FRAME_DIAGONAL


def proportion_of(
    corners: np.ndarray, width: int, height: int, focal: float | None = None
) -> float:
    """Long side over short side (≥ 1) with the perspective removed.

    `corners` [4, 2] in px, in ring order; the camera's axis is taken through
    the middle of the w × h px picture; `focal` in px, by default that of a
    usual phone. The focal length is never solved for. Near-frontal views
    (convergence under `FRONTAL`) are answered from the mean side lengths,
    which there differ from the closed form by less than the corners' error.
    """
    corners = np.asarray(corners, dtype=np.float64)
    if convergence(corners) < FRONTAL:
        return by_side_lengths(corners)
    focal = focal or focal_in_pixels(USUAL_FOCAL_LENGTH, width, height)
    around = (corners - (width / 2, height / 2)).tolist()
    across, down = _sides_in_space(around, focal)
    if not (0 < across < inf and 0 < down < inf):
        return by_side_lengths(corners)
    return max(across, down) / min(across, down)


def convergence(corners: np.ndarray) -> float:
    """How far from parallel opposite sides are: 0 for a parallelogram.

    The perspective terms of the map from the unit square, summed: about the
    relative change in length from one side to the one opposite.
    """
    k2, k3 = _depths(np.asarray(corners, dtype=np.float64).tolist())
    return abs(k2 - 1) + abs(k3 - 1)


def _depths(corners: Corners) -> tuple[float, float]:
    """k2 and k3: depth of the second and third corner relative to the first.

    The paper's m1 … m4 are top left, top right, bottom left, bottom right.
    """
    m1, m2, m4, m3 = corners
    across, down = _triple(m2, m4, m3), _triple(m3, m4, m2)
    if across == 0 or down == 0:
        return inf, inf
    return _triple(m1, m4, m3) / across, _triple(m1, m4, m2) / down


def _triple(one: Sequence[float], two: Sequence[float], three: Sequence[float]) -> float:
    """(one × two) · three of points (x, y, 1)."""
    (a, b), (c, d), (e, f) = one, two, three
    return (b - d) * e + (c - a) * f + (a * d - b * c)


def _sides_in_space(corners: Corners, focal: float) -> tuple[float, float]:
    """Side lengths in space up to one common factor; `corners` around the principal point."""
    k2, k3 = _depths(corners)
    (x1, y1), (x2, y2), _, (x3, y3) = corners
    across = hypot((k2 * x2 - x1) / focal, (k2 * y2 - y1) / focal, k2 - 1)
    down = hypot((k3 * x3 - x1) / focal, (k3 * y3 - y1) / focal, k3 - 1)
    return across, down


def by_side_lengths(corners: np.ndarray) -> float:
    """Long side over short side (≥ 1) of corners [4, 2] as they look, perspective and all."""
    top, right, bottom, left = side_lengths(corners)
    across, down = top + bottom, right + left
    return float(max(across, down) / max(min(across, down), 1e-9))
