"""How many deals there are: published numbers, and plain trying."""

from math import prod

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from dealing.every_deal import tables
from swapboard.dealing import prepare
from swapboard.dealing.counting import count_tables

PLENTY = 10_000_000


def ways(plan) -> int:
    """All valid tables of a plan, by counting each block."""
    return prod(count_tables(sampler.block, PLENTY).total for sampler in plan.samplers)


@pytest.mark.parametrize(
    "each, people, published",
    [
        *((1, people, n) for people, n in zip(range(2, 7), (1, 2, 9, 44, 265), strict=True)),
        # OEIS A000166 above, A007107 here
        *((2, people, n) for people, n in zip(range(3, 7), (1, 9, 216, 7570), strict=True)),
        # 0-1 tables with all sums 3 and zeros on the diagonal; equal to the numbers for
        # people - 1 - 3 where ones and zeros change places
        *((3, people, n) for people, n in zip(range(4, 8), (1, 44, 7570, 1975560), strict=True)),
    ],
)
def test_counts_are_the_published_ones(each, people, published):
    """Everyone sends and gets the same number, one at most from each."""
    plan = prepare({f"maker {i}": each for i in range(people)})
    assert ways(plan) == published
    assert not plan.obstacles


@pytest.mark.parametrize("each, published", [(1, 80), (2, 546)])
def test_three_couples_have_the_known_number_of_deals(each, published):
    """No card between the two of a couple."""
    plan = prepare(dict.fromkeys("abcdef", each), apart=[tuple("ab"), tuple("cd"), tuple("ef")])
    assert ways(plan) == published


def test_mixed_counts_have_the_known_number_of_deals():
    """Sent 3, 2, 2, 1, 1, 1."""
    assert ways(prepare(dict(zip("abcdef", (3, 2, 2, 1, 1, 1), strict=True)))) == 297


@settings(max_examples=150, deadline=None)
@given(
    some.lists(some.integers(0, 3), min_size=1, max_size=5),
    some.sets(some.tuples(some.integers(0, 4), some.integers(0, 4)), max_size=4),
    some.sets(some.tuples(some.integers(0, 4), some.integers(0, 4)), max_size=2),
)
def test_counts_equal_plain_trying(counts, met, apart):
    """With rules that may not give way: the number of tables, or an obstacle."""
    both = met | apart | {(j, i) for i, j in apart}
    found = list(tables(counts, 1, both))
    plan = prepare(dict(enumerate(counts)), met=met, apart=apart, relax=())
    assert (plan.face is not None) == bool(found) == (not plan.obstacles)
    if found:
        assert ways(plan) == len(found)


def price(table, met, apart) -> tuple[int, int, int, int]:
    """What a table relaxes, the dearest rule first, and its unevenness."""
    cells = [(i, j, n) for i, row in enumerate(table) for j, n in enumerate(row)]
    return (
        sum(n for i, j, n in cells if (i, j) in apart or (j, i) in apart),
        sum(n - 1 for _, _, n in cells if n),
        sum(n for i, j, n in cells if (i, j) in met),
        sum(n * (n - 1) // 2 for _, _, n in cells),
    )


@settings(max_examples=150, deadline=None)
@given(
    some.lists(some.integers(0, 4), min_size=2, max_size=4),
    some.sets(some.tuples(some.integers(0, 3), some.integers(0, 3)), max_size=5),
    some.sets(some.tuples(some.integers(0, 3), some.integers(0, 3)), max_size=3),
)
def test_no_more_is_relaxed_than_must_be(counts, met, apart):
    """The valid deals are exactly the best of all tables: as many, and as good."""
    met, apart = ({(i, j) for i, j in pairs if i != j} for pairs in (met, apart))
    every = [price(table, met, apart) for table in tables(counts, max(counts))]
    plan = prepare(dict(enumerate(counts)), met=met, apart=apart)
    assert (plan.face is not None) == bool(every)
    if every:
        best = min(every)
        deal = plan.deal(b"any")
        table = [[deal.table.get((i, j), 0) for j in deal.makers] for i in deal.makers]
        assert price(table, met, apart) == best
        assert ways(plan) == every.count(best)
        told = {one.rule: one.cards for one in deal.relaxed}
        assert [told.get(rule, 0) for rule in ("apart", "double", "met")] == list(best[:3])
        assert bool(deal.obstacles) == any(best[:3])
