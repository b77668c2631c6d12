"""Train a network: `python -m finder_training proposer --out FOLDER --seconds 480`.

On several GPUs of one machine each process draws scenes of its own, and they agree on
every step: `torchrun --nproc-per-node 2 -m finder_training proposer …`.
"""

import argparse
import math
import os
import time
from pathlib import Path

import torch
from torch import distributed
from torch.nn import functional
from torch.nn.parallel import DistributedDataParallel

from finder_training.export import export
from finder_training.networks import PROPOSER_SIDE, WARP, Proposer, Refiner
from finder_training.pool import Pool
from finder_training.samples import (
    Scenes,
    any_warps,
    coloured,
    map_targets,
    proposer_loss,
    refiner_loss,
    transposed,
    turned,
)

NETWORKS = {"proposer": Proposer, "refiner": Refiner}


class Learner:
    """A network, its optimiser and its slowly averaged copy, which is what is shipped."""

    def __init__(self, network: torch.nn.Module, rate: float, device: torch.device) -> None:
        self.network = network.to(device)
        if distributed.is_initialized():
            self.network = DistributedDataParallel(self.network)
        self.plain = network
        self.rate = rate
        self.optimiser = torch.optim.AdamW(network.parameters(), lr=rate, weight_decay=0.01)
        self.average = torch.optim.swa_utils.AveragedModel(
            network, multi_avg_fn=torch.optim.swa_utils.get_ema_multi_avg_fn(0.998),
            use_buffers=True)

    def step(self, loss: torch.Tensor, share: float) -> None:
        """One step down; `share` of the time is gone, and the rate falls with it."""
        rate = self.rate * min(1, share / 0.02 + 0.05) * (0.5 + 0.5 * math.cos(math.pi * share))
        for group in self.optimiser.param_groups:
            group["lr"] = max(rate, self.rate * 0.01)
        self.optimiser.zero_grad(set_to_none=True)
        loss.backward()
        torch.nn.utils.clip_grad_norm_(self.network.parameters(), 2.0)
        self.optimiser.step()
        self.average.update_parameters(self.plain)


def train(chosen: argparse.Namespace) -> None:
    """Train for the time given, telling every so often how it goes."""
    rank, device = _place()
    torch.manual_seed(chosen.seed)
    torch.backends.cudnn.benchmark = True
    torch.set_float32_matmul_precision("high")
    began = time.monotonic()
    pool = Pool(chosen.capacity, device)
    pool.start(chosen.seed, range(rank * chosen.workers, (rank + 1) * chosen.workers),
               chosen.stream)
    generator = torch.Generator(device).manual_seed(chosen.seed + rank)
    network = NETWORKS[chosen.network]()
    if chosen.start:
        held = torch.load(chosen.start, map_location="cpu")[chosen.network]
        print("new:", len(network.load_state_dict(held, strict=False).missing_keys))
    learner = Learner(network, chosen.rate, device)
    learn = _learn_maps if chosen.network == "proposer" else _learn_sides
    while pool.count < chosen.batch * 4:
        time.sleep(0.2)
    step, told = 0, time.monotonic()
    while (share := _agreed((time.monotonic() - began) / chosen.seconds, device)) < 1:
        losses = learn(pool.batch(chosen.batch, generator), learner, generator, share, step)
        step += 1
        if rank == 0 and (time.monotonic() - told > 15 or step == 1):
            told = time.monotonic()
            print(f"{told - began:5.0f} s  step {step}  scenes {pool.drawn}  "
                  + "  ".join(f"{float(loss):.4f}" for loss in losses), flush=True)
    if rank == 0:
        _keep(learner.average.module, chosen.network, chosen.out)


def _place() -> tuple[int, torch.device]:
    """Which of the processes this is, and what it computes on."""
    cuda = torch.cuda.is_available()
    if "RANK" not in os.environ:
        return 0, torch.device("cuda" if cuda else "cpu")
    distributed.init_process_group("nccl" if cuda else "gloo")
    rank = distributed.get_rank()
    if cuda:
        torch.cuda.set_device(rank)
    return rank, torch.device("cuda", rank) if cuda else torch.device("cpu")


def _agreed(share: float, device: torch.device) -> float:
    """The first process's share of the time: all of them must stop at the same step."""
    if not distributed.is_initialized():
        return share
    told = torch.tensor([share], dtype=torch.float64, device=device)
    distributed.broadcast(told, 0)
    return float(told)


def _learn_maps(upright: Scenes, learner: Learner, generator: torch.Generator,
                share: float, step: int) -> tuple:
    """One step of the proposer on a batch of scenes."""
    scenes = turned(upright, step % 8)
    device = scenes.quads.device.type
    small = functional.interpolate(scenes.pictures.float() / 255, (PROPOSER_SIDE, PROPOSER_SIDE),
                                   mode="bilinear", antialias=True)
    small = coloured(small, generator)
    with torch.autocast(device, torch.bfloat16):
        maps = learner.network(small.contiguous(memory_format=torch.channels_last))
    loss = proposer_loss(maps.float(), map_targets(scenes))
    learner.step(loss, share)
    return (loss,)


def _learn_sides(upright: Scenes, learner: Learner, generator: torch.Generator,
                 share: float, step: int) -> tuple:
    """One step of the refiner on cards out of a batch of scenes."""
    scenes = transposed(upright) if step % 2 else upright
    with torch.no_grad():
        warps = any_warps(scenes, len(scenes.quads) * 2, generator)
        warps.seen[:, :3] = coloured(warps.seen[:, :3], generator)
    with torch.autocast(scenes.quads.device.type, torch.bfloat16):
        said = learner.network(warps.seen.contiguous(memory_format=torch.channels_last))
    lines, verdict = refiner_loss((said[0].float(), said[1].float()), warps)
    learner.step(lines + verdict, share)
    return lines, verdict


def _keep(network: torch.nn.Module, name: str, out: Path) -> None:
    """The network as it is shipped, and as training can go on from it."""
    out.mkdir(parents=True, exist_ok=True)
    torch.save({name: network.state_dict()}, out / f"{name}.pt")
    if name == "proposer":
        example, answers = torch.rand(1, 3, PROPOSER_SIDE, PROPOSER_SIDE), ["maps"]
    else:
        example, answers = torch.rand(1, 4, WARP[1], WARP[0]), ["sides", "verdicts"]
    print(export(network, example, answers, out / f"{name}.onnx"))


def main() -> None:
    """Read the command line and train."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("network", choices=sorted(NETWORKS))
    parser.add_argument("--out", type=Path, required=True)
    parser.add_argument("--seconds", type=float, default=480)
    parser.add_argument("--seed", type=int, default=20261125)
    parser.add_argument("--workers", type=int, default=15, help="processes that draw, at least 1")
    parser.add_argument("--batch", type=int, default=48)
    parser.add_argument("--capacity", type=int, default=30000)
    parser.add_argument("--stream", type=int, default=1, help="1 and up; 0 is held aside")
    parser.add_argument("--rate", type=float, default=2e-3)
    parser.add_argument("--from", dest="start", type=Path, help="a .pt to go on from")
    chosen = parser.parse_args()
    if chosen.workers < 1:
        parser.error("--workers: at least one process must draw scenes")
    train(chosen)


if __name__ == "__main__":
    main()
