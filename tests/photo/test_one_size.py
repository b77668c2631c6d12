"""Cards of the size that sure ones have, looked for beside them and where others were seen."""

import numpy as np
import pytest

from swapboard.photo.geometry import intersection_over_union
from swapboard.photo.looking import Looks
from swapboard.photo.one_size import held_to_size, of_one_size
from swapboard.photo.refining import Refined
from swapboard.photo.voting import Glances

WIDE, TALL = 100.0, 140.0


def box(x: float, y: float, wide: float = WIDE, tall: float = TALL) -> np.ndarray:
    return np.array([[x, y], [x + wide, y], [x + wide, y + tall], [x, y + tall]])


def reading(quad: np.ndarray, tight: float = 0.99) -> Refined:
    return Refined(quad, tight, tight, 0.0, np.ones(4), 0.0, 0.2, 0.2)


class OnTable(Looks):
    """Looks that see the nearest of the cards that lie there; from farther off, nothing."""

    def __init__(self, cards: list[np.ndarray], reach: float = 0.6) -> None:
        self.size, self.cards, self.reach = (1000, 1000), cards, reach
        self.looked, self.lost, self.asked = [], [], []

    def reading(self, quad, rounds=3, least=0.5):
        self.asked.append(quad)
        best = max(self.cards, key=lambda card: intersection_over_union(card, quad))
        near = intersection_over_union(best, quad) > self.reach
        return reading(best) if near else None


    def may_hold(self, quad, least=0.0):
        return False


class Everywhere(Glances):
    """Glances to which all that lies in a part [4, 2] px of the picture is as sure."""

    def __init__(self, part: np.ndarray, share: float = 0.9) -> None:
        self.part, self.share = part, share

    def share_on(self, quad: np.ndarray) -> float:
        within = (quad >= self.part[0] - 5).all() and (quad <= self.part[2] + 5).all()
        return self.share if within else 0.0


def middles(readings: list[Refined]) -> set:
    return {tuple(int(v) for v in one.quad.mean(axis=0)) for one in readings}


def block(columns: int, rows: int) -> list[np.ndarray]:
    return [box(200 + x * WIDE, 200 + y * TALL) for y in range(rows) for x in range(columns)]


@pytest.mark.parametrize("known", [0, 4, 5])
def test_cards_edge_to_edge_with_a_sure_one_are_looked_at_one_after_another(known):
    """Of a block of six with one sure card in a corner, or amid a side, all are found."""
    cards = block(3, 2)
    looks = OnTable(cards)
    looks.looked = [reading(cards[known])]
    found = of_one_size(looks, Everywhere(box(200, 200, 300, 280)), None)
    assert middles(found) == middles([reading(card) for card in cards]) - middles(looks.looked)
    assert len(looks.asked) == 5


def test_where_the_proposer_sees_nothing_beside_a_card_nobody_looks():
    cards = block(3, 2)
    looks = OnTable(cards)
    looks.looked = [reading(cards[0])]
    assert of_one_size(looks, Everywhere(box(200, 200, 300, 280), share=0.4), None) == []
    assert looks.asked == []


def test_what_lies_beside_a_card_and_has_another_size_is_none_of_its_kind():
    """Panels of an open card beside it, say, or a photograph."""
    card, other = box(200, 200), box(300, 200, 130, 140)
    looks = OnTable([card, other])
    looks.looked = [reading(card)]
    assert of_one_size(looks, Everywhere(box(200, 200, 230, 140)), None) == []
    assert len(looks.asked) == 1


@pytest.mark.parametrize(("seen", "cards"), [
    (box(560, 600, 55, 140), [box(560, 600)]),
    (box(560, 620, 190, 120), [box(650, 600)]),
    (box(500, 600, 200, 140), [box(500, 600), box(600, 600)]),
    (box(500, 600, 140, 200), [box(500, 600, 140, 100), box(500, 700, 140, 100)]),
], ids=["half of one", "one and some of the table", "two at once", "two, lying"])
def test_what_was_seen_at_another_size_is_begun_anew_at_the_size_of_the_others(seen, cards):
    sure = [box(100, 100), box(300, 100)]
    looks = OnTable(sure + cards, reach=0.75)
    looks.looked = [reading(one) for one in sure]
    looks.lost = [seen]
    found = of_one_size(looks, Everywhere(box(400, 500, 400, 400)), None)
    assert middles(found) == middles([reading(card) for card in cards])


