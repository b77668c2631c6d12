"""Proposer, refiner and witness, small enough for one processor core and a tenth of a second.

The ladders' widths are eights: OpenCV computes eight channels at a time, and joins others more
slowly.
"""

import torch
from torch import Tensor, nn
from torch.nn import functional

PROPOSER_SIDE = 512
PROPOSER_STRIDE = 4
WARP = (224, 288)
"""Width and height in px of what the refiner sees."""

MARGIN = 0.2
"""Of the card's sides, seen beyond each of them."""

VIEW, FAR_MARGIN = (112, 144), 1.0
"""Width and height in px of each of the witness's two views, and how much is beyond a card's sides
in the farther one."""


class Block(nn.Sequential):
    """A 3 × 3 convolution, its normalisation and a rectifier."""

    def __init__(self, before: int, after: int, stride: int = 1, groups: int = 1) -> None:
        super().__init__(
            nn.Conv2d(before, after, 3, stride, 1, groups=groups, bias=False),
            nn.BatchNorm2d(after),
            nn.ReLU(inplace=True),
        )


class Second(nn.Module):
    """Two more convolutions that add to what they are given (He et al., 2016).

    They begin by adding nothing, so that a trained network can be given more of them.
    """

    def __init__(self, width: int) -> None:
        super().__init__()
        self.more = nn.Sequential(Block(width, width), nn.Conv2d(width, width, 3, 1, 1, bias=False),
                                  nn.BatchNorm2d(width))
        nn.init.zeros_(self.more[2].weight)

    def forward(self, seen: Tensor) -> Tensor:
        """What was seen, and more."""
        return functional.relu(seen + self.more(seen))


class Ladder(nn.Module):
    """Down by halves and up again, each level told what was seen on the way down.

    (Ronneberger, Fischer & Brox, "U-Net", 2015.) `more` says how often each level is thought
    over: on the coarse ones, where a look costs little and sees the card whole.
    """

    def __init__(self, channels: tuple[int, ...], more: tuple[int, ...], up: tuple[int, ...],
                 first: int) -> None:
        super().__init__()
        self.down, self.over = nn.ModuleList(), nn.ModuleList()
        before = first
        for width, times in zip(channels, more, strict=True):
            self.down.append(nn.Sequential(Block(before, width, 2), Block(width, width)))
            self.over.append(nn.Sequential(*(Second(width) for _ in range(times))))
            before = width
        self.across, self.join = nn.ModuleList(), nn.ModuleList()
        for width, level in zip(up, range(len(channels) - 2, -1, -1), strict=False):
            self.across.append(nn.Conv2d(before, width, 1))
            self.join.append(Block(width + channels[level], width))
            before = width

    def forward(self, seen: Tensor) -> tuple[Tensor, Tensor]:
        """The finest level again, and the coarsest."""
        levels = []
        for step, over in zip(self.down, self.over, strict=True):
            seen = over(step(seen))
            levels.append(seen)
        deepest, levels = levels[-1], levels[:-1]
        for across, join in zip(self.across, self.join, strict=True):
            seen = functional.interpolate(across(seen), scale_factor=2.0, mode="nearest")
            seen = join(torch.cat([seen, levels.pop()], dim=1))
        return seen, deepest


class Proposer(nn.Module):
    """Picture [n, 3, 512, 512] in 0–1 → maps [n, 11, 128, 128].

    Mask, kernel and boundary before the logistic function, then x and y from
    the pixel to the four corners in units of 64 px.
    """

    def __init__(self) -> None:
        super().__init__()
        self.stem = Block(3, 16, 2)
        self.ladder = Ladder((32, 48, 64, 80, 80), (0, 0, 1, 2, 2), (56, 48, 40, 40), 16)
        self.head = nn.Sequential(Block(40, 40), nn.Conv2d(40, 11, 1))

    def forward(self, picture: Tensor) -> Tensor:
        """The maps."""
        return self.head(self.ladder(self.stem(picture - 0.45))[0])


class Refiner(nn.Module):
    """Warp [n, 4, 288, 224] (colours in 0–1, inside the frame) → side maps and verdicts.

    Maps [n, 4, 144, 112] for left, right, top and bottom before the softmax
    along each row (left, right) or column (top, bottom). Verdicts [n, 3]
    before the logistic function: the quadrilateral is a card to IoU 0.95, to
    0.75, and the card is partly hidden or cut.
    """

    def __init__(self) -> None:
        super().__init__()
        self.ladder = Ladder((16, 32, 48, 64, 80), (0, 0, 1, 2, 2), (48, 40, 32, 24), 4)
        self.head = nn.Sequential(Block(24, 24), nn.Conv2d(24, 4, 1))
        self.look = nn.Sequential(Block(24, 24, 2), Block(24, 32, 2), Block(32, 48, 2))
        self.judge = nn.Sequential(nn.Linear(80 + 48 * 6, 48), nn.ReLU(), nn.Linear(48, 3))

    def forward(self, warp: Tensor) -> tuple[Tensor, Tensor]:
        """The side maps and the verdicts."""
        fine, deep = self.ladder(warp - 0.45)
        looked = functional.avg_pool2d(self.look(fine), (9, 6), (9, 4)).flatten(1)
        whole = functional.avg_pool2d(deep, (9, 7)).flatten(1)
        return self.head(fine), self.judge(torch.cat([looked, whole], dim=1))


class Witness(nn.Module):
    """Two views [n, 8, 144, 112] of a quadrilateral → verdicts [n, 2].

    Colours in 0–1 and inside the frame, of what is near it and then of what is far about it.
    Verdicts before the logistic function: a card lies there, to IoU 0.75, and to 0.93. Each view
    is seen by itself at first (`groups`); what becomes of them is seen together.
    """

    def __init__(self) -> None:
        super().__init__()
        self.apart = nn.Sequential(
            Block(8, 32, 2, 2), Block(32, 32, 1, 2), Block(32, 64, 2, 2), Block(64, 64, 1, 2),
            Block(64, 96, 2, 2))
        self.joined = nn.Sequential(Block(96, 56), Second(56), Block(56, 56, 2))
        self.head = nn.Sequential(
            nn.Conv2d(56, 12, 1), nn.ReLU(), nn.Conv2d(12, 24, (9, 7)), nn.ReLU(),
            nn.Conv2d(24, 2, 1), nn.Flatten())

    def forward(self, views: Tensor) -> Tensor:
        """The verdicts."""
        return self.head(self.joined(self.apart(views - 0.45)))
