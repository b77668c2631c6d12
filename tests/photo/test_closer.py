"""What is seen from nearer: cards on a scanner's lid, side by side, on what looks like one card."""

from dataclasses import replace

import cv2
import numpy as np
import pytest

from photo.pages import page
from photo.scenes import card_art, developed
from swapboard.disk.finder import find_cards, networks
from swapboard.photo.closer import in_open_card, on_sheets, overlooked, quarters
from swapboard.photo.geometry import intersection_over_union
from swapboard.photo.learned import without_parts
from swapboard.photo.looking import Looks
from swapboard.photo.networks import PROPOSER_SIDE
from swapboard.photo.refining import Refined
from swapboard.photo.voting import Glances
from swapboard.photo.warps import Pyramid

TWO = [(300, 300), (300, 700)]
FIVE = [(10, 150), (280, 150), (550, 150), (10, 530), (280, 530)]


def lid(
    seed: int, places: list[tuple[int, int]], size: tuple[int, int] = (850, 1170),
    tones: tuple[int, int] = (244, 247),
) -> tuple[np.ndarray, np.ndarray]:
    """A scan at 100 px an inch under a lid, cards on paper of other tones: picture and quads."""
    rng = np.random.default_rng([seed, 31])
    picture = np.full((size[1], size[0], 3), tones[0], np.float32)
    quads = []
    for x, y in places:
        picture[y - 1 : y + 352, x - 1 : x + 252] -= 14
        paper = np.full(3, tones[1], np.float32)
        picture[y : y + 350, x : x + 250] = cv2.resize(
            card_art(rng, paper), (250, 350), interpolation=cv2.INTER_AREA)
        quads.append(box(x, y, 250, 350))
    return developed(picture, rng), np.array(quads)


def box(x: float, y: float, wide: float, tall: float) -> np.ndarray:
    return np.array([[x, y], [x + wide, y], [x + wide, y + tall], [x, y + tall]], float)


@pytest.mark.parametrize("places", [TWO, FIVE], ids=["two", "five"])
@pytest.mark.parametrize("seed", [1, 3, 4, 5])
def test_cards_on_a_white_lid_are_found_on_all_of_the_glass(seed, places):
    """A picture of that proportion looked to the proposer like one card, and went out as one."""
    picture, quads = lid(seed, places)
    found = find_cards(picture)
    assert len(found) == len(quads)
    for quad in quads:
        assert max(intersection_over_union(np.array(card.corners), quad) for card in found) > 0.95
    assert sum(card.doubtful for card in found) <= 1


def test_a_lid_on_which_nothing_is_seen_does_not_go_out_as_a_card():
    """Nothing runs along the picture's sides, and nothing lies in it: somebody should look."""
    picture, _ = lid(3, [])
    cv2.circle(picture, (300, 700), 220, (120, 150, 60), -1)
    found = find_cards(picture)
    assert found and all(card.doubtful for card in found)


class Seen(Looks):
    """Looks that see a sure card in whatever is proposed."""

    def sure_ones(self, quads):
        return [reading(quad) for quad in quads]


class Proposed(Glances):
    """Glances that see these quadrilaterals, each in the part that holds it."""

    def __init__(self, *quads: np.ndarray, share: float = 1.0) -> None:
        self.seen, self.share, self.asked = quads, share, []

    def quads_within(self, quad: np.ndarray) -> list[np.ndarray]:
        self.asked.append(quad)
        return [one for one in self.seen
                if one.min(axis=0).tolist() >= quad.min(axis=0).tolist()
                and (one.max(axis=0) <= quad.max(axis=0)).all()
                and (one.min(axis=0) >= quad.min(axis=0)).all()]

    def quads_on(self, quad: np.ndarray, _: Pyramid) -> list[np.ndarray]:
        return self.quads_within(quad)

    def share_on(self, _: np.ndarray) -> float:
        return self.share


