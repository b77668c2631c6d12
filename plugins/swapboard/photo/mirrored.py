"""The proposer's maps of a picture seen as it is and in a mirror.

What it says of a card depends a little on which way round it sees it; where nothing but the
picture as a whole tells cards from their panels, or a page's rows from its columns, even much.
"""

import numpy as np

from swapboard.photo.networks import Networks

STRIDE = 4
"""px of 512 for one of the maps."""

AGREED = 0.3
"""Of how far a card's corners lie from its middle: two looks that differ less see one card."""


def both_ways(seen: np.ndarray, wide: int, networks: Networks) -> np.ndarray:
    """Maps [11, 128, 128], as `Networks.maps` tells them, of a picture uint8 [512, 512, 3] whose
    first `wide` columns are filled: the shares averaged, and so are the ways to the corners where
    both looks see one card; where they do not, those of the look that is surer of its middle."""
    cells = -(-wide // STRIDE)
    one = networks.maps(seen)
    mirrored = seen.copy()
    mirrored[:, : cells * STRIDE] = seen[:, : cells * STRIDE][:, ::-1]
    other = networks.maps(mirrored)
    other[:, :, :cells] = other[:, :, :cells][:, :, ::-1].copy()
    ways = one[3:].reshape(4, 2, *one.shape[1:])
    others = _as_begun(_turned_back(other[3:].reshape(ways.shape)), ways)
    reach = np.abs(ways - ways.mean(axis=0)).max(axis=(0, 1))
    agreed = np.abs(ways - others).max(axis=(0, 1)) < AGREED * reach
    surer = np.where(other[1] > one[1], others, ways)
    ways = np.where(agreed, (ways + others) / 2, surer)
    return np.concatenate([(one[:3] + other[:3]) / 2, ways.reshape(8, *one.shape[1:])])


def _turned_back(ways: np.ndarray) -> np.ndarray:
    """Ways [4, 2, h, w] to a mirrored card's corners as those to the card's own, clockwise."""
    back = ways[[1, 0, 3, 2]].copy()
    back[:, 0] *= -1
    return back


def _as_begun(ways: np.ndarray, others: np.ndarray) -> np.ndarray:
    """Ways [4, 2, h, w] begun, in each place, at the corner that makes them most like others."""
    turns = np.stack([np.roll(ways, turn, axis=0) for turn in range(4)])
    best = np.abs(turns - others).sum(axis=(1, 2)).argmin(axis=0)
    return np.take_along_axis(turns, best[None, None, None], axis=0)[0]
