"""What a card's surroundings say of it, which one who looks at it closely alone cannot know."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from swapboard.photo.bare import unlike_bare
from swapboard.photo.networks import Networks
from swapboard.photo.voting import Glances
from swapboard.photo.warps import Pyramid
from swapboard.photo.witness import witnessed


@dataclass(frozen=True, slots=True)
class Surroundings:
    """How sure they are that a card lies there, 0–1: the proposer, which sees the whole picture
    (`proposed`), and the witness, which sees what is near and what is far about it (`witnessed`);
    and how unlike the bare places beside it that is (`unlike`, as `unlike_bare` tells)."""

    proposed: float
    witnessed: float
    unlike: float


def surroundings(
    pyramid: Pyramid, size: tuple[int, int], quads: Sequence[np.ndarray], likely: Sequence[bool],
    networks: Networks, glances: Glances,
) -> list[Surroundings]:
    """Those of quadrilaterals [4, 2] px in a picture of `size` (w, h) px; bare is what lies beside
    the `likely` ones."""
    unlike = unlike_bare(pyramid, size, quads, likely, glances.may_be_card)
    return [
        Surroundings(glances.share_on(quad), witnessed(pyramid, size, quad, networks), off)
        for quad, off in zip(quads, unlike, strict=True)
    ]
