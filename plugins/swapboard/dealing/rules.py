"""What a deal must keep to, as numbers: who may send how many to whom, and at what cost.

Row i sends to column j; rows and columns are the same people, in sorted order.
A rule that may be relaxed is a cost so high that one card against it weighs more
than everything the rules below it can weigh, so that the cheapest deals are those
that relax the dearest rule least, then the next, and so on.
"""

from collections.abc import Hashable, Iterable, Mapping
from dataclasses import dataclass

MET, DOUBLE, APART = "met", "double", "apart"
RELAX = (MET, DOUBLE, APART)

Maker = Hashable


@dataclass(frozen=True, slots=True)
class Rules:
    """The people in order, and for each cell [giver][taker] its price and its cap.

    `counts[i]` is what person i sends and gets. The x-th card in a cell costs
    `base` for x = 1 and `base + double + x - 1` after that; `cap` is the most a
    cell can hold. `met` and `apart` hold cells; `weights` the price of each rule
    that may be relaxed.
    """

    makers: tuple[Maker, ...]
    counts: tuple[int, ...]
    met: frozenset[tuple[int, int]]
    apart: frozenset[tuple[int, int]]
    relax: tuple[str, ...]
    weights: dict[str, int]
    base: tuple[tuple[int, ...], ...]
    cap: tuple[tuple[int, ...], ...]

    @property
    def double(self) -> int:
        """What each card after the first from one maker costs, evenness aside."""
        return self.weights.get(DOUBLE, 0)

    def cost(self, table: list[list[int]]) -> int:
        """The price of a whole table."""
        return sum(
            count * base + (count - 1) * self.double + count * (count - 1) // 2
            for counts, bases in zip(table, self.base, strict=True)
            for count, base in zip(counts, bases, strict=True)
            if count
        )


def rules_of(
    sent: Mapping[Maker, int],
    apart: Iterable[tuple[Maker, Maker]],
    met: Iterable[tuple[Maker, Maker]],
    relax: Iterable[str] = RELAX,
) -> Rules:
    """The rules of one deal; pairs with somebody who is not in `sent` say nothing.

    Raises ValueError for a count that is no whole number from 0, for a pair that
    is not two makers, and for a rule to relax that is not one of `RELAX`.
    """
    for maker, count in sent.items():
        if isinstance(count, bool) or not isinstance(count, int) or count < 0:
            raise ValueError(f"cards of {maker} must be a whole number from 0 (got {count!r})")
    relax = tuple(relax)
    if len(set(relax)) < len(relax) or not set(relax) <= set(RELAX):
        raise ValueError(f"relax must name each of {', '.join(RELAX)} at most once (got {relax})")
    makers = tuple(sorted(sent))
    counts = tuple(sent[maker] for maker in makers)
    place = {maker: number for number, maker in enumerate(makers)}
    met_cells = frozenset(_cells(met, place))
    one_way = frozenset(_cells(apart, place))
    apart_cells = one_way | {(j, i) for i, j in one_way}
    weights = _weights(len(makers), max(counts, default=0), relax)
    base, cap = _cells_of(counts, met_cells, apart_cells, weights)
    return Rules(makers, counts, met_cells, apart_cells, relax, weights, base, cap)


def _cells(pairs, place: dict):
    for pair in pairs:
        if isinstance(pair, str) or len(pair) != 2:
            raise ValueError(f"a pair must be two makers (got {pair!r})")
        one, other = pair
        if one in place and other in place and one != other:
            yield place[one], place[other]


def _weights(people: int, most: int, relax: tuple[str, ...]) -> dict[str, int]:
    """A price for each rule, the first to be relaxed the cheapest.

    Two tables differ by rings of at most 2 × `people` cells, so a price above what
    one such ring can gain by all lower prices makes the order strict; below them
    all is the price of unevenness, less than `most` for a cell.
    """
    weights, below = {}, most
    for rule in relax:
        weights[rule] = 2 * people * below + 1
        below += weights[rule]
    return weights


def _cells_of(counts, met, apart, weights):
    base, cap = [], []
    for i, sends in enumerate(counts):
        bases, caps = [0] * len(counts), [0] * len(counts)
        for j, gets in enumerate(counts):
            most = min(sends, gets) if DOUBLE in weights else min(sends, gets, 1)
            for rule, cells in ((MET, met), (APART, apart)):
                if (i, j) in cells:
                    bases[j] += weights.get(rule, 0)
                    most = most if rule in weights else 0
            caps[j] = 0 if i == j else most
        base.append(tuple(bases))
        cap.append(tuple(caps))
    return tuple(base), tuple(cap)
