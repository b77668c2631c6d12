"""What the keeper's page for putting corners right shows: every crop, doubtful ones first."""

import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from swapboard.photo.choose import middle_of
from swapboard.photo.find import Found
from swapboard.photo.geometry import centred_rectangle, intersection_over_union
from swapboard.photo.rectify import CARD

VERSION = 1

SAME = 0.5
"""Cards that share more of their joint area than this are one card."""

Size = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Asked:
    """A picture that a post asks for, and the card it got.

    `side` is "front" or "back"; `found` is None where none could be settled
    on, and then `trouble` says why.
    """

    post: str
    title: str
    side: str
    panels: int
    found: Found | None
    trouble: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Crop:
    """One card in one photo, as the page shows it.

    `post` is the file that asks for it, "" where none does, and `side` is then
    "" too; `size` (width, height) and `corners` are px of the upright photo,
    clockwise from the card's own top left; `at` is the point of the photo,
    like "41% 22%", by which a post can name it.
    """

    post: str
    title: str
    side: str
    photo: str
    size: Size
    corners: tuple[tuple[float, float], ...]
    panels: int
    doubtful: bool
    reasons: tuple[str, ...]
    at: str


@dataclass(frozen=True, slots=True)
class Copy:
    """A photo's copy for the page: its name without ending, and (width, height) in px."""

    name: str
    size: Size


@dataclass(frozen=True, slots=True)
class FixPage:
    """The whole page. `unshown` are (file, why) of what could not be shown;
    `left_out` counts photos without any doubt that were too many to copy."""

    board: str
    language: str
    crops: tuple[Crop, ...]
    unshown: tuple[tuple[str, str], ...] = ()
    left_out: int = 0


def crops_in(
    photo: str, size: Size, found: Sequence[Found], asked: Sequence[Asked]
) -> tuple[Crop, ...]:
    """The crops of one photo: those that posts ask for, then the found ones that none does.

    `photo` is its path in the board, `size` (width, height) in px. A post that
    got no card is shown with the largest rectangle in the middle of the photo,
    for its corners to be moved from there.
    """
    crops = [_asked_crop(photo, size, one) for one in asked]
    taken = [np.array(one.found.corners) for one in asked if one.found is not None]
    for card in found:
        quad = np.array(card.corners)
        if not any(intersection_over_union(quad, other) > SAME for other in taken):
            crops.append(_crop(photo, size, Asked("", "", "", 1, card), card))
    return tuple(crops)


def in_order(crops: Iterable[Crop]) -> tuple[Crop, ...]:
    """Doubtful crops first, then those that a post asks for; by photo, post and side, and
    those without a post in reading order."""
    return tuple(
        sorted(
            crops, key=lambda c: (not c.doubtful, not c.post, c.photo, c.post, c.side != "front")
        )
    )


def corner_line(crop: Crop) -> str:
    """`Cut out at: x y, x y, x y, x y`, px with one decimal.

    Corners beyond the frame are put on it: a post cannot name what lies outside.
    """
    across, down = crop.size
    points = ((min(max(x, 0), across), min(max(y, 0), down)) for x, y in crop.corners)
    return "Cut out at: " + ", ".join(f"{x:.1f} {y:.1f}" for x, y in points)


def fix_data(page: FixPage, copies: Mapping[str, Copy]) -> str:
    """The page's data as a script that hands it to `swapboardFix`.

    `copies` holds each photo's copy by its path in the board. Only ASCII is
    written, so that no name can end the script or a line of it.
    """
    sizes = sorted({crop.photo: crop.size for crop in page.crops}.items())
    number = {name: index for index, (name, _) in enumerate(sizes)}
    photos = [
        {"file": name, "size": size, "copy": copies[name].name, "copySize": copies[name].size}
        for name, size in sizes
    ]
    cards = [
        {
            "post": crop.post,
            "title": crop.title,
            "side": crop.side,
            "photo": number[crop.photo],
            "corners": crop.corners,
            "panels": crop.panels,
            "doubtful": crop.doubtful,
            "reasons": crop.reasons,
            "at": crop.at,
        }
        for crop in page.crops
    ]
    data = {"version": VERSION, "photos": photos, "cards": cards}
    return f"swapboardFix({json.dumps(data, separators=(',', ':'))});\n"


def _asked_crop(photo: str, size: Size, asked: Asked) -> Crop:
    card = asked.found
    if card is None:
        proportion = (CARD[0] * asked.panels, CARD[1])
        if (size[0] > size[1]) != (proportion[0] > proportion[1]):
            proportion = proportion[::-1]
        corners = tuple((float(x), float(y)) for x, y in centred_rectangle(*size, proportion))
        card = Found(corners, 0.0, "card", 0.0, True, asked.trouble)
    return _crop(photo, size, asked, card)


def _crop(photo: str, size: Size, asked: Asked, card: Found) -> Crop:
    x, y = middle_of(card, size)
    return Crop(
        post=asked.post,
        title=asked.title,
        side=asked.side,
        photo=photo,
        size=size,
        corners=card.corners,
        panels=asked.panels,
        doubtful=card.doubtful,
        reasons=card.reasons,
        at=f"{x * 100:.0f}% {y * 100:.0f}%",
    )
