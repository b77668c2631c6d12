"""How sure a found card is, and what its maker should know."""

from collections.abc import Sequence
from dataclasses import replace
from math import exp, log, sqrt

import numpy as np

from swapboard.photo.find import Found
from swapboard.photo.finishing import Seen
from swapboard.photo.geometry import from_top_left, intersection_over_union
from swapboard.photo.looking import LEAST_DRAWN
from swapboard.photo.plane import Lying
from swapboard.photo.proportion import by_side_lengths, proportion_of
from swapboard.photo.quality import shortcomings
from swapboard.photo.rating import CARD_PROPORTION, Rated
from swapboard.photo.sides import Fit
from swapboard.photo.sureness import BLANK_TO, SURE_ENOUGH, may_settle, sureness_of

DOUBT = 0.5
"""A confidence below this makes a card doubtful."""

TOLD_FROM_PHOTO = 0.05
"""How far, relatively, a proportion must be off 7:5 before a photo can tell it."""

CERTAIN, VAGUE = 2.5, 0.06
"""Standard errors that a proportion must be off, too, as long as they are no larger than this."""

OPEN_PROPORTIONS = (15 / 7, 14 / 5, 21 / 5, 20 / 7)
"""Two and three panels open, side by side or end to end; 10:7 is too near a card's."""

STRIPS = (2.0, 3.0)
"""Proportions of strips that are no cards: cut two to one and three to one (common practice, no
source)."""

MOST_OPEN = 1.08
"""How far off those, relatively, an open card's may be measured, however unsure that is."""

HIDDEN = 0.6
"""A share of sureness from which something is said to lie over the card."""

LIKELY = 0.6
"""A share of sureness from which something is a card rather than not, doubtful or no."""

BARE = 12.0
"""Grey levels that a picture's colours spread over when there is nothing in it."""

SETTLED = 0.5
"""px: two fits nearer than that ended on the same edges."""

AGREED = 0.97
"""Overlap over union from which two ways of looking found the same card."""

UNCLEAR = "its sides do not stand out clearly from what is around it"

BLANK = "next to nothing is drawn on it: it may be a sheet of paper, or a blank card"

TINY = "so small in the photo that it may be something else: go nearer"

PATCHED = "one of many that meet edge to edge, as patches of one picture do: lay cards apart"

CUT = "cut by the frame: the whole card should be in the photo"

COVERED = "something lies over it: a finger, or another card"

PANELS = "two halves that meet were taken for one card that lies open: lay two cards apart"

TOUCHING = "two cards that meet edge to edge look like one that lies open: lay cards apart"

UNLIKELY = 0.02
"""The confidence of what is only a guess."""

FLUSH, AS_KIN = 0.001, 0.02
"""Of the picture's long side, what shows beyond a card along its border that is not cut; and how
far its area is off its kin's then, as a logarithm."""

WEAK_SIDE = 0.45
"""A side of which less than this share lies on its line is covered, or no side."""


def judge(
    picture: np.ndarray, quad: np.ndarray, fit: Fit | None, rated: Rated, focal: float | None
) -> Found:
    """The finished card from its corners [4, 2] px and what was measured on the way.

    What its maker may mend is left to `with_shortcomings`.
    """
    height, width = picture.shape[:2]
    corners = from_top_left(quad)
    proportion = proportion_of(corners, width, height, focal)
    confidence = _confidence(rated, fit)
    kind = kind_of(proportion)
    doubts = [*_doubts(corners, fit, width, height), *_off_size(kind, proportion)]
    if confidence < DOUBT and not doubts:
        doubts.append(UNCLEAR)
    return _found(corners, proportion, kind, confidence, doubts)


def with_shortcomings(picture: np.ndarray, card: Found) -> Found:
    """The card with what its maker may mend told last."""
    told = shortcomings(picture, np.array(card.corners))
    return replace(card, reasons=(*card.reasons, *told))


