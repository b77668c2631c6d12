"""How often the network looks at one card: no look is spent on what another has shown."""

import numpy as np

from swapboard.photo.refining import STILL, last_look, refine
from swapboard.photo.warps import Pyramid

CARD = np.array([[100, 80], [350, 80], [350, 430], [100, 430]], float)


class Looks:
    """Networks that see a card, its left and right so many bins right of the rectangle's own."""

    def __init__(self, off: int = 0) -> None:
        self.asked: list[np.ndarray] = []
        self.off, self.verdicts = off, np.array([0.995, 0.995, 0.01])

    def sides(self, warp: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        self.asked.append(warp)
        shares = np.zeros((4, 144, 112))
        for side, at in enumerate((16, 96)):
            shares[side, :, at + self.off - 1 : at + self.off + 1] = 0.5
        for side, at in enumerate((20.57, 123.43), 2):
            low = int(at)
            shares[side, low - 1] = low + 0.5 - at
            shares[side, low] = at - low + 0.5
        return shares, self.verdicts


def seen_by(networks: Looks, among_many: bool = False):
    picture = np.tile(np.arange(460) // 2, (3, 520, 1)).astype(np.uint8).transpose(1, 2, 0)
    pyramid, size = Pyramid(picture), (460, 520)
    refined = refine(pyramid, size, CARD, networks)
    before = len(networks.asked)
    return refined, last_look(pyramid, size, refined, networks, among_many), networks.asked[before:]


def test_a_card_whose_sides_stood_still_is_looked_at_only_upside_down():
    """Its last round shows what another look would."""
    refined, last, asked = seen_by(Looks())
    assert refined.moved < STILL and np.abs(refined.quad - CARD).max() < 1
    (upside_down,) = asked
    assert np.array_equal(upside_down, refined.look.warp[::-1, ::-1])
    assert last.verdicts.shape == (1, 3)


def test_a_card_that_still_moved_is_looked_at_once_more():
    refined, last, asked = seen_by(Looks(off=2))
    assert refined.moved >= STILL and len(asked) == 2 and last.verdicts.shape == (2, 3)
    assert np.array_equal(asked[1], asked[0][::-1, ::-1])
    assert not np.array_equal(asked[0], refined.look.warp)


def test_of_many_cards_a_certain_one_that_stood_still_is_not_looked_at_again():
    """The one round said all; not so of one less certain, or of one that still moved."""
    looks = Looks()
    refined, last, asked = seen_by(looks, among_many=True)
    assert not asked and last.quad is refined.quad and last.heard(refined).tight > 0.994
    looks.verdicts = np.array([0.985, 0.995, 0.01])
    assert len(seen_by(looks, among_many=True)[2]) == 1
    looks.verdicts = np.array([0.995, 0.995, 0.3])
    assert len(seen_by(looks, among_many=True)[2]) == 1
    assert len(seen_by(Looks(off=2), among_many=True)[2]) == 2
