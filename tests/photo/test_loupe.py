"""A card's sides seen near: sleeves, frames and shadows are told from its own edge."""

import cv2
import numpy as np
import pytest

from finder_training.loupe.shown import UNASKED, any_scene, guessed, led, off_by
from finder_training.stage import Laid
from finder_training.table import sleeves
from swapboard.disk.finder import find_cards, networks
from swapboard.photo.geometry import intersection_over_union
from swapboard.photo.loupe import PLACES, STEP, _agrees, _off, moved, on_own_edges, strips
from swapboard.photo.warps import Pyramid

SIZE = (900, 1000)
CARD = np.array([[300, 250], [600, 250], [600, 670], [300, 670]], float)


def box(wide: float, tall: float, x: float = 450, y: float = 460) -> np.ndarray:
    """Corners [4, 2] px of a rectangle about a place."""
    half = np.array([wide, tall]) / 2
    return (x, y) + half * np.array([[-1, -1], [1, -1], [1, 1], [-1, 1]])


def photo(*cards: np.ndarray) -> np.ndarray:
    """Coloured cards uint8 [h, w, 3] on a grained grey table."""
    picture = np.random.default_rng(1).normal(120, 6, (SIZE[1], SIZE[0], 3))
    for card in cards:
        low, high = card[0].astype(int), card[2].astype(int)
        picture[low[1] : high[1], low[0] : high[0]] = (200, 90, 60)
        for step in range(1, 6):
            middle = low + (high - low) * np.array([step % 3 + 1, step]) // 6
            cv2.circle(picture, tuple(int(v) for v in middle), 22, (40 * step, 200, 160), -1)
    return cv2.GaussianBlur(picture, (3, 3), 0).clip(0, 255).astype(np.uint8)


def nearer(picture: np.ndarray, quads: list, sure: list | None = None) -> list[np.ndarray]:
    return on_own_edges(quads, sure or [True] * len(quads), Pyramid(picture), networks(),
                        picture.shape[1::-1])


@pytest.mark.parametrize("turn", range(4))
@pytest.mark.parametrize("side", range(4))
def test_a_strip_shows_the_table_first_and_the_edge_where_it_is(turn, side):
    """Each side is 4 % of the card's length too far out; then the edge is that far in."""
    picture = photo(CARD)
    wrong = np.roll(moved(CARD, np.full(4, -0.04)), turn, axis=0)
    strip = strips(Pyramid(picture), wrong)[side]
    assert strip.shape == (3, 32, 96) and strip.dtype == np.float32
    red = strip[0].mean(axis=0) - strip[2].mean(axis=0)
    edge = np.flatnonzero(red > (red[:20].mean() + red[-8:].mean()) / 2)[0]
    assert PLACES[edge] == pytest.approx(0.04 / (1 + 2 * 0.04), abs=2 * STEP)


def test_a_strip_is_read_along_its_side_clockwise():
    picture = np.zeros((SIZE[1], SIZE[0], 3), np.uint8)
    picture[:, :, 0] = np.linspace(0, 255, SIZE[0])
    picture[:, :, 1] = np.linspace(0, 255, SIZE[1])[:, None]
    top, right, bottom, left = strips(Pyramid(picture), CARD).mean(axis=3)
    assert (np.diff(top[0][::4]) > 0).all() and (np.diff(right[1][::4]) > 0).all()
    assert (np.diff(bottom[0][::4]) < 0).all() and (np.diff(left[1][::4]) < 0).all()


def test_sides_move_as_far_as_is_said():
    """Also where the table is seen at a slant: measured on the card's own plane."""
    slanted = np.array([[300, 250], [640, 300], [600, 690], [270, 640]], float)
    off = np.array([0.03, -0.02, 0.0, 0.04])
    assert off_by(slanted, moved(slanted, off)) == pytest.approx(off, abs=2e-4)
    far = off_by(slanted, moved(slanted, np.array([0.03, 0.2, 0.0, 0.04])))
    assert far[1] == UNASKED and (far[[0, 2, 3]] < 0.1).all()