def judge_seen(
    picture: np.ndarray, seen: Seen, by_edges: list[np.ndarray], lying: Lying
) -> Found:
    """The finished card from what the networks saw, and how it lies beside the others.

    `by_edges` [4, 2] px: the cards that edges alone were sure of. Where both
    ways of looking come to the same corners, they may be sure enough together.
    """
    height, width = picture.shape[:2]
    corners = seen.quad
    proportion, confidence = lying.proportion, sureness_of(seen, lying)
    second = max(by_edges, key=lambda q: intersection_over_union(corners, q), default=None)
    agreed = second is not None and intersection_over_union(corners, second) > AGREED
    if agreed and may_settle(seen, lying):
        confidence = max(confidence, SURE_ENOUGH)
        # Begun from lines of the picture itself, its fit has settled to the last digits.
        corners = second if np.abs(second - corners).max() < SETTLED else corners
    kind = kind_of(proportion, lying.spread)
    # 10:7, two panels side by side, is told from 7:5 by what is on them, if it is no farther off.
    opened = seen.paired and kind == "card" and proportion > sqrt(CARD_PROPORTION * 10 / 7)
    doubts = [*_doubts_seen(seen, lying, width, height), *_off_size(kind, proportion)]
    if seen.resized:
        doubts.append(UNCLEAR)
    if seen.refined.drawn < BLANK_TO and not seen.kin:
        doubts.append(BLANK)
    if confidence < SURE_ENOUGH and not doubts:
        doubts.append(BLANK if seen.refined.drawn < LEAST_DRAWN else UNCLEAR)
    found = _found(corners, proportion, "folded open" if opened else kind, confidence, doubts)
    return replace(found, reasons=(*found.reasons, PANELS)) if opened else found


def doubted(card: Found, reason: str) -> Found:
    """The card, doubtful for a reason more."""
    confidence = min(card.confidence, DOUBT - 0.01)
    reasons = (reason, *card.reasons)
    return replace(card, confidence=confidence, doubtful=True, reasons=reasons)


def judge_cut_off(quad: np.ndarray) -> Found:
    """A card of which so little is in the picture that its corners [4, 2] px are a guess."""
    proportion = by_side_lengths(quad)
    return _found(quad, proportion, kind_of(proportion), UNLIKELY, [CUT])


def judge_open(
    quad: np.ndarray, panels: Sequence[tuple[Found, float]], width: int, height: int,
    focal: float | None,
) -> tuple[Found, float]:
    """The card [4, 2] px whose two panels meet, each told with how likely it is a card."""
    corners = from_top_left(quad)
    share = max(share for _, share in panels)
    doubts = [CUT] if cut_by_frame(corners, width, height) else []
    if any(COVERED in panel.reasons for panel, _ in panels):
        doubts.append(COVERED)
    if share < SURE_ENOUGH and not doubts:
        doubts.append(UNCLEAR)
    proportion = proportion_of(corners, width, height, focal)
    found = _found(corners, proportion, "folded open", share, doubts)
    return replace(found, reasons=(*found.reasons, PANELS)), share


def _doubts_seen(seen: Seen, lying: Lying, width: int, height: int) -> list[str]:
    if cut_by_frame(seen.quad, width, height) and not _is_flush(seen, lying, width, height):
        return [CUT]
    if seen.refined.hidden > HIDDEN:
        return [COVERED]
    return []


def cut_by_frame(corners: np.ndarray, width: int, height: int) -> bool:
    """Whether a corner lies beyond the picture, or a side runs along its border."""
    if corners.min() < -1 or np.any(corners.max(axis=0) > (width + 1, height + 1)):
        return True
    near = max(1.5, 0.003 * max(width, height))
    low, high = corners < near, corners > np.array([width, height]) - near
    return any(
        bool((edge & np.roll(edge, -1, axis=0)).any()) for edge in (low, high))


