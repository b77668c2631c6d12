"""A packed network in less room: its weights' bytes say fewer different numbers.

    PYTHONPATH=plugins python -m finder_training.coarser IN OUT --levels 40
"""

import argparse
import lzma
from pathlib import Path

import numpy as np
import onnx
from onnx import numpy_helper

MOST = 127
"""Whole numbers on either side of 0 that bytes hold."""


def coarser(packed: bytes, levels: int) -> bytes:
    """A packed network (xz) whose weights of a byte each are whole numbers within ±`levels`."""
    model = onnx.load_from_string(lzma.decompress(packed))
    held = {one.name: one for one in model.graph.initializer}
    for node in model.graph.node:
        if node.op_type != "DequantizeLinear":
            continue
        whole, scales = (held[name] for name in node.input[:2])
        values = numpy_helper.to_array(whole) * (levels / MOST)
        whole.CopyFrom(numpy_helper.from_array(np.rint(values).astype(np.int8), whole.name))
        widened = numpy_helper.to_array(scales) * (MOST / levels)
        scales.CopyFrom(numpy_helper.from_array(widened.astype(np.float32), scales.name))
    return lzma.compress(model.SerializeToString(), preset=9)


def main() -> None:
    """Read the command line and write the coarser network."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("packed", type=Path)
    parser.add_argument("out", type=Path)
    parser.add_argument("--levels", type=int, required=True, help="1 to 127")
    chosen = parser.parse_args()
    if not 1 <= chosen.levels <= MOST:
        parser.error(f"--levels: 1 to {MOST}")
    chosen.out.write_bytes(coarser(chosen.packed.read_bytes(), chosen.levels))
    print(chosen.out.stat().st_size)


if __name__ == "__main__":
    main()
