"""What from afar is seen as one card is one, whatever looks like cards in it from near."""

from types import SimpleNamespace

import numpy as np
import pytest

from swapboard.photo.closer import on_sheets
from swapboard.photo.gathering import UNIT
from swapboard.photo.looking import Looks
from swapboard.photo.mirrored import STRIDE
from swapboard.photo.refining import Refined
from swapboard.photo.seen_whole import Whole, seen_whole, without_art, without_pairs
from swapboard.photo.voting import Glances, Votes


def box(x: float, y: float, wide: float, tall: float) -> np.ndarray:
    return np.array([[x, y], [x + wide, y], [x + wide, y + tall], [x, y + tall]], float)


def reading(
    quad: np.ndarray, tight: float = 0.99, loose: float = 0.99, hidden: float = 0.0
) -> Refined:
    return Refined(quad, tight, loose, hidden, np.ones(4), 0.0, 0.2, 0.3)


CARD = box(80, 80, 240, 336)
PATCHES = [box(80 + 80 * x, 80 + 112 * y, 80, 112) for y in range(3) for x in range(3)]


def seen(*voted: tuple[np.ndarray, np.ndarray], share: float = 0.95) -> Votes:
    """A picture of 512 px in which what lies in the first quad votes for the second, and so on."""
    maps = np.zeros((11, 128, 128), np.float32)
    for where, quad in voted:
        left, top, right, bottom = (round(v / STRIDE) for v in (*where[0], *where[2]))
        y, x = np.mgrid[top:bottom, left:right]
        here = (np.stack([x, y], axis=-1) + 0.5) * STRIDE
        maps[0, top:bottom, left:right] = share
        ways = (quad[:, None, None] - here) / UNIT
        maps[3:, top:bottom, left:right] = ways.transpose(0, 3, 1, 2).reshape(8, *x.shape)
    return Votes(maps, np.ones((128, 128), bool), np.ones(2), np.zeros(2))


def glances_at(votes: Votes) -> Glances:
    glances = Glances.__new__(Glances)
    glances._near = votes
    return glances


@pytest.mark.parametrize("voted, share", [
    ([(CARD, CARD)], 1.0),
    ([(patch, patch) for patch in PATCHES], 0.0),
    ([(CARD, CARD), (box(80, 80, 240, 168), PATCHES[4])], 0.5),
    ([(CARD, CARD), (PATCHES[0], PATCHES[0])], 0.91),
    ([(CARD, CARD + (30, 0))], 1.0),
    ([(CARD, CARD + (60, 0))], 0.0),
    ([(CARD, box(72, 68, 256, 360))], 1.0),
    ([(CARD, box(20, 0, 360, 496))], 0.0),
    ([(CARD, CARD[[2, 3, 0, 1]])], 1.0),
    ([], 0.0),
], ids=["all", "each for itself", "half", "but a corner", "near it", "beside it", "as large",
        "larger", "upside down", "none"])
def test_how_much_of_a_card_votes_for_it(voted, share):
    """With its corners begun anywhere; where nothing is seen there are no votes either."""
    assert seen(*voted).agreed_on(CARD) == pytest.approx(share, abs=0.03)


@pytest.mark.parametrize("voted, share, parted", [
    ([(CARD, CARD)], 0.95, False),
    ([(patch, patch) for patch in PATCHES], 0.95, True),
    ([(patch, patch) for patch in PATCHES], 0.8, False),
    ([(CARD, CARD), (box(80, 80, 240, 112), PATCHES[4])], 0.95, False),
    ([(CARD, CARD), (box(80, 80, 240, 224), PATCHES[4])], 0.95, True),
], ids=["all for it", "each for itself", "not card all over", "most for it", "fewer than half"])
def test_a_place_is_parted_where_most_of_it_votes_for_something_else(voted, share, parted):
    assert glances_at(seen(*voted, share=share)).is_parted(CARD) is parted


def test_beyond_the_picture_nobody_votes():
    votes = seen((CARD, CARD))
    votes.inside[:] = False
    assert votes.agreed_on(CARD) == 0.0


def test_votes_are_counted_where_they_lie_in_the_picture():
    """Of 1,000 px, with a margin of 40 px of 512 about it."""
    votes = seen((CARD, CARD))
    votes = Votes(votes.maps, votes.inside, np.array([0.512, 0.512]), np.array([40.0, 40.0]))
    assert votes.agreed_on((CARD - 40) / 0.512) == 1.0


@pytest.mark.parametrize("share, agreed", [(0.95, 0.78), (0.8, 0.0)])
def test_votes_count_where_all_of_it_looks_like_card(share, agreed):
    """Two ninths of it vote otherwise."""
    votes = seen((CARD, CARD), *((patch, patch) for patch in PATCHES[:2]), share=share)
    assert glances_at(votes).agreed_on(CARD) == pytest.approx(agreed, abs=0.03)


