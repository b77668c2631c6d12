"""A pinhole camera over a table: the homography and the true corners.

The table is the plane z = 0 in card px, x right and y towards the maker. The
camera looks at a point of it from `tilt` degrees off the perpendicular.
"""

from dataclasses import dataclass

import numpy as np

Array = np.ndarray


@dataclass(frozen=True, slots=True)
class View:
    """How one picture is taken.

    `size` is (width, height) in px of the upright picture; `span` how many card
    px of the table the picture is wide at its middle; `tilt` in degrees, towards
    `lean` (0: the far side of the table goes away; 90: its right side); `roll`
    turns the camera about its own axis; `lens` is the focal length in mm for a
    picture whose diagonal is 43.27 mm (a 36 × 24 mm frame).
    """

    size: tuple[int, int] = (1600, 1200)
    span: float = 1900.0
    tilt: float = 8.0
    lean: float = 0.0
    roll: float = 0.0
    lens: float = 26.0


def turn_z(degrees: float) -> Array:
    """Rotation [3, 3] about the z axis."""
    c, s = np.cos(np.radians(degrees)), np.sin(np.radians(degrees))
    return np.array([[c, -s, 0], [s, c, 0], [0, 0, 1]])


def turn_x(degrees: float) -> Array:
    """Rotation [3, 3] about the x axis."""
    c, s = np.cos(np.radians(degrees)), np.sin(np.radians(degrees))
    return np.array([[1, 0, 0], [0, c, -s], [0, s, c]])


def homography(view: View) -> Array:
    """The matrix [3, 3] from table to picture, with table (0, 0) in the middle of the picture.

    K [r1 r2 t] of a pinhole camera (Hartley and Zisserman, Multiple View
    Geometry, 2nd edition 2003, section 8.1).
    """
    width, height = view.size
    focal = view.lens / 43.27 * np.hypot(width, height)
    inner = np.array([[focal, 0, width / 2], [0, focal, height / 2], [0, 0, 1]])
    pose = turn_z(view.roll) @ turn_z(view.lean) @ turn_x(-view.tilt) @ turn_z(-view.lean)
    away = focal * view.span / width
    outer = np.stack([pose[:, 0], pose[:, 1], [0, 0, away]], 1)
    matrix = inner @ outer
    return matrix / matrix[2, 2]


def placed(size: tuple[int, int], centre: tuple[float, float], degrees: float) -> Array:
    """The matrix [3, 3] from a card's own px to the table: turned clockwise about its centre."""
    to_middle = np.array([[1, 0, -size[0] / 2], [0, 1, -size[1] / 2], [0, 0, 1]])
    to_place = np.array([[1, 0, centre[0]], [0, 1, centre[1]], [0, 0, 1]])
    return to_place @ turn_z(degrees) @ to_middle


def projected(matrix: Array, points) -> Array:
    """`points` [count, 2] through a homography."""
    points = np.asarray(points, float)
    lifted = np.column_stack([points, np.ones(len(points))]) @ matrix.T
    return lifted[:, :2] / lifted[:, 2:]


def for_pixels(matrix: Array, scale_from: float = 1.0, scale_to: float = 1.0) -> Array:
    """`matrix` between continuous planes as OpenCV wants it: between pixel indices,
    of arrays that have `scale_from` and `scale_to` pixels per unit of their plane."""
    before = np.array([[1 / scale_from, 0, 0.5 / scale_from], [0, 1 / scale_from, 0.5 / scale_from],
                       [0, 0, 1]])
    after = np.array([[scale_to, 0, -0.5], [0, scale_to, -0.5], [0, 0, 1]])
    return after @ matrix @ before
