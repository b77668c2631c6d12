"""After the deal: a parcel that was short, one that came late, a card that was lost.

Sealed envelopes stay as they are. Of all ways to give the others what they are to get,
those come first that leave the fewest cards wanting; then those that break the fewest
rules anew, the dearest rule first; then those that touch the fewest envelopes of people
to whom nothing happened; then those that move the fewest cards. Cards in no envelope,
the host's spares, are therefore used before anybody else's. Between equals a seed
decides. It is a small integer programme, solved level by level to the optimum by HiGHS
(Huangfu & Hall, 2018).
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from swapboard.dealing.repair_program import Levels
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
    # Where nobody else's envelope has to be opened nothing better can be, and the
    # programme is small.
    alone = _mended(lying, there, due, shut | quiet, set(), rules, seed)
    if alone.proven and not alone.short and not alone.relaxed:
        return alone
    return _mended(lying, there, due, shut, quiet, rules, seed)


@dataclass(frozen=True, slots=True)
class _Rules:
    """Pairs that have met and that are kept apart, both ways, and what may give way."""

    met: set
    apart: set
    relax: tuple[str, ...]


def _mended(lying, there, due, shut, quiet, rules: _Rules, seed: bytes) -> Repair:
    """The best repair that leaves the envelopes of `shut` as they are."""
    kept = [card for card in lying if card[2] in shut]
    loose = [c for c in lying if c[2] not in shut and c[1] in there.get(c[0], ())]
    piles = {maker: set(numbers) for maker, numbers in there.items()}
    for giver, number, _ in kept:
        piles[giver].discard(number)
    task = _Task(
        givers=sorted(piles), takers=sorted(maker for maker in due if maker not in shut),
        due=dict(due), piles=piles, now=_counted(loose), quiet=quiet, met=rules.met,
        apart=rules.apart, relax=rules.relax,
    )  # fmt: skip
    stream = Stream(seed)
    table, proven = _solve(task, stream)
    placed = _place(task, loose, table, stream)
    return _told(task, lying, kept + placed, table, proven)


@dataclass(frozen=True, slots=True)
class _Task:
    """What is to be mended; `now` counts loose cards by (giver, taker), `quiet` are the
    takers to whom nothing happened."""

    givers: list
    takers: list
    due: dict
    piles: dict
    now: dict
    quiet: set
    met: set
    apart: set
    relax: tuple[str, ...]

    def most(self, giver: Maker, taker: Maker) -> int:
        """The most cards that may go from one to the other."""
        pair, had = (giver, taker), self.now.get((giver, taker), 0)
        if giver == taker:
            return 0
        if pair in self.apart and APART not in self.relax:
            return had
        if pair in self.met and MET not in self.relax:
            return had
        most = min(len(self.piles[giver]), max(self.due[taker], had))
        return most if DOUBLE in self.relax else min(most, max(1, had))


def _counted(cards: list) -> dict:
    counted: dict = {}
    for giver, _, taker in cards:
        counted[giver, taker] = counted.get((giver, taker), 0) + 1
    return counted


def _untouched(lying: list, there: Mapping, due: Mapping, shut: set) -> set:
    """Takers who have all their cards, and as many as they are to get."""
    before, after = (dict.fromkeys(due, 0) for _ in range(2))
    for giver, number, taker in lying:
        if taker in before:
            before[taker] += 1
            after[taker] += number in there.get(giver, ())
    return {t for t in due if t not in shut and due[t] and before[t] == after[t] == due[t]}


def _solve(task: _Task, stream: Stream) -> tuple[dict, bool]:
    """How many of each giver's cards go to each taker, by (giver, taker)."""
    levels = Levels()
    cells = [(g, t) for t in task.takers for g in task.givers if task.most(g, t)]
    count = {cell: levels.column(task.most(*cell)) for cell in cells}
    new = {cell: levels.column(task.most(*cell)) for cell in cells}
    touched = {t: levels.column(1) for t in task.takers if t in task.quiet}
    lacking = {t: levels.column(task.due[t]) for t in task.takers}
    for cell in cells:
        had, most = task.now.get(cell, 0), task.most(*cell)
        levels.row({count[cell]: 1, new[cell]: -1}, most=had)
        if (touch := touched.get(cell[1])) is not None:
            levels.row({count[cell]: 1, touch: -max(most, had)}, most=had)
            levels.row({count[cell]: 1, touch: max(most, had)}, least=had)
    for giver in task.givers:
        row = {count[c]: 1 for c in cells if c[0] == giver}
        levels.row(row, most=len(task.piles[giver]))
    for taker in task.takers:
        row = {count[c]: 1 for c in cells if c[1] == taker} | {lacking[taker]: 1}
        levels.row(row, least=task.due[taker], most=task.due[taker])
    levels.lower(dict.fromkeys(lacking.values(), 1))
    for rule in reversed(task.relax):
        levels.lower(_broken(task, rule, cells, count, new, levels))
    levels.lower(dict.fromkeys(touched.values(), 1))
    levels.lower(dict.fromkeys(new.values(), 1))
    levels.lower({new[cell]: 1 + stream.below(1000) for cell in cells})
    values = levels.values()
    return {cell: values[count[cell]] for cell in cells if values[count[cell]]}, levels.proven


def _broken(task: _Task, rule: str, cells: list, count: dict, new: dict, levels: Levels) -> dict:
    """What counts the cards that break a rule and did not before."""
    if rule != DOUBLE:
        pairs = task.met if rule == MET else task.apart
        return {new[cell]: 1 for cell in cells if cell in pairs}
    extra = {}
    for cell in cells:
        allowed = max(1, task.now.get(cell, 0))
        if task.most(*cell) > allowed:
            column = levels.column(task.most(*cell))
            levels.row({count[cell]: 1, column: -1}, most=allowed)
            extra[column] = 1
    return extra


def _place(task: _Task, loose: list, table: dict, stream: Stream) -> list:
    """Cards by number: as many as can be stay where they lie."""
    stay, placed = {cell: [] for cell in table}, []
    for giver, number, taker in loose:
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


def _told(task: _Task, lying: list, cards: list, table: dict, proven: bool) -> Repair:
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


def _relaxed(task: _Task, table: dict):
    added = {cell: max(0, n - task.now.get(cell, 0)) for cell, n in table.items()}
    broken = {
        MET: sum(n for cell, n in added.items() if cell in task.met),
        DOUBLE: sum(max(0, n - max(1, task.now.get(cell, 0))) for cell, n in table.items()),
        APART: sum(n for cell, n in added.items() if cell in task.apart),
    }
    return [Relaxed(rule, cards) for rule, cards in broken.items() if cards]
