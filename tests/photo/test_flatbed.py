"""What else lies on a scanner's glass beside the cards that were found."""

import numpy as np
import pytest

from swapboard.photo.flatbed import is_scanned, lies_beside


def glass(*cards: tuple[int, int, int], lid: int = 245) -> tuple[np.ndarray, list[np.ndarray]]:
    """A scan at 200 px an inch of cards of some grey, left and top in px, and their corners."""
    rng = np.random.default_rng(7)
    picture = np.full((1600, 1200, 3), lid, np.float64)
    quads = []
    for left, top, grey in cards:
        picture[top : top + 700, left : left + 500] = grey
        quads.append(np.array([[left, top], [left + 500, top], [left + 500, top + 700],
                               [left, top + 700]], float))
    picture += rng.normal(0, 2, picture.shape)
    return picture.clip(0, 255).astype(np.uint8), quads


@pytest.mark.parametrize("lid, grey", [(245, 120), (15, 160)])
def test_a_card_beside_those_found_lies_there(lid, grey):
    """Under a white lid and a black one; not once it is found too."""
    picture, quads = glass((60, 60, grey), (640, 60, grey), (60, 830, grey), lid=lid)
    assert all(is_scanned(picture, quad) for quad in quads)
    assert lies_beside(picture, quads[:2])
    assert not lies_beside(picture, quads)


def test_what_hardly_differs_from_the_lid_or_is_too_small_is_no_card_more():
    """A shadow, or a slip with a note on it."""
    picture, quads = glass((60, 60, 120), (640, 830, 225))
    assert not lies_beside(picture, quads[:1])
    picture, quads = glass((60, 60, 120))
    picture[900:1200, 700:1000] = 60
    assert not lies_beside(picture, quads)
    picture[900:1300, 700:1000] = 60
    assert lies_beside(picture, quads)
