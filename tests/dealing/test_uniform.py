"""Every valid deal is equally likely, by each method; three naive ways fail the same test."""

import random

import pytest

from dealing import naive
from dealing.every_deal import looks_uniform, tables
from swapboard.dealing import deal, prepare
from swapboard.dealing.chain import draw_by_walk
from swapboard.dealing.counting import count_tables, draw_counted
from swapboard.dealing.rejection import draw_by_rejection
from swapboard.dealing.stream import Stream

COUPLES = {(0, 1), (1, 0), (2, 3), (3, 2), (4, 5), (5, 4)}
CALLS = {
    "four, one each": ([1] * 4, set()),
    "five, one each": ([1] * 5, set()),
    "five, two each": ([2] * 5, set()),
    "couples, one each": ([1] * 6, COUPLES),
    "couples, two each": ([2] * 6, COUPLES),
    "mixed": ([3, 2, 2, 1, 1, 1], set()),
}
SMALL = ("four, one each", "five, one each", "couples, one each")


@pytest.mark.parametrize("name", CALLS)
def test_every_deal_is_equally_likely(name):
    """The whole way from a seed to the table, against all deals there are."""
    counts, shut = CALLS[name]
    plan = prepare(dict(enumerate(counts)), apart=shut)

    def draw(number):
        return tuple(map(tuple, plan.table(Stream(number.to_bytes(4, "big")))[0]))

    assert looks_uniform(draw, list(tables(counts, 1, shut)))


def by_rejection(block, stream):
    return draw_by_rejection(block, stream, 10**9)


def by_loose_counts(block, stream, kept={}):  # noqa: B006
    """Counted without the forbidden cells, drawn until none is met."""
    counts = kept.setdefault(block, count_tables(block, 10**7, forbidden=False))
    while not (dealt := draw_counted(block, counts, stream)):
        pass
    return dealt


@pytest.mark.parametrize("name", SMALL)
@pytest.mark.parametrize("method", [by_rejection, by_loose_counts, draw_by_walk])
def test_each_method_alone_is_uniform(method, name):
    """Trials, counts without forbidden cells, and the walk, which counts too small to need them."""
    counts, shut = CALLS[name]
    (sampler,) = prepare(dict(enumerate(counts)), apart=shut).samplers
    block, stream = sampler.block, Stream(name.encode())
    assert not block.inverted and block.givers == block.takers == tuple(range(len(counts)))

    def draw(_):
        takers = method(block, stream)
        return tuple(
            tuple(int(i in givers) for givers in takers) for i in range(len(counts))
        )

    each = 300 if method is not draw_by_walk or len(counts) < 6 else 100
    outcomes = list(tables(counts, 1, shut))
    if method is draw_by_walk:
        outcomes_each = each if len(outcomes) < 60 else 100
        assert looks_uniform(draw, outcomes, outcomes_each)
    else:
        assert looks_uniform(draw, outcomes, each)


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
    """All 36 physical deals of three makers with two cards each... are as likely."""
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
