"""Sleeves: a bright rim with the table on both sides of it is no card's edge."""

import cv2
import numpy as np
import pytest

from swapboard.disk.finder import find_cards
from swapboard.photo.geometry import intersection_over_union
from swapboard.photo.sleeves import has_rim, out_of_sleeves

TABLE, RIM, SHADOW, ART = (96, 88, 80), (190, 186, 180), (50, 46, 42), (40, 90, 170)


def box(wide: float, tall: float) -> np.ndarray:
    """Corners [4, 2] px of a rectangle about the picture's middle."""
    half = np.array([wide, tall]) / 2
    return (300, 400) + half * np.array([[-1, -1], [1, -1], [1, 1], [-1, 1]])


def drawn(
    inner: np.ndarray, outer: np.ndarray, line: tuple[int, int, int], wide: int = 3
) -> np.ndarray:
    """A table, something coloured on it, and a line about that, so many px wide."""
    picture = np.full((800, 600, 3), TABLE, np.uint8)
    cv2.fillConvexPoly(picture, np.round(inner).astype(np.int32), ART)
    cv2.polylines(picture, [np.round(outer).astype(np.int32)], True, line, wide, cv2.LINE_AA)
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
    (box(180, 240), SLEEVE, RIM),
])
def test_what_is_no_rim_stays_as_it_was(inner, outer, line):
    """A card of the table's colour with a bright edge and a frame drawn in it: the outer one has a
    card's proportion; a shadow about a card; and what lies far within."""
    (found,) = out_of_sleeves(drawn(inner, outer, line), [outer], None)
    assert found is outer


def test_a_bright_edge_of_dark_art_is_no_rim():
    """On both sides of a rim lies the table, and not art of another colour."""
    assert has_rim(drawn(CARD, SLEEVE, RIM), SLEEVE)
    assert not has_rim(drawn(box(264, 364), SLEEVE, RIM), SLEEVE)


@pytest.mark.parametrize("gap", [6, 8, 10])
def test_a_card_out_of_its_sleeve_is_not_in_doubt_for_that(gap):
    """Whatever the sleeve's width."""
    picture = drawn(CARD, box(250 + 2 * gap, 350 + 2 * gap), RIM, wide=1)
    for at, colour in enumerate(((230, 220, 90), (220, 80, 60), (90, 190, 120))):
        cv2.circle(picture, (250 + 50 * at, 330 + 70 * at), 40, colour, -1, cv2.LINE_AA)
    (card,) = find_cards(picture)
    assert intersection_over_union(np.array(card.corners), CARD) > 0.985
    assert not card.doubtful
