"""The least repair, aim after aim, and the proof that none is less.

Cells are opened where prices ask for them (column generation: G. B. Dantzig and P. Wolfe,
1960), so that a swap of thousands of cards is mended by a programme of a few. What the
small programme finds is the least of all where it comes to the bound of `repair_bound`;
where it does not, all cells are opened and HiGHS has to say so by itself.
"""

from swapboard.dealing.repair_bound import bound_of
from swapboard.dealing.repair_program import Programme
from swapboard.dealing.repair_task import MOVED, SHORT, Cell, Task
from swapboard.dealing.stream import Stream

_ROUNDS = 40
# Prices are rounded to this part of one; all sums of a deal stay far below its half.
_PART = 1_000_000
_NEVER = 1_000 * _PART


def least_repair(task: Task, stream: Stream) -> tuple[dict[Cell, int], bool]:
    """How many cards go into each cell, and whether nothing less is proven to be possible.

    Between equals the stream decides. Raises `Unsolved`.
    """
    programme = Programme(task)
    programme.open_cells(_of_use(task))
    proven = True
    for aim in task.aims:
        most, sure = _least(programme, aim)
        programme.settle(aim, most)
        proven = proven and sure
    weights = {cell: 1 + stream.below(1000) for cell in sorted(programme.open)}
    chosen = programme.solve(programme.columns_in(weights, MOVED), whole=True)
    return programme.table(chosen), proven


def fewest_lacking(task: Task) -> int:
    """A bound on the cards that will be lacking: what there is too few of for everybody
    together no exchange can give. The plainest prices show it, all cards at the same."""
    alike = dict.fromkeys(task.givers, _PART)
    return _whole_part(bound_of(task, {SHORT: _PART}, {}, alike)[0])


def _of_use(task: Task) -> list[Cell]:
    """Where cards lie, where some are wanting, and for the quiet the cards that are free."""
    held, takers = dict.fromkeys(task.givers, 0), set(task.takers)
    for giver, taker in task.now:
        if taker in takers:
            held[giver] += task.now[giver, taker]
    free = {giver for giver, count in held.items() if count < len(task.piles[giver])}
    return [
        cell for cell in task.cells
        if cell in task.now or cell[1] not in task.quiet or cell[0] in free
    ]  # fmt: skip


def _least(programme: Programme, aim: str) -> tuple[int, bool]:
    """The least that an aim can come to besides those settled, and whether it is proven."""
    if programme.does_without(aim):
        return 0, True
    found = programme.solve(programme.columns_for(aim), whole=True)
    if found.total <= 0:
        return 0, True
    opened, bound = _priced(programme, aim, round(found.total))
    if bound < found.total and opened:
        found = programme.solve(programme.columns_for(aim), whole=True)
    if bound >= found.total:
        return round(found.total), True
    programme.open_cells(programme.task.cells)
    found = programme.solve(programme.columns_for(aim), whole=True)
    return round(found.total), found.optimal


def _priced(programme: Programme, aim: str, most: int) -> tuple[bool, int]:
    """Open the cells that prices ask for; whether there were any, and the best bound."""
    task = programme.task
    opened, best = False, fewest_lacking(task) if aim == SHORT else 0
    for _ in range(_ROUNDS if best < most else 0):
        solved = programme.solve(programme.columns_for(aim), whole=False)
        if not solved.optimal:
            break
        # An aim that came to nothing may weigh as much as it likes: it is taken off again.
        weights = {
            other: _whole(solved.weights[other]) if least else _NEVER
            for other, least in programme.settled.items()
        } | {aim: _PART}  # fmt: skip
        prices = {giver: _whole(price) for giver, price in solved.prices.items()}
        total, used = bound_of(task, weights, programme.settled, prices)
        best = max(best, _whole_part(total))
        fresh = [cell for cell in used if cell not in programme.open]
        if best >= most or not fresh:
            break
        programme.open_cells(fresh)
        opened = True
    return opened, best


def _whole(price: float) -> int:
    return max(0, round(price * _PART))


def _whole_part(total: int) -> int:
    """A bound on whole numbers is a whole number."""
    return max(0, -(-total // _PART))
