"""The cards that pixels vote for.

Pixels that vote for one and the same card are gathered by the middle of their four corners, so that
cards which touch need no line between them to be told apart.
"""

import numpy as np

from swapboard.photo.mirrored import STRIDE

UNIT = 64.0
MOST = 40

LEAST_KERNEL, FAINT = 0.3, 0.12
"""A kernel pixel surer than this starts a card; a fainter one, where the card is as large as one
that is not faint: of cards alike in a photo none is overlooked."""

FEW = 2
"""So many clear ones at most: among more, the faint ones as large are a page's empty pockets."""

AS_LARGE = 0.2
"""How far, as a logarithm, cards of one size may differ in a photo."""

NEAR = 0.22
"""Of a card's size: votes whose middles lie that near are for one card."""


def gathered(maps: np.ndarray) -> np.ndarray:
    """Quadrilaterals [n, 4, 2] in px of 512, from maps [11, 128, 128]."""
    card, kernel = maps[0], maps[1]
    y, x = np.nonzero((card > 0.5) | (kernel > FAINT))
    corners, sizes = votes_of(maps, y, x)
    middles = corners.mean(axis=1)
    weight = kernel[y, x]
    free = np.ones(len(x), bool)
    found, clear = [], []
    order = np.argsort(-weight.round(6), kind="stable")
    for seed in order[weight[order] > FAINT]:
        if not free[seed] or len(found) == MOST:
            continue
        if weight[seed] > LEAST_KERNEL:
            clear.append(sizes[seed])
        elif not 0 < len(clear) <= FEW or np.abs(np.log(sizes[seed] / clear)).min() > AS_LARGE:
            continue
        apart = np.linalg.norm(middles - middles[seed], axis=1)
        alike = np.abs(np.log(sizes / sizes[seed])) < 0.35
        mates = free & alike & (apart < NEAR * sizes[seed])
        free &= ~(mates | (apart < 0.5 * NEAR * sizes[seed]))
        if mates.sum() >= 4:
            found.append(_agreed(corners[mates], weight[mates] + 0.05))
    return np.array(found).reshape(-1, 4, 2)


def votes_of(maps: np.ndarray, y: np.ndarray, x: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """The corners [n, 4, 2] in px of 512 for which n places of the maps vote, and how far [n] those
    lie from their middle."""
    here = (np.column_stack([x, y]) + 0.5) * STRIDE
    corners = maps[3:, y, x].T.reshape(-1, 4, 2) * UNIT + here[:, None]
    return corners, np.linalg.norm(corners - corners.mean(axis=1)[:, None], axis=2).mean(axis=1)


def _agreed(corners: np.ndarray, weight: np.ndarray) -> np.ndarray:
    """The weighted mean of votes, each begun at the corner nearest the surest vote's first."""
    first = corners[int(weight.argmax())]
    turns = np.stack([np.roll(corners, turn, axis=1) for turn in range(4)])
    best = np.linalg.norm(turns - first, axis=3).sum(axis=2).argmin(axis=0)
    aligned = turns[best, np.arange(len(corners))]
    middle = np.median(aligned, axis=0)
    off = np.linalg.norm(aligned - middle, axis=2).mean(axis=1)
    weight = weight * (off <= np.median(off) * 1.5 + 1e-6)
    return (aligned * weight[:, None, None]).sum(axis=0) / weight.sum()
