"""Pages of clear pockets, some of them empty."""

import numpy as np
import pytest

from finder_training.scenes import draw_scene
from swapboard.disk.finder import find_cards
from swapboard.photo.geometry import from_top_left, intersection_over_union


@pytest.mark.parametrize("seed", [62, 71, 96])
def test_no_empty_pocket_is_answered(seed):
    """Of a page with four cards and five empty pockets the four cards are answered, all of them."""
    page = draw_scene("page", seed, 900)
    assert (len(page.quads), len(page.decoys)) == (4, 5)
    crops = [np.array(card.corners) for card in find_cards(page.picture)]
    for empty in page.decoys:
        assert not any(intersection_over_union(crop, empty) > 0.5 for crop in crops)
    for quad in page.quads:
        upright = from_top_left(quad)
        assert any(intersection_over_union(crop, upright) > 0.9 for crop in crops)
