"""How good and how fast matching is: `python tests/bench/matching.py [--seconds N] [CASE…]`.

On invented boards, 20 cards a maker. Prints for each case what moves beside what a
greedy choice moves (shortest exchanges first, as they come), the bound, the gap, and
the time: seconds of the clock, and of one processor. The whole search gets N seconds; the
first level is solved by itself before, with as many.
"""

import argparse
import functools
import resource
import sys
import time
from pathlib import Path

import numpy as np

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT / "plugins"), str(ROOT / "tests" / "matching")]

from invented import mixed_wants, named_wants  # noqa: E402

from swapboard.matching.arcs import arcs_of  # noqa: E402
from swapboard.matching.effort import Effort  # noqa: E402
from swapboard.matching.exchanges import EVERY, Exchanges  # noqa: E402
from swapboard.matching.first_level import First, first_level  # noqa: E402
from swapboard.matching.greedy import greedy  # noqa: E402
from swapboard.matching.match import match  # noqa: E402
from swapboard.matching.objective import table_of  # noqa: E402
from swapboard.matching.rows import rows_of  # noqa: E402

# Where all have favourites, more want one card, and the linear programme bounds less well.
EVEN = functools.partial(named_wants, favourites=False)
CASES = {
    "mixed-few": (mixed_wants, 50, 3),
    "mixed-pairs": (mixed_wants, 1000, 2),
    "mixed-rings": (mixed_wants, 1000, 3),
    "named-rings": (EVEN, 1000, 3),
    "named-many": (EVEN, 10_000, 3),
    "favourites-rings": (named_wants, 1000, 3),
    "favourites-many": (named_wants, 10_000, 3),
}


def greedily(market, rings: int) -> int:
    """How many cards a greedy choice moves."""
    arcs = arcs_of(market)
    rows = rows_of(market, arcs)
    columns = Exchanges(market, arcs, rings).within(np.zeros(arcs.count), EVERY, 5_000_000)
    return int(table_of(market, arcs, columns).length[greedy(columns, rows)].sum())


def first_level_alone(market, rings: int, seconds: float) -> First:
    """The most cards that move, from a market on, as `match` begins."""
    effort = Effort.of(seconds)
    arcs = arcs_of(market)
    return first_level(market, Exchanges(market, arcs, rings), rows_of(market, arcs), effort)


def main() -> None:
    """Run the cases asked for and print a line for each, and one for each level."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--seconds", type=float, default=60.0)
    parser.add_argument("cases", nargs="*", help=f"some of: {', '.join(CASES)}")
    asked = parser.parse_args()
    if unknown := [name for name in asked.cases if name not in CASES]:
        parser.error(f"no case is called {', '.join(unknown)}; {', '.join(CASES)} are")
    for name in asked.cases or CASES:
        make, makers, rings = CASES[name]
        market = make(makers)
        simple = greedily(market, rings)
        start = time.process_time()
        alone = first_level_alone(market, rings, asked.seconds)
        print(f"{name}: first level alone {alone.moved} of {alone.bound}, proven "
              f"{alone.moved == alone.bound}, processor {time.process_time() - start:.1f} s")
        clock, processor = time.monotonic(), time.process_time()
        found = match(market, rings, asked.seconds)
        clock, processor = time.monotonic() - clock, time.process_time() - processor
        first, arcs = found.levels[0], arcs_of(market)
        wanted = len(np.unique(arcs.card))
        print(f"{name}: {len(market.wishes) / makers:.1f} wants a maker, {arcs.count} ways for a "
              f"card to go, {arcs.count / max(1, wanted):.1f} for each of {wanted} cards wanted")
        gap = 100 * (first.bound - first.value) / max(1, first.bound)
        memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1e6
        print(f"{name}: {makers} makers, rings of {rings}: {first.value} of {first.bound}, "
              f"gap {gap:.2f} %, proven {first.proven}; greedy {simple}, "
              f"ratio {first.value / max(1, simple):.3f}; {clock:.1f} s, processor "
              f"{processor:.1f} s, {memory:.2f} GB{', LATE' * found.late}")
        for level in found.levels[1:]:
            print(f"    {level.name}: {level.value} (bound {level.bound}, proven {level.proven})")


if __name__ == "__main__":
    main()
