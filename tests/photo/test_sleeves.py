"""Sleeves: a bright rim with the table on both sides of it is no card's edge."""

import cv2
import numpy as np
import pytest

from swapboard.photo.geometry import intersection_over_union
from swapboard.photo.sleeves import has_rim, out_of_sleeves

TABLE, RIM, SHADOW, ART = (96, 88, 80), (190, 186, 180), (50, 46, 42), (40, 90, 170)


def box(wide: float, tall: float) -> np.ndarray:
    """Corners [4, 2] px of a rectangle about the picture's middle."""
    half = np.array([wide, tall]) / 2
    return (300, 400) + half * np.array([[-1, -1], [1, -1], [1, 1], [-1, 1]])


def drawn(inner: np.ndarray, outer: np.ndarray, line: tuple[int, int, int]) -> np.ndarray:
    """A table, something coloured on it, and a line about that."""
    picture = np.full((800, 600, 3), TABLE, np.uint8)
    cv2.fillConvexPoly(picture, np.round(inner).astype(np.int32), ART)
    cv2.polylines(picture, [np.round(outer).astype(np.int32)], True, line, 3, cv2.LINE_AA)
    noise = np.random.default_rng(5).normal(0, 3, picture.shape)
    return np.clip(cv2.GaussianBlur(picture, (3, 3), 0) + noise, 0, 255).astype(np.uint8)


CARD, SLEEVE = box(250, 350), box(266, 366)


def test_of_a_sleeve_the_card_in_it_is_cropped():
    """2.5 by 3.5 in with an eighth of an inch or less about it (common practice, no source)."""
    picture = drawn(CARD, SLEEVE, RIM)
    assert has_rim(picture, SLEEVE) and not has_rim(picture, CARD)
    for quads in ([SLEEVE], [CARD + (1000, 0), SLEEVE]):
        found = out_of_sleeves(picture, quads, None)
        assert intersection_over_union(found[-1], CARD) > 0.985
        assert all(one is other for one, other in zip(found[:-1], quads[:-1], strict=True))


@pytest.mark.parametrize("inner, outer, line", [
    (box(234, 334), CARD, RIM),
    (CARD, SLEEVE, SHADOW),
    (box(180, 240), CARD, RIM),
])
def test_what_is_no_rim_stays_as_it_was(inner, outer, line):
    """A card of the table's colour with a bright edge and a frame drawn in it: the outer one has a
    card's proportion; a shadow about a card; and what is drawn far within."""
    (found,) = out_of_sleeves(drawn(inner, outer, line), [outer], None)
    assert found is outer
