"""What the witness sees and should say: places, with what is near them and far about them."""

from dataclasses import dataclass

import torch
from torch import Tensor
from torch.nn import functional

from finder_training.networks import FAR_MARGIN, MARGIN, VIEW
from finder_training.quads import (
    homographies,
    inside,
    jitter,
    overlap_in_warp,
    sound,
    tall_first,
    through,
    warp_corners,
)
from finder_training.samples import LEAST_SEEN, LONG, MAP, MOST, Scenes, coloured

CARDS, DECOYS = 0.5, 0.3
"""Of the views: cards, as they may have been found, and places known to hold none. The others are
places as large as a card beside one, where none lies."""

BARE = 0.1
"""The share of such a place that cards may cover."""

WITHIN = 0.6
"""The share of it that the frame must hold."""

LARGE = 220.0
"""px of a card's longer side, from which it is read off pictures a quarter as fine."""


@dataclass(slots=True)
class Views:
    """What the witness sees, [n, 8, 144, 112], and how far, 0–1, a card lies just there."""

    seen: Tensor
    overlap: Tensor


def any_views(scenes: Scenes, count: int, generator: torch.Generator) -> Views:
    """`count` views out of the batch."""
    cards, decoys = int(count * CARDS), int(count * DECOYS)
    kind, visible, _ = scenes.facts.unbind(-1)
    clear = sound(scenes.quads.flatten(0, 1)).reshape(kind.shape)
    card = ((kind == 1) & (visible > LEAST_SEEN) & clear).float().flatten()
    decoy = ((kind == 2) & clear).float().flatten() + 1e-6 * card

    def some(weight: Tensor, number: int) -> Tensor:
        return torch.multinomial(weight, number, replacement=True, generator=generator)

    beside, bare = _beside(scenes, some(card, (count - cards - decoys) * 4), generator)
    free = beside[torch.multinomial(bare.float() + 1e-6, count - cards - decoys,
                                    replacement=False, generator=generator)]
    own = torch.cat([some(card, cards), some(decoy, decoys)])
    true = tall_first(scenes.quads.flatten(0, 1)[own], generator)
    guess = _guesses(true, cards, generator)
    overlap = overlap_in_warp(through(homographies(guess, warp_corners(len(own), own.device)),
                                      true))
    overlap = overlap * (kind.flatten()[own] == 1)
    scene = torch.cat([own // MOST, free[:, 8].long()])
    quads = torch.cat([guess, free[:, :8].reshape(-1, 4, 2)])
    overlap = torch.cat([overlap, torch.zeros(len(free), device=own.device)])
    return Views(_viewed(scenes, scene, quads, generator), overlap)


def _guesses(true: Tensor, cards: int, generator: torch.Generator) -> Tensor:
    """Half of the cards as the refiner leaves them, half as far off as proposals are; the others
    hardly off."""
    size = ((true[:, 2] - true[:, 0]).norm(dim=-1) * 0.6)[:, None, None]
    drawn = torch.rand((len(true), 1, 1), generator=generator, device=true.device)
    noise = torch.randn(true.shape, generator=generator, device=true.device)
    near = true + noise * size * 10 ** (-3 + 1.3 * drawn)
    guess = near.clone()
    guess[: cards // 2] = jitter(true[: cards // 2], generator)
    return torch.where(sound(guess)[:, None, None], guess, true)


def _beside(scenes: Scenes, pick: Tensor, generator: torch.Generator) -> tuple[Tensor, Tensor]:
    """Corners and scene [n, 9] of places a card's size away from cards; bool [n] whether nothing
    lies there."""
    count, device = len(pick), pick.device
    true = tall_first(scenes.quads.flatten(0, 1)[pick], generator)
    unit = torch.tensor([[0, 0], [1, 0], [1, 1], [0, 1]], dtype=true.dtype, device=device)
    unit = unit.expand(count, 4, 2)
    step = torch.randint(-1, 2, (count, 1, 2), generator=generator, device=device)
    gap = 1 + 0.2 * torch.rand((count, 1, 2), generator=generator, device=device)
    place = through(homographies(unit, true), unit + step * gap)
    ticks = (torch.arange(8, device=device) + 0.5) / 8
    grid = torch.stack(torch.meshgrid(ticks, ticks, indexing="xy"), -1).reshape(1, 64, 2)
    good = sound(place) & (step.abs().sum((1, 2)) > 0)
    place = torch.where(good[:, None, None], place, true)
    points = through(homographies(unit, place), grid.expand(count, 64, 2))
    scene = pick // MOST
    framed = ((points >= 0) & (points < scenes.sizes[scene][:, None])).all(-1)
    cell = (points * (MAP / LONG)).long().clamp(0, MAP - 1)
    owner = scenes.owner[scene].flatten(1)
    covered = torch.gather(owner, 1, cell[..., 1] * MAP + cell[..., 0]) > 0
    good &= (framed.float().mean(1) > WITHIN) & ((covered & framed).float().mean(1) < BARE)
    good &= ~_holds_middle(scenes, scene, place)
    return torch.cat([place.flatten(1), scene[:, None].to(place.dtype)], 1), good


def _holds_middle(scenes: Scenes, scene: Tensor, place: Tensor) -> Tensor:
    """bool [n]: whether the middle of a card lies there, seen or not."""
    middles = scenes.quads.mean(2)[scene]
    return (inside(place, middles) & (scenes.facts[scene][..., 0] == 1)).any(1)


def _viewed(
    scenes: Scenes, scene: Tensor, quads: Tensor, generator: torch.Generator
) -> Tensor:
    """[n, 8, 144, 112]: colours and frame near the quadrilaterals, then far about them."""
    parts = [torch.zeros((len(quads), 4, VIEW[1], VIEW[0]), device=quads.device) for _ in range(2)]
    large = (quads.roll(-1, 1) - quads).norm(dim=-1).max(1).values > LARGE
    small = functional.avg_pool2d(scenes.pictures.float(), 4) / 255
    whole = scenes.pictures
    for part, margin in zip(parts, (MARGIN, FAR_MARGIN), strict=True):
        onto = homographies(_box(margin, len(quads), quads.device), quads)
        for chosen, fine in ((large, margin == MARGIN), (~large, True)):
            at = chosen.nonzero()[:, 0]
            if len(at):
                source = whole[scene[at]].float() / 255 if fine else small[scene[at]]
                part[at] = _read(source, scenes.sizes[scene[at]], onto[at])
    tinted = coloured(torch.cat([part[:, :3] for part in parts], 3), generator)
    near, far = tinted.split(VIEW[0], 3)
    return torch.cat([near, parts[0][:, 3:], far, parts[1][:, 3:]], 1)


def _box(margin: float, count: int, device: torch.device) -> Tensor:
    """[count, 4, 2]: where corners lie in a view, px."""
    wide, tall = VIEW
    left, top = wide * margin / (1 + 2 * margin), tall * margin / (1 + 2 * margin)
    box = [[left, top], [wide - left, top], [wide - left, tall - top], [left, tall - top]]
    return torch.tensor(box, device=device).expand(count, 4, 2)


def _read(source: Tensor, sizes: Tensor, onto: Tensor, fine: int = 2) -> Tensor:
    """[n, 4, 144, 112]: sources [n, 3, h, w] read through `onto`, averaged over fine × fine px."""
    wide, tall = VIEW[0] * fine, VIEW[1] * fine
    x = (torch.arange(wide, device=onto.device) + 0.5) / fine
    y = (torch.arange(tall, device=onto.device) + 0.5) / fine
    points = torch.stack(torch.meshgrid(x, y, indexing="xy"), -1).reshape(1, -1, 2)
    at = through(onto, points.expand(len(onto), -1, 2)).reshape(-1, tall, wide, 2)
    size = sizes[:, None, None]
    framed = ((at >= 0) & (at <= size)).all(-1)
    at = torch.minimum(at.clamp(min=0.5), size - 0.5)
    read = functional.grid_sample(source, at / LONG * 2 - 1, mode="bilinear",
                                  padding_mode="border", align_corners=False)
    whole = torch.cat([read, framed[:, None].to(read.dtype)], 1)
    return functional.avg_pool2d(whole, fine).float()


def witness_loss(said: Tensor, views: Views) -> tuple[Tensor, Tensor]:
    """Cross entropies of both answers; of the second only where a card lies about there."""
    truth = torch.stack([views.overlap > 0.75, views.overlap > 0.93], 1).float()
    loss = functional.binary_cross_entropy_with_logits(said, truth, reduction="none")
    near = (views.overlap > 0.5).float()
    return loss[:, 0].mean(), (loss[:, 1] * near).sum() / near.sum().clamp(min=1)
