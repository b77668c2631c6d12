"""Four small networks that look at photographs: where cards are, how a card's sides run, whether
one lies there, for all that is about it, and how far off its own edges lie, seen near.

They were trained on invented scenes (plugins/finder_training says how). Their
weights come in as bytes: nothing is read from disk here. OpenCV runs them on
the processor and gives the same numbers on any number of threads.
"""

from dataclasses import dataclass
from typing import Any

import cv2
import numpy as np

PROPOSER_SIDE = 512
WARP = (224, 288)
"""Width and height in px of the warp that the refiner is shown."""

MARGIN = 0.2
"""Of the card's sides, shown beyond each of them."""

VIEW, FAR_MARGIN = (112, 144), 1.0
"""Width and height in px of either warp that the witness is shown, and of the card's sides, what
the second shows beyond each of them."""

ALONG, BINS = 32, 96
"""Into how many parts the loupe's strips are divided along a side, and across it."""


@dataclass(frozen=True, slots=True)
class Networks:
    """The networks, ready to run; one at a time, in one thread."""

    proposer: Any
    refiner: Any
    witness: Any
    loupe: Any

    def maps(self, picture: np.ndarray) -> np.ndarray:
        """Maps [11, 128, 128] of a picture uint8 [512, 512, 3].

        The shares of card, kernel and boundary, 0–1, then x and y from the
        pixel to the card's four corners in units of 64 px.
        """
        seen = picture.transpose(2, 0, 1)[None].astype(np.float32) / 255
        self.proposer.setInput(np.ascontiguousarray(seen))
        maps = self.proposer.forward("maps")[0]
        return np.concatenate([_logistic(maps[:3]), maps[3:]])

    def sides(self, warp: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        """Where the sides run in a warp float32 [288, 224, 4], colours and frame in 0–1.

        Answers shares [4, 144, 112] for left, right, top and bottom, each row
        (left, right) or column (top, bottom) summing to 1; and three shares
        0–1: the warp's own rectangle is a card to IoU 0.95; to 0.75; the card
        is partly hidden or cut.
        """
        self.refiner.setInput(np.ascontiguousarray(warp.transpose(2, 0, 1)[None]))
        maps, verdicts = self.refiner.forward(["sides", "verdicts"])
        maps = maps[0]
        across, down = _shares(maps[:2], axis=2), _shares(maps[2:], axis=1)
        return np.concatenate([across, down]), _logistic(verdicts[0])


    def place(self, near: np.ndarray, far: np.ndarray) -> float:
        """The share, 0–1, that a card lies on a quadrilateral to IoU 0.75.

        `near` and `far` float32 [144, 112, 4] are warps of it with `MARGIN` and `FAR_MARGIN` of
        its sides around it.
        """
        seen = np.concatenate([near, far], axis=2).transpose(2, 0, 1)[None]
        self.witness.setInput(np.ascontiguousarray(seen))
        # The other verdict, to IoU 0.93, helped it learn; of that the refiner knows more.
        return float(_logistic(self.witness.forward("verdicts")[0, 0]))

    def edges(self, strips: np.ndarray) -> np.ndarray:
        """Shares [4, 96], each row summing to 1, of where a card's own edges lie across strips
        float32 [4, 3, 32, 96] about its sides, colours in 0–1."""
        self.loupe.setInput(strips)
        return _shares(self.loupe.forward("places"), axis=1)


def networks_of(*files: bytes) -> Networks:
    """The networks out of four ONNX files' bytes: proposer, refiner, witness and loupe."""
    return Networks(*(cv2.dnn.readNetFromONNX(np.frombuffer(read, np.uint8)) for read in files))


def _logistic(values: np.ndarray) -> np.ndarray:
    return 1 / (1 + np.exp(-np.clip(values, -30, 30)))


def _shares(values: np.ndarray, axis: int) -> np.ndarray:
    raised = np.exp(values - values.max(axis=axis, keepdims=True))
    return raised / raised.sum(axis=axis, keepdims=True)
