"""Two halves that meet exactly are one card that lies open.

Cards laid side by side by hand leave a gap, a step or a turn; the panels of a folded card
share their edge. Only where no other card lies in the picture: in a grid, a page or a scan
cards are pushed together.
"""

from collections.abc import Sequence
from itertools import combinations

import numpy as np

from swapboard.photo.geometry import side_lengths

MEET = 0.02
"""How far the ends of two sides may be apart, as a share of a side's length, to be one edge."""


def open_pair(
    quads: Sequence[np.ndarray], likely: Sequence[bool]
) -> tuple[int, int, np.ndarray] | None:
    """Which two of the quads [4, 2] px share an edge, and their four outer corners, clockwise.

    `likely` says which are cards as good as certainly; none of those may be left over. None
    where no two meet.
    """
    needed = {at for at, one in enumerate(likely) if one}
    pairs = [pair for pair in combinations(range(len(quads)), 2) if needed <= set(pair)]
    meetings = [(*_meeting(quads[i], quads[j]), i, j) for i, j in pairs]
    if not meetings:
        return None
    gap, one, other, i, j = min(meetings, key=lambda met: met[0])
    if gap > MEET:
        return None
    return i, j, np.array([one[2], one[3], other[2], other[3]])


def _meeting(one: np.ndarray, other: np.ndarray) -> tuple[float, np.ndarray, np.ndarray]:
    """How far two quads' nearest sides are apart, and the quads begun with those sides."""
    turned = [
        (np.roll(one, -i, axis=0), np.roll(other, -j, axis=0)) for i in range(4) for j in range(4)
    ]
    gaps = [_gap(*pair) for pair in turned]
    best = int(np.argmin(gaps))
    return gaps[best], *turned[best]


def _gap(one: np.ndarray, other: np.ndarray) -> float:
    """How far the first side of one is from the first of the other, run the other way."""
    apart = np.linalg.norm(one[:2] - other[1::-1], axis=1).max()
    return float(apart / side_lengths(one)[0])