@pytest.mark.parametrize("votes, tight, loose, hidden, whole, plain", [
    (1.0, 0.6, 0.6, 0.0, True, False),
    (1.0, 0.45, 0.6, 0.0, False, False),
    (1.0, 0.6, 0.45, 0.0, False, False),
    (1.0, 0.6, 0.6, 0.9, False, False),
    (1.0, 0.99, 0.99, 0.0, True, True),
    (1.0, 0.98, 0.99, 0.0, True, False),
    (1.0, 0.99, 0.98, 0.0, True, False),
    (1.0, 0.99, 0.99, 0.9, True, False),
    (0.8, 0.98, 0.98, 0.0, True, False),
    (0.8, 0.96, 0.98, 0.0, False, False),
    (0.8, 0.99, 0.99, 0.0, True, False),
    (0.3, 0.99, 0.99, 0.0, False, False),
])
def test_the_fewer_the_votes_the_more_it_must_look_like_a_card(
    votes, tight, loose, hidden, whole, plain,
):
    """And the more, the likelier something lies over it."""
    glances = SimpleNamespace(agreed_on=lambda _: votes)
    one = reading(CARD, tight, loose, hidden)
    assert seen_whole([one], glances, (512, 512)) == ([Whole(one, plain)] if whole else [])


@pytest.mark.parametrize("tall, plain", [
    (240 * 1.4, True), (240 * 1.36, True), (240 * 1.22, False), (240 * 1.3, False),
    (240 * 1.12, False), (240 * 1.05, True), (240, True), (240 * 1.5, True),
])
def test_what_has_a_pages_proportion_may_hold_cards_however_much_it_looks_like_one(tall, plain):
    """9.25 × 11.25 in with its holes (common practice, no source), or squarer with a binder's cover
    under it; no square."""
    glances = SimpleNamespace(agreed_on=lambda _: 1.0)
    one = reading(box(120, 80, 240, tall))
    assert [whole.plain for whole in seen_whole([one], glances, (512, 512))] == [plain]


def test_a_card_seen_aslant_is_no_page():
    """Tilted by 35° it looks as long as a page, and is known by its far side, which is shorter."""
    slant, focal, size = np.radians(35), 800.0, (1000, 1000)
    corners = np.array([[-1, -1.4], [1, -1.4], [1, 1.4], [-1, 1.4]]) * 150
    away = 1000 + corners[:, 1] * np.sin(slant)
    seen_at = corners * (1, np.cos(slant)) * (focal / away)[:, None] + 500
    glances = SimpleNamespace(agreed_on=lambda _: 1.0)
    one = reading(seen_at)
    assert 1.1 < one.proportion < 1.25
    assert seen_whole([one], glances, size, focal)[0].plain


def left(whole: Refined, *others: Refined, plain: bool = False) -> list[Refined]:
    return without_art([whole, *others], [Whole(whole, plain)])[1:]


def test_what_lies_in_a_whole_card_is_its_art():
    """Not what lies half beyond it or about it, nor what is nearly as large, another reading of
    its own sides."""
    whole = reading(CARD)
    kept = [reading(box(300, 80, 80, 112)), reading(box(60, 60, 280, 376)),
            reading(box(90, 94, 224, 312)), reading(box(350, 80, 80, 112))]
    art = [*map(reading, PATCHES), reading(box(100, 108, 200, 280))]
    assert left(whole, *kept, *art, plain=True) == kept


def test_what_is_no_longer_among_the_readings_has_no_art():
    """Parted since, or of another size than the cards beside it."""
    patches = list(map(reading, PATCHES))
    assert without_art(patches, [Whole(reading(CARD), True)]) == patches


@pytest.mark.parametrize("plain, held, many", [
    (False, PATCHES[:4], True),
    (False, PATCHES[:3], False),
    (True, PATCHES, False),
    (False, [PATCHES[0] + at for at in range(6)], False),
], ids=["page", "panels", "quilt", "one seen often"])
def test_a_page_with_more_cards_than_panels_is_none(plain, held, many):
    """But what plainly is a card has nothing but art in it."""
    cards = list(map(reading, held))
    assert left(reading(CARD), *cards, plain=plain) == (cards if many else [])


def test_what_hardly_looks_like_cards_makes_no_page():
    assert left(reading(CARD), *(reading(quad, 0.8) for quad in PATCHES)) == []


@pytest.mark.parametrize("whole, kept", [
    (box(80, 80, 160, 112), False),
    (box(80, 80, 240, 112), True),
    (box(80, 80, 90, 112), True),
    (box(150, 80, 90, 112), True),
], ids=["two", "as long as an open card", "one", "half of one, and one"])
def test_what_holds_two_whole_cards_is_none(whole, kept):
    """Three side by side may be panels; the readings of one card count once."""
    cards = [reading(PATCHES[0]), reading(PATCHES[0] + 1), reading(PATCHES[1])]
    one = reading(whole)
    wholes = [Whole(card, False) for card in cards]
    assert without_pairs([one], wholes) == ([one] if kept else [])
    assert without_art([one, *cards], wholes) == ([one, *cards] if kept else cards)


def test_what_plainly_is_one_card_is_not_searched_for_others():
    looks = Looks(np.zeros((512, 512, 3), np.uint8), None)
    looks.looked = [reading(CARD)]
    glances = SimpleNamespace(quads_on=lambda *_: pytest.fail("nothing is asked of it"))
    assert on_sheets(looks, glances, looks.looked) == []
