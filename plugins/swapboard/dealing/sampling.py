"""One table of a block, by the surest method that its size allows.

The methods stand in the order in which they are tried; a limit is a number of
steps, never a time, so that the same seed gives the same deal on every machine.
Whether a trial runs into its limit does not hang on which table it would have
found, so going on to the next method leaves every table as likely as before.
"""

from dataclasses import dataclass, field
from math import prod

from swapboard.dealing.bounded import draw_by_bounds
from swapboard.dealing.chain import draw_by_walk
from swapboard.dealing.counting import Counts, count_tables, draw_counted
from swapboard.dealing.face import Block
from swapboard.dealing.rejection import draw_by_rejection
from swapboard.dealing.stream import Stream

LITTLE_WORK = 12_000
MUCH_WORK = 1_000_000
# So few people are worth a few seconds: with many limits a walk would be all there is.
FEW_GIVERS, WORK_FOR_FEW = 16, 2_500_000
TRIAL_CARDS = 2_000_000
TRIAL_TABLES = 20_000
# Of e to the power of this many trials about one succeeds.
MOST_CLASHES = 10
# Bounds see forbidden cells, and two from one giver only as they come: fewer of these.
MOST_PAIRS, BOUND_WORK = 5, 200_000_000

SETTLED = "settled"
COUNTING = "counting"
REJECTION = "rejection"
COUNTING_AND_REJECTION = "counting and rejection"
BOUNDS = "bounds"
WALK = "walk"

GUARANTEES = {
    SETTLED: "There is only one way to deal, so chance decides only which card goes where.",
    COUNTING: "All ways to deal were counted, and each was equally likely.",
    REJECTION: "Cards were dealt at random until a deal kept to every rule, so that each way to "
    "deal was equally likely.",
    COUNTING_AND_REJECTION: "Deals were drawn by exact counts until one kept to every rule, so "
    "that each way to deal was equally likely.",
    BOUNDS: "Cards were dealt one by one by bounds on the number of deals left, and anew where a "
    "bound was too high, so that each way to deal was equally likely.",
    WALK: "The ways to deal are too many to count. A long random walk that can reach every one of "
    "them, and in the long run comes to each equally often, was ended after a fixed number of "
    "steps: evenly mixed by all tests, but not proven to be.",
}
# From the strongest promise to the weakest: a deal in blocks promises what its weakest does.
METHODS = (SETTLED, COUNTING, REJECTION, COUNTING_AND_REJECTION, BOUNDS, WALK)


@dataclass(slots=True)
class Sampler:
    """Draws tables of one block; what was counted once is kept for the next draw."""

    block: Block
    _counted: dict[tuple[int, bool], Counts | None] = field(default_factory=dict)

    def counts(self, most_work: int, forbidden: bool) -> Counts | None:
        """The counts of the block, made when first asked for."""
        key = (most_work, forbidden)
        if key not in self._counted:
            self._counted[key] = count_tables(self.block, most_work, forbidden)
        return self._counted[key]

    def ways(self) -> int | None:
        """How many tables the block has, where they have been counted; else None."""
        counted = [self._counted.get((work, True)) for work in (LITTLE_WORK, self._much())]
        return next((counts.total for counts in counted if counts), None)

    def _much(self) -> int:
        return WORK_FOR_FEW if len(self.block.givers) <= FEW_GIVERS else MUCH_WORK

    def draw(self, stream: Stream) -> tuple[str, list[list[int]]]:
        """(method, the givers of each taker); of an inverted block, those who do not give."""
        block = self.block
        if few := self.counts(LITTLE_WORK, True):
            return COUNTING, draw_counted(block, few, stream)
        if _few_clashes(block, pairs=True) and (
            dealt := draw_by_rejection(block, stream, TRIAL_CARDS)
        ):
            return REJECTION, dealt
        if many := self.counts(self._much(), True):
            return COUNTING, draw_counted(block, many, stream)
        if _few_clashes(block, pairs=False) and (loose := self.counts(self._much(), False)):
            for _ in range(TRIAL_TABLES):
                if dealt := draw_counted(block, loose, stream):
                    return COUNTING_AND_REJECTION, dealt
        if _pairs(block) <= 2 * MOST_PAIRS * sum(block.row_sums) ** 2 and (
            dealt := draw_by_bounds(block, stream, BOUND_WORK)
        ):
            return BOUNDS, dealt
        return WALK, draw_by_walk(block, stream)


def _few_clashes(block: Block, pairs: bool) -> bool:
    """Whether a random deal of a block has at most `MOST_CLASHES` cards where they may
    not be, on average; with `pairs`, two from one giver to one taker count as well."""
    rows, columns = block.row_sums, block.column_sums
    ones = sum(rows)
    forbidden = sum(
        of_row * of_column
        for of_row, may in zip(rows, block.allowed, strict=True)
        for of_column, allowed in zip(columns, may, strict=True)
        if not allowed
    )
    twice = _pairs(block) if pairs else 0
    return 2 * ones * forbidden + twice <= 2 * MOST_CLASHES * ones * ones


def _pairs(block: Block) -> int:
    """Twice the square of the block's ones, times how many of them a random deal gives
    to one taker from one giver beside another."""
    return prod(sum(n * (n - 1) for n in sums) for sums in (block.row_sums, block.column_sums))
