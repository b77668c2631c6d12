"""The network that sees a place closely, and from farther away what lies about it."""

import numpy as np
import pytest

from photo.pages import page
from swapboard.disk.finder import networks
from swapboard.photo.networks import VIEW, Networks
from swapboard.photo.warps import Pyramid
from swapboard.photo.witness import witnessed

CARD = np.array([[400, 300], [500, 300], [500, 440], [400, 440]], float)


class Witness:
    """Stands in for the network: keeps what it is shown, and answers as it is told to."""

    def __init__(self, *odds: float) -> None:
        self.shown: list[np.ndarray] = []
        self.odds = list(odds)

    def setInput(self, seen: np.ndarray) -> None:
        self.shown.append(seen[0])

    def forward(self, _: str) -> np.ndarray:
        return np.array([[self.odds.pop(0), 0.0]])


def test_it_is_shown_the_card_closely_and_then_with_its_neighbours():
    """A fifth of its size about it, then as much as it is itself on each side; both ways up."""
    picture = np.zeros((800, 1000, 3), np.uint8)
    picture[300:440, 400:500] = (255, 0, 0)
    picture[150:295, 400:500] = (0, 255, 0)
    witness = Witness(2.0, 4.0)
    share = witnessed(Pyramid(picture), (1000, 800), CARD, Networks(None, None, witness, None))
    assert share == pytest.approx(1 / (1 + np.exp(-3)), abs=1e-6)
    upright, over = witness.shown
    assert upright.shape == (8, VIEW[1], VIEW[0])
    red, green = upright[[0, 4]], upright[[1, 5]]
    near, far = 140 * 196, 300 * 420
    assert red.mean(axis=(1, 2)) == pytest.approx([14000 / near, 14000 / far], rel=0.01)
    # Of the card above, 23 px are near, and 135 far.
    assert green.mean(axis=(1, 2)) == pytest.approx([2300 / near, 13500 / far], rel=0.01)
    assert upright[[3, 7]].min() == 1
    assert np.array_equal(over, upright[:, ::-1, ::-1])


def test_what_lies_beyond_the_frame_is_marked():
    """Its far view of a card in a corner leaves the picture; the near one does not."""
    witness = Witness(0.0, 0.0)
    witnessed(Pyramid(np.zeros((800, 1000, 3), np.uint8)), (1000, 800), CARD - (360, 250),
              Networks(None, None, witness, None))
    near, far = witness.shown[0][[3, 7]]
    assert near.min() == 1
    assert far[0, 0] == 0 and far[-1, -1] == 1


@pytest.mark.parametrize("seed", range(4))
def test_of_a_pages_pockets_it_tells_the_full_from_the_empty(seed):
    """Each card is likelier than not, and no empty pocket is."""
    drawn = page(seed, cards=5)
    size = drawn.picture.shape[1::-1]
    pyramid = Pyramid(drawn.picture)
    full, empty = ([witnessed(pyramid, size, quad, networks()) for quad in quads]
                   for quads in (drawn.quads, drawn.empty))
    assert len(full) == 5 and len(empty) == 4
    assert min(full) > 0.5 > max(empty)
