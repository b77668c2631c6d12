"""Pictures that are nothing but the card: scans and photos cropped before.

A camera's own proportions are 4:3, 3:2 and 16:9. A picture near 7:5 was almost
always made to fit a card, and what is found within it is a frame in its art;
but a sheet of the A series has 1.414, so what is found has a say as well.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from swapboard.photo.geometry import mean_sides, side_lengths, signed_area

CARD_INCHES = (2.5, 3.5)
CARD_PROPORTION = 1.4
NEAR = 0.012
"""How far, relatively, a picture's proportion may be off 7:5 and still tell by itself."""

OPEN = (15 / 7, 14 / 5)
"""Two and three panels side by side: no camera has them either."""

OPEN_NEAR = 0.006
"""How far, relatively, a picture may be off those; phones' screens are 13:6 and 20:9."""

LIKELY = (1.345, 1.47)
"""Proportions of pictures cropped to a card by hand; no camera and no sheet but A4's has them."""

FILLED, CLEARLY = 0.3, 0.9
"""How sure the network must be that the card's sides run along the picture's, 0–1, to say so; and
to say so though something in it looks like a card, or several where it is so at once."""

UNASKED, SURELY_NOT = 0.5, 0.06
"""What stands for it where no network was asked; and from where on down it says that they do not:
then what lies in the picture is more than a frame."""

NEARLY_ALL = 0.85
"""What a card cropped by hand covers of its picture: 4 % of table all round."""

MIDDLE, EVEN = 0.02, 0.06
"""Of the picture's long side, how far the margins on its two sides may differ: of a rectangle in
the very middle, where nobody lays a card by chance; of a frame drawn along the edge."""

NARROW, SAME_PAPER = 0.03, 15.0
"""Of the picture's long side, how wide the paper beyond a line drawn along a card's edge is at
most; and grey levels that the two sides of such a line may differ by: a table's do by more. (Where
some table was left on cards cropped by other hands, the most unlike side's did by 21 and more.)"""

BESIDE = np.linspace(0.004, 0.025, 6)
"""Of the picture's long side, how far within a line its paper is looked for: next to it more may
be drawn."""

EVEN_ALL_ROUND, AS_WIDE, STILL_NARROW = 0.5, 0.0045, 0.0205
"""Of its widest side, what the narrowest of a band drawn along a card's edge is at least; and of
the picture's long side, how wide the one is at least and the other at most. (Of 225 pictures
cropped by other hands 16 had table left on all four sides, in none so wide on the narrowest.)"""

BAND, ONE_TONE, PALE = 0.0135, (50.0, 20.0), 200.0
"""Of the picture's long side, how wide a band is that is drawn along a card's edge, on every side;
grey levels by which its sides differ at most, and how much each spreads; and from which on it may
be a scanner's lid. (Of 130 cropped pictures by other hands none had so much table left on all four
sides; two had such a band.)"""

SLIVER = 0.006
"""Of the picture's sides: what is left of the table, if less, is left out with the card's edge."""

STRIP = 0.03
"""How much farther from 7:5, as a logarithm, a card may be than its picture."""

OFF = 0.05
"""How far, relatively, what lies within may be off 7:5 and count as a card of its own."""

DETAIL, ALL = 0.06, 0.9
"""Shares of the picture: less is a detail of the art, more is the card itself, badly seen."""

LAID_OUT, ALIKE = (4, 3), 0.05
"""So many cards with something bare about them are a scan, however much it looks like one card
of many fields; or so many of one size, as far as sides may differ relatively."""

GLASS, ALL_OF_IT, ON_GLASS = ((8.27, 11.69), (8.5, 11.7)), 0.005, 0.03
"""Inches of a flatbed's glass (A4, ISO 216; the other is common practice, no source), and how far
relatively a picture of all of a thing, and a card on that glass, may be off: what has just a card's
size there is one."""


@dataclass(frozen=True, slots=True)
class Within:
    """Something sure enough that was found in the picture: corners [4, 2] px, true proportion."""

    corners: np.ndarray
    proportion: float


def may_be_whole(width: int, height: int) -> bool:
    """Whether a picture w × h px has a proportion that cards are cropped to."""
    return LIKELY[0] <= max(width, height) / min(width, height) <= LIKELY[1]


def is_exact(width: int, height: int) -> bool:
    """Whether a picture w × h px has just a card's proportion, as one made to fit it has."""
    return abs(max(width, height) / min(width, height) / CARD_PROPORTION - 1) < ALL_OF_IT


