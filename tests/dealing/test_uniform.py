"""Every valid deal is equally likely, by each method; three naive ways fail the same test."""

import random
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise
from math import factorial

import pytest

from dealing import naive
from dealing.every_deal import looks_uniform, tables
from swapboard.dealing import deal, prepare
from swapboard.dealing.bounded import ONE, E, bounds, draw_by_bounds
from swapboard.dealing.chain import draw_by_walk
from swapboard.dealing.counting import count_tables, draw_counted
from swapboard.dealing.rejection import draw_by_rejection
from swapboard.dealing.stream import Stream

COUPLES = {(0, 1), (1, 0), (2, 3), (3, 2), (4, 5), (5, 4)}
CALLS = {
    "three, one each": ([1] * 3, set()),
    "four, one each": ([1] * 4, set()),
    "five, one each": ([1] * 5, set()),
    "five, two each": ([2] * 5, set()),
    "couples, one each": ([1] * 6, COUPLES),
    "couples, two each": ([2] * 6, COUPLES),
    "mixed": ([3, 2, 2, 1, 1, 1], set()),
    "mixed, one met": ([2, 2, 1, 1, 2], {(0, 1)}),
    "mixed, two met": ([2, 2, 2, 1, 1], {(0, 3), (1, 4)}),
}
SMALL = ("four, one each", "five, one each", "couples, one each")


@pytest.mark.parametrize("name", [name for name in CALLS if name != "three, one each"])
def test_every_deal_is_equally_likely(name):
    """The whole way from a seed to the table, against all deals there are."""
    counts, shut = CALLS[name]
    plan = prepare(dict(enumerate(counts)), met=shut, relax=())

    def draw(number):
        return tuple(map(tuple, plan.table(Stream(number.to_bytes(4, "big")))[0]))

    assert looks_uniform(draw, list(tables(counts, 1, shut)))


def by_rejection(block, stream):
    """Trials without an end."""
    return draw_by_rejection(block, stream, 10**9)


def by_bounds(block, stream):
    """Trials by bounds without an end."""
    return draw_by_bounds(block, stream, 10**9)


def by_loose_counts(block, stream):
    """Counted without the forbidden cells, drawn until none is met."""
    counts = loose_counts(block)
    while not (dealt := draw_counted(block, counts, stream)):
        pass
    return dealt


@lru_cache
def loose_counts(block):
    return count_tables(block, 10**7, forbidden=False)


@pytest.mark.parametrize(
    "method, name",
    [
        *((by_rejection, name) for name in SMALL),
        *((by_loose_counts, name) for name in SMALL),
        *((by_bounds, name) for name in (*SMALL, "mixed, one met", "mixed, two met")),
        # Three givers with one card each have two deals, and no trade leads from one to the other.
        (draw_by_walk, "three, one each"),
        (draw_by_walk, "four, one each"),
    ],
)
def test_each_method_alone_is_uniform(method, name):
    """Trials, counts without forbidden cells, bounds and the walk, on calls that need none of
    them."""
    counts, shut = CALLS[name]
    (sampler,) = prepare(dict(enumerate(counts)), met=shut, relax=()).samplers
    block, stream = sampler.block, Stream(name.encode())
    if block.inverted:
        pytest.fail("a block of few ones is needed here")

    def draw(_):
        takers = method(block, stream)
        return tuple(tuple(int(i in givers) for givers in takers) for i in range(len(counts)))

    each = 100 if method is draw_by_walk else 300
    assert looks_uniform(draw, list(tables(counts, 1, shut)), each)


def test_bounds_leave_no_more_than_there_was():
    """What makes them exact: h rises as it must, by whole numbers, and e is not too large."""
    h = bounds(1000)
    for before, after in pairwise(h):
        x = Fraction(ONE, before)
        series = sum(x**n / factorial(n) for n in range(10))
        # The rest of the series is less than twice its first term left out.
        assert Fraction(after, before) >= series + 2 * x**10 / factorial(10)
    assert Fraction(E, ONE) < sum(Fraction(1, factorial(n)) for n in range(12))
    assert Fraction(E + 1, ONE) > sum(Fraction(1, factorial(n)) for n in range(12))


@pytest.mark.parametrize(
    "control", [naive.retry_each_person, naive.repair_by_swapping, naive.one_big_circle]
)
@pytest.mark.parametrize("name", ["five, two each", "mixed"])
def test_naive_ways_are_caught(control, name):
    """Each fails the very test that ours passes."""
    counts, shut = CALLS[name]
    chance = random.Random(7)
    assert not looks_uniform(lambda _: control(counts, chance), list(tables(counts, 1, shut)))


def test_which_card_goes_where_is_random_too():
    """All eight physical deals of three makers with two cards each."""

    def draw(number):
        made = deal(dict.fromkeys("abc", 2), seed=number.to_bytes(4, "big"))
        return tuple(card.taker for card in made.cards)

    orders = [
        one + two + three
        for one in (("b", "c"), ("c", "b"))
        for two in (("a", "c"), ("c", "a"))
        for three in (("a", "b"), ("b", "a"))
    ]
    assert looks_uniform(draw, orders)
