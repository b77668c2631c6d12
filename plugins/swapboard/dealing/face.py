"""All cheapest tables at once: what is settled, and what chance may still decide.

By complementary slackness the cheapest tables are those that keep each cell within
the range that the people's prices give it; a cell may take either value exactly
where it lies on a ring of possible changes, so inside one strongly connected part
of the graph of changes (R. E. Tarjan, 1972). Each part is a block of its own: a
table of zeros and ones with given sums and forbidden cells.
"""

from dataclasses import dataclass

from swapboard.dealing.flow import Table, potentials, ranges
from swapboard.dealing.rules import Rules


@dataclass(frozen=True, slots=True)
class Block:
    """A table of zeros and ones to be drawn: `allowed[row][column]` may be 1.

    `givers` and `takers` are the people of its rows and columns, in order, and
    `row_sums` and `column_sums` how many ones each has. `inverted` is true where
    the ones of the block stand for cards *not* dealt, which are fewer.
    """

    givers: tuple[int, ...]
    takers: tuple[int, ...]
    row_sums: tuple[int, ...]
    column_sums: tuple[int, ...]
    allowed: tuple[tuple[bool, ...], ...]
    inverted: bool


@dataclass(frozen=True, slots=True)
class Face:
    """Every cheapest table: `settled` cards plus a one or none in each cell of the
    `blocks`. `prices` of givers and takers certify that none is cheaper."""

    settled: tuple[tuple[int, ...], ...]
    blocks: tuple[Block, ...]
    prices: tuple[tuple[int, ...], tuple[int, ...]]


def face_of(rules: Rules, table: Table) -> Face:
    """Everything that a cheapest `table` shares with the others, and their blocks.

    The same for whichever cheapest table is given. Blocks are in the order of
    their first givers. O(people²) but for the prices, which take a few rounds
    more where something had to be relaxed.
    """
    prices = potentials(rules, table)
    low, high = ranges(rules, *prices)
    people = len(table)
    ahead = [
        [people + j for j in range(people) if table[i][j] < high[i][j]] for i in range(people)
    ] + [[i for i in range(people) if table[i][j] > low[i][j]] for j in range(people)]
    part = _parts(ahead)
    settled = [list(row) for row in table]
    members: dict[int, list[int]] = {}
    for i in range(people):
        members.setdefault(part[i], []).append(i)
        for j in range(people):
            if part[i] == part[people + j]:
                settled[i][j] = low[i][j]
    blocks = []
    for number, givers in sorted(members.items(), key=lambda item: item[1]):
        takers = [j for j in range(people) if part[people + j] == number]
        if takers:
            blocks.append(_block(table, low, high, givers, takers))
    return Face(tuple(map(tuple, settled)), tuple(blocks), (tuple(prices[0]), tuple(prices[1])))


def _block(table: Table, low: Table, high: Table, givers: list[int], takers: list[int]) -> Block:
    allowed = tuple(tuple(low[i][j] < high[i][j] for j in takers) for i in givers)
    rows = [sum(table[i][j] - low[i][j] for j in takers) for i in givers]
    columns = [sum(table[i][j] - low[i][j] for i in givers) for j in takers]
    room = [sum(row) for row in allowed]
    inverted = 2 * sum(rows) > sum(room)
    if inverted:
        rows = [places - ones for places, ones in zip(room, rows, strict=True)]
        room = [sum(column) for column in zip(*allowed, strict=True)]
        columns = [places - ones for places, ones in zip(room, columns, strict=True)]
    return Block(
        tuple(givers), tuple(takers), tuple(rows), tuple(columns), allowed, inverted
    )


def _parts(ahead: list[list[int]]) -> list[int]:
    """The number of each node's strongly connected part (Tarjan, without recursion)."""
    size = len(ahead)
    found, lowest, part = [-1] * size, [0] * size, [-1] * size
    clock, parts, open_nodes = 0, 0, []
    for root in range(size):
        if found[root] >= 0:
            continue
        walk = [(root, iter(ahead[root]))]
        found[root] = lowest[root] = clock
        clock += 1
        open_nodes.append(root)
        while walk:
            node, rest = walk[-1]
            for other in rest:
                if found[other] < 0:
                    found[other] = lowest[other] = clock
                    clock += 1
                    open_nodes.append(other)
                    walk.append((other, iter(ahead[other])))
                    break
                if part[other] < 0:
                    lowest[node] = min(lowest[node], found[other])
            else:
                walk.pop()
                if walk:
                    above = walk[-1][0]
                    lowest[above] = min(lowest[above], lowest[node])
                if lowest[node] == found[node]:
                    while part[node] < 0:
                        part[open_nodes.pop()] = parts
                    parts += 1
    return part
