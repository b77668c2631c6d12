"""Train the networks: `python -m finder_training both --out FOLDER --seconds 480`.

Both are the proposer and the refiner: each has a process of its own, on a GPU of its own
where there are two, and every scene is drawn once and goes to both. The witness is shown
scenes of its own.
"""

import argparse
import sys
from multiprocessing.connection import wait
from pathlib import Path

from torch import multiprocessing

from finder_training.learning import NETWORKS, train
from finder_training.pool import Belt, start_drawing


def main() -> None:
    """Read the command line and train."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("network", choices=["both", *NETWORKS])
    parser.add_argument("--out", type=Path, required=True)
    parser.add_argument("--seconds", type=float, default=480)
    parser.add_argument("--seed", type=int, default=20261125)
    parser.add_argument("--workers", type=int, default=15, help="processes that draw, at least 1")
    parser.add_argument("--batch", type=int, default=48)
    parser.add_argument("--capacity", type=int, default=30000,
                        help="scenes held for each network, 1.8 MB of the GPU's memory each")
    parser.add_argument("--stream", type=int, default=1, help="1 and up; 0 is held aside")
    parser.add_argument("--rate", type=float, default=2e-3)
    parser.add_argument("--part", type=float, nargs=2, default=(0.0, 1.0), metavar=("LOW", "HIGH"),
                        help="of the rate's fall, where several runs share it")
    parser.add_argument("--from", dest="start", type=Path, help="a folder of .pt to go on from")
    chosen = parser.parse_args()
    if chosen.workers < 1:
        parser.error("--workers: at least one process must draw scenes")
    if chosen.stream < 1:
        parser.error("--stream: 0 is held aside, take 1 or more")
    if chosen.capacity < 4 * chosen.batch:
        parser.error("--capacity: must be four batches or more")
    names = ["proposer", "refiner"] if chosen.network == "both" else [chosen.network]
    belts = [Belt() for _ in names]
    start_drawing(belts, chosen.seed, chosen.workers, chosen.stream, names == ["witness"])
    context = multiprocessing.get_context("spawn")
    learners = [context.Process(target=train, args=(chosen, name, belt, place))
                for place, (name, belt) in enumerate(zip(names, belts, strict=True))]
    for learner in learners:
        learner.start()
    while (running := [one for one in learners if one.is_alive()]):
        wait([one.sentinel for one in running])
        if any(one.exitcode for one in learners):
            # The other would wait for scenes that nobody takes off the first one's belt.
            for one in learners:
                one.terminate()
    sys.exit(any(one.exitcode for one in learners))


if __name__ == "__main__":
    main()
