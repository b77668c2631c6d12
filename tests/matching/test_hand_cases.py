"""Small boards whose best proposals can be argued by hand."""

from dataclasses import replace

import pytest
from invented import DAY, board_of, card, cards_named, maker, want

from swapboard.matching.certificate import complaints
from swapboard.matching.market import market_of
from swapboard.matching.match import match
from swapboard.records.types import Part, State


def theme(*names):
    return Part("theme", names)


def solved(makers, cards, rings=3):
    board = board_of(makers, cards)
    proposals = match(market_of(board, DAY, 14), rings, 60)
    assert complaints(board, proposals, DAY, 14) == []
    assert all(level.proven for level in proposals.levels)
    return proposals


def parcels(proposals):
    return [[(p.giver, p.taker, p.cards) for p in swap.parcels] for swap in proposals.swaps]


def value(proposals, name):
    return next((level.value for level in proposals.levels if level.name == name), 0)


def test_two_who_like_each_others_cards_swap():
    """One card each way is the only swap there is."""
    found = solved(
        [maker("ada", cards_named("owl")), maker("ben", cards_named("fern"))],
        [card("fern", "ada"), card("owl", "ben"), card("moth", "ben")],
    )
    assert parcels(found) == [[("ada", "ben", ("fern",)), ("ben", "ada", ("owl",))]]


def test_liking_without_an_answer_moves_nothing():
    """Ben likes nothing of Ada's, so Ada gets nothing."""
    found = solved([maker("ada", cards_named("owl")), maker("ben")],
                   [card("fern", "ada"), card("owl", "ben")])
    assert (found.moved, found.levels[0].bound, found.swaps) == (0, 0, ())


def test_an_empty_board_has_no_swaps():
    """Nobody and nothing: zero of zero, proven."""
    found = solved([], [])
    assert (found.moved, found.levels[0].bound, found.levels[0].proven) == (0, 0, True)


@pytest.mark.parametrize(("rings", "moved"), [(2, 0), (3, 3), (4, 3)])
def test_three_in_a_ring_need_three(rings, moved):
    """Ada → Ben → Cyd → Ada closes with three makers and with no two of them."""
    found = solved(
        [maker("ada", cards_named("c")), maker("ben", cards_named("a")),
         maker("cyd", cards_named("b"))],
        [card("a", "ada"), card("b", "ben"), card("c", "cyd")], rings,
    )
    assert found.moved == moved


@pytest.mark.parametrize(("rings", "moved"), [(2, 0), (3, 0), (4, 4)])
def test_four_in_a_ring_need_four(rings, moved):
    """A ring of four has no shorter way round."""
    names = ("ada", "ben", "cyd", "dot")
    found = solved([maker(name, cards_named(names[at - 1][0])) for at, name in enumerate(names)],
                   [card(name[0], name) for name in names], rings)
    assert found.moved == moved


def test_nobody_is_twice_in_a_ring_of_four():
    """Ben's two cards have wants of their own, so that only a round that passes him
    twice would close; that is no ring of four makers."""
    found = solved(
        [maker("ada", cards_named("b1")), maker("cyd", cards_named("b2")),
         maker("ben", cards_named("a"), cards_named("c"))],
        [card("a", "ada"), card("c", "cyd"),
         card("b1", "ben", wants=(cards_named("c"),)),
         card("b2", "ben", wants=(cards_named("a"),))],
        4,
    )
    assert found.moved == 0


def test_pairs_come_before_a_ring_that_moves_as_much():
    """Two pairs of two move four cards; a ring with a third maker would move three."""
    found = solved(
        [maker("ada", cards_named("b"), cards_named("c")), maker("ben", cards_named("a1")),
         maker("cyd", cards_named("a2"), cards_named("b"))],
        [card("a1", "ada"), card("a2", "ada"), card("b", "ben"), card("c", "cyd")],
    )
    assert (found.moved, value(found, "cards in rings")) == (4, 0)


def test_a_ring_is_taken_where_it_moves_more():
    """Each has one card: a pair moves two of them, the ring all three."""
    found = solved(
        [maker("ada", cards_named("c"), cards_named("b")), maker("ben", cards_named("a")),
         maker("cyd", cards_named("b"))],
        [card("a", "ada"), card("b", "ben"), card("c", "cyd")],
    )
    assert (found.moved, value(found, "cards in rings")) == (3, 3)


def test_two_for_two_is_one_swap():
    """Several cards between the same two go in one parcel each way."""
    found = solved(
        [maker("ada", want(theme("sea"), up_to=2)), maker("ben", want(theme("birds"), up_to=5))],
        [card(f"bird-{n}", "ada", themes=("birds",)) for n in range(3)]
        + [card(f"wave-{n}", "ben", themes=("sea",)) for n in range(3)],
    )
    assert (found.moved, len(found.swaps), found.swaps[0].count) == (4, 1, 2)
    assert value(found, "parcels") == 2