def reading(quad: np.ndarray, tight: float = 0.99) -> Refined:
    return Refined(quad, tight, 0.99, 0.0, np.ones(4), 0.0, 0.2, 0.3)


def looks_at(*quads: np.ndarray, size: tuple[int, int] = (1600, 1200)) -> Looks:
    looks = Seen(np.zeros((size[1], size[0], 3), np.uint8), None)
    looks.looked = [reading(quad) for quad in quads]
    return looks


PAGE = box(300, 100, 720, 1000)
CARDS = [box(320, 120, 200, 280), box(560, 120, 200, 280), box(320, 760, 200, 280)]


def test_two_cards_of_a_size_on_what_looks_like_one_are_seen_on_it():
    glances = Proposed(*CARDS[:2])
    found = on_sheets(looks_at(PAGE), glances)
    assert [one.quad.tolist() for one in found] == [quad.tolist() for quad in CARDS[:2]]
    assert [quad.tolist() for quad in glances.asked] == [PAGE.tolist()]


@pytest.mark.parametrize("on_it", [
    CARDS[:1],
    [CARDS[0], box(560, 120, 100, 140)],
    [box(320, 120, 150, 210), box(560, 120, 150, 210)],
    [box(320, 120, 235, 235), box(560, 120, 235, 235)],
], ids=["one", "of two sizes", "small", "square"])
def test_what_may_be_drawn_in_a_card_is_left_in_it(on_it):
    """One alone; two of unlike sizes; panels less than a twentieth of it; no card's shape."""
    assert on_sheets(looks_at(PAGE), Proposed(*on_it)) == []


def test_on_a_binders_cover_cards_are_smaller_than_on_a_page():
    """Pages lie on more than they are: here six hundredths of it are enough."""
    cards = [box(400, 200, 176, 246), box(600, 200, 176, 246)]
    assert len(on_sheets(looks_at(PAGE), Proposed(*cards))) == 2


def test_an_open_cards_panels_are_left_in_it():
    strip = box(100, 100, 400, 1000)
    panels = [box(100, 100, 400, 285), box(100, 815, 400, 285)]
    assert on_sheets(looks_at(strip), Proposed(*panels)) == []


@pytest.mark.parametrize("inset, kept", [(0, 0), (4, 0), (13, 2)])
def test_the_halves_of_what_looks_like_one_card_are_its_panels(inset, kept):
    """With a pale line along the fold; where the table shows between them they are two cards."""
    whole = box(300, 100, 720, 504)
    halves = [box(300, 100, 360 - inset, 504), box(660 + inset, 100, 360 - inset, 504)]
    assert len(on_sheets(looks_at(whole), Proposed(*halves))) == kept


def test_among_more_cards_none_is_taken_for_a_sheet():
    glances, beside = Proposed(*CARDS), [box(1100, 100, 300, 420), box(1100, 600, 300, 420)]
    assert on_sheets(looks_at(PAGE, *beside), glances) == []
    assert glances.asked == []


def test_small_cards_are_no_sheets():
    glances = Proposed(*CARDS)
    assert on_sheets(looks_at(CARDS[0]), glances) == [] and glances.asked == []


def test_what_is_not_quite_a_fourth_of_the_picture_lies_in_one_of_its_quarters():
    """As wide and tall; wherever it is."""
    for x in range(0, 1251, 50):
        for y in range(0, 920, 40):
            card = box(x, y, 350, 280)
            assert any((card.min(axis=0) >= part.min(axis=0)).all()
                       and (card.max(axis=0) <= part.max(axis=0)).all()
                       for part in quarters(1600, 1200))


UNLIKE = [box(320, 120, 200, 280), box(600, 120, 160, 224), box(320, 760, 130, 182),
          box(1100, 120, 240, 336)]


def test_where_the_proposer_overlooks_a_sure_card_it_may_others():
    four = looks_at(*UNLIKE)
    other = box(800, 760, 200, 280)
    assert overlooked(four, Proposed(other), None) == []
    glances = Proposed(other, UNLIKE[0] + 20, share=0.2)
    (found,) = overlooked(four, glances, None)
    assert found.quad is other and len(glances.asked) == 4


