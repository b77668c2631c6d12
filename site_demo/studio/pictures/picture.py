"""One card as drawn: its size, its edge and the function that draws it."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from ..sheet import UPRIGHT, WIDE


@dataclass(frozen=True, slots=True)
class Picture:
    """`draw` takes the seed and gives float32 [height, width, 3]; `back` likewise, where the
    back is shown; `edge` is square, rounded or torn."""

    draw: Callable[[int], np.ndarray]
    wide: bool = False
    edge: str = "square"
    back: Callable[[int], np.ndarray] | None = None

    @property
    def size(self) -> tuple[int, int]:
        """(width, height) in card px."""
        return WIDE if self.wide else UPRIGHT
