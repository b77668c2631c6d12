"""The cheapest table: as many cards as possible, then rules relaxed as little as possible.

A transport problem with convex prices, solved by successive phases of equal price
(primal-dual method: L. R. Ford and D. R. Fulkerson, "Flows in Networks", 1962;
Ahuja, Magnanti and Orlin, "Network Flows", 1993, chapters 9 and 14).
"""

from dataclasses import dataclass
from heapq import heappop, heappush

from swapboard.dealing.rules import Rules

Table = list[list[int]]


@dataclass(frozen=True, slots=True)
class Cheapest:
    """A cheapest table of all tables that deal the most cards; `lacking` are cards
    that nobody may take. Prices of people certify that nothing is cheaper:
    see `potentials`."""

    table: Table
    lacking: int


def cheapest(rules: Rules) -> Cheapest:
    """Deal as many cards as the caps allow, at the least price.

    Cost: a phase for each price that occurs, each O(people²) and a ring search for
    every card that the greedy start could not place.
    """
    people = len(rules.counts)
    table = [[0] * people for _ in range(people)]
    spare, lack = list(rules.counts), list(rules.counts)
    givers, takers = [0] * people, [0] * people
    while True:
        low, high = ranges(rules, givers, takers)
        saturate(table, low, high, spare, lack)
        if not any(lack) or not _raise(rules, table, spare, lack, givers, takers):
            return Cheapest(table, sum(lack))


def ranges(rules: Rules, givers: list[int], takers: list[int]) -> tuple[Table, Table]:
    """The least and the most of each cell in a cheapest table, by people's prices.

    A next card belongs in the cell while it costs less than taker's price minus
    giver's; at the very price it may be there or not. Prices in a cell rise with
    each card, so the two differ by 1 at most.
    """
    low, high = [], []
    for i, giver in enumerate(givers):
        lows, highs = [], []
        for j, taker in enumerate(takers):
            cap, base, worth = rules.cap[i][j], rules.base[i][j], taker - giver
            second = base + rules.double
            if cap == 0 or base > worth:
                least = most = 0
            else:
                most = min(cap, 1 + max(0, worth - second))
                least = min(cap, 0 if base == worth else 1 + max(0, worth - second - 1))
            lows.append(least)
            highs.append(most)
        low.append(lows)
        high.append(highs)
    return low, high


def saturate(table: Table, low: Table, high: Table, spare: list[int], lack: list[int]) -> None:
    """Deal as many more cards as go within `low` and `high`, changing all but those.

    First each taker in turn takes from those who have most left (the first of
    equals); then shortest chains of re-dealing, the lowest numbers first
    (J. Edmonds and R. M. Karp, 1972).
    """
    for j in range(len(lack)):
        if not lack[j]:
            continue
        for i in sorted(range(len(spare)), key=lambda i: -spare[i]):
            count = min(high[i][j] - table[i][j], spare[i], lack[j])
            if count > 0:
                table[i][j] += count
                spare[i] -= count
                lack[j] -= count
    while any(lack) and (chain := _shortest_chain(table, low, high, spare, lack)):
        _redeal(table, low, high, spare, lack, chain)


def _shortest_chain(table, low, high, spare, lack) -> list[int]:
    """giver, taker, giver, taker …: from one with cards left to one who lacks some."""
    from_taker = {i: -1 for i, left in enumerate(spare) if left}
    from_giver: dict[int, int] = {}
    new_takers = list(range(len(lack)))
    new_givers = [i for i in range(len(spare)) if i not in from_taker]
    queue = list(from_taker)
    for i in queue:
        row, tops = table[i], high[i]
        reached = [j for j in new_takers if row[j] < tops[j]]
        for j in reached:
            from_giver[j] = i
            if lack[j]:
                return _back(j, from_giver, from_taker)
        if reached:
            new_takers = [j for j in new_takers if j not in from_giver]
        for j in reached:
            found = [k for k in new_givers if table[k][j] > low[k][j]]
            for k in found:
                from_taker[k] = j
            queue += found
            if found:
                new_givers = [k for k in new_givers if k not in from_taker]
    return []


def _back(taker: int, from_giver: dict[int, int], from_taker: dict[int, int]) -> list[int]:
    chain = []
    while taker >= 0:
        chain += [taker, from_giver[taker]]
        taker = from_taker[from_giver[taker]]
    return chain[::-1]


def _redeal(table, low, high, spare, lack, chain: list[int]) -> None:
    count = min(spare[chain[0]], lack[chain[-1]])
    for i, j in zip(chain[::2], chain[1::2], strict=True):
        count = min(count, high[i][j] - table[i][j])
    for j, i in zip(chain[1::2], chain[2::2], strict=False):
        count = min(count, table[i][j] - low[i][j])
    for i, j in zip(chain[::2], chain[1::2], strict=True):
        table[i][j] += count
    for j, i in zip(chain[1::2], chain[2::2], strict=False):
        table[i][j] -= count
    spare[chain[0]] -= count
    lack[chain[-1]] -= count


def _next_price(rules: Rules, i: int, j: int, count: int) -> int:
    return rules.base[i][j] + (rules.double + count if count else 0)


def _last_price(rules: Rules, i: int, j: int, count: int) -> int:
    return _next_price(rules, i, j, count - 1)


def _raise(rules, table, spare, lack, givers, takers) -> bool:
    """Raise people's prices until a lacking taker can be reached; False if none can
    (E. W. Dijkstra, 1959, over prices reduced to be at least 0)."""
    people = len(spare)
    distance = [None] * (2 * people)
    heap = [(0, i) for i in range(people) if spare[i]]
    while heap:
        far, node = heappop(heap)
        if distance[node] is not None:
            continue
        distance[node] = far
        if node >= people:
            j = node - people
            if lack[j]:
                break
            for i in range(people):
                if distance[i] is None and table[i][j]:
                    price = takers[j] - givers[i] - _last_price(rules, i, j, table[i][j])
                    heappush(heap, (far + price, i))
        else:
            for j in range(people):
                count = table[node][j]
                if distance[people + j] is None and count < rules.cap[node][j]:
                    price = _next_price(rules, node, j, count) + givers[node] - takers[j]
                    heappush(heap, (far + price, people + j))
    else:
        return False
    for node, reached in enumerate(distance):
        step = far if reached is None else reached
        if node < people:
            givers[node] += step
        else:
            takers[node - people] += step
    return True


def potentials(rules: Rules, table: Table) -> tuple[list[int], list[int]]:
    """The largest prices of givers and takers, none above 0, that certify a table.

    They are the shortest distances in the graph of possible changes, every person
    starting at 0, and the same for every cheapest table (R. Bellman, 1958).
    """
    people = len(table)
    givers, takers = [0] * people, [0] * people
    changed = True
    while changed:
        changed = False
        for i, row in enumerate(table):
            for j, count in enumerate(row):
                if count < rules.cap[i][j]:
                    over = givers[i] + _next_price(rules, i, j, count)
                    if over < takers[j]:
                        takers[j], changed = over, True
                if count:
                    over = takers[j] - _last_price(rules, i, j, count)
                    if over < givers[i]:
                        givers[i], changed = over, True
    return givers, takers
