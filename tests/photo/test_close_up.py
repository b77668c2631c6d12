"""Photographs that a card fills but for a little table all round."""

import numpy as np
import pytest

from photo.scenes import scene
from swapboard.disk.finder import find_cards
from swapboard.photo.geometry import intersection_over_union
from swapboard.photo.verdict import UNCLEAR


def close_up(kind: str, seed: int) -> tuple[np.ndarray, np.ndarray]:
    """A photograph of 4:3 with a card [4, 2] px that leaves a twentieth of it at its sides."""
    made = scene(kind, seed, size=(1600, 1200))
    (quad,) = made.quads
    low, high = quad.min(axis=0), quad.max(axis=0)
    size = (high - low) * 1.1
    size = np.maximum(size, size[::-1] * 3 / 4)
    start = np.clip((low + high - size) / 2, 0, np.array(made.picture.shape[1::-1]) - size)
    left, top = np.maximum(start, 0).round().astype(int)
    right, bottom = (start + size).round().astype(int)
    return np.ascontiguousarray(made.picture[top:bottom, left:right]), quad - (left, top)


@pytest.mark.parametrize("kind", ["easy", "cloth"])
@pytest.mark.parametrize("seed", range(6))
def test_a_card_that_fills_its_photo_stands_out(kind, seed):
    """Its proportion may be in doubt, as the photo is a piece of a larger one; itself is not."""
    picture, quad = close_up(kind, seed)
    (card,) = find_cards(picture)
    assert intersection_over_union(quad, np.array(card.corners)) > 0.99
    assert UNCLEAR not in card.reasons
