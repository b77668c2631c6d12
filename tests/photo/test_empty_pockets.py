"""What is told of what was seen: pages with empty pockets, and what is hardly a card."""

from dataclasses import replace

import numpy as np
import pytest

from photo.pages import page
from swapboard.disk.finder import find_cards
from swapboard.photo.bare import NOT
from swapboard.photo.find import Found
from swapboard.photo.finishing import Seen
from swapboard.photo.geometry import intersection_over_union
from swapboard.photo.plane import Lying
from swapboard.photo.refining import Refined
from swapboard.photo.sureness import beside_sure
from swapboard.photo.surroundings import Surroundings
from swapboard.photo.telling import cut_off_told, likely_enough, patches_doubted, small_doubted
from swapboard.photo.verdict import DOUBT, PATCHED, TINY, judge_seen


@pytest.mark.parametrize("seed", range(8))
def test_no_empty_pocket_is_answered(seed):
    """Of a page with four to seven cards just those are answered, at most one as doubtful."""
    drawn = page(seed, cards=4 + seed % 4)
    found = find_cards(drawn.picture)
    crops = [np.array(card.corners) for card in found]
    assert len(crops) == len(drawn.quads)
    assert sum(card.doubtful for card in found) <= 1
    for quad in drawn.quads:
        assert any(intersection_over_union(crop, quad) > 0.9 for crop in crops)


NEUTRAL = Surroundings(proposed=0.93, witnessed=0.88, unlike=NOT)
"""They make a card hardly more likely or less."""


def seen_as(
    quad: np.ndarray, tight: float, drawn: float, around: Surroundings = NEUTRAL,
    apart: float = 0.3,
) -> Seen:
    """A card as the networks saw it, with a share of `tight`, a spread of colours on it, and their
    distance from what is around it."""
    refined = Refined(quad, tight, tight, 0.05, np.full(4, 0.98), 0.001, drawn, apart)
    return Seen(refined, quad, 0.0, False, around)


def told_among(seen: list[Seen], lying: list[Lying], size: tuple[int, int]) -> list[int]:
    """Which of what was seen in a picture of that size is told."""
    picture = np.zeros((size[1], size[0], 3), np.uint8)
    found = [judge_seen(picture, one, [], how) for one, how in zip(seen, lying, strict=True)]
    lying = beside_sure(seen, lying, size)
    return [found.index(card) for card, _ in likely_enough(seen, found, lying, size)]


def told_of(*cards: tuple[float, float]) -> list[int]:
    """Which of the cards with these shares of `tight` and these differences in area are told."""
    quad = np.array([[0, 0], [100, 0], [100, 140], [0, 140]], float) + (20, 60)
    seen = [seen_as(quad + (120 * at, 0), tight, 0.2) for at, (tight, _) in enumerate(cards)]
    return told_among(seen, [Lying(1.4, unlike) for _, unlike in cards], (900, 300))


def told_in_a_page(
    tight: float, drawn: float, left: float = 0, around: Surroundings = NEUTRAL,
    apart: float = 0.06, cards: int = 4,
) -> bool:
    """Whether one is told that lies beside four sure cards of a page, in their row.

    `left` px of the page's left are not in the picture. As an empty pocket does, it looks like what
    is around it, unless it is farther `apart`.
    """
    quad = np.array([[0, 0], [100, 0], [100, 140], [0, 140]], float)
    turn = np.array([[np.cos(0.2), -np.sin(0.2)], [np.sin(0.2), np.cos(0.2)]])
    places = [(1, 0), (2, 0), (1, 1), (2, 1), (0, 0)]
    quads = [(quad + (108 * x, 150 * y)) @ turn.T + (120 - left, 30) for x, y in places]
    seen = [seen_as(one, 0.999, 0.2) for one in quads[:4]]
    seen = [*seen[:cards], seen_as(quads[4], tight, drawn, around, apart)]
    told = told_among(seen, [Lying(1.4, 0.0)] * len(seen), (700, 500))
    assert told[:cards] == list(range(cards))
    return cards in told


def test_what_is_hardly_a_card_is_told_only_where_no_card_is_sure():
    """Alone it may be the card, badly seen; beside a card it is a detail of the table, unless it
    lacks but that one's size."""
    assert told_of((0.01, 0.2)) == [0]
    assert told_of((0.01, 0.2), (0.999, 0.0)) == [1]
    assert told_of((0.03, 0.2), (0.999, 0.0)) == [0, 1]
    assert told_of((0.5, 0.2), (0.999, 0.0)) == [0, 1]
    assert told_of((0.001, 0.0)) == []
    assert told_of((0.97, 0.0), (0.999, 0.0)) == [0, 1]


def test_while_no_card_is_sure_their_sizes_do_not_speak_against_each_other():
    """Two cards badly seen, one of them half covered, are both told; beside a sure one of another
    size what is as badly seen is a detail of the table."""
    poor = (0.05, 0.5)
    assert told_of(poor, poor) == [0, 1]
    assert told_of((0.999, 0.0), poor) == [0]


