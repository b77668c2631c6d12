"""What looks just like the bare table beside it is told from what does not."""

import numpy as np
import pytest

from photo.scenes import draw_table
from swapboard.photo.bare import NOT, unlike_bare
from swapboard.photo.warps import Pyramid

SIZE = (1000, 760)
PLACE = np.array([[400, 210], [600, 210], [600, 490], [400, 490]], float)


def table(kind: str, seed: int = 1) -> np.ndarray:
    """A table's picture uint8 [760, 1000, 3]."""
    drawn = draw_table(kind, *SIZE, np.random.default_rng(seed))
    return np.clip(drawn, 0, 255).astype(np.uint8)


def unlike(picture: np.ndarray, *quads: np.ndarray) -> list[float]:
    """How unlike the bare table each is."""
    return unlike_bare(Pyramid(picture), SIZE, quads or (PLACE,), [True] * max(len(quads), 1))


@pytest.mark.parametrize("kind", ["easy", "wood", "grid", "cloth"])
def test_a_place_on_the_table_is_like_the_places_beside_it(kind):
    """Whatever lies on it as clear as film; what is a table's kind of another seed is not."""
    bare = table(kind)
    filmed = bare.copy()
    left, top, right, bottom = (int(v) for v in (*PLACE[0], *PLACE[2]))
    filmed[top:bottom, left:right] = 0.93 * filmed[top:bottom, left:right] + 10
    card = bare.copy()
    card[top:bottom, left:right] = table("wood" if kind != "wood" else "cloth", 5)[
        top:bottom, left:right]
    assert unlike(bare)[0] < 0.8
    assert unlike(filmed)[0] < 1.0
    assert unlike(card)[0] > 1.2


def test_another_card_is_no_bare_place():
    """Two cards alike, side by side, are not like the table for that."""
    picture = table("easy")
    places = [PLACE - (210, 0), PLACE]
    for place in places:
        left, top, right, bottom = (int(v) for v in (*place[0], *place[2]))
        picture[top:bottom, left:right] = (250, 40, 40)
    assert min(unlike(picture, *places)) > 1.2
    assert unlike(picture)[0] < 0.1


def test_where_no_place_is_bare_nothing_speaks_against_a_card():
    """A card that fills its picture."""
    whole = np.array([[20, 10], [980, 10], [980, 750], [20, 750]], float)
    assert unlike(table("wood"), whole) == [NOT]


def test_without_a_likely_card_what_was_seen_says_where_to_look():
    """Beside whatever it is."""
    assert unlike_bare(Pyramid(table("grid")), SIZE, [PLACE], [False])[0] < 0.8
