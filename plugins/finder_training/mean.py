"""The mean of several runs: `python -m finder_training.mean proposer --out FOLDER RUN RUN …`.

Where nothing tells a card from what is like one, a network leans one way at the end of one
run and the other way at the end of the next; their mean does neither (Wortsman and others,
"Model soups", 2022). Its normalisation is measured anew, on scenes of a stream of its own.
"""

import argparse
from functools import partial
from multiprocessing import get_context
from pathlib import Path

import numpy as np
import torch
from torch.nn import functional

from finder_training.learning import NETWORKS, keep
from finder_training.networks import PROPOSER_SIDE
from finder_training.pool import any_parts
from finder_training.samples import Scenes, any_warps, coloured, transposed, turned
from finder_training.views import any_views

STREAM, BATCHES, BATCH = 98, 12, 16


def main() -> None:
    """Read the command line and write the mean."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("network", choices=NETWORKS)
    parser.add_argument("runs", type=Path, nargs="+", help="folders of .pt")
    parser.add_argument("--out", type=Path, required=True)
    chosen = parser.parse_args()
    weights = [torch.load(run / f"{chosen.network}.pt", map_location="cpu")[chosen.network]
               for run in chosen.runs]
    network = NETWORKS[chosen.network]()
    network.load_state_dict(mean_of(weights))
    _measure(network, chosen.network)
    keep(network, chosen.network, chosen.out)


def mean_of(weights: list[dict[str, torch.Tensor]]) -> dict[str, torch.Tensor]:
    """Number by number; what is counted, not learned, is the first one's."""
    return {
        name: sum(one[name].double() for one in weights).div(len(weights)).to(first.dtype)
        if first.is_floating_point() else first
        for name, first in weights[0].items()
    }


def _measure(network: torch.nn.Module, name: str) -> None:
    """The means and spreads that its layers see, over all the batches alike."""
    for layer in network.modules():
        if isinstance(layer, torch.nn.BatchNorm2d):
            layer.reset_running_stats()
            layer.momentum = None
    generator = torch.Generator().manual_seed(3)
    with get_context("spawn").Pool() as drawing, torch.no_grad():
        for batch in range(BATCHES):
            numbers = range(batch * BATCH, (batch + 1) * BATCH)
            drawn = drawing.map(partial(_draw, witnessed=name == "witness"), numbers)
            stacked = [np.stack(part) for part in zip(*drawn, strict=True)]
            scenes = Scenes(*map(torch.from_numpy, stacked))
            network(_seen(scenes, name, batch, generator))


def _draw(number: int, witnessed: bool) -> list[np.ndarray]:
    rng = np.random.default_rng([7, number, STREAM])
    parts = any_parts(rng, STREAM, witnessed=witnessed)
    return [parts[name] for name in ("pictures", "owner", "quads", "facts", "sizes")]


def _seen(scenes: Scenes, name: str, step: int, generator: torch.Generator) -> torch.Tensor:
    """What a network sees of scenes while it learns."""
    if name == "proposer":
        small = functional.interpolate(
            turned(scenes, step % 8).pictures.float() / 255, (PROPOSER_SIDE, PROPOSER_SIDE),
            mode="bilinear", antialias=True)
        return coloured(small, generator)
    scenes = transposed(scenes) if step % 2 else scenes
    if name == "witness":
        return any_views(scenes, 4 * BATCH, generator).seen
    warps = any_warps(scenes, 2 * BATCH, generator)
    warps.seen[:, :3] = coloured(warps.seen[:, :3], generator)
    return warps.seen


if __name__ == "__main__":
    main()
