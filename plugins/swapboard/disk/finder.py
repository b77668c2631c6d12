"""The finder as every command uses it: its networks' weights read once, then `photo` alone."""

import lzma
from functools import cache
from pathlib import Path

import numpy as np

from swapboard.photo import find
from swapboard.photo.networks import Networks, networks_of

WEIGHTS = Path(__file__).parent / "weights"


@cache
def networks() -> Networks:
    """The networks that are shipped; one process, one thread."""
    return networks_of(*(lzma.decompress(file.read_bytes()) for file in weight_files()))


def weight_files() -> tuple[Path, ...]:
    """The proposer's file, the refiner's, the witness's and the loupe's."""
    return tuple(WEIGHTS / f"{name}.onnx.xz"
                 for name in ("proposer", "refiner", "witness", "loupe"))


def find_cards(picture: np.ndarray, focal: float | None = None) -> tuple[find.Found, ...]:
    """The cards in an upright picture uint8 [h, w, 3], in reading order; `focal` in px."""
    return find.find_cards(picture, focal, networks())