def test_beside_many_sure_cards_what_is_of_another_size_must_be_likely():
    """It lies beside a deck: a label, a tile, a field of the cloth. As large, or beside two, it is
    told as doubtful."""
    sure = (0.999, 0.0)
    assert told_of(sure, sure, sure, (0.9, 0.3)) == [0, 1, 2]
    assert told_of(sure, sure, sure, (0.9, 0.0)) == [0, 1, 2, 3]
    assert told_of(sure, sure, (0.9, 0.3)) == [0, 1, 2]


def test_beside_the_sure_cards_of_a_page_what_is_unlikely_is_an_empty_pocket():
    """What is as likely as not is told, as doubtful; what is less than half that is not."""
    assert told_in_a_page(0.999, 0.03) and told_in_a_page(0.7, 0.2)
    assert not told_in_a_page(0.2, 0.2)


@pytest.mark.parametrize("tight, apart, cards, witnessed, told", [
    (0.2, 0.09, 4, 0.88, True), (0.2, 0.06, 4, 0.88, False), (0.002, 0.09, 4, 0.88, False),
    (0.2, 0.09, 3, 0.88, False), (0.9, 0.09, 4, 0.03, False), (0.9, 0.09, 4, 0.1, True),
], ids=["of another colour", "as the table", "hardly a card", "beside three", "not witnessed",
        "hardly witnessed"])
def test_what_has_the_size_of_four_and_is_unlike_the_table_is_no_empty_pocket(
    tight, apart, cards, witnessed, told
):
    around = replace(NEUTRAL, witnessed=witnessed)
    assert told_in_a_page(tight, 0.2, around=around, apart=apart, cards=cards) is told


@pytest.mark.parametrize("least", [{"proposed": 0.3}, {"witnessed": 0.1}, {"unlike": 0.3}])
def test_what_any_of_the_surroundings_speaks_against_is_no_card_of_a_page(least):
    """The cloth that shows through a pocket goes on beyond the page, and looks as it does
    there."""
    assert told_in_a_page(0.9, 0.3)
    assert not told_in_a_page(0.9, 0.3, around=replace(NEUTRAL, **least))


@pytest.mark.parametrize("proposed, others, told", [
    (0.99, (0, 0, 0), True), (0.9, (0, 0, 0), False), (0.99, (0, 0), False),
    (0.99, (0, 0, 0.3), False),
])
def test_what_from_afar_is_plainly_a_card_of_the_size_of_many_is_told(proposed, others, told):
    """However little it looks like one from near, as one with patches all over may: as doubtful.
    Not what an empty pocket can be, nor what has its size from two."""
    around = replace(NEUTRAL, proposed=proposed, witnessed=0.02)
    quad = np.array([[0, 0], [100, 0], [100, 140], [0, 140]], float)
    sizes = [1 + more for more in others]
    seen = [seen_as(quad * size + (20 + 160 * at, 60), 0.999, 0.2) for at, size in enumerate(sizes)]
    seen.append(seen_as(quad + (600, 60), 0.01, 0.2, around))
    answered = told_among(seen, [Lying(1.4, 0.0)] * len(seen), (900, 300))
    assert (len(others) in answered) is told


def test_of_pockets_that_the_frame_cuts_those_that_may_hold_a_card_are_told():
    """No less likely ones than of those that it does not cut."""
    assert told_in_a_page(0.4, 0.2, left=160)
    assert not told_in_a_page(0.3, 0.2, left=160)


@pytest.mark.parametrize("unlike, left, told", [(0.2, 60, True), (0.3, 60, False), (0.2, 0, False)])
def test_beside_a_sure_card_what_the_frame_cuts_is_told_however_doubtful(unlike, left, told):
    """But scraps that are no card by all that was seen of them."""
    quad = np.array([[0, 0], [100, 0], [100, 140], [0, 140]], float) + (20, 60)
    seen = [seen_as(quad + (300, 0), 0.999, 0.2), seen_as(quad - (left, 0), 0.002, 0.2)]
    answered = told_among(seen, [Lying(1.4, 0.0), Lying(1.4, unlike)], (900, 300))
    assert (1 in answered) is told


@pytest.mark.parametrize("proposed, left, told", [(0.97, 60, True), (0.93, 60, False),
                                                   (0.97, 0, False)])
def test_beside_many_what_the_frame_cuts_is_told_where_it_is_plainly_a_card_from_afar(
    proposed, left, told
):
    """As doubtful, and whatever size it seems to have."""
    quad = np.array([[0, 0], [100, 0], [100, 140], [0, 140]], float) + (20, 60)
    around = replace(NEUTRAL, proposed=proposed)
    seen = [seen_as(quad + (160 * at, 0), 0.999, 0.2) for at in (1, 2, 3)]
    seen.append(seen_as(quad * 1.25 - (left, 0), 0.05, 0.2, around))
    answered = told_among(seen, [Lying(1.4, 0.0)] * 3 + [Lying(1.4, 0.2)], (900, 300))
    assert (3 in answered) is told


