"""A card in a sleeve whose rim was taken for its edge.

A sleeve is a little wider than its card, and its welded rim shines: a bright line all round with
the same table on both sides of it. A card's own edge parts the card from the table. With a border
of one width about it a card has no card's proportion any more, and that tells a rim from a card
of the table's colour with a frame drawn in it.
"""

from collections.abc import Callable
from functools import partial

import numpy as np

from swapboard.photo.geometry import overlap, signed_area
from swapboard.photo.nearby import fitted, grown
from swapboard.photo.plane import off_shape
from swapboard.photo.strips import across_sides

BRIGHTER, ALIKE = 12.0, 80.0
"""Grey levels by which a rim is brighter than what is on both sides of it, and by which those
differ at most; that tells little by itself, the proportion decides. (Of 5,800 crops of pictures by
other hands 26 have such a line on three sides: 11 sleeves, 3 empty pockets, and 12 cards.)"""

SIDES = 3
"""On so many sides at least: on one a shadow may fall, or the card reach the rim."""

INSETS, REACH, HELD = (0.012, 0.02, 0.028), 0.012, 0.85
"""So far within a rim a card's edge is looked for, and so near that, as shares of its length; and
how much of each side must show it."""

OFF, LEAST_OFF, BETTER = 0.02, 0.014, 0.008
"""How far, as a logarithm, the card's proportion may be off 7:5; how far its sleeve's is, and how
much farther, at least."""

AT = np.arange(-0.015, 0.0125, 0.001)
"""Across a side, from the table inwards, where colours are read, as shares of the card's length."""

OUTSIDE, LINE, INSIDE = AT < -0.005, np.abs(AT) < 0.0045, AT > 0.0055


def out_of_sleeves(
    picture: np.ndarray, quads: list[np.ndarray], focal: float | None
) -> list[np.ndarray]:
    """The corners [4, 2] px of each card of a picture uint8 [h, w, 3]: of the card within, where
    they were but those of a sleeve's rim; `focal` in px where known."""
    size = picture.shape[1::-1]

    def off(at: int, quad: np.ndarray) -> float:
        return off_shape(quads, at, quad, size, focal)

    return [_within(picture, quad, partial(off, at)) if has_rim(picture, quad) else quad
            for at, quad in enumerate(quads)]


def has_rim(picture: np.ndarray, quad: np.ndarray) -> bool:
    """Whether along a quadrilateral's sides [4, 2] px runs a bright line with the same on both
    sides of it, in a picture uint8 [h, w, 3]."""
    seen = across_sides(picture, quad, AT)
    outside, inside = seen[:, OUTSIDE].mean(axis=1), seen[:, INSIDE].mean(axis=1)
    line = seen[:, LINE].mean(axis=3).max(axis=1)
    brighter = line - np.maximum(outside, inside).mean(axis=2)
    unlike = np.abs(outside - inside).max(axis=2)
    rims = (np.median(brighter, axis=1) > BRIGHTER) & (np.median(unlike, axis=1) < ALIKE)
    return int(rims.sum()) >= SIDES


def _within(
    picture: np.ndarray, rim: np.ndarray, off: Callable[[np.ndarray], float]
) -> np.ndarray:
    best, was = rim, off(rim)
    if was < LEAST_OFF:
        return rim
    least = min(OFF, was - BETTER)
    for inset in INSETS:
        fit = fitted(picture, grown(rim, -inset), REACH)
        if fit is None or fit.held.min() < HELD or not _lies_in(fit.quad, rim):
            continue
        now = off(fit.quad)
        if now < least:
            best, least = fit.quad, now
    return best


def _lies_in(quad: np.ndarray, rim: np.ndarray) -> bool:
    return overlap(quad, rim) > 0.995 * abs(signed_area(quad))