class Says:
    """A network that says of every side that its edge lies so far in, and how sure it is of that
    place and two beside it."""

    def __init__(self, off: float, sure: float) -> None:
        self.shares, self.asked = _about(off, sure), 0

    def edges(self, strips: np.ndarray) -> np.ndarray:
        self.asked += 1
        return self.shares


def _about(off: float, sure: float) -> np.ndarray:
    shares = np.full((4, 96), (1 - sure) / 93)
    at = int(np.abs(PLACES - off).argmin())
    shares[:, at - 1 : at + 2] = sure / 3
    return shares


@pytest.mark.parametrize("off, sure, moves", [
    (0.021, 0.65, True), (0.021, 0.5, False), (-0.021, 0.85, True), (-0.021, 0.75, False),
    (0.011, 0.9, True), (0.007, 0.9, False),
])
def test_a_side_moves_where_the_network_is_sure_of_an_edge_not_just_beside_it(off, sure, moves):
    """Surer, where that is farther out."""
    says = Says(off, sure)
    card = box(300, 480)
    (found,) = on_own_edges([card], [True], Pyramid(photo(card)), says, SIZE)
    assert (found is not card) is moves
    assert says.asked == (3 if moves else 1)
    if moves:
        steps = off_by(card, found)
        assert np.sign(steps) == pytest.approx(np.sign(off)) and np.abs(steps).min() > 2 * abs(off)


@pytest.mark.parametrize("surest, other, expected", [
    ((0.03, 0.9), (0.032, 0.4), 0.032), ((0.03, 0.9), (0.06, 0.4), 0.0),
    ((0.03, 0.9), (0.032, 0.2), 0.0), ((0.0, 0.9), (0.032, 0.4), 0.0),
])
def test_a_side_goes_with_the_surest_where_it_may_as_well(surest, other, expected):
    """What is slipped over a card mostly leaves one margin all round."""
    shares = _about(*surest)
    shares[1:] = _about(*other)[1:] + _about(0.0, 1 - other[1])[1:] - 1 / 96
    assert _off(shares)[1:] == pytest.approx(expected, abs=STEP)


def in_sleeve(margins: float, seed: int, monkeypatch) -> tuple[np.ndarray, np.ndarray]:
    """A photo of a card on a striped table in a sleeve that is wider by that, as a share of its
    length, on each side; and the sleeve's corners [4, 2] px. Plain tables would look like a band
    on the card."""
    monkeypatch.setattr(sleeves, "_margins", lambda rng: np.full(4, 3.5 * margins))
    x, y = np.arange(SIZE[0]), np.arange(SIZE[1])[:, None]
    picture = photo(CARD).astype(np.float32) + 30 * np.sin((x + 0.4 * y) / 9)[..., None]
    low, high = CARD[0].astype(int), CARD[2].astype(int)
    picture[low[1] : high[1], low[0] : high[0]] = photo(CARD)[low[1] : high[1], low[0] : high[0]]
    rim = sleeves.sleeved(picture, Laid(CARD, (2.5, 3.5), 0.0), np.random.default_rng(seed))
    assert rim == pytest.approx(moved(CARD, np.full(4, -margins)), abs=0.1)
    return picture.clip(0, 255).astype(np.uint8), rim


@pytest.mark.parametrize("margins", [0.015, 0.03, 0.045])
def test_of_a_sleeve_the_card_in_it_is_told(margins, monkeypatch):
    """2.5 by 3.5 in with an eighth of an inch or less about it (common practice, no source), and
    holders wider than that: in most of ten."""
    told = 0
    for seed in range(10):
        picture, rim = in_sleeve(margins, seed, monkeypatch)
        (found,) = nearer(picture, [rim])
        assert intersection_over_union(rim, CARD) < 0.96
        told += intersection_over_union(found, CARD) > 0.98
    assert told >= 9


