"""A card's true proportion from its four corners in one photograph.

Source: Zhengyou Zhang and Li-Wei He, "Whiteboard It! Convert Whiteboard
Content into an Electronic Document", Microsoft Research, 2002, sections
4.2–4.3 (also MSR-TR-2003-39): a rectangle seen by a pinhole camera with square
pixels and a known principal point gives its proportion in closed form, and
the focal length too where the view is oblique enough.
"""

import numpy as np

from swapboard.photo.geometry import side_lengths

FULL_FRAME_DIAGONAL = 43.266615
"""mm: the diagonal of 24 × 36 mm film, to which "35 mm equivalent" refers."""

USUAL_FOCAL_LENGTH = 26.0
"""mm, 35 mm equivalent: the main camera of most phones (common practice, no source)."""

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
        return _by_side_lengths(corners)
    focal = focal or focal_in_pixels(USUAL_FOCAL_LENGTH, width, height)
    across, down = _sides_in_space(corners - (width / 2, height / 2), focal)
    if not (across > 0 and down > 0):
        return _by_side_lengths(corners)
    return float(max(across, down) / min(across, down))


def convergence(corners: np.ndarray) -> float:
    """How far from parallel opposite sides are: 0 for a parallelogram.

    The perspective terms of the map from the unit square, summed: about the
    relative change in length from one side to the one opposite.
    """
    k2, k3 = _depths(np.asarray(corners, dtype=np.float64))
    return float(abs(k2 - 1) + abs(k3 - 1))


def _homogeneous(corners: np.ndarray) -> tuple[np.ndarray, ...]:
    """m1 … m4 of the paper: top left, top right, bottom left, bottom right."""
    top_left, top_right, bottom_right, bottom_left = np.column_stack([corners, np.ones(4)])
    return top_left, top_right, bottom_left, bottom_right


def _depths(corners: np.ndarray) -> tuple[float, float]:
    """k2 and k3: depth of the second and third corner relative to the first."""
    m1, m2, m3, m4 = _homogeneous(corners)
    k2 = np.dot(np.cross(m1, m4), m3) / np.dot(np.cross(m2, m4), m3)
    k3 = np.dot(np.cross(m1, m4), m2) / np.dot(np.cross(m3, m4), m2)
    return float(k2), float(k3)


def _sides_in_space(corners: np.ndarray, focal: float) -> tuple[float, float]:
    """Side lengths in space up to one common factor; `corners` around the principal point."""
    m1, m2, m3, _ = _homogeneous(corners)
    k2, k3 = _depths(corners)
    weight = np.array([1 / focal, 1 / focal, 1.0])
    across = np.linalg.norm((k2 * m2 - m1) * weight)
    down = np.linalg.norm((k3 * m3 - m1) * weight)
    return float(across), float(down)


def _by_side_lengths(corners: np.ndarray) -> float:
    top, right, bottom, left = side_lengths(corners)
    across, down = top + bottom, right + left
    return float(max(across, down) / max(min(across, down), 1e-9))
