"""All deals of a small call by plain trying, and a test of whether all are equally likely."""

from collections import Counter
from collections.abc import Callable, Hashable
from itertools import product
from math import sqrt

# The share 1e-7 of a normal distribution lies above this many standard deviations.
Z_AT_1E_7 = 5.199


def tables(counts: list[int], most: int = 1, shut=frozenset()):
    """Every table with these row and column sums, nothing on the diagonal or on the
    cells of `shut`, and at most `most` in a cell."""
    people = range(len(counts))

    def rows(i: int, left: list[int]):
        if i == len(counts):
            if not any(left):
                yield ()
            return
        tops = [0 if i == j or (i, j) in shut else min(most, left[j]) for j in people]
        for row in product(*(range(top + 1) for top in tops)):
            if sum(row) == counts[i]:
                after = [have - took for have, took in zip(left, row, strict=True)]
                for rest in rows(i + 1, after):
                    yield (row, *rest)

    yield from rows(0, list(counts))


def looks_uniform(draw: Callable[[int], Hashable], outcomes: list, each: int = 300) -> bool:
    """Pearson's chi-square (1900) over all `outcomes`, `each` draws for each on average,
    with the limit at 1e-7 (E. B. Wilson and M. M. Hilferty, 1931). An outcome that
    is none of them fails at once."""
    drawn = Counter(draw(number) for number in range(each * len(outcomes)))
    if not drawn.keys() <= set(outcomes):
        return False
    statistic = sum((drawn[outcome] - each) ** 2 for outcome in outcomes) / each
    freedom = len(outcomes) - 1
    part = 2 / (9 * freedom)
    return statistic <= freedom * (1 - part + Z_AT_1E_7 * sqrt(part)) ** 3
