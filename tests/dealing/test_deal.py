"""Deals of all sorts keep to their rules, and say what blocks them."""

import inspect
import random
import sys

import networkx
import numpy
import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from swapboard.dealing import deal, prepare
from swapboard.dealing.check import faults_of
from swapboard.dealing.result import DealtCard

NAMES = ["Ada", "Ben", "Cyd", "Dee", "Eve", "Fay", "Gus"]
PAIR = some.tuples(some.sampled_from(NAMES), some.sampled_from(NAMES))
CALL = some.dictionaries(some.sampled_from(NAMES), some.integers(0, 3), max_size=7)


def strict_flow(sent, shut) -> int:
    """The most cards that can be dealt with every rule kept (networkx)."""
    graph = networkx.DiGraph()
    graph.add_nodes_from(["source", "sink"])
    for maker, count in sent.items():
        graph.add_edge("source", ("gives", maker), capacity=count)
        graph.add_edge(("gets", maker), "sink", capacity=count)
        for taker in sent:
            if taker != maker and (maker, taker) not in shut:
                graph.add_edge(("gives", maker), ("gets", taker), capacity=1)
    return networkx.maximum_flow_value(graph, "source", "sink")


@settings(max_examples=400, deadline=None)
@given(CALL, some.lists(PAIR, max_size=3), some.lists(PAIR, max_size=6), some.binary(max_size=8))
def test_any_call_gets_a_valid_deal(sent, apart, met, seed):
    """The checker finds nothing; there is a deal unless one sends more than all the others."""
    made = deal(sent, apart=apart, met=met, seed=seed)
    assert faults_of(made, sent, apart=apart, met=met) == []
    assert made.possible == all(2 * count <= sum(sent.values()) for count in sent.values())
    assert made == deal(dict(reversed(sent.items())), apart=apart[::-1], met=met, seed=seed)


@settings(max_examples=200, deadline=None)
@given(CALL, some.lists(PAIR, max_size=4), some.lists(PAIR, max_size=8))
def test_what_is_feasible_equals_maximum_flow(sent, apart, met):
    """All rules can be kept exactly where the largest flow deals every card."""
    shut = {*met, *apart, *((j, i) for i, j in apart)}
    plan = prepare(sent, apart=apart, met=met, relax=())
    assert (plan.face is not None) == (strict_flow(sent, shut) == sum(sent.values()))


@settings(max_examples=200, deadline=None)
@given(CALL, some.lists(PAIR, max_size=4), some.lists(PAIR, max_size=8))
def test_an_obstacle_is_a_narrowest_cut(sent, apart, met):
    """Its numbers are what is lacking, and they add up by hand."""
    shut = {*met, *apart, *((j, i) for i, j in apart)}
    plan = prepare(sent, apart=apart, met=met, relax=())
    for obstacle in plan.obstacles:
        assert obstacle.need - obstacle.reach == sum(sent.values()) - strict_flow(sent, shut)
        assert obstacle.need == sum(sent[taker] for taker in obstacle.takers)
        for giver, most in obstacle.givers:
            takers = [
                j for j in obstacle.takers if j != giver and (giver, j) not in shut and sent[j]
            ]
            assert most == min(sent[giver], len(takers))
        assert str(obstacle.need) in obstacle.words and str(obstacle.reach) in obstacle.words


def test_an_obstacle_names_people_and_numbers():
    """In words that a host can read out."""
    made = deal({"Ada": 3, "Ben": 1, "Cyd": 1, "Dee": 1}, apart=[("Ada", "Ben")], seed=b"")
    assert made.obstacles[0].words == (
        "Ada and Ben are to get 4 cards, but only 2 can reach them: 1 from Cyd and 1 from Dee. "
        "(Rules kept: nobody's own, no two from one maker, pairs kept apart.)"
    )
    assert [(one.rule, one.cards) for one in made.relaxed] == [("apart", 2)]
    assert made.table == {
        ("Ada", "Ben"): 1, ("Ada", "Cyd"): 1, ("Ada", "Dee"): 1,
        ("Ben", "Ada"): 1, ("Cyd", "Ada"): 1, ("Dee", "Ada"): 1,
    }  # fmt: skip


