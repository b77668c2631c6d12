"""Halves that meet are one card lying open; cards laid side by side are not."""

from types import SimpleNamespace

import cv2
import numpy as np
import pytest

from swapboard.disk.finder import find_cards, networks
from swapboard.photo import find, learned
from swapboard.photo.bare import NOT
from swapboard.photo.find import Found
from swapboard.photo.finishing import Seen
from swapboard.photo.geometry import intersection_over_union, signed_area
from swapboard.photo.looking import Looks
from swapboard.photo.pairs import part_pairs
from swapboard.photo.panels import (
    are_apart,
    are_halves,
    halves_of_pairs,
    held_together,
    open_pair,
)
from swapboard.photo.plane import Lying, Table
from swapboard.photo.refining import Refined
from swapboard.photo.seen_whole import Whole
from swapboard.photo.surroundings import Surroundings
from swapboard.photo.telling import open_doubted, with_open_pair
from swapboard.photo.verdict import COVERED, PANELS, TOUCHING, judge_open, judge_seen

CARD = np.array([[0, 0], [250, 0], [250, 350], [0, 350]], float)
OPEN = {
    "beside": ([250, 0], [[0, 0], [500, 0], [500, 350], [0, 350]]),
    "below": ([0, 350], [[0, 0], [250, 0], [250, 700], [0, 700]]),
}


@pytest.mark.parametrize("way", OPEN)
@pytest.mark.parametrize("first", range(4))
@pytest.mark.parametrize("swapped", [False, True])
def test_two_halves_that_meet_give_the_whole_cards_corners(way, first, swapped):
    """A card folded from 5 × 3.5 in or 2.5 × 7 in; from whichever corner each half was told."""
    move, whole = OPEN[way]
    halves = [CARD, np.roll(CARD + move, first, axis=0)]
    *pair, corners = open_pair(halves[::-1] if swapped else halves, [True, True])
    assert pair == [0, 1] and signed_area(corners) == pytest.approx(2 * 250 * 350)
    assert intersection_over_union(corners, np.array(whole, float)) == pytest.approx(1)


@pytest.mark.parametrize("gap", [1, 2])
def test_a_folds_own_width_is_no_gap(gap):
    """Of a card 350 px long: 0.6 mm at most. (Cards laid beside each other by hand are a millimetre
    and more apart: common practice, no source.)"""
    *pair, _ = open_pair([CARD, CARD + [250 + gap, 0]], [True, True])
    assert pair == [0, 1]


@pytest.mark.parametrize("move", [[262, 0], [254, 0], [250, 10], [0, 362]],
                         ids=["gap", "narrow gap", "step", "gap below"])
def test_cards_with_a_gap_or_a_step_are_two(move):
    assert open_pair([CARD, CARD + move], [True, True]) is None


@pytest.mark.parametrize("before, after, third, held", [
    (0, 12, False, True), (0, 1, False, False), (12, 14, False, False), (0, 12, True, False),
])
def test_two_panels_that_met_stay_together(before, after, third, held):
    """What is drawn along their fold parts them; not what met no more, nor meets still, nor one of
    three."""
    away = [CARD + [900, 0]] if third else []
    then = [CARD, CARD + [250 + before, 0], *away]
    now = [CARD - 0.5, CARD + [250 + after, 0], *away]
    answered = held_together(now, then, [True] * len(now))
    assert len(answered) == len(now)
    assert [one is was for one, was in zip(answered, then, strict=True)][:2] == [held] * 2


@pytest.mark.parametrize("lap", [[(0, 0), (-9, 0)], [(-12, 0), (-6, 0)], [(0, 0), (0, 0)]])
def test_panels_that_seem_to_lap_over_each_other_are_one_card(lap):
    """Each panel's edge was found a little beyond the fold, on one side or on both."""
    other = CARD + [250, 0]
    other[[0, 3]] += lap
    *pair, corners = open_pair([CARD, other], [True, True])
    assert pair == [0, 1]
    assert intersection_over_union(corners, np.array(OPEN["beside"][1], float)) > 0.999


@pytest.mark.parametrize("turn, lap", [(0, 25), (2, 9), (-2, 9)], ids=["far", "turned", "back"])
def test_a_card_that_lies_over_another_is_one_of_two(turn, lap):
    spin = cv2.getRotationMatrix2D((0, 175), turn, 1.0)
    over = cv2.transform(CARD[None], spin)[0] + [250 - lap, 0]
    assert open_pair([CARD, over], [True, True]) is None


def test_a_slightly_turned_neighbour_is_a_card_of_its_own():
    turn = np.radians(3)
    spin = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]])
    assert open_pair([CARD, (CARD @ spin.T) + [250, 0]], [True, True]) is None


