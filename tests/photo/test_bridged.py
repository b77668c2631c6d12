"""Two panels of 2.5 × 3.5 in of one card that lies open, with a band drawn along its fold: between
cards that are two the table shows, and no table is whiter or blacker than itself."""

from dataclasses import replace

import cv2
import numpy as np
import pytest

from swapboard.photo.bridged import without_gaps
from swapboard.photo.looking import Looks
from swapboard.photo.refining import Refined

TABLE = (120, 96, 70)
LEFT = np.array([[200, 150], [400, 150], [400, 430], [200, 430]], float)


def reading(quad: np.ndarray, sure: float = 0.99) -> Refined:
    return Refined(quad, sure, sure, 0.0, np.ones(4), 0.0, 0.2, 0.3)


class Seen(Looks):
    """Two panels so many px apart, with a band of that tone from the one to the other."""

    def __init__(self, tone: tuple, gap: float = 12, more: tuple = (), sure: float = 0.99,
                 table: tuple = TABLE) -> None:
        self.picture = np.full((600, 800, 3), table, np.uint8)
        right = LEFT + (200 + gap, 0)
        for quad, ink in ((LEFT, (200, 60, 60)), (right, (60, 90, 200))):
            cv2.fillConvexPoly(self.picture, quad.astype(np.int32), ink)
        self.picture[150:430, 401 : 400 + max(int(gap), 1)] = tone
        self.size, self.sure_of_it = (800, 600), sure
        self.looked = [reading(LEFT), reading(right), *more]

    def reading(self, quad):
        return replace(reading(quad, self.sure_of_it))


def wide(looks: Seen) -> list[int]:
    return sorted(int(np.ptp(one.quad[:, 0])) for one in without_gaps(looks))


@pytest.mark.parametrize("tone", [(235, 230, 220), (4, 4, 4), (60, 110, 60)],
                         ids=["white", "black", "green"])
def test_with_paper_between_them_two_are_one(tone):
    assert wide(Seen(tone)) == [412]


@pytest.mark.parametrize("tone", [TABLE, (60, 48, 35), (40, 34, 28), (135, 110, 82)],
                         ids=["table", "shade", "deep shade", "light"])
def test_with_the_table_between_them_two_are_two(tone):
    assert wide(Seen(tone)) == [200, 200]


@pytest.mark.parametrize("tone, widths", [((8, 8, 8), [412]), ((50, 50, 50), [200, 200])],
                         ids=["ink", "shade"])
def test_on_a_grey_table_black_is_ink_and_what_is_less_dark_a_shade(tone, widths):
    assert wide(Seen(tone, table=(190, 190, 190))) == widths


@pytest.mark.parametrize("gap, more, sure", [
    (40, (), 0.99), (3, (), 0.99), (12, (), 0.85),
    (12, (reading(LEFT + (0, 300)),), 0.99),
], ids=["far apart", "too narrow to tell", "unlike a card", "a third beside"])
def test_nor_are_they_one_else(gap, more, sure):
    assert 412 not in wide(Seen((235, 230, 220), gap, more, sure))


def test_what_is_seen_of_its_panels_besides_goes_too():
    half_seen = reading(LEFT + ((5, 5), (-20, 5), (-20, -5), (5, -5)), sure=0.6)
    assert wide(Seen((235, 230, 220), more=(half_seen,))) == [412]


def test_at_the_pictures_border_the_table_shows_on_one_side_alone():
    looks = Seen((235, 230, 220))
    looks.picture = looks.picture[145:]
    looks.looked = [replace(one, quad=one.quad - (0, 145)) for one in looks.looked]
    assert wide(looks) == [412]
