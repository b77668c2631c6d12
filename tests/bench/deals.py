"""How right and how fast deals are: `python tests/bench/deals.py [--calls N]`.

Validity of random calls, uniformity of (6, 2) at 30 draws for each of its 7,570 deals
and of a walk over the 80 deals of three couples, times beside one shuffle of the same
pile, as a ratio, and how long large swaps take to mend.
"""

import argparse
import random
import sys
import time
from collections import Counter
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT / "plugins"), str(ROOT / "tests")]

from dealing.every_deal import looks_uniform, tables  # noqa: E402
from dealing.random_calls import random_call  # noqa: E402
from swapboard.dealing import deal, prepare  # noqa: E402
from swapboard.dealing.bounded import draw_by_bounds  # noqa: E402
from swapboard.dealing.chain import draw_by_walk  # noqa: E402
from swapboard.dealing.check import faults_of  # noqa: E402
from swapboard.dealing.repair import repair  # noqa: E402
from swapboard.dealing.stream import Stream  # noqa: E402

COUPLES = [(0, 1), (2, 3), (4, 5)]


def validity(calls: int) -> None:
    """Deal random calls and check each."""
    methods, faults = Counter(), 0
    for number in range(calls):
        call = random_call(number)
        made = deal(**call)
        seedless = {key: value for key, value in call.items() if key != "seed"}
        faults += bool(faults_of(made, **seedless))
        methods[made.method] += 1
    print(f"{calls} random calls: {faults} with faults; by method {dict(methods)}")


def uniformity() -> None:
    """(6, 2) through the whole way, and the walk alone where forbidden cells matter."""
    plan = prepare(dict.fromkeys(range(6), 2))
    stream = Stream(b"bench")
    every = list(tables([2] * 6))
    fine = looks_uniform(lambda _: tuple(map(tuple, plan.table(stream)[0])), every, 30)
    print(f"(6, 2): {len(every)} deals, 30 draws each: {'uniform' if fine else 'NOT UNIFORM'}")
    (sampler,) = prepare(dict.fromkeys(range(6), 1), apart=COUPLES).samplers
    shut = {*COUPLES, *((j, i) for i, j in COUPLES)}
    every = list(tables([1] * 6, 1, shut))

    def walk(_):
        dealt = draw_by_walk(sampler.block, stream)
        return tuple(tuple(int(i in givers) for givers in dealt) for i in range(6))

    def bound(_):
        dealt = draw_by_bounds(sampler.block, stream, 10**9)
        return tuple(tuple(int(i in givers) for givers in dealt) for i in range(6))

    fine = looks_uniform(bound, every, 3000)
    print(f"bounds, three couples: {len(every)} deals: {'uniform' if fine else 'NOT UNIFORM'}")
    fine = looks_uniform(walk, every, 100)
    print(f"walk, three couples: {len(every)} deals: {'uniform' if fine else 'NOT UNIFORM'}")


def times() -> None:
    """The mean and the longest of a few deals, and the mean beside one shuffle."""
    for people, each, pairs, seeds in (
        (30, 3, 0, 20), (30, 4, 0, 5), (14, 5, 0, 3), (50, 2, 0, 20), (200, 20, 0, 2),
        (30, 3, 100, 5), (30, 4, 100, 3), (50, 3, 300, 3), (100, 3, 500, 2),
    ):  # fmt: skip
        sent = {f"m{i:03}": each for i in range(people)}
        met = random.Random(1).sample([(a, b) for a in sent for b in sent if a != b], pairs)
        pile = [maker for maker in sent for _ in range(each)]
        began = time.process_time()
        for _ in range(20):
            random.Random(1).shuffle(pile)
        shuffle = (time.process_time() - began) / 20
        taken, methods = [], set()
        for number in range(seeds):
            began = time.process_time()
            methods.add(deal(sent, met=met, seed=number.to_bytes(2, "big")).method)
            taken.append(time.process_time() - began)
        mean = sum(taken) / seeds
        print(
            f"{people} × {each}, {pairs} met: mean {mean:.3f} s, longest {max(taken):.3f} s, "
            f"{mean / shuffle:.0f} shuffles; {', '.join(sorted(methods))}"
        )


def mends() -> None:
    """200 × 20 with half the envelopes sealed and no spare card: a late parcel, three of them,
    three cards lost."""
    sent = {f"m{i:03}": 20 for i in range(200)}
    cards = [(card.giver, card.number, card.taker) for card in deal(sent, seed=b"bench").cards]
    sealed = [maker for maker in sent if maker < "m100"]
    lost = set([(giver, number) for giver, number, taker in cards if taker not in sealed][:3])
    for what, late in (("one late", "x"), ("three late", "xyz"), ("three lost", "")):
        due = sent | dict.fromkeys(late, 20)
        gone = set() if late else lost
        hand = {m: [n for n in range(1, due[m] + 1) if (m, n) not in gone] for m in due}
        began = time.process_time()
        made = repair(cards, hand=hand, due=due, sealed=sealed, seed=b"bench")
        taken = time.process_time() - began
        print(
            f"mend, {what}: {taken:.1f} s, {len(made.others)} others' envelopes, "
            f"{len(made.moves)} cards; {'proven' if made.proven else 'NOT PROVEN'} least"
        )


def main() -> None:
    """Print all of them."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--calls", type=int, default=10_000)
    times()
    mends()
    uniformity()
    validity(parser.parse_args().calls)


if __name__ == "__main__":
    main()
