"""The loupe's network, and the larger one that it learns from."""

from pathlib import Path

import torch
from torch import Tensor, nn

from finder_training.export import export
from swapboard.photo.networks import ALONG, BINS

WIDTHS = {"loupe": (20, 28, 44, 44), "teacher": (40, 56, 80, 64)}
"""How wide its levels are; and those of a network four times as large."""

BYTES_FROM = 3000
"""Its weights of so many numbers are shipped as bytes: as halves they would take twice the room."""


class Loupe(nn.Module):
    """Strips [n, 4, 3, 32, 96] about the four sides, colours in 0–1 → [n, 4, 96].

    Where each side's edge lies across its strip, before the softmax. Every strip is seen by itself,
    averaged along its side, and then together with the mean of all four.
    """

    def __init__(self, widths: tuple[int, int, int, int]) -> None:
        super().__init__()
        first, second, third, last = widths
        self.trunk = nn.Sequential(
            _seen(3, first), _seen(first, second, 2), _seen(second, second, 1, 2),
            _seen(second, third, 2, 2), _seen(third, third, 1, 3))
        self.each = nn.Conv2d(4, 4, 1, bias=False).requires_grad_(False)
        self.each.weight.fill_(1 / 4)
        self.head = nn.Sequential(_across(4 * third, last), _across(last, last, 2),
                                  _across(last, last, 4), nn.Conv2d(last, 1, (1, 5), 1, (0, 2)))

    def forward(self, strips: Tensor) -> Tensor:
        """The places."""
        count = len(strips)
        seen = self.trunk(strips.flatten(0, 1) - 0.5)
        along = (ALONG // 4, 1)
        seen = torch.cat([nn.functional.avg_pool2d(seen, along),
                          nn.functional.max_pool2d(seen, along)], 1)
        together = self.each(seen.reshape(count, 4, -1, BINS)).reshape(seen.shape)
        return self.head(torch.cat([seen, together], 1)).reshape(count, 4, BINS)


def _seen(before: int, after: int, stride: int = 1, reach: int = 1) -> nn.Sequential:
    """Three along the side by five across it, `reach` apart."""
    return nn.Sequential(
        nn.Conv2d(before, after, (3, 5), (stride, 1), (1, 2 * reach), (1, reach)),
        nn.BatchNorm2d(after), nn.ReLU(inplace=True))


def _across(before: int, after: int, reach: int = 1) -> nn.Sequential:
    return nn.Sequential(
        nn.Conv2d(before, after, (1, 5), 1, (0, 2 * reach), (1, reach)),
        nn.BatchNorm2d(after), nn.ReLU(inplace=True))


class One(nn.Module):
    """A loupe that is shown one card, [4, 3, 32, 96] → [4, 96]: as it is shipped."""

    def __init__(self, loupe: Loupe) -> None:
        super().__init__()
        self.loupe = loupe

    def forward(self, strips: Tensor) -> Tensor:
        """The places."""
        return self.loupe(strips[None])[0]


def keep(networks: dict[str, Loupe], out: Path) -> None:
    """Both as training can go on from them, and the loupe as it is shipped."""
    out.mkdir(parents=True, exist_ok=True)
    for name, network in networks.items():
        torch.save(network.state_dict(), out / f"{name}.pt")
    one = One(networks["loupe"])
    print(export(one, torch.rand(4, 3, ALONG, BINS), ["places"], out / "loupe.onnx.xz", BYTES_FROM))
