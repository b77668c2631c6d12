"""How sure a card is, of all that was measured of it."""

from dataclasses import replace

import numpy as np
import pytest

from swapboard.photo.finishing import Seen
from swapboard.photo.plane import Lying
from swapboard.photo.refining import Refined
from swapboard.photo.sureness import SURE_ENOUGH, beside_sure, sureness_of
from swapboard.photo.surroundings import Surroundings
from swapboard.photo.verdict import BLANK, CUT, judge_seen

QUAD = np.array([[100, 60], [300, 60], [300, 340], [100, 340]], float)


def seen_as(
    proposed: float = 0.99, drawn: float = 0.2, kin: bool = False, tight: float = 0.99,
    witnessed: float = 0.99, unlike: float = 3.0,
) -> Seen:
    """What looks like a card from near as far as told, and to its surroundings likewise."""
    refined = Refined(QUAD, tight, 0.995, 0.03, np.full(4, 0.98), 0.001, drawn, 0.3)
    return Seen(refined, QUAD, 0.0, kin, Surroundings(proposed, witnessed, unlike))


def sure(**how: float) -> float:
    """How sure it is, seen like that."""
    return sureness_of(seen_as(**how), Lying(1.4, 0.0))


def test_all_networks_must_see_a_card_for_it_to_be_sure():
    """One looks from near, one at the whole picture, one at both: none outvotes another's clear
    no."""
    shares = [sure(proposed=share) for share in (0.02, 0.3, 0.97, 0.99)]
    assert shares == sorted(shares)
    assert shares[0] < 0.5 and shares[1] < SURE_ENOUGH < shares[2]
    assert sure(tight=0.1) < 0.5
    assert sure(witnessed=0.02) < sure(witnessed=0.2) < SURE_ENOUGH < sure(witnessed=0.97)
    assert sure(witnessed=0.02, proposed=0.3) < 0.5


def test_what_looks_like_the_bare_table_is_not_sure():
    """However clear its sides are: a pocket's welds are. Of a tint of its own it is no bare place,
    and the more of one says no more."""
    assert sure(unlike=0.2) < SURE_ENOUGH < sure(unlike=1.4)
    assert sure(unlike=1.6) == sure(unlike=10.0) > sure(unlike=1.4)


@pytest.mark.parametrize("left, kin, unlike, cut", [
    (3, True, 0.005, False), (3, True, 0.04, True), (3, False, 0.0, True), (0, True, 0.005, True),
    (-6, True, 0.005, True),
])
def test_a_card_laid_against_the_edge_of_the_glass_is_not_cut(left, kin, unlike, cut):
    """Where a little shows beyond it, and it is as large as the others. (So makers lay cards on a
    scanner: common practice, no source.)"""
    picture, quad = np.zeros((1400, 1000, 3), np.uint8), QUAD * 1.2 - [120 - left, 0]
    seen = replace(seen_as(kin=kin), quad=quad)
    assert (CUT in judge_seen(picture, seen, [], Lying(1.4, unlike)).reasons) is cut


@pytest.mark.parametrize("drawn, kin, blank", [(0.001, False, True), (0.006, False, False),
                                               (0.001, True, False)])
def test_a_lone_rectangle_with_nothing_on_it_is_doubtful(drawn, kin, blank):
    """Unless it lies beside cards as large."""
    picture = np.zeros((400, 400, 3), np.uint8)
    card = judge_seen(picture, seen_as(drawn=drawn, kin=kin), [], Lying(1.4, 0.0))
    assert card.doubtful is blank
    assert card.reasons == ((BLANK,) if blank else ())


@pytest.mark.parametrize("others, witnessed, sure", [
    ((1, 1, 1), 0.3, True), ((1, 1), 0.3, False), ((1, 1, 1.2), 0.3, False),
    ((1, 1, 1), 0.02, False), ((0.5, 0.5, 0.5), 0.3, False),
])
def test_many_sure_cards_of_its_size_bear_a_likely_one_out(others, witnessed, sure):
    """Not fewer, nor of another size; nor what is hardly likely, as an empty pocket is."""
    seen = [replace(seen_as(), quad=QUAD * size + [0, 400 * at])
            for at, size in enumerate(others)]
    seen.append(replace(seen_as(witnessed=witnessed, tight=0.9), quad=QUAD + [400, 0]))
    lying = beside_sure(seen, [Lying(1.4, 0.0)] * len(seen), (1400, 1800))
    assert lying[-1].alike == sum(size == 1 for size in others) * (len(others) >= 3)
    assert (sureness_of(seen[-1], lying[-1]) >= SURE_ENOUGH) is sure
    assert sureness_of(seen[-1], Lying(1.4, 0.0)) < SURE_ENOUGH
