"""What a deal must keep to, as numbers: who may send how many to whom, and at what cost.

Row i sends to column j; rows and columns are the same people, in sorted order.
A rule that may be relaxed is a cost so high that one card against it weighs more
than everything the rules below it can weigh, so that the cheapest deals are those
that relax the dearest rule least, then the next, and so on.
"""

from collections.abc import Hashable, Iterable, Mapping, Set
from dataclasses import dataclass
from numbers import Integral

MET, DOUBLE, APART = "met", "double", "apart"
RELAX = (MET, DOUBLE, APART)
# Prices are whole tables of people × people, and evenness has one for each card of a cell:
# more than these is not a swap but an attack on the machine that deals.
MOST_MAKERS, MOST_CARDS = 1000, 100_000

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


def counts_of(sent: Mapping[Maker, int]) -> dict[Maker, int]:
    """`sent` as plain numbers, in the order of its makers.

    Raises ValueError for a count that is no whole number from 0; TypeError where `sent`
    is no mapping, or its makers have no order.
    """
    if not isinstance(sent, Mapping):
        raise TypeError(f"sent must map makers to their cards (got {type(sent).__name__})")
    counts = {}
    for maker, count in sent.items():
        # Of a library's own whole numbers the plain ones are taken.
        whole = isinstance(count, Integral) and not isinstance(count, bool)
        if not whole or count < 0:
            raise ValueError(f"cards of {maker} must be a whole number from 0 (got {count!r})")
        counts[maker] = int(count)
    try:
        return {maker: counts[maker] for maker in sorted(counts)}
    except TypeError as error:
        raise TypeError(f"makers must be of one kind that has an order ({error})") from None


def pairs_of(
    pairs: Iterable[tuple[Maker, Maker]], name: str, either_way: bool = False
) -> frozenset[tuple[Maker, ...]]:
    """Pairs as tuples; `either_way` they may be sets, which have no order.

    Raises ValueError for what is not two makers."""
    if isinstance(pairs, str) or not isinstance(pairs, Iterable):
        raise ValueError(f"{name} must be pairs of makers (got {pairs!r})")
    # A text of two letters has two parts as well, and names nobody.
    no_pair = (str, bytes) if either_way else (str, bytes, Set)
    found = set()
    for pair in pairs:
        fits = isinstance(pair, Iterable) and not isinstance(pair, no_pair)
        try:
            one, other = pair if fits else ()
            found.add((one, other))
        except (TypeError, ValueError):
            raise ValueError(f"a pair of {name} must be two makers (got {pair!r})") from None
    return frozenset(found)


def rules_of(
    sent: Mapping[Maker, int],
    apart: Iterable[tuple[Maker, Maker]],
    met: Iterable[tuple[Maker, Maker]],
    relax: Iterable[str] = RELAX,
) -> Rules:
    """The rules of one deal; pairs with somebody who is not in `sent` say nothing.

    Raises ValueError for a count that is no whole number from 0, for more than
    `MOST_MAKERS` or `MOST_CARDS` in all, for a pair that is not two makers, and for a
    rule to relax that is not one of `RELAX`.
    """
    if is_too_large(sent):
        most = f"{MOST_MAKERS} makers and {MOST_CARDS} cards"
        got = f"{len(sent)} makers and {sum(sent.values())} cards"
        raise ValueError(f"a deal must be of at most {most} (got {got})")
    relax = tuple(relax)
    if not all(rule in RELAX for rule in relax) or len(set(relax)) < len(relax):
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


def is_too_large(sent: Mapping[Maker, int]) -> bool:
    """Whether these are more makers, or more cards together, than are dealt."""
    return len(sent) > MOST_MAKERS or sum(sent.values()) > MOST_CARDS


def _cells(pairs, place: dict):
    for pair in pairs:
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
