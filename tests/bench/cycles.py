"""Cycles of at most three beside an independent solver: `python tests/bench/cycles.py`.

Boards on which everybody takes one card are what that solver reads: a pool in which each
maker is somebody who gives one of several things for one that suits. It comes with
`pip install '.[cycles]'` and is used nowhere else: it is under the AGPL, and heavy.
"""

import argparse
import random
import sys
import time
from dataclasses import replace
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT / "plugins"), str(ROOT / "tests" / "matching")]

from invented import card, cards_named, maker, market  # noqa: E402

from matching import greedily  # noqa: E402
from swapboard.matching.arcs import arcs_of  # noqa: E402
from swapboard.matching.match import match  # noqa: E402

CASES = ((20, 2, 4), (60, 3, 6), (150, 2, 8), (300, 2, 6))


def board(makers: int, cards: int, wants: int, seed: int):
    """Makers who each take one card, with named wants among all."""
    chance = random.Random(seed)
    owners = [f"maker-{number:04}" for number in range(makers)]
    made = [card(f"{owner}-card-{n}", owner) for owner in owners for n in range(cards)]
    people = []
    for owner in owners:
        liked = chance.sample([one.name for one in made if one.maker != owner], wants)
        people.append(replace(maker(owner, cards_named(*liked)), takes_up_to=1))
    return market(people, made)


def elsewhere(market, longest: int) -> int:
    """The most cards that move, by the other solver."""
    from kep_solver.entities import Donor, Instance, Recipient, Status, Transplant
    from kep_solver.model import TransplantCount
    from kep_solver.programme import Programme

    pool = Instance()
    takers = [Recipient(name) for name in market.makers]
    givers = [Donor(name) for name in market.cards]
    for giver, owner in zip(givers, market.owner, strict=True):
        giver.recipient = takers[owner]
        giver.status = Status.InPool
        takers[owner].addDonor(giver)
    for taker in takers:
        pool.addRecipient(taker)
    arcs = arcs_of(market)
    for number, taker in zip(arcs.card.tolist(), arcs.maker.tolist(), strict=True):
        pool.addTransplant(Transplant(givers[number], takers[taker], 1.0))
    programme = Programme([TransplantCount()], longest, 0, "cards", full_details=False)
    solution, _ = programme.solve_single(pool)
    return int(solution.values[0])


def main() -> int:
    """A line for each board; 1 where two answers differ."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--seeds", type=int, default=3)
    asked = parser.parse_args()
    try:
        import kep_solver  # noqa: F401
    except ImportError:
        print("the other solver is not there: pip install '.[cycles]'; nothing was compared")
        return 0
    wrong = 0
    for makers, cards, wants in CASES:
        for seed in range(asked.seeds):
            made = board(makers, cards, wants, seed)
            for longest in (2, 3):
                began = time.process_time()
                found = match(made, longest, 60)
                ours, began = time.process_time() - began, time.process_time()
                told = elsewhere(made, longest)
                theirs = time.process_time() - began
                same = found.moved == told and found.levels[0].proven
                wrong += not same
                print(f"{makers} × {cards}, seed {seed}, rings of {longest}: {found.moved} here, "
                      f"{told} there, {greedily(made, longest)} greedy: "
                      f"{'the same' if same else 'NOT THE SAME'}; all levels here took "
                      f"{ours / max(theirs, 1e-3):.2f} of its time")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
