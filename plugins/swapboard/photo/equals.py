"""Cards of one photo that are of one size, where a side of one of them could be seen two ways.

In a pocket, or beside the next card, the network may take the pocket's edge or the
neighbour's for the card's own, or a frame drawn in it. If most cards of a photo agree on a
size, the side of another that the network is least sure of is moved until it agrees too;
both of two of which it is as sure. Cards cut unequally by hand stay as they are: there the
network is sure of every side. But what falls short of the others by one margin all round
is a frame on a card of theirs.
"""

import numpy as np

from swapboard.photo.frames import off_proportion
from swapboard.photo.geometry import mean_sides, overlap
from swapboard.photo.plane import Table
from swapboard.photo.refining import LastLook

FEWEST = 3
"""So many cards of one size, and half of the sure ones, make a size that others are held to."""

AGREED, SAME, OTHER = 0.018, 0.012, 0.2
"""Relative differences of a side: cards of one size; one size, seen well; another kind of card."""

SURE, SURE_ALONE = (0.94, 0.97), (0.85, 0.85)
"""How sure the network must be of a side, 0–1, for it to stay, left and right and top and bottom
(of those it is never surer than by 0.96 and 0.98); of one of a card that lies alone."""

BESIDE = 0.15
"""Of a card's sides: how near another card must be for their sides to be mixed up."""

AS_SURE = 0.05
"""A difference in that which says nothing."""

NEARLY = 0.6
"""Of the cards that agree on a size: so many that agree on one all round larger outvote them,
where theirs are frames drawn on such."""

EVEN, DRAWN_IN = 0.03, 0.02
"""Of the card's short side: how far the margins about a drawn frame differ, and how wide both
together are at least; what is less is a shadow on one of them."""

CLEAR, NORMAL = 2.5, 1.48
"""So many standard deviations of the others' sizes a frame falls short of them, where cards of one
size seem to differ: the table is tilted a little otherwise. And one is so many median ones."""


def equalised(looks: list[LastLook], sure: list[bool], table: Table) -> list[np.ndarray]:
    """The quadrilaterals [4, 2] px, some with a side moved; `sure` ones decide on the size."""
    quads = [look.quad for look in looks]
    level = table.level(np.array(quads))
    sizes = np.array([mean_sides(quad) for quad in level])
    known = np.array(sure, dtype=bool)
    agreed = _agreed(sizes[known])
    if agreed is None:
        return quads
    short = CLEAR * _scatter(sizes[known], agreed)
    held = []
    for at, (look, one, size) in enumerate(zip(looks, level, sizes, strict=True)):
        framed = _even(agreed - size, agreed) and (np.abs(np.log(size / agreed)) > short).all()
        least = SURE if _has_neighbour(level, at) else SURE_ALONE
        held.append(_held_to(look, one, size, agreed, None if framed else least, table))
    return held


def _has_neighbour(level: np.ndarray, at: int) -> bool:
    middle = level[at].mean(axis=0)
    about = middle + (level[at] - middle) * (1 + 2 * BESIDE)
    return any(overlap(about, other) > 0 for i, other in enumerate(level) if i != at)


def _agreed(sizes: np.ndarray) -> np.ndarray | None:
    """The width and height that half of the cards share, and at least `FEWEST`."""
    if len(sizes) < FEWEST:
        return None
    off = np.abs(np.log(sizes[:, None] / sizes[None])).max(axis=2) < AGREED
    groups = sorted((sizes[alike] for alike in off), key=len, reverse=True)
    if len(groups[0]) < max(FEWEST, len(sizes) / 2):
        return None
    size = np.median(groups[0], axis=0)
    for wider in groups:
        if len(wider) >= max(FEWEST, NEARLY * len(groups[0])):
            agreed = np.median(wider, axis=0)
            if _frames_of(size, agreed):
                return agreed
    return size


def _frames_of(size: np.ndarray, wider: np.ndarray) -> bool:
    """Whether frames of a size are drawn on cards of the other: even margins, which leave less of
    the card's own proportion."""
    return _even(wider - size, wider) and off_proportion(wider) < off_proportion(size)


def _even(short: np.ndarray, agreed: np.ndarray) -> bool:
    """Whether a card falls short of the size agreed on by one margin all round."""
    return bool(short.min() > DRAWN_IN * agreed.min() and np.ptp(short) < EVEN * agreed.min())


def _scatter(sizes: np.ndarray, agreed: np.ndarray) -> np.ndarray:
    """The standard deviations [2] of sizes [n, 2] about the one agreed on, as logarithms; what may
    be frames aside."""
    others = sizes[[not _even(agreed - size, agreed) for size in sizes]]
    return NORMAL * np.median(np.abs(np.log(others / agreed)), axis=0)


def _held_to(
    look: LastLook, level: np.ndarray, size: np.ndarray, agreed: np.ndarray,
    sure: tuple[float, float] | None, table: Table,
) -> np.ndarray:
    """Sides less `sure` than that, long ones and short ones, moved to the size agreed on; all of
    them alike where it is None."""
    off = np.log(size / agreed)
    if np.abs(off).max() > OTHER or _frames_of(agreed, size):
        return look.quad
    for axis in (0, 1):
        if abs(off[axis]) < SAME:
            continue
        one, other = ((1, 3), (0, 2))[axis]
        shares = look.share_along(look.quad, one), look.share_along(look.quad, other)
        if sure is not None and min(shares) > sure[axis]:
            continue
        if sure is None or abs(shares[0] - shares[1]) < AS_SURE:
            level = _with_side_moved(level, one, float(agreed[axis] + size[axis]) / 2)
            level = _with_side_moved(level, other, float(agreed[axis]))
        else:
            level = _with_side_moved(level, min(zip(shares, (one, other), strict=True))[1],
                                     float(agreed[axis]))
    return table.seen(level[None])[0]


def _with_side_moved(quad: np.ndarray, side: int, length: float) -> np.ndarray:
    """One side moved along the two beside it, until those are `length` long."""
    moved = quad.copy()
    for corner, anchor in ((side, side - 1), ((side + 1) % 4, (side + 2) % 4)):
        way = quad[corner] - quad[anchor]
        moved[corner] = quad[anchor] + way * (length / np.linalg.norm(way))
    return moved
