"""What is proposed is the best there is: against brute force, matchings and circulations."""

import networkx
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from invented import DAY, board_of, card, cards_named, maker, market, want
from reckoning import TooMany, best

from swapboard.matching import both_sides, first_level
from swapboard.matching.arcs import arcs_of
from swapboard.matching.certificate import complaints
from swapboard.matching.circulation import circulation_bound
from swapboard.matching.effort import Effort
from swapboard.matching.market import market_of
from swapboard.matching.match import match
from swapboard.matching.rows import rows_of
from swapboard.records.types import Part, State

NAMES = ("ada", "ben", "cyd", "dot", "eve")
THEMES = ("birds", "cats", "sea")
MEDIA = ("ink", "felt")
FOREVER = Effort(1.0, float("inf"))


@st.composite
def parts(draw):
    kind = draw(st.sampled_from(("theme", "theme", "medium", "maker", "card", "anything")))
    names = {
        "theme": THEMES, "medium": MEDIA, "maker": NAMES,
        "card": tuple(f"{name}-{n}" for name in NAMES for n in range(3)), "anything": (),
    }[kind]
    picked = draw(st.lists(st.sampled_from(names), min_size=1, max_size=2, unique=True)) \
        if names else ()
    return Part(kind, tuple(picked))


@st.composite
def wants(draw):
    return want(
        *draw(st.lists(parts(), min_size=1, max_size=2)),
        no=tuple(draw(st.lists(parts().filter(lambda p: p.names), max_size=1))),
        up_to=draw(st.sampled_from((1, 1, 2))), weight=draw(st.sampled_from((1, 2, 3))),
    )


@st.composite
def boards(draw):
    """Up to five makers of up to three cards, with everything that a board can say."""
    names = NAMES[: draw(st.integers(2, 5))]
    cards, makers = [], []
    for name in names:
        for number in range(draw(st.integers(1, 3))):
            cards.append(card(
                f"{name}-{number}", name,
                themes=tuple(draw(st.sets(st.sampled_from(THEMES), max_size=2))),
                media=tuple(draw(st.sets(st.sampled_from(MEDIA), max_size=1))),
                wants=tuple(draw(st.lists(wants(), max_size=draw(st.sampled_from((0, 0, 1, 2)))))),
                copies_left=draw(st.sampled_from((1, 1, 1, 2))),
                state=draw(st.sampled_from((State.AVAILABLE,) * 5 + (State.KEEPING,))),
            ))
        makers.append(maker(
            name, *draw(st.lists(wants(), min_size=1, max_size=3)),
            rather_not=tuple(draw(st.lists(wants(), max_size=draw(st.sampled_from((0, 0, 1)))))),
            takes_up_to=draw(st.sampled_from((None, None, 0, 1, 2))),
        ))
    return board_of(makers, cards)


def reached(proposals):
    return tuple(-level.value if level.goal == "fewest" else level.value
                 for level in proposals.levels if level.name != "cards in rings")


@pytest.mark.parametrize("way", ["as small boards are", "as big boards are"])
@settings(max_examples=60)
@given(board=boards(), rings=st.sampled_from((2, 3, 3, 4)))
def test_every_level_is_that_of_brute_force(way, board, rings):
    """On small boards no set of exchanges is better than what is proposed, on any level, nor
    where they are searched as big ones are: by prices, and cuts of few makers at a time."""
    with pytest.MonkeyPatch.context() as changed:
        if way == "as big boards are":
            changed.setattr(first_level, "_FEW", 0)
            changed.setattr(both_sides, "_COLUMNS", 0)
            changed.setattr(both_sides, "_NEAR", 2)
        _compare_with_brute_force(board, rings)


def _compare_with_brute_force(board, rings):
    try:
        expected = best(board, rings)
    except TooMany:
        assume(False)
    proposals = match(market_of(board, DAY, 14), rings, 60)
    assert complaints(board, proposals, DAY, 14) == []
    assert all(level.proven for level in proposals.levels)
    ringed = sum(level.value for level in proposals.levels if level.name == "cards in rings")
    assert -ringed == expected[1]
    assert reached(proposals) == (expected[0], *expected[2:])


@settings(max_examples=40)
@given(st.integers(2, 12), st.randoms(use_true_random=False))
def test_pairs_with_named_cards_are_a_general_matching(count, chance):
    """Edmonds' matching on the cards that go for each other is as large."""
    names = [f"maker-{number:02}" for number in range(count)]
    cards = [(f"{name}-{n}", name) for name in names for n in range(3)]
    likes = {name: [c for c, owner in cards if owner != name and chance.random() < 0.3]
             for name in names}
    graph = networkx.Graph(
        (a, b) for a, mine in cards for b, other in cards
        if mine < other and a in likes[other] and b in likes[mine]
    )
    expected = 2 * len(networkx.max_weight_matching(graph, maxcardinality=True))
    makers = [maker(name, *(cards_named(c) for c in likes[name])) for name in names]
    proposals = match(market(makers, [card(*each) for each in cards]), 2, 60)
    assert (proposals.moved, proposals.levels[0].proven) == (expected, True)


@settings(max_examples=40)
@given(st.integers(2, 8), st.randoms(use_true_random=False))
def test_rings_of_any_length_are_a_circulation(count, chance):
    """The bound for every length is the cheapest flow's, and no proposal passes it."""
    names = [f"maker-{number:02}" for number in range(count)]
    cards = [(f"{name}-{n}", name) for name in names for n in range(2)]
    likes = {name: [([c for c, owner in cards if owner != name and chance.random() < 0.3],
                     chance.randint(1, 2)) for _ in range(2)] for name in names}
    graph = networkx.DiGraph()
    for name, each in cards:
        graph.add_edge(each, name, capacity=1, weight=0)
    for taker, wishes in likes.items():
        for number, (wanted, up_to) in enumerate(wishes):
            graph.add_edge((taker, number), taker, capacity=up_to, weight=0)
            for name in wanted:
                graph.add_edge(name, (taker, number), capacity=1, weight=-1)
    flow = networkx.min_cost_flow(graph)
    expected = -networkx.cost_of_flow(graph, flow)
    makers = [maker(name, *(cards_named(*c, up_to=n) for c, n in wishes if c))
              for name, wishes in likes.items()]
    made = market(makers, [card(*each) for each in cards])
    arcs = arcs_of(made)
    assert circulation_bound(made, arcs, rows_of(made, arcs), FOREVER) == expected
    assert match(made, 3, 60).moved <= expected
    if count <= 3:
        assert match(made, 3, 60).moved <= match(made, 4, 60).moved <= expected
