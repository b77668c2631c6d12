"""Trained networks as ONNX files whose weights take a byte or two each, and less when zipped."""

import lzma
from pathlib import Path

import numpy as np
import onnx
import torch
from onnx import helper, numpy_helper
from torch import nn

BYTES_FROM = 6_000
"""Numbers: weights of that many and more are stored as bytes, others in half precision.

Those are the coarse levels', where a rounding is averaged over hundreds of products.
"""

FEW = 64
"""Numbers up to which they are left as they are."""


def export(network: nn.Module, example: torch.Tensor, names: list[str], file: Path,
           bytes_from: int = BYTES_FROM) -> int:
    """Write the network, packed (xz); answers the file's size in bytes.

    Normalisation is folded into the convolutions by the exporter. Weights are stored small
    with what widens them behind each, as the runtime computes in float32.
    """
    network = network.eval().float().cpu()
    torch.onnx.export(network, (example,), str(file), input_names=["seen"], output_names=names,
                      opset_version=17, dynamo=False, do_constant_folding=True)
    model = onnx.load(str(file))
    shrink(model, bytes_from)
    onnx.checker.check_model(model)
    file.write_bytes(lzma.compress(model.SerializeToString(), preset=9))
    return file.stat().st_size


def shrink(model: onnx.ModelProto, bytes_from: int) -> None:
    """Store float32 weights of more than `FEW` numbers in one or two bytes each, in place."""
    graph, widened = model.graph, []
    for weight in list(graph.initializer):
        values = numpy_helper.to_array(weight)
        if values.dtype != np.float32 or values.size <= FEW:
            continue
        graph.initializer.remove(weight)
        if values.ndim == 4 and values.size >= bytes_from:
            widened.append(_as_bytes(graph, weight.name, values))
        else:
            widened.append(_as_halves(graph, weight.name, values))
    for node in reversed(widened):
        graph.node.insert(0, node)


def _as_halves(graph: onnx.GraphProto, name: str, values: np.ndarray) -> onnx.NodeProto:
    graph.initializer.append(numpy_helper.from_array(values.astype(np.float16), name + "_half"))
    return helper.make_node("Cast", [name + "_half"], [name], to=onnx.TensorProto.FLOAT)


def _as_bytes(graph: onnx.GraphProto, name: str, values: np.ndarray) -> onnx.NodeProto:
    """Each output channel [n, …] as whole numbers within ±127 times a scale of its own."""
    scales = np.maximum(np.abs(values).max(axis=(1, 2, 3)), 1e-12) / 127
    whole = np.rint(values / scales[:, None, None, None]).astype(np.int8)
    for ending, part in (("_bytes", whole), ("_scales", scales), ("_zeros", whole[:, 0, 0, 0] * 0)):
        graph.initializer.append(numpy_helper.from_array(part, name + ending))
    return helper.make_node("DequantizeLinear", [name + "_bytes", name + "_scales",
                            name + "_zeros"], [name], axis=0)
