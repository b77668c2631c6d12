"""Go on from shipped weights: `python -m finder_training.again --out weights`.

What is shipped has its normalisation folded into the convolutions. Training needs it: it
is measured anew on scenes, and set such that the network says the same as before.
"""

import argparse
import lzma
import time
from pathlib import Path

import numpy as np
import onnx
import torch
from onnx import numpy_helper
from torch import Tensor, nn

from finder_training.learning import NETWORKS
from finder_training.networks import PROPOSER_SIDE, VIEW, WARP, Block, Second

SHIPPED = Path(__file__).resolve().parents[1] / "swapboard" / "disk" / "weights"

SEEN = {"proposer": (24, 3, PROPOSER_SIDE, PROPOSER_SIDE), "refiner": (48, 4, WARP[1], WARP[0]),
        "witness": (96, 8, VIEW[1], VIEW[0])}
"""Shapes of what each network is shown to measure it: as many scenes, or cards, or places."""


def weights_of(file: Path) -> list[tuple[Tensor, Tensor]]:
    """Weight and bias of each convolution and full layer, in the order they are computed."""
    graph = onnx.load_from_string(lzma.decompress(file.read_bytes())).graph
    held = {one.name: numpy_helper.to_array(one) for one in graph.initializer}
    for node in graph.node:
        if node.op_type == "Cast" and node.input[0] in held:
            held[node.output[0]] = held[node.input[0]].astype(np.float32)
        if node.op_type == "DequantizeLinear":
            whole, scales = held[node.input[0]], held[node.input[1]]
            held[node.output[0]] = whole * scales[:, None, None, None]
    return [
        tuple(torch.tensor(np.array(held[name], np.float32)) for name in node.input[1:3])
        for node in graph.node if node.op_type in ("Conv", "Gemm")
    ]


def restored(network: nn.Module, file: Path, seen: Tensor) -> nn.Module:
    """The network with a file's weights; `seen` is shown to it to measure what goes through it."""
    layers, marks = [], []
    for part in network.modules():
        if isinstance(part, nn.Conv2d | nn.Linear):
            marks.append(part.register_forward_hook(lambda layer, _, __: layers.append(layer)))
    network.eval()
    with torch.no_grad():
        network(seen[:1])
        for mark in marks:
            mark.remove()
        normal = _normalisations(network)
        for layer, (weight, bias) in zip(layers, weights_of(file), strict=True):
            layer.weight.copy_(weight)
            if layer.bias is not None:
                layer.bias.copy_(bias)
            else:
                _set(normal[layer], torch.zeros_like(bias), torch.ones_like(bias), bias)
        _measure(network, normal, seen)
    return network


def _normalisations(network: nn.Module) -> dict[nn.Module, nn.BatchNorm2d]:
    """What follows each convolution without a bias."""
    found = {}
    for part in network.modules():
        if isinstance(part, Block):
            found[part[0]] = part[1]
        if isinstance(part, Second):
            found[part.more[1]] = part.more[2]
    return found


def _measure(network: nn.Module, normal: dict[nn.Module, nn.BatchNorm2d], seen: Tensor) -> None:
    marks, means = [], {}
    for layer in normal:
        marks.append(layer.register_forward_hook(
            lambda layer, _, out: means.update({layer: (out.mean((0, 2, 3)), out.var((0, 2, 3)))})))
    network(seen)
    for mark in marks:
        mark.remove()
    for layer, (mean, spread) in means.items():
        _set(normal[layer], mean, spread, normal[layer].bias + mean)


def _set(normal: nn.BatchNorm2d, mean: Tensor, spread: Tensor, bias: Tensor) -> None:
    """Such that it adds `bias` less `mean` to what has this mean and spread."""
    normal.running_mean.copy_(mean)
    normal.running_var.copy_(spread)
    normal.weight.copy_(torch.sqrt(spread + normal.eps))
    normal.bias.copy_(bias)


def shown(name: str) -> Tensor:
    """Scenes, or cards out of scenes, for a network of that name to be measured on."""
    from finder_training.pool import Belt, Pool, start_drawing
    from finder_training.samples import any_warps
    from finder_training.views import any_views

    count = SEEN[name][0]
    belt = Belt()
    start_drawing([belt], 20261125, workers=1, stream=99, witnessed=name == "witness")
    pool = Pool(count, torch.device("cpu"), belt)
    while pool.count < count:
        time.sleep(0.2)
    pool.close()
    generator = torch.Generator().manual_seed(1)
    scenes = pool.batch(count, generator)
    if name == "refiner":
        return any_warps(scenes, count, generator).seen
    if name == "witness":
        return any_views(scenes, count, generator).seen
    return nn.functional.interpolate(
        scenes.pictures.float() / 255, SEEN[name][2:], mode="bilinear", antialias=True)


def main() -> None:
    """Read the command line and write the networks as training goes on from them."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--out", type=Path, required=True)
    chosen = parser.parse_args()
    chosen.out.mkdir(parents=True, exist_ok=True)
    for name, network in NETWORKS.items():
        whole = restored(network(), SHIPPED / f"{name}.onnx.xz", shown(name))
        torch.save({name: whole.state_dict()}, chosen.out / f"{name}.pt")


if __name__ == "__main__":
    main()