@pytest.mark.parametrize("plain, count", [(True, 4), (False, 3)])
def test_what_looks_plainly_like_a_card_from_afar_alone_is_told_among_many(plain, count):
    """Print looks like no card from near."""
    quad = np.array([[0, 0], [100, 0], [100, 140], [0, 140]], float)
    seen = [seen_as(quad + (20 + 160 * at, 60), 0.999, 0.2) for at in range(3)]
    seen.append(replace(seen_as(quad * 1.2 + (600, 60), 0.2, 0.2), plain=plain))
    assert len(told_among(seen, [Lying(1.4, 0.0)] * 3 + [Lying(1.4, 0.3)], (900, 300))) == count


@pytest.mark.parametrize("long, doubtful", [(110, True), (130, False)])
def test_what_is_small_in_its_photo_is_doubtful(long, doubtful):
    """A sure card of a ninth of the photo's long side; one of an eighth is told as it is."""
    corners = [(10, 10), (10 + long / 1.4, 10), (10 + long / 1.4, 10 + long), (10, 10 + long)]
    card = Found(tuple(corners), 1.4, "card", 0.95, False, ("blurred",))
    ((told, share),) = small_doubted([(card, 0.95)], (700, 1000))
    assert share == 0.95 and told.corners == card.corners and told.doubtful is doubtful
    assert told.reasons == ((TINY, "blurred") if doubtful else ("blurred",))
    assert (told.confidence < DOUBT) is doubtful


@pytest.mark.parametrize("count, step, long, share, doubtful", [
    (3, 120, 110, 0.95, False), (2, 120, 110, 0.95, True), (3, 79, 110, 0.95, True),
    (3, 120, 80, 0.95, True), (3, 120, 110, 0.3, True), (6, 120, 80, 0.95, False),
    (5, 120, 80, 0.95, True), (6, 57.5, 80, 0.95, True), (6, 120, 45, 0.95, True),
])
def test_small_cards_that_lie_apart_speak_for_each_other(count, step, long, share, doubtful):
    """Three sure ones of one size, and six that are smaller; not fewer, nor what touches as patches
    do, nor the smallest."""
    quad = np.array([[0, 0], [long / 1.4, 0], [long / 1.4, long], [0, long]])
    quads = [quad + (20 + step * (at % 2), 20 + 1.4 * step * (at // 2)) for at in range(count)]
    told = [(Found(tuple(map(tuple, one)), 1.4, "card", share, False, ()), share) for one in quads]
    small = small_doubted(told, (700, 1000))
    assert [TINY in card.reasons for card, _ in small] == [doubtful] * count


@pytest.mark.parametrize("sure, told", [(0, True), (2, True), (3, False)])
def test_beside_many_sure_cards_a_scrap_at_the_border_is_no_card(sure, told):
    """Beside fewer it is told, for there the maker can do something."""
    quad = np.array([[0, 0], [100, 0], [100, 140], [0, 140]], float)
    cards = [(Found(tuple(map(tuple, quad + 200 * at)), 1.4, "card", share, False, ()), share)
             for at, share in enumerate([0.99] * sure + [0.4])]
    cut = cut_off_told([quad - 70], cards)
    assert [card.doubtful for card in cut] == ([True] if told else [])


@pytest.mark.parametrize("columns, step, size, doubtful", [
    (3, 100, (300, 420), True), (2, 100, (200, 280), True), (3, 100, (500, 700), False),
    (3, 100, (315, 441), True), (3, 100, (320, 448), False), (3, 100, (300, 400), False),
    (3, 104, (308, 431), True), (1, 100, (100, 140), False),
])
@pytest.mark.parametrize("last", [False, True])
def test_what_fills_a_picture_of_a_cards_proportion_may_be_its_fields(
    columns, step, size, doubtful, last,
):
    """Four and more, unless much is bare; not in a picture of 4:3. What is doubtful fills it
    as well."""
    quad = np.array([[0, 0], [100, 0], [100, 140], [0, 140]], float)
    told = [(Found(tuple(map(tuple, quad + (step * x, 1.4 * step * y))), 1.4, "card", 0.95,
                   last and (x, y) == (2, 2), ()), 0.95)
            for x in range(columns) for y in range(columns)]
    answered = patches_doubted(told, size)
    assert [PATCHED in card.reasons for card, _ in answered] == [
        doubtful and not card.doubtful for card, _ in told]


@pytest.mark.parametrize("columns, step, doubtful", [(4, 101, True), (3, 101, False),
                                                     (4, 104, False)])
def test_what_meets_edge_to_edge_like_the_patches_of_a_quilt_is_doubtful(columns, step, doubtful):
    """Sixteen that touch; nine may be cards (a page holds so many: common practice, no source),
    and so may sixteen that lie apart."""
    quad = np.array([[0, 0], [100, 0], [100, 140], [0, 140]], float)
    told = [(Found(tuple(map(tuple, quad + (50 + step * x, 50 + 1.4 * step * y))), 1.4, "card",
                   0.95, False, ()), 0.95) for x in range(columns) for y in range(columns)]
    answered = patches_doubted(told, (500, 700))
    assert [card.doubtful for card, _ in answered] == [doubtful] * len(told)
    assert all(card.reasons == ((PATCHED,) if doubtful else ()) for card, _ in answered)
