"""A long random walk through the tables, where they are too many to count.

Trades between two givers (Curveball: G. Strona et al., Nature Communications 5,
2014; uniform: C. J. Carstens, 2015), each followed by a ring: three or more givers
each pass a card on to the next. With forbidden cells trades alone can leave tables
out of reach (A. R. Rao, R. Jana and S. Bandyopadhyay, Sankhya A 58, 1996;
A. Berger and M. Müller-Hannemann, 2010). Rings of every length reach them all: where
two tables differ, the difference falls apart into rings that pass no giver and no
taker twice, and each of these is one such step. Both steps are as likely as their
reverse, so in the long run every table is equally likely; how soon is not proven.
"""

from swapboard.dealing.face import Block
from swapboard.dealing.flow import saturate
from swapboard.dealing.stream import Stream

TRADES_EACH = 100


def draw_by_walk(block: Block, stream: Stream) -> list[list[int]]:
    """The givers of each taker after `TRADES_EACH` trades and rings for each giver."""
    walk = _Walk(block)
    for _ in range(TRADES_EACH * len(walk.rows)):
        walk.trade(stream)
        walk.ring(stream)
    dealt: list[list[int]] = [[] for _ in block.takers]
    for giver, row in enumerate(walk.rows):
        for k in row:
            dealt[k].append(giver)
    return dealt


class _Walk:
    """A table as each giver's takers, in order, and the same as ones in `has`."""

    def __init__(self, block: Block) -> None:
        self.allowed = block.allowed
        self.has = [[0] * len(block.takers) for _ in block.givers]
        high = [[int(may) for may in row] for row in block.allowed]
        low = [[0] * len(row) for row in high]
        saturate(self.has, low, high, list(block.row_sums), list(block.column_sums))
        self.rows = [[k for k, one in enumerate(row) if one] for row in self.has]
        self.order = list(range(len(block.givers)))

    def trade(self, stream: Stream) -> None:
        """Two givers throw together what either could send in place of the other,
        and each draws as many again."""
        one = stream.below(len(self.rows))
        other = stream.below(len(self.rows) - 1)
        other += other >= one
        mine, theirs = self._open(one, other), self._open(other, one)
        if not mine or not theirs:
            return
        pool = mine + theirs
        stream.shuffle(pool)
        for giver, before, after in (
            (one, mine, pool[: len(mine)]),
            (other, theirs, pool[len(mine) :]),
        ):
            self._change(giver, before, after)

    def _open(self, giver: int, other: int) -> list[int]:
        has, may = self.has[other], self.allowed[other]
        return [k for k in self.rows[giver] if may[k] and not has[k]]

    def _change(self, giver: int, before: list[int], after: list[int]) -> None:
        has = self.has[giver]
        for k in before:
            has[k] = 0
        for k in after:
            has[k] = 1
        gone = set(before)
        self.rows[giver] = sorted([k for k in self.rows[giver] if k not in gone] + after)

    def ring(self, stream: Stream) -> None:
        """Three givers, or with half the chance for each more, pass a card on."""
        givers = len(self.rows)
        if givers < 3:
            return
        length = 3
        while length < givers and stream.below(2):
            length += 1
        ring = stream.pick(self.order, length)
        passed = [self.rows[i][stream.below(len(self.rows[i]))] for i in ring]
        onward = ring[1:] + ring[:1]
        for k, taker in zip(passed, onward, strict=True):
            if self.has[taker][k] or not self.allowed[taker][k]:
                return
        for giver, k, got in zip(ring, passed, passed[-1:] + passed[:-1], strict=True):
            self._change(giver, [k], [got])
