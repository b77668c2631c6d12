"""What comes of the proposer's maps: cards that pixels vote for, and how sure it is of a place."""

from types import SimpleNamespace

import cv2
import numpy as np
import pytest

from swapboard.photo import voting
from swapboard.photo.gathering import gathered
from swapboard.photo.geometry import intersection_over_union, signed_area
from swapboard.photo.networks import PROPOSER_SIDE
from swapboard.photo.voting import STRIDE, Glances, Votes, votes
from swapboard.photo.warps import Pyramid


def test_votes_of_two_cards_that_touch_stay_apart():
    """Pixels are gathered by the card they vote for, whichever corner each names first."""
    cards = np.array([[[40, 40], [240, 40], [240, 320], [40, 320]],
                      [[240, 40], [440, 40], [440, 320], [240, 320]]], float)
    maps = np.zeros((11, 128, 128), np.float32)
    for index, quad in enumerate(cards):
        left, top, right, bottom = (int(v) // 4 for v in (*quad[0], *quad[2]))
        for y in range(top, bottom):
            for x in range(left, right):
                turned = np.roll(quad, (x + y + index) % 4, axis=0)
                maps[:2, y, x] = 1
                maps[3:, y, x] = ((turned - (np.array([x, y]) + 0.5) * 4) / 64).ravel()
    quads = sorted(gathered(maps).tolist(), key=lambda q: min(x for x, _ in q))
    assert len(quads) == 2
    for quad, true in zip(quads, cards, strict=True):
        assert intersection_over_union(np.array(quad), true) > 0.999
        assert signed_area(np.array(quad)) > 0


@pytest.mark.parametrize("quad, share", [
    ([[100, 100], [300, 100], [300, 500], [100, 500]], 0.9),
    ([[500, 100], [700, 100], [700, 500], [500, 500]], 0.1),
    ([[300, 100], [500, 100], [500, 500], [300, 500]], 0.5),
    ([[-200, 100], [300, 100], [300, 500], [-200, 500]], 0.9),
    ([[100, 300], [300, 300], [300, 1100], [100, 1100]], 0.9),
    ([[-90, -90], [-10, -90], [-10, -10], [-90, -10]], 0.0),
])
def test_how_sure_the_proposer_is_of_a_place(quad, share):
    """In a picture of 800 × 600 px of which it takes the left half for card; what lies beyond the
    picture does not count."""
    maps, inside = np.zeros((11, 128, 128), np.float32), np.zeros((128, 128), bool)
    maps[0, :96, :64], maps[0, :96, 64:], inside[:96] = 0.9, 0.1, True
    votes = Votes(maps, inside, np.array([0.64, 0.64]), np.zeros(2))
    assert votes.share_on(np.array(quad, float)) == pytest.approx(share, abs=0.03)


class Bright:
    """A proposer to which whatever is bright is a card."""

    def maps(self, picture: np.ndarray) -> np.ndarray:
        """Maps [11, 128, 128] of a picture uint8 [512, 512, 3]."""
        assert picture.shape == (PROPOSER_SIDE, PROPOSER_SIDE, 3)
        maps = np.zeros((11, PROPOSER_SIDE // STRIDE, PROPOSER_SIDE // STRIDE), np.float32)
        maps[0] = picture[STRIDE // 2 :: STRIDE, STRIDE // 2 :: STRIDE, 0] > 128
        return maps


class BrightAndUpright(Bright):
    """Which votes for a card where all that is bright lies, but only if that is taller than wide
    and begins high up; `asked` so often."""

    asked = 0

    def maps(self, picture: np.ndarray) -> np.ndarray:
        """Likewise."""
        self.asked += 1
        maps = super().maps(picture)
        y, x = np.nonzero(maps[0])
        low, high = np.array([x.min(), y.min()]), np.array([x.max(), y.max()]) + 1
        if (high - low)[0] < (high - low)[1] and low[1] < 40:
            ends = np.array([low, (high[0], low[1]), high, (low[0], high[1])])
            maps[1] = maps[0]
            maps[3:, y, x] = (ends[:, :, None] - 0.5 - np.array([x, y])).reshape(8, -1) / 16
        return maps


@pytest.mark.parametrize("card", [(100, 200, 420, 420), (740, 500, 160, 280)],
                         ids=["lies", "stands low"])
@pytest.mark.parametrize("known", [False, True])
def test_what_is_left_over_is_looked_at_with_the_picture_turned(card, known):
    """Not where all was found; and answered where it lies in the picture as it is."""
    x, y, wide, tall = card
    picture = np.zeros((900, 1200, 3), np.uint8)
    tall -= 200 if wide == tall else 0
    picture[y : y + tall, x : x + wide] = 255
    quad = np.array([[x, y], [x + wide, y], [x + wide, y + tall], [x, y + tall]], float)
    proposer = BrightAndUpright()
    glances = Glances(picture, proposer)
    assert len(glances.quads()) == 0
    turned = glances.turned_quads([quad] if known else [])
    assert len(turned) == (0 if known else 1) and proposer.asked == (2 if known else 4)
    assert known or intersection_over_union(turned[0], quad) > 0.9


@pytest.mark.parametrize("each, answered", [(4, 8), (5, 0)])
def test_what_is_left_over_in_many_places_is_a_pattern(monkeypatch, each, answered):
    """Print, mostly: nobody lays out so many cards that are not seen."""
    picture = np.zeros((900, 1200, 3), np.uint8)
    picture[200:420, 100:520] = 255
    glances = Glances(picture, BrightAndUpright())
    small = np.array([[[0, 0], [20, 0], [20, 30], [0, 30]]], float)
    monkeypatch.setattr(voting, "votes", lambda *_: SimpleNamespace(
        quads=lambda: np.concatenate([small + 40 * at for at in range(each)])))
    assert len(glances.turned_quads([])) == answered


def test_from_near_and_from_afar_a_picture_is_seen_in_a_mirror_too():
    """Its parts are not: that takes time and shows no more."""
    picture = np.zeros((900, 1200, 3), np.uint8)
    picture[200:420, 100:520] = 255
    proposer = BrightAndUpright()
    glances = Glances(picture, proposer)
    assert proposer.asked == 2
    glances.large_quads()
    assert proposer.asked == 4
    glances.quads_within(np.array([[0, 0], [1200, 0], [1200, 600], [0, 600]], float))
    assert proposer.asked == 5


@pytest.mark.parametrize("turn", [0, 30, 45, 100])
@pytest.mark.parametrize("sheet", [(600, 800), (500, 800)], ids=["halved", "as it is"])
def test_a_sheet_is_seen_straight_before_it(turn, sheet):
    """Whichever way it lies: the proposer of this test sees upright cards only. Where it sees one
    it answers it as it lies in the picture, and is as sure of it there."""
    wide, tall = sheet

    def seen(box: list[list[float]]) -> np.ndarray:
        onto = cv2.getRotationMatrix2D((0, 0), -turn, 1)
        return (np.array(box) - (wide / 2, tall / 2)) @ onto[:, :2].T + 600

    ends = seen([[0, 0], [wide, 0], [wide, tall], [0, tall]])
    card = seen([[100, 20], [300, 20], [300, 300], [100, 300]])
    picture = np.full((1200, 1200, 3), 30, np.uint8)
    cv2.fillConvexPoly(picture, np.round(card * 16).astype(np.int32), (255,) * 3, cv2.LINE_AA, 4)
    glances = Glances(picture, BrightAndUpright())
    glances._near.maps[:] = 0
    found = glances.quads_on(ends, Pyramid(picture))
    assert max(intersection_over_union(one, card) for one in found) > 0.9
    assert glances.share_on(card) > 0.9 and glances.share_on(card + [0, 350]) < 0.1


@pytest.mark.parametrize("margin", [0.0, 0.2])
@pytest.mark.parametrize("shape", [(900, 1200), (1600, 900), (300, 400), (700, 700), (1000, 1400)])
def test_a_place_is_the_same_however_it_is_seen(shape, margin):
    """A bright rectangle in a dark picture, and its neighbour of the same size."""
    height, width = shape
    picture = np.zeros((height, width, 3), np.uint8)
    left, top, right, bottom = width // 10, height // 10, width // 2, 9 * height // 10
    picture[top:bottom, left:right] = 255
    seen = votes(picture, Bright(), margin)
    card = np.array([[left, top], [right, top], [right, bottom], [left, bottom]], float)
    assert seen.share_on(card) > 0.97
    assert seen.share_on(card + (right - left, 0)) < 0.03


@pytest.mark.parametrize("shape, extent", [
    ((1000, 1400), (394, 512)), ((1400, 1000), (512, 394)), ((1000, 1414), (394, 512)),
    ((800, 1200), (341, 512)), ((900, 1200), (384, 512)), ((900, 1600), (288, 512)),
    ((700, 700), (512, 512)),
])
def test_a_picture_of_a_cards_proportion_is_seen_broader(shape, extent):
    """7:5 and A4 as 1.3, as wide above it as below; 3:2, 4:3 and 16:9 as they are."""
    asked = []

    class Filled(Bright):
        def maps(self, picture):
            asked.append(picture[..., 0] > 0)
            return super().maps(picture)

    seen = votes(np.full((*shape, 3), 255, np.uint8), Filled())
    filled = asked[0].any(axis=1).sum(), asked[0].any(axis=0).sum()
    assert np.abs(np.array(filled) - extent).max() <= 1
    whole = np.array([[0, 0], [shape[1], 0], [*shape[::-1]], [0, shape[0]]], float)
    assert seen.share_on(whole) > 0.97
    at = whole * seen.scale + seen.offset
    middle, edges = np.array(filled[::-1]) / 2, (at.min(axis=0) + at.max(axis=0)) / 2
    assert np.abs(middle - edges).max() < 2


@pytest.mark.parametrize("size, broad", [((1200, 800), True), ((800, 1200), True),
                                         ((1200, 900), False), ((1600, 900), False)])
def test_a_picture_nearly_of_a_cards_proportion_is_seen_broader_too(size, broad):
    """3:2, but not 4:3 or 16:9; and how sure it is of a card then counts."""
    picture = np.zeros((size[1], size[0], 3), np.uint8)
    picture[200:420, 100:240] = 255
    proposer = BrightAndUpright()
    glances = Glances(picture, proposer)
    before, quad = proposer.asked, np.array([[100, 200], [240, 200], [240, 420], [100, 420]], float)
    glances._near.maps[:] = 0
    assert glances.share_on(quad) == 0
    glances.broad_quads()
    assert proposer.asked == before + broad
    assert glances.share_on(quad) == (1.0 if broad else 0.0)


@pytest.mark.parametrize("margin", [0.0, 0.2])
def test_beyond_the_picture_nothing_is_seen(margin):
    """What lies along its border goes on there, but is no card."""
    seen = votes(np.full((600, 800, 3), 255, np.uint8), Bright(), margin)
    assert np.array_equal(seen.maps[0], seen.inside)
    assert seen.inside.mean() == pytest.approx(0.75 / (1 + 2 * margin) ** 2, abs=0.02)


def test_what_is_card_all_over_is_no_card_there_alone():
    """A bright card in the dark is there alone; half of what is bright all over is not."""
    half = np.array([[200, 150], [600, 150], [600, 450], [200, 450]], float)
    picture = np.full((600, 800, 3), 255, np.uint8)
    assert votes(picture, Bright()).share_there_alone(half) < 0.01
    picture[:140] = picture[460:] = picture[:, :190] = picture[:, 610:] = 0
    assert votes(picture, Bright()).share_there_alone(half) > 0.95
