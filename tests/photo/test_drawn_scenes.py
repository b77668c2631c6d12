"""What is done to the scenes that the finder's networks learn from, where no network is needed."""

import numpy as np

from finder_training.glints import with_glints
from finder_training.scenes import KINDS, WITNESSED, Scene, any_kind


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