def test_a_want_is_filled_no_more_often_than_it_says():
    """"Up to 1" for each of two wants makes two, however many cards would suit."""
    found = solved(
        [maker("ada", want(theme("sea")), want(Part("medium", ("ink",)))),
         maker("ben", want(Part("anything"), up_to=9))],
        [card(f"a{n}", "ada") for n in range(4)]
        + [card(f"b{n}", "ben", themes=("sea",), media=("ink",)) for n in range(4)],
    )
    assert found.moved == 4


def test_nobody_gets_more_than_they_take_now():
    """Ada takes one card, so one goes each way; who takes none is left out."""
    makers = [maker("ada", want(Part("anything"), up_to=9), takes_up_to=1),
              maker("ben", want(Part("anything"), up_to=9))]
    cards = [card(f"{name}-{n}", name) for name in ("ada", "ben") for n in range(3)]
    assert solved(makers, cards).moved == 2
    assert solved([replace(makers[0], takes_up_to=0), makers[1]], cards).moved == 0


def test_what_stands_behind_but_not_is_not_proposed():
    """Of Ben's two cards of the sea one has boats on it, and two are wanted: one goes."""
    found = solved(
        [maker("ada", want(theme("sea"), no=(theme("boats", "ships"),), up_to=2)),
         maker("ben", want(Part("anything"), up_to=2))],
        [card("a", "ada"), card("aa", "ada"), card("boat", "ben", themes=("sea", "Boats")),
         card("wave", "ben", themes=("sea",))],
    )
    assert found.moved == 2 and found.swaps[0].parcels[1].cards == ("wave",)


def test_a_ring_of_four_mails_two_cards_each_way_round():
    """Each likes two cards of the next and nothing else: eight cards in one ring of four."""
    names = ("ada", "ben", "cyd", "dot")
    found = solved(
        [maker(name, cards_named(f"{names[at - 1]}-0", f"{names[at - 1]}-1", up_to=2))
         for at, name in enumerate(names)],
        [card(f"{name}-{n}", name) for name in names for n in range(2)],
        rings=4,
    )
    assert (found.moved, len(found.swaps), found.swaps[0].count) == (8, 1, 2)
    assert value(found, "cards in rings") == 8 and value(found, "parcels") == 4


def test_what_is_rather_not_had_is_not_proposed():
    """The only card that Ada could get has cats on it."""
    found = solved(
        [maker("ada", want(Part("anything")), rather_not=(want(theme("cats")),)),
         maker("ben", want(Part("anything")))],
        [card("a", "ada"), card("b", "ben", themes=("Cats", "sea"))],
    )
    assert found.moved == 0


def test_a_cards_own_wants_hold_in_its_exchange():
    """The heron goes for a river only: with the fern it does not go, with the weir it does."""
    makers = [maker("ada", want(Part("anything"), up_to=2)),
              maker("ben", want(Part("anything"), up_to=2))]
    heron = card("heron", "ada", wants=(want(theme("rivers")),))
    fern, weir = card("fern", "ben"), card("weir", "ben", themes=("rivers",))
    assert solved(makers, [heron, fern]).moved == 0
    found = solved(makers, [heron, fern, weir, card("moth", "ada")])
    (swap,) = found.swaps
    for given, answered in zip(*(parcel.cards for parcel in swap.parcels), strict=True):
        assert given != "heron" or answered == "weir"
    assert found.moved == 4


def test_three_whose_cards_name_whom_they_go_for_need_a_ring():
    """Each card goes only for one of the next maker's: no two can swap, all three can, and the
    fourth card, which would make a pair with Cyd, is for a card that is gone."""
    def from_maker(name):
        return (want(Part("maker", (name,))),)

    makers = [maker(name, want(Part("anything"), up_to=2)) for name in ("ada", "ben", "cyd")]
    cards = [card("a0", "ada", wants=from_maker("ben")), card("b0", "ben", wants=from_maker("cyd")),
             card("c0", "cyd", wants=from_maker("ada")), card("a1", "ada", wants=from_maker("cyd"))]
    assert solved(makers, cards, 2).moved == 2
    found = solved(makers, cards, 3)
    assert found.moved == value(found, "cards in rings") == 3


def test_what_a_card_goes_for_may_not_be_what_its_maker_refuses():
    """The owl goes for a cat or a bird, and Ada takes no cats: only Cyd's bird will do, and
    where it is no bird the owl stays, though Ben would give a cat."""
    makers = [
        maker("ada", want(Part("anything"), up_to=2), rather_not=(want(theme("cats")),)),
        maker("ben", cards_named("owl")), maker("cyd", cards_named("owl")),
    ]
    owl = card("owl", "ada", wants=(want(theme("cats")), want(theme("birds"))))
    cat, bird = card("cat", "ben", themes=("cats",)), card("bird", "cyd", themes=("birds",))
    (swap,) = solved(makers, [owl, cat, bird], 2).swaps
    assert swap.makers == ("ada", "cyd")
    assert solved(makers, [owl, cat, replace(bird, themes=())], 4).moved == 0


