"""The invented cards that the finder is trained on can be drawn in any shape."""

import numpy as np
import pytest

from finder_training.art.cards import draw_card


@pytest.mark.parametrize("width, height", [(90, 126), (126, 90), (640, 48), (48, 640), (32, 32)])
def test_a_card_is_drawn_in_any_shape(width, height):
    """Open cards' strips are wide and low; each seed draws another kind of art."""
    for seed in range(120):
        card = draw_card(width, height, np.random.default_rng([seed, width, height]))
        assert card.shape == (height, width, 3) and card.dtype == np.uint8
