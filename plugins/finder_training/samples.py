"""What the networks see and should say, made on the GPU from stored scenes."""

from dataclasses import dataclass

import torch
from torch import Tensor
from torch.nn import functional

from finder_training.networks import PROPOSER_SIDE, PROPOSER_STRIDE, WARP
from finder_training.quads import (
    homographies,
    jitter,
    overlap_in_warp,
    sound,
    tall_first,
    through,
    warp_corners,
)
from finder_training.stage import UNASKED

MOST = 24
LONG = 768
MAP = PROPOSER_SIDE // PROPOSER_STRIDE
LEAST_SEEN = 0.25
"""The share of a card that must show for a network to be asked for it."""


@dataclass(slots=True)
class Scenes:
    """A batch of scenes: `pictures` uint8 [n, 3, 768, 768], `owner` uint8 [n, 128, 128],
    `quads` [n, 24, 4, 2] px, `facts` [n, 24, 3] (1 a card, 2 no card; visible share; cut),
    `sizes` [n, 2] width and height."""

    pictures: Tensor
    owner: Tensor
    quads: Tensor
    facts: Tensor
    sizes: Tensor


def coloured(pictures: Tensor, generator: torch.Generator) -> Tensor:
    """Other exposures and tints of pictures [n, 3, h, w] in 0–1."""
    count, device = len(pictures), pictures.device
    shape = (count, 1, 1, 1)
    gain = 1 + 0.15 * torch.randn(shape, generator=generator, device=device)
    tint = 1 + 0.05 * torch.randn((count, 3, 1, 1), generator=generator, device=device)
    power = torch.exp(0.2 * torch.randn(shape, generator=generator, device=device))
    bent = pictures.clamp(1e-3, 1) ** power * (gain * tint).clamp(0.3, 2)
    grey = bent.mean(1, keepdim=True)
    colour = torch.rand(shape, generator=generator, device=device) * 1.3
    colour = torch.where(colour > 0.25, torch.ones_like(colour), colour * 2)
    return (grey + (bent - grey) * colour).clamp(0, 1)


def turned(scenes: Scenes, way: int) -> Scenes:
    """The batch in one of its eight orientations; quadrilaterals stay clockwise."""
    pictures, owner, quads = scenes.pictures, scenes.owner, scenes.quads
    if way & 1:
        pictures, owner = pictures.flip(3), owner.flip(2)
        quads = torch.stack([LONG - quads[..., 0], quads[..., 1]], -1).flip(2)
    if way & 2:
        pictures, owner = pictures.flip(2), owner.flip(1)
        quads = torch.stack([quads[..., 0], LONG - quads[..., 1]], -1).flip(2)
    if way & 4:
        pictures, owner = pictures.transpose(2, 3), owner.transpose(1, 2)
        quads = quads.flip(3).flip(2)
    return Scenes(pictures, owner, quads, scenes.facts, scenes.sizes)


def transposed(scenes: Scenes) -> Scenes:
    """The batch seen in a mirror: the corner at (0, 0) stays, so that sizes still frame it."""
    mirrored = turned(scenes, 4)
    return Scenes(mirrored.pictures, mirrored.owner, mirrored.quads, scenes.facts,
                  scenes.sizes.flip(1))


@dataclass(slots=True)
class MapTargets:
    """Per pixel [n, 128, 128]: `card`, `kernel`, `boundary` 0/1, `counts` whether it is asked,
    `to_corners` [n, 128, 128, 4, 2] in units of 64 px of 512, `span` the card's size in them."""

    card: Tensor
    kernel: Tensor
    boundary: Tensor
    counts: Tensor
    to_corners: Tensor
    span: Tensor


