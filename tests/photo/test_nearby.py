"""A card seen by a frame drawn in it is the card about the frame, where its own edge is there."""

from dataclasses import replace

import cv2
import numpy as np
import pytest

from swapboard.disk.finder import find_cards
from swapboard.photo.geometry import intersection_over_union
from swapboard.photo.nearby import on_edges, out_of_frames
from swapboard.photo.refining import Refined

TABLE, PAPER = (126, 104, 84), (130, 108, 88)
EDGE = np.array([[200, 150], [500, 150], [500, 570], [200, 570]], float)


def framed(border: float) -> tuple[np.ndarray, np.ndarray]:
    """A card on a table of nearly its own paper's colour: the picture, and the corners [4, 2] px
    of the frame drawn so far from its edge, as a share of its length."""
    picture = np.full((720, 700, 3), TABLE, np.uint8)
    cv2.rectangle(picture, (200, 150), (499, 569), PAPER, -1)
    inset = border * 420
    frame = EDGE + inset * np.array([[1, 1], [-1, 1], [-1, -1], [1, -1]])
    low, high = frame[0].round().astype(int), frame[2].round().astype(int) - 1
    cv2.rectangle(picture, low.tolist(), high.tolist(), (236, 231, 218), -1)
    cv2.circle(picture, (350, 340), 80, (60, 90, 150), -1)
    grain = np.random.default_rng(3).normal(0, 2, picture.shape)
    return (picture + grain).clip(0, 255).astype(np.uint8), frame


def seen_at(quad: np.ndarray, tight: float) -> Refined:
    return Refined(quad, tight, tight, 0.05, np.full(4, 0.98), 0.001, 0.2, 0.3)


def says(tight: float):
    """A network that sees a card, so surely, in whatever it is shown."""
    return lambda quad: seen_at(quad, tight)


@pytest.mark.parametrize("border, sureness, moves", [
    (0.03, 0.96, True), (0.05, 0.96, True), (0.07, 0.96, True), (0.05, 0.9, False),
    (0.01, 0.99, False),
])
def test_a_frame_with_the_cards_own_edge_about_it_is_no_card(border, sureness, moves):
    """Not where the network is unsure of what is about it, nor for a sleeve's rim."""
    picture, frame = framed(border)
    (card,) = out_of_frames([seen_at(frame, 0.99)], picture, says(sureness))
    assert np.abs(card.quad - (EDGE if moves else frame)).max() < 1.5


def test_what_is_surer_by_far_is_the_card_wherever_it_lies_about_it():
    """Log-odds of .7 and .97 are 2.6 apart, of .95 and .97 no more than .5; with a side shared."""
    picture, frame = framed(0.06)
    frame[[0, 3], 0] = EDGE[0, 0]
    whole = seen_at(EDGE, 0.97)
    assert out_of_frames([seen_at(frame, 0.7)], picture, lambda _: whole) == [whole]
    card = seen_at(frame, 0.95)
    assert out_of_frames([card], picture, lambda _: whole) == [card]


def test_nothing_is_drawn_out_over_another_card_or_out_of_the_picture_or_among_many():
    picture, frame = framed(0.05)
    card = seen_at(frame, 0.99)
    other = seen_at(EDGE + (288, 0), 0.99)
    assert out_of_frames([card, other], picture, says(0.96))[0] is card
    assert out_of_frames([card] * 4, picture, says(0.96)) == [card] * 4
    beyond = picture[:, 205:]
    moved = replace(card, quad=frame - (205, 0))
    assert out_of_frames([moved], beyond, says(0.96)) == [moved]


def test_a_card_that_is_not_quite_sure_moves_to_edges_only_if_it_is_surer_there():
    picture, _ = framed(0.05)
    astray = seen_at(EDGE + (3, -3), 0.9)
    assert np.abs(on_edges(astray, picture, says(0.95)).quad - EDGE).max() < 1.5
    assert on_edges(astray, picture, says(0.9)) is astray
    sure = replace(astray, tight=0.99)
    assert on_edges(sure, picture, says(0.999)) is sure


@pytest.mark.parametrize("border", [0.03, 0.05])
def test_a_card_of_its_tables_colour_is_cut_at_its_edge(border):
    """The networks take the frame for it at first."""
    picture, _ = framed(border)
    best = max(intersection_over_union(EDGE, np.array(card.corners))
               for card in find_cards(picture))
    assert best > 0.97
