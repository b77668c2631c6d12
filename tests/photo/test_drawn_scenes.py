"""What is done to the scenes that the finder's networks learn from, where no network is needed."""

import cv2
import numpy as np

from finder_training.glints import with_glints
from finder_training.scenes import KINDS, WITNESSED, Scene, any_kind
from finder_training.stage import Laid, Stage
from finder_training.table.boards import on_boards
from finder_training.table.sleeves import sleeved
from swapboard.photo.geometry import contains, intersection_over_union
from swapboard.photo.nearby import grown


def test_film_glints_in_pockets_full_and_empty_and_nowhere_else():
    """Light is added, so that it tells neither from the other."""
    full, empty = (np.array([[x, 20], [x + 50, 20], [x + 50, 90], [x, 90]], float)
                   for x in (10, 100))
    black = np.zeros((110, 170, 3), np.uint8)
    seen = np.zeros((110, 170))
    for seed in range(20):
        scene = Scene("page", black, full[None], np.ones((1, 2)), np.ones(1), np.zeros(1, bool),
                      np.zeros((110, 170), np.uint8), empty[None])
        lit = with_glints(scene, np.random.default_rng(seed))
        assert lit.picture.dtype == np.uint8 and lit.quads is scene.quads
        seen += lit.picture.mean(axis=2)
    lights = seen[30:80, 20:50].mean(), seen[30:80, 110:140].mean()
    assert min(lights) > 100 and max(lights) < 2 * min(lights)
    assert not seen[:, 65:95].any() and not seen[95:].any() and not black.any()


def test_the_witness_is_shown_more_pages():
    """A quarter of its scenes, of every kind that there is."""
    rng = np.random.default_rng(4)
    drawn = [any_kind(rng, WITNESSED) for _ in range(2000)]
    assert set(WITNESSED) == set(KINDS) == set(drawn)
    assert 0.2 < drawn.count("page") / 2000 < 0.28
    assert 0.06 < [any_kind(rng) for _ in range(2000)].count("page") / 2000 < 0.13


QUAD = np.array([[60, 50], [160, 50], [160, 190], [60, 190]], float)


def stage() -> Stage:
    """A plain table with one card on it, and something else beside it on the right."""
    made = Stage(np.full((240, 260, 3), 128, np.float32), np.zeros((240, 260), np.uint8),
                 np.eye(3), np.array([1.0, 1.0]))
    made.cards.append(Laid(QUAD, (2.5, 3.5), 14000.0))
    made.owner[50:190, 60:160] = 1
    made.over[:, 165:] = 1
    return made


def test_the_sides_of_a_board_are_drawn_about_its_card_and_on_nothing_else():
    """Never on all sides of it."""
    for seed in range(12):
        made = stage()
        on_boards(made, np.random.default_rng(seed))
        changed = np.abs(made.picture - 128).max(axis=2) > 1
        assert changed.any() and not changed[made.owner > 0].any()
        assert not changed[made.over > 0].any() and not changed[:10].any()
        darkest = np.abs(made.picture - 128).max(axis=2)
        sides = (darkest[44:49, 70:150], darkest[191:196, 70:150], darkest[60:180, 54:59])
        assert min(np.median(side) for side in sides) < max(side.max() for side in sides) / 2


def test_a_sleeve_lies_about_its_card_and_no_farther_than_one_does():
    """Half an inch and its shadow at most; on the card it is but film, and a glint."""
    rims = 0
    for seed in range(20):
        made = stage()
        rim = sleeved(made.picture, made.cards[0], np.random.default_rng(seed))
        changed = np.abs(made.picture - 128).max(axis=2)
        beyond = cv2.fillConvexPoly(np.ones(changed.shape, np.uint8), np.int32(grown(rim, 0.02)), 0)
        assert made.picture[beyond > 0].max() <= 128
        assert all(contains(rim, corner) for corner in made.cards[0].quad)
        assert intersection_over_union(rim, made.cards[0].quad) > 0.5
        assert not changed[:20].any() and not changed[:, :25].any() and changed.any()
        rims += changed[made.owner == 0].max() > changed[80:160, 90:130].max()
    assert rims >= 10