def test_of_few_cards_the_proposer_overlooks_one_that_has_its_like():
    """Where two of one size lie, and it sees neither, more may; one alone may be anything."""
    other = box(800, 760, 200, 280)
    glances = Proposed(other, share=0.2)
    (found,) = overlooked(looks_at(*CARDS[:2]), glances, None)
    assert found.quad is other and len(glances.asked) == 4
    assert overlooked(looks_at(*CARDS[:2]), Proposed(other), None) == []


@pytest.mark.parametrize("known, others, found", [
    ([], [box(200, 100, 80, 112), box(1200, 900, 80, 112)], 2), ([], [box(200, 100, 80, 112)], 0),
    ([box(300, 300, 200, 280)], [box(1200, 900, 200, 280)], 0),
], ids=["two", "one", "beside a sure one"])
def test_where_no_card_is_seen_from_afar_some_are_from_nearer(known, others, found):
    """Those that have their like: on bold cloth the proposer overlooks all of them."""
    assert len(overlooked(looks_at(*known), Proposed(*others), None)) == found


@pytest.mark.parametrize("count, asked", [(3, 4), (4, 0)])
def test_where_many_may_be_cards_though_none_surely_is_nothing_was_overlooked(count, asked):
    looks = looks_at()
    looks.looked = [reading(quad, 0.7) for quad in UNLIKE[:count]]
    glances = Proposed()
    overlooked(looks, glances, None)
    assert len(glances.asked) == asked


@pytest.mark.parametrize("cards", [UNLIKE[:3], [*CARDS, box(800, 120, 160, 224)]],
                         ids=["few", "of one size"])
def test_beside_few_cards_or_such_as_say_how_large_one_is_nothing_is_sought_elsewhere(cards):
    """More of that size are looked for beside them; few, of which none has its like, are alone."""
    glances = Proposed(box(800, 760, 200, 280), share=0.2)
    assert overlooked(looks_at(*cards), glances, None) == [] and glances.asked == []


def test_a_panel_is_known_from_a_card_beside_an_open_one():
    """What lies in a likely open card is part of it; in a doubtful one it may be a card."""
    strip = reading(box(0, 0, 700, 250), 0.97)
    panel, beside = box(0, 0, 350, 250), box(700, 0, 350, 250)
    assert in_open_card(panel, [strip]) and not in_open_card(beside, [strip])
    assert not in_open_card(panel, [reading(box(0, 0, 700, 250), 0.6)])


@pytest.mark.parametrize("look, parts, proportion", [
    (lambda glances, quad, _: glances.quads_within(quad), 1, 1.3),
    (lambda glances, quad, picture: glances.quads_on(quad, Pyramid(picture)), 2, 1.05),
], ids=["within", "on"])
def test_from_nearer_no_part_has_a_cards_proportion(look, parts, proportion):
    """What is shown to the proposer: a page broader, or its halves, for it has one; a wide sheet as
    it is."""
    picture = np.zeros((1500, 1200, 3), np.uint8)
    shown = []

    class Shown:
        def maps(self, seen: np.ndarray) -> np.ndarray:
            wide, tall = (np.flatnonzero(seen.any(axis=(0, 2))).size,
                          np.flatnonzero(seen.any(axis=(1, 2))).size)
            shown.append((wide, tall))
            return np.zeros((11, 128, 128), np.float32)

    picture[:] = 90
    glances = Glances(picture, Shown())
    shown.clear()
    look(glances, box(100, 100, 1000, 1400), picture)
    assert len(shown) == parts and all(max(one) == PROPOSER_SIDE for one in shown)
    assert all(max(one) / min(one) == pytest.approx(proportion, rel=0.03) for one in shown)
    look(glances, box(100, 100, 1000, 500), picture)
    wide, tall = shown[-1]
    assert len(shown) == parts + 1 and wide / tall == pytest.approx(1040 / 520, rel=0.02)


