"""Two cards of 2.5 × 3.5 in side by side have an open card's proportions, 10:7 or 14:5: what lies
about them tells them from one."""

from dataclasses import replace

import cv2
import numpy as np
import pytest

from swapboard.disk.finder import find_cards
from swapboard.photo.geometry import intersection_over_union
from swapboard.photo.looking import Looks
from swapboard.photo.pairs import parted_rows
from swapboard.photo.refining import Refined

INCH = 60


def card(x: float, y: float, wide: float, tall: float, sure: float = 0.99) -> Refined:
    """What looks like a card of so many inches, so far from the picture's corner."""
    quad = INCH * np.array([[x, y], [x + wide, y], [x + wide, y + tall], [x, y + tall]], float)
    return Refined(quad, sure, sure, 0.0, np.ones(4), 0.0, 0.2, 0.3)


class Laid(Looks):
    """Looks that see cards as sure as that wherever they are asked."""

    def __init__(self, *looked: Refined, tight: float = 0.97) -> None:
        self.size, self.looked, self.tight = (20 * INCH, 15 * INCH), [*looked], tight

    def reading(self, quad):
        return replace(self.looked[0], quad=quad, tight=self.tight)


def places(looked: list[Refined]) -> set[tuple[float, ...]]:
    return {tuple(np.round(np.ptp(one.quad, axis=0) / INCH, 1))
            + tuple(np.round(one.quad.mean(axis=0) / INCH, 2)) for one in looked}


FIRST = card(1, 1, 5, 3.5)
ON_END = (card(1, 1, 3.5, 5), card(1, 3.5, 3.5, 5))
ROUND_A_CORNER = (card(1, 1, 5, 3.5), card(3.5, 1, 2.5, 7))


@pytest.mark.parametrize("seen, cards", [
    ((FIRST, card(3.5, 1, 5, 3.5)), {(2.5, 3.5, x, 2.75) for x in (2.25, 4.75, 7.25)}),
    (ON_END, {(3.5, 2.5, 2.75, y) for y in (2.25, 4.75, 7.25)}),
    (ROUND_A_CORNER, {(2.5, 3.5, *at) for at in ((2.25, 2.75), (4.75, 2.75), (4.75, 6.25))}),
    ((*ON_END, card(1, 1, 3.5, 7.5)), {(3.5, 2.5, 2.75, y) for y in (2.25, 4.75, 7.25)}),
    ((card(1, 1, 7.5, 3.5),), {(2.5, 3.5, x, 2.75) for x in (2.25, 4.75, 7.25)}),
    ((card(1, 1, 7.5, 3.5), card(1, 8, 3.75, 3.5)),
     {(2.5, 3.5, x, 2.75) for x in (2.25, 4.75, 7.25)} | {(3.8, 3.5, 2.88, 9.75)}),
    ((card(1, 1, 2.5, 7), card(5, 1, 2.5, 7)), {(2.5, 3.5, x, y) for x in (2.25, 6.25)
                                                for y in (2.75, 6.25)}),
    ((FIRST, card(8, 8, 2.5, 3.5)), {(2.5, 3.5, x, y) for x, y in
                                     ((2.25, 2.75), (4.75, 2.75), (9.25, 9.75))}),
], ids=["in a row", "end to end", "round a corner", "seen as one too", "three seen as one",
        "three and what is as large as half of them",
        "two and two", "a card beside them"])
def test_what_shares_a_panel_or_lies_beside_its_like_or_a_card_of_its_size_is_several(seen, cards):
    assert places(parted_rows(Laid(*seen), None)) == cards


@pytest.mark.parametrize("seen", [
    (FIRST,),
    (card(1, 1, 2.5, 7),),
    (card(1, 1, 2.5, 7), card(5, 1, 2, 7)),
    (FIRST, card(6, 1, 5, 3.5)),
    (FIRST, card(1.6, 1, 5, 3.5)),
    (FIRST, card(1, 1, 2.5, 3.5)),
    (FIRST, card(8, 8, 2, 3)),
    (FIRST, card(3.5, 1, 5, 3.5, sure=0.85)),
], ids=["alone", "a long one", "a narrower one beside", "two of them", "overlapping by more",
        "its own half", "another size", "unsure"])
def test_else_it_stays_one(seen):
    looked = parted_rows(Laid(*seen), None)
    assert places(looked) == places(list(seen))


@pytest.mark.parametrize("other, tight, parted", [
    (card(3.5, 1, 5, 3.5), 0.45, False), (card(3.5, 1, 5, 3.5), 0.6, True),
    (card(8, 8, 2.5, 3.5), 0.85, False), (card(8, 8, 2.5, 3.5), 0.95, True),
], ids=["no panel", "a panel", "hardly its size", "its size"])
def test_its_halves_must_look_like_cards(other, tight, parted):
    """Surely, where only another's size says that it may be two."""
    looked = parted_rows(Laid(FIRST, other, tight=tight), None)
    assert all(one is not FIRST for one in looked) is parted


@pytest.mark.parametrize("tights, parted", [
    ((0.97, 0.6, 0.97), True), ((0.97, 0.97, 0.45), False), ((0.6, 0.97, 0.6), False),
], ids=["one hardly", "one not", "two hardly"])
def test_of_three_in_a_row_one_may_be_less_sure(tights, parted):
    looks, told = Laid(card(1, 1, 7.5, 3.5)), iter(tights)
    looks.reading = lambda quad: replace(looks.looked[0], quad=quad, tight=next(told))
    assert len(parted_rows(looks, None)) == (3 if parted else 1)


def drawn(picture: np.ndarray, x: int, y: int, tones: tuple) -> np.ndarray:
    """A card of 250 × 350 px with a field and a spot on it; its corners."""
    paper, field, spot = tones
    cv2.rectangle(picture, (x, y), (x + 249, y + 349), paper, -1)
    cv2.rectangle(picture, (x + 22, y + 22), (x + 227, y + 327), field, -1)
    cv2.circle(picture, (x + 125, y + 150), 60, spot, -1)
    return np.array([[x, y], [x + 250, y], [x + 250, y + 350], [x, y + 350]], float)


TONES = [((232, 226, 214), (70, 110, 90), (220, 180, 60)),
         ((240, 236, 228), (176, 58, 46), (60, 60, 110)),
         ((226, 220, 200), (60, 90, 150), (240, 220, 200))]


ROW, CORNER = ((200, 170), (450, 170), (700, 170)), ((200, 170), (450, 170), (450, 520))
WOOD, LID = (96, 74, 58), (208, 206, 203)


@pytest.mark.parametrize("at, table", [(ROW, LID), (CORNER, LID), (CORNER, WOOD)])
def test_three_cards_that_touch_are_three(at, table):
    picture = np.full((1050, 1400, 3), table, np.uint8)
    truth = [drawn(picture, *place, tones) for place, tones in zip(at, TONES, strict=True)]
    grain = np.random.default_rng(9).normal(0, 3, picture.shape)
    found = find_cards((picture + grain).clip(0, 255).astype(np.uint8))
    assert len(found) == 3 and all(
        max(intersection_over_union(np.array(one.corners), quad) for one in found) > 0.95
        for quad in truth)
