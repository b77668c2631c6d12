"""How a network learns: steps down its loss on scenes off a belt, until the time is gone."""

import argparse
import math
import time
from pathlib import Path

import torch
from torch.nn import functional

from finder_training.export import export
from finder_training.networks import PROPOSER_SIDE, VIEW, WARP, Proposer, Refiner, Witness
from finder_training.pool import Belt, Pool
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
from finder_training.views import any_views, witness_loss

NETWORKS = {"proposer": Proposer, "refiner": Refiner, "witness": Witness}


class Learner:
    """A network, its optimiser and its slowly averaged copy, which is what is shipped."""

    def __init__(self, network: torch.nn.Module, rate: float, device: torch.device) -> None:
        self.network, self.rate = network.to(device), rate
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
        self.average.update_parameters(self.network)


def train(chosen: argparse.Namespace, name: str, belt: Belt, place: int) -> None:
    """Train a network for the time given, telling every so often how it goes."""
    device = torch.device("cpu")
    if torch.cuda.is_available():
        device = torch.device("cuda", place % torch.cuda.device_count())
        torch.cuda.set_device(device)
    torch.manual_seed(chosen.seed)
    torch.backends.cudnn.benchmark = True
    torch.set_float32_matmul_precision("high")
    began = time.monotonic()
    pool = Pool(chosen.capacity, device, belt)
    generator = torch.Generator(device).manual_seed(chosen.seed)
    network = NETWORKS[name]()
    if chosen.start:
        held = torch.load(chosen.start / f"{name}.pt", map_location="cpu")[name]
        print(name, "new:", len(network.load_state_dict(held, strict=False).missing_keys))
    learner = Learner(network, chosen.rate, device)
    learn = {"proposer": _learn_maps, "refiner": _learn_sides, "witness": _learn_places}[name]
    while pool.count < chosen.batch * 4:
        time.sleep(0.2)
    step, told, (low, high) = 0, time.monotonic(), chosen.part
    while (share := (time.monotonic() - began) / chosen.seconds) < 1:
        fallen = low + (high - low) * share
        losses = learn(pool.batch(chosen.batch, generator), learner, generator, fallen, step)
        step += 1
        if time.monotonic() - told > 15 or step == 1:
            told = time.monotonic()
            print(f"{told - began:5.0f} s  {name}  step {step}  scenes {pool.drawn}  "
                  + "  ".join(f"{float(loss.detach()):.4f}" for loss in losses), flush=True)
    keep(learner.average.module, name, chosen.out)
    pool.close()


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


def _learn_places(upright: Scenes, learner: Learner, generator: torch.Generator,
                  share: float, step: int) -> tuple:
    """One step of the witness on places out of a batch of scenes."""
    scenes = transposed(upright) if step % 2 else upright
    with torch.no_grad():
        views = any_views(scenes, len(scenes.quads) * 4, generator)
    with torch.autocast(scenes.quads.device.type, torch.bfloat16):
        said = learner.network(views.seen.contiguous(memory_format=torch.channels_last))
    there, tight = witness_loss(said.float(), views)
    learner.step(there + 0.5 * tight, share)
    return there, tight


def keep(network: torch.nn.Module, name: str, out: Path) -> None:
    """The network as it is shipped, and as training can go on from it."""
    out.mkdir(parents=True, exist_ok=True)
    torch.save({name: network.state_dict()}, out / f"{name}.pt")
    if name == "proposer":
        example, answers = torch.rand(1, 3, PROPOSER_SIDE, PROPOSER_SIDE), ["maps"]
    elif name == "refiner":
        example, answers = torch.rand(1, 4, WARP[1], WARP[0]), ["sides", "verdicts"]
    else:
        example, answers = torch.rand(1, 8, VIEW[1], VIEW[0]), ["verdicts"]
    print(export(network, example, answers, out / f"{name}.onnx.xz"))
