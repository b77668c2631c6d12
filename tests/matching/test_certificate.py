"""The checker finds each kind of fault in proposals that were good."""

from dataclasses import replace

import pytest
from invented import DAY, board_of, card, cards_named, maker, want

from swapboard.matching.certificate import complaints
from swapboard.matching.market import market_of
from swapboard.matching.match import match
from swapboard.records.types import Part, State

MAKERS = [
    maker("ada", want(Part("theme", ("sea",)), up_to=2)),
    maker("ben", cards_named("a1"), cards_named("a2")),
]
CARDS = [card("a1", "ada", wants=(cards_named("b1"),)), card("a2", "ada"),
         card("b1", "ben", themes=("sea",)), card("b2", "ben", themes=("sea",))]
BOARD = board_of(MAKERS, CARDS)
GOOD = match(market_of(BOARD, DAY, 14), 3, 60)


def with_moves(change):
    """The good proposals with the moves of the one swap's parcels changed."""
    (swap,) = GOOD.swaps
    parcels = tuple(replace(p, moves=tuple(change(p.moves))) for p in swap.parcels)
    return replace(GOOD, swaps=(replace(swap, parcels=parcels),))


def test_good_proposals_stand():
    """Two cards each way: nothing to complain of."""
    assert GOOD.moved == 4
    assert complaints(BOARD, GOOD, DAY, 14) == []


BAD_BOARDS = {
    "copies are free": board_of(MAKERS, [replace(CARDS[0], state=State.KEEPING), *CARDS[1:]]),
    "takes 1 cards": board_of([replace(MAKERS[0], takes_up_to=1), MAKERS[1]], CARDS),
    "rather not": board_of(
        [replace(MAKERS[0], rather_not=(want(Part("theme", ("sea",))),)), MAKERS[1]], CARDS),
    "no such want": board_of([replace(MAKERS[0], likes=()), MAKERS[1]], CARDS),
    "does not go for": board_of(MAKERS, [*CARDS[:1], replace(CARDS[1], wants=(cards_named("a1"),)),
                                         *CARDS[2:]]),
    "not for ada to give": board_of(MAKERS, [replace(CARDS[0], maker="ben"), *CARDS[1:]]),
    "is not on the board": board_of(MAKERS, CARDS[1:]),
}


@pytest.mark.parametrize("words", BAD_BOARDS)
def test_proposals_of_another_board_do_not_stand(words):
    """What one board allows is refused on a board that says otherwise."""
    assert any(words in text for text in complaints(BAD_BOARDS[words], GOOD, DAY, 14))


def test_an_overfilled_want_is_seen():
    """Three cards for a want of two."""
    less = board_of([replace(MAKERS[0], likes=(replace(MAKERS[0].likes[0], up_to=1),)), MAKERS[1]],
                    CARDS)
    one = replace(GOOD.swaps[0].parcels[1].moves[0].want, up_to=1)
    bad = with_moves(lambda moves: [replace(m, want=one) if m.taker == "ada" else m for m in moves])
    assert any('would get 2 cards for' in text for text in complaints(less, bad, DAY, 14))


def test_a_card_twice_is_seen():
    """The same card in both places of a parcel."""
    found = complaints(BOARD, with_moves(lambda moves: [moves[0]] * 2), DAY, 14)
    assert any("goes 2 times" in text for text in found)
    assert any("would get" in text and "2 times" in text for text in found)


def test_a_swap_out_of_balance_is_seen():
    """Two cards one way and one the other."""
    bad = with_moves(lambda moves: moves[:1] if moves[0].giver == "ada" else moves)
    assert any("as many cards" in text for text in complaints(BOARD, bad, DAY, 14))


def test_a_ring_that_is_too_long_or_does_not_close_is_seen():
    """Parcels must go round, and no longer than allowed."""
    (swap,) = GOOD.swaps
    assert any("no ring" in text for text in complaints(BOARD, replace(GOOD, rings=1), DAY, 14))
    open_end = replace(swap, parcels=(swap.parcels[0], replace(swap.parcels[1], giver="ada")))
    assert any("gets and" in text
               for text in complaints(BOARD, replace(GOOD, swaps=(open_end,)), DAY, 14))


@pytest.mark.parametrize("change", [{"value": 5}, {"bound": 3}, {"bound": 9}])
def test_numbers_that_do_not_fit_are_seen(change):
    """A value that is not counted, a bound that is passed, a proof that is none."""
    levels = (replace(GOOD.levels[0], **change), *GOOD.levels[1:])
    assert complaints(BOARD, replace(GOOD, levels=levels), DAY, 14)
