"""Cards that were seen by a frame drawn in them, among others that were seen whole.

Artist trading cards are 2.5 x 3.5 in (common practice, no source), so that those of one
photo are of one size.
"""

from dataclasses import replace

import numpy as np
import pytest

from swapboard.photo.frames import beyond_frames
from swapboard.photo.plane import table_of
from swapboard.photo.refining import Refined

CARD, FRAME = (250, 350), (214, 306)


def box(at: int, size: tuple[int, int]) -> np.ndarray:
    half = np.array([[-1, -1], [1, -1], [1, 1], [-1, 1]]) / 2
    return half * size + (300 * at + 200, 250)


def reading(quad: np.ndarray) -> Refined:
    return Refined(quad, 0.99, 0.99, 0.0, np.ones(4), 0.0, 0.2, 0.3)


def sizes_seen(sizes: list[tuple[int, int]], sees, sure: list[bool] | None = None):
    """Width and height of the cards in a row of such sizes, and where it was looked once more."""
    quads, asked = [box(at, size) for at, size in enumerate(sizes)], []

    def look(quad: np.ndarray) -> Refined | None:
        asked.append(quad)
        return sees(quad)

    cards = beyond_frames([reading(quad) for quad in quads], sure or [True] * len(quads),
                          table_of(quads, 1600, 500), look)
    return [np.ptp(card.quad, axis=0) for card in cards], asked


def test_a_frame_is_looked_at_in_the_size_of_the_others_and_grows_if_an_edge_is_there():
    """One sure card is enough beside one frame, two beside however many."""
    for cards, frames in ((1, 1), (2, 3)):
        sizes, asked = sizes_seen([CARD] * cards + [FRAME] * frames, reading)
        assert np.allclose(sizes, CARD, atol=1) and len(asked) == frames
        assert np.allclose(asked[0], box(cards, CARD), atol=1)


def test_one_larger_place_does_not_outvote_cards_that_agree():
    """In a page it may be an empty pocket."""
    sizes, asked = sizes_seen([CARD, FRAME, FRAME, FRAME], reading)
    assert asked == [] and np.allclose(sizes[1:], FRAME)


@pytest.mark.parametrize("pockets, cards, grow", [(2, 3, False), (2, 2, False), (3, 1, True)])
def test_empty_pockets_do_not_outvote_the_cards_of_a_page(pockets, cards, grow):
    """A pocket is 2.6 × 3.6 in for a card of 2.5 × 3.5 (common practice, no source): with a border
    of one width a card has less of its proportion, and a frame drawn in one too. But of one among
    three that are larger nobody knows."""
    pocket = (269, 370)
    sizes, asked = sizes_seen([pocket] * pockets + [CARD] * cards, reading)
    assert np.allclose(sizes[pockets:], pocket if grow else CARD, atol=1)
    assert bool(asked) is grow


@pytest.mark.parametrize("others, frame, tight, grows", [
    (3, FRAME, 0.85, True), (3, FRAME, 0.75, False), (2, FRAME, 0.85, False),
    (2, FRAME, 0.92, True), (3, (238, 333), 0.85, False), (3, (238, 333), 0.92, True),
])
def test_many_others_say_as_much_as_its_edge_does(others, frame, tight, grows):
    """Where three are clearly larger, an edge at their size may be a little less sure."""
    def sees(quad: np.ndarray) -> Refined:
        return replace(reading(quad), tight=tight)

    sizes, _ = sizes_seen([CARD] * others + [frame], sees)
    assert np.allclose(sizes[-1], CARD if grows else frame, atol=1)


@pytest.mark.parametrize("sees", [
    lambda quad: None,
    lambda quad: reading(box(1, FRAME)),
    lambda quad: reading(quad + (60, 0)),
], ids=["no edge there", "the frame again", "over its neighbour"])
def test_a_smaller_card_stays_one(sees):
    sizes, _ = sizes_seen([CARD, FRAME, CARD], sees)
    assert np.allclose(sizes, [CARD, FRAME, CARD], atol=1e-6)


@pytest.mark.parametrize("sizes, sure", [
    ([CARD, CARD, CARD], None),
    ([CARD, (225, 350), (250, 325)], None),
    ([CARD, (100, 140)], None),
    ([CARD, FRAME], [False, True]),
], ids=["alike", "one side alone", "much smaller", "not sure"])
def test_what_no_sure_card_surpasses_on_all_sides_is_not_looked_at_again(sizes, sure):
    assert sizes_seen(sizes, reading, sure)[1] == []