def test_a_deal_that_cannot_be_says_so():
    """One who sends more than all the others would have to get their own."""
    made = deal({"Ada": 3, "Ben": 1, "Cyd": 1}, seed=b"")
    assert not made.possible and not made.table and not made.cards
    assert made.obstacles[-1].words.startswith("Ada is to get 3 cards, but only 2 can reach them")


def test_rules_give_way_in_the_order_asked_for():
    """Met before, two of one, households; or as a call has it."""
    sent = dict.fromkeys("abcd", 2)
    apart, met = [("a", "b"), ("c", "d")], [("a", "c")]
    usual = deal(sent, apart=apart, met=met, seed=b"")
    other = deal(sent, apart=apart, met=met, seed=b"", relax=("double", "met", "apart"))
    never = deal(sent, apart=apart, met=met, seed=b"", relax=("apart",))
    assert [(r.rule, r.cards) for r in usual.relaxed] == [("met", 1)]
    assert [r.rule for r in other.relaxed] == ["double"]
    assert [r.rule for r in never.relaxed] == ["apart"]


@pytest.mark.parametrize(
    "people, each, exact", [(1, 0, True), (2, 1, True), (30, 3, True), (20, 8, False)]
)
def test_the_method_and_its_promise_are_told(people, each, exact):
    """Only a walk is not exactly uniform, and says so."""
    made = deal({f"m{i:02}": each for i in range(people)}, seed=b"s")
    assert made.exact == exact and (made.method == "walk") == (not exact)
    assert "not proven" in made.guarantee or exact
    assert faults_of(made, {f"m{i:02}": each for i in range(people)}) == []


@pytest.mark.parametrize("pair", [("a", "b"), ("b", "a"), ["a", "b"], {"a", "b"}])
def test_a_pair_kept_apart_may_be_written_either_way(pair):
    """Whichever is said first, and in whatever holds two."""
    assert deal(dict.fromkeys("abcd", 1), apart=[pair], seed=b"").ways == 4


@pytest.mark.parametrize(
    "rules",
    [
        {"apart": ["ab"]}, {"apart": "ab"}, {"apart": [("a",)]}, {"apart": [("a", "b", "c")]},
        {"apart": [(["a"], "b")]}, {"apart": [None]}, {"apart": None}, {"met": [{"a", "b"}]},
        {"met": 5}, {"relax": "met"}, {"relax": [[]]}, {"relax": ["met", "met"]},
    ],
)
def test_what_is_no_pair_and_no_rule_is_refused(rules):
    """A text of two letters is no pair of makers, and a set does not say who gave."""
    with pytest.raises(ValueError, match="must"):
        deal(dict.fromkeys("abc", 1), seed=b"", **rules)


@pytest.mark.parametrize("count", [-1, 1.0, True, "1", None, float("nan")])
def test_what_is_no_number_of_cards_is_refused(count):
    """Though the same call was dealt before with a number that is equal to it."""
    assert deal({"a": 1, "b": 1}, seed=b"").possible
    with pytest.raises(ValueError, match="cards of a must be a whole number from 0"):
        deal({"a": count, "b": 1}, seed=b"")


def test_a_librarys_whole_numbers_are_numbers():
    """Counts may come out of an array."""
    assert deal(dict.fromkeys("ab", numpy.int64(1)), seed=b"") == deal({"a": 1, "b": 1}, seed=b"")


@pytest.mark.parametrize("sent", [[("a", 1)], None, "ab", {"a": 1, 2: 1}, {None: 1, "a": 1}])
def test_makers_without_an_order_are_refused(sent):
    """The order of makers is part of the deal."""
    with pytest.raises(TypeError, match="must"):
        deal(sent, seed=b"")


