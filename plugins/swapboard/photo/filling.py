"""Pictures that one card fills, by the eyes of the network that straightens it."""

from dataclasses import dataclass

import numpy as np

from swapboard.photo.blocks import cards_of_nine
from swapboard.photo.geometry import from_top_left, intersection_over_union
from swapboard.photo.looking import Looks
from swapboard.photo.networks import Networks
from swapboard.photo.proportion import by_side_lengths
from swapboard.photo.readings import choose, is_sure
from swapboard.photo.refining import STILL, refine
from swapboard.photo.voting import Glances
from swapboard.photo.whole_frame import (
    FILLED,
    NEARLY_ALL,
    UNASKED,
    Within,
    is_band,
    is_drawn,
    is_narrower,
    may_be_whole,
    trimmed,
    whole_frame,
)


@dataclass(frozen=True, slots=True)
class Filling:
    """Where the corners [4, 2] px of a card are that fills its picture; how much it looks so, 0–1,
    and how much it did before the sides were moved (`at_once`)."""

    corners: np.ndarray
    filled: float
    at_once: float


def filling_of(picture: np.ndarray, networks: Networks | None) -> Filling:
    """How the picture uint8 [h, w, 3] looks as nothing but a card, and no block of cards."""
    height, width = picture.shape[:2]
    frame = whole_frame(width, height)
    if networks is None or not may_be_whole(width, height):
        return Filling(frame, 0.0, UNASKED)
    looks = Looks(picture, networks)
    first = refine(looks.pyramid, (width, height), frame, networks, rounds=1)
    if first is None:
        return Filling(frame, 0.0, 0.0)
    seen = refine(
        looks.pyramid, (width, height), first.quad, networks, rounds=2, settled=STILL) or first
    if seen.tight < FILLED or intersection_over_union(seen.quad, frame) < NEARLY_ALL:
        return Filling(frame, 0.0, first.tight)
    if cards_of_nine(looks, seen.quad):
        return Filling(frame, 0.0, 0.0)
    corners = trimmed(from_top_left(seen.quad), width, height)
    drawn = is_drawn(picture, corners) or is_band(picture, corners)
    whole = drawn or is_narrower(corners, width, height)
    return Filling(frame if whole else corners, seen.tight, first.tight)


def first_seen(picture: np.ndarray, networks: Networks) -> list[Within]:
    """What surely looks like a card in a picture that one may fill, at a first look."""
    looks, glances = Looks(picture, networks), Glances(picture, networks)
    looks.look(glances.quads())
    return [Within(one.quad, by_side_lengths(one.quad))
            for one, _ in choose(looks.looked) if is_sure(one)]
