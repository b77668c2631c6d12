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


def nowhere(_: np.ndarray) -> bool:
    """Where a card may have been overlooked."""
    return False


def unlike(picture: np.ndarray, *quads: np.ndarray) -> list[float]:
    """How unlike the bare table each is."""
    places = quads or (PLACE,)
    return unlike_bare(Pyramid(picture), SIZE, places, [True] * len(places), nowhere)


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
    """Two cards alike, side by side, are not like the table for that; nor if one was overlooked
    that may be a card."""
    picture = table("easy")
    places = [PLACE - (210, 0), PLACE]
    for place in places:
        left, top, right, bottom = (int(v) for v in (*place[0], *place[2]))
        picture[top:bottom, left:right] = (250, 40, 40)
    assert min(unlike(picture, *places)) > 1.2
    assert unlike(picture)[0] < 0.1

    def may_be_card(place: np.ndarray) -> bool:
        return abs(place.mean(axis=0) - places[0].mean(axis=0)).max() < 40

    assert unlike_bare(Pyramid(picture), SIZE, [PLACE], [True], may_be_card)[0] > 1.2


def test_places_are_looked_at_beside_likely_cards_alone():
    """What is no card may lie far off, where all is different."""
    picture = table("wood")
    picture[:, 720:] = 230
    far, card = PLACE + (350, 0), PLACE - (330, 0)
    both, one = ([unlike_bare(Pyramid(picture), SIZE, [card, far], [True, likely], nowhere)[1]
                  for likely in (True, False)])
    assert both < 0.3 and one > 0.8


@pytest.mark.parametrize("kind", ["wood", "grid", "cloth"])
def test_what_the_frame_cuts_is_like_its_table_too(kind):
    """Its border is not drawn out beyond the frame: streaks are no wood."""
    assert unlike(table(kind), PLACE + (480, 400))[0] < 0.3


def test_a_sliver_at_the_border_is_no_bare_place():
    """A strip there of the card's own colour says nothing against it."""
    picture, card = table("easy"), PLACE + (330, 0)
    picture[210:490, 730:930] = picture[:, 935:] = (250, 40, 40)
    assert unlike(picture, card)[0] > 1.2


@pytest.mark.parametrize("quad", [
    [[370, -136], [430, -136], [550, 64], [250, 64]], PLACE - (0, 460), PLACE + (580, 0)])
def test_what_the_frame_cuts_is_measured_where_it_shows(quad):
    """Or not at all, where next to nothing does: never half a number."""
    (value,) = unlike(table("wood"), np.array(quad, float))
    assert value == NOT or 0 <= value < 0.8


def test_where_no_place_is_bare_nothing_speaks_against_a_card():
    """A card that fills its picture."""
    whole = np.array([[20, 10], [980, 10], [980, 750], [20, 750]], float)
    assert unlike(table("wood"), whole) == [NOT]


def test_without_a_likely_card_what_was_seen_says_where_to_look():
    """Beside whatever it is."""
    assert unlike_bare(Pyramid(table("grid")), SIZE, [PLACE], [False], nowhere)[0] < 0.8
