"""Trained networks as ONNX files whose weights are stored in half precision."""

from pathlib import Path

import numpy as np
import onnx
import torch
from onnx import helper, numpy_helper
from torch import nn


def export(network: nn.Module, example: torch.Tensor, names: list[str], file: Path) -> int:
    """Write the network; answers the file's size in bytes.

    Normalisation is folded into the convolutions by the exporter. Weights are
    float16 with a cast to float32 behind each, as the runtime computes in float32.
    """
    network = network.eval().float().cpu()
    torch.onnx.export(network, (example,), str(file), input_names=["seen"], output_names=names,
                      opset_version=17, dynamo=False, do_constant_folding=True)
    model = onnx.load(str(file))
    halve(model)
    onnx.checker.check_model(model)
    onnx.save(model, str(file))
    return file.stat().st_size


def halve(model: onnx.ModelProto) -> None:
    """Store float32 weights of more than 64 numbers as float16, in place."""
    graph, casts = model.graph, []
    for weight in list(graph.initializer):
        values = numpy_helper.to_array(weight)
        if values.dtype != np.float32 or values.size <= 64:
            continue
        name = weight.name
        graph.initializer.remove(weight)
        graph.initializer.append(numpy_helper.from_array(values.astype(np.float16), name + "_half"))
        casts.append(helper.make_node("Cast", [name + "_half"], [name], to=onnx.TensorProto.FLOAT))
    for cast in reversed(casts):
        graph.node.insert(0, cast)
