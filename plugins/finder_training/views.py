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
from finder_training.samples import LEAST_SEEN, LONG, MAP, MOST, Scenes, coloured, warped

CARDS, DECOYS = 0.5, 0.3
"""Of the views: cards, as they may have been found, and places known to hold none. The others are
places as large as a card beside one, where none lies."""

BARE = 0.1
"""The share of such a place that cards may cover."""

WITHIN = 0.6
"""The share of it that the frame must hold."""

LARGE = 220.0
"""px of a card's longer side, from which its far view is read off pictures a quarter as fine."""


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
    # A batch without any decoy, or with too few bare places, still gives as many views.
    decoy = ((kind == 2) & clear).float().flatten() + 1e-6 * card

    def some(weight: Tensor, number: int) -> Tensor:
        return torch.multinomial(weight, number, replacement=True, generator=generator)

    beside, bare = _beside(scenes, some(card, (count - cards - decoys) * 8), generator)
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
    """Of the cards half as a proposer might give them, far off and all; the others, and what is no
    card, as near as the refiner leaves them."""
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
    large = (quads.roll(-1, 1) - quads).norm(dim=-1).max(1).values > LARGE
    coarse = functional.avg_pool2d(scenes.pictures.float(), 4)
    near = _read(scenes.pictures, scenes.sizes, scene, quads, MARGIN)
    far = torch.empty_like(near)
    for which, pictures in ((large, coarse), (~large, scenes.pictures)):
        far[which] = _read(pictures, scenes.sizes, scene[which], quads[which], FAR_MARGIN)
    tinted = coloured(torch.cat([near[:, :3], far[:, :3]], 3), generator)
    near[:, :3], far[:, :3] = tinted.split(VIEW[0], 3)
    return torch.cat([near, far], 1)


def _read(
    pictures: Tensor, sizes: Tensor, scene: Tensor, quads: Tensor, margin: float
) -> Tensor:
    """[n, 4, 144, 112]: the quadrilaterals straightened with a margin about them."""
    box = warp_corners(len(quads), quads.device, VIEW, margin)
    return warped(pictures, sizes, scene, homographies(box, quads), VIEW)


def witness_loss(said: Tensor, views: Views) -> tuple[Tensor, Tensor]:
    """Cross entropies of both answers; of the second only where a card lies about there."""
    truth = torch.stack([views.overlap > 0.75, views.overlap > 0.93], 1).float()
    loss = functional.binary_cross_entropy_with_logits(said, truth, reduction="none")
    near = (views.overlap > 0.5).float()
    return loss[:, 0].mean(), (loss[:, 1] * near).sum() / near.sum().clamp(min=1)