def _is_flush(seen: Seen, lying: Lying, width: int, height: int) -> bool:
    """Whether a card along the picture's border is whole, as cards are that are laid against the
    edge of a scanner's glass: something shows beyond it, and it is as large as its kin."""
    beyond = min(seen.quad.min(), (np.array([width, height]) - seen.quad).min())
    shows = beyond > max(1.0, FLUSH * max(width, height))
    return bool(shows and seen.kin and lying.unlike < AS_KIN)


def judge_whole(picture: np.ndarray, corners: np.ndarray, doubt: bool = False) -> Found:
    """The card that fills its picture; `doubt` where something in it looks like a card too.

    A picture in which there is next to nothing is doubtful as well: scanners' lids and
    table tops are seen like that.
    """
    height, width = picture.shape[:2]
    proportion = max(width, height) / min(width, height)
    whole, doubts = "the whole picture was taken for the card", []
    if doubt:
        doubts.append(f"{whole}, but something in it may be one")
    elif _bare(picture):
        doubts.append(f"{whole}, but there is next to nothing in it")
    return _found(corners, proportion, kind_of(proportion), 0.9, doubts)


def _bare(picture: np.ndarray) -> bool:
    """Whether all but a few spots of the picture have nearly one colour."""
    step = max(min(picture.shape[:2]) // 128, 1)
    seen = picture[::step, ::step].reshape(-1, 3).astype(np.float64)
    low, high = np.percentile(seen, (3, 97), axis=0)
    return bool((high - low).max() < BARE)


def kind_of(proportion: float, spread: float = 0.0) -> str:
    """ "card", "folded open" or "other size", by long over short side.

    `spread` is its standard error, relatively: what may be a card, or one that lies open, seen at
    a tilt that cannot be told from one photo is no other size, unless it is nearer to a strip.
    """
    unsure = CERTAIN * spread if spread < VAGUE else 0
    if abs(log(proportion / CARD_PROPORTION)) <= max(log(1 + TOLD_FROM_PHOTO), unsure):
        return "card"
    near = min(max(log(1.04), unsure), log(MOST_OPEN), _off(proportion, STRIPS))
    return "folded open" if _off(proportion, OPEN_PROPORTIONS) < near else "other size"


def _off(proportion: float, usual: Sequence[float]) -> float:
    """How far, as a logarithm, a proportion is off the nearest of the usual ones."""
    return min(abs(log(proportion / one)) for one in usual)


def _found(
    corners: np.ndarray,
    proportion: float,
    kind: str,
    confidence: float,
    doubts: list[str],
) -> Found:
    confidence = min(confidence, DOUBT - 0.01) if doubts else confidence
    return Found(
        corners=tuple((round(float(x), 2), round(float(y), 2)) for x, y in corners),
        proportion=round(float(proportion), 4),
        kind=kind,
        confidence=round(confidence, 3),
        doubtful=bool(doubts),
        reasons=tuple(doubts),
    )


def _confidence(rated: Rated, fit: Fit | None) -> float:
    """A logistic curve over the score, set on rendered and real photographs.

    Of those, right ones score 0.85 and more with few exceptions, wrong ones
    less than 0.78; how much of the weakest side lies on its line shifts it.
    """
    held = 0.5 if fit is None else float(fit.held.min())
    return 1 / (1 + exp(-(rated.score - 0.8) / 0.03 - 3.0 * (min(held, 0.8) - 0.7)))


def _doubts(
    corners: np.ndarray, fit: Fit | None, width: int, height: int
) -> list[str]:
    if corners.min() < -1 or np.any(corners.max(axis=0) > (width + 1, height + 1)):
        return [CUT]
    if fit is None or fit.held.min() < WEAK_SIDE:
        return ["a side is covered, or does not stand out from what is beside it"]
    return []


def _off_size(kind: str, proportion: float) -> list[str]:
    if kind != "other size":
        return []
    off = proportion / CARD_PROPORTION - 1
    return [
        f"proportion {proportion:.2f} where a card has 1.40 ({off * 100:+.0f} %); "
        "under 3 % could not be told from a photo, this can"
    ]
