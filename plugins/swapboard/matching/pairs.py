"""Two makers, card for card: seats between which blocks of arcs run both ways."""

import numpy as np

from swapboard.matching.arcs import Arcs


def block_between(arcs: Arcs, source: np.ndarray, target: np.ndarray) -> np.ndarray:
    """The block from each source seat to each target seat, -1 where there is none."""
    if not len(arcs.block_source):
        return np.full(len(source), -1)
    most = 1 + int(max(arcs.block_source.max(), arcs.block_target.max(), source.max(initial=0),
                       target.max(initial=0)))
    keys = arcs.block_source * most + arcs.block_target
    asked = source * most + target
    at = np.minimum(np.searchsorted(keys, asked), len(keys) - 1)
    return np.where(keys[at] == asked, at, -1)


def pairs(arcs: Arcs) -> np.ndarray:
    """Every two blocks that answer each other, shape (pairs, 2), each once."""
    back = block_between(arcs, arcs.block_target, arcs.block_source)
    first = np.flatnonzero((back >= 0) & (arcs.block_source < arcs.block_target))
    return np.stack((first, back[first]), axis=1)