def test_one_sure_card_alone_does_not_say_how_large_others_lie_far_from_it():
    card, other = box(100, 100), box(560, 600)
    looks = OnTable([card, other], reach=0.75)
    looks.looked, looks.lost = [reading(card)], [box(560, 600, 55, 140)]
    assert of_one_size(looks, Everywhere(box(400, 500, 400, 400)), None) == []


def test_cards_of_sizes_of_their_own_say_nothing():
    sure = [box(100, 100), box(300, 100, 120, 168), box(500, 100, 140, 196), box(700, 100, 80, 112)]
    looks = OnTable([*sure, box(560, 600)], reach=0.75)
    looks.looked, looks.lost = [reading(one) for one in sure], [box(560, 600, 55, 140)]
    assert of_one_size(looks, Everywhere(box(0, 0, 1000, 1000)), None) == []
    assert looks.asked == []


@pytest.mark.parametrize("beside, pair, half, kept", [
    (3, box(560, 600, 2 * WIDE, TALL), box(560, 600), False),
    (3, box(560, 600, WIDE, 2 * TALL), box(560, 740), False),
    (3, box(560, 600, 2 * WIDE, TALL), None, True),
    (3, box(560, 600, 2.4 * WIDE, TALL), box(560, 600), True),
    (3, box(560, 600, 2 * WIDE, TALL), box(640, 610, 120, 110), True),
    (2, box(560, 600, 2 * WIDE, TALL), box(560, 600), True),
])
def test_what_is_as_large_as_two_of_the_others_is_two(beside, pair, half, kept):
    """If one of the two was seen by itself; with fewer beside it, it may be one that lies open."""
    assert is_kept(pair, half, beside) is kept


@pytest.mark.parametrize("beside, part, whole, kept", [
    (3, box(560, 615, WIDE, 125), box(560, 600), False),
    (3, box(553, 590, 115, 161), box(560, 600), False),
    (3, box(560, 600, 46, TALL), box(560, 600), False),
    (3, box(560, 615, WIDE, 125), None, True),
    (3, box(560, 615, WIDE, 125), box(560, 600, 110, 154), True),
    (3, box(640, 600, 115, 161), box(560, 600), True),
    (2, box(560, 615, WIDE, 125), box(560, 600), True),
])
def test_what_was_seen_at_the_size_of_the_others_too_is_of_that_size(beside, part, whole, kept):
    """A frame or a panel in it, a strip of it left out, or too much taken; but not where it was
    never seen so, nor what lies next to it, nor beside two."""
    assert is_kept(part, whole, beside) is kept


def is_kept(quad: np.ndarray, other: np.ndarray | None, beside: int) -> bool:
    """Whether a reading is kept besides another one and so many cards in a row above them."""
    singles = [reading(box(100 + 150 * at, 100)) for at in range(beside)]
    looked = [*singles, reading(quad)] + ([reading(other)] if other is not None else [])
    left = held_to_size(looked, (1000, 1000), None)
    kept = any(one.quad is quad for one in left)
    assert len(left) == len(looked) - (not kept)
    return kept


@pytest.mark.parametrize("known, there, found", [
    (1, True, 1), (3, True, 1), (2, False, 0), (4, True, 0),
])
def test_beside_few_sure_cards_the_witness_is_asked_where_the_proposer_sees_nothing(
    known, there, found,
):
    """Of cards pushed together it may see one large one."""
    cards = block(5, 1)

    class Witnessed(OnTable):
        def may_hold(self, quad, least=0.0):
            assert 0.1 < least < 0.5
            return there and intersection_over_union(quad, cards[known]) > 0.9

    looks = Witnessed(cards[: known + 1])
    looks.looked = [reading(card) for card in cards[:known]]
    seen = of_one_size(looks, Everywhere(box(0, 0, 1000, 1000), share=0.1), None)
    assert middles(seen) == middles([reading(card) for card in cards[known : known + found]])


@pytest.mark.parametrize("wide, tall", [(108, 140), (86, 122)])
def test_what_nearly_has_the_size_and_is_sure_is_not_begun_anew(wide, tall):
    """Its sides are held to the others' elsewhere (`equals`), and a frame drawn in it is told
    there too."""
    sure, near = [box(100, 100), box(300, 100)], box(560, 600, wide, tall)
    looks = OnTable([*sure, box(560, 600)])
    looks.looked = [reading(one) for one in [*sure, near]]
    assert of_one_size(looks, Everywhere(box(400, 500, 400, 400)), None) == []
    assert looks.asked == []
