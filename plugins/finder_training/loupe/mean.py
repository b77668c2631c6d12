"""The mean of several runs: `python -m finder_training.loupe.mean --out FOLDER RUN RUN …`."""

import argparse
from pathlib import Path

import torch

from finder_training.loupe.network import WIDTHS, Loupe, keep
from finder_training.mean import mean_of


def main() -> None:
    """Read the command line and write the mean of the loupes and of their teachers."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("runs", type=Path, nargs="+", help="folders of .pt")
    parser.add_argument("--out", type=Path, required=True)
    chosen = parser.parse_args()
    networks = {name: Loupe(widths) for name, widths in WIDTHS.items()}
    for name, network in networks.items():
        network.load_state_dict(mean_of([
            torch.load(run / f"{name}.pt", map_location="cpu") for run in chosen.runs]))
    keep(networks, chosen.out)


if __name__ == "__main__":
    main()