def is_whole_card(
    width: int, height: int, inner: Sequence[Within], filled: float = 0.0,
    at_once: float = UNASKED,
) -> bool:
    """Whether a picture w × h px is one card; `inner` is what was found in it with some certainty,
    `filled` how much a card's sides look to run along the picture's, 0–1, `at_once` the same
    before the sides were moved.

    It is, where its proportion says so, unless a card lies in it the way cards
    lie on tables and on a scanner's glass: a little turned, or off the middle,
    or small, or several. A card that lies open is told likewise, if nothing in it stands out.
    """
    proportion = max(width, height) / min(width, height)
    if any(abs(proportion / one - 1) <= OPEN_NEAR for one in OPEN):
        return not stands_out(width, height, inner)
    if not may_be_whole(width, height):
        return False
    cards = [one for one in inner if _is_card_of_its_own(one, width, height)]
    bare = sum(_share(one, width, height) for one in cards) < ALL
    laid_out = bare and _are_laid_out(cards, width, height)
    if at_once >= CLEARLY and not laid_out:
        return True
    if len(cards) > 1 or laid_out or (cards and max(filled, at_once) < SURELY_NOT):
        return False
    if filled < CLEARLY and cards and not _part_of_it(cards[0].corners, width, height, filled):
        return False
    near = abs(proportion / CARD_PROPORTION - 1) <= NEAR
    return near or filled >= FILLED or not stands_out(width, height, inner)


def _are_laid_out(cards: Sequence[Within], width: int, height: int) -> bool:
    """Whether what was found in a picture w × h px are cards on a scanner's glass."""
    sizes = [np.sort(mean_sides(one.corners)) for one in cards]
    alike = max((sum(_alike(one, other, ALIKE) for other in sizes) for one in sizes), default=0)
    return len(cards) >= LAID_OUT[0] or alike >= LAID_OUT[1] or any(
        _alike(one, np.array(CARD_INCHES) * (width + height) / sum(glass), ON_GLASS)
        for glass in GLASS for one in sizes
        if abs(max(width, height) / min(width, height) * glass[0] / glass[1] - 1) < ALL_OF_IT)


def _alike(one: np.ndarray, other: np.ndarray, off: float) -> bool:
    return bool(np.abs(np.log(one / other)).max() < off)


def trimmed(quad: np.ndarray, width: int, height: int) -> np.ndarray:
    """The card's corners [4, 2] px, clockwise from the top left, within the picture.

    A side that runs along the picture's own is that.
    """
    corners = quad.copy()
    left, right, top, bottom = [0, 3], [1, 2], [0, 1], [2, 3]
    for ends, axis, edge, length in ((left, 0, 0, width), (right, 0, width, width),
                                     (top, 1, 0, height), (bottom, 1, height, height)):
        if np.abs(corners[ends, axis] - edge).max() < SLIVER * length:
            corners[ends, axis] = edge
    return np.clip(corners, 0, (width, height))


def is_narrower(quad: np.ndarray, width: int, height: int) -> bool:
    """Whether a card's sides [4, 2] px leave out so much of a picture w × h px on one side that it
    is less of 7:5 than the picture: what is left out is a strip of the card, no sliver of table."""
    wide, tall = mean_sides(quad)
    off, before = (abs(np.log(max(one) / min(one) / CARD_PROPORTION))
                   for one in ((wide, tall), (width, height)))
    return bool(off > before + STRIP)


def is_drawn(picture: np.ndarray, quad: np.ndarray) -> bool:
    """Whether a card's sides [4, 2] px, clockwise from the top left, are but lines drawn along the
    edge of one that fills the picture uint8 [h, w, 3]: beyond them, but for a shadow on one of
    several, lies the same paper."""
    long, papers = max(picture.shape[:2]), []
    for line, border in _along_sides(picture, quad):
        gap = np.linalg.norm(line - border, axis=1, keepdims=True)
        if gap.max() > NARROW * long:
            return False
        if gap.mean() >= SLIVER * long:
            inward = (line - border) / np.maximum(gap, 1) * long
            beyond = _colours_at(picture, (line + border) / 2)
            apart = [beyond - _colours_at(picture, line + far * inward) for far in BESIDE]
            papers.append(np.median(np.abs(apart).max(axis=2), axis=1).min() < SAME_PAPER)
    return bool(papers) and sum(papers) >= len(papers) - (len(papers) > 2)