def test_a_frame_drawn_in_a_card_is_left_for_its_edge():
    """A border of nearly the table's own colour, 2.5 % wide, with a thin shadow beside it."""
    inner = moved(CARD, np.full(4, 0.025))
    picture = photo(CARD).astype(np.float32)
    low, high = CARD[0].astype(int), CARD[2].astype(int)
    picture[low[1] + 3 : high[1] + 3, low[0] + 3 : high[0] + 3] *= 0.6
    picture[low[1] : high[1], low[0] : high[0]] = (128, 126, 122)
    art = photo(inner)
    low, high = inner[0].astype(int), inner[2].astype(int)
    picture[low[1] : high[1], low[0] : high[0]] = art[low[1] : high[1], low[0] : high[0]]
    (found,) = nearer(picture.astype(np.uint8), [inner])
    assert intersection_over_union(inner, CARD) < 0.93
    assert intersection_over_union(found, CARD) > 0.985


@pytest.mark.parametrize("stays", [True, False])
def test_what_has_a_cards_proportion_keeps_it(stays):
    """A paler rectangle of a card's proportion about a frame that has less of it is a card of its
    table's colour; about one that has it, it is a sleeve."""
    outer = box(300, 420) if stays else box(320, 440)
    inner = moved(outer, np.full(4, 0.025)) if stays else CARD
    picture = photo(inner).astype(np.float32)
    ring = np.zeros(picture.shape[:2], np.uint8)
    cv2.fillConvexPoly(ring, np.int32(outer), 1)
    cv2.fillConvexPoly(ring, np.int32(inner), 0)
    picture[ring > 0] += 14
    (found,) = nearer(picture.clip(0, 255).astype(np.uint8), [outer])
    assert (found is outer) is stays
    assert stays or intersection_over_union(found, CARD) > 0.98


def test_what_is_right_stays_to_the_bit():
    picture = photo(CARD)
    for quad in (CARD, CARD + 1.5):
        (found,) = nearer(picture, [quad])
        assert found is quad


def test_a_side_along_the_frame_is_left_alone():
    """Nothing is seen beyond it: there the card may go on."""
    picture = photo(CARD)[:, 312:]
    wrong = moved(CARD - (312, 0), np.array([-0.03, -0.03, -0.03, 0.03]))
    assert wrong[0, 0] == pytest.approx(0.6, abs=0.1)
    (found,) = nearer(np.ascontiguousarray(picture), [wrong])
    assert found[[0, 3], 0] == pytest.approx(wrong[[0, 3], 0], abs=0.5)
    assert found[[1, 2], 0] == pytest.approx(CARD[[1, 2], 0] - 312, abs=2)


def test_what_the_frame_cuts_stays_as_it_was():
    """Half of its strips would show what is not there."""
    picture = np.ascontiguousarray(photo(CARD)[:, 400:])
    wrong = moved(CARD - (400, 0), np.array([0.0, -0.03, 0.0, 0.0]))
    (found,) = nearer(picture, [wrong])
    assert found is wrong


def test_others_of_one_size_may_contradict():
    """In a row of four of one size one alone seems larger from near, as in a pocket: no. Where the
    others are not sure, or of no one size, what is seen near counts."""
    places = [box(150, 210, 150 + 200 * at, 460) for at in range(4)]
    larger = box(159, 222.6, 750, 460)
    picture = photo(*places[:3], larger)
    found = nearer(picture, places)
    assert all(one is other for one, other in zip(found, places, strict=True))
    found = nearer(picture, places, [False, False, True, True])
    assert intersection_over_union(found[3], larger) > 0.97
    small = [box(150, 210, 150, 460), box(130, 230, 350, 460), box(180, 180, 550, 460), places[3]]
    found = nearer(photo(*small[:3], larger), small)
    assert intersection_over_union(found[3], larger) > 0.97


