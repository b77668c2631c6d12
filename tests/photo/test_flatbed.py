"""What lies on a scanner's glass, and what on a table."""

import cv2
import numpy as np
import pytest

from swapboard.photo.flatbed import is_scanned


def glass(*cards: tuple[int, int, int], lid: int = 245) -> tuple[np.ndarray, list[np.ndarray]]:
    """A scan at 200 px an inch of cards of some grey, left and top in px, and their corners."""
    rng = np.random.default_rng(7)
    picture = np.full((1600, 1200, 3), lid, np.float64)
    quads = []
    for left, top, grey in cards:
        picture[top : top + 700, left : left + 500] = grey
        quads.append(np.array([[left, top], [left + 500, top], [left + 500, top + 700],
                               [left, top + 700]], float))
    picture += rng.normal(0, 2, picture.shape)
    return picture.clip(0, 255).astype(np.uint8), quads


@pytest.mark.parametrize("lid, grey", [(245, 120), (15, 160)])
def test_cards_under_a_white_lid_and_a_black_one_were_scanned(lid, grey):
    """Whatever lies beside them."""
    picture, quads = glass((60, 60, grey), (640, 60, grey), (60, 830, grey), lid=lid)
    assert all(is_scanned(picture, quad) for quad in quads)


@pytest.mark.parametrize("worn, scanned", [(18, True), (30, False)])
def test_a_lid_may_be_a_little_worn(worn, scanned):
    """Not quite one grey from place to place: by so many levels."""
    picture, (quad,) = glass((340, 430, 120), lid=200)
    shade = np.linspace(-worn / 2, worn / 2, picture.shape[0])[:, None, None]
    assert is_scanned((picture + shade).clip(0, 255).astype(np.uint8), quad) is scanned


def test_what_lies_on_a_table_or_tilted_was_photographed():
    """A table has a colour; and no hand holds a camera quite straight."""
    picture, (quad,) = glass((340, 430, 120))
    assert is_scanned(picture, quad)
    assert not is_scanned(cv2.multiply(picture, (1.0, 0.8, 0.6, 0.0)), quad)
    tilted = quad + [[0, 0], [0, 0], [9, 0], [-9, 0]]
    assert not is_scanned(picture, tilted)


def test_of_two_cards_on_glass_each_says_how_square_it_lies():
    """Both together may not be, where one has slid a little."""
    picture, (one, other) = glass((340, 430, 120), (845, 438, 150))
    whole = np.array([one[0], other[1] + [0, 20], other[2], one[3] - [0, 12]])
    assert is_scanned(picture, whole, (one, other)) and not is_scanned(picture, whole)
    slanted = other + [[0, 0], [0, 0], [9, 0], [-9, 0]]
    assert not is_scanned(picture, whole, (one, slanted))