@pytest.mark.parametrize("count", [0, 1, 3])
def test_only_two_alone_are_one_card(count):
    """Three in a row, pushed together, are a row of cards."""
    assert open_pair([CARD + [250 * i, 0] for i in range(count)], [True] * count) is None


@pytest.mark.parametrize("way", OPEN)
def test_what_is_as_large_as_two_of_the_others_is_looked_at_as_two(way):
    """In a photo with more cards, two that touch and were taken for one: both halves."""
    move, whole = OPEN[way]
    others = [CARD + [700, 0], CARD + [700, 800]]
    halves = halves_of_pairs([np.array(whole, float), *others], others)
    assert len(halves) == 2
    for half, card in zip(halves, (CARD, CARD + move), strict=True):
        assert intersection_over_union(half, card) == pytest.approx(1, abs=1e-6)


def test_halves_of_a_pair_seen_at_a_tilt_meet_where_the_cards_do():
    """Not half way between the corners: the nearer of two cards looks larger."""
    tilt = np.array([[1.0, 0.1, 50], [0, 0.9, 40], [0, 4e-4, 1]])

    def seen(quad: np.ndarray) -> np.ndarray:
        points = np.column_stack([quad, np.ones(4)]) @ tilt.T
        return points[:, :2] / points[:, 2:]

    whole, others = np.array(OPEN["below"][1], float), [CARD + [700, 0], CARD + [700, 300]]
    halves = halves_of_pairs([seen(whole)], [seen(one) for one in others])
    truth = [seen(CARD), seen(CARD + [0, 350])]
    overlaps = [max(intersection_over_union(h, t) for h in halves) for t in truth]
    assert min(overlaps) > 0.999


def test_how_large_a_pair_is_shows_on_the_table_not_in_the_picture():
    """At the far end of a tilted table two cards look less than one and a half times as large as
    those in front."""
    middle = np.array([600.0, 450.0])
    table = Table(np.array([0.3, 0.0]), 1200.0, middle, np.eye(3))

    def seen(quad: np.ndarray) -> np.ndarray:
        return table.seen((quad - middle)[None])[0]

    whole = seen(np.array(OPEN["beside"][1], float))
    others = [seen(CARD + [0, 700]), seen(CARD + [260, 700])]
    assert abs(signed_area(whole)) < 1.2 * abs(signed_area(others[0]))
    assert halves_of_pairs([whole], others) == []
    assert len(halves_of_pairs([whole], others, table)) == 2


def test_two_cards_with_a_gap_are_apart_and_panels_are_not():
    """The halves of what was taken for one card: nearly all of it, and with a gap or without. What
    is drawn at the two ends of a card leaves more of it between."""
    whole = np.array(OPEN["beside"][1], float) * (1.06, 1)
    assert are_apart([CARD, CARD + [280, 0]], whole)
    assert not are_apart([CARD, CARD + [258, 0]], np.array(OPEN["beside"][1], float) * (1.016, 1))
    assert not are_apart([CARD, CARD + [250, 0]], np.array(OPEN["beside"][1], float))
    inside = [CARD * 0.85 + (20, 20), CARD * 0.85 + [290, 20]]
    assert not are_apart(inside, whole)
    short = CARD * (0.85, 1)
    assert not are_apart([short, short + [317.5, 0]], whole)


def test_alone_or_beside_one_card_a_pair_stays_one():
    """Nothing else says how large a card is."""
    whole = np.array(OPEN["beside"][1], float)
    assert halves_of_pairs([whole], []) == halves_of_pairs([whole], [CARD + [700, 0]]) == []
    assert halves_of_pairs([CARD], [CARD + [700, 0], CARD + [700, 400]]) == []


def test_what_is_hardly_a_card_counts_only_as_a_half():
    """A half with little on it is less sure; what lies elsewhere and is no card changes nothing."""
    halves = [CARD + [600, 600], CARD, CARD + [250, 0]]
    *pair, _ = open_pair(halves, [False, True, False])
    assert pair == [1, 2]
    assert open_pair(halves, [True, True, False]) is None


@pytest.mark.parametrize("covered", [False, True])
def test_what_lies_over_a_half_lies_over_the_card(covered):
    """A finger on one panel leaves the open card doubtful, however sure the panels are."""
    whole = np.array(OPEN["beside"][1], float) + (300, 200)
    reasons = (COVERED,) if covered else ()
    panels = [(Found((), 1.4, "card", 0.99, covered, reasons), 0.99),
              (Found((), 1.4, "card", 0.99, False, ()), 0.99)]
    card, _ = judge_open(whole, panels, 1200, 900, None)
    assert card.doubtful is covered and (COVERED in card.reasons) is covered


