"""How sure a card is, of all that was measured of it."""

import numpy as np
import pytest

from swapboard.photo.learned import Seen
from swapboard.photo.plane import Lying
from swapboard.photo.refining import Refined
from swapboard.photo.sureness import SURE_ENOUGH, sureness_of
from swapboard.photo.verdict import BLANK, judge_seen

QUAD = np.array([[100, 60], [300, 60], [300, 340], [100, 340]], float)


def seen_as(proposed: float, drawn: float = 0.2, kin: bool = False, tight: float = 0.99) -> Seen:
    """What looks like a card from near as far as told, and to the proposer likewise."""
    refined = Refined(QUAD, tight, 0.995, 0.03, np.full(4, 0.98), 0.001, drawn, 0.3)
    return Seen(refined, QUAD, None, 0.0, kin, proposed)


def test_both_networks_must_see_a_card_for_it_to_be_sure():
    """One looks from near, one at the whole picture: neither outvotes the other's clear no."""
    shares = [sureness_of(seen_as(share), Lying(1.4, 0.0)) for share in (0.02, 0.3, 0.97, 0.99)]
    assert shares == sorted(shares)
    assert shares[0] < 0.5 and shares[1] < SURE_ENOUGH < shares[2]
    assert sureness_of(seen_as(0.99, tight=0.1), Lying(1.4, 0.0)) < 0.5


@pytest.mark.parametrize("drawn, kin, blank", [(0.001, False, True), (0.006, False, False),
                                               (0.001, True, False)])
def test_a_lone_rectangle_with_nothing_on_it_is_doubtful(drawn, kin, blank):
    """Unless it lies beside cards as large."""
    picture = np.zeros((400, 400, 3), np.uint8)
    card = judge_seen(picture, seen_as(0.99, drawn, kin), [], Lying(1.4, 0.0))
    assert card.doubtful is blank
    assert card.reasons == ((BLANK,) if blank else ())