def is_band(picture: np.ndarray, quad: np.ndarray) -> bool:
    """Whether what a card's sides [4, 2] px, clockwise from the top left, leave out of the picture
    uint8 [h, w, 3] is a band: as even all round as no sliver of table is that was left by hand; or
    of one tone, and as wide on every side as none is. Not what may be a scanner's lid."""
    long, widths, sides = max(picture.shape[:2]), [], []
    for at, (line, border) in enumerate(_along_sides(picture, quad)):
        across = 1 if at % 2 == 0 else 0
        widths.append(np.abs(line - border)[:, across].mean() / long)
        sides.append(_colours_at(picture, (line + border) / 2))
    least, most = min(widths), max(widths)
    means = np.array([side.mean(axis=0) for side in sides])
    spread = max(float(side.std(axis=0).max()) for side in sides)
    even = least > max(AS_WIDE, EVEN_ALL_ROUND * most) and most < STILL_NARROW
    one_tone = np.ptp(means, axis=0).max() < ONE_TONE[0] and spread < ONE_TONE[1]
    return bool((even or (least > BAND and one_tone)) and means.mean() < PALE)


def _along_sides(
    picture: np.ndarray, quad: np.ndarray
) -> Iterator[tuple[np.ndarray, np.ndarray]]:
    """Points [64, 2] px along each of a card's sides, and as many along the picture's there."""
    along, frame = np.linspace(0.05, 0.95, 64)[:, None], whole_frame(*picture.shape[1::-1])
    for at in range(4):
        one, other = (corners[at] + along * (corners[(at + 1) % 4] - corners[at])
                      for corners in (quad, frame))
        yield one, other


def _colours_at(picture: np.ndarray, points: np.ndarray) -> np.ndarray:
    """Mean colours [8, 3] of eight stretches of points [64, 2] px."""
    last = np.array(picture.shape[1::-1]) - 1
    x, y = np.clip(points, 0, last).astype(int).T
    return picture[y, x].reshape(8, 8, 3).mean(axis=1)


def stands_out(width: int, height: int, inner: Sequence[Within]) -> bool:
    """Whether something in a whole card leaves a doubt that the picture is one."""
    return any(
        DETAIL < _share(one, width, height) < ALL
        and not _like_a_drawn_frame(one.corners, width, height)
        for one in inner
    )


def whole_frame(width: int, height: int) -> np.ndarray:
    """The picture's own corners [4, 2], clockwise from the top left."""
    return np.array([[0, 0], [width, 0], [width, height], [0, height]], dtype=np.float64)


def _is_card_of_its_own(one: Within, width: int, height: int) -> bool:
    off = abs(one.proportion / CARD_PROPORTION - 1)
    return off <= OFF and _share(one, width, height) < ALL


def _share(one: Within, width: int, height: int) -> float:
    return abs(signed_area(one.corners)) / (width * height)


def _part_of_it(quad: np.ndarray, width: int, height: int, filled: float) -> bool:
    """Whether a rectangle of a card's proportion is drawn in what may be a whole card."""
    if filled >= FILLED and _centred(quad, width, height, MIDDLE):
        return True
    return _like_a_drawn_frame(quad, width, height)


def _like_a_drawn_frame(quad: np.ndarray, width: int, height: int) -> bool:
    """Parallel to the picture's sides, large and even all round; along its border; or tiny."""
    if _along_the_border(quad, width, height):
        return True
    if abs(signed_area(quad)) < 0.45 * width * height:
        return abs(signed_area(quad)) < DETAIL * width * height
    return _centred(quad, width, height, EVEN)


def _centred(quad: np.ndarray, width: int, height: int, most: float) -> bool:
    """Whether it lies straight, with margins that differ by no more than `most` of the picture."""
    sides = np.roll(quad, -1, axis=0) - quad
    slant = np.minimum(np.abs(sides[:, 0]), np.abs(sides[:, 1])) / side_lengths(quad)
    (left, top), (right, bottom) = quad.min(axis=0), quad.max(axis=0)
    uneven = max(abs(left - (width - right)), abs(top - (height - bottom)))
    return bool(slant.max() < 0.012 and uneven < most * max(width, height))


def _along_the_border(quad: np.ndarray, width: int, height: int) -> bool:
    """Whether a side runs where the picture ends: no card's edge, or one just as well left out."""
    near = NEAR * max(width, height)
    low, high = quad < near, quad > np.array([width, height]) - near
    return any(bool((edge & np.roll(edge, -1, axis=0)).any()) for edge in (low, high))
