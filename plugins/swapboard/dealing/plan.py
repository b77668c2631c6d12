"""From counts and rules to a deal: what can be settled first, then what chance decides."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from math import prod

from swapboard.dealing.face import Face, face_of
from swapboard.dealing.flow import cheapest
from swapboard.dealing.obstacles import Obstacle, obstacles_of
from swapboard.dealing.result import Deal, DealtCard, Relaxed
from swapboard.dealing.rules import (
    APART,
    DOUBLE,
    MET,
    RELAX,
    Maker,
    Rules,
    counts_of,
    pairs_of,
    rules_of,
)
from swapboard.dealing.sampling import GUARANTEES, METHODS, SETTLED, WALK, Sampler
from swapboard.dealing.stream import Stream

_IMPOSSIBLE = "impossible"
_NO_DEAL = "No deal is possible, even with every rule relaxed that may be."


@dataclass(frozen=True, slots=True)
class Plan:
    """All valid deals of one call, ready for a seed to choose among them.

    `face` is None where there is no valid deal.
    """

    rules: Rules
    face: Face | None
    obstacles: tuple[Obstacle, ...]
    samplers: tuple[Sampler, ...]

    def table(self, stream: Stream) -> tuple[list[list[int]], str]:
        """One of the valid tables [giver][taker], and the weakest method it took."""
        table = [list(row) for row in self.face.settled]
        used = SETTLED
        for sampler in self.samplers:
            block = sampler.block
            method, dealt = sampler.draw(stream)
            used = max(used, method, key=METHODS.index)
            for k, j in enumerate(block.takers):
                ones = set(dealt[k])
                for row, i in enumerate(block.givers):
                    if block.allowed[row][k] and (row in ones) != block.inverted:
                        table[i][j] += 1
        return table, used

    def deal(self, seed: bytes) -> Deal:
        """The deal that `seed` gives."""
        rules = self.rules
        if self.face is None:
            return Deal(
                rules.makers, False, {}, (), _IMPOSSIBLE, _NO_DEAL, False, 0, (),
                self.obstacles, ((), ()),
            )  # fmt: skip
        stream = Stream(seed)
        table, method = self.table(stream)
        cells = {
            (rules.makers[i], rules.makers[j]): count
            for i, row in enumerate(table)
            for j, count in enumerate(row)
            if count
        }
        return Deal(
            rules.makers, True, cells, _card_by_card(rules, table, stream), method,
            GUARANTEES[method], method != WALK, self._ways(), _relaxed(rules, table),
            self.obstacles, self.face.prices,
        )  # fmt: skip

    def _ways(self) -> int | None:
        known = [sampler.ways() for sampler in self.samplers]
        return None if None in known else prod(known)


def deal(
    sent: Mapping[Maker, int],
    *,
    apart: Iterable[tuple[Maker, Maker]] = (),
    met: Iterable[tuple[Maker, Maker]] = (),
    seed: bytes,
    relax: Iterable[str] = RELAX,
) -> Deal:
    """Deal a group swap's cards out again; the same arguments give the same deal.

    `sent` says how many cards each maker gets back, the host's already taken off,
    and gives as many. Nobody gets their own. While possible nobody gets two of one
    maker, no card crosses a pair of `apart` (either way), and no `met` giver sends
    to that taker again. Where this cannot be, the rules named in `relax` give way,
    the first of them first, each for as few cards as can be; of equal deals those
    come first that take two of several makers before three of one. Every table
    that is left is equally likely, and so is every choice of which cards make it up.

    Sure and exact up to a few hundred thousand counted steps, else a long random
    walk: see `Deal.guarantee`. Raises ValueError for a count that is no whole number
    from 0, more than 1000 makers or 100,000 cards, a pair that is none, an unknown rule;
    TypeError for makers without an order and a seed that is not bytes.

    >>> deal({"ada": 1, "ben": 1}, seed=b"any").table
    {('ada', 'ben'): 1, ('ben', 'ada'): 1}
    """
    if not isinstance(seed, bytes | bytearray | memoryview):
        raise TypeError(f"seed must be bytes (got {type(seed).__name__})")
    return prepare(sent, apart=apart, met=met, relax=relax).deal(bytes(seed))


def prepare(
    sent: Mapping[Maker, int],
    *,
    apart: Iterable[tuple[Maker, Maker]] = (),
    met: Iterable[tuple[Maker, Maker]] = (),
    relax: Iterable[str] = RELAX,
) -> Plan:
    """Everything about a deal but the seed, for many seeds: see `deal`.

    The last few plans are kept."""
    # Before the plans that are kept, to which 1, 1.0 and True are the same number.
    counts = tuple(counts_of(sent).items())
    return _prepare(counts, pairs_of(apart, "apart", True), pairs_of(met, "met"), _names(relax))


def _names(relax: Iterable[str]) -> tuple[str, ...]:
    if not isinstance(relax, Iterable) or not all(isinstance(rule, str) for rule in relax):
        raise ValueError(f"relax must be names of rules (got {relax!r})")
    return tuple(relax)


@lru_cache(maxsize=16)
def _prepare(sent, apart, met, relax) -> Plan:
    rules = rules_of(dict(sent), apart, met, relax)
    best = cheapest(rules)
    kept_whole = not best.lacking and not rules.cost(best.table)
    obstacles = () if kept_whole else obstacles_of(rules)
    if best.lacking:
        return Plan(rules, None, obstacles, ())
    face = face_of(rules, best.table)
    return Plan(rules, face, obstacles, tuple(Sampler(block) for block in face.blocks))


def _card_by_card(rules: Rules, table: list[list[int]], stream: Stream) -> tuple[DealtCard, ...]:
    cards = []
    for maker, row in zip(rules.makers, table, strict=True):
        takers = [j for j, count in enumerate(row) for _ in range(count)]
        stream.shuffle(takers)
        cards += [
            DealtCard(maker, number, rules.makers[j]) for number, j in enumerate(takers, 1)
        ]
    return tuple(cards)


def _relaxed(rules: Rules, table: list[list[int]]) -> tuple[Relaxed, ...]:
    numbers = {
        MET: sum(table[i][j] for i, j in rules.met),
        DOUBLE: sum(count - 1 for row in table for count in row if count),
        APART: sum(table[i][j] for i, j in rules.apart),
    }
    return tuple(Relaxed(rule, numbers[rule]) for rule in rules.relax if numbers[rule])
