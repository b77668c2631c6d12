"""A line drawn along a card's edge, in a picture that is nothing but the card, is not its edge."""

import cv2
import numpy as np
import pytest

from swapboard.disk.finder import find_cards
from swapboard.photo import learned
from swapboard.photo.whole_frame import is_band, is_drawn

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
    """By the networks too, whose sides run along the line; with table beyond it they stay there,
    where it was left as by hand, more on one side than on another."""
    (card,) = find_cards(ruled(18))
    assert np.abs(np.array(card.corners) - inner(0)).max() < 1 and not card.doubtful
    (card,) = find_cards(ruled(18, TABLE)[14:])
    assert np.abs(np.array(card.corners) - (inner(18) - [0, 14])).max() < 5


INK = (38, 44, 78)


@pytest.mark.parametrize(("inset", "tone", "told"), [
    (24, INK, True), (40, INK, True), (24, TABLE, True), (14, INK, True), (6, INK, False),
    (24, PAPER, False), (14, PAPER, False),
])
def test_an_even_band_is_drawn_along_a_cards_edge(inset, tone, told):
    """Not so what is as narrow as a crop is exact, nor what may be a scanner's lid."""
    assert is_band(ruled(inset, tone), inner(inset)) is told


@pytest.mark.parametrize(("right", "told"), [(14, True), (22, True), (30, False)])
def test_a_narrow_band_is_as_even_as_no_sliver_of_table(right, told):
    """It may be of several tones, as where light falls on it, or corners are round."""
    picture, sides = ruled(14, INK), inner(14) - [[0, 0], [right - 14, 0], [right - 14, 0], [0, 0]]
    picture[:13] = 150
    assert is_band(picture, sides) is told


def test_what_is_wide_is_a_band_only_if_it_has_one_tone():
    picture = ruled(36, INK)
    assert is_band(picture, inner(36))
    picture[:35] = 150
    assert not is_band(picture, inner(36))


def test_what_is_left_of_a_table_differs_from_side_to_side():
    """In width, in light, or by its grain."""
    narrow = inner(30) + np.array([[0, 0], [18, 0], [18, 0], [0, 0]])
    assert not is_band(ruled(30, INK), narrow)
    shaded = ruled(30, TABLE)
    shaded[:, :29] //= 3
    assert not is_band(shaded, inner(30))
    grained = ruled(30, TABLE)
    grained[::2, :29] //= 2
    grained[1::4, :29] //= 3
    assert not is_band(grained, inner(30))


def test_a_card_with_a_band_along_its_edge_is_cut_at_its_edge():
    """By the networks too, whose sides run where the band ends."""
    (card,) = find_cards(ruled(30, INK))
    assert np.abs(np.array(card.corners) - inner(0)).max() < 1


def test_what_clearly_fills_its_picture_is_not_searched_for_cards(monkeypatch):
    """A first look is enough; a picture of another proportion is searched."""
    searched = []
    monkeypatch.setattr(learned, "see_cards", lambda *_: searched.append(1) or ([], [], None))
    (card,) = find_cards(ruled(18))
    assert np.abs(np.array(card.corners) - inner(0)).max() < 1 and not searched
    find_cards(ruled(18)[:, :900])
    assert searched
