"""After the deal: a parcel that was short, one that came late, a card that was lost.

Sealed envelopes stay as they are. Of all ways to give the others what they are to get,
those come first that leave the fewest cards wanting; then those that break the fewest
rules anew, the dearest rule first; then those that touch the fewest envelopes of people
to whom nothing happened; then those that move the fewest cards. Cards in no envelope,
the host's spares, are therefore used before anybody else's. Between equals a seed
decides. `repair_search` finds it, and proves that nothing less is possible.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from swapboard.dealing.repair_search import fewest_lacking, least_repair
from swapboard.dealing.repair_task import Task
from swapboard.dealing.result import Relaxed
from swapboard.dealing.rules import APART, DOUBLE, MET, RELAX, Maker
from swapboard.dealing.stream import Stream

SPARE = ""  # the pile of cards that are in no envelope


@dataclass(frozen=True, slots=True, order=True)
class Moved:
    """Card `number` of `giver`'s pile goes from one envelope to another; `SPARE` is none."""

    giver: Maker
    number: int
    left: Maker
    to: Maker


@dataclass(frozen=True, slots=True)
class Repair:
    """A deal as mended.

    `cards` (giver, number, taker) are all envelopes as they are now; `moves` what
    changed; `others` those whose envelope had to be opened though nothing happened to
    them; `short` (taker, cards) who still lacks some; `relaxed` the rules broken anew;
    `proven` whether nothing less was possible.
    """

    cards: tuple[tuple[Maker, int, Maker], ...]
    moves: tuple[Moved, ...]
    others: tuple[Maker, ...]
    short: tuple[tuple[Maker, int], ...]
    relaxed: tuple[Relaxed, ...]
    proven: bool

    @property
    def spares(self) -> int:
        """How many spare cards went into envelopes."""
        return sum(move.left == SPARE for move in self.moves)


def repair(
    cards: Iterable[tuple[Maker, int, Maker]],
    *,
    hand: Mapping[Maker, Iterable[int]],
    due: Mapping[Maker, int],
    sealed: Iterable[Maker] = (),
    apart: Iterable[tuple[Maker, Maker]] = (),
    met: Iterable[tuple[Maker, Maker]] = (),
    relax: Iterable[str] = RELAX,
    seed: bytes,
) -> Repair:
    """Mend a deal with as little change as can be; the same arguments, the same repair.

    `cards` (giver, number, taker) are the envelopes as they lie; `hand` the numbers of
    every giver's cards that are still there, spares included; `due` how many each is to
    get. Whoever is `sealed` keeps what lies in their envelope, whatever `due` says.
    Nobody gets their own. Raises ValueError where a sealed envelope holds a card that
    is not in `hand`.
    """
    there = {maker: sorted(set(numbers)) for maker, numbers in hand.items()}
    lying = sorted(cards)
    shut = set(sealed)
    for giver, number, taker in lying:
        if taker in shut and number not in there.get(giver, ()):
            raise ValueError(f"card {number} of {giver} is sealed for {taker}, and not there")
    rules = _Rules(
        {tuple(pair) for pair in met},
        {pair for one, other in apart for pair in ((one, other), (other, one))},
        tuple(relax),
    )
    quiet = _untouched(lying, there, due, shut)
    whole = _task(lying, there, due, shut, quiet, rules)
    # Where nobody else's envelope has to be opened, and nobody lacks more than all of them
    # opened could help, nothing better can be, and the programme is small.
    alone = _mended(_task(lying, there, due, shut | quiet, set(), rules), lying, seed)
    lacking = sum(cards for _, cards in alone.short)
    if alone.proven and not alone.relaxed and lacking <= fewest_lacking(whole):
        return alone
    return _mended(whole, lying, seed)


@dataclass(frozen=True, slots=True)
class _Rules:
    """Pairs that have met and that are kept apart, both ways, and what may give way."""

    met: set
    apart: set
    relax: tuple[str, ...]


def _task(lying, there, due, shut, quiet, rules: _Rules) -> Task:
    """What may be changed where the envelopes of `shut` stay as they are."""
    kept = tuple(card for card in lying if card[2] in shut)
    piles = {maker: set(numbers) for maker, numbers in there.items()}
    for giver, number, _ in kept:
        piles[giver].discard(number)
    return Task(
        takers=tuple(sorted(maker for maker in due if maker not in shut)), due=dict(due),
        piles={maker: frozenset(pile) for maker, pile in piles.items()}, kept=kept,
        loose=tuple(c for c in lying if c[2] not in shut and c[1] in there.get(c[0], ())),
        quiet=frozenset(quiet), met=frozenset(rules.met), apart=frozenset(rules.apart),
        relax=rules.relax,
    )  # fmt: skip


def _mended(task: Task, lying: list, seed: bytes) -> Repair:
    """The best repair of a task."""
    stream = Stream(seed)
    table, proven = least_repair(task, stream)
    return _told(task, lying, [*task.kept, *_place(task, table, stream)], table, proven)


def _untouched(lying: list, there: Mapping, due: Mapping, shut: set) -> set:
    """Takers who have all their cards, and as many as they are to get."""
    before, after = (dict.fromkeys(due, 0) for _ in range(2))
    for giver, number, taker in lying:
        if taker in before:
            before[taker] += 1
            after[taker] += number in there.get(giver, ())
    return {t for t in due if t not in shut and due[t] and before[t] == after[t] == due[t]}


def _place(task: Task, table: dict, stream: Stream) -> list:
    """Cards by number: as many as can be stay where they lie."""
    stay, placed = {cell: [] for cell in table}, []
    for giver, number, taker in task.loose:
        stay.setdefault((giver, taker), []).append(number)
    free = {giver: set(numbers) for giver, numbers in task.piles.items()}
    wanting = []
    for giver, taker in sorted({*stay, *table}):
        numbers = stay[giver, taker]
        many = min(table.get((giver, taker), 0), len(numbers))
        for number in stream.pick(list(numbers), many):
            placed.append((giver, number, taker))
            free[giver].discard(number)
        wanting += [(giver, taker)] * (table.get((giver, taker), 0) - many)
    for giver in task.givers:
        takers = [taker for source, taker in wanting if source == giver]
        numbers = stream.pick(sorted(free[giver]), len(takers))
        placed += [(giver, n, t) for n, t in zip(numbers, takers, strict=True)]
    return placed


def _told(task: Task, lying: list, cards: list, table: dict, proven: bool) -> Repair:
    before = {(giver, number): taker for giver, number, taker in lying}
    after = {(giver, number): taker for giver, number, taker in cards}
    moves = tuple(
        Moved(giver, number, before.get((giver, number), SPARE), after.get((giver, number), SPARE))
        for giver, number in sorted({*before, *after})
        if before.get((giver, number)) != after.get((giver, number))
    )
    changed = {side for move in moves for side in (move.left, move.to)}
    got = {t: sum(n for (_, to), n in table.items() if to == t) for t in task.takers}
    return Repair(
        cards=tuple(sorted(cards)),
        moves=moves,
        others=tuple(sorted(changed & task.quiet)),
        short=tuple((t, task.due[t] - got[t]) for t in task.takers if task.due[t] > got[t]),
        relaxed=tuple(_relaxed(task, table)),
        proven=proven,
    )


def _relaxed(task: Task, table: dict):
    broken = {rule: task.count(table, rule) for rule in (MET, DOUBLE, APART)}
    return [Relaxed(rule, cards) for rule, cards in broken.items() if cards]
