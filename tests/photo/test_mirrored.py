"""The proposer's two looks at a picture, as it is and in a mirror, made one."""

import numpy as np
import pytest

from swapboard.photo.mirrored import STRIDE, both_ways

CELLS = 128


def box(left: float, top: float, right: float, bottom: float) -> np.ndarray:
    """Corners [4, 2] px of 512, clockwise from the top left."""
    return np.array([[left, top], [right, top], [right, bottom], [left, bottom]], float)


def maps_of(card: np.ndarray, where: np.ndarray, kernel: float = 0.9, turn: int = 0) -> np.ndarray:
    """Maps [11, 128, 128] on which all places [128, 128] vote for one card [4, 2] px."""
    maps = np.zeros((11, CELLS, CELLS), np.float32)
    maps[0], maps[1] = where, where * kernel
    at = (np.stack(np.meshgrid(np.arange(CELLS), np.arange(CELLS)), axis=-1) + 0.5) * STRIDE
    ways = (np.roll(card, turn, axis=0)[:, :, None, None] - at.transpose(2, 0, 1)) / 64
    maps[3:] = ways.reshape(8, CELLS, CELLS)
    return maps


class Told:
    """A proposer that answers what it was told to, of a picture and then of that in a mirror."""

    def __init__(self, *answers: np.ndarray) -> None:
        self.answers, self.asked = list(answers), []

    def maps(self, picture: np.ndarray) -> np.ndarray:
        """The next answer."""
        self.asked.append(picture.copy())
        return self.answers.pop(0)


CARD, LEFT = box(40, 80, 140, 220), np.zeros((CELLS, CELLS))
LEFT[20:55, 10:35] = 1
WIDE = 400


def mirrored(quad: np.ndarray) -> np.ndarray:
    """A card [4, 2] px where it lies in a mirror `WIDE` px wide, clockwise again."""
    return np.column_stack([WIDE - quad[:, 0], quad[:, 1]])[[1, 0, 3, 2]]


def mirrored_places(where: np.ndarray) -> np.ndarray:
    cells = WIDE // STRIDE
    return np.concatenate([where[:, :cells][:, ::-1], where[:, cells:]], axis=1)


def seen(*answers: np.ndarray, wide: int = WIDE) -> np.ndarray:
    picture = np.zeros((512, 512, 3), np.uint8)
    return both_ways(picture, wide, Told(*answers))


def corners(maps: np.ndarray, x: int = 20, y: int = 40) -> np.ndarray:
    """The corners [4, 2] px that a place votes for."""
    return maps[3:, y, x].reshape(4, 2) * 64 + (np.array([x, y]) + 0.5) * STRIDE


@pytest.mark.parametrize("turn", range(4))
def test_two_looks_that_agree_are_one(turn):
    """Whichever corner either names first."""
    one = maps_of(CARD, LEFT)
    both = seen(one, maps_of(mirrored(CARD), mirrored_places(LEFT), turn=turn))
    assert both == pytest.approx(one, abs=1e-4)


def test_of_two_looks_that_nearly_agree_the_middle_counts():
    """So do the means of how sure they are."""
    other = maps_of(mirrored(CARD + 4), mirrored_places(LEFT), kernel=0.5)
    both = seen(maps_of(CARD, LEFT), other)
    assert corners(both) == pytest.approx(CARD + 2, abs=1e-3)
    assert both[1, 40, 20] == pytest.approx(0.7)


@pytest.mark.parametrize("kernel, chosen", [(0.5, CARD), (0.95, box(40, 80, 140, 480))])
def test_of_two_looks_at_different_cards_the_surer_counts(kernel, chosen):
    """Of a page's columns taken for open cards, or its cards: no card between the two."""
    column = maps_of(mirrored(box(40, 80, 140, 480)), mirrored_places(LEFT), kernel=kernel)
    assert corners(seen(maps_of(CARD, LEFT), column)) == pytest.approx(chosen, abs=1e-3)


@pytest.mark.parametrize("wide", [400, 398, 512])
def test_the_mirror_is_as_wide_as_the_picture(wide):
    """To a whole place of the maps; what lies beyond stays where it is."""
    picture = np.arange(512 * 512 * 3, dtype=np.uint32).astype(np.uint8).reshape(512, 512, 3)
    proposer = Told(maps_of(CARD, LEFT), maps_of(CARD, LEFT))
    both_ways(picture, wide, proposer)
    edge = -(-wide // STRIDE) * STRIDE
    assert (proposer.asked[0] == picture).all()
    assert (proposer.asked[1][:, :edge] == picture[:, :edge][:, ::-1]).all()
    assert (proposer.asked[1][:, edge:] == picture[:, edge:]).all()