@pytest.mark.parametrize("seed", [1, 3, 4])
def test_four_cards_edge_to_edge_are_four(seed):
    """Together they have a card's proportion."""
    places = [(225, 235), (475, 235), (225, 585), (475, 585)]
    picture, quads = lid(seed, places, (950, 1170), (110, 225))
    found = find_cards(picture)
    assert len(found) == 4
    for quad in quads:
        assert max(intersection_over_union(np.array(card.corners), quad) for card in found) > 0.9


@pytest.mark.parametrize("count, kept", [(4, 4), (3, 0)], ids=["a sheet", "an open card"])
def test_what_holds_more_cards_than_a_card_has_panels_is_a_sheet(count, kept):
    """Seen as one where readings lap over each other; sure as it is, it takes no cards away."""
    parts = [reading(box(210 * at, 0, 200, 280)) for at in range(count)]
    whole = reading(box(0, 0, 840, 280))
    left = without_parts(parts, [whole])
    assert [one is whole for one in left] == ([False] * kept or [True])


@pytest.mark.parametrize("seen, part, kept", [
    (0.99, 0.99, 0), (0.93, 0.99, 3), (0.93, 0.9, 0), (0.85, 0.8, 3)])
def test_what_looks_less_like_a_card_than_its_parts_is_none(seen, part, kept):
    """Cards side by side, seen as one: they stay beside it; the panels of what surely is one that
    lies open do not."""
    parts = [replace(reading(box(210 * at, 0, 210, 280)), tight=part) for at in range(3)]
    whole = replace(reading(box(0, 0, 630, 280)), tight=seen)
    left = without_parts(parts, [whole])
    assert [one is whole for one in left] == [False] * kept + [True]


@pytest.mark.parametrize("others, tight, beside, left", [
    ([0, 220], 0.99, 0.99, 4), ([0], 0.99, 0.99, 1), ([0, 20], 0.99, 0.99, 2),
    ([0, 220], 0.85, 0.99, 2), ([0, 220], 0.99, 0.85, 2),
])
def test_two_cards_seen_as_one_stay_two_beside_cards_as_large(others, tight, beside, left):
    """One of them may be of another make: it takes two to say how large a card is, side by side,
    and what surely is one for them to say it of."""
    halves = [replace(reading(box(200 * at, 0, 200, 280)), tight=tight) for at in range(2)]
    known = [replace(reading(box(x, 400, 200, 280)), tight=beside) for x in others]
    whole = reading(box(0, 0, 400, 280))
    kept = without_parts(halves + known, [whole])
    assert len(kept) == left + 1 and kept[-1] is whole


def test_a_vote_far_off_its_card_is_looked_at_to_the_end():
    """Its first look sees little of a card; the next do."""
    picture, quads = lid(1, [(300, 300)])
    looks = Looks(picture, networks())
    (found,) = looks.sure_ones([quads[0] + (40, 30)])
    assert intersection_over_union(found.quad, quads[0]) > 0.95


@pytest.mark.parametrize("seed, cards, shrunk", [(1, 9, 0.6), (2, 7, 0.6), (2, 7, 0.45)])
def test_the_cards_of_a_turned_page_are_found(seed, cards, shrunk):
    """Small in the photo and turned on its table it looked to the proposer like one card, also
    where it was cut out with much of the table."""
    shot = page(seed, cards)
    height, width = shot.picture.shape[:2]
    onto = cv2.getRotationMatrix2D((width / 2, height / 2), 45, shrunk)
    picture = cv2.warpAffine(shot.picture, onto, (width, height), flags=cv2.INTER_AREA,
                             borderMode=cv2.BORDER_REPLICATE)
    quads = cv2.transform(shot.quads, onto)
    found = [np.array(card.corners) for card in find_cards(picture)]
    for quad in quads:
        assert max((intersection_over_union(one, quad) for one in found), default=0) > 0.9
