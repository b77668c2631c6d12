"""Photographs that a card fills but for a little table all round."""

import cv2
import numpy as np
import pytest

from photo.scenes import scene
from swapboard.disk.finder import find_cards, networks
from swapboard.photo.geometry import intersection_over_union
from swapboard.photo.verdict import UNCLEAR
from swapboard.photo.voting import AFAR, Glances, votes


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


@pytest.mark.parametrize("kind, seed", [
    ("easy", 1), ("cloth", 0), ("cloth", 5), ("wood", 6), ("low contrast", 7), ("low contrast", 13),
])
def test_a_card_that_fills_its_photo_stands_out(kind, seed):
    """Seen only from near each of them is doubtful or cut wrong. The proportion may be in doubt
    all the same, as these photos are pieces of larger ones."""
    picture, quad = close_up(kind, seed)
    (card,) = find_cards(picture)
    assert intersection_over_union(quad, np.array(card.corners)) > 0.98
    assert UNCLEAR not in card.reasons


@pytest.mark.parametrize("seed", [3, 6, 7])
def test_cloth_that_fills_a_photo_is_no_card(seed):
    """With a margin about it a photo of nothing but blotched cloth looks like a card on a table."""
    rng = np.random.default_rng(seed)
    tone = sum(cv2.resize(rng.normal(0, 40 / 2**i, (6 * 2**i, 6 * 2**i)), (900, 1200),
                          interpolation=cv2.INTER_CUBIC) for i in range(6))
    seen = 120 + tone[..., None] * (1, 0.8, 0.6) + rng.normal(0, 4, (1200, 900, 3))
    picture = np.clip(seen, 0, 255).astype(np.uint8)
    half = np.array([[160, 250], [740, 250], [740, 950], [160, 950]], float)
    assert votes(picture, networks(), AFAR).share_on(half) > 0.8
    assert Glances(picture, networks()).share_on(half) < 0.5
    assert all(card.doubtful for card in find_cards(picture))
