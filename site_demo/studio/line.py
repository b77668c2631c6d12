"""Curves, ribbons and outlines: geometry in, points out.

Points are float arrays [count, 2] of (x, y) in card px.
"""

import numpy as np

Array = np.ndarray
Random = np.random.Generator


def curve(points, closed: bool = False, step: float = 4.0) -> Array:
    """A smooth line through `points`, about `step` px between its samples.

    Uniform Catmull–Rom spline (Catmull and Rom, 1974).
    """
    knots = np.asarray(points, float)
    if closed:
        knots = np.vstack([knots[-1], knots, knots[:2]])
    else:
        knots = np.vstack([2 * knots[0] - knots[1], knots, 2 * knots[-1] - knots[-2]])
    pieces = []
    for before, start, end, after in zip(knots, knots[1:], knots[2:], knots[3:], strict=False):
        count = max(2, int(np.hypot(*(end - start)) / step))
        t = np.linspace(0, 1, count, endpoint=False)[:, None]
        pieces.append(0.5 * (2 * start + (end - before) * t
                             + (2 * before - 5 * start + 4 * end - after) * t**2
                             + (3 * start - before - 3 * end + after) * t**3))
    if not closed:
        pieces.append(knots[-2:-1])
    return np.vstack(pieces)


def along(points, step: float, closed: bool = False) -> Array:
    """The straight-sided line through `points`, resampled every `step` px."""
    corners = np.asarray(points, float)
    if closed:
        corners = np.vstack([corners, corners[:1]])
    lengths = np.hypot(*np.diff(corners, axis=0).T)
    travelled = np.concatenate([[0], np.cumsum(lengths)])
    count = max(2, int(travelled[-1] / step) + 1)
    stops = np.linspace(0, travelled[-1], count)
    line = np.stack([np.interp(stops, travelled, corners[:, axis]) for axis in (0, 1)], 1)
    return line[:-1] if closed else line


def wobble(points: Array, amount: float, reach: float, rng: Random) -> Array:
    """`points` moved by a random drift of `amount` px that turns about every `reach` points."""
    count = len(points)
    lattice = rng.standard_normal((max(2, int(count / max(reach, 1)) + 2), 2))
    places = np.linspace(0, len(lattice) - 1, count)
    drift = np.stack([np.interp(places, np.arange(len(lattice)), lattice[:, axis])
                      for axis in (0, 1)], 1)
    return points + drift * amount


def rough(points, amount: float, step: float, rng: Random) -> Array:
    """A closed outline with an unsteady edge: resampled every `step` px, then moved."""
    outline = along(points, step, closed=True)
    shake = rng.standard_normal(outline.shape) * amount * 0.5
    drift = wobble(outline, amount, 7, rng) - outline
    fade = np.minimum(1, np.minimum(np.arange(len(outline)), np.arange(len(outline))[::-1]) / 6)
    return outline + shake + drift * fade[:, None]


def ribbon(points: Array, width, taper: tuple[float, float] = (1.0, 1.0)) -> Array:
    """The outline of a stroke along `points`: `width` px, one number or one each.

    `taper` is the share of the width left at the first and at the last point.
    """
    points = np.asarray(points, float)
    count = len(points)
    widths = np.broadcast_to(np.asarray(width, float), (count,)).copy()
    share = np.linspace(0, 1, count)
    widths *= np.minimum(1, taper[0] + (1 - taper[0]) * share * 4)
    widths *= np.minimum(1, taper[1] + (1 - taper[1]) * (1 - share) * 4)
    tangent = np.gradient(points, axis=0)
    tangent /= np.maximum(np.hypot(*tangent.T), 1e-9)[:, None]
    normal = np.stack([-tangent[:, 1], tangent[:, 0]], 1) * widths[:, None] / 2
    return np.vstack([points + normal, (points - normal)[::-1]])


def ellipse(x: float, y: float, across: float, down: float, turn: float = 0.0,
            start: float = 0.0, end: float = 360.0, count: int = 90) -> Array:
    """Points of an ellipse or arc, half-axes `across` and `down`, angles in degrees."""
    angle = np.radians(np.linspace(start, end, count, endpoint=end - start < 360))
    ring = np.stack([across * np.cos(angle), down * np.sin(angle)], 1)
    return rotated(ring, turn) + (x, y)


def rotated(points, degrees: float, about: tuple[float, float] = (0.0, 0.0)) -> Array:
    """`points` turned clockwise (y is down) by `degrees` about a point."""
    c, s = np.cos(np.radians(degrees)), np.sin(np.radians(degrees))
    return (np.asarray(points, float) - about) @ np.array([[c, s], [-s, c]]) + about


def box(left: float, top: float, right: float, bottom: float) -> Array:
    """The four corners of an upright box, clockwise from the top left."""
    return np.array([[left, top], [right, top], [right, bottom], [left, bottom]], float)


def blade(root, tip, width: float, bow: float = 0.0) -> Array:
    """A leaf or reed from `root` to `tip`, widest below its middle, bent aside by `bow` px."""
    root, tip = np.asarray(root, float), np.asarray(tip, float)
    ahead = tip - root
    side = np.array([-ahead[1], ahead[0]]) / max(np.hypot(*ahead), 1e-9)
    share = np.linspace(0, 1, 24)
    spine = root + ahead * share[:, None] + side * (bow * share**2)[:, None]
    return ribbon(spine, np.maximum(width * np.sin(np.pi * share**0.75) ** 0.8, 0.3))