def map_targets(scenes: Scenes) -> MapTargets:
    """What the proposer should say of a batch."""
    owner, device = scenes.owner.long(), scenes.owner.device
    asked, count = owner != UNASKED, len(owner)
    owner = torch.where(asked, owner, 0)
    at = (owner - 1).clamp(min=0).reshape(count, -1)
    quads = scenes.quads * (PROPOSER_SIDE / LONG)
    own = torch.gather(quads.flatten(2), 1, at[..., None].expand(-1, -1, 8))
    own = own.reshape(count, MAP, MAP, 4, 2)
    visible = torch.gather(scenes.facts[..., 1], 1, at).reshape(count, MAP, MAP)
    centre = (torch.arange(MAP, device=device) + 0.5) * PROPOSER_STRIDE
    here = torch.stack(torch.meshgrid(centre, centre, indexing="xy"), -1)[None, :, :, None]
    away = own - here
    side = own.roll(-1, 3) - own
    within = (side[..., 0] * -away[..., 1] - side[..., 1] * -away[..., 0])
    within = within / side.norm(dim=-1).clamp(min=1e-3)
    # Of the half width and of the half height: a share of both, so that long strips have one too.
    half = (within[..., :2] + within[..., 2:]) / 2
    nearer = torch.minimum(within[..., :2], within[..., 2:])
    deep = (nearer / half.clamp(min=1e-3)).min(-1).values
    card = (owner > 0) & (visible > LEAST_SEEN)
    borders = functional.pad(owner.float()[:, None], (1, 1, 1, 1), mode="replicate")
    most = functional.max_pool2d(borders, 3, 1)
    least = -functional.max_pool2d(-borders, 3, 1)
    span = (0.25 * within.sum(-1)).clamp(min=4) / 64
    kernel = card & (deep > 0.5 * _deepest(scenes, owner, deep))
    return MapTargets(card, kernel, (most > least)[:, 0],
                      ((owner == 0) & asked) | card, away / 64, span)


def _deepest(scenes: Scenes, owner: Tensor, deep: Tensor) -> Tensor:
    """How deep in its card the deepest pixel lies that is seen of it: 1 for all but cut ones.

    A card whose middle lies beyond the frame has a kernel in what the frame leaves of it.
    """
    most = torch.zeros((len(owner), MOST + 1), device=owner.device)
    most.scatter_reduce_(1, owner.flatten(1), deep.flatten(1), "amax")
    cut = functional.pad(scenes.facts[..., 2], (1, 0)) > 0
    reach = torch.where(cut, most, torch.ones_like(most))
    return torch.gather(reach, 1, owner.flatten(1)).reshape(owner.shape)


def proposer_loss(maps: Tensor, wanted: MapTargets) -> Tensor:
    """Cross entropies of the masks, and the corners' errors under the best of four orders."""
    asked = wanted.counts.float()
    total = torch.zeros((), device=maps.device)
    for channel, truth, weight in ((0, wanted.card, 1.0), (1, wanted.kernel, 2.0),
                                   (2, wanted.boundary, 0.5)):
        loss = functional.binary_cross_entropy_with_logits(
            maps[:, channel], truth.float(), reduction="none")
        total = total + weight * (loss * asked).sum() / asked.sum()
    said = maps[:, 3:].permute(0, 2, 3, 1).reshape(*maps.shape[:1], MAP, MAP, 4, 2)
    chosen = wanted.card
    said, truth, span = said[chosen], wanted.to_corners[chosen], wanted.span[chosen]
    orders = torch.stack([
        functional.smooth_l1_loss(said / span[:, None, None],
                                  truth.roll(turn, 1) / span[:, None, None],
                                  beta=0.1, reduction="none").mean((1, 2))
        for turn in range(4)], 1)
    weight = (1 / span.clamp(0.1)) * (1 + wanted.kernel[chosen])
    return total + 2.0 * (orders.min(1).values * weight).sum() / weight.sum().clamp(min=1)


@dataclass(slots=True)
class Warps:
    """What the refiner sees, [n, 4, 288, 224], and the truth: the card's corners in the warp,
    how they overlap the warp's rectangle, and whether the card is hidden or cut."""

    seen: Tensor
    corners: Tensor
    overlap: Tensor
    hidden: Tensor


def any_warps(scenes: Scenes, count: int, generator: torch.Generator) -> Warps:
    """`count` warps of cards out of the batch, and of places that hold none."""
    device = scenes.quads.device
    kind, visible, _ = scenes.facts.unbind(-1)
    good = (kind == 1) & (visible > LEAST_SEEN)
    weight = (good.float() + 0.5 * (kind == 2)).flatten() * sound(scenes.quads.flatten(0, 1))
    pick = torch.multinomial(weight, count, replacement=True, generator=generator)
    scene, card = pick // MOST, pick % MOST
    true = tall_first(scenes.quads[scene, card], generator)
    guess = jitter(true, generator)
    guess = torch.where(sound(guess)[:, None, None], guess, true)
    box = warp_corners(count, device)
    onto = homographies(box, guess)
    corners = through(homographies(guess, box), true)
    seen = warped(scenes.pictures, scenes.sizes, scene, onto)
    facts = scenes.facts[scene, card]
    hidden = ((facts[:, 1] < 0.93) | (facts[:, 2] > 0)).float()
    overlap = overlap_in_warp(corners) * (facts[:, 0] == 1)
    return Warps(seen, corners, overlap, hidden)


