"""A line drawn along a card's edge, in a picture that is nothing but the card, is not its edge."""

import cv2
import numpy as np
import pytest

from swapboard.disk.finder import find_cards
from swapboard.photo.whole_frame import is_drawn

WIDE, TALL = 1000, 1400
PAPER, TABLE = (225, 216, 190), (120, 84, 60)


def ruled(inset: int, beyond: tuple[int, int, int] = PAPER) -> np.ndarray:
    """A card with a line so many px from the picture's border, and what is beyond the line."""
    picture = np.full((TALL, WIDE, 3), beyond, np.uint8)
    cv2.rectangle(picture, (inset, inset), (WIDE - inset, TALL - inset), PAPER, -1)
    cv2.rectangle(picture, (inset, inset), (WIDE - inset, TALL - inset), (40, 40, 46), 3)
    cv2.circle(picture, (520, 640), 260, (176, 58, 46), -1)
    grain = np.random.default_rng(5).normal(0, 4, picture.shape)
    return (picture + grain).clip(0, 255).astype(np.uint8)


def inner(inset: int) -> np.ndarray:
    """The line's corners [4, 2] px."""
    return np.array([[inset, inset], [WIDE - inset, inset],
                     [WIDE - inset, TALL - inset], [inset, TALL - inset]], float)


@pytest.mark.parametrize("inset", [14, 20, 30])
def test_the_same_paper_on_both_sides_of_a_line_is_one_card(inset):
    """Not so of a table beyond it, of what is drawn farther in, nor of the picture's own sides."""
    assert is_drawn(ruled(inset), inner(inset))
    assert not is_drawn(ruled(inset, TABLE), inner(inset))
    assert not is_drawn(ruled(90), inner(90))
    assert not is_drawn(ruled(inset), inner(0))


def test_a_shadow_on_one_side_makes_no_table_and_on_two_it_may_be_one():
    picture = ruled(20)
    picture[:19] //= 2
    assert is_drawn(picture, inner(20))
    picture[:, :19] //= 2
    assert not is_drawn(picture, inner(20))


def test_a_card_ruled_along_its_edge_is_cut_at_its_edge():
    """By the networks too, whose sides run along the line; with table beyond it they stay there."""
    (card,) = find_cards(ruled(18))
    assert np.abs(np.array(card.corners) - inner(0)).max() < 1 and not card.doubtful
    (card,) = find_cards(ruled(18, TABLE))
    assert np.abs(np.array(card.corners) - inner(18)).max() < 5
