"""Places in a page, a grid or a scan where a card must be looked for.

Where cards of one size lie in rows and columns, every crossing of a row and a column is
either empty or holds a card of that size, edge to edge with its neighbours though it may
be: no frame drawn in one, and no two together.
"""

from itertools import product

import numpy as np

from swapboard.photo.geometry import mean_sides
from swapboard.photo.plane import Table

FEWEST = 3
"""So many cards that lie alike make rows and columns."""

ALIKE, PARALLEL = 0.05, np.radians(4)
"""How far their sides may differ, relatively, and their directions."""

ASTRAY = 0.3
"""Of a card's side: how far a card may lie off its row or column."""

APART, USUAL_STEP, TOUCHING = 0.9, 1.06, 1.012
"""Of a card's side: what rows and columns are apart at least, and as a rule; and at most where
cards lie edge to edge. (In 141 pages by other hands they are 1.02 and more.)"""


def crossings(quads: np.ndarray, table: Table) -> list[np.ndarray]:
    """Where rows and columns of the cards [n, 4, 2] px cross and none of these lies, [4, 2] px.

    Each quad begun such that its left and right sides are the longer ones. Nothing where
    the cards lie anyhow.
    """
    level = _alike(table.level(quads))
    if len(level) < FEWEST:
        return []
    axes, size, places = _laid_out(level)
    free = [
        np.array(at) for at in _crossings(places)
        if np.abs(places - at).max(axis=1).min() > ASTRAY
    ]
    half = np.array([[-1, -1], [1, -1], [1, 1], [-1, 1]]) / 2
    boxes = [((at + half) * size) @ axes for at in free]
    return list(table.seen(np.array(boxes))) if boxes else []


def edge_to_edge(quads: np.ndarray, table: Table) -> bool:
    """Whether most of the cards [n, 4, 2] px, begun like those, touch in rows and columns."""
    level = _alike(table.level(quads))
    if len(level) < max(FEWEST, len(quads) / 2):
        return False
    places = _laid_out(level)[2]
    return _touch(places) and bool(_crossings(places))


def _touch(places: np.ndarray) -> bool:
    """Whether neighbours among them mostly lie edge to edge."""
    steps = _steps(places)
    return len(steps) > 0 and float(np.median(steps)) < TOUCHING


def _steps(places: np.ndarray) -> np.ndarray:
    """How far neighbours in one row or column are apart, of a card's side, given all places
    [n, 2]."""
    apart = places - places[:, None]
    along = (apart > APART) & (apart < 1.5) & (np.abs(apart[..., ::-1]) < ASTRAY)
    return apart[along]


def _laid_out(level: np.ndarray) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Directions [2, 2] along the short and the long sides, their lengths [2], and the places
    [n, 2] of the cards in those."""
    axes = np.array(_axes(level))
    size = np.median([mean_sides(quad) for quad in level], axis=0)
    return axes, size, level.mean(axis=1) @ axes.T / size


def _crossings(places: np.ndarray) -> list[tuple[float, float]]:
    """All crossings of the rows and columns that places [n, 2] fall into; none where they lie
    anyhow."""
    columns, rows = _lines(places[:, 0]), _lines(places[:, 1])
    enough = 0 < len(columns) * len(rows) <= 2 * len(places) + 2
    return list(product(columns, rows)) if enough else []


def _alike(level: np.ndarray) -> np.ndarray:
    """Those of the quads [n, 4, 2] that share a size and a direction with the most."""
    if not len(level):
        return level
    sizes = np.log([mean_sides(quad) for quad in level])
    tops = level[:, 1] - level[:, 0] + level[:, 2] - level[:, 3]
    turns = np.arctan2(tops[:, 1], tops[:, 0])
    apart = np.abs((turns[:, None] - turns + np.pi / 2) % np.pi - np.pi / 2)
    same = (np.abs(sizes[:, None] - sizes).max(axis=2) < ALIKE) & (apart < PARALLEL)
    return level[same[int(same.sum(axis=1).argmax())]]


def _axes(level: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """The common directions along the short and along the long sides, of length 1."""
    tops = level[:, 1] - level[:, 0] + level[:, 2] - level[:, 3]
    # Cards upside down point the other way.
    tops = tops * np.sign(tops @ tops[0])[:, None]
    across = tops.sum(axis=0)
    across = across / np.linalg.norm(across)
    return across, np.array([-across[1], across[0]])


def _lines(places: np.ndarray) -> list[float]:
    """The rows or columns that places along one direction fall into; none where they do not."""
    ordered = np.sort(places)
    groups = np.split(ordered, np.nonzero(np.diff(ordered) > ASTRAY)[0] + 1)
    means = np.array([group.mean() for group in groups])
    steps = np.diff(means)
    if any(np.ptp(group) > 2 * ASTRAY for group in groups) or (steps < APART).any():
        return []
    # Between two that are far apart others may lie, in which nothing was found.
    between = np.maximum((steps / USUAL_STEP).round().astype(int), 1)
    return [
        float(mean + step * i / count)
        for mean, step, count in zip(means, steps, between, strict=False) for i in range(count)
    ] + [float(means[-1])]