def warped(
    pictures: Tensor, sizes: Tensor, scene: Tensor, onto: Tensor, shown: tuple[int, int] = WARP,
    fine: int = 2,
) -> Tensor:
    """[n, 4, h, w] of `shown` (w, h) px: pictures[scene] read through `onto`, which tells places in
    px of 768 however fine they are, averaged over fine × fine px."""
    wide, tall = shown[0] * fine, shown[1] * fine
    x = (torch.arange(wide, device=onto.device) + 0.5) / fine
    y = (torch.arange(tall, device=onto.device) + 0.5) / fine
    points = torch.stack(torch.meshgrid(x, y, indexing="xy"), -1).reshape(1, -1, 2)
    at = through(onto, points.expand(len(onto), -1, 2)).reshape(-1, tall, wide, 2)
    size = sizes[scene][:, None, None]
    framed = ((at >= 0) & (at <= size)).all(-1)
    # Beyond the frame its border goes on: the middles of the outermost px.
    edge = 0.5 * LONG / pictures.shape[-1]
    at = torch.minimum(at.clamp(min=edge), size - edge)
    read = functional.grid_sample(pictures[scene].float() / 255, at / LONG * 2 - 1,
                                  mode="bilinear", padding_mode="border", align_corners=False)
    whole = torch.cat([read, framed[:, None].to(read.dtype)], 1)
    return functional.avg_pool2d(whole, fine).float()


def refiner_loss(said: tuple[Tensor, Tensor], warps: Warps) -> tuple[Tensor, Tensor]:
    """Cross entropy of the side maps where a side is to be found, and of the verdicts."""
    maps, verdicts = said
    sides, asked = _side_places(warps)
    total = torch.zeros((), device=maps.device)
    for side in range(4):
        lines = maps[:, side] if side < 2 else maps[:, side].transpose(1, 2)
        length = lines.shape[2]
        bins = torch.arange(length, device=maps.device) + 0.5
        near = torch.exp(-0.5 * ((bins - sides[side][..., None] / 2) / 0.7) ** 2)
        wanted = near / near.sum(-1, keepdim=True).clamp(min=1e-6)
        loss = -(wanted * functional.log_softmax(lines, -1)).sum(-1)
        total = total + (loss * asked[side]).sum() / asked[side].sum().clamp(min=1)
    truth = torch.stack([(warps.overlap > 0.95).float(), (warps.overlap > 0.75).float(),
                         warps.hidden], 1)
    verdict = functional.binary_cross_entropy_with_logits(verdicts, truth, reduction="none")
    verdict[:, 2] *= (warps.overlap > 0.5).float()
    return total / 4, verdict.mean()


def _side_places(warps: Warps) -> tuple[list[Tensor], list[Tensor]]:
    """Place of the true line per row or column of the maps, px, and whether it is asked."""
    corners = warps.corners
    ends = ((0, 3, 1), (1, 2, 1), (0, 1, 0), (3, 2, 0))
    framed = functional.avg_pool2d(warps.seen[:, 3:], 2)[:, 0] > 0.5
    places, asked = [], []
    for one, other, along in ends:
        length = WARP[along] // 2
        step = (torch.arange(length, device=corners.device) + 0.5) * 2
        first, last = corners[:, one], corners[:, other]
        run = last[:, along] - first[:, along]
        run = torch.where(run.abs() < 1, torch.ones_like(run), run)
        share = (step[None] - first[:, along, None]) / run[:, None]
        at = first[:, 1 - along, None] + share * (last - first)[:, 1 - along, None]
        fine = (share > 0.02) & (share < 0.98) & (at > 0) & (at < WARP[1 - along])
        fine &= (warps.overlap > 0.4)[:, None]
        cell = (at / 2).long().clamp(0, WARP[1 - along] // 2 - 1)
        seen = framed if along else framed.transpose(1, 2)
        fine &= torch.gather(seen, 2, cell[..., None])[..., 0]
        places.append(at)
        asked.append(fine.float())
    return places, asked
