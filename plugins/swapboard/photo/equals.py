"""Cards of one photo that are of one size, where a side of one of them could be seen two ways.

In a pocket, or beside the next card, the network may take the pocket's edge or the
neighbour's for the card's own. If most cards of a photo agree on a size, and one side
of another would have to move for it to agree too, and the network held that place
possible, then that is its side. Cards cut unequally by hand stay as they are: there
nothing else was possible.
"""

import numpy as np

from swapboard.photo.geometry import side_lengths
from swapboard.photo.plane import Table
from swapboard.photo.refining import LastLook

FEWEST = 3
"""So many cards of one size, and half of the sure ones, make a size that others are held to."""

SAME, OTHER = 0.012, 0.1
"""Relative differences of a side: less is the same size, more another kind of card."""

POSSIBLE = 0.08
"""What the network must have thought of the other place, 0–1, as a share of all places."""


def equalised(looks: list[LastLook], sure: list[bool], table: Table) -> list[np.ndarray]:
    """The quadrilaterals [4, 2] px, some with a side moved; `sure` ones decide on the size."""
    quads = [look.quad for look in looks]
    level = table.level(np.array(quads))
    sizes = np.array([_size(quad) for quad in level])
    agreed = _agreed(sizes[np.array(sure, dtype=bool)])
    if agreed is None:
        return quads
    return [
        _held_to(look, one, size, agreed, table)
        for look, one, size in zip(looks, level, sizes, strict=True)
    ]


def _size(quad: np.ndarray) -> tuple[float, float]:
    top, right, bottom, left = side_lengths(quad)
    return (top + bottom) / 2, (right + left) / 2


def _agreed(sizes: np.ndarray) -> np.ndarray | None:
    """The width and height that half of the cards share, and at least `FEWEST`."""
    if len(sizes) < FEWEST:
        return None
    off = np.abs(np.log(sizes[:, None] / sizes[None])).max(axis=2) < SAME
    most = int(off.sum(axis=1).argmax())
    alike = sizes[off[most]]
    if len(alike) < max(FEWEST, len(sizes) / 2):
        return None
    return np.median(alike, axis=0)


def _held_to(
    look: LastLook, level: np.ndarray, size: np.ndarray, agreed: np.ndarray, table: Table
) -> np.ndarray:
    off = np.log(size / agreed)
    if np.abs(off).max() > OTHER:
        return look.quad
    for axis in (0, 1):
        if abs(off[axis]) < SAME:
            continue
        tried = []
        for side in ((1, 3), (0, 2))[axis]:
            moved = _with_side_moved(level, side, float(agreed[axis]))
            seen = table.seen(moved[None])[0]
            tried.append((look.share_along(seen, side), side, moved))
        share, _, moved = max(tried, key=lambda one: one[:2])
        if share > POSSIBLE:
            level = moved
    return table.seen(level[None])[0]


def _with_side_moved(quad: np.ndarray, side: int, length: float) -> np.ndarray:
    """One side moved along the two beside it, until those are `length` long."""
    moved = quad.copy()
    for corner, anchor in ((side, side - 1), ((side + 1) % 4, (side + 2) % 4)):
        way = quad[corner] - quad[anchor]
        moved[corner] = quad[anchor] + way * (length / np.linalg.norm(way))
    return moved
