"""Exact counting: how many ways are left after each taker, and a draw by these counts.

Takers are dealt one after another. What matters of the givers still to deal is only
how many cards each has left and which of the takers to come they may not send to;
givers alike in both are interchangeable (residual classes, as in J. W. Miller and
M. T. Harrison, "Exact sampling and counting for fixed-margin matrices", Annals of
Statistics 41, 2013; forbidden cells added here).
"""

from dataclasses import dataclass, field
from math import comb

from swapboard.dealing.face import Block
from swapboard.dealing.stream import Stream

# A state lists the givers with cards left: kind × (most + 1) + cards left, sorted.
State = tuple[int, ...]


@dataclass(slots=True)
class Counts:
    """`ways[k][state]` counts the ways to deal to taker k and all after it; `steps`
    are the ways of one taker: (how many of each class, weight, state after)."""

    kinds: list[list[int]]
    most: int
    first: State
    ways: list[dict[State, int]] = field(default_factory=list)
    steps: list[dict[State, list[tuple[tuple[int, ...], int, State]]]] = field(
        default_factory=list
    )

    @property
    def total(self) -> int:
        """How many tables there are."""
        return self.ways[0][self.first]


def count_tables(block: Block, most_work: int, forbidden: bool = True) -> Counts | None:
    """Count the tables of `block`, or None where that is over `most_work`.

    The work is the number of steps times the number of givers; a step is one way to
    choose a taker's givers by class, from one state that can be reached. Without
    `forbidden`, tables are counted as if every cell were allowed: far fewer classes,
    for the price of drawing until a table fits.
    """
    kinds = [_kinds(block, 0, forbidden)]
    most = max(block.row_sums)
    pairs = zip(kinds[0], block.row_sums, strict=True)
    first = tuple(sorted(kind * (most + 1) + ones for kind, ones in pairs if ones))
    counts = Counts(kinds, most, first)
    states, taken = {first}, 0
    for k, needed in enumerate(block.column_sums):
        kinds.append(_kinds(block, k + 1, forbidden))
        may = _may(block, kinds[k], k, forbidden)
        onward = dict(zip(kinds[k], kinds[k + 1], strict=True))
        steps: dict[State, list] = {}
        for state in states:
            steps[state] = []
            for step in _ways_of_one(state, needed, may, onward, most):
                taken += len(block.givers)
                if taken > most_work:
                    return None
                steps[state].append(step)
        counts.steps.append(steps)
        states = {after for found in steps.values() for _, _, after in found}
    _count_back(counts)
    return counts


def _kinds(block: Block, k: int, forbidden: bool) -> list[int]:
    """Which givers are alike from taker k on: numbered as they first appear."""
    numbers: dict[tuple[bool, ...], int] = {}
    tails = [row[k:] if forbidden else () for row in block.allowed]
    return [numbers.setdefault(tail, len(numbers)) for tail in tails]


def _may(block: Block, kinds: list[int], k: int, forbidden: bool) -> dict[int, bool]:
    return {
        kind: not forbidden or row[k] for kind, row in zip(kinds, block.allowed, strict=True)
    }


def _classes(state: State) -> list[tuple[int, int]]:
    """(class, how many givers), in order."""
    found: dict[int, int] = {}
    for code in state:
        found[code] = found.get(code, 0) + 1
    return list(found.items())


def _ways_of_one(state: State, needed: int, may, onward, most: int):
    """Every way to choose `needed` givers by class; the first class's least first."""
    classes = _classes(state)
    tops = [size if may[code // (most + 1)] else 0 for code, size in classes]
    for choice in _choices(needed, tops):
        weight, after = 1, []
        for (code, size), count in zip(classes, choice, strict=True):
            kind, left = divmod(code, most + 1)
            weight *= comb(size, count)
            moved = onward[kind] * (most + 1) + left
            after += [moved] * (size - count)
            if left > 1:
                after += [moved - 1] * count
        yield choice, weight, tuple(sorted(after))


def _choices(needed: int, tops: list[int]):
    """Every list of counts up to `tops` that add up to `needed`, in ascending order.

    Without recursion: a large swap has more classes than Python has room for calls.
    """
    size = len(tops)
    room = [0] * (size + 1)
    for place in range(size - 1, -1, -1):
        room[place] = room[place + 1] + tops[place]
    if needed > room[0] or (needed and not size):
        return
    if not size:
        yield ()
        return
    chosen, left = [0] * size, [needed] * (size + 1)
    spans = [iter(range(max(0, needed - room[1]), min(tops[0], needed) + 1))]
    while spans:
        place = len(spans) - 1
        count = next(spans[-1], None)
        if count is None:
            spans.pop()
            continue
        chosen[place] = count
        left[place + 1] = rest = left[place] - count
        if place + 1 == size:
            yield tuple(chosen)
        else:
            least = max(0, rest - room[place + 2])
            spans.append(iter(range(least, min(tops[place + 1], rest) + 1)))


def _count_back(counts: Counts) -> None:
    """A state at the end counts one way where no card is left, and none else."""
    later: dict[State, int] = {(): 1}
    for steps in reversed(counts.steps):
        now = {
            state: sum(weight * later.get(after, 0) for _, weight, after in found)
            for state, found in steps.items()
        }
        counts.ways.append(now)
        later = now
    counts.ways.reverse()


def draw_counted(block: Block, counts: Counts, stream: Stream) -> list[list[int]] | None:
    """The givers of each taker, each table of those counted equally likely.

    None as soon as a giver falls on a forbidden cell, which happens only where
    `counts` were made without them.
    """
    left = list(block.row_sums)
    state, dealt = counts.first, []
    for k in range(len(block.takers)):
        choice, after = _step(counts, k, state, stream)
        members: dict[int, list[int]] = {}
        for i, ones in enumerate(left):
            if ones:
                members.setdefault(counts.kinds[k][i] * (counts.most + 1) + ones, []).append(i)
        givers = []
        for (code, _), count in zip(_classes(state), choice, strict=True):
            givers += stream.pick(members[code], count)
        if not all(block.allowed[i][k] for i in givers):
            return None
        for i in givers:
            left[i] -= 1
        dealt.append(givers)
        state = after
    return dealt


def _step(counts: Counts, k: int, state: State, stream: Stream):
    """One step, as likely as the share of all ways that go on from it."""
    number = stream.below(counts.ways[k][state])
    later = counts.ways[k + 1] if k + 1 < len(counts.ways) else {(): 1}
    for choice, weight, after in counts.steps[k][state]:
        number -= weight * later.get(after, 0)
        if number < 0:
            return choice, after
    raise AssertionError("the counts of a state add up to its own")
