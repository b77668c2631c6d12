"""What of a picture the networks have looked at closely so far, and what they made of it."""

from collections.abc import Iterable, Sequence

import numpy as np

from swapboard.photo.find import SMALLEST
from swapboard.photo.geometry import (
    intersection_over_union,
    is_convex,
    overlap,
    side_lengths,
    signed_area,
)
from swapboard.photo.networks import Networks
from swapboard.photo.pale import well_held
from swapboard.photo.readings import is_sure
from swapboard.photo.refining import Refined, refine
from swapboard.photo.warps import Pyramid
from swapboard.photo.witness import witnessed

LEAST_LOOSE = 0.5
LEAST_TIGHT = 0.1
"""What is less like a card than that is not answered, not even as doubtful."""

THERE = 0.85
"""Overlap over union with a sure card from which another look would see that."""

BARE = 0.01
"""Less likely than that, by what is about it, a card just there is not looked for. (Of 77 such
places in 660 photos by other hands none held one that was not known.)"""

LEAST_DRAWN = 0.02
"""Spread of colours, 0–1, up to which a rectangle looks blank: the light alone does that much."""


class Looks:
    """A picture uint8 [h, w, 3] sRGB, looked at place by place.

    `looked`: readings of what may be cards; `lost`: proposals [4, 2] px that came to nothing;
    `pale`: readings of what is too faint, but has sides all about it.
    """

    def __init__(self, picture: np.ndarray, networks: Networks) -> None:
        self.picture, self.pyramid = picture, Pyramid(picture)
        self.size = (picture.shape[1], picture.shape[0])
        self.networks = networks
        self.looked: list[Refined] = []
        self.pale: list[Refined] = []
        self.lost: list[np.ndarray] = []

    def look(self, quads: Iterable[np.ndarray]) -> None:
        """Look at proposals [4, 2] px, but where a sure card has been found."""
        for quad in filter(self._is_new, quads):
            refined = refine(self.pyramid, self.size, quad, self.networks)
            if refined is not None and _able(refined, self.size):
                self.looked.append(refined)
                continue
            self.lost.append(quad)
            if refined is not None and well_held(refined, self.size):
                self.pale.append(refined)

    def sure_ones(self, quads: Iterable[np.ndarray]) -> list[Refined]:
        """What surely are cards at proposals [4, 2] px, where none has been found.

        Rough ones are looked at to the end: the first round may see little of a card.
        """
        found: list[Refined] = []
        for quad in quads:
            if not self._is_new(quad, found):
                continue
            seen = self.reading(quad, least=0.0)
            if seen is not None and is_sure(seen):
                found.append(seen)
        return found

    def reading(
        self, quad: np.ndarray, rounds: int = 3, least: float = LEAST_LOOSE
    ) -> Refined | None:
        """What may be a card about a quadrilateral [4, 2] px; None where nothing may."""
        seen = refine(self.pyramid, self.size, quad, self.networks, rounds, least)
        return seen if seen is not None and _able(seen, self.size) else None

    def sure(self, quad: np.ndarray) -> Refined | None:
        """What surely is a card there; None where nothing is."""
        seen = self.reading(quad)
        return seen if seen is not None and is_sure(seen) else None

    def may_hold(self, quad: np.ndarray, least: float = BARE) -> bool:
        """Whether a card may lie just on a quadrilateral [4, 2] px, by one quick look about it."""
        return witnessed(self.pyramid, self.size, quad, self.networks) > least

    def _is_new(self, quad: np.ndarray, more: Sequence[Refined] = ()) -> bool:
        """Whether no sure card has been found where a proposal lies, and it is large enough."""
        return side_lengths(quad).min() >= SMALLEST and not any(
            one.tight > 0.9 and intersection_over_union(quad, one.quad) > THERE
            for one in (*self.looked, *more))


def _able(refined: Refined, size: tuple[int, int]) -> bool:
    quad = refined.quad
    if not is_convex(quad) or side_lengths(quad).min() < SMALLEST:
        return False
    frame = np.array([[0, 0], [size[0], 0], size, [0, size[1]]], dtype=np.float64)
    seen = overlap(quad, frame) / max(abs(signed_area(quad)), 1)
    return seen > 0.3 and refined.loose >= LEAST_LOOSE and refined.tight >= LEAST_TIGHT
