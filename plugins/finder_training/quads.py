"""Many quadrilaterals at once, as tensors [n, 4, 2]: maps between them, overlap, jitter."""

import torch
from torch import Tensor

from finder_training.networks import MARGIN, WARP


def homographies(source: Tensor, target: Tensor) -> Tensor:
    """[n, 3, 3] taking four points [n, 4, 2] to four others, in float64."""
    x, y = source.double().unbind(-1)
    u, v = target.double().unbind(-1)
    zero, one = torch.zeros_like(x), torch.ones_like(x)
    first = torch.stack([x, y, one, zero, zero, zero, -u * x, -u * y], -1)
    second = torch.stack([zero, zero, zero, x, y, one, -v * x, -v * y], -1)
    known = torch.cat([u, v], 1)[..., None]
    solved = torch.linalg.solve(torch.cat([first, second], 1), known)[..., 0]
    return torch.cat([solved, torch.ones_like(solved[:, :1])], 1).reshape(-1, 3, 3)


def sound(quads: Tensor) -> Tensor:
    """bool [n]: which are clockwise, convex, and no mere line, so that a map to them exists."""
    sides = quads.roll(-1, 1) - quads
    after = sides.roll(-1, 1)
    turn = sides[..., 0] * after[..., 1] - sides[..., 1] * after[..., 0]
    return (turn > 4).all(-1)


def through(maps: Tensor, points: Tensor) -> Tensor:
    """Points [n, m, 2] through homographies [n, 3, 3]; beyond the horizon they go far away."""
    whole = torch.cat([points.double(), torch.ones_like(points[..., :1]).double()], -1)
    moved = whole @ maps.transpose(1, 2)
    depth = moved[..., 2:]
    depth = torch.where(depth.abs() < 1e-6, torch.full_like(depth, 1e-6), depth)
    return (moved[..., :2] / depth).float()


def warp_corners(
    count: int, device: torch.device, shown: tuple[int, int] = WARP, margin: float = MARGIN
) -> Tensor:
    """[count, 4, 2]: where a quadrilateral's corners lie in its warp of `shown` (w, h) px."""
    wide, tall = shown
    left, top = wide * margin / (1 + 2 * margin), tall * margin / (1 + 2 * margin)
    box = [[left, top], [wide - left, top], [wide - left, tall - top], [left, tall - top]]
    return torch.tensor(box, device=device).expand(count, 4, 2)


def tall_first(quads: Tensor, generator: torch.Generator) -> Tensor:
    """From a corner such that left and right are the longer sides; of the two, either."""
    sides = (quads.roll(-1, 1) - quads).norm(dim=-1)
    wide = sides[:, 0] + sides[:, 2] > sides[:, 1] + sides[:, 3]
    turned = torch.where(wide[:, None, None], quads.roll(-1, 1), quads)
    half = torch.rand(len(quads), generator=generator, device=quads.device) < 0.5
    return torch.where(half[:, None, None], turned.roll(2, 1), turned)


def inside(quads: Tensor, points: Tensor) -> Tensor:
    """bool [n, m]: which points [n, m, 2] lie in the clockwise quadrilateral."""
    sides = quads.roll(-1, 1) - quads
    to = points[:, :, None] - quads[:, None]
    return (sides[:, None, :, 0] * to[..., 1] - sides[:, None, :, 1] * to[..., 0] >= 0).all(-1)


def overlap_in_warp(true: Tensor) -> Tensor:
    """[n]: overlap over union of the warp's own rectangle and `true` [n, 4, 2] px of the warp."""
    wide, tall = WARP
    device = true.device
    x = torch.linspace(-0.15 * wide, 1.15 * wide, 140, device=device)
    y = torch.linspace(-0.15 * tall, 1.15 * tall, 180, device=device)
    points = torch.stack(torch.meshgrid(x, y, indexing="ij"), -1).reshape(1, -1, 2)
    points = points.expand(len(true), -1, 2)
    one = inside(warp_corners(len(true), device), points)
    other = inside(true, points)
    return (one & other).sum(1) / (one | other).sum(1).clamp(min=1)


def jitter(quads: Tensor, generator: torch.Generator) -> Tensor:
    """The quadrilaterals as a proposer might give them: a little off, far off, or elsewhere."""
    count, device = len(quads), quads.device

    def drawn(*shape: int) -> Tensor:
        return torch.rand(count, *shape, generator=generator, device=device)

    def normal(*shape: int) -> Tensor:
        return torch.randn(count, *shape, generator=generator, device=device)

    size = ((quads[:, 2] - quads[:, 0]).norm(dim=-1) * 0.6)[:, None, None]
    roll = drawn()[:, None, None]
    fine = 10 ** (-3 + 1.3 * drawn(1, 1))
    coarse = 0.02 + 0.05 * drawn(1, 1)
    moved = quads + normal(4, 2) * size * torch.where(roll < 0.45, fine, coarse)
    one_side = _one_side_moved(quads + normal(4, 2) * size * 0.004, drawn(), drawn())
    moved = torch.where(roll > 0.72, one_side, moved)
    middle = quads.mean(1, keepdim=True)
    elsewhere = (quads - middle) * (0.45 + 1.1 * drawn(1, 1)) + middle
    elsewhere = elsewhere + normal(1, 2) * size * 0.35 + normal(4, 2) * size * 0.02
    moved = torch.where(roll > 0.87, elsewhere, moved)
    part = _one_side_moved(quads + normal(4, 2) * size * 0.006, drawn(), -0.6 - 1.2 * drawn())
    return torch.where(roll > 0.94, part, moved)


def _one_side_moved(quads: Tensor, which: Tensor, far: Tensor) -> Tensor:
    """Sides drawn inwards or outwards: to a frame in the art, a shadow, the next card."""
    span = (far[:, None] - 0.5) * 0.3
    top, right, bottom, left = quads.unbind(1)
    down = torch.stack([top, right, right + (bottom - right) * (1 + span),
                        top + (left - top) * (1 + span)], 1)
    across = torch.stack([top, top + (right - top) * (1 + span),
                          left + (bottom - left) * (1 + span), left], 1)
    middle = quads.mean(1, keepdim=True)
    framed = (quads - middle) * (1 + span[..., None]) + middle
    which = which[:, None, None]
    moved = torch.where(which < 0.35, down, torch.where(which < 0.65, across, framed))
    return moved
