"""Two halves that meet exactly are one card that lies open.

Cards laid side by side by hand leave a gap, a step or a turn; the panels of a folded card
share their edge. Only where nothing else lies in the picture: in a grid, a page or a scan
cards are pushed together.
"""

from collections.abc import Sequence

import numpy as np

from swapboard.photo.geometry import side_lengths

MEET = 0.02
"""How far the ends of two sides may be apart, as a share of a side's length, to be one edge."""


def open_pair(quads: Sequence[np.ndarray]) -> np.ndarray | None:
    """The four outer corners [4, 2] px, clockwise, where two quads [4, 2] share an edge.

    None where there are not exactly two, or where they do not meet.
    """
    if len(quads) != 2:
        return None
    one, other = quads
    gaps = {
        (i, j): _gap(np.roll(one, -i, axis=0), np.roll(other, -j, axis=0))
        for i in range(4) for j in range(4)
    }
    i, j = min(gaps, key=lambda sides: gaps[sides])
    if gaps[i, j] > MEET:
        return None
    one, other = np.roll(one, -i, axis=0), np.roll(other, -j, axis=0)
    return np.array([one[2], one[3], other[2], other[3]])


def _gap(one: np.ndarray, other: np.ndarray) -> float:
    """How far the first side of one is from the first of the other, run the other way."""
    apart = np.linalg.norm(one[:2] - other[1::-1], axis=1).max()
    return float(apart / side_lengths(one)[0])