def test_each_print_of_an_edition_asks_for_an_answer_of_its_own():
    """Three prints that go for the sea only: Ben and Cyd have one sea each, so two of them go,
    and the third stays, though Ben has a card left and room for it."""
    found = solved(
        [maker("ada", want(Part("anything"), up_to=4)),
         maker("ben", cards_named("print"), cards_named("print")),
         maker("cyd", cards_named("print"))],
        [card("print", "ada", copies_left=3, wants=(want(theme("sea")),)),
         card("b-sea", "ben", themes=("sea",)), card("b-land", "ben"),
         card("c-sea", "cyd", themes=("sea",))],
    )
    assert found.moved == 4
    assert {move.card for s in found.swaps for p in s.parcels for move in p.moves} == {
        "print", "b-sea", "c-sea"
    }


def test_two_cards_cannot_lean_on_one_answer():
    """Both of Ada's cards go for the weir only, and there is one weir."""
    wants = (cards_named("weir"),)
    found = solved(
        [maker("ada", want(Part("anything"), up_to=2)),
         maker("ben", want(Part("anything"), up_to=2))],
        [card("a1", "ada", wants=wants), card("a2", "ada", wants=wants),
         card("weir", "ben"), card("fern", "ben")],
    )
    assert found.moved == 2


def test_what_is_not_available_is_not_proposed():
    """A card kept or spoken for takes no part."""
    for state in (State.KEEPING, State.SPOKEN_FOR, State.TRADED):
        found = solved([maker("ada", cards_named("b")), maker("ben", cards_named("a"))],
                       [card("a", "ada"), card("b", "ben", state=state)])
        assert found.moved == 0


def test_an_edition_goes_to_as_many_as_it_has_copies():
    """Two of three friends get the print of which two copies are left, none gets both."""
    friends = ("ben", "cyd", "dot")
    found = solved(
        [maker("ada", want(Part("anything"), up_to=9)),
         *(maker(name, want(Part("maker", ("ada",)), up_to=2)) for name in friends)],
        [card("print", "ada", copies_left=2),
         *(card(f"{n}-{i}", n) for n in friends for i in (1, 2))],
    )
    assert (found.moved, len({swap.makers for swap in found.swaps})) == (4, 2)


def test_a_want_that_was_not_understood_says_nothing():
    """Neither as a liking nor as a condition of a card."""
    unread = replace(want(Part("anything")), understood=False)
    assert solved([maker("ada", unread), maker("ben", cards_named("a"))],
                  [card("a", "ada"), card("b", "ben")]).moved == 0
    assert solved([maker("ada", cards_named("b")), maker("ben", cards_named("a"))],
                  [card("a", "ada", wants=(unread,)), card("b", "ben")]).moved == 2


def test_the_dearer_card_is_chosen():
    """One card goes each way; of two that suit, the one liked dearly."""
    found = solved(
        [maker("ada", cards_named("b1", weight=1), cards_named("b2", weight=3)),
         maker("ben", cards_named("a"))],
        [card("a", "ada"), card("b1", "ben"), card("b2", "ben")],
    )
    assert parcels(found)[0][1] == ("ben", "ada", ("b2",))
    assert value(found, "liking") == 5


def test_fewer_parcels_where_all_else_is_equal():
    """Ada's two cards go to one friend rather than to two: two parcels, not four."""
    anything = want(Part("anything"), up_to=2)
    found = solved([maker("ada", anything), maker("ben", anything)],
                   [card(f"{n}-{i}", n) for n in ("ada", "ben") for i in (1, 2)])
    assert value(found, "parcels") == 2
    found = solved(
        [maker("ada", anything, takes_up_to=2), maker("ben", anything), maker("cyd", anything)],
        [card("ada-1", "ada"), card("ada-2", "ada"),
         *(card(f"{n}-{i}", n) for n in ("ben", "cyd") for i in (1, 2))],
    )
    assert (found.moved, value(found, "cards in rings"), value(found, "parcels")) == (6, 0, 6)


def test_fairness_counts_makers_who_get_a_card():
    """Dot and Eve want only Ada's one card, which goes to one; the level says two get one."""
    found = solved(
        [maker("ada", want(Part("anything"), up_to=2)),
         *(maker(n, cards_named("a")) for n in ("dot", "eve"))],
        [card("a", "ada"), card("d", "dot"), card("e", "eve")],
    )
    assert value(found, "makers who get 1 or more") == 2


def test_rings_must_be_two_to_four():
    """Other lengths are refused."""
    for rings in (1, 5):
        with pytest.raises(ValueError, match="must be 2 to 4"):
            match(market_of(board_of([], []), DAY, 14), rings)


def test_the_same_board_gives_the_same_proposals():
    """Two runs, and cards in another order, agree on every card."""
    makers = [maker(n, want(Part("anything"), up_to=2)) for n in ("ada", "ben", "cyd", "dot")]
    cards = [card(f"{n}-{i}", n) for n in ("ada", "ben", "cyd", "dot") for i in range(3)]
    assert solved(makers, cards) == solved(makers[::-1], cards[::-1])
