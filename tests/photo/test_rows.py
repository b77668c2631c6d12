"""Where cards of one size lie in rows and columns, the free crossings are looked at."""

import numpy as np
import pytest

from swapboard.photo.plane import table_of
from swapboard.photo.rows import crossings, edge_to_edge

WIDTH, HEIGHT = 1600, 1200


def card(column: float, row: float, turn: float = 0.0, step=(260, 364)) -> np.ndarray:
    """Corners [4, 2] px of a card of 250 × 350 px in a grid of such steps, turned in its place."""
    half = np.array([[-125, -175], [125, -175], [125, 175], [-125, 175]], float)
    spin = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]])
    return half @ spin.T + (200 + column * step[0], 220 + row * step[1])


def free(*quads: np.ndarray) -> list[tuple[int, int]]:
    """The middles, px, of what is to be looked at."""
    quads = np.array(quads)
    return sorted(
        tuple(quad.mean(axis=0).round().astype(int).tolist())
        for quad in crossings(quads, table_of(quads, WIDTH, HEIGHT))
    )


def near(places: list[tuple[int, int]], *wanted: np.ndarray) -> bool:
    """Whether the places are the middles of the wanted quads, to a hundredth of a card."""
    middles = sorted(tuple(quad.mean(axis=0)) for quad in wanted)
    return len(places) == len(middles) and np.allclose(places, middles, atol=3)


def test_the_fourth_corner_of_a_square_of_cards_is_looked_at():
    assert near(free(card(0, 0), card(1, 0), card(0, 1)), card(1, 1))


def test_a_page_of_three_by_three_lacks_what_it_lacks():
    """A nine-pocket page holds three rows of three (common practice, no source)."""
    full = [card(x, y) for x in range(3) for y in range(3)]
    assert free(*full) == []
    assert near(free(*full[:4], *full[5:8]), full[4], full[8])


def test_a_row_in_which_nothing_was_found_lies_between_others():
    found = [card(x, 0) for x in range(3)] + [card(x, 2) for x in range(2)]
    assert near(free(*found), card(0, 1), card(1, 1), card(2, 1), card(2, 2))


def test_cards_upside_down_or_a_little_turned_are_in_the_row_too():
    upside = np.roll(card(1, 0), 2, axis=0)
    assert near(free(card(0, 0), upside, card(0, 1, turn=0.02)), card(1, 1))


def test_cards_strewn_about_do_not_lie_edge_to_edge():
    strewn = np.array([card(0, 0), card(1.4, 0.5, 0.4), card(2.7, 1.45, 1.0), card(0.3, 1.6)])
    assert not edge_to_edge(strewn, table_of(strewn, WIDTH, HEIGHT))


def test_cards_edge_to_edge_lie_in_no_page():
    """A pocket is wider than its card, and a weld parts it from the next (common practice)."""
    block = np.array([card(x, y, step=(251, 351)) for x in range(3) for y in range(2)])
    assert edge_to_edge(block, table_of(block, WIDTH, HEIGHT))
    for page in ([card(x, y) for x in range(3) for y in range(2)],
                 [card(0, 0), card(2, 0), card(1, 1), card(0, 2)]):
        assert not edge_to_edge(np.array(page), table_of(page, WIDTH, HEIGHT))


def test_a_proposal_has_a_cards_size_and_lies_as_the_others_do():
    (quad,) = crossings(np.array([card(0, 0), card(1, 0), card(0, 1)]),
                        table_of([card(0, 0)] * 2, WIDTH, HEIGHT))
    assert np.allclose(quad, card(1, 1), atol=3)


@pytest.mark.parametrize("quads", [
    [card(0, 0), card(1, 0)],
    [card(0, 0), card(1.4, 0.5), card(2.7, 1.45), card(0.3, 1.6)],
    [card(0, 0), card(1.3, 0.2, 0.6), card(0.2, 1.4, 1.2), card(2.4, 1.2, -0.9)],
], ids=["two", "no rows", "turned anyhow"])
def test_cards_that_lie_anyhow_have_no_crossings(quads):
    assert free(*quads) == []
