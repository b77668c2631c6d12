"""Train the loupe: `python -m finder_training.loupe --out FOLDER --seconds 500`.

A network four times as large learns beside it, and shows it what it makes of every strip.
"""

import argparse
import time
from pathlib import Path

import torch
from torch import Tensor
from torch.nn import functional

from finder_training.learning import Learner
from finder_training.loupe.belt import Belt
from finder_training.loupe.network import WIDTHS, Loupe, keep
from finder_training.loupe.shown import UNASKED
from swapboard.photo.loupe import STEP
from swapboard.photo.networks import BINS

BROAD = 0.8
"""Bins by which the place that is learnt is spread: nobody knows it better."""

TAUGHT = 0.4
"""How much what the larger network says counts beside the truth."""

HELD = 3000
"""Strips of cards held aside, to tell how it goes."""


def main() -> None:
    """Read the command line and train."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--out", type=Path, required=True)
    parser.add_argument("--seconds", type=float, default=500)
    parser.add_argument("--seed", type=int, default=20261125)
    parser.add_argument("--workers", type=int, default=15, help="processes that draw, at least 1")
    parser.add_argument("--batch", type=int, default=256)
    parser.add_argument("--capacity", type=int, default=260_000,
                        help="cards' strips held, 37 KB of the GPU's memory each")
    parser.add_argument("--stream", type=int, default=1, help="1 and up; 0 is held aside")
    parser.add_argument("--rate", type=float, default=3e-3)
    parser.add_argument("--part", type=float, nargs=2, default=(0.0, 1.0), metavar=("LOW", "HIGH"),
                        help="of the rate's fall, where several runs share it")
    parser.add_argument("--from", dest="start", type=Path, help="a folder of .pt to go on from")
    chosen = parser.parse_args()
    if chosen.stream < 1:
        parser.error("--stream: 0 is held aside, take 1 or more")
    if chosen.workers < 1:
        parser.error("--workers: at least one process must draw scenes")
    belt = Belt(chosen.seed, chosen.stream, chosen.workers)
    try:
        train(chosen, belt)
    finally:
        belt.stop()


def train(chosen: argparse.Namespace, belt: Belt) -> None:
    """Train both for the time given, and write them."""
    device = torch.device("cuda" if torch.cuda.is_available() else "cpu")
    torch.manual_seed(chosen.seed)
    generator = torch.Generator(device).manual_seed(chosen.stream)
    began = told = time.monotonic()
    learners = {name: Learner(_network(name, widths, chosen.start), chosen.rate, device)
                for name, widths in WIDTHS.items()}
    aside = belt.take_all(HELD)
    while (share := (time.monotonic() - began) / chosen.seconds) < 1:
        belt.fill(chosen.capacity, device)
        if belt.count < chosen.batch:
            continue
        strips, off = altered(*belt.batch(chosen.batch, generator), generator)
        fallen = chosen.part[0] + (chosen.part[1] - chosen.part[0]) * share
        said, taught = _said(learners["teacher"], strips), _said(learners["loupe"], strips)
        learners["teacher"].step(loss_of(said, off), fallen)
        learners["loupe"].step((1 - TAUGHT) * loss_of(taught, off)
                               + TAUGHT * _unlike(taught, said.detach(), off), fallen)
        if time.monotonic() - told > 25:
            told = time.monotonic()
            print(f"{told - began:5.0f} s  cards {belt.drawn}  "
                  + "  ".join(f"{name} {_hit(one, *aside, device):.4f}"
                              for name, one in learners.items()), flush=True)
    keep({name: one.average.module.float().cpu() for name, one in learners.items()}, chosen.out)


def _network(name: str, widths: tuple, start: Path | None) -> Loupe:
    network = Loupe(widths)
    if start and (start / f"{name}.pt").exists():
        network.load_state_dict(torch.load(start / f"{name}.pt", map_location="cpu"))
    return network


def _said(learner: Learner, strips: Tensor) -> Tensor:
    with torch.autocast(strips.device.type, torch.bfloat16):
        return learner.network(strips).float()


def altered(strips: Tensor, off: Tensor, generator: torch.Generator) -> tuple[Tensor, Tensor]:
    """Strips float [n, 4, 3, 32, 96] in other light, grained, at times in a mirror, which changes
    sides' order, or with colours changed for each other; and how far off the sides are [n, 4]."""
    device, each = strips.device, (len(strips), 1, 1, 1, 1)

    def normal(*shape: int) -> Tensor:
        return torch.randn(shape, device=device, generator=generator)

    light = torch.exp(normal(len(strips), 1, 3, 1, 1) * 0.12 + normal(*each) * 0.15)
    strips = (strips * light + normal(*each) * 0.05).clamp(0, 1)
    grain = torch.rand(each, device=device, generator=generator) * 0.01
    strips = strips + normal(*strips.shape) * grain
    chance = torch.rand(2, device=device, generator=generator)
    if chance[0] < 0.5:
        strips, off = strips.flip(3)[:, [0, 3, 2, 1]], off[:, [0, 3, 2, 1]]
    if chance[1] < 0.3:
        strips = strips[:, :, torch.randperm(3)]
    return strips, off


def loss_of(said: Tensor, off: Tensor) -> Tensor:
    """Cross entropy of places [n, 4, 96] with where the sides are, for all that are asked for."""
    at = (off / STEP + BINS / 2 - 0.5)[..., None]
    near = torch.exp(-(((torch.arange(BINS, device=off.device) - at) / BROAD) ** 2) / 2) + 1e-9
    entropy = -(near / near.sum(-1, keepdim=True) * said.log_softmax(-1)).sum(-1)
    return entropy[off < UNASKED].mean()


def _unlike(said: Tensor, taught: Tensor, off: Tensor) -> Tensor:
    """How much what one says differs from what the other does (Hinton et al., "Distilling the
    knowledge in a neural network", 2015)."""
    apart = functional.kl_div(said.log_softmax(-1), taught.log_softmax(-1), reduction="none",
                              log_target=True).sum(-1)
    return apart[off < UNASKED].mean()


@torch.no_grad()
def _hit(learner: Learner, strips: Tensor, off: Tensor, device: torch.device) -> float:
    """The share of sides held aside that are told to half a hundredth of the card's length."""
    network = learner.average.eval()
    said = torch.cat([network(part.to(device).float() / 255).argmax(-1).cpu()
                      for part in strips.split(100)])
    network.train()
    near = (said - (off / STEP + BINS / 2 - 0.5)).abs() < 2.5
    return float(near[off < UNASKED].float().mean())


if __name__ == "__main__":
    main()