@pytest.mark.parametrize("doubtful, merged", [(True, True), (False, False)])
def test_a_card_that_both_ways_of_looking_agree_on_is_one_more_card(doubtful, merged):
    """However unlike a card the networks alone find it: two beside it that touch are two."""
    picture = np.full((900, 900, 3), (60, 90, 70), np.uint8)
    shares = (0.99, 0.99, 0.4)
    quads = (CARD + 20, CARD + [270, 20], CARD + [20, 500])
    told = [
        (Found(tuple(map(tuple, quad)), 1.4, "card", share, doubtful and share < 0.5, ()), share)
        for quad, share in zip(quads, shares, strict=True)]
    answered = [card for card, _ in with_open_pair(told, picture, None)]
    assert len(answered) == (2 if merged else 3)


@pytest.mark.parametrize("third, share, answered", [
    (CARD + [20, 370], 0.4, 3), (CARD + [20, 370], 0.2, 2), (CARD + [20, 500], 0.4, 2),
    (CARD * (1, 0.6) + [20, 370], 0.4, 2),
], ids=["in a block", "unlikely", "apart", "of another size"])
def test_two_in_a_block_of_cards_are_no_halves(third, share, answered):
    """A third of their size that meets one of them says that they are two, however likely."""
    picture = np.full((900, 900, 3), (60, 90, 70), np.uint8)
    told = [(Found(tuple(map(tuple, quad)), 1.4, "card", one, True, ()), one)
            for quad, one in ((CARD + 20, 0.7), (CARD + [270, 20], 0.7), (third, share))]
    assert len(with_open_pair(told, picture, None)) == answered


@pytest.mark.parametrize("kind, parted, doubtful", [
    ("folded open", True, True), ("folded open", False, False), ("card", True, False),
])
def test_what_lies_open_is_doubtful_where_its_parts_are_seen(kind, parted, doubtful):
    """A card may have panels drawn on it."""
    told = [(Found(tuple(map(tuple, CARD)), 1.43, kind, 0.99, False, ()), 0.99)]
    ((card, share),) = open_doubted(told, SimpleNamespace(is_parted=lambda _: parted))
    assert card.doubtful is doubtful and (TOUCHING in card.reasons) is doubtful and share == 0.99


def test_halves_are_what_meets_in_the_middle():
    whole = np.array(OPEN["beside"][1], float)
    assert are_halves([CARD, CARD + [250, 0]], whole)
    assert not are_halves([CARD + [20, 0], CARD + [250, 0]], whole)
    assert not are_halves([CARD * 0.8, CARD * 0.8 + [250, 0]], whole)


@pytest.mark.parametrize("paired, proportion, kind", [
    (True, 10 / 7, "folded open"), (False, 10 / 7, "card"), (True, 15 / 7, "folded open"),
    (True, 1.2, "other size"), (True, 1.405, "card"),
])
def test_of_a_card_whose_halves_are_cards_it_is_said(paired, proportion, kind):
    """A card folded from 5 × 3.5 in is 10:7, which size alone hardly tells from 7:5; two pictures
    on a card of 7:5 make it no other. It is no doubt."""
    whole = np.array(OPEN["beside"][1], float) + 100
    refined = Refined(whole, 0.999, 0.999, 0.01, np.ones(4), 0.0, 0.2, 0.3)
    seen = Seen(refined, whole, 0.0, False, Surroundings(0.98, 0.98, NOT), paired=paired)
    found = judge_seen(np.zeros((600, 800, 3), np.uint8), seen, [], Lying(proportion, 0.0))
    assert found.kind == kind and found.doubtful is (kind == "other size")
    assert (PANELS in found.reasons) is (paired and proportion == 10 / 7)


def pair(table: tuple[int, int, int], turned: float = 0.0, shade: float = 0.0) -> np.ndarray:
    """Two cards that touch, seen straight from above; or from the side by so much of their size;
    in a light that falls by so many levels across the picture."""
    picture = np.full((700, 900, 3), table, np.uint8)
    cv2.rectangle(picture, (200, 170), (449, 519), (200, 226, 214), -1)
    cv2.rectangle(picture, (220, 190), (430, 500), (70, 110, 90), -1)
    cv2.circle(picture, (325, 320), 60, (220, 180, 60), -1)
    cv2.rectangle(picture, (450, 170), (699, 519), (130, 132, 180), -1)
    cv2.circle(picture, (575, 345), 90, (176, 58, 46), -1)
    corners = np.float32([[200, 170], [700, 170], [700, 520], [200, 520]])
    tilted = corners + np.float32([[0, 0], [0, 350 * turned], [0, -350 * turned], [0, 0]])
    seen = cv2.warpPerspective(picture, cv2.getPerspectiveTransform(corners, tilted), (900, 700),
                               borderMode=cv2.BORDER_REPLICATE)
    grain = np.random.default_rng(9).normal(0, 3, picture.shape)
    grain -= np.linspace(0, shade, picture.shape[1])[:, None]
    return (cv2.GaussianBlur(seen, (3, 3), 0) + grain).clip(0, 255).astype(np.uint8)


