"""A card whose hard shadow was taken for a part of it.

On a scanner's glass and under a lamp the shadow on one side of a card, or on two that meet, has an
edge as crisp as the card's own. But it is the table's own colour, darker by one factor all along,
and beyond it, where the card begins, lies another edge.
"""

from collections.abc import Sequence

import numpy as np

from swapboard.photo.frames import Look
from swapboard.photo.geometry import meet, side_lengths, sides_of
from swapboard.photo.refining import Refined
from swapboard.photo.strips import across_sides

AT = np.arange(-0.016, 0.0745, 0.001)
"""Across a side, from the table inwards, where colours are read, as shares of the card's length."""

WIDTHS = np.arange(0.007, 0.0675, 0.001)
"""How wide a shadow may be, likewise."""

LEAST_WIDE, WIDE = 0.008, 0.036
"""And how wide it is at least where it is widest; and from which on it may as well be a border that
is drawn on the card, or what shows of a page beside it."""

MARGIN, BEYOND = 0.0025, (0.0015, 0.006)
"""What is left out of it on either side, where edges are soft; and where the card is looked at
beyond it."""

PALE, PLAIN = 60.0, 0.15
"""Grey levels of a table on which shadows tell; and how far its brightness may spread along a side,
as a share of it."""

DARKER, ONE_FACTOR = (0.3, 0.9), 0.12
"""By which factor a shadow is darker; how far, as a logarithm, a stretch may be off it."""

EVEN, EDGE = 6.0, 12.0
"""Grey levels that a shadow's colours spread over at most, across it; and by which the card's
differ from them at least."""

MOSTLY = 0.95
"""Of the stretches along a side, so many at least must be so."""

LESS_SURE, CLEARED = (0.05, 0.2), 0.5
"""How much less sure, 0–1, the network may be of the card without its shadow: on one side, and on
two that meet, as one light throws it; and what may be left of its doubt without a wide one. (Of
five wide ones in 504 pictures by other hands two were shadows: 0.05 and 0.25 of the doubt was
left; of that in the three borders 1 and more.)"""


def out_of_shadows(
    picture: np.ndarray, quads: Sequence[np.ndarray], cards: Sequence[Refined], look: Look
) -> list[np.ndarray]:
    """The corners [4, 2] px of each card of a picture uint8 [h, w, 3], without the shadow that they
    took in, if `look` is as sure of that as it was of the card."""
    return [_without(picture, quad, card, look) for quad, card in zip(quads, cards, strict=True)]


def _without(
    picture: np.ndarray, quad: np.ndarray, card: Refined, look: Look
) -> np.ndarray:
    widths = shadow_widths(picture, quad)
    if widths.max() < LEAST_WIDE or min(widths[0], widths[2]) > 0 or min(widths[1], widths[3]) > 0:
        return quad
    inner = _inset(quad, widths * float(side_lengths(quad).max()))
    seen = None if inner is None else look(inner)
    least = card.tight - LESS_SURE[int((widths > 0).sum()) - 1]
    if widths.max() > WIDE:
        least = 1 - CLEARED * (1 - card.tight)
    return quad if seen is None or seen.tight < least else inner


def shadow_widths(picture: np.ndarray, quad: np.ndarray) -> np.ndarray:
    """How wide [4] the shadow is within each side of a quadrilateral [4, 2] px, as a share of its
    length; 0 where there is none."""
    return np.array([_width(side) for side in across_sides(picture, quad, AT)])


def _width(side: np.ndarray) -> float:
    """Of the colours [len(AT), 8, 3] across a side: the width at which the card's edge is clearest
    among those at which all before it is a shadow on the table."""
    table = side[_between(AT[0], -2 * MARGIN)].mean(axis=0)
    bright = table.mean(axis=1)
    if np.median(bright) < PALE or bright.std() > PLAIN * bright.mean():
        return 0.0
    clearest, found = 0.0, 0.0
    means, spreads = _to_each_width(side)
    for at in np.flatnonzero(_are_shadows(means, spreads, table)):
        width = WIDTHS[at]
        beyond = side[_between(width + BEYOND[0], width + BEYOND[1])].mean(axis=0)
        if (np.abs(beyond - means[at]).max(axis=1) > EDGE).mean() < MOSTLY:
            continue
        before, after = (side[np.abs(AT - width - step).argmin()] for step in (-0.0015, 0.0015))
        clear = float(np.median(np.abs(after - before).max(axis=1)))
        if clear > clearest:
            clearest, found = clear, float(width)
    return found


def _between(low: float, high: float) -> slice:
    """Which of `AT` lie between two places."""
    return slice(*np.searchsorted(AT, (low, high)))


def _to_each_width(side: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Of colours [len(AT), 8, 3] the means and spreads [len(WIDTHS), 8, 3] from a side to each of
    `WIDTHS`, without what is soft at either end."""
    first = np.searchsorted(AT, MARGIN)
    counts = np.searchsorted(AT, WIDTHS - MARGIN) - first
    within = side[first : first + counts.max()]
    sums, squares = (np.cumsum(one, axis=0)[counts - 1] / counts[:, None, None]
                     for one in (within, within**2))
    return sums, np.sqrt(np.maximum(squares - sums**2, 0))


def _are_shadows(means: np.ndarray, spreads: np.ndarray, table: np.ndarray) -> np.ndarray:
    """Whether colours of such means and spreads [n, 8, 3] are a table's [8, 3] under one shadow,
    bool [n]."""
    factors = (means + 2) / (table + 2)
    factor = np.median(factors, axis=(1, 2))
    darker = (DARKER[0] < factor) & (factor < DARKER[1])
    off = np.abs(np.log(factors / factor[:, None, None])).max(axis=2)
    even = np.median(spreads.max(axis=2), axis=1) <= EVEN
    return darker & even & ((off < ONE_FACTOR).mean(axis=1) >= MOSTLY)


def _inset(quad: np.ndarray, widths: np.ndarray) -> np.ndarray | None:
    """The quadrilateral with each side moved inwards by its width [4] in px."""
    return meet(sides_of(quad) - np.column_stack([0 * widths, 0 * widths, widths]))
