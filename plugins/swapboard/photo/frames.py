"""Cards seen by a frame drawn in them, where others tell how large a card is.

A frame in the art has crisper sides than a card in a pocket or on paper of its own colour.
But cards of one picture are mostly of one size: where sure ones are larger on all sides,
the smaller is looked at once more at that size, and is that large if its edge is there.
"""

from collections.abc import Callable, Sequence

import numpy as np

from swapboard.photo.geometry import mean_sides, overlap, signed_area
from swapboard.photo.plane import Table
from swapboard.photo.rating import CARD_PROPORTION
from swapboard.photo.readings import SURE
from swapboard.photo.refining import Refined

LARGER = (0.02, 0.25)
"""How much larger both sides of a card are, relatively, than its frame, at least and most."""

THERE = 0.03
"""A relative difference of sides: an edge was found where the others' size has it."""

SAY_SIZE = 2
"""So many larger ones are believed against more of its own size: one may be an empty pocket."""

MANY, CLEARLY, LESS_SURE = 3, 0.06, 0.8
"""So many others, and larger by so much relatively: they say as much as its edge itself does, of
which less is asked then."""

SKEWED = 0.004
"""As a logarithm: how much farther off a card's proportion no more larger ones are than those of
its own size. With a border of one width all round it is farther off: those are pockets."""

Look = Callable[[np.ndarray], Refined | None]
"""Straightens what is about a quadrilateral [4, 2] px; None where that is no card."""


def beyond_frames(
    cards: Sequence[Refined], sure: Sequence[bool], table: Table, look: Look
) -> list[Refined]:
    """The cards, some as what `look` finds about them at the size of others; `sure` ones say how
    large a card is."""
    level = table.level(np.array([card.quad for card in cards]))
    sizes = np.array([mean_sides(quad) for quad in level])
    known = sizes[np.array(sure, dtype=bool)]
    seen = list(cards)
    for at, card in enumerate(cards):
        more = np.log(known / sizes[at])
        larger = known[(more.min(axis=1) > LARGER[0]) & (more.max(axis=1) < LARGER[1])]
        alike = (np.abs(more).max(axis=1) < THERE).sum() - bool(sure[at])
        if not len(larger) or len(larger) < min(SAY_SIZE, alike):
            continue
        size = np.median(larger, axis=0)
        if len(larger) <= alike + 1 and off_proportion(size) > off_proportion(sizes[at]) + SKEWED:
            continue
        about = look(table.seen(_resized(level[at], size / sizes[at])[None])[0])
        others = [other.quad for other in cards if other is not card]
        clear = len(larger) >= MANY and np.log(size / sizes[at]).min() > CLEARLY
        least = LESS_SURE if clear else SURE
        if about is None or min(about.tight, about.loose) < least:
            continue
        if _is_so_large(about, size, table) and is_free(about, others):
            seen[at] = about
    return seen


def off_proportion(size: np.ndarray) -> float:
    """How far a size [2] is off a card's proportion, as a logarithm."""
    return abs(float(np.log(size.max() / size.min() / CARD_PROPORTION)))


def _resized(quad: np.ndarray, times: np.ndarray) -> np.ndarray:
    """A level quad [4, 2] so many times as wide and as high, about its middle."""
    middle, top, left = quad.mean(axis=0), quad[1] - quad[0], quad[3] - quad[0]
    axes = np.array([top + quad[2] - quad[3], left + quad[2] - quad[1]]).T / 2
    shares = np.linalg.solve(axes, (quad - middle).T)
    return middle + (axes @ (shares * times[:, None])).T


def _is_so_large(card: Refined, size: np.ndarray, table: Table) -> bool:
    found = mean_sides(table.level(card.quad[None])[0])
    return bool(np.abs(np.log(found / size)).max() < THERE)


def is_free(card: Refined, others: list[np.ndarray]) -> bool:
    """Whether it covers next to nothing of the others."""
    return all(overlap(card.quad, other) < THERE * abs(signed_area(other)) for other in others)