@pytest.mark.parametrize("lid", [(246, 247, 245), (120, 124, 122), (24, 22, 26)])
def test_two_cards_that_touch_on_a_scanners_glass_are_two_and_doubtful(lid):
    """They may be one that lies open; and makers scan several at once."""
    found = find_cards(pair(lid))
    assert len(found) == 2 and all(card.doubtful and TOUCHING in card.reasons for card in found)
    for left in (200, 450):
        quad = np.array([[left, 170], [left + 250, 170], [left + 250, 520], [left, 520]], float)
        assert max(intersection_over_union(np.array(card.corners), quad) for card in found) > 0.97


def test_both_of_two_that_touch_tell_that_their_scan_is_no_card(monkeypatch):
    """However unlikely one of them is by itself: with one alone a picture of a card's proportion
    would be that card."""
    left, right = (np.array([[x, 170], [x + 250, 170], [x + 250, 520], [x, 520]], float)
                   for x in (200, 450))
    sure = Refined(left, 0.999, 0.999, 0.0, np.ones(4), 0.0, 0.2, 0.3)
    less = Refined(right, 0.93, 0.92, 0.0, np.ones(4), 0.0, 0.2, 0.3)
    seen = [Seen(sure, left, 0.0, True, Surroundings(0.5, 0.99, NOT)),
            Seen(less, right, 0.0, True, Surroundings(0.2, 0.27, NOT))]
    monkeypatch.setattr(learned, "see_cards", lambda *_: (seen, [], None))
    told, likely = find._by_networks(pair((120, 124, 122)), None, networks())
    assert len(told) == 2 and all(TOUCHING in card.reasons for card in told)
    assert min(card.confidence for card in told) < 0.1 and len(likely) == 2


@pytest.mark.parametrize("table, turned, shade", [
    ((150, 110, 70), 0.0, 0.0), ((120, 124, 122), 0.02, 0.0), ((150, 154, 152), 0.0, 50.0),
], ids=["on wood", "tilted", "uneven"])
def test_in_a_photo_they_are_one_and_it_is_said(table, turned, shade):
    """A lid is grey and evenly lit, and no photo is taken as straight as a scan."""
    (card,) = find_cards(pair(table, turned, shade))
    assert card.kind == "folded open" and PANELS in card.reasons


def test_of_two_cards_pushed_together_it_is_said_what_they_were_taken_for():
    """Each would be a card for sure if the other were not there."""
    picture = np.full((700, 900, 3), (96, 74, 58), np.uint8)
    cv2.rectangle(picture, (200, 170), (449, 519), (230, 226, 214), -1)
    cv2.rectangle(picture, (220, 190), (430, 500), (70, 110, 90), -1)
    cv2.circle(picture, (325, 320), 60, (220, 180, 60), -1)
    cv2.rectangle(picture, (450, 170), (699, 519), (238, 232, 220), -1)
    cv2.circle(picture, (575, 345), 90, (176, 58, 46), -1)
    grain = np.random.default_rng(9).normal(0, 3, picture.shape)
    (card,) = find_cards((picture + grain).clip(0, 255).astype(np.uint8))
    ends = np.array(OPEN["beside"][1], float) + (200, 170)
    assert intersection_over_union(np.array(card.corners), ends) > 0.97
    assert card.kind == "folded open" and PANELS in card.reasons


class Halved(Looks):
    """Looks that see a card in each half, a little apart, over which something lies or not."""

    def __init__(self, whole: Refined, hidden: float) -> None:
        self.looked, self.size, self.hidden = [whole], (1000, 1000), hidden
        self.picture = np.zeros((1000, 1000, 3), np.uint8)

    def sure(self, quad):
        middle = quad.mean(axis=0)
        return Refined(middle + (quad - middle) * 0.96, 0.97, 0.97, self.hidden, np.ones(4), 0.0,
                       0.2, 0.2)


@pytest.mark.parametrize(("hidden", "from_afar", "count"), [
    (0.0, False, 2), (0.6, False, 1), (0.0, True, 1),
])
def test_a_card_is_two_only_where_both_halves_are_worth_as_much(hidden, from_afar, count):
    """Halves of one card look like cards at times, but something seems to lie over one of them, or
    from afar it is one; and then it may be two all the same."""
    quad = np.array([[100, 100], [450, 140], [450, 600], [100, 660]], float)
    whole = Refined(quad, 0.99, 0.99, 0.0, np.ones(4), 0.0, 0.2, 0.2)
    looks = Halved(whole, hidden)
    pairs = part_pairs(looks, [Whole(whole, False)] if from_afar else [])
    assert [pair.tolist() for pair in pairs] == ([quad.tolist()] if from_afar else [])
    assert len(looks.looked) == count