@pytest.mark.parametrize("was, then, agrees", [
    (100, 101, True), (100, 102, False), (106, 103, True), (106, 108, False), (120, 130, True),
])
def test_a_nearer_look_may_bring_it_closer_to_what_the_others_have(was, then, agrees):
    """Or hardly farther; what has another size anyhow has no say in it."""
    sizes = np.array([[100, 140], [100, 140], [100, 140], [was, was * 1.4]], float)
    now = np.array([*sizes[:3], [then, then * 1.4]])
    assert _agrees(3, sizes, now, np.ones(4, bool)) is agrees


@pytest.mark.parametrize("sleeved, out", [(4, True), (1, False)])
def test_cards_in_sleeves_of_one_size_come_out_of_them_together(sleeved, out):
    """Where most shrink to one size that is theirs; one alone that would be smaller than the others
    stays: something in it looks like a card's edge."""
    within = [box(150, 210, 150 + 200 * at, 460) for at in range(4)]
    rims = [box(160, 220, 150 + 200 * at, 460) for at in range(4)]
    cards = [within[at] if at < sleeved else rims[at] for at in range(4)]
    picture = photo(*cards).astype(np.float32)
    for at in range(sleeved):
        ring = np.zeros(picture.shape[:2], np.uint8)
        cv2.fillConvexPoly(ring, np.int32(rims[at]), 1)
        cv2.fillConvexPoly(ring, np.int32(within[at]), 0)
        picture[ring > 0] += 14
    found = nearer(picture.clip(0, 255).astype(np.uint8), rims)
    for one, card in zip(found[:sleeved], within, strict=False):
        assert (intersection_over_union(one, card) > 0.97) is out


def test_one_wrong_among_others_is_brought_to_their_size():
    places = [box(150, 210, 150 + 200 * at, 460) for at in range(4)]
    wrong = [*places[:3], moved(places[3], np.full(4, -0.03))]
    found = nearer(photo(*places), wrong)
    assert intersection_over_union(found[3], places[3]) > 0.98


def test_on_scenes_not_trained_on_most_sides_are_told():
    """Guesses up to 7.5 % off: of the sides it is sure of, nine in ten are right."""
    sure = right = asked = 0
    for seed in range(36):
        rng = np.random.default_rng([17, seed])
        kind = ("single", "cluttered", "low contrast", "edged", "other", "folded")[seed % 6]
        scene, _ = any_scene(rng, [], kind)
        for quad, shown, cut in list(zip(scene.quads, scene.visible, scene.cut, strict=True))[:2]:
            if shown < 0.97 or cut:
                continue
            guess = guessed(quad, rng)
            off = off_by(guess, quad)
            shares = networks().edges(strips(Pyramid(scene.picture), guess))
            near = np.abs(np.arange(96) - shares.argmax(axis=1)[:, None]) <= 3
            told, asks = (shares * near).sum(axis=1) > 0.6, off < UNASKED
            good = np.abs(PLACES[shares.argmax(axis=1)] - off) < 0.006
            asked, sure = asked + asks.sum(), sure + (told & asks).sum()
            right += (told & asks & good).sum()
    assert asked > 90 and sure > 0.75 * asked
    assert right > 0.9 * sure


def test_guesses_are_led_as_the_refiner_leads():
    """Onto an edge near them, with their corners in the same order; nowhere, where none is."""
    picture = photo(CARD)
    for turn in range(4):
        card = np.roll(CARD, turn, axis=0)
        guess = moved(card, np.full(4, -0.02))
        found = led(guess, Pyramid(picture), SIZE, networks())
        assert np.abs(found - card).max() < 3
    bare = np.full_like(picture, 128)
    left = led(CARD, Pyramid(bare), SIZE, networks())
    assert intersection_over_union(left, CARD) >= 0.6


def test_the_crop_of_a_card_in_its_sleeve_is_the_card(monkeypatch):
    """Of ten with a margin of 4 mm nine."""
    best = []
    for seed in range(10):
        picture, _ = in_sleeve(0.045, seed, monkeypatch)
        (card,) = find_cards(picture)
        best.append(intersection_over_union(np.array(card.corners), CARD))
    assert sum(one > 0.98 for one in best) >= 9