@pytest.mark.parametrize("seed", ["seed", 5, None])
def test_a_seed_is_bytes(seed):
    """A text has many encodings."""
    with pytest.raises(TypeError, match="seed must be bytes"):
        deal({"a": 1, "b": 1}, seed=seed)


@pytest.mark.parametrize(
    "sent", [{"a": 10**6, "b": 10**6}, {"a": 10**30, "b": 1}, dict.fromkeys(range(1001), 1)]
)
def test_what_no_table_could_hold_is_refused(sent):
    """More than a machine deals in a minute is a clear no."""
    with pytest.raises(ValueError, match="at most 1000 makers and 100000 cards"):
        deal(sent, seed=b"")


def test_counting_does_not_hang_on_how_deep_calls_may_go(monkeypatch):
    """A hundred classes of makers are counted in a shallow stack."""
    room = len(inspect.stack()) + 60
    sent = dict.fromkeys(range(100), 1)
    limit = sys.getrecursionlimit()
    monkeypatch.setattr("swapboard.dealing.sampling.MOST_CLASHES", -1)
    try:
        sys.setrecursionlimit(room)
        made = deal(sent, seed=b"deep")
    finally:
        sys.setrecursionlimit(limit)
    assert faults_of(made, sent) == []


def test_a_fixed_seed_gives_this_deal():
    """A deal written down: a change of it is a new version of the specification."""
    made = deal({"Ada": 2, "Ben": 1, "Cyd": 2, "Dee": 1}, seed=b"swapboard")
    assert [(card.giver, card.number, card.taker) for card in made.cards] == [
        ("Ada", 1, "Cyd"),
        ("Ada", 2, "Ben"),
        ("Ben", 1, "Ada"),
        ("Cyd", 1, "Ada"),
        ("Cyd", 2, "Dee"),
        ("Dee", 1, "Cyd"),
    ]


@pytest.mark.parametrize(
    "fault, words",
    [
        ({"table": {("a", "a"): 1, ("b", "b"): 1}}, "a gets their own."),
        ({"cards": ()}, "The list of cards is not the table."),
        ({"cards": (DealtCard("a", 2, "b"), DealtCard("b", 1, "a"))}, "The cards of a are not"),
        ({"table": {("a", "b"): 1}}, "b gives 0 cards in place of 1."),
        ({"prices": ((5, 0), (0, 0))}, "It is not proven"),
    ],
)
def test_the_checker_finds_what_is_wrong(fault, words):
    """Each kind of fault, put into a good deal."""
    from dataclasses import replace

    sent = {"a": 1, "b": 1}
    bad = replace(deal(sent, seed=b""), **fault)
    assert any(found.startswith(words) for found in faults_of(bad, sent))


def test_a_large_swap_of_people_who_have_met_is_dealt_exactly():
    """30 people, 3 cards each, 100 pairs who met before: too many for trials and for counts."""
    sent = {f"m{i:02}": 3 for i in range(30)}
    every = [(a, b) for a in sent for b in sent if a != b]
    met = random.Random(5).sample(every, 100)
    made = deal(sent, met=met, seed=b"s")
    assert made.method == "bounds" and made.exact and not made.relaxed
    assert faults_of(made, sent, met=met) == []


@pytest.mark.parametrize(
    "arguments, error",
    [
        ({"sent": {"a": -1}}, ValueError), ({"sent": {"a": 1.5}}, ValueError),
        ({"sent": {"a": True}}, ValueError), ({"sent": {"a": 0}, "seed": "text"}, TypeError),
        ({"sent": {"a": 0}, "relax": ("own",)}, ValueError),
        ({"sent": {"a": 0, "b": 0}, "apart": [("a", "b", "c")]}, ValueError),
    ],
)  # fmt: skip
def test_what_is_no_call_is_refused(arguments, error):
    """Counts, pairs, seeds and rules of the wrong kind."""
    with pytest.raises(error):
        deal(**{"seed": b"", **arguments})
