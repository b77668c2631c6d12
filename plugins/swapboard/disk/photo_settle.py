"""Which corners a post means, and what is to be said about them."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from swapboard.photo.choose import card_at, middle_of
from swapboard.photo.find import Found
from swapboard.photo.geometry import centred_rectangle, is_convex
from swapboard.photo.proportion import proportion_of
from swapboard.photo.rectify import CARD
from swapboard.problems import WARNING, Problem
from swapboard.records.types import Corners, PhotoSpot


@dataclass(frozen=True, slots=True)
class Request:
    """A card's picture that a post asks for.

    `side` is "front" or "back"; `corners` a keeper's own, overriding the
    finder; `panels` how many cards wide it is when open; `path` and `line` say
    where in the board it is asked for.
    """

    card: str
    side: str
    spot: PhotoSpot
    corners: Corners | None
    panels: int
    path: str
    line: int


def settle(
    request: Request, found: Sequence[Found], size: tuple[int, int]
) -> tuple[Found | None, list[Problem]]:
    """Which corners a request means, and what is to be said about them.

    `found` are the cards of the photo, `size` its (width, height) in px. None
    comes with at least one error.
    """

    if request.corners is not None:
        return _keepers_own(request, size)
    field = "Photo" if request.side == "front" else "Back"
    name = request.spot.file
    card = card_at(found, size, request.spot.at)
    sure = [one for one in found if not one.doubtful]
    if request.spot.at is not None and card is None and found:
        at = _percent(request.spot.at)
        must = "must have a card under the point it names"
        fix = f"say where the card is: {_places(name, found, size)}"
        return None, [Problem(request.path, request.line, field, must, f"{name} at {at}", fix)]
    if card is None:
        card = _centred(size, request.panels)
    elif request.spot.at is None and len(sure) > 1:
        must = "should say which of the cards in the photo it means"
        fix = f"add the place: {_places(name, found, size)}"
        got = f"{name}, which shows {len(sure)}"
        return card, [Problem(request.path, request.line, field, must, got, fix, WARNING)]
    if not card.doubtful:
        return card, []
    must = "should be looked at: it is not sure that the card was cut out right"
    own = "Cut out at: x y, x y, x y, x y"
    fix = (
        f'look at the card\'s page; where it is cut wrong, give its corners as "{own}", '
        "clockwise from its top left, or take a photo with the whole card on a plain table"
    )
    got = f"{name}: {', '.join(card.reasons)}" if card.reasons else name
    return card, [Problem(request.path, request.line, field, must, got, fix, WARNING)]


def _places(name: str, found: Sequence[Found], size: tuple[int, int]) -> str:

    return " or ".join(f'"{name} at {_percent(middle_of(card, size))}"' for card in found)


def _percent(at: tuple[float, float]) -> str:
    return f"{at[0] * 100:.0f}% {at[1] * 100:.0f}%"


def _centred(size: tuple[int, int], panels: int) -> Found:
    """For a photo in which nothing was found: the middle of it, to be looked at."""

    across, down = CARD[0] * panels, CARD[1]
    if (size[0] > size[1]) != (across > down):
        across, down = down, across
    corners = centred_rectangle(*size, (across, down))
    points = tuple((float(x), float(y)) for x, y in corners)
    ratio = max(across, down) / min(across, down)
    kind = "card" if panels == 1 else "folded open"
    return Found(points, round(ratio, 4), kind, 0.0, True, ("no card found",))


def _keepers_own(request: Request, size: tuple[int, int]) -> tuple[Found | None, list[Problem]]:

    scale = size if request.corners.shares else (1, 1)
    points = tuple((float(x * scale[0]), float(y * scale[1])) for x, y in request.corners.points)
    quad = np.array(points)
    beyond = np.any(quad < -0.5 * np.array(size)) or np.any(quad > 1.5 * np.array(size))
    if quad.shape != (4, 2) or not is_convex(quad) or beyond:
        must = "must be four corners of the card, clockwise from its own top left"
        got = ", ".join(f"{x:g} {y:g}" for x, y in request.corners.points)
        fix = f"give them in px of the upright photo, which is {size[0]} × {size[1]} px"
        return None, [Problem(request.path, request.line, "Cut out at", must, got, fix)]
    kind = "card" if request.panels == 1 else "folded open"
    proportion = round(proportion_of(quad, *size), 4)
    return Found(points, proportion, kind, 1.0, False, ()), []
